//! Settings in the figures that an answer shows.

use crate::{
    check::{Given, Settings},
    quantity::{Kind, Quantity, Rounding, Span, Unit, UnitSystem},
};

/// Digits of the end of an interval.
const DIGITS: u32 = 4;

/// Digits of an interval that plain figures would turn round.
const NARROW: u32 = 11;

/// The settings of a window as they are shown in a system of units: intervals are rounded inward, so that what
/// holds for all of one holds for what is shown; what stands in figures already stays.
#[must_use]
pub fn in_figures(settings: &Settings, system: UnitSystem) -> Settings {
    Settings {
        wire_feed: given(settings.wire_feed, system),
        voltage: given(settings.voltage, system),
        current: given(settings.current, system),
        arc_power: given(settings.arc_power, system),
        travel_speed: given(settings.travel_speed, system),
        stick_out: given(settings.stick_out, system),
        ..settings.clone()
    }
}

fn given<K: Kind>(given: Option<Given<K>>, system: UnitSystem) -> Option<Given<K>> {
    given.map(|given| Given { span: interval(given.span, system), ..given })
}

fn interval<K: Kind>(span: Span<K>, system: UnitSystem) -> Span<K> {
    let computed = span.low().as_entered().or(span.high().as_entered()).is_none();
    if span.single().is_some() || !computed {
        return span;
    }
    let unit = K::INFO.answer_unit(system);
    let inward = between(span, unit, (DIGITS, Rounding::Up, Rounding::Down));
    let exact = || between(span, unit, (NARROW, Rounding::Nearest, Rounding::Nearest));
    inward.or_else(exact).unwrap_or(span)
}

/// Both ends with so many digits; `None` where that turns them round.
fn between<K: Kind>(
    span: Span<K>,
    unit: &Unit,
    (digits, lower, upper): (u32, Rounding, Rounding),
) -> Option<Span<K>> {
    let end = |end: Quantity<K>, rounding| {
        Quantity::in_figures(end.canonical(), unit, digits, rounding).ok()
    };
    Span::new(end(span.low(), lower)?, end(span.high(), upper)?).ok()
}
