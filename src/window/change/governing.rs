//! The case that governs a setup: the procedure revision and run limits that the check holds it to.

use time::Date;

use super::{Follows, after::Changed};
use crate::{
    check::{
        Book, Case, Finding, Force, Outcome, ProcedureReference, Readings, Setup, Telling,
        Variable, Verdict, each_case, judge,
    },
    trade::{Advice, Process, RunClass},
    window::{Window, boxes, offer::is_obstacle},
};

/// A setup with the case that governs it.
#[derive(Debug)]
pub struct Governing<'a> {
    /// Number of the procedure.
    pub procedure: String,
    /// Its revision.
    pub revision: u32,
    /// Run classes the limits are for.
    pub run_classes: Vec<RunClass>,
    /// Process of the procedure.
    pub process: Process,
    /// The box of each variable.
    pub windows: Vec<Window>,
    /// Practice of the trade for the case.
    pub practice: Vec<Advice>,
    /// What stands in the way whatever is set.
    pub obstacles: Vec<Finding>,
    pub(super) setup: Setup,
    pub(super) readings: Readings,
    book: &'a Book,
    day: Date,
}

impl<'a> Governing<'a> {
    /// The verdict on a setup, and the case it comes from. `None` where no procedure in force governs, or where
    /// the setup names none and leaves something out by which one would be chosen: none is guessed.
    #[must_use]
    pub fn of(book: &'a Book, setup: &Setup, day: Date) -> (Verdict, Option<Self>) {
        let answer = judge(book, setup, day, Telling::Nothing);
        let Some(held) = answer.held_to else { return (answer.verdict, None) };
        let named = setup.procedure.is_some();
        let mut setup = setup.clone();
        let (number, revision) = (held.procedure.clone(), Some(held.revision));
        setup.procedure = Some(ProcedureReference { number, revision });
        let cases = each_case(book, &setup, day, |case, findings| {
            let meant = held.run_classes.iter().all(|class| case.run.classes.contains(class));
            meant.then(|| Parts::of(case, findings))
        });
        let known = |parts: &Parts| named || parts.obstacles.is_empty();
        let governing = cases.into_iter().flatten().next().filter(known).map(|parts| Self {
            procedure: held.procedure,
            revision: held.revision,
            run_classes: parts.run_classes,
            process: parts.process,
            windows: parts.windows,
            practice: parts.practice,
            obstacles: parts.obstacles,
            setup,
            readings: parts.readings,
            book,
            day,
        });
        (answer.verdict, governing)
    }

    pub(super) fn window(&self, variable: Variable) -> Option<&Window> {
        self.windows.iter().find(|window| window.variable == variable)
    }

    /// Judges what a change brings about in the same case.
    pub(super) fn follows(&self, changed: &Changed) -> Follows {
        let findings = each_case(self.book, &changed.setup, self.day, |case, findings| {
            let same = case.run.classes == self.run_classes;
            same.then(|| findings.to_vec())
        });
        let Some(findings) = findings.into_iter().flatten().next() else {
            return Follows::Unknown("No procedure in force governs the changed setup.".to_owned());
        };
        let rule = self.book.settings.decision_rule;
        let concerned: Vec<_> = findings
            .iter()
            .filter(|finding| finding.force == Force::Required)
            .filter(|finding| changed.affected.contains(&finding.variable))
            .filter(|finding| finding.outcome != Outcome::NoLimit)
            .collect();
        let of = |verdict| concerned.iter().find(|f| Verdict::of_one(f, rule) == verdict);
        if let Some(finding) = of(Verdict::NotAllowed) {
            let why = format!("What would follow ({}): {}", finding.check, finding.reason);
            return Follows::Outside(vec![finding.owner.clone()], why);
        }
        match of(Verdict::Undetermined) {
            Some(finding) => Follows::Unknown(format!(
                "What would follow is not known ({}): {}",
                finding.check, finding.reason
            )),
            None => Follows::Inside,
        }
    }
}

/// What is taken from a case.
struct Parts {
    run_classes: Vec<RunClass>,
    process: Process,
    windows: Vec<Window>,
    practice: Vec<Advice>,
    obstacles: Vec<Finding>,
    readings: Readings,
}

impl Parts {
    fn of(case: &Case<'_>, findings: &[Finding]) -> Self {
        Self {
            run_classes: case.run.classes.clone(),
            process: case.procedure.process,
            windows: boxes(case),
            practice: case.practice().advice().collect(),
            obstacles: findings.iter().filter(|finding| is_obstacle(finding)).cloned().collect(),
            readings: case.readings.clone(),
        }
    }
}
