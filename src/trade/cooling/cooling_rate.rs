//! Cooling rate on the weld line at one temperature.

use super::{CoolingError, HeatFlow, ThermalProperties};
use crate::{
    quantity::{CoolingRate, Duration, HeatInput, Share, Temperature, Thickness},
    trade::{
        SteelFamily, formula,
        scope::{positive, within},
    },
};

formula! {
    /// Cooling rate at a temperature.
    pub const COOLING_RATE {
        name: "cooling-rate",
        equation: "tau = h*sqrt(rho_c*(Tc-T0)/H); thick (tau > 0.75): R = 2*pi*lambda*(Tc-T0)^2/H; thin: \
                   R = 2*pi*lambda*rho_c*(h/H)^2*(Tc-T0)^3; h in mm, H in J/mm, lambda in W/(mm*K), \
                   rho_c in J/(mm3*K), R in °C/s",
        source: "Adams; handbooks of welding, chapter on heat flow; from memory",
        validity: "thick for tau above 0.9, thin below 0.6; between them the split at 0.75 is a \
                   convention and the rate is good to a factor of 1.8; H with a measured arc \
                   efficiency, which is not the factor k of EN 1011-1",
        confidence: Memory,
    }
}

formula! {
    /// Heat input for a highest cooling rate.
    pub const HEAT_INPUT_FOR_COOLING_RATE {
        name: "heat-input-for-cooling-rate",
        equation: "thick: H = 2*pi*lambda*(Tc-T0)^2/R; thin: H = h*sqrt(2*pi*lambda*rho_c*(Tc-T0)^3/R); \
                   where neither fits its own tau: H = h^2*rho_c*(Tc-T0)/0.75^2",
        source: "cooling-rate, solved for H",
        validity: as COOLING_RATE,
        confidence: Memory,
    }
}

formula! {
    /// Mean cooling rate near 540 °C from a cooling time.
    pub const COOLING_RATE_AT_540 {
        name: "cooling-rate-at-540",
        equation: "R540 = 300/t; t from 800 °C to 500 °C in s, R540 in °C/s",
        source: "Japan Welding Engineering Society, Supplementary Technical Document for Senior \
                 Welding Engineer Certification, July 2009, eq. (4)",
        validity: "a mean over 800 to 500 °C, taken for the rate at 540 °C",
        confidence: TextRead,
    }
}

/// Relative thickness above which the plate counts as thick.
const SPLIT: f64 = 0.75;
/// Relative thickness between which neither form fits well.
const BETWEEN: (f64, f64) = (0.6, 0.9);

/// One run and the temperature at which the rate is sought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingRateCase {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Preheat or interpass temperature.
    pub temperature: Temperature,
    /// Temperature at which the rate is sought, usually 550 °C.
    pub at: Temperature,
    /// Thickness of the plate.
    pub thickness: Thickness,
    /// Thermal constants.
    pub properties: ThermalProperties,
}

/// Cooling rate and how it came about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoolingRateAnswer {
    /// The rate.
    pub rate: CoolingRate,
    /// Relative thickness `tau`.
    pub relative_thickness: Share,
    /// Heat flow taken.
    pub heat_flow: HeatFlow,
    /// Whether the relative thickness lies between 0.6 and 0.9, where neither form fits well.
    pub between: bool,
}

/// The numbers of a case.
struct Numbers {
    two_pi_lambda: f64,
    capacity: f64,
    rise: f64,
    h: f64,
}

impl CoolingRateCase {
    fn numbers(&self) -> Result<Numbers, CoolingError> {
        self.metal.low_alloy_only()?;
        positive(self.thickness)?;
        positive(self.properties.conductivity)?;
        positive(self.properties.heat_capacity)?;
        within(self.temperature, 0.0, 300.0)?;
        if self.temperature.at_least(self.at) {
            return Err(CoolingError::Order { low: self.temperature, high: self.at });
        }
        Ok(Numbers {
            two_pi_lambda: std::f64::consts::TAU * self.properties.conductivity.w_per_mm_k(),
            capacity: self.properties.heat_capacity.j_per_mm3_k(),
            rise: self.at.celsius() - self.temperature.celsius(),
            h: self.thickness.mm(),
        })
    }
}

/// Cooling rate of a run with a heat input, [`COOLING_RATE`].
///
/// | symbol | input or result | unit |
/// |---|---|---|
/// | `H` | `heat_input` | J/mm |
/// | `T0`, `Tc` | `temperature`, `at` | °C |
/// | `h` | `thickness` | mm |
/// | `lambda`, `rho_c` | `properties` | W/(mm·K), J/(mm³·K) |
/// | `tau` | `relative_thickness` | 1 |
/// | `R` | `rate` | °C/s |
///
/// # Errors
/// [`CoolingError`]; [`CoolingError::Order`] unless the temperature sought lies above the plate's.
pub fn cooling_rate(
    case: &CoolingRateCase,
    heat_input: HeatInput,
) -> Result<CoolingRateAnswer, CoolingError> {
    positive(heat_input)?;
    let Numbers { two_pi_lambda, capacity, rise, h } = case.numbers()?;
    let heat = heat_input.kj_per_mm() * 1_000.0;
    let tau = h * (capacity * rise / heat).sqrt();
    let thick = two_pi_lambda * rise * rise / heat;
    let (rate, heat_flow) = if tau > SPLIT {
        (thick, HeatFlow::ThreeDimensional)
    } else {
        let per_heat = h / heat;
        let thin = two_pi_lambda * capacity * per_heat * per_heat * rise.powi(3);
        (thin, HeatFlow::TwoDimensional)
    };
    Ok(CoolingRateAnswer {
        rate: CoolingRate::computed(rate)?,
        relative_thickness: Share::computed(tau)?,
        heat_flow,
        between: (BETWEEN.0..=BETWEEN.1).contains(&tau),
    })
}

/// Lowest heat input whose cooling rate is at most the one given, [`HEAT_INPUT_FOR_COOLING_RATE`].
///
/// # Errors
/// As [`cooling_rate`]; also for a rate not above zero.
pub fn heat_input_for_cooling_rate(
    case: &CoolingRateCase,
    highest: CoolingRate,
) -> Result<HeatInput, CoolingError> {
    positive(highest)?;
    let Numbers { two_pi_lambda, capacity, rise, h } = case.numbers()?;
    let rate = highest.celsius_per_s();
    // The rate falls with heat input, with a step down where the plate turns thin.
    let turns_thin = h * h * capacity * rise / (SPLIT * SPLIT);
    let thick = two_pi_lambda * rise * rise / rate;
    let heat = if thick < turns_thin {
        thick
    } else {
        turns_thin.max(h * (two_pi_lambda * capacity * rise.powi(3) / rate).sqrt())
    };
    Ok(HeatInput::computed(heat / 1_000.0)?)
}

/// Mean cooling rate from a cooling time, [`COOLING_RATE_AT_540`].
///
/// # Errors
/// [`CoolingError::OutOfRange`] for a time not above zero.
pub fn cooling_rate_at_540(cooling_time: Duration) -> Result<CoolingRate, CoolingError> {
    positive(cooling_time)?;
    Ok(CoolingRate::computed(300.0 / cooling_time.seconds())?)
}
