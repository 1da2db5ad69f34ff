//! Symptoms of the arc and of the wire.

use super::{
    change::Direction::{Lower, Raise},
    row::{
        CORED_GAS, COVERED,
        Do::{Amperes, Angle, ArcLength, Feed, See, StickOut},
        METAL, OPEN_CONSUMABLE, Row, SOLID, SUBMERGED, TIG, WIRE, cause,
    },
    upkeep::Upkeep::{
        AdjustInductance, CheckContactTip, CheckFeedPath, CheckPolarity, CheckWorkClamp,
        CleanJoint, MoveWorkClamp, RegrindTungsten, ShortenBurnBackTime, UseDryConsumable,
        UseRecommendedGas,
    },
};

const FUNDAMENTALS_P253: &str = "Welding Fundamentals, Goodheart-Willcox 2017, ch. 17, p. 253";

pub(super) const WIRE_STUBBING: &[Row] = &[
    cause(WIRE, "volts too low", &[ArcLength(Raise)]),
    cause(WIRE, "feed too fast for the volts", &[Feed(Lower)]),
    cause(&[SOLID, METAL], "inductance too low or too high", &[See(AdjustInductance)]),
    cause(WIRE, "poor work clamp", &[See(CheckWorkClamp)]),
    cause(WIRE, "wrong polarity", &[See(CheckPolarity)]),
];

pub(super) const BURN_BACK: &[Row] = &[
    cause(WIRE, "feed too slow or slipping", &[See(CheckFeedPath), Feed(Raise)]),
    cause(WIRE, "volts too high", &[ArcLength(Lower)]),
    cause(WIRE, "stick-out too short", &[StickOut(Raise)]),
    cause(WIRE, "contact tip worn or too small", &[See(CheckContactTip)]),
    cause(WIRE, "burn-back time too long", &[See(ShortenBurnBackTime)]),
];

pub(super) const SPATTER: &[Row] = &[
    cause(WIRE, "volts too high: large drops", &[ArcLength(Lower)]),
    cause(WIRE, "volts too low: fine spatter, popping", &[ArcLength(Raise)]),
    cause(&[COVERED], "arc too long", &[ArcLength(Lower)]),
    cause(&[COVERED], "current too high", &[Amperes(Lower)]),
    cause(
        &[SOLID, METAL, CORED_GAS],
        "gas with too much carbon dioxide for the wire",
        &[See(UseRecommendedGas)],
    ),
    cause(WIRE, "stick-out too long", &[StickOut(Lower)]),
    cause(WIRE, "drag angle too large", &[Angle(Lower)]).printed(FUNDAMENTALS_P253),
    cause(OPEN_CONSUMABLE, "joint not clean", &[See(CleanJoint)]),
    cause(OPEN_CONSUMABLE, "wrong polarity", &[See(CheckPolarity)]),
];

pub(super) const ERRATIC_ARC: &[Row] = &[
    cause(WIRE, "contact tip worn", &[See(CheckContactTip)]),
    cause(&[SUBMERGED], "contact tip worn", &[See(CheckContactTip)]),
    cause(WIRE, "wire does not run freely: liner, rolls, bent wire", &[See(CheckFeedPath)]),
    cause(&[SUBMERGED], "wire does not run freely", &[See(CheckFeedPath)]),
    cause(&[TIG], "tungsten dirty or blunt", &[See(RegrindTungsten)]),
    cause(&[TIG], "arc too long", &[ArcLength(Lower)]),
    cause(&[COVERED], "electrode damp or coating damaged", &[See(UseDryConsumable)]),
    cause(&[COVERED], "arc blow", &[See(MoveWorkClamp), ArcLength(Lower)]),
    cause(WIRE, "arc blow", &[See(MoveWorkClamp)]),
    cause(&[SUBMERGED, TIG], "arc blow", &[See(MoveWorkClamp)]),
    cause(OPEN_CONSUMABLE, "loose lead or clamp", &[See(CheckWorkClamp)]),
    cause(&[SUBMERGED, TIG], "loose lead or clamp", &[See(CheckWorkClamp)]),
];

pub(super) const LONG_ARC: &[Row] = &[
    cause(&[COVERED], "arc longer than about one core diameter", &[ArcLength(Lower)]),
    cause(&[COVERED], "current too high", &[Amperes(Lower)]),
];

pub(super) const STICKING_ELECTRODE: &[Row] = &[
    cause(&[COVERED], "arc shorter than about one core diameter", &[ArcLength(Raise)]),
    cause(&[COVERED], "current too low", &[Amperes(Raise)]),
    cause(&[COVERED], "wrong polarity", &[See(CheckPolarity)]),
];
