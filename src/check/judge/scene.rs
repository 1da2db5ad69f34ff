//! The setup with the records it names, held to one procedure revision.

use std::{
    cell::{OnceCell, RefCell},
    rc::Rc,
    sync::{Arc, LazyLock},
};

use smallvec::smallvec;
use time::Date;

use super::{Few, Judged};
use crate::{
    check::{
        Arcs, Book, CareSeen, Case, DecisionRule, FigureInputs, Figures, Findings, Readings,
        Records, Setup, Telling,
        checks::nominal_gas,
        data_selection::matching_data,
        output_of,
        record::{Condition, Consumable, DataEdition, Procedure, RunLimits, Station, WorkOrder},
    },
    trade::{FillerKind, Gas, Practice, Process, RunClass, TechniqueCase, Waveform},
};

/// The setup with the records it names.
pub(super) struct Scene<'a> {
    pub(super) book: &'a Book,
    pub(super) setup: &'a Setup,
    pub(super) day: Date,
    pub(super) consumable: Option<&'a Consumable>,
    care: CareSeen<'a>,
    pub(super) data: Option<(&'a DataEdition, &'a Condition)>,
    pub(super) station: Option<&'a Station>,
    pub(super) work_order: Option<&'a WorkOrder>,
    /// Released revisions of the procedure that the setup names.
    pub(super) revisions: &'a [Arc<Procedure>],
    /// What was computed for one run serves all of the same process, output, gas and number of arcs.
    bases: RefCell<Few<Rc<Basis>>>,
    /// Whether somebody is told what figures assume.
    tells_assumptions: bool,
}

/// Stands in where a procedure has no limits for the run.
static NO_LIMITS: LazyLock<RunLimits> = LazyLock::new(RunLimits::default);

/// What follows from the setup when it is welded by one process with one output and one gas, with one arc or several.
struct Basis {
    process: Process,
    output: Option<Waveform>,
    /// Shielding gas as it was ordered.
    gas: Option<Gas>,
    readings: Readings,
    practice: Practice,
    figures: OnceCell<Arc<Figures>>,
}

impl<'a> Scene<'a> {
    /// `telling` says whether figures tell what they assume.
    pub(super) fn of(book: &'a Book, setup: &'a Setup, day: Date, telling: Telling) -> Self {
        let consumable = found(&book.consumables, setup.filler.consumable.as_ref());
        let named = setup.procedure.as_ref();
        Self {
            book,
            setup,
            day,
            consumable,
            care: CareSeen::of(book, setup, consumable),
            data: consumable.and_then(|known| matching_data(known, setup, setup.filler.gas)),
            station: found(&book.stations, setup.station.as_ref()),
            work_order: found(&book.work_orders, setup.work_order.as_ref()),
            revisions: named.map_or(&[], |named| book.procedures.revisions(&named.number)),
            bases: RefCell::default(),
            tells_assumptions: telling == Telling::Everything,
        }
    }

    /// Whether the setup may name a record that the organisation does not have: it names one that was not found, or
    /// one that is not looked up here.
    pub(super) fn may_lack_a_record(&self) -> bool {
        let Setup { procedure, work_order, station, welder, filler, .. } = self.setup;
        let not_found = [
            procedure.is_some() && self.revisions.is_empty(),
            work_order.is_some() && self.work_order.is_none(),
            station.is_some() && self.station.is_none(),
            filler.consumable.is_some() && self.consumable.is_none(),
        ];
        welder.is_some() || filler.batch.is_some() || not_found.contains(&true)
    }

    /// One revision held to one of its run limits.
    pub(super) fn judged(
        &self,
        procedure: &'a Procedure,
        run: &'a RunLimits,
        telling: Telling,
    ) -> Judged<'a> {
        let findings = self.with_case(procedure, run, |case| Findings::of(case, telling));
        Judged::new((procedure, run), findings, self.rule())
    }

    /// Run limits of a procedure that the setup may mean; never empty.
    pub(super) fn runs_meant(&self, procedure: &'a Procedure) -> Few<&'a RunLimits> {
        let stated = self.setup.job.run_class;
        let meant = |run: &&RunLimits| stated.is_none_or(|class| run.classes.contains(&class));
        let runs: Few<_> = procedure.runs.iter().filter(meant).collect();
        if runs.is_empty() { smallvec![&*NO_LIMITS] } else { runs }
    }

    /// The stated run class where the limits are for it, else all they are for.
    pub(super) fn classes_meant(&self, run: &RunLimits) -> Vec<RunClass> {
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
        let basis = self.basis(procedure, run);
        look(&Case {
            setup: self.setup,
            readings: &basis.readings,
            book: self.book,
            procedure,
            run,
            consumable: self.consumable,
            care: &self.care,
            data: self.data_for(basis.gas),
            station: self.station,
            work_order: self.work_order,
            usual: basis.practice,
            known_figures: &basis.figures,
            tells_assumptions: self.tells_assumptions,
            day: self.day,
        })
    }

    /// Data of the consumable for this gas.
    fn data_for(&self, gas: Option<Gas>) -> Option<(&'a DataEdition, &'a Condition)> {
        if gas == self.setup.filler.gas {
            return self.data;
        }
        matching_data(self.consumable?, self.setup, gas)
    }

    fn basis(&self, procedure: &Procedure, run: &RunLimits) -> Rc<Basis> {
        let process = procedure.process;
        let output = output_of(self.setup, Some(procedure), self.station);
        let arcs = Arcs::of(self.setup, Some(run));
        let gas = nominal_gas(procedure, self.setup.filler.gas);
        let same = |basis: &&Rc<Basis>| {
            (basis.process, basis.output, basis.gas) == (process, output, gas)
                && basis.readings.arcs == arcs
        };
        if let Some(known) = self.bases.borrow().iter().find(same) {
            return Rc::clone(known);
        }
        let basis = Rc::new(Basis {
            process,
            output,
            gas,
            readings: Readings::of(self.setup, self.setup.process.or(Some(process)), output, arcs),
            practice: self.practice(process),
            figures: OnceCell::new(),
        });
        self.bases.borrow_mut().push(Rc::clone(&basis));
        basis
    }

    /// Figures of the setup alone, welded to no procedure.
    pub(super) fn figures(&self) -> Arc<Figures> {
        let output = output_of(self.setup, None, self.station);
        let arcs = Arcs::of(self.setup, None);
        Arc::new(Figures::of(&FigureInputs {
            setup: self.setup,
            readings: &Readings::of(self.setup, self.setup.process, output, arcs),
            process: self.setup.process,
            consumable: self.consumable,
            data: self.data,
            tells_assumptions: self.tells_assumptions,
        }))
    }

    /// Practice of the trade for the setup welded by this process.
    pub(super) fn practice(&self, process: Process) -> Practice {
        Practice::of(&TechniqueCase {
            process,
            slag: leaves_slag(process, self.consumable),
            position: self.setup.job.only_position(),
            diameter: self.setup.filler.diameter,
            run: self.setup.job.run_class,
        })
    }

    pub(super) const fn rule(&self) -> DecisionRule {
        self.book.settings.decision_rule
    }
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
