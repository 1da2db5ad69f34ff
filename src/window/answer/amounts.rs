//! Amounts whose kind is known at run time only, multiplied and rounded to the safe side.

use crate::quantity::{
    Amount, ArcEnergyKind, AreaKind, CurrentKind, DepositionRateKind, ElectricalStickOutKind,
    HeatInputKind, Kind, LegKind, PowerKind, Quantity, Rounding, TravelSpeedKind, Unit, UnitSystem,
    VoltageKind, WireFeedKind,
};

/// A way to change an amount of one kind.
trait Change {
    fn of<K: Kind>(&self, value: Quantity<K>) -> Option<Quantity<K>>;
}

fn changed(amount: Amount, change: &impl Change) -> Option<Amount> {
    macro_rules! try_kinds {
        ($($kind:ty),+ $(,)?) => {
            $(if let Some(value) = amount.of_kind::<$kind>() {
                return change.of(value).map(Quantity::amount);
            })+
        };
    }
    try_kinds!(
        CurrentKind,
        VoltageKind,
        WireFeedKind,
        TravelSpeedKind,
        ElectricalStickOutKind,
        PowerKind,
        ArcEnergyKind,
        HeatInputKind,
        LegKind,
        AreaKind,
        DepositionRateKind,
    );
    None
}

struct Times(f64);

impl Change for Times {
    fn of<K: Kind>(&self, value: Quantity<K>) -> Option<Quantity<K>> {
        Quantity::computed(value.canonical() * self.0).ok()
    }
}

struct Round {
    up: bool,
    unit: &'static Unit,
    digits: u32,
}

/// Digits of a limit that was computed.
const DIGITS: u32 = 3;

impl Change for Round {
    fn of<K: Kind>(&self, value: Quantity<K>) -> Option<Quantity<K>> {
        let rounding = if self.up { Rounding::Up } else { Rounding::Down };
        Quantity::in_figures(value.canonical(), self.unit, self.digits, rounding).ok()
    }
}

/// The amount times a number.
pub(super) fn times(amount: Amount, factor: f64) -> Option<Amount> {
    changed(amount, &Times(factor))
}

/// The amount with three digits in a system of units, up or down.
pub(super) fn rounded(amount: Amount, up: bool, system: UnitSystem) -> Option<Amount> {
    rounded_to(DIGITS, amount, up, system)
}

/// The amount with so many digits in a system of units, up or down.
pub(super) fn rounded_to(
    digits: u32,
    amount: Amount,
    up: bool,
    system: UnitSystem,
) -> Option<Amount> {
    changed(amount, &Round { up, unit: amount.kind().answer_unit(system), digits })
}

/// The amount with three digits in a unit of its kind, up or down.
pub(super) fn rounded_in(unit: &'static Unit, amount: Amount, up: bool) -> Option<Amount> {
    changed(amount, &Round { up, unit, digits: DIGITS })
}
