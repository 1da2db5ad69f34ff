//! How far from the fusion boundary a temperature was reached.

use super::{CoolingError, ThermalProperties, transition_thickness};
use crate::{
    quantity::{HeatInput, Temperature, Thickness, WeldDistance},
    trade::{
        SteelFamily, formula,
        scope::{positive, within},
    },
};

formula! {
    /// Distance at which a peak temperature was reached.
    pub const PEAK_TEMPERATURE {
        name: "peak-temperature",
        equation: "1/(Tp-T0) = sqrt(2*pi*e)*rho_c*h*Y/H + 1/(Tm-T0), solved for Y; temperatures in °C, \
                   rho_c in J/(mm3*K), h in mm, H in J/mm, Y in mm from the fusion boundary",
        source: "handbooks of welding, chapter on heat flow; worked example in a textbook chapter \
                 Width of heat affected zone (Khan, Welding Science and Technology, 2007: attribution \
                 from memory)",
        validity: "one full-penetration run on one plate, heat flow in the plane only: thinner than the \
                   transition thickness (transition-thickness); unalloyed and low-alloy ferritic steel; not \
                   for the metal already melted",
        confidence: Secondary,
    }
}

/// One full-penetration run and a temperature sought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PeakTemperatureCase {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Heat input, thermal efficiency counted.
    pub heat_input: HeatInput,
    /// Preheat temperature.
    pub temperature: Temperature,
    /// Thickness of the plate.
    pub thickness: Thickness,
    /// Thermal constants; only the heat capacity counts.
    pub properties: ThermalProperties,
    /// Melting temperature (liquidus).
    pub melting: Temperature,
    /// Temperature sought: 730 °C for the width of the heat-affected zone, a tempering temperature
    /// for the softened zone.
    pub peak: Temperature,
}

/// Distance from the fusion boundary at which the peak temperature was reached,
/// [`PEAK_TEMPERATURE`].
///
/// | symbol | input or result | unit |
/// |---|---|---|
/// | `H` | `heat_input` | J/mm |
/// | `T0`, `Tp`, `Tm` | `temperature`, `peak`, `melting` | °C |
/// | `h` | `thickness` | mm |
/// | `rho_c` | heat capacity of `properties` | J/(mm³·K) |
/// | `Y` | result | mm |
///
/// # Errors
/// [`CoolingError::Metal`], [`CoolingError::OutOfRange`] as for a cooling time;
/// [`CoolingError::Order`] unless plate, peak and melting temperature rise in this order;
/// [`CoolingError::ThickPlate`] from the transition thickness on.
pub fn distance_of_peak_temperature(
    case: &PeakTemperatureCase,
) -> Result<WeldDistance, CoolingError> {
    case.metal.low_alloy_only()?;
    positive(case.heat_input)?;
    positive(case.thickness)?;
    positive(case.properties.heat_capacity)?;
    within(case.temperature, 0.0, 300.0)?;
    for (low, high) in [(case.temperature, case.peak), (case.peak, case.melting)] {
        if low.at_least(high) {
            return Err(CoolingError::Order { low, high });
        }
    }
    let transition = transition_thickness(case.heat_input, case.temperature)?;
    if case.thickness.at_least(transition) {
        return Err(CoolingError::ThickPlate { thickness: case.thickness, transition });
    }
    let rise = |temperature: Temperature| temperature.celsius() - case.temperature.celsius();
    let inverse = 1.0 / rise(case.peak) - 1.0 / rise(case.melting);
    let spread = (std::f64::consts::TAU * std::f64::consts::E).sqrt();
    let heat = case.heat_input.kj_per_mm() * 1_000.0;
    let capacity = case.properties.heat_capacity.j_per_mm3_k();
    Ok(WeldDistance::computed(heat * inverse / (spread * capacity * case.thickness.mm()))?)
}
