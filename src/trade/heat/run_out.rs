//! Heat input of covered electrodes with a ruler: how much core wire went into how much bead.

use crate::{
    quantity::{
        ArcEnergy, Current, Diameter, Duration, ElectrodeLength, HeatInput, QuantityError,
        RunLength, Share, Voltage,
    },
    trade::{OutOfRange, formula, scope::positive},
};

formula! {
    /// Heat input from the run-out of a covered electrode.
    pub const HEAT_INPUT_FROM_RUN_OUT {
        name: "heat-input-run-out",
        equation: "Q = D^2 * L * F / R; D core wire diameter, L length of electrode melted, R length \
                   of run, all in mm; Q in kJ/mm; F in kJ/mm3: 0.0368 up to 95 % nominal electrode \
                   efficiency, 0.0408 to 110 %, 0.0472 to 130 %, 0.0608 above",
        source: "EN 1011-2 in the tradition of BS 5135; from memory",
        validity: "covered electrodes; F holds a thermal efficiency of 0.8 (F / 0.8 is 0.046, 0.051, \
                   0.059 and 0.076, so the result is heat input, not arc energy)",
        confidence: Memory,
    }
}

formula! {
    /// Length of run that one length of electrode may not fall short of.
    pub const RUN_OUT_FOR_HEAT_INPUT {
        name: "run-out-for-heat-input",
        equation: "R = D^2 * L * F / Q; symbols of heat-input-run-out",
        source: "heat-input-run-out, solved for R",
        validity: as HEAT_INPUT_FROM_RUN_OUT,
        confidence: Memory,
    }
}

formula! {
    /// Length of run per length of electrode.
    pub const RUN_OUT_RATIO {
        name: "run-out-ratio",
        equation: "R / L; symbols of heat-input-run-out",
        source: "definition of the run-out ratio",
        validity: "covered electrodes; says nothing of heat without diameter and electrode efficiency",
        confidence: Derived,
    }
}

formula! {
    /// Arc energy of a run from the time one electrode burned.
    pub const ARC_ENERGY_FROM_BURN_TIME {
        name: "arc-energy-burn-time",
        equation: "E = U * I * t / (1000 * R); U in V, I in A, t in s, R in mm, E in kJ/mm",
        source: "definition of arc energy; ISO/TR 18491:2015, method A with v = R / t",
        validity: "output not waveform-controlled; t is the time the arc burned over R",
        confidence: Derived,
    }
}

/// One covered electrode and what was welded with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunOut {
    /// Diameter of the core wire.
    pub core: Diameter,
    /// Length of electrode melted off, stub not counted.
    pub melted: ElectrodeLength,
    /// Nominal electrode efficiency (ISO 2401): metal deposited per mass of core wire. Above
    /// 100 % with iron powder in the covering.
    pub efficiency: Share,
}

