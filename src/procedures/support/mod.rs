//! Whether qualification records, or the fixed limits of a code, support a procedure: what it allows is put as
//! proposals, and each one has to lie inside what these allow.

mod document;
mod findings;
mod judged;
mod places;
mod proposals;

pub use document::{QualificationRoute, SupportDocument, SupportKind};
pub use judged::{JudgedAtRelease, NotJudgedClause, RecordJudgedBy, RememberedRule};

pub(super) use findings::{Review, Reviewed};
pub(super) use proposals::combinations;

use std::collections::BTreeMap;

use sqlx::PgConnection;

use self::proposals::Basis;
use super::ProcedureDocument;
use crate::{
    consumables::{self, ConsumableDocument},
    http::problem::{FieldError, Problem},
    qualifications::{self, RecordInUse},
    qualify::{JobFacts, Pack, derive, derive_all, judge, record::Record, without_test},
    quantity::UnitSystem,
    records,
    rule_packs::{self, PackInUse, find_pack},
    wire::{self, CodeEditionDocument},
};

/// Holds what a procedure allows against its qualification records as they stand, or against fixed limits; `None`
/// where its support is declared.
///
/// # Errors
/// A failing database, or a stored document that cannot be read.
pub(super) async fn review(
    db: &mut PgConnection,
    document: &ProcedureDocument,
) -> Result<Option<Review>, Problem> {
    let support = &document.support;
    let Some(key) = support.pack.as_deref().filter(|_| support.kind != SupportKind::Declared)
    else {
        return Ok(None);
    };
    let found = find_pack(db, key).await?;
    let PackInUse { pack, revision, is_withdrawn } =
        found.ok_or_else(|| Problem::internal(format!("no rule pack {key}")))?;
    let codes: Vec<_> = document.codes.iter().map(CodeEditionDocument::compile).collect();
    let mut unfit = support.unfit(&pack, &codes);
    if is_withdrawn {
        let detail = format!("the rule pack {key} was taken out of use");
        unfit.push(FieldError { pointer: "/support/pack".to_owned(), detail });
    }
    let mut review = if unfit.is_empty() {
        judged(db, document, &pack).await?
    } else {
        Review::new(document, &pack, unfit, &[])
    };
    review.pack_revision = revision;
    Ok(Some(review))
}

async fn judged(
    db: &mut PgConnection,
    document: &ProcedureDocument,
    pack: &Pack,
) -> Result<Review, Problem> {
    let job = document.support.facts(pack)?;
    let consumables = consumables_of(db, document).await?;
    if document.support.kind == SupportKind::Prequalified {
        return fixed_limits(document, pack, &job, &consumables);
    }
    let named: Vec<_> = document.support.records.iter().map(ToString::to_string).collect();
    let in_use = qualifications::in_use(db, &pack.code, &named).await?;
    held_against(document, pack, &job, &in_use, &consumables)
}

/// Locks the records and the own rules that a procedure rests on, so that none is withdrawn while it is released.
///
/// # Errors
/// A failing database.
pub(super) async fn hold_records(
    db: &mut PgConnection,
    document: &ProcedureDocument,
) -> Result<(), Problem> {
    let mut named: Vec<_> = document.support.records.iter().map(ToString::to_string).collect();
    named.sort_unstable();
    for number in &named {
        records::lock(db, qualifications::KIND, number).await?;
    }
    if let Some(key) = document.support.own_rules() {
        records::lock(db, rule_packs::KIND, key).await?;
    }
    Ok(())
}

async fn consumables_of(
    db: &mut PgConnection,
    document: &ProcedureDocument,
) -> Result<BTreeMap<String, ConsumableDocument>, Problem> {
    let mut found = BTreeMap::new();
    for code in &document.consumables {
        if let Some(stored) = records::find(db, consumables::KIND, code.as_str()).await? {
            let own: ConsumableDocument = wire::read_stored(&stored.document)
                .map_err(|_| Problem::internal("a stored document"))?;
            found.insert(code.to_string(), own);
        }
    }
    Ok(found)
}

/// Holds a procedure against the limits of a code that asks for no test.
fn fixed_limits(
    document: &ProcedureDocument,
    pack: &Pack,
    job: &JobFacts,
    consumables: &BTreeMap<String, ConsumableDocument>,
) -> Result<Review, Problem> {
    let columns = document.support.columns.unwrap_or(UnitSystem::Metric);
    let range = without_test(pack, &[document.process], columns, job).map_err(Problem::internal)?;
    let ranges = [range];
    let mut review = Review::prequalified(document, pack);
    for asked in proposals::of(document, &Basis::of_pack(pack), consumables) {
        review.take(document, &asked.about, &judge(&asked.proposal, &ranges));
    }
    Ok(review)
}

fn held_against(
    document: &ProcedureDocument,
    pack: &Pack,
    job: &JobFacts,
    in_use: &[RecordInUse],
    consumables: &BTreeMap<String, ConsumableDocument>,
) -> Result<Review, Problem> {
    let mut refused = Vec::new();
    let mut supporting: Vec<&RecordInUse> = Vec::new();
    for (index, number) in document.support.records.iter().enumerate() {
        let own = in_use.iter().find(|own| own.number == number.as_str());
        let reason = match own {
            None => Some(format!("there is no {number} in use that was made by {}", pack.code)),
            Some(own) if !own.is_signed => Some(format!("nobody has signed {number}")),
            Some(own) => derive(&own.record, pack, job).err().map(|wrong| wrong.to_string()),
        };
        match (reason, own) {
            (None, Some(own)) => supporting.push(own),
            (reason, _) => refused.push(FieldError {
                pointer: format!("/support/records/{index}"),
                detail: reason.unwrap_or_default(),
            }),
        }
    }
    let records: Vec<&Record> = supporting.iter().map(|own| &own.record).collect();
    let range = derive_all(&records, pack, job).map_err(Problem::internal)?;
    let ranges = [range];
    let mut review = Review::new(document, pack, refused, &supporting);
    if !supporting.is_empty() {
        for asked in proposals::of(document, &Basis::of_records(&records), consumables) {
            review.take(document, &asked.about, &judge(&asked.proposal, &ranges));
        }
    }
    Ok(review)
}
