//! One row of the symptom tables, and what it says for a process.

use super::{
    change::{Change, Direction, SettingChange, Step},
    upkeep::Upkeep,
};
use crate::{
    quantity::{Kind, Quantity, QuantityError, Share},
    trade::{
        Confidence,
        Process::{
            self, MagFluxCored, MagMetalCored, MagSolidWire, ManualMetalArc, MigFluxCored,
            MigMetalCored, MigSolidWire, SelfShieldedFluxCored, SubmergedCoredWire,
            SubmergedPowderAddition, SubmergedSolidWire, TigAutogenous, TigCoredFiller,
            TigReducingGas, TigSolidFiller,
        },
    },
};

/// What to do about a cause.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Remedy {
    /// Change a setting.
    Change(SettingChange),
    /// Do something that is no setting.
    Upkeep(Upkeep),
}

/// A remedy before it is read for a process.
#[derive(Debug, Clone, Copy)]
pub(super) enum Do {
    /// Current: on constant-voltage wire by the feed, elsewhere by the current itself.
    Amperes(Direction),
    /// Length of the arc: on wire by the volts, elsewhere by hand.
    ArcLength(Direction),
    /// Wire feed speed.
    Feed(Direction),
    /// Travel speed.
    Speed(Direction),
    /// Electrical stick-out.
    StickOut(Direction),
    /// Travel angle.
    Angle(Direction),
    /// Width of the weave.
    Weave(Direction),
    /// Gas flow.
    Gas(Direction),
    /// Preheat.
    Preheat(Direction),
    /// Root gap.
    Gap(Direction),
    /// No setting.
    See(Upkeep),
}

/// One cause.
pub(super) struct Row {
    pub(super) processes: &'static [&'static [Process]],
    pub(super) cause: &'static str,
    pub(super) remedies: &'static [Do],
    pub(super) source: &'static str,
    pub(super) confidence: Confidence,
}

pub(super) const COVERED: &[Process] = &[ManualMetalArc];
pub(super) const CORED_GAS: &[Process] = &[MagFluxCored, MigFluxCored];
pub(super) const CORED_SELF: &[Process] = &[SelfShieldedFluxCored];
pub(super) const SOLID: &[Process] = &[MagSolidWire, MigSolidWire];
pub(super) const METAL: &[Process] = &[MagMetalCored, MigMetalCored];
pub(super) const TIG: &[Process] = &[TigSolidFiller, TigAutogenous, TigCoredFiller, TigReducingGas];
pub(super) const SUBMERGED: &[Process] =
    &[SubmergedSolidWire, SubmergedCoredWire, SubmergedPowderAddition];

/// Wire arcs that a gas shields.
pub(super) const GAS_WIRE: &[&[Process]] = &[CORED_GAS, SOLID, METAL];
/// Wire arcs in the open.
pub(super) const WIRE: &[&[Process]] = &[CORED_GAS, CORED_SELF, SOLID, METAL];
/// Wire arcs, in the open and submerged.
pub(super) const FED: &[&[Process]] = &[CORED_GAS, CORED_SELF, SOLID, METAL, SUBMERGED];
/// Processes with a slag and an open arc.
pub(super) const SLAG: &[&[Process]] = &[COVERED, CORED_GAS, CORED_SELF];
/// Everything but TIG and submerged arc.
pub(super) const OPEN_CONSUMABLE: &[&[Process]] = &[COVERED, CORED_GAS, CORED_SELF, SOLID, METAL];
/// Everything but covered electrodes.
pub(super) const BUT_COVERED: &[&[Process]] =
    &[CORED_GAS, CORED_SELF, SOLID, METAL, TIG, SUBMERGED];
/// All processes of the tables.
pub(super) const ALL: &[&[Process]] =
    &[COVERED, CORED_GAS, CORED_SELF, SOLID, METAL, TIG, SUBMERGED];

pub(super) const PRACTICE: &str = "common practice, no source";

/// Share of feed or current in one step (common practice, no source).
const CURRENT_STEP: f64 = 0.05;
/// Share of travel speed in one step (common practice, no source).
const SPEED_STEP: f64 = 0.10;
/// V, mm, deg, mm, L/min and K in one step (common practice, no source).
const VOLT_STEP: f64 = 1.0;
const STICK_OUT_STEP: f64 = 3.0;
const ARC_LENGTH_STEP: f64 = 1.0;
const ANGLE_STEP: f64 = 5.0;
const WEAVE_STEP: f64 = 2.0;
const GAS_STEP: f64 = 2.0;
const PREHEAT_STEP: f64 = 25.0;
const GAP_STEP: f64 = 0.5;

/// A cause of common practice.
pub(super) const fn cause(
    processes: &'static [&'static [Process]],
    cause: &'static str,
    remedies: &'static [Do],
) -> Row {
    let (source, confidence) = (PRACTICE, Confidence::CommonPractice);
    Row { processes, cause, remedies, source, confidence }
}

impl Row {
    /// The row with a printed source.
    pub(super) const fn printed(self, source: &'static str) -> Self {
        Self { source, confidence: Confidence::TextRead, ..self }
    }

    pub(super) fn concerns(&self, process: Process) -> bool {
        self.processes.iter().any(|group| group.contains(&process))
    }
}

impl Do {
    /// The remedy for a process.
    ///
    /// # Errors
    /// None in practice; the steps are constants.
    pub(super) fn read(self, process: Process) -> Result<Remedy, QuantityError> {
        Ok(Remedy::Change(match self {
            Self::See(upkeep) => return Ok(Remedy::Upkeep(upkeep)),
            Self::Amperes(to) if process.is_constant_voltage_wire() => {
                SettingChange::WireFeed(share(to, CURRENT_STEP)?)
            }
            Self::Amperes(to) => SettingChange::Current(share(to, CURRENT_STEP)?),
            Self::ArcLength(to) if process.has_wire_feed() => {
                SettingChange::Voltage(by(to, VOLT_STEP)?)
            }
            Self::ArcLength(to) => SettingChange::ArcLength(by(to, ARC_LENGTH_STEP)?),
            Self::Feed(to) => SettingChange::WireFeed(share(to, CURRENT_STEP)?),
            Self::Speed(to) => SettingChange::TravelSpeed(share(to, SPEED_STEP)?),
            Self::StickOut(to) => SettingChange::ElectricalStickOut(by(to, STICK_OUT_STEP)?),
            Self::Angle(to) => SettingChange::TravelAngle(by(to, ANGLE_STEP)?),
            Self::Weave(to) => SettingChange::WeaveWidth(by(to, WEAVE_STEP)?),
            Self::Gas(to) => SettingChange::GasFlow(by(to, GAS_STEP)?),
            Self::Preheat(to) => SettingChange::Preheat(by(to, PREHEAT_STEP)?),
            Self::Gap(to) => SettingChange::RootGap(by(to, GAP_STEP)?),
        }))
    }
}

fn share<K: Kind>(direction: Direction, share: f64) -> Result<Change<K>, QuantityError> {
    Ok(Change { direction, step: Step::Share(Share::computed(share)?) })
}

fn by<K: Kind>(direction: Direction, step: f64) -> Result<Change<K>, QuantityError> {
    Ok(Change { direction, step: Step::By(Quantity::computed(step)?) })
}
