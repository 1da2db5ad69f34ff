//! Ends of all numeric variables side by side, so that all limits of one owner are compared at once.

use std::ops::Deref;

use super::{CarriedHeat, Given, NUMERIC, Origin, Ranges, Readings, Setup, Variable, VariableSet};
use crate::quantity::{Amount, AmountRange, Kind, Range, Temperature};

/// The first numeric variable; the others follow it in [`Variable`].
const FIRST: Variable = Variable::Current;

/// One for each numeric variable; the last ones stay unused, for a processor that takes several at once.
const LANES: usize = 16;

/// A lower and an upper end of each numeric variable, in canonical units.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Ends {
    low: [f64; LANES],
    high: [f64; LANES],
}

impl Ends {
    const fn all(low: f64, high: f64) -> Self {
        Self { low: [low; LANES], high: [high; LANES] }
    }

    fn set(&mut self, variable: Variable, low: f64, high: f64) {
        let lane = lane(variable);
        (self.low[lane], self.high[lane]) = (low, high);
    }

    /// Variables whose ends lie inside the other's. No tolerance: what differs by rounding is not among them.
    fn inside(&self, outer: &Self) -> VariableSet {
        let mut bits = 0;
        for lane in 0..LANES {
            // Both are looked at in any case: several lanes then go side by side.
            let (above, below) =
                (self.low[lane] >= outer.low[lane], self.high[lane] <= outer.high[lane]);
            bits |= u32::from(above & below) << lane;
        }
        VariableSet::from_bits(FIRST, bits)
    }
}

const fn lane(variable: Variable) -> usize {
    variable as usize - FIRST as usize
}

/// Ranges of one owner as the check looks at them: one by one, and all at once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnedRanges {
    each: Ranges,
    carried: CarriedHeat,
    ends: Ends,
    limited: VariableSet,
}

impl From<Ranges> for OwnedRanges {
    fn from(each: Ranges) -> Self {
        Self::new(&each, &CarriedHeat::from(&each))
    }
}

impl OwnedRanges {
    fn new(each: &Ranges, carried: &CarriedHeat) -> Self {
        let mut ends = Ends::all(f64::NEG_INFINITY, f64::INFINITY);
        let mut limited = VariableSet::default();
        for variable in NUMERIC {
            let own = each.amounts(*variable);
            limited = limited.with_if(*variable, own.is_some());
            // What is carried over is tighter than the end it stands beside.
            let end = |of: fn(&AmountRange) -> Option<Amount>| {
                carried
                    .amounts(*variable)
                    .find_map(|range| of(&range))
                    .or_else(|| own.and_then(|own| of(&own)))
            };
            let (min, max) = (end(|range| range.min), end(|range| range.max));
            let low = min.map_or(f64::NEG_INFINITY, Amount::canonical);
            ends.set(*variable, low, max.map_or(f64::INFINITY, Amount::canonical));
        }
        Self { each: *each, carried: *carried, ends, limited }
    }

    /// What follows from the limits of one temperature for the other.
    #[must_use]
    pub const fn carried(&self) -> &CarriedHeat {
        &self.carried
    }

    /// The lowest interpass temperature: its own, or what a minimum preheat carries over.
    #[must_use]
    pub fn least_interpass(&self) -> Option<Temperature> {
        let own = || self.each.interpass.as_ref().and_then(Range::min);
        self.carried.interpass.min().or_else(own)
    }

    /// The highest interpass temperature that they leave, stated or carried over from other runs.
    #[must_use]
    pub fn most_interpass(&self) -> Option<Temperature> {
        let own = || self.each.interpass.as_ref().and_then(Range::max);
        self.carried.interpass.max().or_else(own)
    }

    /// The lowest preheat that they leave, stated or carried over from other runs.
    #[must_use]
    pub fn least_preheat(&self) -> Option<Temperature> {
        let own = || self.each.preheat.as_ref().and_then(Range::min);
        self.carried.preheat.min().or_else(own)
    }

    /// The same ranges, with more than their own carried over.
    pub(super) fn carry(&mut self, carried: &CarriedHeat) {
        *self = Self::new(&self.each, carried);
    }

    /// How many limits there are on these variables, those carried over among them.
    pub(super) fn limits_on(&self, variables: VariableSet) -> u16 {
        (self.limited & variables).len() + self.carried.limits_on(variables)
    }
}

impl Default for OwnedRanges {
    fn default() -> Self {
        Ranges::default().into()
    }
}

impl Deref for OwnedRanges {
    type Target = Ranges;

    fn deref(&self) -> &Ranges {
        &self.each
    }
}

impl OwnedRanges {
    /// Variables that the owner limits, without what is carried over.
    #[must_use]
    pub const fn limited(&self) -> VariableSet {
        self.limited
    }

