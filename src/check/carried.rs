//! Limits of preheat and interpass temperature that follow from each other.
//!
//! A minimum preheat is the minimum interpass temperature too, and no run starts on metal above the maximum interpass
//! temperature, not the first one either (AWS D1.1:2020, 5.7 and 6.8.4 speak of "minimum preheat and interpass
//! temperature", clause numbers from memory; EN 1011-2 and ISO 13916 from memory).

use super::{Ranges, Variable, VariableSet, record::RunLimits};
use crate::quantity::{AmountRange, Quantity, Range, Temperature, TemperatureKind};

/// What one owner's limits of the two temperatures leave of the other one, beyond what is limited there anyway.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct CarriedHeat {
    /// Preheat: at most the maximum interpass temperature.
    pub preheat: Option<Range<TemperatureKind>>,
    /// Interpass temperature: at least the minimum preheat.
    pub interpass: Option<Range<TemperatureKind>>,
}

impl CarriedHeat {
    /// Between a minimum preheat and a maximum interpass temperature, beside the owner's own ranges.
    fn between(least: Option<Temperature>, most: Option<Temperature>, own: &Ranges) -> Self {
        let own_most = own.preheat.as_ref().and_then(Range::max);
        let own_least = own.interpass.as_ref().and_then(Range::min);
        let tighter = |most: &Temperature| own_most.is_none_or(|own| !own.at_most(*most));
        let warmer = |least: &Temperature| own_least.is_none_or(|own| !own.at_least(*least));
        Self {
            preheat: most.filter(tighter).map(Range::at_most),
            interpass: least.filter(warmer).map(Range::at_least),
        }
    }

    /// The variables it limits.
    pub(super) fn limited(&self) -> VariableSet {
        VariableSet::default()
            .with_if(Variable::Preheat, self.preheat.is_some())
            .with_if(Variable::Interpass, self.interpass.is_some())
    }

    /// The range of a variable; `None` where it is not limited so.
    #[must_use]
    pub fn amounts(&self, variable: Variable) -> Option<AmountRange> {
        let range = match variable {
            Variable::Preheat => self.preheat.as_ref(),
            Variable::Interpass => self.interpass.as_ref(),
            _ => None,
        };
        range.map(Range::amounts)
    }
}

impl From<&Ranges> for CarriedHeat {
    fn from(own: &Ranges) -> Self {
        Self::between(least(own), most(own), own)
    }
}

/// Carries limits over between the runs of one procedure: a run that sets no minimum preheat or no maximum interpass
/// temperature keeps to the loosest that the others set. A root has no interpass temperature of its own, and is
/// welded at the preheat.
pub fn carry_over(runs: &mut [RunLimits]) {
    let all =
        |of: fn(&Ranges) -> Option<Temperature>| runs.iter().filter_map(move |run| of(&run.ranges));
    let loosest_least = all(least).reduce(Quantity::min);
    let loosest_most = all(most).reduce(Quantity::max);
    for run in runs {
        let own = *run.ranges;
        let (least, most) = (least(&own).or(loosest_least), most(&own).or(loosest_most));
        run.ranges.carry(CarriedHeat::between(least, most, &own));
    }
}

fn least(ranges: &Ranges) -> Option<Temperature> {
    ranges.preheat.as_ref().and_then(Range::min)
}

fn most(ranges: &Ranges) -> Option<Temperature> {
    ranges.interpass.as_ref().and_then(Range::max)
}
