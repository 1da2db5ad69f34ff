//! One setup against an organisation's records: the answer.

mod judged;
mod scene;

use std::{borrow::Cow, sync::Arc};

use smallvec::SmallVec;
use time::Date;

use self::{judged::Judged, scene::Scene};
use super::{
    Answer, Book, Case, Finding, Findings, JobFacts, NearMiss, ProcedureReference, ProcedureState,
    Setup, Telling, Variable, cautions,
    checks::{nothing_covers, nothing_released, too_many_cover},
    record::Procedure,
    references::unknown_references,
};
use crate::trade::{PositionClaim, Practice, Process};

/// Near misses shown at most.
const MOST_NEAR_MISSES: usize = 10;

/// Candidates that a job with a missing fact is held to. It cannot be allowed anyway; with more of them the
/// answer names the facts that would choose.
const MOST_WITHOUT_A_FACT: usize = 200;

/// Of what a check mostly meets one or two; those need no memory of their own.
type Few<T> = SmallVec<[T; 2]>;

/// Judges a setup for one day. With a named procedure, against its revisions in force; without one,
/// against every released procedure that covers the job under its governing code. `telling` says which findings
/// are told; the verdict always rests on all of them.
#[must_use]
pub fn judge(book: &Book, setup: &Setup, day: Date, telling: Telling) -> Answer {
    Scene::of(book, setup, day, telling).answer(telling)
}

/// As [`judge`], of a setup whose names nobody has looked at: each record is looked up once.
///
/// # Errors
/// The records that it names and the organisation does not have, as [`unknown_references`] finds them.
pub fn judge_named(
    book: &Book,
    setup: &Setup,
    day: Date,
    telling: Telling,
) -> Result<Answer, Vec<(Variable, String)>> {
    let scene = Scene::of(book, setup, day, telling);
    if scene.may_lack_a_record() {
        let unknown = unknown_references(book, setup);
        if !unknown.is_empty() {
            return Err(unknown);
        }
    }
    Ok(scene.answer(telling))
}

