//! Size limits of prequalified procedures, AWS D1.1/D1.1M:2020, Table 5.1.

use crate::{
    quantity::{LayerThickness, Leg, UnitSystem},
    trade::{Confidence, Position, Process, coded},
};

/// Where the limits are printed. Two copies of the table were read, not the code itself; they agree,
/// but one only tells the submerged-arc columns apart for root and fill runs.
pub const PREQUALIFIED_SOURCE: (&str, Confidence) =
    ("AWS D1.1/D1.1M:2020, Table 5.1, Prequalified WPS Requirements", Confidence::Secondary);

coded! {
    /// Column of the table.
    pub enum PrequalifiedColumn: "column of the prequalified limits" {
        /// Covered electrode.
        CoveredElectrode = "SMAW",
        /// Submerged arc, one electrode.
        SubmergedSingle = "SAW-single",
        /// Submerged arc, electrodes side by side on one power source.
        SubmergedParallel = "SAW-parallel",
        /// Submerged arc, several arcs.
        SubmergedMultiple = "SAW-multiple",
        /// Gas-shielded and self-shielded wire.
        Wire = "GMAW-FCAW",
    }
}

/// A size limit, or the table's word that there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SizeLimit<Q> {
    /// At most this.
    AtMost(Q),
    /// The table says "unlimited".
    Unlimited,
}

/// Limits of one column and position. `None`: the table has no entry, so nothing is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PrequalifiedLimits {
    /// Largest fillet in a single run.
    pub single_run_fillet: Option<SizeLimit<Leg>>,
    /// Thickest root run.
    pub root: Option<SizeLimit<LayerThickness>>,
    /// Thickest fill run.
    pub fill: Option<SizeLimit<LayerThickness>>,
}

/// Positions of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Row {
    Flat,
    Horizontal,
    Vertical,
    Overhead,
}

/// A cell as printed: US and metric size, or "unlimited" or nothing.
#[derive(Debug, Clone, Copy)]
enum Cell {
    Size(&'static str, &'static str),
    Unlimited,
    Empty,
}

const IN_3_16: Cell = Cell::Size("3/16 in", "5 mm");
const IN_1_4: Cell = Cell::Size("1/4 in", "6 mm");
const IN_5_16: Cell = Cell::Size("5/16 in", "8 mm");
const IN_3_8: Cell = Cell::Size("3/8 in", "10 mm");
const IN_1_2: Cell = Cell::Size("1/2 in", "12 mm");

/// Column of a process. Submerged arc is read as one electrode; `None` for processes that the
/// table does not list, such as TIG.
#[must_use]
pub fn prequalified_column(process: Process) -> Option<PrequalifiedColumn> {
    match process.aws_letters() {
        "SMAW" => Some(PrequalifiedColumn::CoveredElectrode),
        "SAW" => Some(PrequalifiedColumn::SubmergedSingle),
        "GMAW" | "FCAW-G" | "FCAW-S" => Some(PrequalifiedColumn::Wire),
        _ => None,
    }
}

/// Limits of a column in a position, in the sizes printed for this unit system: 3/8 in and 10 mm
/// stand side by side in the table and each system is used by itself. `None` for positions the
/// table does not have (a fixed pipe passes through several). The table does not tell vertical up
/// from down: whether a downward run is prequalified at all is for another clause.
#[must_use]
pub fn prequalified_limits(
    column: PrequalifiedColumn,
    position: Position,
    units: UnitSystem,
) -> Option<PrequalifiedLimits> {
    let row = row(position)?;
    Some(PrequalifiedLimits {
        single_run_fillet: limit(single_run_fillet(column, row), units),
        root: limit(root_run(column, row), units),
        fill: limit(fill_run(column, row), units),
    })
}

const fn row(position: Position) -> Option<Row> {
    match position {
        Position::Pa => Some(Row::Flat),
        Position::Pb | Position::Pc => Some(Row::Horizontal),
        Position::Pf | Position::Pg => Some(Row::Vertical),
        Position::Pd | Position::Pe => Some(Row::Overhead),
        Position::Ph | Position::Pj | Position::Pk | Position::HL045 | Position::JL045 => None,
    }
}

/// Largest single-run fillet.
const fn single_run_fillet(column: PrequalifiedColumn, row: Row) -> Cell {
    use PrequalifiedColumn::{
        CoveredElectrode, SubmergedMultiple, SubmergedParallel, SubmergedSingle, Wire,
    };
    match (column, row) {
        (CoveredElectrode, Row::Flat) | (Wire, Row::Horizontal) => IN_3_8,
        (CoveredElectrode | Wire, Row::Overhead)
        | (CoveredElectrode | SubmergedSingle | SubmergedParallel, Row::Horizontal) => IN_5_16,
        (CoveredElectrode | Wire, Row::Vertical)
        | (Wire, Row::Flat)
        | (SubmergedMultiple, Row::Horizontal) => IN_1_2,
        (SubmergedSingle | SubmergedParallel | SubmergedMultiple, Row::Flat) => Cell::Unlimited,
        (_, Row::Vertical | Row::Overhead) => Cell::Empty,
    }
}

