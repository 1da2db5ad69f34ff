//! Symptoms of the shape and surface of the bead.

use super::{
    change::Direction::{Lower, Raise},
    row::{
        ALL, COVERED,
        Do::{Amperes, Angle, ArcLength, Gap, Gas, See, Speed, StickOut},
        FED, Row, SUBMERGED, TIG, WIRE, cause,
    },
    upkeep::Upkeep::{
        AimBetweenParts, CheckGasHoses, CleanJoint, LongerPostFlow, MeasureGasAtNozzle,
        PauseAtToes, UseRecommendedGas,
    },
};

const INDUSTRY_P10_6: &str = "MIG Welding Handbook (industry handbook), p. 10-6";
const HANDBOOK_P70: &str = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 70";
const HANDBOOK_P76: &str = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 76";
const HANDBOOK_P156: &str = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 156";
const FUNDAMENTALS_P253: &str = "Welding Fundamentals, Goodheart-Willcox 2017, ch. 17, p. 253";

pub(super) const UNDERCUT: &[Row] = &[
    cause(WIRE, "volts too high, arc too long", &[ArcLength(Lower)]).printed(INDUSTRY_P10_6),
    cause(&[COVERED, TIG, SUBMERGED], "arc too long", &[ArcLength(Lower)]),
    cause(WIRE, "current too high", &[Amperes(Lower)]).printed(INDUSTRY_P10_6),
    cause(&[COVERED, TIG, SUBMERGED], "current too high", &[Amperes(Lower)]),
    cause(ALL, "travel too fast", &[Speed(Lower)]),
    cause(WIRE, "no pause at the toes", &[See(PauseAtToes)]).printed(HANDBOOK_P76),
    cause(&[COVERED, TIG], "no pause at the toes", &[See(PauseAtToes)]),
    cause(ALL, "wrong work angle", &[See(AimBetweenParts)]),
];

pub(super) const BURN_THROUGH: &[Row] = &[
    cause(WIRE, "current too high", &[Amperes(Lower)]).printed(HANDBOOK_P156),
    cause(&[COVERED, TIG, SUBMERGED], "current too high", &[Amperes(Lower)]),
    cause(WIRE, "stick-out too short", &[StickOut(Raise)]).printed(HANDBOOK_P70),
    cause(ALL, "travel too slow", &[Speed(Raise)]),
    cause(ALL, "root gap too wide", &[Gap(Lower)]),
];

pub(super) const CONVEX_BEAD: &[Row] = &[
    cause(FED, "volts too low", &[ArcLength(Raise)]),
    cause(&[COVERED], "current too low", &[Amperes(Raise)]),
    cause(ALL, "travel too fast", &[Speed(Lower)]),
    cause(WIRE, "drag angle too large", &[Angle(Lower)]).printed(FUNDAMENTALS_P253),
];

pub(super) const GREY_BEAD: &[Row] = &[
    cause(&[TIG], "too little gas", &[Gas(Raise), See(MeasureGasAtNozzle)]),
    cause(&[TIG], "air drawn in through a leak", &[See(CheckGasHoses)]),
    cause(&[TIG], "gas cut off before the bead was cold", &[See(LongerPostFlow)]),
    cause(&[TIG], "arc too long", &[ArcLength(Lower)]),
    cause(&[TIG], "joint or filler not clean", &[See(CleanJoint)]),
    cause(&[TIG], "wrong gas", &[See(UseRecommendedGas)]),
];