/// Looks at every case a setup can be held to: each revision in force that it names or that covers the
/// job, and each of that revision's run limits that may be meant. The findings are those of the case. None where a
/// fact of the job is missing and too many procedures cover the others: the check then names the missing facts.
pub fn each_case<R>(
    book: &Book,
    setup: &Setup,
    day: Date,
    mut look: impl FnMut(&Case<'_>, &[Finding]) -> R,
) -> Vec<R> {
    let scene = Scene::of(book, setup, day, Telling::Everything);
    let procedures = match &setup.procedure {
        Some(named) => scene.in_force(scene.revisions, named),
        None => scene.covering().1.unwrap_or_default(),
    };
    let mut seen = Vec::new();
    for procedure in procedures {
        for run in scene.runs_meant(procedure) {
            seen.push(scene.with_case(procedure, run, |case| {
                look(case, Findings::of(case, Telling::Everything).told())
            }));
        }
    }
    seen
}

/// Practice of the trade for a setup welded by this process.
#[must_use]
pub fn practice(book: &Book, setup: &Setup, day: Date, process: Process) -> Practice {
    Scene::of(book, setup, day, Telling::Nothing).practice(process)
}

impl<'a> Scene<'a> {
    fn answer(&self, telling: Telling) -> Answer {
        match &self.setup.procedure {
            Some(named) => self.named(named, telling),
            None => self.unnamed(telling),
        }
    }

    /// Of all released revisions of the named procedure, those that are meant and in force.
    fn in_force(
        &self,
        all: &'a [Arc<Procedure>],
        named: &ProcedureReference,
    ) -> Few<&'a Procedure> {
        let wanted =
            |procedure: &&Procedure| named.revision.is_none_or(|r| r == procedure.revision);
        let released = all.iter().map(AsRef::as_ref).filter(wanted);
        released.filter(|procedure| procedure.in_force_on(self.day)).collect()
    }

    /// Position of the job, and the revisions in force that cover its facts. `None` where a fact is missing
    /// and more than [`MOST_WITHOUT_A_FACT`] cover the others: the job is not stated well enough to choose.
    fn covering(&self) -> (Option<Cow<'a, PositionClaim>>, Option<Few<&'a Procedure>>) {
        let position = self.setup.job.narrowed_position();
        let facts = self.facts(position.as_deref());
        let mut covering = self
            .book
            .procedures
            .covering(&facts)
            .filter(|procedure| procedure.in_force_on(self.day));
        if facts.missing().is_empty() {
            let all = covering.collect();
            return (position, Some(all));
        }
        let few: Few<_> = covering.by_ref().take(MOST_WITHOUT_A_FACT).collect();
        let more = covering.next().is_some();
        drop(covering);
        (position, (!more).then_some(few))
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
    fn named(&self, named: &ProcedureReference, telling: Telling) -> Answer {
        let all = self.revisions;
        let wanted =
            |procedure: &&Procedure| named.revision.is_none_or(|r| r == procedure.revision);
        let mut tried = self.in_force(all, named);
        if tried.is_empty() {
            tried.extend(all.iter().map(AsRef::as_ref).rfind(wanted));
        }
        self.best_of(tried, Vec::new(), telling, |findings| {
            let known = || (!all.is_empty()).then_some(ProcedureState::Released);
            let state = self.book.states.get(&named.number).copied().or_else(known);
            nothing_released(named, state, self.day, findings);
        })
    }

    /// Held to every released procedure that covers the job.
    fn unnamed(&self, telling: Telling) -> Answer {
        let (position, covering) = self.covering();
        let facts = self.facts(position.as_deref());
        let Some(covering) = covering else {
            let mut findings = Findings::new(Telling::Everything);
            too_many_cover(&facts, MOST_WITHOUT_A_FACT, &mut findings);
            return self.nothing(findings, Vec::new());
        };
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
        self.best_of(covering, near_misses, telling, |findings| nothing_covers(&facts, findings))
    }

    /// The answer of the best revision, with the others behind it; `nothing` says why there is none.
    fn best_of(
        &self,
        tried: Few<&'a Procedure>,
        near_misses: Vec<NearMiss>,
        telling: Telling,
        nothing: impl FnOnce(&mut Findings),
    ) -> Answer {
        // Words are made for one answer only, so where several compete, they wait until the best is known.
        let only = matches!(&tried[..], [procedure] if self.runs_meant(procedure).len() == 1);
        let while_ranking = if only { telling } else { Telling::Nothing };
        let mut judged: Few<_> = tried
            .into_iter()
            .filter_map(|procedure| {
                let runs = self.runs_meant(procedure).into_iter();
                let each = runs.map(|run| self.judged(procedure, run, while_ranking));
                each.min_by(|a, b| a.rank().cmp(&b.rank()))
            })
            .collect();
        if judged.is_empty() {
            let mut findings = Findings::new(Telling::Everything);
            nothing(&mut findings);
            return self.nothing(findings, near_misses);
        }
        judged.sort_by(|a, b| a.rank().cmp(&b.rank()));
        let others = judged.iter().skip(1);
        let candidates =
            others.map(|other| other.candidate(self.classes_meant(other.run))).collect();
        let best = judged.swap_remove(0);
        let process = self.setup.process.or(Some(best.procedure.process));
        Answer {
            verdict: best.verdict,
            held_to: Some(best.held_to(self.classes_meant(best.run))),
            figures: self.with_case(best.procedure, best.run, |case| Arc::clone(case.figures())),
            cautions: cautions::applying(self.setup, process, self.consumable),
            candidates,
            findings: self.told(best, telling, only),
            near_misses,
        }
    }

    fn told(&self, best: Judged<'a>, telling: Telling, already: bool) -> Vec<Finding> {
        let findings = if already {
            best.findings
        } else {
            self.judged(best.procedure, best.run, telling).findings
        };
        findings.into_told()
    }

    /// The answer where there is no procedure revision to hold the setup to.
    fn nothing(&self, findings: Findings, near_misses: Vec<NearMiss>) -> Answer {
        Answer {
            verdict: findings.verdict(self.rule()),
            held_to: None,
            findings: findings.into_told(),
            figures: self.figures(),
            cautions: cautions::applying(self.setup, self.setup.process, self.consumable),
            candidates: Vec::new(),
            near_misses,
        }
    }
}

#[cfg(test)]
mod tests;
