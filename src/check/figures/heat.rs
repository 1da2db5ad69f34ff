//! Arc energy, and heat input by each convention, with the basis named.

use std::iter;

use super::{Estimate, FigureInputs, Figures, Note};
use crate::{check::Arcs, trade::HeatConvention};

const ARC_ENERGY: Note = Note::always("basis arc-energy: no thermal efficiency in it");
const HEAT_INPUT: Note = Note::always("basis heat-input: arc energy times thermal efficiency");

const ALL_ARCS: Note = Note::always(
    "arc power or energy of the run as stated, of all electrodes together (from memory: the arcs of one \
     pool add up)",
);

/// Adds arc energy, ISO heat input and US heat input.
pub(super) fn add(inputs: &FigureInputs<'_>, figures: &mut Figures) {
    let basis = |basis: Note| {
        let together = (inputs.readings.arcs == Arcs::Several).then_some(ALL_ARCS);
        inputs.assumed(|| iter::once(basis).chain(together).collect())
    };
    match &inputs.readings.arc_energy {
        Ok(energy) => {
            for convention in [HeatConvention::IsoArcEnergy, HeatConvention::UsHeatInput] {
                let value = Estimate::with(energy.given.span, basis(ARC_ENERGY));
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
            let value = Estimate::with(heat.given.span, basis(HEAT_INPUT));
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
