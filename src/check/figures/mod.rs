//! Computed figures of an answer. A figure whose inputs are not known is absent, with the reason.

mod cooling;
mod deposit;
mod heat;
mod metal;
mod note;
mod usage;
mod wire_mass;

use self::metal::Fed;
use super::{
    Readings, Setup,
    record::{Condition, Consumable, DataEdition},
};
use crate::{
    quantity::{Amount, AmountRange, Kind, Quantity, QuantityError, Span, TravelSpeedKind},
    trade::{Formula, Process},
};
pub use metal::WireMetal;
pub use note::{Note, Notes};

/// A figure is one amount, or all amounts between two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FigureValue {
    /// One amount.
    One(Amount),
    /// All between two, ends included.
    Between(AmountRange),
}

/// One computed figure.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// Stable kebab-case name.
    pub name: &'static str,
    /// The value.
    pub value: FigureValue,
    /// How it is computed.
    pub formula: &'static Formula,
    /// What was assumed beyond the setup: bases, estimated inputs and their sources. Empty where nobody is told.
    pub assumptions: Notes,
}

/// A figure that cannot be computed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AbsentFigure {
    /// Name of the figure.
    pub name: &'static str,
    /// What is missing.
    pub reason: Note,
}

/// All figures of one answer.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Figures {
    /// Those that could be computed.
    pub computed: Vec<Figure>,
    /// Those that could not.
    pub absent: Vec<AbsentFigure>,
}

/// What figures are computed from.
#[derive(Debug, Clone, Copy)]
pub struct FigureInputs<'a> {
    /// The setup.
    pub setup: &'a Setup,
    /// Its values, with what follows from them.
    pub readings: &'a Readings,
    /// Process of the setup, else of the procedure it is held to.
    pub process: Option<Process>,
    /// Consumable named by the setup, where the organisation has it.
    pub consumable: Option<&'a Consumable>,
    /// Data edition and condition of it that match the setup.
    pub data: Option<(&'a DataEdition, &'a Condition)>,
    /// Whether somebody is told what was assumed; else no words are made of it.
    pub tells_assumptions: bool,
}

impl FigureInputs<'_> {
    /// What was assumed, where somebody is told.
    fn assumed(&self, assumptions: impl FnOnce() -> Notes) -> Notes {
        if self.tells_assumptions { assumptions() } else { Notes::new() }
    }
}

/// Figures of a setup that states everything.
const MOST: usize = 11;

impl Figures {
    /// Every figure of a setup, computed or absent.
    #[must_use]
    pub fn of(inputs: &FigureInputs<'_>) -> Self {
        let mut figures = Self { computed: Vec::with_capacity(MOST), absent: Vec::new() };
        heat::add(inputs, &mut figures);
        cooling::add(inputs, &mut figures);
        let fed = Fed::of(inputs);
        let melted = fed.melted();
        metal::add(inputs, &fed, &melted, &mut figures);
        usage::add(inputs, &melted, &mut figures);
        if let (true, None, Some(process)) =
            (inputs.tells_assumptions, inputs.setup.process, inputs.process)
        {
            let note = format!("process {process}: that of the procedure, the setup states none");
            let note = Note::from(note);
            figures.computed.iter_mut().for_each(|one| one.assumptions.push(note.clone()));
        }
        figures
    }

    /// The computed figure of this name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Figure> {
        self.computed.iter().find(|figure| figure.name == name)
    }

    fn add<K: Kind>(&mut self, name: &'static str, formula: &'static Formula, found: Found<K>) {
        match found {
            Ok(Estimate { span, assumptions }) => {
                let value = FigureValue::of(&span);
                self.computed.push(Figure { name, value, formula, assumptions });
            }
            Err(reason) => self.absent(name, reason),
        }
    }

    fn absent(&mut self, name: &'static str, reason: Note) {
        self.absent.push(AbsentFigure { name, reason });
    }
}

impl FigureValue {
    fn of<K: Kind>(span: &Span<K>) -> Self {
        match span.single() {
            Some(value) => Self::One(value.amount()),
            None => Self::Between(span.amounts()),
        }
    }

    /// The value with its kind in the type again; `None` where it is of another kind.
    fn span<K: Kind>(&self) -> Option<Span<K>> {
        match self {
            Self::One(amount) => amount.of_kind().map(Span::one),
            Self::Between(range) => Span::new(range.min?.of_kind()?, range.max?.of_kind()?).ok(),
        }
    }
}

/// A value with what was assumed for it.
#[derive(Debug, Clone)]
pub(super) struct Estimate<K: Kind> {
    pub(super) span: Span<K>,
    assumptions: Notes,
}

/// A value, or what is missing.
pub(super) type Found<K> = Result<Estimate<K>, Note>;

impl<K: Kind> Estimate<K> {
    fn with(span: Span<K>, assumptions: Notes) -> Self {
        Self { span, assumptions }
    }
}

/// The span between two results of one formula.
fn between<K: Kind>(
    low: Result<Quantity<K>, QuantityError>,
    high: Result<Quantity<K>, QuantityError>,
) -> Result<Span<K>, Note> {
    let text = |error: QuantityError| error.to_string();
    Ok(Span::new(low.map_err(text)?, high.map_err(text)?).map_err(|error| error.to_string())?)
}

/// The notes of two, in their order.
fn together(first: &Notes, then: &[Note]) -> Notes {
    let mut all = Notes::new();
    for note in first.iter().chain(then) {
        all.push(note.clone());
    }
    all
}

/// What was found, or why not.
fn known<T>(found: &Result<T, Note>) -> Result<&T, Note> {
    found.as_ref().map_err(Clone::clone)
}

/// The travel speed, on which area and time of a run rest.
fn travel_speed<'a>(inputs: &FigureInputs<'a>) -> Result<&'a Span<TravelSpeedKind>, Note> {
    let speed = inputs.readings.travel_speed.as_ref().map(|given| &given.span);
    Ok(speed.ok_or("The travel speed is neither stated nor computable.")?)
}

#[cfg(test)]
mod tests;
