//! `POST /v1/qualifications/{code}/range`

mod answer_out;

pub(crate) use answer_out::CAUTION;
pub use answer_out::{MissingFactOut, QualifiedRangeAnswer, TestPieceOut};
pub(super) use answer_out::{missing, piece};

use std::borrow::Cow;

use axum::{Json, extract::State};
use sqlx::PgConnection;

use super::{
    KIND, QualificationDocument,
    facts_in::{self, JobFactsIn},
    signed, store,
};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{
        AppState, CodePath, JsonBody, Query, aside,
        problem::{CONFLICT, Problem},
        responses::AskAboutProblems,
    },
    qualify::{JobFacts, Pack, derive},
    records::{self, ReadQuery, Stored},
    wire::{self, wire_object},
};

wire_object! {
    /// For which job, and by which rules.
    pub struct QualifiedRangeIn {
        /// Key of the rule pack; that of the record's own code, edition and level where left out.
        pub pack: Option<String>,
        /// What the job demands.
        pub job: Option<JobFactsIn>,
    }
}

/// Ask what a record qualifies
///
/// Derives the range of qualification of the newest revision, or of the one asked for, clause by clause:
/// every limit with its working, class and confidence, and what is not judged because a fact is missing.
/// The record is judged in its own units; nothing is converted.
#[utoipa::path(
    post, path = "/v1/qualifications/{code}/range", tag = "qualifications",
    request_body(content = QualifiedRangeIn, example = json!({
        "job": {"impact_required": true, "impact_temperature": "-20 °C", "hardness_required": true},
    })),
    params(("code" = String, Path, description = "Number of the record"), ReadQuery),
    responses((status = 200, description = "The range", body = QualifiedRangeAnswer), AskAboutProblems),
)]
pub(super) async fn derive_qualification_range(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
    Query(query): Query<ReadQuery>,
    JsonBody(body): JsonBody,
) -> Result<Json<QualifiedRangeAnswer>, Problem> {
    let sent: QualifiedRangeIn = wire::read(&body)?;
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let stored = find(&mut tx, &code, query.revision).await?;
    let signatures = store::signatures(tx.connection(), &code).await?;
    let signature = signatures.into_iter().find(|one| one.revision == stored.revision);
    let document: QualificationDocument =
        wire::read_stored(&stored.document).map_err(|_| Problem::internal("a stored document"))?;
    let record = document.compile(signature.as_ref().map(signed));
    let pack = pack_for(tx.connection(), &sent, &document).await?;
    drop(tx);
    let job =
        sent.job.as_ref().map_or_else(|| Ok(JobFacts::default()), |job| job.compile(&pack))?;
    aside(move || {
        let range = derive(&record, &pack, &job)
            .map_err(|wrong| Problem::field("/pack", wrong.to_string()))?;
        Ok(Json(QualifiedRangeAnswer::new(&stored, &document, signature, &pack, &range)))
    })
    .await?
}

async fn find(tx: &mut TenantTx, code: &str, revision: Option<i32>) -> Result<Stored, Problem> {
    let db = tx.connection();
    let stored = match revision {
        Some(revision) => records::find_revision(db, KIND, code, revision).await?,
        None => records::find(db, KIND, code).await?,
    };
    let what = revision.map_or_else(|| code.to_owned(), |r| format!("{code}\" revision \"{r}"));
    stored.ok_or_else(|| Problem::not_found(KIND.name, &what))
}

/// The pack asked for, or the highest level of the record's own code and edition that it was tested to.
async fn pack_for(
    db: &mut PgConnection,
    sent: &QualifiedRangeIn,
    document: &QualificationDocument,
) -> Result<Cow<'static, Pack>, Problem> {
    if let Some(key) = &sent.pack {
        return facts_in::tested(db, key).await;
    }
    let code = document.code.compile();
    let own = facts_in::of_code(&code);
    let served = |pack: &&&Pack| {
        pack.level.is_none_or(|needed| document.level.is_some_and(|tested| tested >= needed))
    };
    let found = own.iter().find(served).ok_or_else(|| {
        let level = document.level.map(|level| format!(" to level {level}")).unwrap_or_default();
        let detail = format!(
            "There is no rule pack for tests by {code}{level}; GET /v1/rule-packs lists those there are. Rules of \
             another edition do not apply."
        );
        Problem::new(&CONFLICT, detail)
    })?;
    facts_in::tested(db, &found.key).await
}
