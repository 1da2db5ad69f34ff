//! Flaws inside the weld: pores, slag, missing fusion, cracks, tungsten.

use super::{
    change::Direction::{Lower, Raise},
    row::{
        ALL, CORED_GAS, CORED_SELF, COVERED,
        Do::{Amperes, Angle, ArcLength, Gap, Gas, Preheat, See, Speed, StickOut, Weave},
        GAS_WIRE, METAL, Row, SLAG, SOLID, SUBMERGED, TIG, WIRE, cause,
    },
    upkeep::Upkeep::{
        AimAtLeadingEdge, ChangeTransferMode, CheckGasHoses, CleanBetweenRuns, CleanJoint,
        CleanNozzle, FillCrater, FlattenBead, LayConvexBead, LessenRestraint, MeasureGasAtNozzle,
        RegrindTungsten, RemovePrimer, ScreenDraught, StartWithoutTouch, UseDryConsumable,
        UseLargerTungsten, UseLowerHydrogen, UseRecommendedGas, WeldUpwards, WidenPreparation,
    },
};

const FUNDAMENTALS_P253: &str = "Welding Fundamentals, Goodheart-Willcox 2017, ch. 17, p. 253";
const HANDBOOK_P156: &str = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 156";

pub(super) const POROSITY: &[Row] = &[
    cause(&[CORED_GAS, SOLID, METAL, TIG], "gas blown away", &[See(ScreenDraught)]),
    cause(
        &[CORED_GAS, SOLID, METAL, TIG],
        "too little gas",
        &[See(MeasureGasAtNozzle), See(CleanNozzle), Gas(Raise)],
    ),
    cause(&[CORED_GAS, SOLID, METAL, TIG], "so much gas that it draws air in", &[Gas(Lower)]),
    cause(&[CORED_GAS, SOLID, METAL, TIG], "leak in the gas path", &[See(CheckGasHoses)]),
    cause(GAS_WIRE, "stick-out too long for the gas cover", &[StickOut(Lower)]),
    cause(&[CORED_SELF], "volts too high", &[ArcLength(Lower)]),
    cause(&[CORED_SELF], "stick-out too short", &[StickOut(Raise)]),
    cause(&[COVERED, TIG], "arc too long", &[ArcLength(Lower)]),
    cause(ALL, "oil, rust, paint or moisture on the joint", &[See(CleanJoint)]),
    cause(WIRE, "drag angle too large", &[Angle(Lower)]).printed(FUNDAMENTALS_P253),
    cause(
        &[COVERED, CORED_GAS, CORED_SELF, SUBMERGED],
        "damp electrode, wire or flux",
        &[See(UseDryConsumable)],
    ),
];

pub(super) const WORM_TRACKS: &[Row] = &[
    cause(&[CORED_GAS], "volts too high", &[ArcLength(Lower)]),
    cause(
        &[CORED_GAS],
        "stick-out too short: the wire is not preheated enough; gas is trapped as the slag freezes",
        &[StickOut(Raise)],
    )
    .printed(HANDBOOK_P156),
    cause(&[CORED_GAS], "damp wire", &[See(UseDryConsumable)]),
    cause(
        &[CORED_GAS],
        "primer, oil or moisture on the plate",
        &[See(RemovePrimer), See(CleanJoint)],
    ),
    cause(&[CORED_GAS], "travel too fast", &[Speed(Lower)]),
    cause(&[CORED_GAS], "gas that the wire is not made for", &[See(UseRecommendedGas)]),
];

