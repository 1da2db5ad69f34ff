//! `POST /v1/procedures/{code}/release`

use axum::{extract::State, response::Response};
use serde::Serialize;
use serde_json::json;
use sqlx::PgConnection;
use time::Date;
use utoipa::ToSchema;
use uuid::Uuid;

use super::{Step, sign, take};
use crate::{
    access::{Approve, Permitted},
    check::ProcedureState,
    database::{TenantTx, document_hash},
    http::{
        AppState, CodePath, IfMatch, JsonBody, Retry,
        problem::{CONFLICT, Problem, UNSUPPORTED},
        responses::ReleaseProblems,
    },
    procedures::{
        KIND, ProcedureDocument,
        effects::{self, ReleaseDays, ReleaseEffects},
        store::{self, NewEvent, StandingRow},
        support::{self, JudgedAtRelease, Review},
    },
    records::{self, RecordAnswer},
    trade::Coded,
    wire::{self, wire_object},
};

wire_object! {
    /// From when a revision is in force, and how long those before it stay.
    pub struct ReleaseIn {
        /// First day in force. Where left out it is in force at once and has no first day: a check of a day before
        /// the release is held to it as well.
        pub effective_from: Option<Date>,
        /// Last day of the revisions before, so that jobs under way finish on them; one that an earlier release lets
        /// run to a day before it ends on that day. Where left out they end at once, or the day before
        /// `effective_from`.
        pub previous_until: Option<Date>,
        /// Why, for those who read the history.
        pub reason: Option<String>,
    }
}

impl ReleaseIn {
    /// The revision before stays in force until this one is.
    ///
    /// # Errors
    /// Where days lie between them.
    pub(crate) fn leaves_no_gap(&self) -> Result<(), Problem> {
        if let (Some(from), Some(until)) = (self.effective_from, self.previous_until)
            && until.next_day().is_some_and(|next| next < from)
        {
            let detail =
                "this leaves days on which no revision is in force; end it the day before or later";
            return Err(Problem::field("/previous_until", detail));
        }
        Ok(())
    }
}

/// Release a revision
///
/// Releases a reviewed revision to the floor. Whoever wrote a part of it cannot release it. Where qualification
/// records support it, it is refused while a limit reaches outside what they qualify, one error for each; what
/// the rules cannot judge is left to the signature of its support, which has to be given anew where the records or
/// the rules changed after it. Every revision in force before it is
/// superseded, at once or on a planned day, also one that an earlier release let run on. The answer says what the
/// release changes on the floor.
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
    sent.leaves_no_gap()?;
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
    let days = ReleaseDays { from: sent.effective_from, until };
    let mut effects = effects::foreseen(&state, caller, code.clone(), days).await?;
    // They are told once the release is done.
    ProcedureState::Released.code().clone_into(&mut effects.state);
    let today = caller.rulebook.settings.today();
    let plan = Plan { previous_until: until, today, effects };
    take(&state, caller, (&if_match, &retry), &code, &body, step, Some(plan)).await
}

/// What a release does to others.
pub(super) struct Plan {
    /// Last day of the revisions before; they end at once where `None`.
    pub(super) previous_until: Option<Date>,
    /// The organisation's day.
    pub(super) today: Date,
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
/// not leave to a person is a limit outside; what a person signed has to be what is judged now.
pub(super) async fn judge_support(
    tx: &mut TenantTx,
    code: &str,
    standing: &StandingRow,
) -> Result<(), Problem> {
    let organisation = tx.actor().organisation;
    let revision = standing.revision;
    let db = tx.connection();
    let Some(review) = support_now(db, code, revision).await? else { return Ok(()) };
    let refusals = review.refusals();
    if !refusals.is_empty() {
        let detail = format!(
            "{code} revision {revision} reaches outside what its support qualifies, in {} place{}.",
            refusals.len(),
            if refusals.len() == 1 { "" } else { "s" }
        );
        return Err(Problem::new(&UNSUPPORTED, detail).with_errors(refusals));
    }
    let kept = review.kept();
    if standing.signed_by.is_some() {
        let signed = store::signed_judgement(db, code, revision, sign::EVENT).await?;
        if signed.as_deref() != Some(&hash(&kept)[..]) {
            let detail = "The records or the rules have changed since the support was signed. See the review, and \
                          sign the support again.";
            return Err(Problem::new(&CONFLICT, detail));
        }
    }
    store::write_judgement(db, organisation, (code, revision), &kept).await?;
    Ok(())
}

/// Hash of the judgement that a signature under review is given for; `None` where nothing is judged.
pub(super) async fn judgement_now(
    db: &mut PgConnection,
    code: &str,
    revision: i32,
) -> Result<Option<Vec<u8>>, Problem> {
    Ok(support_now(db, code, revision).await?.map(|review| hash(&review.kept())))
}

fn hash(judgement: &JudgedAtRelease) -> Vec<u8> {
    document_hash(&json!(judgement))
}

/// What the records say of a revision now; `None` where its support is no matter of records.
async fn support_now(
    db: &mut PgConnection,
    code: &str,
    revision: i32,
) -> Result<Option<Review>, Problem> {
    let stored = records::find_revision(db, KIND, code, revision).await?;
    let stored = stored.ok_or_else(|| Problem::internal(format!("{code} has no revision")))?;
    let document: ProcedureDocument =
        wire::read_stored(&stored.document).map_err(|_| Problem::internal("a stored document"))?;
    support::hold_records(db, &document).await?;
    support::review(db, &document).await
}

/// Supersedes the revisions that are in force beside this one, with a planned last day or at once. One that ends earlier
/// by an earlier plan keeps its day.
pub(super) async fn supersede(
    tx: &mut TenantTx,
    code: &str,
    standings: &[StandingRow],
    released: i32,
    person: Uuid,
    plan: &Plan,
) -> Result<(), Problem> {
    let actor = tx.actor();
    let until = plan.previous_until;
    let ends = |own: &&StandingRow| own.revision != released && plan.ends(own);
    for before in standings.iter().filter(ends) {
        let event = NewEvent {
            code,
            revision: before.revision,
            sequence: before.events + 1,
            event: ProcedureState::Superseded.code(),
            person,
            key: actor.key.unwrap_or_default(),
            reason: None,
            effective_from: before.effective_from,
            effective_until: effects::last_day_left(before.effective_from, until),
            state: ProcedureState::Superseded.code(),
            signed_by: before.signed_by,
            judged: None,
        };
        store::write_event(tx.connection(), actor.organisation, event).await?;
    }
    Ok(())
}

impl Plan {
    /// Whether the release ends another revision: one that is released, or superseded and still in force by an earlier
    /// plan that ends after this one's day.
    fn ends(&self, own: &StandingRow) -> bool {
        let runs_on =
            own.state == ProcedureState::Superseded.code() && own.effective_until.is_some();
        (own.state == ProcedureState::Released.code() || runs_on)
            && effects::is_ended(own.effective_until, self.today, self.previous_until)
    }
}
