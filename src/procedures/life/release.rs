//! `POST /v1/procedures/{code}/release`

use axum::{extract::State, response::Response};
use serde::Serialize;
use time::Date;
use utoipa::ToSchema;
use uuid::Uuid;

use super::{Step, take};
use crate::{
    access::{Approve, Permitted},
    check::ProcedureState,
    database::TenantTx,
    http::{
        AppState, CodePath, IfMatch, JsonBody, Retry,
        problem::{Problem, UNSUPPORTED},
        responses::ReleaseProblems,
    },
    procedures::{
        KIND, ProcedureDocument,
        effects::{self, ReleaseEffects},
        store::{self, NewEvent, StandingRow},
        support,
    },
    records::{self, RecordAnswer},
    trade::Coded,
    wire::{self, wire_object},
};

wire_object! {
    /// From when a revision is in force, and how long the one before it stays.
    pub struct ReleaseIn {
        /// First day in force; at once where left out.
        pub effective_from: Option<Date>,
        /// Last day of the revision before, so that jobs under way finish on it; it ends at once where
        /// left out.
        pub previous_until: Option<Date>,
        /// Why, for those who read the history.
        pub reason: Option<String>,
    }
}

/// Release a revision
///
/// Releases a reviewed revision to the floor. Whoever wrote a part of it cannot release it. Where qualification
/// records support it, it is refused while a limit reaches outside what they qualify, one error for each; what
/// the rules cannot judge is left to the signature of its support. The released revision before it is
/// superseded, at once or on a planned day. The answer says what the release changes on the floor.
#[utoipa::path(
    post, path = "/v1/procedures/{code}/release", tag = "procedures",
    request_body = ReleaseIn,
    params(
        ("code" = String, Path, description = "Number of the procedure"),
        ("If-Match" = String, Header, description = "ETag of the version you read"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 200, description = "Released",
            headers(
                ("ETag" = String, description = "Version of the record"),
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ), body = ReleaseAnswer<ProcedureDocument>),
        ReleaseProblems,
    ),
)]
pub(in crate::procedures) async fn release_procedure(
    permitted: Permitted<Approve>,
    State(state): State<AppState>,
    if_match: IfMatch,
    retry: Retry,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let sent: ReleaseIn = wire::read(&body)?;
    if let (Some(from), Some(until)) = (sent.effective_from, sent.previous_until)
        && until.next_day().is_some_and(|next| next < from)
    {
        let detail =
            "this leaves days on which no revision is in force; end it the day before or later";
        return Err(Problem::field("/previous_until", detail));
    }
    let step = Step {
        path: "release",
        event: "released",
        from: &[ProcedureState::InReview],
        to: Some(ProcedureState::Released),
        second_person: true,
        reason: sent.reason.as_deref(),
        effective_from: sent.effective_from,
        revision: None,
    };
    let until = sent.previous_until.or_else(|| sent.effective_from.and_then(Date::previous_day));
    let caller = &permitted.caller;
    let effects = effects::foreseen(&state, caller, code.clone()).await?;
    let plan = Plan { previous_until: until, effects };
    take(&state, caller, (&if_match, &retry), &code, &body, step, Some(plan)).await
}

/// What a release does to others.
pub(super) struct Plan {
    /// Last day of the revision before.
    pub(super) previous_until: Option<Date>,
    /// What it changes on the floor.
    pub(super) effects: ReleaseEffects,
}

/// A released revision, and what its release changes on the floor.
#[derive(Debug, Serialize, ToSchema)]
pub struct ReleaseAnswer<D> {
    /// The revision.
    #[serde(flatten)]
    pub record: RecordAnswer<D>,
    /// What the release changes, foreseen just before it.
    pub effects: ReleaseEffects,
}

/// Judges the records that are to support the revision, and keeps what was judged with it. What a release may
/// not leave to a person is a limit outside.
pub(super) async fn judge_support(
    tx: &mut TenantTx,
    code: &str,
    revision: i32,
) -> Result<(), Problem> {
    let organisation = tx.actor().organisation;
    let db = tx.connection();
    let stored = records::find_revision(db, KIND, code, revision).await?;
    let stored = stored.ok_or_else(|| Problem::internal(format!("{code} has no revision")))?;
    let document: ProcedureDocument =
        wire::read(&stored.document).map_err(|_| Problem::internal("a stored document"))?;
    support::hold_records(db, &document).await?;
    let Some(review) = support::review(db, &document).await? else { return Ok(()) };
    let refusals = review.refusals();
    if !refusals.is_empty() {
        let detail = format!(
            "{code} revision {revision} reaches outside what its support qualifies, in {} place{}.",
            refusals.len(),
            if refusals.len() == 1 { "" } else { "s" }
        );
        return Err(Problem::new(&UNSUPPORTED, detail).with_errors(refusals));
    }
    store::write_judgement(db, organisation, (code, revision), &review.kept()).await?;
    Ok(())
}

/// Supersedes the revisions that were released before this one, with a planned last day or at once.
pub(super) async fn supersede(
    tx: &mut TenantTx,
    code: &str,
    standings: &[StandingRow],
    released: i32,
    person: Uuid,
    until: Option<Date>,
) -> Result<(), Problem> {
    let actor = tx.actor();
    let was_released = ProcedureState::Released.code();
    for before in standings.iter().filter(|s| s.revision != released && s.state == was_released) {
        let event = NewEvent {
            code,
            revision: before.revision,
            sequence: before.events + 1,
            event: ProcedureState::Superseded.code(),
            person,
            key: actor.key.unwrap_or_default(),
            reason: None,
            effective_from: before.effective_from,
            effective_until: until,
            state: ProcedureState::Superseded.code(),
            signed_by: before.signed_by,
        };
        store::write_event(tx.connection(), actor.organisation, event).await?;
    }
    Ok(())
}
