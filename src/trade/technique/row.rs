//! One row of the technique tables, and when it applies.

use std::borrow::Cow;

use super::{Advice, AdvisedRange, AdvisedVariable, advice::Scene};
use crate::{
    quantity::{Diameter, Kind, Quantity, Range, WeaveWidth},
    trade::{BeadPattern, Confidence, Position, Process, RunClass},
};

/// Ends of a range as texts with unit; an end may be open.
type Ends = (Option<&'static str>, Option<&'static str>);

/// The advised values of a row, before they are read.
#[derive(Debug)]
pub(super) enum RowRange {
    TravelAngle(Ends),
    WorkAngle(Ends),
    ElectricalStickOut(Ends),
    Current(Ends),
    Voltage(Ends),
    WeaveWidth(Ends),
    /// A weave of at most this many core diameters.
    WeaveInCores(f64),
    BeadPattern(BeadPattern),
}

/// One row. An empty list means that the row holds for every value.
#[derive(Debug)]
pub(super) struct Row {
    pub(super) processes: &'static [Process],
    pub(super) slag: Option<bool>,
    pub(super) positions: &'static [Position],
    /// Nominal sizes of one class.
    pub(super) diameters: &'static [&'static str],
    pub(super) runs: &'static [RunClass],
    pub(super) range: RowRange,
    pub(super) statement: &'static str,
    pub(super) source: &'static str,
    pub(super) confidence: Confidence,
}

/// Source of all advice that was never printed, as far as known.
pub(super) const PRACTICE: &str = "common practice, no source";

pub(super) const FLAT_AND_HORIZONTAL: &[Position] = &[Position::Pa, Position::Pb, Position::Pc];
pub(super) const UP: &[Position] = &[Position::Pf, Position::Ph, Position::HL045];
pub(super) const DOWN: &[Position] = &[Position::Pg, Position::Pj, Position::JL045];

/// Both ends given.
pub(super) const fn between(min: &'static str, max: &'static str) -> Ends {
    (Some(min), Some(max))
}

/// Upper end only.
pub(super) const fn at_most(max: &'static str) -> Ends {
    (None, Some(max))
}

impl Row {
    /// A row of common practice for some processes, in every case.
    pub(super) const fn practice(
        processes: &'static [Process],
        range: RowRange,
        statement: &'static str,
    ) -> Self {
        Self {
            processes,
            slag: None,
            positions: &[],
            diameters: &[],
            runs: &[],
            range,
            statement,
            source: PRACTICE,
            confidence: Confidence::CommonPractice,
        }
    }

    /// The row, restricted to consumables with or without slag.
    pub(super) const fn slag(self, slag: bool) -> Self {
        Self { slag: Some(slag), ..self }
    }

    /// The row, restricted to these positions.
    pub(super) const fn positions(self, positions: &'static [Position]) -> Self {
        Self { positions, ..self }
    }

