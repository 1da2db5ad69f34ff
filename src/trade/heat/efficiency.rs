//! Heat input, and the thermal efficiency factor that makes it from arc energy.

use std::{array, sync::LazyLock};

use rust_decimal::Decimal;

use super::HeatError;
use crate::{
    quantity::{ArcEnergy, HeatInput, Share},
    trade::{Confidence, Process, formula},
};

formula! {
    /// Heat input from arc energy.
    pub const HEAT_INPUT {
        name: "heat-input",
        equation: "Q = k * E; E and Q in kJ/mm",
        source: "EN 1011-1:2009, 8.7 and Table 1; ISO/TR 17671-1:2002",
        validity: "k is set relative to submerged arc and is no measured efficiency: two to three \
                   significant figures at best",
        confidence: Secondary,
    }
}

/// Heat input, [`HEAT_INPUT`].
///
/// # Errors
/// [`HeatError::Efficiency`] unless the factor is above 0 and at most 1.
pub fn heat_input(arc_energy: ArcEnergy, efficiency: Share) -> Result<HeatInput, HeatError> {
    let k = efficiency.ratio();
    if !efficiency.is_part() {
        return Err(HeatError::Efficiency { given: efficiency });
    }
    Ok(HeatInput::computed(k * arc_energy.kj_per_mm())?)
}

/// Thermal efficiency factor `k` of a process by EN 1011-1:2009 Table 1 (ISO/TR 17671-1 has the
/// same), and how well it was confirmed.
///
/// `None` for a process the table does not list. The table has 137 and 139 of an older
/// ISO 4063 for what is 132 and 133 now; that reading is from memory.
#[must_use]
pub fn thermal_efficiency(process: Process) -> Option<(Share, Confidence)> {
    use Confidence::{Memory, Secondary};
    let (tenths, confidence) = match process {
        Process::SubmergedSolidWire => (10, Secondary),
        Process::ManualMetalArc
        | Process::SelfShieldedFluxCored
        | Process::MigSolidWire
        | Process::MagSolidWire
        | Process::MagFluxCored
        | Process::MagMetalCored => (8, Secondary),
        Process::MigFluxCored | Process::MigMetalCored => (8, Memory),
        Process::TigSolidFiller | Process::Plasma => (6, Secondary),
        _ => return None,
    };
    let share = *SHARES.get(tenths)?;
    Some((share?, confidence))
}

/// Shares by their tenths, read once.
static SHARES: LazyLock<[Option<Share>; 11]> = LazyLock::new(|| {
    let tenths = |tenths: usize| i64::try_from(tenths).ok();
    array::from_fn(|at| Share::entered(Decimal::new(tenths(at)?, 1), "1").ok())
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_process_outside_the_table_has_no_factor() {
        for process in [Process::SubmergedStrip, Process::TigAutogenous, Process::PlasmaMig] {
            assert_eq!(thermal_efficiency(process), None, "{process}");
        }
    }

    #[test]
    fn older_numbers_are_marked_as_from_memory() {
        let (k, confidence) = thermal_efficiency(Process::MigFluxCored).unwrap();
        assert_eq!(k, "80 %".parse().unwrap());
        assert_eq!(confidence, Confidence::Memory);
    }

    #[test]
    fn a_factor_of_zero_or_above_one_is_refused() {
        let energy = "1 kJ/mm".parse().unwrap();
        for k in ["0 %", "125 %"] {
            let refused = heat_input(energy, k.parse().unwrap());
            assert!(matches!(refused, Err(HeatError::Efficiency { .. })), "{k}");
        }
        assert_eq!(heat_input(energy, "100 %".parse().unwrap()), Ok("1 kJ/mm".parse().unwrap()));
    }
}
