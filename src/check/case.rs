//! Everything one check may look at: the setup, one procedure revision and one run class of it.

use std::{borrow::Cow, cell::OnceCell, fmt, sync::Arc};

use time::Date;

use super::{
    Authority, Book, CareSeen, CodeEdition, DecisionRule, FigureInputs, Figures, Force, Readings,
    Setup, Source, Variable, VariableSet,
    record::{Condition, Consumable, DataEdition, Procedure, RunLimits, Station, WorkOrder},
    remedy::in_words,
    shape::{numbers_of, role},
};
use crate::{
    quantity::{Kind, Range},
    trade::{BeadPattern, Designation, PositionClaim, Practice, Process, RunClass},
};

/// One setup held to one procedure revision and one run class.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// The proposed setup.
    pub setup: &'a Setup,
    /// Its values, with what follows from them.
    pub readings: &'a Readings,
    /// The organisation's records.
    pub book: &'a Book,
    /// Procedure revision.
    pub procedure: &'a Procedure,
    /// Limits of the run class.
    pub run: &'a RunLimits,
    /// Consumable named by the setup, where the organisation has it.
    pub consumable: Option<&'a Consumable>,
    /// Batch named by the setup, and how it was kept dry.
    pub care: &'a CareSeen<'a>,
    /// Data edition and condition that match the setup.
    pub data: Option<(&'a DataEdition, &'a Condition)>,
    /// Station named by the setup.
    pub station: Option<&'a Station>,
    /// Work order named by the setup.
    pub work_order: Option<&'a WorkOrder>,
    /// Practice of the trade, whatever the wire's own data say: see [`Case::practice`].
    pub usual: Practice,
    /// Its figures, once somebody asks for them: see [`Case::figures`].
    pub known_figures: &'a OnceCell<Arc<Figures>>,
    /// Whether somebody is told what its figures assume.
    pub tells_assumptions: bool,
    /// Day the setup is judged for.
    pub day: Date,
}

/// One allowed range and who set it.
#[derive(Debug, Clone, Copy)]
pub struct Limit<'a, K: Kind> {
    /// The range.
    pub range: &'a Range<K>,
    /// Who set it.
    pub source: Source<'a>,
    /// Permission or advice.
    pub force: Force,
}

impl<'a> Case<'a> {
    /// How uncertainty enters the verdict.
    #[must_use]
    pub const fn rule(&self) -> DecisionRule {
        self.book.settings.decision_rule
    }

    /// Who sets the procedure's own limits.
    #[must_use]
    pub const fn procedure_source(&self) -> Source<'a> {
        Source::Authority(Authority::Procedure { procedure: self.procedure, run: self.run })
    }

    /// Figures of the setup, welded to this procedure.
    #[must_use]
    pub fn figures(&self) -> &'a Arc<Figures> {
        self.known_figures.get_or_init(|| Arc::new(Figures::of(&self.figure_inputs())))
    }

    /// What they are computed from.
    #[must_use]
    pub fn figure_inputs(&self) -> FigureInputs<'a> {
        FigureInputs {
            setup: self.setup,
            readings: self.readings,
            process: self.setup.process.or(Some(self.procedure.process)),
            consumable: self.consumable,
            data: self.data,
            tells_assumptions: self.tells_assumptions,
        }
    }

    /// The printed data that matches the setup.
    #[must_use]
    pub fn printed_data(&self) -> Option<Authority<'a>> {
        self.data.map(|(edition, condition)| Authority::Data {
            consumable: self.consumable,
            edition,
            condition,
            called_up: self.procedure.calls_up_data,
        })
    }

    /// Everyone who sets ranges here, in a fixed order: procedure, consumable data, station, work
    /// order. Practice is advice of its own kind and not among them.
    pub fn authorities(&self) -> impl Iterator<Item = Authority<'a>> {
        let all = [
            Some(Authority::Procedure { procedure: self.procedure, run: self.run }),
            self.printed_data(),
            self.station.map(Authority::Station),
            self.work_order.map(Authority::WorkOrder),
        ];
        all.into_iter().flatten()
    }

    /// Why a numeric variable does not exist in this case; `None` where it does. The process may not
    /// have it, a stringer has no weave width, and no run comes before a root or a single run.
    #[must_use]
    pub fn lacks(&self, variable: Variable) -> Option<Lack> {
        let process = self.procedure.process;
        if role(process, variable).is_none() {
            return Some(Lack::NotOfProcess(process, variable));
        }
        self.lacks_by_job(variable)
    }

    /// The numeric variables that exist in this case: those that [`Case::lacks`] has no reason against.
    pub(super) fn numbers(&self) -> VariableSet {
        let of_process = numbers_of(self.procedure.process);
        let left_by_job = |numbers: VariableSet, variable| {
            numbers
                & !VariableSet::default().with_if(variable, self.lacks_by_job(variable).is_some())
        };
        [Variable::WeaveWidth, Variable::Interpass].into_iter().fold(of_process, left_by_job)
    }

    /// Why the bead or the run has no weave width or interpass temperature; no job takes away another variable. One that
    /// is stated nevertheless is held to its limits: either it or the bead, or the run, is not as stated.
    fn lacks_by_job(&self, variable: Variable) -> Option<Lack> {
        let (settings, run) = (&self.setup.settings, self.setup.job.run_class);
        match (variable, settings.bead, run) {
            (Variable::WeaveWidth, Some(BeadPattern::Stringer), _) => {
                settings.weave_width.is_none().then_some(Lack::Stringer)
            }
            (Variable::Interpass, _, Some(class)) if class.is_first() => {
                settings.interpass.is_none().then_some(Lack::FirstRun(class))
            }
            _ => None,
        }
    }

    /// Variables that a permission bounds: the procedure, or data it calls up. What a station
    /// can do or a customer adds is no permission to weld like that.
    #[must_use]
    pub fn bounded(&self) -> VariableSet {
        let permits = self.authorities().filter(|authority| authority.permits());
        permits.fold(VariableSet::default(), |all, one| all | one.ranges().limited())
    }

    /// Code that governs the job: as the setup states it, else as its work order does.
    #[must_use]
    pub fn code(&self) -> Option<&'a CodeEdition> {
        self.setup.job.code.as_ref().or(self.work_order.map(|order| &order.code))
    }

    /// Position, narrowed by the stated progression.
    #[must_use]
    pub fn position(&self) -> Option<Cow<'a, PositionClaim>> {
        self.setup.job.narrowed_position()
    }

    /// Designations of the consumable; none where it is not known.
    pub fn designations(&self) -> impl Iterator<Item = &'a Designation> + use<'a> {
        self.consumable.into_iter().flat_map(|consumable| &consumable.designations)
    }

    /// A designation of the consumable as the source of what it says.
    #[must_use]
    pub const fn designation_source(&self, designation: &'a Designation) -> Source<'a> {
        Source::Designation(self.consumable, designation)
    }
}

/// Why a numeric variable does not exist in a case.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lack {
    /// The process does not have it.
    NotOfProcess(Process, Variable),
    /// A stringer has no weave width.
    Stringer,
    /// No run comes before this one.
    FirstRun(RunClass),
}

impl fmt::Display for Lack {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotOfProcess(process, variable) => {
                write!(f, "Process {process} has no {}.", in_words(*variable))
            }
            Self::Stringer => f.write_str("A stringer has no weave width."),
            Self::FirstRun(class) => write!(f, "No run comes before a {class} run."),
        }
    }
}
