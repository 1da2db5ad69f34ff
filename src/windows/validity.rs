//! Which field of what is asked lies outside the validity of its method.

use super::ask::{CoolingIn, PreheatPlanIn};
use crate::{
    quantity::{
        CetKind, HydrogenContentKind, Kind, ShareKind, StressKind, Temperature, ThicknessKind,
    },
    trade::{CoolingError, OutOfRange, PreheatError},
};

/// Whether what lies outside is of a kind.
fn is<K: Kind>(outside: &OutOfRange) -> bool {
    outside.given.of_kind::<K>().is_some()
}

impl PreheatPlanIn {
    /// The field at fault; `None` where it is no single one. `by_weld_metal` says whose CET governs.
    pub(super) fn field_at_fault(
        &self,
        error: &PreheatError,
        by_weld_metal: bool,
    ) -> Option<&'static str> {
        match error {
            PreheatError::Metal(_) => Some("metal"),
            PreheatError::Composition(_) => Some("composition"),
            PreheatError::OutOfRange(outside) if is::<CetKind>(outside) => Some(match self.cet {
                _ if by_weld_metal => "weld_metal_cet",
                Some(_) => "cet",
                None => "composition",
            }),
            PreheatError::OutOfRange(outside) if is::<ThicknessKind>(outside) => Some("thickness"),
            PreheatError::OutOfRange(outside) if is::<HydrogenContentKind>(outside) => {
                Some("hydrogen")
            }
            PreheatError::OutOfRange(outside) if is::<StressKind>(outside) => {
                Some("yield_strength")
            }
            // The preheat itself has no range of its own.
            PreheatError::OutOfRange(_) => Some("ambient"),
            _ => None,
        }
    }
}

impl CoolingIn {
    /// The field at fault; `None` where it is no single one.
    pub(super) fn field_at_fault(&self, error: &CoolingError) -> Option<&'static str> {
        match error {
            CoolingError::Metal(_) => Some("metal"),
            CoolingError::Order { .. } => Some("lowest_temperature"),
            CoolingError::ThickPlate { .. } => Some("thickness"),
            CoolingError::OutOfRange(outside) if is::<ThicknessKind>(outside) => Some("thickness"),
            CoolingError::OutOfRange(outside) if is::<ShareKind>(outside) => Some("shape_factors"),
            CoolingError::OutOfRange(outside) => {
                let is_given = |one: Temperature| one.amount() == outside.given;
                let lowest = is_given(self.lowest_temperature);
                Some(if lowest { "lowest_temperature" } else { "highest_temperature" })
            }
            CoolingError::Quantity(_) => None,
        }
    }
}
