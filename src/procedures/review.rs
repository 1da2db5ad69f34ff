//! `GET /v1/procedures/{code}/review`

use axum::{Json, extract::State};
use serde::Serialize;
use utoipa::ToSchema;

use super::{
    JudgedAtRelease, KIND, ProcedureDocument,
    changed::{self, ChangedSinceRelease},
    missing_limits::{self, MissingLimitOut},
    store,
    support::{self, RecordJudgedBy, Review, Reviewed},
};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{
        AppState, CodePath, Query,
        problem::{FieldError, Problem},
        responses::ReadProblems,
    },
    qualifications::{CAUTION, SupportFindingOut, finding_out},
    records::{self, ReadQuery},
    rule_packs::{OpenClauseOut, PackReference},
    trade::Coded,
    wire,
};

/// One limit of the procedure against one limit of its support.
#[derive(Debug, Serialize, ToSchema)]
pub struct ReviewFindingOut {
    /// JSON Pointer into the procedure.
    #[schema(example = "/thickness")]
    pub pointer: String,
    /// Joint, base metals and position it was found for; others may share it.
    #[schema(example = "butt, plate, groups 1.2 with 1.2, PF")]
    pub about: String,
    /// The finding.
    #[serde(flatten)]
    pub finding: SupportFindingOut,
}

/// A procedure against its qualification records, or against fixed limits, as they stand now.
#[derive(Debug, Serialize, ToSchema)]
pub struct SupportReviewOut {
    /// Rules it was judged by.
    pub pack: PackReference,
    /// Records that were judged, in their newest signed revision.
    pub records: Vec<RecordJudgedBy>,
    /// Records that support nothing, and why.
    pub unusable: Vec<FieldError>,
    /// `qualified`, `needs-a-revised-procedure`, `not-judged` or `needs-a-new-qualification`.
    #[schema(example = "qualified")]
    pub ruling: &'static str,
    /// What lies outside: each refuses the release.
    pub breaches: Vec<ReviewFindingOut>,
    /// What lies outside and only has to be stated in the procedure.
    pub stated_only: Vec<ReviewFindingOut>,
    /// What could not be judged, and for want of which fact: a person with the right has to vouch for it.
    pub not_judged: Vec<ReviewFindingOut>,
    /// Codes of the procedure that these rules do not speak for; not judged either.
    pub codes_without_rules: Vec<String>,
    /// Test pieces that support it.
    pub pieces: Vec<String>,
    /// Clauses that it is inside of.
    pub clauses: Vec<String>,
    /// Whether it is inside a limit that was only remembered and that nobody signed: a person has to accept that.
    pub rests_on_memory: bool,
    /// What is inside such a limit. Compare the rule with the printed code and sign it, or accept it by signing
    /// the support.
    pub remembered: Vec<ReviewFindingOut>,
    /// Rules that it is inside of and that the organisation signed.
    pub signed_rules: Vec<String>,
    /// Clauses of the code that no rule covers.
    pub not_covered: Vec<OpenClauseOut>,
    /// What the reader must know before relying on it.
    pub caution: &'static str,
}

/// What stands behind one revision of a procedure.
#[derive(Debug, Serialize, ToSchema)]
pub struct ProcedureReview {
    /// Number of the procedure.
    #[schema(example = "WPS-107")]
    pub procedure: String,
    /// Revision.
    pub revision: i32,
    /// Where it stands.
    #[schema(example = "draft")]
    pub state: String,
    /// `declared-not-judged`, `qualification-records` or `prequalified`.
    #[schema(example = "qualification-records")]
    pub kind: &'static str,
    /// Whether a release would be refused for its support. A declaration is never refused for it.
    pub release_refused: bool,
    /// Whether a person has to sign before any check can be allowed.
    pub needs_signature: bool,
    /// Limits that have to be there and are not: until they are, no check of these runs is allowed, whatever
    /// supports the procedure.
    pub missing_limits: Vec<MissingLimitOut>,
    /// The judgement by its records or by fixed limits; left out where the support is declared.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub judgement: Option<SupportReviewOut>,
    /// What was judged when it was released, which checks are held to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_release: Option<JudgedAtRelease>,
    /// Qualification records and consumables that were revised since the release.
    pub changed_since_release: Vec<ChangedSinceRelease>,
}

/// Review a procedure
///
/// Holds the limits of a revision against its qualification records as they stand, or against the fixed limits of
/// its code: every breach with its
/// clause, what is not judged and which fact is missing. It names the limits without which no check is allowed. A draft can be reviewed at any time; the release
/// judges the same once more and keeps the judgement. Of a released revision it also says which record and which
/// consumable were revised since.
#[utoipa::path(
    get, path = "/v1/procedures/{code}/review", tag = "procedures",
    params(("code" = String, Path, description = "Number of the procedure"), ReadQuery),
    responses((status = 200, description = "The review", body = ProcedureReview), ReadProblems),
)]
pub(super) async fn review_procedure(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
    Query(query): Query<ReadQuery>,
) -> Result<Json<ProcedureReview>, Problem> {
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let db = tx.connection();
    let stored = match query.revision {
        Some(revision) => records::find_revision(db, KIND, &code, revision).await?,
        None => records::find(db, KIND, &code).await?,
    };
    let what = query.revision.map_or_else(|| code.clone(), |r| format!("{code}\" revision \"{r}"));
    let stored = stored.ok_or_else(|| Problem::not_found(KIND.name, &what))?;
    let document: ProcedureDocument =
        wire::read_stored(&stored.document).map_err(|_| Problem::internal("a stored document"))?;
    let at_release = store::judgement(db, &code, stored.revision).await?;
    let changed_since_release =
        changed::since_release(db, &code, stored.revision, &document, at_release.as_ref()).await?;
    let review = support::review(db, &document).await?;
    let kept = at_release.clone().or_else(|| review.as_ref().map(Review::kept));
    Ok(Json(ProcedureReview {
        procedure: code,
        revision: stored.revision,
        state: stored.state,
        kind: document.support.kind.code(),
        release_refused: review.as_ref().is_some_and(|review| !review.refusals().is_empty()),
        needs_signature: kept.is_none_or(|kept| kept.needs_signature()),
        missing_limits: missing_limits::of(&document, &permitted.caller.rulebook.book),
        judgement: review.as_ref().map(out),
        at_release,
        changed_since_release,
    }))
}

fn out(review: &Review) -> SupportReviewOut {
    let list = |all: &[Reviewed]| all.iter().map(one).collect();
    SupportReviewOut {
        pack: PackReference::of(&review.pack),
        records: review.records.clone(),
        unusable: review.refused.clone(),
        ruling: review.ruling.code(),
        breaches: list(&review.breaches),
        stated_only: list(&review.stated_only),
        not_judged: list(&review.not_judged),
        codes_without_rules: review.other_codes.iter().map(ToString::to_string).collect(),
        pieces: review.pieces.iter().cloned().collect(),
        clauses: review.clauses.clone(),
        rests_on_memory: !review.remembered.is_empty(),
        remembered: list(&review.remembered),
        signed_rules: review.signed_rules.iter().cloned().collect(),
        not_covered: review.pack.open.iter().map(OpenClauseOut::of).collect(),
        caution: CAUTION,
    }
}

fn one(own: &Reviewed) -> ReviewFindingOut {
    ReviewFindingOut {
        pointer: own.pointer.clone(),
        about: own.about.clone(),
        finding: finding_out(&own.finding),
    }
}
