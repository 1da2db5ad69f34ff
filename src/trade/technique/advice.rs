//! What is advised, and for which case.

use std::{borrow::Cow, sync::LazyLock};

use super::{
    fillet,
    row::{ReadRow, Row},
    settings, travel, weave,
};
use crate::{
    quantity::{
        CurrentKind, Diameter, ElectricalStickOutKind, Range, TravelAngleKind, VoltageKind,
        WeaveWidthKind, WorkAngleKind,
    },
    trade::{BeadPattern, Coded, Confidence, Position, Process, RunClass, coded},
};

coded! {
    /// A variable that technique advice speaks about.
    pub enum AdvisedVariable: "advised variable" {
        /// Drag or push angle.
        TravelAngle = "travel-angle",
        /// Angle square to the joint.
        WorkAngle = "work-angle",
        /// Contact tip to work, recess counted.
        ElectricalStickOut = "electrical-stick-out",
        /// Welding current.
        Current = "current",
        /// Arc voltage.
        Voltage = "voltage",
        /// Width of the weave.
        WeaveWidth = "weave-width",
        /// Stringer or weave.
        BeadPattern = "bead-pattern",
    }
}

/// What is advised, typed by variable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AdvisedRange {
    /// Drag positive, push negative.
    TravelAngle(Range<TravelAngleKind>),
    /// From the surface of the lower plate.
    WorkAngle(Range<WorkAngleKind>),
    /// Recess of the contact tip counted.
    ElectricalStickOut(Range<ElectricalStickOutKind>),
    /// Mean current.
    Current(Range<CurrentKind>),
    /// Arc voltage.
    Voltage(Range<VoltageKind>),
    /// Width swept by the arc.
    WeaveWidth(Range<WeaveWidthKind>),
    /// The one pattern advised.
    BeadPattern(BeadPattern),
}

/// One piece of advice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advice {
    /// The advised values.
    pub range: AdvisedRange,
    /// The advice in a sentence.
    pub statement: &'static str,
    /// Where it is printed, or that there is no source.
    pub source: &'static str,
    /// How well it was confirmed.
    pub confidence: Confidence,
}

/// What is known of the job that technique depends on. Advice that depends on something not
/// given is left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TechniqueCase {
    /// Welding process.
    pub process: Process,
    /// Whether the consumable leaves a slag.
    pub slag: bool,
    /// Position, with its progression.
    pub position: Option<Position>,
    /// Diameter of the wire or core.
    pub diameter: Option<Diameter>,
    /// What the run does in the joint.
    pub run: Option<RunClass>,
}

impl AdvisedRange {
    /// The variable advised on.
    #[must_use]
    pub const fn variable(&self) -> AdvisedVariable {
        match self {
            Self::TravelAngle(_) => AdvisedVariable::TravelAngle,
            Self::WorkAngle(_) => AdvisedVariable::WorkAngle,
            Self::ElectricalStickOut(_) => AdvisedVariable::ElectricalStickOut,
            Self::Current(_) => AdvisedVariable::Current,
            Self::Voltage(_) => AdvisedVariable::Voltage,
            Self::WeaveWidth(_) => AdvisedVariable::WeaveWidth,
            Self::BeadPattern(_) => AdvisedVariable::BeadPattern,
        }
    }
}

impl Advice {
    /// The variable advised on.
    #[must_use]
    pub const fn variable(&self) -> AdvisedVariable {
        self.range.variable()
    }
}

/// All rows, in the order advice is given.
fn rows() -> impl Iterator<Item = &'static Row> {
    [travel::ROWS, fillet::ROWS, settings::ROWS, weave::ROWS].into_iter().flatten()
}

/// The rows with their texts read once: advice is asked for in every check.
static READ: LazyLock<Vec<ReadRow>> = LazyLock::new(|| rows().filter_map(Row::read).collect());

/// The rows that speak about each scene.
static OF_SCENE: LazyLock<Vec<Vec<&'static ReadRow>>> = LazyLock::new(|| {
    let mut table = vec![Vec::new(); Scene::ALL];
    for scene in Scene::all() {
        table[scene.index()].extend(READ.iter().filter(|row| row.speaks_about(scene)));
    }
    table
});

/// All of a case that rows tell apart but the diameter, of which there is no list.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scene {
    pub(super) process: Process,
    pub(super) slag: bool,
    pub(super) position: Option<Position>,
    pub(super) run: Option<RunClass>,
}

