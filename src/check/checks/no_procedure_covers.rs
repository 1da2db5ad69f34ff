//! `no-procedure-covers`: whether any released procedure covers the job at all.

use crate::check::{
    Case, Findings, Force, JobFacts, Outcome, Shown, Source,
    choice_check::{Rule, Said, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// Where the setup names no procedure, some released procedure in force covers its process, joint,
    /// position and base metals under the governing code. When none does, a fully stated job is
    /// refused and a partly stated one stays open, with what is missing.
    ///
    /// ## Why
    /// Work that no qualified procedure covers needs a new or a revised one before the arc.
    ///
    /// ## Source
    /// The organisation's released procedures.
    ///
    /// ## Not checked
    /// Whether an old qualification record would support a new procedure.
    "no-procedure-covers", Procedure => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some("Without a procedure nothing bounds the weld, and no code accepts it."),
    change: Some(
        "Change the job to what a released procedure covers, or have a procedure written for it",
    ),
    state: Some("State what is missing, or name the procedure."),
    ..Words::NONE
};

const fn rule() -> Rule<'static> {
    Rule { check: &CHECK, source: Source::Service, force: Force::Required, words: &WORDS }
}

fn check(case: &Case<'_>, findings: &mut Findings) {
    let named = case.setup.procedure.is_some();
    let outcome = if named { Outcome::NotApplicable } else { Outcome::Inside };
    rule().finding(findings, outcome, |_| {
        let procedure = case.procedure_source().owner();
        Said {
            given: Shown::word(&procedure),
            allowed: Shown::Nothing,
            reason: if named {
                "The setup names its procedure.".to_owned()
            } else {
                format!("The job, as far as it is stated, is covered by {procedure}.")
            },
        }
    });
}

/// The findings when no released procedure covers the job: one that says so, and one for each fact
/// that is missing.
pub fn nothing_covers(facts: &JobFacts<'_>, findings: &mut Findings) {
    if facts.missing().is_empty() {
        rule().finding(findings, Outcome::Outside, |_| {
            Said::reason(
                "No released procedure in force covers this process, joint, position and these \
                 base metals under the governing code.",
            )
        });
    }
    without(facts, "No released procedure covers what is stated", findings);
}

/// The findings when more than `most` released procedures cover what is stated of a job that lacks a fact:
/// one for each fact that is missing, since no procedure can be chosen without them.
pub fn too_many_cover(facts: &JobFacts<'_>, most: usize, findings: &mut Findings) {
    let why = format!("More than {most} released procedures cover what is stated");
    without(facts, &why, findings);
}

fn without(facts: &JobFacts<'_>, why: &str, findings: &mut Findings) {
    for fact in facts.missing() {
        let variable = fact.variable();
        rule().about(variable, findings, Outcome::NotGiven, |_| {
            Said::reason(format!("{why}, and {variable} is missing."))
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{Outcome::*, Telling, Variable, fixture::Scene};

    #[test]
    fn a_case_has_its_procedure_named_or_found() {
        let named = Scene::allowed();
        assert_eq!(named.outcomes("no-procedure-covers"), [NotApplicable]);
        let found = named.with(|s| s.setup.procedure = None);
        assert_eq!(found.outcomes("no-procedure-covers"), [Inside]);
    }

    #[test]
    fn without_any_the_missing_facts_are_named() {
        let scene = Scene::allowed();
        let job = &scene.setup.job;
        let full = JobFacts {
            code: job.code.as_ref(),
            process: scene.setup.process,
            joint: job.joint,
            position: job.position.as_ref(),
            base_metals: &job.base_metals,
        };
        let found = |facts: &JobFacts<'_>| {
            let mut findings = Findings::new(Telling::Everything);
            nothing_covers(facts, &mut findings);
            findings.into_told()
        };
        let refused = found(&full);
        assert_eq!(refused.iter().map(|f| f.outcome).collect::<Vec<_>>(), [Outside]);
        let open = found(&JobFacts { code: None, joint: None, ..full });
        let named: Vec<_> = open.iter().map(|f| (f.variable, f.outcome)).collect();
        assert_eq!(named, [(Variable::GoverningCode, NotGiven), (Variable::Joint, NotGiven)]);
        let half = found(&JobFacts { base_metals: &job.base_metals[..1], ..full });
        let named: Vec<_> = half.iter().map(|f| (f.variable, f.outcome)).collect();
        assert_eq!(named, [(Variable::BaseMetal, NotGiven)]);
    }
}