pub(super) const SLAG_INCLUSION: &[Row] = &[
    cause(&[CORED_GAS, CORED_SELF], "travel too slow: the slag runs ahead", &[Speed(Raise)])
        .printed(FUNDAMENTALS_P253),
    cause(&[COVERED, SUBMERGED], "travel too slow: the slag runs ahead", &[Speed(Raise)]),
    cause(SLAG, "run before not cleaned", &[See(CleanBetweenRuns)]),
    cause(&[SUBMERGED], "run before not cleaned", &[See(CleanBetweenRuns)]),
    cause(SLAG, "convex bead or narrow groove", &[See(FlattenBead), See(WidenPreparation)]),
    cause(SLAG, "weave too wide", &[Weave(Lower)]),
    cause(SLAG, "pushed instead of dragged", &[Angle(Raise)]),
    cause(&[COVERED, CORED_GAS, CORED_SELF, SUBMERGED], "current too low", &[Amperes(Raise)]),
];

pub(super) const LACK_OF_FUSION: &[Row] = &[
    cause(ALL, "current too low", &[Amperes(Raise)]),
    cause(WIRE, "stick-out too long", &[StickOut(Lower)]).printed(FUNDAMENTALS_P253),
    cause(WIRE, "volts too low for the feed", &[ArcLength(Raise)]),
    cause(&[COVERED, TIG], "arc too long", &[ArcLength(Lower)]),
    cause(ALL, "arc on the pool, not on its leading edge", &[See(AimAtLeadingEdge)]),
    cause(ALL, "travel too slow: the pool runs ahead", &[Speed(Raise)]),
    cause(&[SOLID, METAL], "short-circuiting arc on thick plate", &[See(ChangeTransferMode)]),
    cause(&[COVERED, CORED_GAS, CORED_SELF, SOLID, METAL], "welded downwards", &[See(WeldUpwards)]),
];

pub(super) const LACK_OF_PENETRATION: &[Row] = &[
    cause(WIRE, "current too low", &[Amperes(Raise)]).printed(HANDBOOK_P156),
    cause(WIRE, "volts too high", &[ArcLength(Lower)]).printed(HANDBOOK_P156),
    cause(WIRE, "stick-out too long", &[StickOut(Lower)]).printed(HANDBOOK_P156),
    cause(&[COVERED, TIG, SUBMERGED], "current too low", &[Amperes(Raise)]),
    cause(&[COVERED, TIG], "arc too long", &[ArcLength(Lower)]),
    cause(ALL, "travel too fast", &[Speed(Lower)]),
    cause(
        ALL,
        "root gap too narrow or preparation too tight",
        &[Gap(Raise), See(WidenPreparation)],
    ),
];

pub(super) const CRATER_CRACK: &[Row] = &[
    cause(ALL, "crater not filled", &[See(FillCrater)]),
    cause(ALL, "concave bead, or deeper than wide", &[See(LayConvexBead), Speed(Lower)]),
    cause(ALL, "high restraint", &[See(LessenRestraint), Preheat(Raise)]),
    cause(ALL, "sulphur and phosphorus, from the plate or from dirt", &[See(CleanJoint)]),
];

pub(super) const HYDROGEN_CRACK: &[Row] = &[
    cause(
        &[COVERED, CORED_GAS, CORED_SELF, SUBMERGED],
        "damp electrode, wire or flux",
        &[See(UseDryConsumable)],
    ),
    cause(ALL, "oil, rust or moisture on the joint", &[See(CleanJoint)]),
    cause(ALL, "preheat too low for thickness and steel", &[Preheat(Raise)]),
    cause(
        &[COVERED, CORED_GAS, CORED_SELF, METAL, SUBMERGED],
        "consumable of too high a hydrogen class",
        &[See(UseLowerHydrogen)],
    ),
    cause(ALL, "high restraint", &[See(LessenRestraint)]),
];

pub(super) const TUNGSTEN_INCLUSION: &[Row] = &[
    cause(&[TIG], "tungsten touched the pool", &[See(RegrindTungsten), ArcLength(Raise)]),
    cause(&[TIG], "started by touching", &[See(StartWithoutTouch)]),
    cause(&[TIG], "current too high for the tungsten", &[Amperes(Lower), See(UseLargerTungsten)]),
];