/// Thickest root run.
const fn root_run(column: PrequalifiedColumn, row: Row) -> Cell {
    use PrequalifiedColumn::{CoveredElectrode, Wire};
    match (column, row) {
        (CoveredElectrode | Wire, Row::Flat) => IN_3_8,
        (CoveredElectrode | Wire, Row::Horizontal | Row::Overhead) => IN_5_16,
        (CoveredElectrode | Wire, Row::Vertical) => IN_1_2,
        (_, Row::Flat | Row::Horizontal) => Cell::Unlimited,
        (_, Row::Vertical | Row::Overhead) => Cell::Empty,
    }
}

/// Thickest fill run; submerged arc has no vertical or overhead row.
const fn fill_run(column: PrequalifiedColumn, row: Row) -> Cell {
    use PrequalifiedColumn::{
        CoveredElectrode, SubmergedMultiple, SubmergedParallel, SubmergedSingle, Wire,
    };
    match (column, row) {
        (CoveredElectrode, _) => IN_3_16,
        (Wire, _) | (SubmergedSingle, Row::Flat | Row::Horizontal) => IN_1_4,
        (SubmergedParallel | SubmergedMultiple, Row::Flat | Row::Horizontal) => Cell::Unlimited,
        (_, Row::Vertical | Row::Overhead) => Cell::Empty,
    }
}

fn limit<Q: std::str::FromStr>(cell: Cell, units: UnitSystem) -> Option<SizeLimit<Q>> {
    match cell {
        Cell::Size(us, metric) => {
            let text = if units == UnitSystem::Us { us } else { metric };
            text.parse().ok().map(SizeLimit::AtMost)
        }
        Cell::Unlimited => Some(SizeLimit::Unlimited),
        Cell::Empty => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::Coded;

    fn shown<Q: std::fmt::Display>(limit: Option<SizeLimit<Q>>) -> String {
        match limit {
            Some(SizeLimit::AtMost(size)) => size.to_string(),
            Some(SizeLimit::Unlimited) => "unlimited".to_owned(),
            None => "-".to_owned(),
        }
    }

    /// AWS D1.1/D1.1M:2020, Table 5.1 (secondary, two copies that agree).
    #[test]
    fn limits_are_those_of_the_table() {
        use Position::{Pa, Pb, Pe, Pf};
        let printed = [
            ("SMAW", Pa, "10 mm", "10 mm", "5 mm"),
            ("SMAW", Pb, "8 mm", "8 mm", "5 mm"),
            ("SMAW", Pf, "12 mm", "12 mm", "5 mm"),
            ("SMAW", Pe, "8 mm", "8 mm", "5 mm"),
            ("GMAW-FCAW", Pa, "12 mm", "10 mm", "6 mm"),
            ("GMAW-FCAW", Pb, "10 mm", "8 mm", "6 mm"),
            ("GMAW-FCAW", Pf, "12 mm", "12 mm", "6 mm"),
            ("GMAW-FCAW", Pe, "8 mm", "8 mm", "6 mm"),
            ("SAW-single", Pa, "unlimited", "unlimited", "6 mm"),
            ("SAW-single", Pb, "8 mm", "unlimited", "6 mm"),
            ("SAW-parallel", Pb, "8 mm", "unlimited", "unlimited"),
            ("SAW-multiple", Pb, "12 mm", "unlimited", "unlimited"),
            ("SAW-single", Pf, "-", "-", "-"),
        ];
        for (column, position, fillet, root, fill) in printed {
            let column = PrequalifiedColumn::from_code(column).unwrap();
            let limits = prequalified_limits(column, position, UnitSystem::Metric).unwrap();
            let got = [shown(limits.single_run_fillet), shown(limits.root), shown(limits.fill)];
            assert_eq!(got, [fillet, root, fill], "{column} {position}");
        }
    }

    /// Both systems of the table stand by themselves: 3/8 in is not 10 mm.
    #[test]
    fn inch_shops_get_inch_sizes() {
        let limits = prequalified_limits(PrequalifiedColumn::Wire, Position::Pb, UnitSystem::Us);
        assert_eq!(shown(limits.unwrap().single_run_fillet), "0.375 in");
    }

    #[test]
    fn what_the_table_does_not_list_is_unknown() {
        let pipe = Position::Ph;
        assert_eq!(prequalified_limits(PrequalifiedColumn::Wire, pipe, UnitSystem::Metric), None);
        assert_eq!(prequalified_column(Process::TigSolidFiller), None);
        assert_eq!(prequalified_column(Process::MagFluxCored), Some(PrequalifiedColumn::Wire));
    }
}
