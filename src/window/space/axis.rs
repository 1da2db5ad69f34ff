//! The settings as axes, each by its logarithm.

use crate::{
    check::Variable,
    quantity::{
        Amount, CurrentKind, ElectricalStickOutKind, Kind, KindInfo, PowerKind, Quantity, Rounding,
        TravelSpeedKind, Unit, VoltageKind, WireFeedKind,
    },
    window::linear::AXES,
};

/// The axes, in a fixed order.
pub(in crate::window) const ORDER: [Variable; AXES] = [
    Variable::WireFeed,
    Variable::Voltage,
    Variable::Current,
    Variable::TravelSpeed,
    Variable::StickOut,
    Variable::ArcPower,
];

pub(in crate::window) const FEED: usize = 0;
pub(in crate::window) const VOLTAGE: usize = 1;
pub(in crate::window) const CURRENT: usize = 2;
pub(in crate::window) const SPEED: usize = 3;
pub(in crate::window) const STICK_OUT: usize = 4;
pub(in crate::window) const POWER: usize = 5;

/// The axis of a variable; `None` for one that is none.
pub(in crate::window) fn axis_of(variable: Variable) -> Option<usize> {
    ORDER.iter().position(|known| *known == variable)
}

/// What is known of the kind of an axis.
pub(super) fn info(axis: usize) -> &'static KindInfo {
    match ORDER[axis] {
        Variable::WireFeed => WireFeedKind::INFO,
        Variable::Voltage => VoltageKind::INFO,
        Variable::Current => CurrentKind::INFO,
        Variable::TravelSpeed => TravelSpeedKind::INFO,
        Variable::StickOut => ElectricalStickOutKind::INFO,
        _ => PowerKind::INFO,
    }
}

/// The least and greatest plausible value, as logarithms.
pub(in crate::window) fn plausible(axis: usize) -> (f64, f64) {
    let (low, high) = info(axis).span;
    (low.ln(), high.ln())
}

/// A way to make a quantity of a value in the canonical unit of its kind.
trait Make {
    fn of<K: Kind>(&self, canonical: f64) -> Option<Quantity<K>>;
}

fn made(variable: Variable, canonical: f64, make: &impl Make) -> Option<Amount> {
    fn of<K: Kind>(make: &impl Make, canonical: f64) -> Option<Amount> {
        make.of::<K>(canonical).map(Quantity::amount)
    }
    match variable {
        Variable::WireFeed => of::<WireFeedKind>(make, canonical),
        Variable::Voltage => of::<VoltageKind>(make, canonical),
        Variable::Current => of::<CurrentKind>(make, canonical),
        Variable::TravelSpeed => of::<TravelSpeedKind>(make, canonical),
        Variable::StickOut => of::<ElectricalStickOutKind>(make, canonical),
        Variable::ArcPower => of::<PowerKind>(make, canonical),
        _ => None,
    }
}

/// As a formula gives it.
struct Exact;

impl Make for Exact {
    fn of<K: Kind>(&self, canonical: f64) -> Option<Quantity<K>> {
        Quantity::computed(canonical).ok()
    }
}

/// As somebody types it, in this unit.
struct Typed(&'static Unit);

impl Make for Typed {
    fn of<K: Kind>(&self, canonical: f64) -> Option<Quantity<K>> {
        typed(canonical, self.0)
    }
}

/// A value in the canonical unit of a variable; `None` where it is no number, or no such variable.
pub(in crate::window) fn amount(variable: Variable, canonical: f64) -> Option<Amount> {
    made(variable, canonical, &Exact)
}

/// The same as somebody types it in this unit.
pub(in crate::window) fn typed_amount(
    variable: Variable,
    canonical: f64,
    unit: &'static Unit,
) -> Option<Amount> {
    made(variable, canonical, &Typed(unit))
}

/// Most digits of a value that an answer states: what they lose is far below the tolerance of comparisons.
const DIGITS: u32 = 11;

/// A value as somebody types it in this unit, without the noise of the last bits.
pub(super) fn typed<K: Kind>(canonical: f64, unit: &Unit) -> Option<Quantity<K>> {
    Quantity::in_figures(canonical, unit, DIGITS, Rounding::Nearest)
        .or_else(|_| Quantity::computed(canonical))
        .ok()
}
