//! A remedy's change of one variable, cut to what the governing procedure still allows.
//!
//! The value itself stays inside its window. What follows from it, such as the current of another wire feed
//! or the heat input, is judged with the setup as it would be; where it would leave a required limit the
//! change is cut further. Where something is not known no value is given.

mod after;
mod governing;

pub use governing::Governing;

use self::after::{Changed, Effect};
use super::{BoxRange, Region};
use crate::{
    check::{Owner, Variable},
    quantity::{Amount, AmountRange, Kind, Quantity, QuantityError, Range, Span},
    trade::{Change, Direction, SettingChange},
};

/// A smaller part of a step than this is no remedy (own choice).
const LEAST_PART: f64 = 0.1;

/// Halvings in the search for the largest part of a step that fits: to a thousandth.
const HALVINGS: u32 = 10;

/// What is left of a change.
#[derive(Debug, Clone, PartialEq)]
pub struct CutChange {
    /// The present value or interval; `None` where the setup does not state it.
    pub from: Option<AmountRange>,
    /// What the procedure and everybody else allow of the variable; `None` where that is not known.
    pub allowed: Option<AmountRange>,
    /// How far the change may go.
    pub room: Room,
    /// The current that follows from another feed or stick-out, where there is a value.
    pub current_then: Option<AmountRange>,
}

/// How far a change may go.
#[derive(Debug, Clone, PartialEq)]
pub enum Room {
    /// A whole step.
    Whole(AmountRange),
    /// A part of a step.
    Part {
        /// The value or interval then.
        to: AmountRange,
        /// Who binds it.
        owners: Vec<Owner>,
        /// By what.
        why: String,
    },
    /// No step.
    Nothing {
        /// Who binds it.
        owners: Vec<Owner>,
        /// By what.
        why: String,
    },
    /// Not known, so no value is given.
    Unknown {
        /// What is missing.
        why: String,
    },
}

impl Room {
    /// The value or interval after the change, where there is one.
    #[must_use]
    pub const fn to(&self) -> Option<&AmountRange> {
        match self {
            Self::Whole(to) | Self::Part { to, .. } => Some(to),
            Self::Nothing { .. } | Self::Unknown { .. } => None,
        }
    }
}

impl CutChange {
    /// A change of which nothing is known.
    fn unknown(why: impl Into<String>) -> Self {
        let room = Room::Unknown { why: why.into() };
        Self { from: None, allowed: None, room, current_then: None }
    }

    /// Where no procedure in force governs the setup.
    #[must_use]
    pub fn ungoverned() -> Self {
        Self::unknown(UNGOVERNED)
    }
}

/// Cuts a change to what is allowed.
#[must_use]
pub fn cut_change(governing: &Governing<'_>, change: &SettingChange) -> CutChange {
    let cut = Cut { governing };
    let left = match change {
        SettingChange::Current(change) => cut.cut(change, after::CURRENT),
        SettingChange::Voltage(change) => cut.cut(change, after::VOLTAGE),
        SettingChange::WireFeed(change) => cut.cut(change, after::WIRE_FEED),
        SettingChange::TravelSpeed(change) => cut.cut(change, after::TRAVEL_SPEED),
        SettingChange::ElectricalStickOut(change) => cut.cut(change, after::STICK_OUT),
        SettingChange::TravelAngle(change) => cut.cut(change, after::TRAVEL_ANGLE),
        SettingChange::WeaveWidth(change) => cut.cut(change, after::WEAVE_WIDTH),
        SettingChange::GasFlow(change) => cut.cut(change, after::GAS_FLOW),
        SettingChange::Preheat(change) => cut.cut(change, after::PREHEAT),
        SettingChange::ArcLength(_) => Ok(CutChange::unknown(BY_HAND)),
        SettingChange::RootGap(_) => Ok(CutChange::unknown(JOINT_DETAIL)),
    };
    left.unwrap_or_else(|error| CutChange::unknown(error.to_string()))
}

const UNGOVERNED: &str = "No procedure in force is known to govern this setup, so no value is given: name one, \
or state the whole job.";

const BY_HAND: &str = "No record limits the arc length; it is held by hand. The arc voltage that follows from \
it has to stay inside its window.";

const JOINT_DETAIL: &str = "The root gap belongs to the joint detail: keep it inside the tolerance of the \
procedure.";

/// Cuts the changes of one setup.
struct Cut<'g, 'a> {
    governing: &'g Governing<'a>,
}

impl Cut<'_, '_> {
    fn cut<K: Kind>(
        &self,
        change: &Change<K>,
        effect: Effect<K>,
    ) -> Result<CutChange, QuantityError> {
        let name = effect.variable.to_string().replace('-', " ");
        let Some(window) = self.governing.window(effect.variable) else {
            return Ok(CutChange::unknown(format!("This case has no {name}.")));
        };
        let from = (effect.present)(self.governing);
        let mut cut = CutChange {
            from: from.map(|from| from.amounts()),
            ..CutChange::unknown(format!("The setup does not state the {name}."))
        };
        let limits = match &window.required {
            Region::Range(limits) if window.permitted => limits,
            Region::Conflict(conflict) => {
                let owners = conflict.min_owners.iter().chain(&conflict.max_owners);
                let why = format!("The limits of the {name} contradict each other.");
                cut.room = Room::Nothing { owners: owners.cloned().collect(), why };
                return Ok(cut);
            }
            Region::Range(_) | Region::NoLimit => {
                let why = format!("No procedure bounds the {name}, so no value is given.");
                cut.room = Room::Unknown { why };
                return Ok(cut);
            }
        };
        cut.allowed = Some(limits.range);
        if let Some(from) = from {
            let within = Within { change, effect, limits, from };
            (cut.room, cut.current_then) = self.room(&within)?;
        }
        Ok(cut)
    }

