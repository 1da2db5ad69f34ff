//! The setup with the records it names, held to one procedure revision.

use time::Date;

use super::Judged;
use crate::{
    check::{
        ALL, Book, Case, DecisionRule, FigureInputs, Figures, Finding, Readings, Records, Setup,
        data_selection::matching_data,
        output_of,
        record::{Condition, Consumable, DataEdition, Procedure, RunLimits, Station, WorkOrder},
    },
    trade::{Advice, FillerKind, Process, RunClass, TechniqueCase, advice},
};

/// The setup with the records it names.
pub(super) struct Scene<'a> {
    pub(super) book: &'a Book,
    pub(super) setup: &'a Setup,
    pub(super) day: Date,
    pub(super) consumable: Option<&'a Consumable>,
    pub(super) data: Option<(&'a DataEdition, &'a Condition)>,
    pub(super) station: Option<&'a Station>,
    pub(super) work_order: Option<&'a WorkOrder>,
    /// Stands in where a procedure has no limits for the run.
    pub(super) no_limits: RunLimits,
}

impl<'a> Scene<'a> {
    pub(super) fn of(book: &'a Book, setup: &'a Setup, day: Date) -> Self {
        let consumable = found(&book.consumables, setup.filler.consumable.as_ref());
        Self {
            book,
            setup,
            day,
            consumable,
            data: consumable.and_then(|known| matching_data(known, setup)),
            station: found(&book.stations, setup.station.as_ref()),
            work_order: found(&book.work_orders, setup.work_order.as_ref()),
            no_limits: RunLimits::default(),
        }
    }

    /// One revision with each of its run limits that may be meant; the best of them.
    pub(super) fn judged(&self, procedure: &'a Procedure) -> Option<Judged<'a>> {
        let all = self.runs_meant(procedure).into_iter().map(|run| {
            let findings = self.with_case(procedure, run, findings);
            Judged::new(procedure, self.classes_meant(run), findings, self.rule())
        });
        all.min_by(|a, b| a.rank().cmp(&b.rank()))
    }

    /// Run limits of a procedure that the setup may mean; never empty.
    pub(super) fn runs_meant<'r>(&'r self, procedure: &'r Procedure) -> Vec<&'r RunLimits> {
        let stated = self.setup.job.run_class;
        let meant = |run: &&RunLimits| stated.is_none_or(|class| run.classes.contains(&class));
        let runs: Vec<_> = procedure.runs.iter().filter(meant).collect();
        if runs.is_empty() { vec![&self.no_limits] } else { runs }
    }

    /// The stated run class where the limits are for it, else all they are for.
    fn classes_meant(&self, run: &RunLimits) -> Vec<RunClass> {
        match self.setup.job.run_class {
            Some(class) if run.classes.contains(&class) => vec![class],
            _ => run.classes.clone(),
        }
    }

    /// Looks at the setup held to one procedure revision and one of its run limits.
    pub(super) fn with_case<R>(
        &self,
        procedure: &Procedure,
        run: &RunLimits,
        look: impl FnOnce(&Case<'_>) -> R,
    ) -> R {
        let readings = self.readings(Some(procedure));
        let practice = self.practice(procedure.process);
        look(&Case {
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
        })
    }

    pub(super) fn readings(&self, procedure: Option<&Procedure>) -> Readings {
        let process = self.setup.process.or(procedure.map(|known| known.process));
        let output = output_of(self.setup, procedure, self.station);
        Readings::of(self.setup, process, output)
    }

    pub(super) fn figures(&self, procedure: Option<&Procedure>) -> Figures {
        Figures::of(&FigureInputs {
            setup: self.setup,
            readings: &self.readings(procedure),
            process: self.setup.process.or(procedure.map(|known| known.process)),
            consumable: self.consumable,
        })
    }

    /// Practice of the trade for the setup welded by this process.
    pub(super) fn practice(&self, process: Process) -> Vec<Advice> {
        advice(&TechniqueCase {
            process,
            slag: leaves_slag(process, self.consumable),
            position: self.setup.job.narrowed_position().and_then(|claim| claim.only()),
            diameter: self.setup.filler.diameter,
            run: self.setup.job.run_class,
        })
    }

    pub(super) const fn rule(&self) -> DecisionRule {
        self.book.settings.decision_rule
    }
}

/// What every check says of one case.
pub(super) fn findings(case: &Case<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for check in ALL {
        (check.run)(case, &mut findings);
    }
    findings
}

/// The record of this name, where one is named and the organisation has it.
fn found<'a, T>(records: &'a Records<T>, name: Option<&String>) -> Option<&'a T> {
    records.get(name?).map(AsRef::as_ref)
}

/// Whether slag covers the bead: by the kind of filler, where it says so, else by the process.
fn leaves_slag(process: Process, consumable: Option<&Consumable>) -> bool {
    match consumable.map(|known| known.kind) {
        Some(
            FillerKind::FluxCoredWire | FillerKind::SelfShieldedWire | FillerKind::CoveredElectrode,
        ) => true,
        Some(FillerKind::MetalCoredWire) => false,
        Some(
            FillerKind::SolidWire | FillerKind::TubularWire | FillerKind::Rod | FillerKind::Strip,
        )
        | None => {
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