    /// Of the variables that the owner limits, those that lie plainly inside: nobody measured them, and not even
    /// rounding is needed.
    #[must_use]
    pub fn plainly_met(&self, values: &PlainValues) -> VariableSet {
        values.0.inside(&self.ends) & (self.limited | self.carried.limited())
    }
}

/// What a setup says of its numeric variables and nobody measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlainValues(Ends);

impl PlainValues {
    /// Those of a setup and its readings.
    #[must_use]
    pub fn of(setup: &Setup, readings: &Readings) -> Self {
        let settings = &setup.settings;
        // What is not a number is inside of nothing.
        let mut values = Self(Ends::all(f64::NAN, f64::NAN));
        values.take(Variable::Current, settings.current.as_ref());
        values.take(Variable::Voltage, settings.voltage.as_ref());
        values.take(Variable::WireFeed, settings.wire_feed.as_ref());
        values.take(Variable::TravelSpeed, readings.travel_speed.as_ref());
        values.take(Variable::StickOut, readings.stick_out.as_ref());
        values.take(Variable::TravelAngle, settings.travel_angle.as_ref());
        values.take(Variable::WorkAngle, settings.work_angle.as_ref());
        values.take(Variable::WeaveWidth, settings.weave_width.as_ref());
        values.take(Variable::Preheat, settings.preheat.as_ref());
        values.take(Variable::Interpass, settings.interpass.as_ref());
        values.take(Variable::GasFlow, settings.gas_flow.as_ref());
        let arc_energy = readings.arc_energy.as_ref();
        values.take(Variable::ArcEnergy, arc_energy.ok().map(|computed| &computed.given));
        let heat_input = readings.heat_input.as_ref();
        values.take(Variable::HeatInput, heat_input.ok().map(|computed| &computed.given));
        values.take(Variable::ArcPower, readings.arc_power.as_ref().ok());
        values
    }

    fn take<K: Kind>(&mut self, variable: Variable, given: Option<&Given<K>>) {
        if let Some(given) = given.filter(|given| given.origin != Origin::Measured) {
            self.0.set(variable, given.span.low().canonical(), given.span.high().canonical());
        }
    }
}

#[cfg(test)]
mod edit {
    use std::ops::DerefMut;

    use super::*;

    /// The ranges while a test changes them; their ends follow when it is done.
    pub(crate) struct Edit<'a> {
        kept: &'a mut OwnedRanges,
        each: Ranges,
    }

    impl OwnedRanges {
        /// To change single ranges.
        pub(crate) const fn edit(&mut self) -> Edit<'_> {
            let each = self.each;
            Edit { kept: self, each }
        }
    }

    impl Deref for Edit<'_> {
        type Target = Ranges;

        fn deref(&self) -> &Ranges {
            &self.each
        }
    }

    impl DerefMut for Edit<'_> {
        fn deref_mut(&mut self) -> &mut Ranges {
            &mut self.each
        }
    }

    impl Drop for Edit<'_> {
        fn drop(&mut self) {
            *self.kept = self.each.into();
        }
    }
}
#[cfg(test)]
pub(crate) use edit::Edit;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::fixture::{Scene, interval, measured, range, set};

    #[test]
    fn every_numeric_variable_has_a_lane_of_its_own() {
        let mut lanes: Vec<_> = NUMERIC.iter().map(|variable| lane(*variable)).collect();
        lanes.sort_unstable();
        assert_eq!(lanes, (0..NUMERIC.len()).collect::<Vec<_>>());
    }

    /// Current from 180 to 300 A; nothing else is limited.
    fn met(change: impl FnOnce(&mut Scene)) -> bool {
        let owned = Ranges { current: Some(range("180 A", "300 A")), ..Ranges::default() };
        let owned = OwnedRanges::from(owned);
        assert_eq!(owned.limited(), VariableSet::of(&[Variable::Current]));
        let scene = Scene::allowed().with(change);
        let values = scene.in_case(|case| PlainValues::of(case.setup, case.readings));
        let met = owned.plainly_met(&values);
        assert!(owned.limited().includes(met));
        met.contains(Variable::Current)
    }

    #[test]
    fn a_stated_value_is_plainly_inside_with_both_of_its_ends() {
        assert!(met(|s| s.setup.settings.current = Some(set("180 A"))));
        assert!(met(|s| s.setup.settings.current = Some(set("300 A"))));
        assert!(met(|s| s.setup.settings.current = Some(interval("180 A", "300 A"))));
        assert!(!met(|s| s.setup.settings.current = Some(interval("180 A", "301 A"))));
        assert!(!met(|s| s.setup.settings.current = Some(interval("179 A", "200 A"))));
    }

    #[test]
    fn what_is_measured_or_missing_is_never_plain() {
        assert!(!met(|s| s.setup.settings.current = Some(measured("240 A", "1 A"))));
        assert!(!met(|s| s.setup.settings.current = None));
    }
}
