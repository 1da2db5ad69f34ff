//! One setup against an organisation's records: the answer.

use std::cmp::Reverse;

use time::Date;

use super::{
    ALL, Answer, Book, Candidate, Case, DecisionRule, FigureInputs, Figures, Finding, Force,
    HeldTo, JobFacts, NearMiss, Outcome, ProcedureReference, ProcedureState, Readings, Setup,
    Verdict, cautions,
    checks::{nothing_covers, nothing_released},
    data_selection::matching_data,
    output_of,
    record::{Condition, Consumable, DataEdition, Procedure, RunLimits, Station, WorkOrder},
};
use crate::trade::{Advice, Process, RunClass, TechniqueCase, advice, designation::FillerKind};

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

/// The setup with the records it names.
struct Scene<'a> {
    book: &'a Book,
    setup: &'a Setup,
    day: Date,
    consumable: Option<&'a Consumable>,
    data: Option<(&'a DataEdition, &'a Condition)>,
    station: Option<&'a Station>,
    work_order: Option<&'a WorkOrder>,
    /// Stands in where a procedure has no limits for the run.
    no_limits: RunLimits,
}

/// One revision with the run limits the setup meets best.
struct Judged<'a> {
    procedure: &'a Procedure,
    run_classes: Vec<RunClass>,
    findings: Vec<Finding>,
    verdict: Verdict,
    breaches: usize,
    unknowns: usize,
}

impl<'a> Scene<'a> {
    fn of(book: &'a Book, setup: &'a Setup, day: Date) -> Self {
        let named = |code: &Option<String>| code.clone().unwrap_or_default();
        let consumable = book.consumables.get(&named(&setup.filler.consumable)).map(AsRef::as_ref);
        Self {
            book,
            setup,
            day,
            consumable,
            data: consumable.and_then(|known| matching_data(known, setup)),
            station: book.stations.get(&named(&setup.station)).map(AsRef::as_ref),
            work_order: book.work_orders.get(&named(&setup.work_order)).map(AsRef::as_ref),
            no_limits: RunLimits::default(),
        }
    }

