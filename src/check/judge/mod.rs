//! One setup against an organisation's records: the answer.

mod judged;
mod scene;

use time::Date;

use self::{
    judged::Judged,
    scene::{Scene, findings},
};
use super::{
    Answer, Book, Case, Finding, JobFacts, NearMiss, ProcedureReference, ProcedureState, Setup,
    Verdict, cautions,
    checks::{nothing_covers, nothing_released},
    record::Procedure,
};
use crate::trade::{Advice, PositionClaim, Process};

/// Near misses shown at most.
const MOST_NEAR_MISSES: usize = 10;

/// Judges a setup for one day. With a named procedure, against its revisions in force; without one,
/// against every released procedure that covers the job under its governing code.
#[must_use]
pub fn judge(book: &Book, setup: &Setup, day: Date) -> Answer {
    let scene = Scene::of(book, setup, day);
    match &setup.procedure {
        Some(named) => scene.named(named),
        None => scene.unnamed(),
    }
}

/// Looks at every case a setup can be held to: each revision in force that it names or that covers the
/// job, and each of that revision's run limits that may be meant. The findings are those of the case.
pub fn each_case<R>(
    book: &Book,
    setup: &Setup,
    day: Date,
    mut look: impl FnMut(&Case<'_>, &[Finding]) -> R,
) -> Vec<R> {
    let scene = Scene::of(book, setup, day);
    let procedures = match &setup.procedure {
        Some(named) => scene.in_force(named),
        None => scene.covering().1,
    };
    let mut seen = Vec::new();
    for procedure in procedures {
        for run in scene.runs_meant(procedure) {
            seen.push(scene.with_case(procedure, run, |case| {
                let findings = findings(case);
                look(case, &findings)
            }));
        }
    }
    seen
}

/// Practice of the trade for a setup welded by this process.
#[must_use]
pub fn practice(book: &Book, setup: &Setup, day: Date, process: Process) -> Vec<Advice> {
    Scene::of(book, setup, day).practice(process)
}

impl<'a> Scene<'a> {
    /// Released revisions of the named procedure that are in force.
    fn in_force(&self, named: &ProcedureReference) -> Vec<&'a Procedure> {
        let all = self.book.procedures.revisions(&named.number);
        let wanted =
            |procedure: &&Procedure| named.revision.is_none_or(|r| r == procedure.revision);
        let released = all.iter().map(AsRef::as_ref).filter(wanted);
        released.filter(|procedure| procedure.in_force_on(self.day)).collect()
    }

    /// Facts of the job, and the revisions in force that cover them.
    fn covering(&self) -> (Option<PositionClaim>, Vec<&'a Procedure>) {
        let position = self.setup.job.narrowed_position();
        let mut covering = self.book.procedures.covering(&self.facts(position.as_ref()));
        covering.retain(|procedure| procedure.in_force_on(self.day));
        (position, covering)
    }

    fn facts<'f>(&'f self, position: Option<&'f PositionClaim>) -> JobFacts<'f> {
        let job = &self.setup.job;
        JobFacts {
            code: job.code.as_ref().or(self.work_order.map(|order| &order.code)),
            process: self.setup.process,
            joint: job.joint,
            position,
            base_metals: &job.base_metals,
        }
    }

    /// Held to the revisions in force of one procedure; to the newest released one where none is,
    /// which the check of the dates then refuses.
    fn named(&self, named: &ProcedureReference) -> Answer {
        let all = self.book.procedures.revisions(&named.number);
        let wanted =
            |procedure: &&Procedure| named.revision.is_none_or(|r| r == procedure.revision);
        let mut tried = self.in_force(named);
        if tried.is_empty() {
            tried.extend(all.iter().map(AsRef::as_ref).rfind(wanted));
        }
        if tried.is_empty() {
            let known = || (!all.is_empty()).then_some(ProcedureState::Released);
            let state = self.book.states.get(&named.number).copied().or_else(known);
            return self.nothing(vec![nothing_released(named, state, self.day)], Vec::new());
        }
        self.best_of(tried, Vec::new())
    }

    /// Held to every released procedure that covers the job.
    fn unnamed(&self) -> Answer {
        let (position, covering) = self.covering();
        let facts = self.facts(position.as_ref());
        let procedures = &self.book.procedures;
        let near_misses = procedures
            .nearly_covering(&facts)
            .filter(|(procedure, _)| procedure.in_force_on(self.day))
            .take(MOST_NEAR_MISSES)
            .map(|(Procedure { number, revision, .. }, fact)| NearMiss {
                procedure: number.clone(),
                revision: *revision,
                checks: vec![fact.check()],
            })
            .collect();
        if covering.is_empty() {
            return self.nothing(nothing_covers(&facts), near_misses);
        }
        self.best_of(covering, near_misses)
    }

    /// The answer of the best revision, with the others behind it.
    fn best_of(&self, tried: Vec<&'a Procedure>, near_misses: Vec<NearMiss>) -> Answer {
        let mut judged: Vec<_> =
            tried.into_iter().filter_map(|procedure| self.judged(procedure)).collect();
        judged.sort_by(|a, b| a.rank().cmp(&b.rank()));
        let mut judged = judged.into_iter();
        let Some(best) = judged.next() else { return self.nothing(Vec::new(), near_misses) };
        let process = self.setup.process.or(Some(best.procedure.process));
        Answer {
            verdict: best.verdict,
            held_to: Some(best.held_to()),
            figures: self.figures(Some(best.procedure)),
            cautions: cautions::applying(self.setup, process, self.consumable),
            candidates: judged.map(|other| other.candidate()).collect(),
            findings: best.findings,
            near_misses,
        }
    }

    /// The answer where there is no procedure revision to hold the setup to.
    fn nothing(&self, findings: Vec<Finding>, near_misses: Vec<NearMiss>) -> Answer {
        Answer {
            verdict: Verdict::of(&findings, self.rule()),
            held_to: None,
            findings,
            figures: self.figures(None),
            cautions: cautions::applying(self.setup, self.setup.process, self.consumable),
            candidates: Vec::new(),
            near_misses,
        }
    }
}

#[cfg(test)]
mod tests;