impl Scene {
    const POSITIONS: usize = Position::ALL.len() + 1;
    const RUNS: usize = RunClass::ALL.len() + 1;
    const ALL: usize = Process::ALL.len() * 2 * Self::POSITIONS * Self::RUNS;

    fn all() -> impl Iterator<Item = Self> {
        fn and_unknown<T: Coded>() -> impl Iterator<Item = Option<T>> {
            T::ALL.iter().map(|(one, _)| Some(*one)).chain([None])
        }
        let processes = Process::ALL.iter().map(|(process, _)| *process);
        let slags = processes.flat_map(|process| [true, false].map(|slag| (process, slag)));
        let positions = slags.flat_map(|known| and_unknown().map(move |next| (known, next)));
        positions.flat_map(|((process, slag), position)| {
            and_unknown().map(move |run| Self { process, slag, position, run })
        })
    }

    fn index(self) -> usize {
        let position = self.position.map_or(Self::POSITIONS - 1, |position| position as usize);
        let run = self.run.map_or(Self::RUNS - 1, |run| run as usize);
        let process = self.process as usize * 2 + usize::from(self.slag);
        (process * Self::POSITIONS + position) * Self::RUNS + run
    }
}

/// What is advised for one case, made up where somebody looks at it.
#[derive(Debug, Clone, Copy)]
pub struct Practice {
    rows: &'static [&'static ReadRow],
    diameter: Option<Diameter>,
    /// Whether it speaks of current and volts.
    on_output: bool,
}

impl Practice {
    /// Practice for a case.
    #[must_use]
    pub fn of(case: &TechniqueCase) -> Self {
        let TechniqueCase { process, slag, position, run, diameter } = *case;
        let rows = &OF_SCENE[Scene { process, slag, position, run }.index()];
        Self { rows, diameter, on_output: true }
    }

    /// The same without current and volts, for a wire whose own data say what it takes.
    #[must_use]
    pub const fn but_output(self) -> Self {
        Self { on_output: false, ..self }
    }

    /// All of its advice, several pieces for one variable where sources differ.
    pub fn advice(self) -> impl Iterator<Item = Advice> {
        let rows = self.rows.iter().filter(move |row| self.speaks_of(row.variable()));
        rows.filter_map(move |row| row.advice(self.diameter))
    }

    const fn speaks_of(self, variable: AdvisedVariable) -> bool {
        self.on_output || !matches!(variable, AdvisedVariable::Current | AdvisedVariable::Voltage)
    }

    /// What it advises for one variable, each with its source.
    pub fn on(
        self,
        variable: AdvisedVariable,
    ) -> impl Iterator<Item = (Cow<'static, AdvisedRange>, &'static str)> {
        let asked = move |row: &&&ReadRow| row.variable() == variable && self.speaks_of(variable);
        let rows = self.rows.iter().filter(asked);
        rows.filter_map(move |row| Some((row.range(self.diameter)?, row.source())))
    }
}