    /// Held to the revisions in force of one procedure; to the newest released one where none is,
    /// which the check of the dates then refuses.
    fn named(&self, named: &ProcedureReference) -> Answer {
        let all = self.book.procedures.revisions(&named.number);
        let wanted =
            |procedure: &&Procedure| named.revision.is_none_or(|r| r == procedure.revision);
        let released: Vec<_> = all.iter().map(AsRef::as_ref).filter(wanted).collect();
        let mut tried: Vec<_> =
            released.iter().copied().filter(|procedure| procedure.in_force_on(self.day)).collect();
        if tried.is_empty() {
            tried.extend(released.last());
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
        let position = self.setup.job.narrowed_position();
        let job = &self.setup.job;
        let facts = JobFacts {
            code: job.code.as_ref().or(self.work_order.map(|order| &order.code)),
            process: self.setup.process,
            joint: job.joint,
            position: position.as_ref(),
            base_metals: &job.base_metals,
        };
        let procedures = &self.book.procedures;
        let near_misses = procedures
            .nearly_covering(&facts)
            .into_iter()
            .filter(|(procedure, _)| procedure.in_force_on(self.day))
            .take(MOST_NEAR_MISSES)
            .map(|(Procedure { number, revision, .. }, fact)| NearMiss {
                procedure: number.clone(),
                revision: *revision,
                checks: vec![fact.check()],
            })
            .collect();
        let mut covering = procedures.covering(&facts);
        covering.retain(|procedure| procedure.in_force_on(self.day));
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

    /// One revision with each of its run limits that may be meant; the best of them.
    fn judged(&self, procedure: &'a Procedure) -> Option<Judged<'a>> {
        let stated = self.setup.job.run_class;
        let meant = |run: &&RunLimits| stated.is_none_or(|class| run.classes.contains(&class));
        let mut runs: Vec<&RunLimits> = procedure.runs.iter().filter(meant).collect();
        if runs.is_empty() {
            runs.push(&self.no_limits);
        }
        let all = runs.into_iter().map(|run| {
            let findings = self.findings(procedure, run);
            let run_classes = match stated {
                Some(class) if run.classes.contains(&class) => vec![class],
                _ => run.classes.clone(),
            };
            Judged::new(procedure, run_classes, findings, self.rule())
        });
        all.min_by(|a, b| a.rank().cmp(&b.rank()))
    }

    fn findings(&self, procedure: &Procedure, run: &RunLimits) -> Vec<Finding> {
        let readings = self.readings(Some(procedure));
        let practice = self.practice(procedure.process);
        let case = Case {
            setup: self.setup,
            readings: &readings,
            book: self.book,
            procedure,
            run,
            consumable: self.consumable,
            data: self.data,
            station: self.station,
            work_order: self.work_order,
            practice: &practice,
            day: self.day,
        };
        let mut findings = Vec::new();
        ALL.iter().for_each(|check| (check.run)(&case, &mut findings));
        findings
    }

    fn readings(&self, procedure: Option<&Procedure>) -> Readings {
        let process = self.setup.process.or(procedure.map(|known| known.process));
        let output = output_of(self.setup, procedure, self.station);
        Readings::of(self.setup, process, output)
    }

    fn figures(&self, procedure: Option<&Procedure>) -> Figures {
        Figures::of(&FigureInputs {
            setup: self.setup,
            readings: &self.readings(procedure),
            process: self.setup.process.or(procedure.map(|known| known.process)),
            consumable: self.consumable,
        })
    }

    /// Practice of the trade for the setup welded by this process.
    fn practice(&self, process: Process) -> Vec<Advice> {
        advice(&TechniqueCase {
            process,
            slag: leaves_slag(process, self.consumable),
            position: self.setup.job.narrowed_position().and_then(|claim| claim.only()),
            diameter: self.setup.filler.diameter,
            run: self.setup.job.run_class,
        })
    }

    const fn rule(&self) -> DecisionRule {
        self.book.settings.decision_rule
    }
}

/// Whether slag covers the bead: by the kind of filler, where it says so, else by the process.
fn leaves_slag(process: Process, consumable: Option<&Consumable>) -> bool {
    match consumable.map(|known| known.kind) {
        Some(
            FillerKind::FluxCoredWire | FillerKind::SelfShieldedWire | FillerKind::CoveredElectrode,
        ) => true,
        Some(FillerKind::MetalCoredWire) => false,
        Some(FillerKind::SolidWire | FillerKind::TubularWire | FillerKind::Rod) | None => {
            matches!(
                process,
                Process::ManualMetalArc
                    | Process::SelfShieldedFluxCored
                    | Process::MagFluxCored
                    | Process::MigFluxCored
                    | Process::SubmergedSolidWire
                    | Process::SubmergedStrip
                    | Process::SubmergedPowderAddition
                    | Process::SubmergedCoredWire
                    | Process::SubmergedCoredStrip
            )
        }
    }
}

impl<'a> Judged<'a> {
    fn new(
        procedure: &'a Procedure,
        run_classes: Vec<RunClass>,
        findings: Vec<Finding>,
        rule: DecisionRule,
    ) -> Self {
        let verdict = Verdict::of(&findings, rule);
        let required = |wanted: &[Outcome]| {
            let fails = |f: &&Finding| f.force == Force::Required && wanted.contains(&f.outcome);
            findings.iter().filter(fails).count()
        };
        let breaches = required(&[Outcome::Outside, Outcome::EdgeOutside]);
        let unknowns = required(&[Outcome::NotGiven, Outcome::NoLimit]);
        Self { procedure, run_classes, findings, verdict, breaches, unknowns }
    }

    /// Smaller is better.
    fn rank(&self) -> impl Ord + '_ {
        let Procedure { number, revision, .. } = self.procedure;
        (self.verdict, self.breaches, self.unknowns, number, Reverse(*revision))
    }

    fn held_to(&self) -> HeldTo {
        HeldTo {
            procedure: self.procedure.number.clone(),
            revision: self.procedure.revision,
            run_classes: self.run_classes.clone(),
        }
    }

    fn candidate(&self) -> Candidate {
        Candidate {
            held_to: self.held_to(),
            verdict: self.verdict,
            breaches: self.breaches,
            unknowns: self.unknowns,
        }
    }
}
