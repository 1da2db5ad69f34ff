//! Cooling time for any thickness by the method of images: no switch between thick and thin plate.

use super::{
    CoolingError, WeldOnPlate,
    analytic::{LOWER, UPPER},
};
use crate::{
    quantity::{Duration, QuantityError},
    trade::formula,
};

formula! {
    /// Cooling time on a plate of any thickness.
    pub const ANY_THICKNESS {
        name: "any-thickness-images",
        equation: "T - T0 = q/(2*pi*lambda*t) * [1 + 2*sum over i >= 1 of exp(-i^2*d^2/(a*t))], a = \
                   lambda/rho_c; solved for T = 800 and T = 500 °C; symbols of thin-plate-theory",
        source: "Rosenthal's thick plate mirrored at both faces (medium-thick plate, Grong, \
                 Metallurgical Modelling of Welding, 1.10.4; compact form own algebra)",
        validity: "as thick-plate-theory; any thickness; a second opinion, not the standard's figure",
        confidence: Derived,
    }
}

/// Below this value of d²/(a·t) the dual series converges faster.
const DUAL_BELOW: f64 = 0.5;

/// Terms of either series; the first one left out is below 1e-20 on its side of [`DUAL_BELOW`].
const TERMS: i32 = 12;

/// Halvings of the bracket: enough for the last bit of a double.
const HALVINGS: u32 = 120;

/// Cooling time from 800 °C to 500 °C by [`ANY_THICKNESS`].
///
/// # Errors
/// [`CoolingError`].
pub fn any_thickness_cooling_time(weld: &WeldOnPlate) -> Result<Duration, CoolingError> {
    weld.check()?;
    let at_500 = time_at_rise(weld, weld.rise(LOWER))?;
    let at_800 = time_at_rise(weld, weld.rise(UPPER))?;
    Ok(Duration::computed(at_500 - at_800)?)
}

/// Temperature rise in K on the weld line, `t` seconds after the source passed.
fn rise_at(weld: &WeldOnPlate, t: f64) -> f64 {
    let lambda = weld.properties.conductivity.w_per_mm_k();
    let diffusivity = lambda / weld.properties.heat_capacity.j_per_mm3_k();
    let d = weld.thickness.mm();
    let x = d * d / (diffusivity * t);
    let thick = weld.joules_per_mm() / (std::f64::consts::TAU * lambda * t);
    let series =
        |rate: f64| 1.0 + 2.0 * (1..=TERMS).map(|i| (-rate * f64::from(i * i)).exp()).sum::<f64>();
    if x < DUAL_BELOW {
        let pi = std::f64::consts::PI;
        thick * (pi / x).sqrt() * series(pi * pi / x)
    } else {
        thick * series(x)
    }
}

/// Time at which the rise has fallen to a value. The rise falls steadily with time; it is never
/// below that of a thick plate, which brackets the root from one side, and doubling finds the other.
fn time_at_rise(weld: &WeldOnPlate, rise: f64) -> Result<f64, QuantityError> {
    let lambda = weld.properties.conductivity.w_per_mm_k();
    let mut early = weld.joules_per_mm() / (std::f64::consts::TAU * lambda * rise);
    let mut late = early;
    while rise_at(weld, late) > rise {
        late *= 2.0;
        if !late.is_finite() {
            return Err(QuantityError::NotFinite { quantity: "cooling time" });
        }
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(early, late);
        if rise_at(weld, middle) > rise {
            early = middle;
        } else {
            late = middle;
        }
    }
    Ok(f64::midpoint(early, late))
}
