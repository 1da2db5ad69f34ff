//! A change of one variable: which, in what direction, by how much.

use crate::{
    quantity::{
        Amount, ArcLengthKind, CurrentKind, ElectricalStickOutKind, GasFlowKind, Kind, Quantity,
        QuantityError, Range, RootGapKind, Share, TemperatureDifference, TemperatureKind,
        TravelAngleKind, TravelSpeedKind, VoltageKind, WeaveWidthKind, WireFeedKind,
    },
    trade::coded,
};

coded! {
    /// To more or to less.
    pub enum Direction: "direction" {
        /// To more; of the travel angle: towards drag.
        Raise = "raise",
        /// To less; of the travel angle: towards push.
        Lower = "lower",
    }
}

coded! {
    /// A variable that a remedy changes.
    pub enum SettingVariable: "setting to change" {
        /// Current that is set.
        Current = "current",
        /// Arc voltage.
        Voltage = "voltage",
        /// Wire feed speed.
        WireFeed = "wire-feed",
        /// Travel speed.
        TravelSpeed = "travel-speed",
        /// Electrical stick-out.
        ElectricalStickOut = "electrical-stick-out",
        /// Arc length held by hand.
        ArcLength = "arc-length",
        /// Drag positive, push negative.
        TravelAngle = "travel-angle",
        /// Width of the weave.
        WeaveWidth = "weave-width",
        /// Flow of the shielding gas.
        GasFlow = "gas-flow",
        /// Preheat temperature.
        Preheat = "preheat",
        /// Root gap.
        RootGap = "root-gap",
    }
}

/// How far a change goes at a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step<K: Kind> {
    /// By this share of the present value.
    Share(Share),
    /// By this much.
    By(Quantity<K>),
}

/// A change of one kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change<K: Kind> {
    /// To more or to less.
    pub direction: Direction,
    /// How far at a time.
    pub step: Step<K>,
}

/// A change, typed by variable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SettingChange {
    /// Current that is set.
    Current(Change<CurrentKind>),
    /// Arc voltage.
    Voltage(Change<VoltageKind>),
    /// Wire feed speed.
    WireFeed(Change<WireFeedKind>),
    /// Travel speed.
    TravelSpeed(Change<TravelSpeedKind>),
    /// Electrical stick-out.
    ElectricalStickOut(Change<ElectricalStickOutKind>),
    /// Arc length held by hand.
    ArcLength(Change<ArcLengthKind>),
    /// Travel angle.
    TravelAngle(Change<TravelAngleKind>),
    /// Width of the weave.
    WeaveWidth(Change<WeaveWidthKind>),
    /// Flow of the shielding gas.
    GasFlow(Change<GasFlowKind>),
    /// Preheat temperature; a step is in kelvin.
    Preheat(Change<TemperatureKind>),
    /// Root gap.
    RootGap(Change<RootGapKind>),
}

impl SettingChange {
    /// The variable changed.
    #[must_use]
    pub const fn variable(&self) -> SettingVariable {
        match self {
            Self::Current(_) => SettingVariable::Current,
            Self::Voltage(_) => SettingVariable::Voltage,
            Self::WireFeed(_) => SettingVariable::WireFeed,
            Self::TravelSpeed(_) => SettingVariable::TravelSpeed,
            Self::ElectricalStickOut(_) => SettingVariable::ElectricalStickOut,
            Self::ArcLength(_) => SettingVariable::ArcLength,
            Self::TravelAngle(_) => SettingVariable::TravelAngle,
            Self::WeaveWidth(_) => SettingVariable::WeaveWidth,
            Self::GasFlow(_) => SettingVariable::GasFlow,
            Self::Preheat(_) => SettingVariable::Preheat,
            Self::RootGap(_) => SettingVariable::RootGap,
        }
    }

