//! A remedy as sent: a change of a setting, or something to do that is no setting.

use serde::Serialize;
use utoipa::ToSchema;

use super::answer_out::Ground;
use crate::{
    check::{Owner, Variable},
    checks::{OwnerOut, pointer},
    quantity::{AmountRange, QuantityError, Rounding},
    trade::{Coded, Direction, Remedy, SettingChange, SettingVariable, Upkeep},
    window::{CutChange, Room, cut_change},
    wire::{AmountOut, RangeOut, ShownOut, Units},
};

/// What goes with work that a procedure may not allow.
const MAY_LEAVE: &str = "Only where the procedure allows it: have the changed setup checked first.";

/// One thing to do.
#[derive(Debug, Clone, Serialize, ToSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum RemedyOut {
    /// Change a setting.
    Change(Box<ChangeOut>),
    /// Do something that is no setting.
    Upkeep(UpkeepOut),
}

/// A change of one setting.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ChangeOut {
    /// What to change.
    #[schema(example = "voltage")]
    pub variable: &'static str,
    /// Its place in the setup; left out where a setup does not have it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(example = "/settings/voltage")]
    pub pointer: Option<&'static str>,
    /// `raise` or `lower`; of the travel angle, towards drag or push.
    #[schema(example = "lower")]
    pub direction: &'static str,
    /// One step: a share of the present value, or a difference.
    pub step: AmountOut,
    /// `whole-step`, `part-of-a-step`, `no-room` or `not-known`.
    #[schema(example = "whole-step")]
    pub room: &'static str,
    /// The present value or interval.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<ShownOut>,
    /// The value or interval after the change, inside every required limit; left out where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<ShownOut>,
    /// What all required limits allow of this variable alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowed: Option<RangeOut>,
    /// The current that follows from another feed or stick-out, by the burn-off equation without its
    /// coefficients: between melting by resistance alone and by the arc alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub current_then: Option<ShownOut>,
    /// Who binds a step that is cut or has no room.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub limited_by: Vec<OwnerOut>,
    /// By what it is bound, or what is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
}

/// Something to do that is no setting.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct UpkeepOut {
    /// Code of the work.
    #[schema(example = "use-dry-consumable")]
    pub upkeep: &'static str,
    /// What to do, in a sentence.
    pub instruction: &'static str,
    /// What to heed where a procedure may not allow it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<&'static str>,
}

impl RemedyOut {
    pub(super) fn new(remedy: &Remedy, ground: &Ground<'_>) -> Result<Self, QuantityError> {
        Ok(match remedy {
            Remedy::Change(change) => Self::Change(Box::new(ChangeOut::new(change, ground)?)),
            Remedy::Upkeep(upkeep) => Self::Upkeep(UpkeepOut::new(*upkeep)),
        })
    }
}

impl UpkeepOut {
    fn new(upkeep: Upkeep) -> Self {
        Self {
            upkeep: upkeep.code(),
            instruction: upkeep.instruction(),
            reason: upkeep.may_leave_procedure().then_some(MAY_LEAVE),
        }
    }
}

impl ChangeOut {
    fn new(change: &SettingChange, ground: &Ground<'_>) -> Result<Self, QuantityError> {
        let cut =
            ground.governing.map_or_else(CutChange::ungoverned, |case| cut_change(case, change));
        let direction = change.direction();
        let units = ground.units;
        let (room, limited_by, reason) = described(&cut.room);
        Ok(Self {
            variable: change.variable().code(),
            pointer: setup_variable(change.variable()).map(pointer),
            direction: direction.code(),
            step: AmountOut::new(change.step()?, units),
            room,
            from: cut.from.as_ref().and_then(|from| shown(from, units, Rounding::Nearest)),
            to: cut.room.to().and_then(|to| shown(to, units, short_of(direction))),
            allowed: cut.allowed.as_ref().and_then(|allowed| RangeOut::inward(allowed, units)),
            current_then: cut
                .current_then
                .as_ref()
                .and_then(|then| RangeOut::new(then, units))
                .map(ShownOut::Range),
            limited_by,
            reason,
        })
    }
}

fn described(room: &Room) -> (&'static str, Vec<OwnerOut>, Option<String>) {
    let names = |owners: &[Owner]| owners.iter().cloned().map(OwnerOut::from).collect();
    match room {
        Room::Whole(_) => ("whole-step", Vec::new(), None),
        Room::Part { owners, why, .. } => ("part-of-a-step", names(owners), Some(why.clone())),
        Room::Nothing { owners, why } => ("no-room", names(owners), Some(why.clone())),
        Room::Unknown { why } => ("not-known", Vec::new(), Some(why.clone())),
    }
}

/// The last digit stops short of the limit.
const fn short_of(direction: Direction) -> Rounding {
    match direction {
        Direction::Raise => Rounding::Down,
        Direction::Lower => Rounding::Up,
    }
}

/// One amount, or a range whose ends are rounded inward.
fn shown(range: &AmountRange, units: Units, rounding: Rounding) -> Option<ShownOut> {
    match (range.min, range.max) {
        (Some(min), Some(max)) if min == max => {
            Some(ShownOut::Amount(AmountOut::rounded(min, units, rounding)))
        }
        _ => RangeOut::inward(range, units).map(ShownOut::Range),
    }
}

/// The variable of a setup; `None` where a setup does not have it.
const fn setup_variable(variable: SettingVariable) -> Option<Variable> {
    match variable {
        SettingVariable::Current => Some(Variable::Current),
        SettingVariable::Voltage => Some(Variable::Voltage),
        SettingVariable::WireFeed => Some(Variable::WireFeed),
        SettingVariable::TravelSpeed => Some(Variable::TravelSpeed),
        SettingVariable::ElectricalStickOut => Some(Variable::StickOut),
        SettingVariable::TravelAngle => Some(Variable::TravelAngle),
        SettingVariable::WeaveWidth => Some(Variable::WeaveWidth),
        SettingVariable::GasFlow => Some(Variable::GasFlow),
        SettingVariable::Preheat => Some(Variable::Preheat),
        SettingVariable::ArcLength | SettingVariable::RootGap => None,
    }
}
