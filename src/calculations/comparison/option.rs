//! Whether an option may be welded: its setup, put on the basis of the comparison and judged.

use std::sync::Arc;

use serde_json::{Value, json};

use super::{ComparisonIn, setup_in};
use crate::{
    access::Caller,
    check::{DecisionRule, Finding, Force, Setup, Telling, Verdict, judge},
    checks::Question,
    http::{
        AppState,
        problem::{FieldError, Problem},
    },
    rulebook::Rulebook,
    trade::{Coded, Permission, PositionClaim, Process},
    wire::ToWire,
};

/// Most reasons that one option carries.
const MOST_REASONS: usize = 5;

/// What the check said about one option.
pub(super) struct Asked {
    /// The setup; empty where none was sent.
    pub(super) setup: Setup,
    /// The verdict; `None` where no setup was sent.
    pub(super) verdict: Option<Verdict>,
    /// Whether it may be ranked.
    pub(super) permission: Permission,
}

/// Judges the setup of every option with the caller's records.
pub(super) fn read_setups(
    state: &AppState,
    caller: &Caller,
    rulebook: &Arc<Rulebook>,
    sent: &ComparisonIn,
    body: &Value,
) -> Result<Vec<Asked>, Problem> {
    let position = PositionClaim::parse(&sent.position, Some(sent.joint.kind()))
        .map_err(|error| Problem::field("/position", error.to_string()))?;
    let mut errors = Vec::new();
    let mut asked = Vec::new();
    for index in 0..sent.options.len() {
        let Some(setup) = setup_in(body, index) else {
            asked.push(not_judged());
            continue;
        };
        let at = format!("/options/{index}/setup");
        let process = sent.options[index].work.process;
        match Question::resolve(
            caller,
            Arc::clone(rulebook),
            &(&on_basis(setup, sent, process)).into(),
        ) {
            Ok(mut question) => {
                errors.extend(apart(&question.setup, sent, (&position, process), &at));
                question.setup.job.fillet = sent.joint.fillet().copied();
                asked.push(judged(state, question));
            }
            Err(problem) if problem.errors().is_empty() => return Err(problem),
            Err(problem) => errors.extend_from_slice(problem.under(&at).errors()),
        }
    }
    if errors.is_empty() { Ok(asked) } else { Err(Problem::fields(errors)) }
}

/// The setup with position, joint, length and process of its option where it states none.
fn on_basis(setup: &Value, sent: &ComparisonIn, process: Process) -> Value {
    let mut setup = setup.clone();
    if let Some(members) = setup.as_object_mut() {
        members.entry("process").or_insert_with(|| process.to_wire());
        let job = members.entry("job").or_insert_with(|| json!({}));
        if let Some(job) = job.as_object_mut() {
            job.entry("joint").or_insert_with(|| json!(sent.joint.kind().code()));
            job.entry("position").or_insert_with(|| json!(sent.position));
            job.entry("weld_length").or_insert_with(|| sent.length.to_wire());
        }
    }
    setup
}

/// Where a setup leaves the equal basis.
fn apart(
    setup: &Setup,
    sent: &ComparisonIn,
    (position, process): (&PositionClaim, Process),
    at: &str,
) -> Vec<FieldError> {
    let job = &setup.job;
    let thickness = sent.joint.section().joint.thickness();
    let differs = [
        ("process", setup.process.is_some_and(|own| own != process)),
        ("job/joint", job.joint.is_some_and(|joint| joint != sent.joint.kind())),
        (
            "job/position",
            job.position.as_ref().is_some_and(|own| !own.positions().eq(position.positions())),
        ),
        ("job/leg", !job.may_ask_for(sent.joint.fillet())),
        ("job/base_metals", thickness.is_some_and(|thickness| !job.may_be_thick(thickness))),
        ("job/weld_length", job.weld_length.is_some_and(|length| length != sent.length)),
    ];
    let error = |name: &str| FieldError {
        pointer: format!("{at}/{name}"),
        detail: "options are compared on one basis; leave this out, or state what the basis states"
            .to_owned(),
    };
    differs.into_iter().filter(|(_, differs)| *differs).map(|(name, _)| error(name)).collect()
}

fn not_judged() -> Asked {
    Asked { setup: Setup::default(), verdict: None, permission: Permission::Allowed }
}

fn judged(state: &AppState, question: Question) -> Asked {
    let (rulebook, too_old) = question.rulebook_now(&state.rulebooks);
    let book = &question.rulebook.book;
    let answer = judge(book, &question.setup, question.day, Telling::WhatNeedsSomething);
    let rule = book.settings.decision_rule;
    let (verdict, permission) = if too_old && answer.verdict < Verdict::Undetermined {
        let reason = format!(
            "the records were last confirmed {} s ago, too long to allow anything",
            rulebook.age.value
        );
        (Verdict::Undetermined, Permission::NotAllowed(reason))
    } else if answer.verdict < Verdict::Undetermined {
        (answer.verdict, Permission::Allowed)
    } else {
        let reason = reasons(answer.verdict, &answer.findings, rule);
        (answer.verdict, Permission::NotAllowed(reason))
    };
    Asked { setup: *question.setup, verdict: Some(verdict), permission }
}

/// Why a verdict is as low as it is.
fn reasons(verdict: Verdict, findings: &[Finding], rule: DecisionRule) -> String {
    let at_fault = |finding: &&Finding| {
        finding.force == Force::Required && Verdict::of_one(finding, rule) == verdict
    };
    let all: Vec<_> = findings.iter().filter(at_fault).map(|f| f.reason.as_str()).collect();
    let shown = all[..all.len().min(MOST_REASONS)].join(" ");
    match all.len().saturating_sub(MOST_REASONS) {
        _ if all.is_empty() => {
            format!("{}: no required limit is shown to be met", verdict.code())
        }
        0 => format!("{}: {shown}", verdict.code()),
        more => format!("{}: {shown} And {more} more.", verdict.code()),
    }
}
