//! A point of the window as settings that can be checked.

use super::{
    CURRENT, FEED, Follows, ORDER, POWER, SPEED, STICK_OUT, Space, VOLTAGE, axis::typed,
    response::current_span,
};
use crate::{
    check::{Given, Settings},
    quantity::{Kind, Quantity, Span, Unit, compare},
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
            let at = At { ends, unit: space.unit(axis), chosen: space.chosen[axis] };
            match axis {
                FEED => settings.wire_feed = at.given(base.wire_feed),
                VOLTAGE => settings.voltage = at.given(base.voltage),
                CURRENT => settings.current = at.given(base.current),
                SPEED => settings.travel_speed = at.given(base.travel_speed),
                STICK_OUT => settings.stick_out = at.given(base.stick_out),
                POWER => settings.arc_power = at.given(base.arc_power),
                _ => {}
            }
        }
    }
    settings
}

/// What settings state of a run, a gun and their heat that others put in their place do not, in words.
pub(in crate::window) fn replaced(stated: &Settings, proposed: &Settings) -> Vec<&'static str> {
    fn gone<K: Kind>(stated: Option<Given<K>>, proposed: Option<Given<K>>) -> bool {
        stated.is_some() && proposed.is_none()
    }
    [
        (gone(stated.run_length, proposed.run_length), "run length"),
        (gone(stated.arc_time, proposed.arc_time), "arc time"),
        (gone(stated.run_energy, proposed.run_energy), "run energy"),
        (gone(stated.visible_stick_out, proposed.visible_stick_out), "visible stick-out"),
        (gone(stated.tip_recess, proposed.tip_recess), "tip recess"),
        (gone(stated.arc_power, proposed.arc_power), "arc power"),
        (gone(stated.arc_energy, proposed.arc_energy), "arc energy"),
        (gone(stated.heat_input, proposed.heat_input), "heat input"),
        (gone(stated.weave_width, proposed.weave_width), "weave width"),
    ]
    .into_iter()
    .filter_map(|(is_gone, name)| is_gone.then_some(name))
    .collect()
}

/// Where a point stands on one axis.
struct At<'u> {
    /// Logarithms of both ends, where the hand strays.
    ends: (f64, f64),
    unit: &'u Unit,
    chosen: bool,
}

impl At<'_> {
    /// A value as it is typed, or the exact interval of one that strays; what was chosen as it was stated.
    fn given<K: Kind>(&self, stated: Option<Given<K>>) -> Option<Given<K>> {
        let (low, high) = (self.ends.0.exp(), self.ends.1.exp());
        let is_same = |stated: &Given<K>| {
            let ends = (stated.span.low().canonical(), stated.span.high().canonical());
            compare(low, ends.0, 0.0).is_eq() && compare(high, ends.1, 0.0).is_eq()
        };
        if let Some(stated) = stated.filter(|stated| self.chosen && is_same(stated)) {
            return Some(stated);
        }
        if low >= high {
            return Some(Given::set(Span::one(typed(low, self.unit)?)));
        }
        let ends = (Quantity::computed(low).ok()?, Quantity::computed(high).ok()?);
        Some(Given::set(Span::new(ends.0, ends.1).ok()?))
    }
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
