//! `POST /v1/audit/verify`

use axum::{Json, extract::State};
use serde::Serialize;
use sqlx::error::DatabaseError;
use utoipa::ToSchema;

use super::{
    beside,
    chain::{Fault, FaultKind, KeptHeadFound, Place, Proved, Verifier},
    store::{self, HeadRow},
    walk::Walk,
    walking,
};
use crate::{
    access::{AnyRole, Permitted},
    database::TenantTx,
    http::{
        AppState, JsonBody,
        problem::{Problem, TIMEOUT},
        responses::WalkProblems,
    },
    wire::{self, wire_object},
};

/// Longest time of one question to the database; less than a request may take, so that it goes on working for
/// nobody.
const MOST_SECONDS: u32 = 25;

/// SQLSTATE of a statement that took longer than it may.
const CANCELLED: &str = "57014";

wire_object! {
    /// A head as an earlier export, print or answer told it.
    pub struct KeptHeadIn {
        /// Number of the entry that was the last one then.
        pub number: u32,
        /// Its hash, 64 hexadecimal digits.
        pub hash: String,
    }
}

wire_object! {
    /// What to hold the chain against, beside itself.
    pub struct VerifyIn {
        /// A head that you kept.
        pub head: Option<KeptHeadIn>,
    }
}

/// Whether the chain is whole.
#[derive(Debug, Serialize, ToSchema)]
pub struct VerifiedOut {
    /// Whether nothing is wrong.
    pub whole: bool,
    /// Entries walked.
    pub entries: i64,
    /// Documents whose hash was taken again.
    pub documents: i64,
    /// The last entry. Write it down: later it shows whether the chain was rewritten or shortened.
    pub head: Place,
    /// Whether the head that you sent is in the chain.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub contains_head: Option<bool>,
    /// Everything that is wrong; the first thousand.
    pub faults: Vec<Fault>,
    /// How many faults there are beyond those.
    pub more_faults: i64,
}

/// Verify the chain
///
/// Walks the whole chain as of one moment, takes every hash again, and holds against it what lies in the
/// database beside it: the documents it names, events, judgements, signatures, attachments, people and keys, where
/// each record stands, and the head. Each fault says which entry and record it is about. With a head that
/// was kept from before it also says whether today's chain still contains it.
///
/// A chain that takes longer than a request may take is exported and proved by `arcbounds verify-audit`.
#[utoipa::path(
    post, path = "/v1/audit/verify", tag = "audit",
    request_body(content = VerifyIn, example = json!({})),
    responses(
        (status = 200, description = "What was proved, and what is wrong", body = VerifiedOut),
        WalkProblems,
    ),
)]
pub(super) async fn verify_audit(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    JsonBody(body): JsonBody,
) -> Result<Json<VerifiedOut>, Problem> {
    let sent: VerifyIn = wire::read(&body)?;
    let kept = sent.head.as_ref().map(kept_head).transpose()?;
    let _permit = walking(&state).await?;
    let mut tx = TenantTx::snapshot(&state.pool, permitted.caller.actor()).await?;
    store::limit_time(tx.connection(), MOST_SECONDS).await?;
    let proved = prove(&mut tx, kept.into_iter().collect()).await.map_err(too_long)?;
    Ok(Json(VerifiedOut {
        whole: proved.faults.is_empty(),
        entries: proved.entries,
        documents: proved.documents,
        contains_head: proved.kept.first().map(|head| head.found == KeptHeadFound::Yes),
        head: proved.last,
        faults: proved.faults,
        more_faults: proved.more_faults,
    }))
}

/// A question that the database gave up takes too long for a request.
fn too_long(error: sqlx::Error) -> Problem {
    let cancelled = |error: &dyn DatabaseError| error.code().is_some_and(|code| code == CANCELLED);
    if error.as_database_error().is_some_and(cancelled) {
        let detail = "The chain, or what it names, is too long to be walked within one request; export it and \
                      prove the file with `arcbounds verify-audit`.";
        return Problem::new(&TIMEOUT, detail);
    }
    error.into()
}

fn kept_head(sent: &KeptHeadIn) -> Result<Place, Problem> {
    let hash = sent.hash.to_ascii_lowercase();
    if hash.len() != 64 || hex::decode(&hash).is_err() {
        return Err(Problem::field("/head/hash", "a hash has 64 hexadecimal digits"));
    }
    Ok(Place { number: i64::from(sent.number), hash })
}

/// Holds the head's row against the entries.
fn hold_head(verifier: &mut Verifier, head: Option<&HeadRow>) {
    let Some(head) = head else {
        verifier.note(Fault::new(FaultKind::HeadAltered, "the chain has no head"));
        return;
    };
    verifier.ends_at(&head.place(), "the head");
    if head.rulebook_version != verifier.rulebook_version() {
        let detail = format!(
            "the head says that the rules changed last with entry {}; by the entries it was {}",
            head.rulebook_version,
            verifier.rulebook_version()
        );
        verifier.note(Fault::new(FaultKind::HeadAltered, detail));
    }
}

/// Walks the chain, then what lies beside it.
async fn prove(tx: &mut TenantTx, kept: Vec<Place>) -> sqlx::Result<Proved> {
    let db = tx.connection();
    let head = store::head(db).await?;
    let mut verifier = Verifier::after(Place::start(), kept);
    // Beyond the head too: an entry there is a fault.
    let mut walk = Walk::between(db, 0, i64::MAX).await?;
    loop {
        let lines = walk.next(db).await?;
        if lines.is_empty() {
            break;
        }
        for line in &lines {
            verifier.entry(line);
        }
    }
    let told = head.as_ref().map_or(0, |head| head.number);
    hold_head(&mut verifier, head.as_ref());
    let (last, known) = (verifier.last().number, beside::known_number(db).await?);
    // Where the head says so already, this says nothing new.
    if last < known && told <= last {
        let detail = format!(
            "the last entry is {last}; a record or a kept check was written with entries up to {known}"
        );
        verifier.note(Fault::new(FaultKind::ChainCutOff, detail).at(last + 1));
    }
    for fault in beside::faults(db).await? {
        verifier.note(fault);
    }
    Ok(verifier.proved(false))
}
