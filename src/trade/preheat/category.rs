//! Minimum preheat and interpass temperature of prequalified procedures by AWS D1.1.

use rust_decimal::Decimal;

use super::PreheatError;
use crate::{
    quantity::{Kind, Temperature, Thickness, ThicknessKind, UnitSystem},
    trade::{coded, formula, scope::within},
};

formula! {
    /// Minimum preheat by category of base metal and process.
    pub const CATEGORY_PREHEAT {
        name: "preheat-category",
        equation: "table of category and thickness of the thickest part at the point of welding",
        source: "AWS D1.1:2015, Table 3.3 (3.2 to 2010, 5.8 in 2020); A and B also US Army TI 809-26, 1 \
                 March 2000, Table 3-1; C and D in °F from a reprint based on D1.1, in °C from memory",
        validity: "prequalified procedures; 3 mm (1/8 in) and thicker; which steel is in which category \
                   differs between editions",
        confidence: Secondary,
    }
}

coded! {
    /// Category of base metal and process.
    pub enum PreheatCategory: "preheat category" {
        /// Mild steels, covered electrodes that are not low-hydrogen.
        A = "A",
        /// Low-hydrogen covered electrodes, submerged arc, gas-shielded and cored wires.
        B = "B",
        /// Higher strength, same low-hydrogen processes as B.
        C = "C",
        /// Listed steels with consumables of H8 or drier.
        D = "D",
    }
}

/// Minimum preheat and interpass temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CategoryPreheat {
    /// The category that governs.
    pub category: PreheatCategory,
    /// Minimum temperature.
    pub minimum: Temperature,
    /// Where the minimum is freezing: heat to this and keep it, if the base metal is colder.
    pub if_freezing: Option<Temperature>,
}

/// One column pair: lower bound of plausible thickness, upper ends of the first three rows, and the
/// temperatures of A to D per row.
struct Table {
    least: f64,
    ends: [(i64, u32); 3],
    unit: (&'static str, &'static str),
    rows: [[i64; 4]; 4],
    freezing: (i64, i64),
}

const METRIC: Table = Table {
    least: 3.0,
    ends: [(20, 0), (38, 0), (65, 0)],
    unit: ("mm", "°C"),
    rows: [[0, 0, 10, 0], [65, 10, 65, 0], [110, 65, 110, 0], [150, 110, 150, 0]],
    freezing: (0, 20),
};

const US: Table = Table {
    least: 3.175,
    ends: [(75, 2), (15, 1), (25, 1)],
    unit: ("in", "°F"),
    rows: [[32, 32, 50, 32], [150, 50, 150, 32], [225, 150, 225, 32], [300, 225, 300, 32]],
    freezing: (32, 70),
};

/// Minimum preheat of a joint, [`CATEGORY_PREHEAT`]; of several categories the one that asks for
/// most. The metric and the US columns are not exact conversions of each other; the code is applied
/// in one of them.
///
/// # Errors
/// [`PreheatError::NoCategory`] without a category, [`PreheatError::OutOfRange`] below the table's
/// least thickness.
pub fn category_preheat(
    categories: &[PreheatCategory],
    thickness: Thickness,
    columns: UnitSystem,
) -> Result<CategoryPreheat, PreheatError> {
    let table = match columns {
        UnitSystem::Metric => &METRIC,
        UnitSystem::Us => &US,
    };
    within(thickness, table.least, ThicknessKind::INFO.span.1)?;
    let row = &table.rows[table.row(thickness)?];
    let governing = categories.iter().max_by_key(|category| (row[**category as usize], **category));
    let category = *governing.ok_or(PreheatError::NoCategory)?;
    let degrees = |number: i64| Temperature::entered(Decimal::from(number), table.unit.1);
    let minimum = row[category as usize];
    Ok(CategoryPreheat {
        category,
        minimum: degrees(minimum)?,
        if_freezing: (minimum == table.freezing.0)
            .then(|| degrees(table.freezing.1))
            .transpose()?,
    })
}

impl Table {
    /// The row of a thickness; the upper end belongs to its row.
    fn row(&self, thickness: Thickness) -> Result<usize, PreheatError> {
        for (index, (number, scale)) in self.ends.iter().enumerate() {
            let end = Thickness::entered(Decimal::new(*number, *scale), self.unit.0)?;
            if thickness.at_most(end) {
                return Ok(index);
            }
        }
        Ok(self.ends.len())
    }
}
