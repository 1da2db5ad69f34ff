//! `GET /v1/procedures/{code}/effects`

mod welders;

use std::{collections::BTreeSet, sync::Arc};

use axum::{Json, extract::State};
use serde::Serialize;
use time::{Date, OffsetDateTime};
use utoipa::ToSchema;
use uuid::Uuid;

pub use welders::UncoveredWelderOut;

use super::{
    JudgedAtRelease, KIND, ProcedureDocument, Standing,
    missing_limits::{self, MissingLimitOut},
    store, support,
};
use crate::{
    access::{AnyRole, Caller, Permitted},
    check::{Book, Outcome, ProcedureState, Setup, Telling, judge, record::Procedure},
    checks,
    database::TenantTx,
    http::{AppState, CodePath, aside, problem::Problem, responses::ReadProblems},
    records::{self, Stored},
    trade::Coded,
    wire,
};

/// Most kept checks that are judged again.
const MOST_CHECKS: usize = 200;

/// Most work orders that are named.
const MOST_ORDERS: usize = 200;

/// Most reasons told of one check.
const MOST_REASONS: usize = 5;

/// A kept check that would now be judged otherwise.
#[derive(Debug, Serialize, ToSchema)]
pub struct ChangedCheckOut {
    /// Id of the evidence.
    pub check_id: Uuid,
    /// When it was answered.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// Station it was for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub station: Option<String>,
    /// Work order it was for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub work_order: Option<String>,
    /// Its verdict by the records in force.
    #[schema(example = "allowed")]
    pub before: &'static str,
    /// Its verdict after the release.
    #[schema(example = "not-allowed")]
    pub after: &'static str,
    /// What stands in the way after the release; at most five reasons.
    pub reasons: Vec<String>,
}

/// What a release would change on the floor, as far as records tell.
#[derive(Debug, Serialize, ToSchema)]
pub struct ReleaseEffects {
    /// Number of the procedure.
    #[schema(example = "WPS-101")]
    pub procedure: String,
    /// Revision that would be released: the newest.
    pub revision: i32,
    /// Where it stands.
    #[schema(example = "draft")]
    pub state: String,
    /// First day in force by which the checks below were judged again. Where left out it is in force at once, for days
    /// before as well: what is foreseen without a release assumes that.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub effective_from: Option<Date>,
    /// Last day of the revisions before, by which the checks below were judged again. Where left out they end at once.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub previous_until: Option<Date>,
    /// Revisions in force, today or by their day, that it would end.
    pub replaces: Vec<u32>,
    /// Whether a person has to sign its support first: until then none of its checks is allowed. Below it
    /// is judged as if it were signed.
    pub needs_signature: bool,
    /// Limits that have to be there and are not: until they are, no check of these runs is allowed.
    pub missing_limits: Vec<MissingLimitOut>,
    /// Stations of the kept checks that are held to this procedure, before or after.
    pub stations: BTreeSet<String>,
    /// Work orders that accept the procedure by its number, or whose code it is written for where they
    /// accept every procedure; at most two hundred.
    pub work_orders: Vec<String>,
    /// There are more work orders than are named.
    pub more_work_orders: bool,
    /// Welders who can weld by a revision in force and whose qualifications do not cover all that this one
    /// allows.
    pub welders: Vec<UncoveredWelderOut>,
    /// Kept checks that were judged again: the newest two hundred.
    pub checks_judged: usize,
    /// Those of them that today's records cannot be asked about.
    pub checks_unreadable: usize,
    /// Those whose verdict would change.
    pub checks: Vec<ChangedCheckOut>,
}

/// Foresee what a release changes
///
/// Judges the newest kept checks twice, each on its own day: by the records in force, and as if the newest revision of
/// this procedure were released now, at once and in the place of all its others. Names the stations, work orders and
/// welders concerned. Nothing is changed. A release for a planned day answers the same judged by its days.
#[utoipa::path(
    get, path = "/v1/procedures/{code}/effects", tag = "procedures",
    params(("code" = String, Path, description = "Number of the procedure")),
    responses((status = 200, description = "What would change", body = ReleaseEffects), ReadProblems),
)]
pub(super) async fn foresee_release(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
) -> Result<Json<ReleaseEffects>, Problem> {
    foreseen(&state, &permitted.caller, code, ReleaseDays::default()).await.map(Json)
}

/// Days of a release.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct ReleaseDays {
    /// First day in force; none where it is in force at once.
    pub from: Option<Date>,
    /// Last day of the revisions before; they end at once where it is `None`.
    pub until: Option<Date>,
}