    /// The row, restricted to these nominal sizes.
    pub(super) const fn diameters(self, diameters: &'static [&'static str]) -> Self {
        Self { diameters, ..self }
    }

    /// The row, restricted to these run classes.
    pub(super) const fn runs(self, runs: &'static [RunClass]) -> Self {
        Self { runs, ..self }
    }

    /// The row with a printed source.
    pub(super) const fn printed(self, source: &'static str, confidence: Confidence) -> Self {
        Self { source, confidence, ..self }
    }

    /// The row with its texts read, for use many times; `None` where one cannot be read.
    pub(super) fn read(&'static self) -> Option<ReadRow> {
        let range = match self.range {
            RowRange::TravelAngle(ends) => AdvisedRange::TravelAngle(read(ends)?),
            RowRange::WorkAngle(ends) => AdvisedRange::WorkAngle(read(ends)?),
            RowRange::ElectricalStickOut(ends) => AdvisedRange::ElectricalStickOut(read(ends)?),
            RowRange::Current(ends) => AdvisedRange::Current(read(ends)?),
            RowRange::Voltage(ends) => AdvisedRange::Voltage(read(ends)?),
            RowRange::WeaveWidth(ends) => AdvisedRange::WeaveWidth(read(ends)?),
            RowRange::WeaveInCores(cores) => return self.with(ReadRange::WeaveInCores(cores)),
            RowRange::BeadPattern(pattern) => AdvisedRange::BeadPattern(pattern),
        };
        self.with(ReadRange::Fixed(range))
    }

    fn with(&'static self, range: ReadRange) -> Option<ReadRow> {
        let sizes = self.diameters.iter().map(|size| size.parse()).collect::<Result<_, _>>();
        Some(ReadRow { row: self, diameters: sizes.ok()?, range })
    }

    /// A case the row speaks about.
    #[cfg(test)]
    pub(super) fn example(&self) -> super::TechniqueCase {
        let diameter = self.diameters.first().unwrap_or(&"3.2 mm");
        super::TechniqueCase {
            process: self.processes.first().copied().unwrap_or(Process::MagFluxCored),
            slag: self.slag.unwrap_or(true),
            position: Some(self.positions.first().copied().unwrap_or(Position::Pa)),
            diameter: Some(diameter.parse().unwrap()),
            run: Some(self.runs.first().copied().unwrap_or(RunClass::Fill)),
        }
    }
}

/// A row whose texts are read.
#[derive(Debug)]
pub(super) struct ReadRow {
    pub(super) row: &'static Row,
    diameters: Vec<Diameter>,
    range: ReadRange,
}

#[derive(Debug)]
enum ReadRange {
    Fixed(AdvisedRange),
    WeaveInCores(f64),
}

impl ReadRow {
    /// Whether the row speaks about this scene, at one diameter or all.
    pub(super) fn speaks_about(&self, scene: Scene) -> bool {
        let Row { processes, slag, positions, runs, .. } = self.row;
        admits(processes, Some(scene.process))
            && slag.is_none_or(|slag| slag == scene.slag)
            && admits(positions, scene.position)
            && admits(runs, scene.run)
    }

    /// The variable it advises on.
    pub(super) const fn variable(&self) -> AdvisedVariable {
        match &self.range {
            ReadRange::Fixed(range) => range.variable(),
            ReadRange::WeaveInCores(_) => AdvisedVariable::WeaveWidth,
        }
    }

    /// Where it is printed, or that there is no source.
    pub(super) const fn source(&self) -> &'static str {
        self.row.source
    }

    /// What the row advises; `None` where it does not speak about this diameter, or needs one that is not given.
    pub(super) fn range(&self, diameter: Option<Diameter>) -> Option<Cow<'_, AdvisedRange>> {
        if !admits(&self.diameters, diameter) {
            return None;
        }
        match &self.range {
            ReadRange::Fixed(range) => Some(Cow::Borrowed(range)),
            ReadRange::WeaveInCores(cores) => {
                let width = WeaveWidth::computed(cores * diameter?.mm()).ok()?;
                Some(Cow::Owned(AdvisedRange::WeaveWidth(Range::at_most(width))))
            }
        }
    }

    /// The same with what is said of it.
    pub(super) fn advice(&self, diameter: Option<Diameter>) -> Option<Advice> {
        let range = self.range(diameter)?.into_owned();
        let Row { statement, source, confidence, .. } = *self.row;
        Some(Advice { range, statement, source, confidence })
    }
}

fn admits<T: PartialEq>(listed: &[T], given: Option<T>) -> bool {
    listed.is_empty() || given.is_some_and(|given| listed.contains(&given))
}

/// Whether a diameter is one of these nominal sizes.
pub(super) fn is_one_of(diameter: Diameter, sizes: &[&str]) -> bool {
    sizes.iter().any(|size| size.parse() == Ok(diameter))
}

fn read<K: Kind>((min, max): Ends) -> Option<Range<K>> {
    let end = |text: Option<&str>| text.map(str::parse::<Quantity<K>>).transpose().ok();
    Range::new(end(min)?, end(max)?).ok()
}
