//! The settings as axes, each by its logarithm.

use crate::{
    check::Variable,
    quantity::{
        Amount, CurrentKind, ElectricalStickOutKind, Kind, PowerKind, Quantity, TravelSpeedKind,
        VoltageKind, WireFeedKind,
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

/// The least and greatest plausible value, as logarithms.
pub(in crate::window) fn plausible(axis: usize) -> (f64, f64) {
    let (low, high) = match ORDER[axis] {
        Variable::WireFeed => WireFeedKind::INFO.span,
        Variable::Voltage => VoltageKind::INFO.span,
        Variable::Current => CurrentKind::INFO.span,
        Variable::TravelSpeed => TravelSpeedKind::INFO.span,
        Variable::StickOut => ElectricalStickOutKind::INFO.span,
        _ => PowerKind::INFO.span,
    };
    (low.ln(), high.ln())
}

/// A value in the canonical unit of a variable; `None` where it is no number, or no such variable.
pub(in crate::window) fn amount(variable: Variable, canonical: f64) -> Option<Amount> {
    fn of<K: Kind>(canonical: f64) -> Option<Amount> {
        Quantity::<K>::computed(canonical).ok().map(Quantity::amount)
    }
    match variable {
        Variable::WireFeed => of::<WireFeedKind>(canonical),
        Variable::Voltage => of::<VoltageKind>(canonical),
        Variable::Current => of::<CurrentKind>(canonical),
        Variable::TravelSpeed => of::<TravelSpeedKind>(canonical),
        Variable::StickOut => of::<ElectricalStickOutKind>(canonical),
        Variable::ArcPower => of::<PowerKind>(canonical),
        _ => None,
    }
}
