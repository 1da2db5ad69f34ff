//! Preheat by EN 1011-2 Method A (CE): as far as its printed table goes, then by readings of its
//! charts that an organisation made itself.

use time::Date;

use super::{HydrogenScale, PreheatError};
use crate::{
    quantity::{CeIiw, CombinedThickness, HeatInput, Temperature},
    trade::{
        SteelFamily, formula,
        scope::{positive, within},
    },
};

formula! {
    /// Largest combined thickness that is welded without preheat.
    pub const METHOD_A_TABLE {
        name: "preheat-method-a",
        equation: "no preheat while the combined thickness is at most the printed one, at the next worse \
                   CE (0.43 or 0.49), hydrogen scale and heat input (1.0 or 2.0 kJ/mm); never between \
                   two columns",
        source: "EN 1011-2:2001, C.2 and Table C.1; the charts of Figure C.2 are curves and are read by \
                 people",
        validity: "unalloyed and low-alloy ferritic steel; CE 0.30 to 0.70 % (from memory); more \
                   preheat than charted for high restraint, combined thickness above 100 mm, roots of \
                   thick welds, weld metal stronger than the parent metal",
        confidence: TextRead,
    }
}

/// Rows of Table C.1 by hydrogen scale: largest combined thickness in mm at CE 0.49 with 1.0 and 2.0
/// kJ/mm, then at CE 0.43 with 1.0 and 2.0 kJ/mm.
const TABLE: [(HydrogenScale, [[f64; 2]; 2]); 5] = [
    (HydrogenScale::A, [[25.0, 50.0], [40.0, 80.0]]),
    (HydrogenScale::B, [[30.0, 55.0], [50.0, 90.0]]),
    (HydrogenScale::C, [[35.0, 65.0], [60.0, 100.0]]),
    (HydrogenScale::D, [[50.0, 100.0], [100.0, 100.0]]),
    (HydrogenScale::E, [[60.0, 100.0], [100.0, 100.0]]),
];

/// Inputs of the method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MethodA {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Carbon equivalent; the high bound where it is not exact.
    pub ce: CeIiw,
    /// Hydrogen scale of the consumable.
    pub scale: HydrogenScale,
    /// Heat input, thermal efficiency counted; the lowest that may occur.
    pub heat_input: HeatInput,
    /// Combined thickness of the joint.
    pub combined: CombinedThickness,
}

/// One point that somebody read off a chart of the standard. It covers every case that is no worse
/// in any of its four inputs.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartReading {
    /// Highest carbon equivalent.
    pub highest_ce: CeIiw,
    /// Worst hydrogen scale.
    pub worst_scale: HydrogenScale,
    /// Lowest heat input.
    pub lowest_heat_input: HeatInput,
    /// Largest combined thickness.
    pub largest_combined: CombinedThickness,
    /// Preheat read; `None` where the chart asks for none.
    pub preheat: Option<Temperature>,
    /// Who read it.
    pub read_by: String,
    /// Day it was read.
    pub read_on: Date,
    /// Figure and edition it was read from.
    pub figure: String,
}

/// What the method says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MethodAAnswer<'a> {
    /// No preheat, by the printed table, up to this combined thickness.
    NoPreheatByTable {
        /// The printed thickness.
        up_to: CombinedThickness,
    },
    /// What a reading says.
    ByReading(&'a ChartReading),
}

/// Preheat by the printed table, [`METHOD_A_TABLE`], else by the first reading that covers the case.
///
/// # Errors
/// [`PreheatError::ChartRequired`] where neither decides; [`PreheatError::Metal`] and
/// [`PreheatError::OutOfRange`] outside the method's validity.
pub fn method_a_preheat<'a>(
    case: &MethodA,
    readings: &'a [ChartReading],
) -> Result<MethodAAnswer<'a>, PreheatError> {
    case.metal.low_alloy_only()?;
    within(case.ce, 0.30, 0.70)?;
    positive(case.heat_input)?;
    positive(case.combined)?;
    if let Some(up_to) = by_table(case)? {
        return Ok(MethodAAnswer::NoPreheatByTable { up_to });
    }
    let covering = readings.iter().find(|reading| reading.covers(case));
    covering.map(MethodAAnswer::ByReading).ok_or(PreheatError::ChartRequired)
}

/// The printed thickness, where the case is at or below it.
fn by_table(case: &MethodA) -> Result<Option<CombinedThickness>, PreheatError> {
    let column = if case.ce.at_most(CeIiw::computed(0.43)?) {
        1
    } else if case.ce.at_most(CeIiw::computed(0.49)?) {
        0
    } else {
        return Ok(None);
    };
    let heat = if case.heat_input.at_least(HeatInput::computed(2.0)?) {
        1
    } else if case.heat_input.at_least(HeatInput::computed(1.0)?) {
        0
    } else {
        return Ok(None);
    };
    let row = TABLE.iter().find(|(scale, _)| *scale == case.scale);
    let Some((_, cells)) = row else { return Ok(None) };
    let up_to = CombinedThickness::computed(cells[column][heat])?;
    Ok(case.combined.at_most(up_to).then_some(up_to))
}

impl ChartReading {
    /// Whether the case is no worse than the point read, in each input.
    fn covers(&self, case: &MethodA) -> bool {
        case.ce.at_most(self.highest_ce)
            && case.scale.at_least_as_dry_as(self.worst_scale)
            && case.heat_input.at_least(self.lowest_heat_input)
            && case.combined.at_most(self.largest_combined)
    }
}
