//! Arc energy, and heat input by each convention, with the basis named.

use smallvec::smallvec;

use super::{Estimate, FigureInputs, Figures};
use crate::trade::HeatConvention;

/// Adds arc energy, ISO heat input and US heat input.
pub(super) fn add(inputs: &FigureInputs<'_>, figures: &mut Figures) {
    match &inputs.readings.arc_energy {
        Ok(energy) => {
            for convention in [HeatConvention::IsoArcEnergy, HeatConvention::UsHeatInput] {
                let basis = "basis arc-energy: no thermal efficiency in it".into();
                let value = Estimate::with(energy.given.span, smallvec![basis]);
                figures.add(name(convention), energy.formula, Ok(value));
            }
        }
        Err(missing) => {
            for convention in [HeatConvention::IsoArcEnergy, HeatConvention::UsHeatInput] {
                figures.absent(name(convention), format!("{}.", missing.0).into());
            }
        }
    }
    match &inputs.readings.heat_input {
        Ok(heat) => {
            let basis = "basis heat-input: arc energy times thermal efficiency".into();
            let value = Estimate::with(heat.given.span, smallvec![basis]);
            figures.add(name(HeatConvention::IsoHeatInput), heat.formula, Ok(value));
        }
        Err(missing) => {
            figures.absent(name(HeatConvention::IsoHeatInput), format!("{}.", missing.0).into());
        }
    }
}

/// Name of the figure of a convention.
fn name(convention: HeatConvention) -> &'static str {
    crate::trade::Coded::code(convention)
}
