//! The life of a procedure revision: draft, in review, released, superseded or withdrawn.
//!
//! Every step is an event that is only appended; the standing is what the events add up to. The record's
//! head row is locked first, so that two steps at once take turns and the second one sees the first.

pub(super) mod release;
pub(super) mod send_back;
pub(super) mod sign;
pub(super) mod submit;
pub(super) mod withdraw_revision;

use axum::{http::StatusCode, response::Response};
use serde_json::{Value, json};
use time::Date;
use uuid::Uuid;

use self::release::ReleaseAnswer;
use super::{
    KIND, ProcedureDocument,
    store::{self, NewEvent, StandingRow},
};
use crate::{
    access::Caller,
    check::ProcedureState,
    database::{Change, TenantTx},
    http::{
        AppState, IfMatch, Retry, Writing,
        problem::{CONFLICT, Problem},
        retry::Begun,
    },
    records::{self, Head, RecordBody, Signing, etag},
    trade::Coded,
};

/// One step, as its endpoint describes it.
#[derive(Debug, Clone, Copy)]
struct Step<'a> {
    /// Last part of the path, and the retry route.
    path: &'static str,
    /// Name of the event.
    event: &'static str,
    /// States it starts from.
    from: &'static [ProcedureState],
    /// State it leads to; the same where `None`.
    to: Option<ProcedureState>,
    /// Whether it takes a person who wrote no part of the revision.
    second_person: bool,
    /// Why.
    reason: Option<&'a str>,
    /// First day in force.
    effective_from: Option<Date>,
    /// Revision it is taken with; the newest where `None`.
    revision: Option<i32>,
}

/// Takes a step with a revision of a procedure. What was foreseen of a release goes with the answer.
async fn take(
    state: &AppState,
    caller: &Caller,
    (if_match, retry): (&IfMatch, &Retry),
    code: &str,
    body: &Value,
    step: Step<'_>,
    release: Option<release::Plan>,
) -> Result<Response, Problem> {
    let person = caller.person()?;
    let route = format!("POST /v1/procedures/{code}/{}", step.path);
    let mut writing = match Writing::begin(state, caller, &route, retry, body).await? {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let head = records::lock(tx.connection(), KIND, code).await?;
    let head = head.ok_or_else(|| Problem::not_found(KIND.name, code))?;
    if_match.holds(head.version)?;
    let revision = step.revision.unwrap_or(head.revision);
    let standings = store::standings(tx.connection(), code).await?;
    let Some(standing) = standings.iter().find(|standing| standing.revision == revision) else {
        return Err(Problem::not_found(KIND.name, &format!("{code}\" revision \"{revision}")));
    };
    may_start(&step, standing)?;
    if step.revision == Some(head.revision) && step.to == Some(ProcedureState::Withdrawn) {
        return Err(Problem::new(
            &CONFLICT,
            format!(
                "Revision {revision} is the newest: withdraw the procedure, or write the next one first."
            ),
        ));
    }
    if step.second_person {
        let signing = Signing::Revision(revision);
        records::hold_second_person(tx.connection(), KIND, code, signing, person).await?;
    }
    if release.is_some() {
        release::judge_support(tx, code, standing).await?;
    }
    let is_in_review = standing.state == ProcedureState::InReview.code();
    let judged = if step.event == sign::EVENT && is_in_review {
        release::judgement_now(tx.connection(), code, revision).await?
    } else {
        None
    };
    let next = step.to.map_or(standing.state.clone(), |state| state.code().to_owned());
    write(tx, code, standing, person, &step, (&next, judged.as_deref())).await?;
    if let Some(plan) = &release {
        release::supersede(tx, code, &standings, revision, person, plan).await?;
    }
    let (version, record) = noted(tx, code, &head, (revision, &next), step.event).await?;
    let answer = match (release, record) {
        (Some(plan), Some(record)) => json!(ReleaseAnswer { record, effects: plan.effects }),
        (_, record) => json!(record),
    };
    writing.finish(state, StatusCode::OK, &[("etag", etag(version))], answer).await
}

/// Counts the step at the record and notes it for the audit chain. Gives the record's new version, and the
/// revision as it is now.
async fn noted(
    tx: &mut TenantTx,
    code: &str,
    head: &Head,
    (revision, state): (i32, &str),
    event: &'static str,
) -> Result<(i32, Option<RecordBody>), Problem> {
    // The record is as its newest revision is.
    let state_of_all = if revision == head.revision { state } else { &head.state };
    let newest = (head.revision, head.edit);
    let version = records::move_head(tx.connection(), KIND, code, newest, state_of_all).await?;
    let stored = records::find_revision(tx.connection(), KIND, code, revision).await?;
    tx.note(Change {
        action: event,
        kind: KIND.column,
        subject: code.to_owned(),
        revision: Some(revision),
        document_hash: stored.as_ref().map(|stored| stored.document_hash.clone()),
        changes_rules: true,
    });
    Ok((version, stored.map(RecordBody::of::<ProcedureDocument>)))
}

/// A revision that a body names.
fn revision_named(revision: Option<u32>) -> Result<Option<i32>, Problem> {
    let number = revision.map(i32::try_from).transpose();
    number.map_err(|_| Problem::field("/revision", "there is no revision with so large a number"))
}

fn may_start(step: &Step<'_>, standing: &StandingRow) -> Result<(), Problem> {
    let state = &standing.state;
    if step.from.iter().any(|from| from.code() == state) {
        return Ok(());
    }
    let from: Vec<_> = step.from.iter().map(|state| state.code()).collect();
    Err(Problem::new(
        &CONFLICT,
        format!("Revision {} is {state}; it has to be {}.", standing.revision, from.join(" or ")),
    ))
}

async fn write(
    tx: &mut TenantTx,
    code: &str,
    standing: &StandingRow,
    person: Uuid,
    step: &Step<'_>,
    (next, judged): (&str, Option<&[u8]>),
) -> Result<(), Problem> {
    let actor = tx.actor();
    let signed_by = match step.event {
        sign::EVENT => Some(person),
        // What comes back for review may say something else than what was signed.
        send_back::EVENT => None,
        _ => standing.signed_by,
    };
    let event = NewEvent {
        code,
        revision: standing.revision,
        sequence: standing.events + 1,
        event: step.event,
        person,
        key: actor.key.unwrap_or_default(),
        reason: step.reason,
        effective_from: step.effective_from.or(standing.effective_from),
        effective_until: standing.effective_until,
        state: next,
        signed_by,
        judged,
    };
    store::write_event(tx.connection(), actor.organisation, event).await?;
    Ok(())
}

/// Withdraws every revision, also one that is superseded and still in force by plan.
pub(super) async fn withdraw_all(
    tx: &mut TenantTx,
    code: &str,
    reason: &str,
) -> Result<(), Problem> {
    let actor = tx.actor();
    let person = actor.person.ok_or_else(|| {
        Problem::new(
            &crate::http::problem::WRONG_ROLE,
            "This needs a key that stands for a person.",
        )
    })?;
    let withdrawn = ProcedureState::Withdrawn.code();
    for standing in store::standings(tx.connection(), code).await? {
        if standing.state == withdrawn {
            continue;
        }
        let event = NewEvent {
            code,
            revision: standing.revision,
            sequence: standing.events + 1,
            event: withdrawn,
            person,
            key: actor.key.unwrap_or_default(),
            reason: Some(reason),
            effective_from: standing.effective_from,
            effective_until: standing.effective_until,
            state: withdrawn,
            signed_by: standing.signed_by,
            judged: None,
        };
        store::write_event(tx.connection(), actor.organisation, event).await?;
    }
    Ok(())
}
