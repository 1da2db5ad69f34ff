//! Method B as a sum of four parts: what each input asks for, and a second way to the total.

use super::{METHOD_B, MethodB, PreheatError};
use crate::{
    quantity::{QuantityError, Temperature, TemperatureDifference},
    trade::formula,
};

formula! {
    /// The four parts of the CET method.
    pub const METHOD_B_PARTS {
        name: "preheat-method-b-parts",
        equation: "Tp = [750*CET - 150] + [160*tanh(d/35) - 110] + [62*HD^0.35 - 100] + [(53*CET - \
                   32)*Q - 53*CET + 32]; symbols of preheat-method-b",
        source: "EN 1011-2:2001, C.3 (from memory; the parts add up to the total that was read)",
        validity: as METHOD_B,
        confidence: Memory,
    }
}

/// What each input asks for. Only the sum is a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PreheatParts {
    /// Of the carbon equivalent.
    pub composition: TemperatureDifference,
    /// Of the plate thickness.
    pub thickness: TemperatureDifference,
    /// Of the hydrogen.
    pub hydrogen: TemperatureDifference,
    /// Of the heat input.
    pub heat_input: TemperatureDifference,
}

impl PreheatParts {
    /// The calculated preheat, from 0 °C.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] on overflow.
    pub fn sum(&self) -> Result<Temperature, QuantityError> {
        let parts = [self.composition, self.thickness, self.hydrogen, self.heat_input];
        Temperature::computed(parts.iter().map(|part| part.kelvin()).sum())
    }
}

/// The four parts, [`METHOD_B_PARTS`]; with the constants of EN 1011-2, whatever the case names.
///
/// # Errors
/// As [`method_b_preheat`](super::method_b_preheat).
pub fn method_b_parts(case: &MethodB) -> Result<PreheatParts, PreheatError> {
    case.checked()?;
    case.heat_input_checked()?;
    let cet = case.cet.percent();
    let part = TemperatureDifference::computed;
    Ok(PreheatParts {
        composition: part(750.0 * cet - 150.0)?,
        thickness: part(160.0 * (case.thickness.mm() / 35.0).tanh() - 110.0)?,
        hydrogen: part(62.0 * case.hydrogen.ml_per_100g().powf(0.35) - 100.0)?,
        heat_input: part((53.0 * cet - 32.0) * case.heat_input.kj_per_mm() - 53.0 * cet + 32.0)?,
    })
}
