//! A point of the window as settings that can be checked.

use super::{
    CURRENT, FEED, Follows, ORDER, POWER, SPEED, STICK_OUT, Space, VOLTAGE, axis::typed,
    response::current_span,
};
use crate::{
    check::{Given, Settings},
    quantity::{Kind, Quantity, Span, Unit},
    window::linear::Vector,
};

/// The settings of a point, everything else as before. What strays is an interval, so is a current that
/// follows: the check then holds every value of it inside every limit.
pub(in crate::window) fn settings_at(space: &Space, base: &Settings, point: &Vector) -> Settings {
    let mut settings = Settings {
        // What was stated of the run that these settings replace.
        run_length: None,
        arc_time: None,
        run_energy: None,
        visible_stick_out: None,
        tip_recess: None,
        arc_energy: None,
        heat_input: None,
        arc_power: None,
        ..base.clone()
    };
    for axis in 0..ORDER.len() {
        if axis == CURRENT && !space.is_active(axis) {
            settings.current = following(space, point).map(Given::set);
        } else if space.is_active(axis) {
            let stray = space.stray(axis);
            let ends = (point[axis] - stray.down, point[axis] + stray.up);
            let unit = space.unit(axis);
            match axis {
                FEED => settings.wire_feed = given(ends, unit),
                VOLTAGE => settings.voltage = given(ends, unit),
                CURRENT => settings.current = given(ends, unit),
                SPEED => settings.travel_speed = given(ends, unit),
                STICK_OUT => settings.stick_out = given(ends, unit),
                POWER => settings.arc_power = given(ends, unit),
                _ => {}
            }
        }
    }
    settings
}

/// A value as it is typed, or the exact interval of one that strays.
fn given<K: Kind>((low, high): (f64, f64), unit: &Unit) -> Option<Given<K>> {
    let (low, high) = (low.exp(), high.exp());
    if low >= high {
        return Some(Given::set(Span::one(typed(low, unit)?)));
    }
    let ends = (Quantity::computed(low).ok()?, Quantity::computed(high).ok()?);
    Some(Given::set(Span::new(ends.0, ends.1).ok()?))
}

/// Every current that can follow at the point.
fn following(space: &Space, point: &Vector) -> Option<Span<crate::quantity::CurrentKind>> {
    let Follows::Robust(response) = space.follows() else { return None };
    let (feed, out) = (space.stray(FEED), space.stray(STICK_OUT));
    let end = |plane: &super::Plane, sign: f64| {
        let strays = feed.shift(sign * plane.feed) + out.shift(sign * plane.stick_out);
        plane.current(point[FEED], point[STICK_OUT]) + sign * strays
    };
    let low = response.lower.iter().map(|plane| end(plane, -1.0)).reduce(f64::min)?;
    let high = response.upper.iter().map(|plane| end(plane, 1.0)).reduce(f64::max)?;
    current_span(low, high)
}
