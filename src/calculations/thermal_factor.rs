//! Heat input from arc energy: whose thermal efficiency factor is taken.

use std::iter;

use super::Sheet;
use crate::{
    quantity::{ArcEnergyKind, Share, Span},
    trade::{Coded, HEAT_INPUT, Process, heat_input_span, thermal_efficiency},
    wire::Part,
};

/// A thermal efficiency factor and where it comes from.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct ThermalFactor {
    /// The factor.
    pub factor: Share,
    origin: String,
}

impl ThermalFactor {
    /// The factor given, else the printed one of the process; else why there is none.
    pub fn of(given: Option<Part>, process: Option<Process>) -> Result<Self, String> {
        if let Some(factor) = given {
            let factor = factor.share();
            return Ok(Self { factor, origin: "factor as given by the caller".to_owned() });
        }
        let process = process.ok_or("the process or a thermal efficiency factor is missing")?;
        let (factor, confidence) = thermal_efficiency(process)
            .ok_or_else(|| format!("no factor is printed for process {}", process.code()))?;
        let origin = format!("factor of process {process}: {confidence}");
        Ok(Self { factor, origin })
    }

    /// What an answer says about the factor.
    pub fn basis(&self) -> String {
        format!("basis: heat input with k = {}; {}", self.factor.ratio(), self.origin)
    }
}

/// Puts the heat input of an arc energy on the sheet, with what more is to be said of it.
pub(super) fn put_heat_input(
    name: &str,
    factor: Result<ThermalFactor, String>,
    energy: &Span<ArcEnergyKind>,
    notes: &[String],
    sheet: &mut Sheet,
) {
    match factor {
        Ok(factor) => {
            let heat = heat_input_span(energy, factor.factor);
            let basis = factor.basis();
            let said: Vec<_> = iter::once(&basis).chain(notes).map(String::as_str).collect();
            sheet.span(name, heat, &HEAT_INPUT, &said);
        }
        Err(reason) => sheet.absent(name, reason),
    }
}