    /// How far a change inside its own limits may go before something that follows leaves its limits.
    fn room<K: Kind>(
        &self,
        within: &Within<'_, K>,
    ) -> Result<(Room, Option<AmountRange>), QuantityError> {
        let (owners, why) = within.binding();
        let Some(target) = within.target()? else {
            return Ok((Room::Nothing { owners, why }, None));
        };
        let now = |part: f64| within.changed(self.governing, target, part);
        let whole = now(1.0)?;
        let (reached, part) = match self.governing.follows(&whole) {
            Follows::Inside => (whole, None),
            Follows::Unknown(why) => return Ok((Room::Unknown { why }, None)),
            Follows::Outside(owners, why) => match self.largest(now)? {
                Some(reached) => (reached, Some((owners, why))),
                None => return Ok((Room::Nothing { owners, why }, None)),
            },
        };
        let to = reached.to;
        let room = match part {
            Some((owners, why)) => Room::Part { to, owners, why },
            None if within.is_whole(target)? => Room::Whole(to),
            None => Room::Part { to, owners, why },
        };
        Ok((room, reached.current_then))
    }

    /// The largest part of a step after which everything is inside; `None` where that is next to nothing.
    fn largest(
        &self,
        now: impl Fn(f64) -> Result<Changed, QuantityError>,
    ) -> Result<Option<Changed>, QuantityError> {
        let (mut fits, mut breaks) = (0.0, 1.0);
        let mut reached = None;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(fits, breaks);
            let changed = now(middle)?;
            if self.governing.follows(&changed) == Follows::Inside {
                (fits, reached) = (middle, Some(changed));
            } else {
                breaks = middle;
            }
        }
        Ok(reached.filter(|_| fits >= LEAST_PART))
    }
}

/// What follows from a change.
#[derive(Debug, PartialEq)]
enum Follows {
    /// Everything stays inside its required limits.
    Inside,
    /// Something leaves them: whose, and what.
    Outside(Vec<Owner>, String),
    /// Something cannot be computed.
    Unknown(String),
}

/// One change inside the limits of its own variable.
struct Within<'c, K: Kind> {
    change: &'c Change<K>,
    effect: Effect<K>,
    limits: &'c BoxRange,
    from: Span<K>,
}

impl<K: Kind> Within<'_, K> {
    /// Who binds the end that the change moves to.
    fn binding(&self) -> (Vec<Owner>, String) {
        let owners = match self.change.direction {
            Direction::Raise => &self.limits.max_owners,
            Direction::Lower => &self.limits.min_owners,
        };
        let names: Vec<_> = owners.iter().map(ToString::to_string).collect();
        let variable: Variable = self.effect.variable;
        let name = variable.to_string().replace('-', " ");
        let why = format!("The {name} may be {} ({}).", self.limits.range, names.join(" and "));
        (owners.clone(), why)
    }

    fn allowed(&self) -> Option<Range<K>> {
        let end = |amount: Option<Amount>| amount.and_then(Amount::of_kind);
        Range::new(end(self.limits.range.min), end(self.limits.range.max)).ok()
    }

    /// One step further, cut to the limits; `None` where there is no room, or where the result would still
    /// be outside.
    fn target(&self) -> Result<Option<Span<K>>, QuantityError> {
        let Some(allowed) = self.allowed() else { return Ok(None) };
        let end = |end: Quantity<K>| {
            Ok::<_, QuantityError>(self.change.within(end, &allowed)?.unwrap_or(end))
        };
        let (low, high) = (end(self.from.low())?, end(self.from.high())?);
        let moves = low != self.from.low() || high != self.from.high();
        let target = Span::new(low, high).ok().filter(|target| allowed.contains(target));
        Ok(target.filter(|_| moves))
    }

    /// Whether nothing of the step was cut.
    fn is_whole(&self, target: Span<K>) -> Result<bool, QuantityError> {
        Ok(self.change.applied(self.from.low())? == target.low()
            && self.change.applied(self.from.high())? == target.high())
    }

    /// The setup after a part of the step to the target.
    fn changed(
        &self,
        governing: &Governing<'_>,
        target: Span<K>,
        part: f64,
    ) -> Result<Changed, QuantityError> {
        let end = |from: Quantity<K>, to: Quantity<K>| {
            if part < 1.0 {
                Quantity::computed(from.canonical() + part * (to.canonical() - from.canonical()))
            } else {
                Ok(to)
            }
        };
        let low = end(self.from.low(), target.low())?;
        let high = end(self.from.high(), target.high())?;
        let to = Span::new(low.min(high), low.max(high))
            .map_err(|_| QuantityError::NotFinite { quantity: K::INFO.name })?;
        self.effect.changed(governing, self.from, to)
    }
}

#[cfg(test)]
mod tests;