/// All advice for a case, several pieces for one variable where sources differ.
#[must_use]
pub fn advice(case: &TechniqueCase) -> Vec<Advice> {
    Practice::of(case).advice().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flux_cored(position: Option<Position>) -> TechniqueCase {
        TechniqueCase {
            process: Process::MagFluxCored,
            slag: true,
            position,
            diameter: Some("1.2 mm".parse().unwrap()),
            run: Some(RunClass::Fill),
        }
    }

    fn shown(case: &TechniqueCase, variable: AdvisedVariable) -> Vec<String> {
        let ranges = advice(case).into_iter().filter(|advice| advice.variable() == variable);
        ranges
            .map(|advice| match advice.range {
                AdvisedRange::TravelAngle(range) => range.amounts().to_string(),
                AdvisedRange::WorkAngle(range) => range.amounts().to_string(),
                AdvisedRange::ElectricalStickOut(range) => range.amounts().to_string(),
                AdvisedRange::Current(range) => range.amounts().to_string(),
                AdvisedRange::Voltage(range) => range.amounts().to_string(),
                AdvisedRange::WeaveWidth(range) => range.amounts().to_string(),
                AdvisedRange::BeadPattern(pattern) => pattern.to_string(),
            })
            .collect()
    }

    /// 5 to 10 degrees: common practice, no source. 10 to 25: GMAW/FCAW Handbook,
    /// Goodheart-Willcox 2018, p. 76.
    #[test]
    fn drag_in_the_horizontal_position_comes_from_two_sources() {
        let case = flux_cored(Some(Position::Pb));
        let angles = shown(&case, AdvisedVariable::TravelAngle);
        assert_eq!(angles, ["5 deg to 10 deg", "10 deg to 25 deg"]);
        let sources: Vec<_> = advice(&case).iter().map(|advice| advice.source).collect();
        assert!(sources.contains(&"common practice, no source"));
        assert!(sources.contains(&"GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 76"));
    }

    /// Common practice, no source.
    #[test]
    fn vertical_up_is_straight_in_to_a_slight_push() {
        let case = flux_cored(Some(Position::Pf));
        assert_eq!(shown(&case, AdvisedVariable::TravelAngle), ["-10 deg to 0 deg"]);
    }

    #[test]
    fn drag_because_of_slag_is_not_advised_without_one() {
        let case = TechniqueCase { slag: false, ..flux_cored(Some(Position::Pb)) };
        assert!(shown(&case, AdvisedVariable::TravelAngle).is_empty());
    }

    #[test]
    fn a_position_not_given_gets_no_angle() {
        assert!(shown(&flux_cored(None), AdvisedVariable::TravelAngle).is_empty());
    }

    /// 5/8 to 1 in and 180 to 300 A: common practice, no source. 150 to 250 A: Modern Welding,
    /// Goodheart-Willcox 2020, Fig. 8-20. 0.045 in and 1.2 mm are one size class.
    #[test]
    fn settings_go_by_the_size_class_of_the_wire() {
        for diameter in ["1.2 mm", "0.045 in"] {
            let case = TechniqueCase {
                diameter: Some(diameter.parse().unwrap()),
                ..flux_cored(Some(Position::Pb))
            };
            assert_eq!(shown(&case, AdvisedVariable::ElectricalStickOut), ["0.625 in to 1 in"]);
            let currents = shown(&case, AdvisedVariable::Current);
            assert_eq!(currents, ["180 A to 300 A", "150 A to 250 A"]);
        }
        let unknown = TechniqueCase { diameter: None, ..flux_cored(Some(Position::Pb)) };
        assert!(shown(&unknown, AdvisedVariable::Current).is_empty());
    }

    /// Common practice, no source.
    #[test]
    fn a_root_is_a_stringer_and_has_no_weave() {
        let root = TechniqueCase { run: Some(RunClass::Root), ..flux_cored(Some(Position::Pf)) };
        assert_eq!(shown(&root, AdvisedVariable::BeadPattern), ["stringer"]);
        assert!(shown(&root, AdvisedVariable::WeaveWidth).is_empty());
        assert!(shown(&flux_cored(None), AdvisedVariable::BeadPattern).is_empty());
    }

    /// 4 core diameters of 3.2 mm are 12.8 mm (common practice; own arithmetic).
    #[test]
    fn the_weave_of_a_covered_electrode_goes_by_its_core() {
        let case = TechniqueCase {
            process: Process::ManualMetalArc,
            slag: true,
            position: Some(Position::Pf),
            diameter: Some("3.2 mm".parse().unwrap()),
            run: Some(RunClass::Fill),
        };
        assert_eq!(shown(&case, AdvisedVariable::WeaveWidth), ["at most 12.8 mm"]);
    }

    /// Common practice, no source.
    #[test]
    fn solid_wire_out_of_position_runs_cool() {
        let case = |position| TechniqueCase {
            process: Process::MagSolidWire,
            slag: false,
            position: Some(position),
            diameter: None,
            run: None,
        };
        let current = AdvisedVariable::Current;
        assert_eq!(shown(&case(Position::Pe), current), ["140 A to 180 A"]);
        assert!(shown(&case(Position::Pa), current).is_empty());
    }

    #[test]
    fn every_scene_has_a_place_of_its_own() {
        let mut places: Vec<_> = Scene::all().map(Scene::index).collect();
        places.sort_unstable();
        assert!(places.into_iter().eq(0..Scene::ALL));
    }

    #[test]
    fn every_row_can_be_read_and_names_its_source() {
        let mut count = 0;
        for row in rows() {
            let case = row.example();
            let row = row.read().unwrap();
            let advice = row.advice(case.diameter).unwrap();
            assert!(super::advice(&case).contains(&advice), "{}", advice.statement);
            assert!(!advice.source.is_empty());
            let unsourced = advice.source == "common practice, no source";
            assert_eq!(advice.confidence == Confidence::CommonPractice, unsourced);
            count += 1;
        }
        assert_eq!(count, 34);
    }
}