    /// To more or to less.
    #[must_use]
    pub const fn direction(&self) -> Direction {
        match self {
            Self::Current(change) => change.direction,
            Self::Voltage(change) => change.direction,
            Self::WireFeed(change) => change.direction,
            Self::TravelSpeed(change) => change.direction,
            Self::ElectricalStickOut(change) => change.direction,
            Self::ArcLength(change) => change.direction,
            Self::TravelAngle(change) => change.direction,
            Self::WeaveWidth(change) => change.direction,
            Self::GasFlow(change) => change.direction,
            Self::Preheat(change) => change.direction,
            Self::RootGap(change) => change.direction,
        }
    }
}

impl SettingChange {
    /// How far the change goes at a time: a share of the present value, or a difference.
    ///
    /// # Errors
    /// None in practice; the steps are constants.
    pub fn step(&self) -> Result<Amount, QuantityError> {
        Ok(match self {
            Self::Current(change) => change.step.amount(),
            Self::Voltage(change) => change.step.amount(),
            Self::WireFeed(change) => change.step.amount(),
            Self::TravelSpeed(change) => change.step.amount(),
            Self::ElectricalStickOut(change) => change.step.amount(),
            Self::ArcLength(change) => change.step.amount(),
            Self::TravelAngle(change) => change.step.amount(),
            Self::WeaveWidth(change) => change.step.amount(),
            Self::GasFlow(change) => change.step.amount(),
            Self::Preheat(change) => match change.step {
                Step::Share(share) => share.amount(),
                Step::By(step) => TemperatureDifference::computed(step.celsius())?.amount(),
            },
            Self::RootGap(change) => change.step.amount(),
        })
    }
}

impl<K: Kind> Step<K> {
    const fn amount(&self) -> Amount {
        match self {
            Self::Share(share) => share.amount(),
            Self::By(step) => step.amount(),
        }
    }
}

impl<K: Kind> Change<K> {
    /// The value one step further.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] on overflow.
    pub fn applied(&self, from: Quantity<K>) -> Result<Quantity<K>, QuantityError> {
        let step = match self.step {
            Step::Share(share) => from.canonical().abs() * share.ratio(),
            Step::By(step) => step.canonical(),
        };
        Quantity::computed(match self.direction {
            Direction::Raise => from.canonical() + step,
            Direction::Lower => from.canonical() - step,
        })
    }

    /// The value one step further, cut to what is allowed; `None` where nothing in this direction
    /// is allowed any more.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] on overflow.
    pub fn within(
        &self,
        from: Quantity<K>,
        allowed: &Range<K>,
    ) -> Result<Option<Quantity<K>>, QuantityError> {
        let target = self.applied(from)?;
        let target = allowed.max().map_or(target, |max| target.min(max));
        let target = allowed.min().map_or(target, |min| target.max(min));
        let moves = match self.direction {
            Direction::Raise => !target.at_most(from),
            Direction::Lower => !target.at_least(from),
        };
        Ok(moves.then_some(target))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Voltage;

    fn volt_down() -> Change<VoltageKind> {
        let step = Step::By(Voltage::computed(1.0).unwrap());
        Change { direction: Direction::Lower, step }
    }

    fn volts(text: &str) -> Voltage {
        text.parse().unwrap()
    }

    #[test]
    fn a_step_is_cut_to_the_procedure() {
        let allowed = Range::new(Some(volts("25.5 V")), Some(volts("28 V"))).unwrap();
        let next = |from: &str| volt_down().within(volts(from), &allowed).unwrap();
        assert_eq!(next("27 V"), Some(volts("26 V")));
        assert_eq!(next("26 V"), Some(volts("25.5 V")));
        assert_eq!(next("25.5 V"), None);
        assert_eq!(next("25 V"), None, "below the procedure there is nothing to lower");
        assert_eq!(next("30 V"), Some(volts("28 V")), "back into the procedure is a step down");
    }

    #[test]
    fn a_share_is_of_the_present_value() {
        let step = Step::Share("5 %".parse().unwrap());
        let more = Change::<WireFeedKind> { direction: Direction::Raise, step };
        let feed = "8 m/min".parse().unwrap();
        assert_eq!(more.applied(feed).unwrap(), "8.4 m/min".parse().unwrap());
    }
}