/// What the release of the newest revision for these days would change.
///
/// # Errors
/// A procedure that does not exist, a failing database.
pub(super) async fn foreseen(
    state: &AppState,
    caller: &Caller,
    code: String,
    days: ReleaseDays,
) -> Result<ReleaseEffects, Problem> {
    let book = &caller.rulebook.book;
    let today = caller.rulebook.settings.today();
    let mut tx = TenantTx::begin(&state.pool, caller.actor()).await?;
    let db = tx.connection();
    let stored = records::find(db, KIND, &code).await?;
    let stored = stored.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let document: ProcedureDocument =
        wire::read_stored(&stored.document).map_err(|_| Problem::internal("a stored document"))?;
    let judged = match store::judgement(db, &code, stored.revision).await? {
        Some(judged) => Some(judged),
        None => support::review(db, &document).await?.map(|review| review.kept()),
    };
    let standings = store::standings(db, &code).await?;
    let signed =
        standings.iter().any(|own| own.revision == stored.revision && own.signed_by.is_some());
    let needs_signature = !signed && judged.as_ref().is_none_or(JudgedAtRelease::needs_signature);
    let most = i64::try_from(MOST_CHECKS).map_err(Problem::internal)?;
    let kept = checks::kept_setups(&mut tx, book, today, most).await?;
    drop(tx);
    let next = as_released(&document, &stored, days.from, judged)?;
    let (work_orders, more_work_orders) = orders(book, &next);
    let mut effects = ReleaseEffects {
        replaces: replaced(book, &next, today, days.until),
        procedure: code,
        revision: stored.revision,
        state: stored.state,
        effective_from: days.from,
        previous_until: days.until,
        needs_signature,
        missing_limits: missing_limits::of(&document, book),
        stations: BTreeSet::new(),
        work_orders,
        more_work_orders,
        welders: Vec::new(),
        checks_judged: kept.len(),
        checks_unreadable: 0,
        checks: Vec::new(),
    };
    // Many setups are judged, each twice: not on a thread that serves others.
    let old = book.clone();
    aside(move || {
        effects.welders = welders::uncovered(&old, &next, today);
        let new = with(&old, next, today, days.until);
        judged_twice(&mut effects, &old, &new, kept);
        effects
    })
    .await
}

/// The newest revision as a check would read it, its support signed.
fn as_released(
    document: &ProcedureDocument,
    stored: &Stored,
    effective_from: Option<Date>,
    judged: Option<JudgedAtRelease>,
) -> Result<Procedure, Problem> {
    let standing = Standing {
        revision: u32::try_from(stored.revision).map_err(Problem::internal)?,
        effective_from,
        effective_until: None,
        signed_by: Some("who signs its support".to_owned()),
        judged,
    };
    Ok(document.compile(&stored.code, standing))
}

/// The book after the release: the others run to the last day that it leaves them.
fn with(book: &Book, next: Procedure, today: Date, until: Option<Date>) -> Book {
    let others = book.procedures.revisions(&next.number).iter();
    let others = others.filter(|own| own.revision != next.revision).filter_map(|own| {
        if !is_ended(own.effective_until, today, until) {
            return Some(Arc::clone(own));
        }
        let last = last_day_left(own.effective_from, until)?;
        Some(Arc::new(Procedure { effective_until: Some(last), ..Procedure::clone(own) }))
    });
    let mut revisions: Vec<_> = others.collect();
    let mut book = book.clone();
    let number = next.number.clone();
    book.states.insert_mut(number.clone(), ProcedureState::Released);
    revisions.push(Arc::new(next));
    book.procedures.replace(&[number], revisions);
    book
}

/// Last day of a revision that a release ends on a day: one that would only have begun after it has no day left.
pub(super) fn last_day_left(from: Option<Date>, until: Option<Date>) -> Option<Date> {
    until.filter(|last| from.is_none_or(|first| first <= *last))
}

/// Whether a revision with this last day is in force today or later, and would be after `until`, when a release ends the
/// revisions before it: at once where that is `None`.
pub(super) fn is_ended(last_day: Option<Date>, today: Date, until: Option<Date>) -> bool {
    last_day.is_none_or(|last| last >= today && until.is_none_or(|end| last > end))
}

/// The others that the release ends.
fn replaced(book: &Book, next: &Procedure, today: Date, until: Option<Date>) -> Vec<u32> {
    let ends = |own: &&Arc<Procedure>| {
        own.revision != next.revision && is_ended(own.effective_until, today, until)
    };
    let revisions = book.procedures.revisions(&next.number).iter();
    revisions.filter(ends).map(|own| own.revision).collect()
}

fn orders(book: &Book, next: &Procedure) -> (Vec<String>, bool) {
    let concerned = book.work_orders.values().filter(|order| {
        let accepted = order.accepted_procedures.as_ref();
        accepted.map_or_else(
            || next.codes.contains(&order.code),
            |accepted| accepted.contains(&next.number),
        )
    });
    let mut all: Vec<_> = concerned.map(|order| order.number.clone()).collect();
    all.sort_unstable();
    let more = all.len() > MOST_ORDERS;
    all.truncate(MOST_ORDERS);
    (all, more)
}

fn judged_twice(
    effects: &mut ReleaseEffects,
    old: &Book,
    new: &Book,
    kept: Vec<checks::KeptSetup>,
) {
    for check in kept {
        let Some(setup) = check.setup else {
            effects.checks_unreadable += 1;
            continue;
        };
        let before = judge(old, &setup, check.day, Telling::Nothing);
        let after = judge(new, &setup, check.day, Telling::WhatNeedsSomething);
        let held = [&before.held_to, &after.held_to];
        let here = held
            .iter()
            .any(|held| held.as_ref().is_some_and(|held| held.procedure == effects.procedure));
        if here {
            effects.stations.extend(setup.station.clone());
        }
        if before.verdict == after.verdict {
            continue;
        }
        let in_the_way = after
            .findings
            .iter()
            .filter(|finding| !matches!(finding.outcome, Outcome::Inside | Outcome::NotApplicable));
        let reasons = in_the_way.map(|finding| finding.reason.clone()).take(MOST_REASONS).collect();
        let Setup { station, work_order, .. } = *setup;
        effects.checks.push(ChangedCheckOut {
            check_id: check.check_id,
            at: check.at,
            station,
            work_order,
            before: before.verdict.code(),
            after: after.verdict.code(),
            reasons,
        });
    }
}
