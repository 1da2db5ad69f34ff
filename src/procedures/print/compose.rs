//! The sheet of one revision, in the order in which ISO 15609-1:2019 lists the content of a procedure.

use super::{
    filler,
    gather::Gathered,
    heat, joint, metal, runs,
    say::Say,
    sources::{approvals, chain, support},
    warnings,
};
use crate::{
    check::ProcedureState,
    organisation::PublicAddress,
    quantity::UnitSystem,
    sheet::{self, Drawing, Head, Paper, Section, Sheet},
};

/// The sheet.
pub(super) fn sheet(gathered: &Gathered, units: UnitSystem, paper: Paper) -> Sheet {
    let say = Say::new(units);
    let sections = sections(gathered, &say);
    let (code, revision) = (&gathered.stored.code, gathered.stored.revision);
    let (state, stamp) = standing(gathered);
    let hash = hex::encode(&gathered.stored.document_hash);
    let stamped = stamp.map(|stamp| format!(" · {stamp}")).unwrap_or_default();
    let mut sheet = Sheet::new(
        paper,
        Head {
            title: &format!("Welding procedure {code}"),
            subtitle: &gathered.document.title,
            running: &format!("{code} · revision {revision} · {state}{stamped}"),
            foot: &format!("{} · document {hash}", gathered.letterhead.name),
            stamp,
            written: gathered.written(),
        },
    );
    for notice in warnings::notices(gathered) {
        sheet.notice(&notice);
    }
    if say.has_converted() {
        sheet.notice(
            "Values were written in other units: limits are rounded inward here, and what was written stands \
             beside. What was written counts.",
        );
    }
    for section in sections {
        sheet.push(section);
    }
    sheet
}

fn sections(gathered: &Gathered, say: &Say) -> Vec<Section> {
    let mut all = vec![head(gathered)];
    all.push(metal::section(&gathered.document, say));
    all.push(joint::section(&gathered.document, say));
    all.push(joint::preparation(&gathered.document, say));
    all.push(filler::section(gathered, say));
    all.extend(filler::called_up(gathered, say));
    all.push(filler::gas(&gathered.document));
    all.extend(runs::sections(gathered, say));
    all.push(heat::section(&gathered.document, say));
    all.push(support(gathered));
    all.push(approvals(gathered));
    all.push(warnings::cautions(gathered));
    all.push(chain(gathered));
    all
}

/// Number, revision, state, whose it is and for which codes.
fn head(gathered: &Gathered) -> Section {
    let document = &gathered.document;
    let mut part = super::say::Part::new("Procedure", Some("ISO 15609-1:2019, 4.2"));
    let stored = &gathered.stored;
    let edit = if stored.edit > 1 { format!(", edit {}", stored.edit) } else { String::new() };
    part.also("Number", Some(stored.code.clone()));
    part.also("Revision", Some(format!("{}{edit}", stored.revision)));
    part.also("State", Some(standing(gathered).0.to_owned()));
    part.also("In force", Some(in_force(gathered)));
    part.also("Organisation", Some(gathered.letterhead.name.clone()));
    part.fact("Manufacturer", document.manufacturer.clone());
    let codes = document.codes.iter().map(|own| format!("{} {}", own.name, own.edition));
    part.fact("Governing codes", super::say::listed(codes));
    part.also("Note", document.note.clone());
    let mut section = part.end();
    if let Some(code) = code(gathered) {
        section.beside(code);
    }
    section
}

/// The state in words, and what to stamp on every page where nobody may weld by the sheet.
pub(super) fn standing(gathered: &Gathered) -> (&'static str, Option<&'static str>) {
    match gathered.state() {
        Some(ProcedureState::Released) => ("released", None),
        Some(ProcedureState::Superseded) if gathered.standing.effective_until.is_some() => (
            "superseded, in force to its last day",
            Some("Superseded: only for jobs under way, to its last day"),
        ),
        Some(ProcedureState::Superseded) => {
            ("superseded", Some("Superseded: do not weld by this sheet"))
        }
        Some(ProcedureState::Withdrawn) => {
            ("withdrawn", Some("Withdrawn: do not weld by this sheet"))
        }
        Some(ProcedureState::InReview) => {
            ("in review", Some("In review, not released: do not weld by this sheet"))
        }
        Some(ProcedureState::Draft) | None => {
            ("draft", Some("Draft, not released: do not weld by this sheet"))
        }
    }
}

/// On which days it may be welded by.
fn in_force(gathered: &Gathered) -> String {
    let standing = &gathered.standing;
    let until = standing.effective_until;
    let from = standing.effective_from.map(|from| format!("from {from}"));
    match gathered.state() {
        Some(ProcedureState::Released) => from.unwrap_or_else(|| "since its release".to_owned()),
        Some(ProcedureState::Superseded) => until.map_or_else(
            || "no more".to_owned(),
            |until| format!("{} to {until}, included", from.unwrap_or_default()).trim().to_owned(),
        ),
        Some(ProcedureState::Withdrawn) => "no more".to_owned(),
        Some(ProcedureState::Draft | ProcedureState::InReview) | None => "no".to_owned(),
    }
}

/// The code that leads to the revision as it stands, or says which revision this is where no address is known.
fn code(gathered: &Gathered) -> Option<Drawing> {
    let (text, caption) = code_text(gathered);
    sheet::code(&text, &caption)
}

/// What the code holds, and what stands below it.
pub(super) fn code_text(gathered: &Gathered) -> (String, String) {
    let (code, revision) = (&gathered.stored.code, gathered.stored.revision);
    if let Some(address) = &gathered.letterhead.address {
        let link = link(address, code, revision);
        let caption = format!("Does it still stand? Ask here before welding:\n{link}");
        return (link, caption);
    }
    let hash = hex::encode(&gathered.stored.document_hash);
    let text = format!("procedure {code} revision {revision} sha256 {hash}");
    (text, "Number, revision and hash of this document".to_owned())
}

fn link(address: &PublicAddress, code: &str, revision: i32) -> String {
    format!("{}/v1/procedures/{code}?revision={revision}", address.as_str())
}
