//! Limits of preheat and interpass temperature that follow from each other.
//!
//! A minimum preheat is the minimum interpass temperature too, and no run starts on metal above the maximum interpass
//! temperature, not the first one either (AWS D1.1:2020, 5.7 and 6.8.4 speak of "minimum preheat and interpass
//! temperature", clause numbers from memory; EN 1011-2 and ISO 13916 from memory).

use super::{Ranges, Variable, VariableSet, record::RunLimits};
use crate::quantity::{AmountRange, Quantity, Range, Temperature, TemperatureKind};

/// What one owner's limits of the two temperatures leave of the other one, and what the other runs of a procedure leave of
/// one that a run does not limit itself; only what is tighter than what is limited there anyway.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct CarriedHeat {
    /// Preheat: at most the maximum interpass temperature, at least the minimum preheat of other runs.
    pub preheat: CarriedEnds,
    /// Interpass temperature: at least the minimum preheat, at most the maximum interpass temperature of other runs.
    pub interpass: CarriedEnds,
}

/// Two limits, not one range: a record may ask for more preheat than it lets runs meet, and then nothing is allowed.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct CarriedEnds {
    least: Option<Range<TemperatureKind>>,
    most: Option<Range<TemperatureKind>>,
}

impl CarriedEnds {
    /// What of these ends is tighter than the owner's own range.
    fn beside(
        own: Option<&Range<TemperatureKind>>,
        least: Option<Temperature>,
        most: Option<Temperature>,
    ) -> Self {
        let own_least = own.and_then(Range::min);
        let own_most = own.and_then(Range::max);
        let warmer = |least: &Temperature| own_least.is_none_or(|own| !own.at_least(*least));
        let cooler = |most: &Temperature| own_most.is_none_or(|own| !own.at_most(*most));
        Self {
            least: least.filter(warmer).map(Range::at_least),
            most: most.filter(cooler).map(Range::at_most),
        }
    }

    /// The limits, each with one end.
    pub fn limits(&self) -> impl Iterator<Item = &Range<TemperatureKind>> {
        self.least.iter().chain(&self.most)
    }

    /// How many they are.
    const fn count(&self) -> u16 {
        self.least.is_some() as u16 + self.most.is_some() as u16
    }

    /// The lowest temperature.
    #[must_use]
    pub fn min(&self) -> Option<Temperature> {
        self.least.as_ref().and_then(Range::min)
    }

    /// The highest temperature.
    #[must_use]
    pub fn max(&self) -> Option<Temperature> {
        self.most.as_ref().and_then(Range::max)
    }
}

impl CarriedHeat {
    /// Between a minimum preheat and a maximum interpass temperature, beside the owner's own ranges.
    fn between(least: Option<Temperature>, most: Option<Temperature>, own: &Ranges) -> Self {
        Self {
            preheat: CarriedEnds::beside(own.preheat.as_ref(), least, most),
            interpass: CarriedEnds::beside(own.interpass.as_ref(), least, most),
        }
    }

    /// How many limits there are on these variables.
    pub(super) fn limits_on(&self, variables: VariableSet) -> u16 {
        let of =
            |variable, ends: &CarriedEnds| u16::from(variables.contains(variable)) * ends.count();
        of(Variable::Preheat, &self.preheat) + of(Variable::Interpass, &self.interpass)
    }

    /// The variables it limits.
    pub(super) fn limited(&self) -> VariableSet {
        VariableSet::default()
            .with_if(Variable::Preheat, self.preheat.count() > 0)
            .with_if(Variable::Interpass, self.interpass.count() > 0)
    }

    /// The limits of a variable; none where it is not limited so.
    pub fn amounts(&self, variable: Variable) -> impl Iterator<Item = AmountRange> {
        let ends = match variable {
            Variable::Preheat => Some(&self.preheat),
            Variable::Interpass => Some(&self.interpass),
            _ => None,
        };
        ends.into_iter().flat_map(CarriedEnds::limits).map(Range::amounts)
    }
}

impl From<&Ranges> for CarriedHeat {
    fn from(own: &Ranges) -> Self {
        Self::between(least(own), most(own), own)
    }
}

/// Carries limits over between the runs of one procedure: a run that sets no minimum preheat or no maximum interpass
/// temperature keeps, in both, to the loosest that the others set. A root has no interpass temperature of its own, and
/// is welded at the preheat.
pub fn carry_over(runs: &mut [RunLimits]) {
    let all =
        |of: fn(&Ranges) -> Option<Temperature>| runs.iter().filter_map(move |run| of(&run.ranges));
    let loosest_least = all(least).reduce(Quantity::min);
    let loosest_most = all(most).reduce(Quantity::max);
    for run in runs {
        let own = *run.ranges;
        let (least, most) = (least(&own).or(loosest_least), most(&own).or(loosest_most));
        run.ranges.carry(&CarriedHeat::between(least, most, &own));
    }
}

fn least(ranges: &Ranges) -> Option<Temperature> {
    ranges.preheat.as_ref().and_then(Range::min)
}

fn most(ranges: &Ranges) -> Option<Temperature> {
    ranges.interpass.as_ref().and_then(Range::max)
}