/// Why a run-out says nothing.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RunOutError {
    /// A length, diameter, efficiency or heat input is not above zero.
    #[error(transparent)]
    OutOfRange(#[from] Box<OutOfRange>),
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

impl RunOut {
    /// Heat per length of run, times that length, in kJ: `D² · L · F`.
    fn heat(&self) -> Result<f64, Box<OutOfRange>> {
        positive(self.core)?;
        positive(self.melted)?;
        positive(self.efficiency)?;
        Ok(self.core.mm().powi(2) * self.melted.mm() * self.factor())
    }

    /// `F` in kJ/mm³ by nominal electrode efficiency, ends included in the lower band.
    fn factor(&self) -> f64 {
        const BANDS: [(f64, f64); 3] = [(0.95, 0.036_8), (1.10, 0.040_8), (1.30, 0.047_2)];
        let within = |top: f64| Share::computed(top).is_ok_and(|top| self.efficiency.at_most(top));
        BANDS.iter().find(|(top, _)| within(*top)).map_or(0.060_8, |(_, factor)| *factor)
    }
}

/// Heat input of a run, [`HEAT_INPUT_FROM_RUN_OUT`].
///
/// | symbol | input or result | unit |
/// |---|---|---|
/// | `D` | `core` | mm |
/// | `L` | `melted` | mm |
/// | `R` | `run` | mm |
/// | `F` | by `efficiency` | kJ/mm³ |
/// | `Q` | result | kJ/mm |
///
/// # Errors
/// [`RunOutError`].
pub fn heat_input_from_run_out(
    electrode: &RunOut,
    run: RunLength,
) -> Result<HeatInput, RunOutError> {
    positive(run)?;
    Ok(HeatInput::computed(electrode.heat()? / run.mm())?)
}

/// Length of run at which one electrode gives a heat input, [`RUN_OUT_FOR_HEAT_INPUT`]. For a
/// highest heat input it is the shortest run, for a lowest the longest.
///
/// # Errors
/// [`RunOutError`].
pub fn run_out_for_heat_input(
    electrode: &RunOut,
    heat_input: HeatInput,
) -> Result<RunLength, RunOutError> {
    positive(heat_input)?;
    Ok(RunLength::computed(electrode.heat()? / heat_input.kj_per_mm())?)
}

/// Length of run per length of electrode melted, [`RUN_OUT_RATIO`].
///
/// # Errors
/// [`RunOutError`].
pub fn run_out_ratio(run: RunLength, melted: ElectrodeLength) -> Result<Share, RunOutError> {
    positive(melted)?;
    Ok(Share::computed(run.mm() / melted.mm())?)
}

/// Arc energy of a run, [`ARC_ENERGY_FROM_BURN_TIME`].
///
/// # Errors
/// [`RunOutError`].
pub fn arc_energy_from_burn_time(
    voltage: Voltage,
    current: Current,
    burned: Duration,
    run: RunLength,
) -> Result<ArcEnergy, RunOutError> {
    positive(run)?;
    let joules = voltage.volts() * current.amperes() * burned.seconds();
    Ok(ArcEnergy::computed(joules / (1_000.0 * run.mm()))?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::heat_input;

    fn electrode(core: &str, melted: &str, efficiency: &str) -> RunOut {
        RunOut {
            core: core.parse().unwrap(),
            melted: melted.parse().unwrap(),
            efficiency: efficiency.parse().unwrap(),
        }
    }

    /// Own arithmetic with the factors from memory.
    #[test]
    fn heat_input_by_the_ruler() {
        for (core, melted, efficiency, run, expected) in [
            ("4 mm", "410 mm", "100 %", "260 mm", 1.029),
            ("3.2 mm", "310 mm", "95 %", "150 mm", 0.778_8),
            ("5 mm", "410 mm", "130 %", "300 mm", 1.613),
            ("4 mm", "410 mm", "160 %", "260 mm", 1.534),
        ] {
            let electrode = electrode(core, melted, efficiency);
            let run = run.parse().unwrap();
            let heat = heat_input_from_run_out(&electrode, run).unwrap();
            assert!((heat.kj_per_mm() / expected - 1.0).abs() < 5e-4, "{core}: {heat}");
            assert_eq!(run_out_for_heat_input(&electrode, heat), Ok(run));
        }
    }

    /// Own arithmetic: 24 V * 160 A * 68 s over 240 mm are 1.088 kJ/mm, times 0.8 0.8704.
    #[test]
    fn heat_input_by_the_watch() {
        let energy = arc_energy_from_burn_time(
            "24 V".parse().unwrap(),
            "160 A".parse().unwrap(),
            "68 s".parse().unwrap(),
            "240 mm".parse().unwrap(),
        );
        let energy = energy.unwrap();
        assert_eq!(energy, "1.088 kJ/mm".parse().unwrap());
        let heat = heat_input(energy, "80 %".parse().unwrap());
        assert_eq!(heat, Ok("0.8704 kJ/mm".parse().unwrap()));
    }

    /// Own arithmetic: 260 mm of run from 410 mm of electrode.
    #[test]
    fn ratio_of_run_to_electrode() {
        let ratio = run_out_ratio("260 mm".parse().unwrap(), "410 mm".parse().unwrap()).unwrap();
        assert_eq!(ratio.to_string(), "63.41 %");
    }

    #[test]
    fn no_run_no_heat_input() {
        let electrode = electrode("4 mm", "410 mm", "100 %");
        let none = RunLength::computed(0.0).unwrap();
        assert!(heat_input_from_run_out(&electrode, none).is_err());
    }
}
