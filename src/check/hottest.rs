//! The hottest that a run of structural steel starts on where no record says so: advice.

use std::ops::RangeInclusive;

use super::{
    Case, Check, Findings, Force, Given, Limit, Source, Variable,
    range_check::{Stated, Words, against},
};
use crate::{
    quantity::{AmountRange, Quantity, Range, TemperatureKind, UnitSystem},
    trade::MetalGroup,
};

/// Where it is from: the ceiling of the seismic supplement for joints of structural steel, of the same order as what
/// qualified procedures of such steel hold.
pub const HOTTEST_SOURCE: &str =
    "AWS D1.8, maximum interpass temperature 550 °F (290 °C), from memory";

/// Groups of structural steel (ISO/TR 15608): creep-resisting steel and cast iron are welded hotter.
const STRUCTURAL: RangeInclusive<u8> = 1..=3;

/// What is advised of preheat or interpass temperature; `None` where a record ends it, or where the parts are not
/// known to be structural steel.
pub fn hottest(case: &Case<'_>, variable: Variable) -> Option<Range<TemperatureKind>> {
    let ends = |range: AmountRange| range.max.is_some();
    let is_ended = case.authorities().any(|authority| {
        let ranges = authority.ranges();
        ranges.amounts(variable).is_some_and(ends) || ranges.carried().amounts(variable).any(ends)
    });
    let parts = &case.setup.job.base_metals;
    let is_structural = |group: MetalGroup| STRUCTURAL.contains(&group.group());
    let known = !parts.is_empty() && parts.iter().all(|part| part.group.is_some_and(is_structural));
    if is_ended || !known || case.lacks(variable).is_some() {
        return None;
    }
    let settings = &case.setup.settings;
    let given = settings.preheat.as_ref().or(settings.interpass.as_ref());
    let typed = given.and_then(|given| given.span.low().as_entered());
    let most = match typed.and_then(|typed| typed.unit.system) {
        Some(UnitSystem::Us) => Quantity::entered(550.into(), "°F"),
        _ => Quantity::entered(290.into(), "°C"),
    };
    most.ok().map(Range::at_most)
}

/// The finding of a stated temperature against it; none where nothing is advised.
pub fn against_hottest(
    case: &Case<'_>,
    check: &Check,
    stated: Option<&Given<TemperatureKind>>,
    words: &Words,
    findings: &mut Findings,
) {
    let Some((given, range)) = stated.zip(hottest(case, words.variable)) else { return };
    let (source, force) = (Source::Practice(HOTTEST_SOURCE), Force::Advised);
    against(findings, check, &Stated::Known(given), &Limit { range: &range, source, force }, words);
}
