//! Symptoms of the arc and of the wire.

use super::{
    change::Direction::{Lower, Raise},
    row::{
        ALL, BUT_COVERED, CORED_GAS, COVERED,
        Do::{Amperes, Angle, ArcLength, Feed, See, StickOut},
        FED, METAL, OPEN_CONSUMABLE, Row, SOLID, TIG, WIRE, cause,
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
    cause(FED, "contact tip worn", &[See(CheckContactTip)]),
    cause(FED, "wire does not run freely: liner, rolls, bent wire", &[See(CheckFeedPath)]),
    cause(WIRE, "volts too high: the arc loses its focus", &[ArcLength(Lower)]),
    cause(&[TIG], "tungsten dirty or blunt", &[See(RegrindTungsten)]),
    cause(&[TIG], "arc too long", &[ArcLength(Lower)]),
    cause(&[COVERED], "electrode damp or coating damaged", &[See(UseDryConsumable)]),
    cause(&[COVERED], "arc blow", &[See(MoveWorkClamp), ArcLength(Lower)]),
    cause(BUT_COVERED, "arc blow", &[See(MoveWorkClamp)]),
    cause(ALL, "loose lead or clamp", &[See(CheckWorkClamp)]),
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
