//! Amounts whose kind is known at run time only, multiplied and rounded to the safe side.

use crate::{
    quantity::{
        Amount, ArcEnergyKind, CurrentKind, DepositionRateKind, ElectricalStickOutKind,
        HeatInputKind, Kind, LegKind, PowerKind, Quantity, Range, TravelSpeedKind, VoltageKind,
        WireFeedKind,
    },
    trade::rounded_inward,
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
}

impl Change for Round {
    fn of<K: Kind>(&self, value: Quantity<K>) -> Option<Quantity<K>> {
        let range = if self.up { Range::at_least(value) } else { Range::at_most(value) };
        let rounded = rounded_inward(&range).ok()??;
        if self.up { rounded.min() } else { rounded.max() }
    }
}

/// The amount times a number.
pub(super) fn times(amount: Amount, factor: f64) -> Option<Amount> {
    changed(amount, &Times(factor))
}

/// The amount with three digits, up or down.
pub(super) fn rounded(amount: Amount, up: bool) -> Option<Amount> {
    changed(amount, &Round { up })
}
