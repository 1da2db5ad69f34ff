//! Remedies that are no setting: cleaning, checking, another consumable or preparation.

use crate::trade::coded;

coded! {
    /// Something to do that is no setting.
    pub enum Upkeep: "upkeep" {
        /// Aim the arc at the leading edge of the pool.
        AimAtLeadingEdge = "aim-at-leading-edge",
        /// Aim between both parts, so that neither is washed away.
        AimBetweenParts = "aim-between-parts",
        /// Pause at each toe of the weave.
        PauseAtToes = "pause-at-toes",
        /// Measure the gas at the nozzle.
        MeasureGasAtNozzle = "measure-gas-at-nozzle",
        /// Screen the arc from draughts.
        ScreenDraught = "screen-draught",
        /// Clean the gas nozzle of spatter.
        CleanNozzle = "clean-nozzle",
        /// Look for leaks in the gas hoses.
        CheckGasHoses = "check-gas-hoses",
        /// Let gas flow on after the arc.
        LongerPostFlow = "longer-post-flow",
        /// Use the gas that the consumable is made for.
        UseRecommendedGas = "use-recommended-gas",
        /// Clean the joint of oil, rust, paint and moisture.
        CleanJoint = "clean-joint",
        /// Take the primer off.
        RemovePrimer = "remove-primer",
        /// Use a dry consumable: bake it, or take one from a sealed pack.
        UseDryConsumable = "use-dry-consumable",
        /// Use a consumable of a lower hydrogen class.
        UseLowerHydrogen = "use-lower-hydrogen",
        /// Take the slag off between runs.
        CleanBetweenRuns = "clean-between-runs",
        /// Grind high beads flat before the next run.
        FlattenBead = "flatten-bead",
        /// Open the preparation.
        WidenPreparation = "widen-preparation",
        /// Use another transfer mode or process than a short-circuiting arc.
        ChangeTransferMode = "change-transfer-mode",
        /// Weld upwards.
        WeldUpwards = "weld-upwards",
        /// Check polarity.
        CheckPolarity = "check-polarity",
        /// Clean and tighten the work clamp.
        CheckWorkClamp = "check-work-clamp",
        /// Move the work clamp, against arc blow.
        MoveWorkClamp = "move-work-clamp",
        /// Check the contact tip for wear and size.
        CheckContactTip = "check-contact-tip",
        /// Check liner, drive rolls and brake.
        CheckFeedPath = "check-feed-path",
        /// Adjust the inductance of the power source.
        AdjustInductance = "adjust-inductance",
        /// Shorten the burn-back time of the power source.
        ShortenBurnBackTime = "shorten-burn-back-time",
        /// Fill the crater before breaking the arc.
        FillCrater = "fill-crater",
        /// Lay a flat to slightly convex bead.
        LayConvexBead = "lay-convex-bead",
        /// Lessen restraint by sequence and fit-up.
        LessenRestraint = "lessen-restraint",
        /// Regrind the tungsten and cut out what broke off.
        RegrindTungsten = "regrind-tungsten",
        /// Use a larger tungsten.
        UseLargerTungsten = "use-larger-tungsten",
        /// Start without touching the work.
        StartWithoutTouch = "start-without-touch",
    }
}

impl Upkeep {
    /// Whether it changes consumable, gas, transfer, direction, preparation or the like, which a procedure
    /// may not allow.
    #[must_use]
    pub const fn may_leave_procedure(self) -> bool {
        matches!(
            self,
            Self::UseRecommendedGas
                | Self::UseLowerHydrogen
                | Self::WidenPreparation
                | Self::ChangeTransferMode
                | Self::WeldUpwards
                | Self::UseLargerTungsten
                | Self::StartWithoutTouch
                | Self::PauseAtToes
                | Self::LessenRestraint
        )
    }

    /// What to do, in a sentence.
    #[must_use]
    pub const fn instruction(self) -> &'static str {
        match self {
            Self::AimAtLeadingEdge => "Aim the arc at the leading edge of the pool.",
            Self::AimBetweenParts => "Aim between both parts, so that neither is washed away.",
            Self::PauseAtToes => "Pause at each toe of the weave.",
            Self::MeasureGasAtNozzle => "Measure the gas at the nozzle.",
            Self::ScreenDraught => "Screen the arc from draughts.",
            Self::CleanNozzle => "Clean the gas nozzle of spatter.",
            Self::CheckGasHoses => "Look for leaks in the gas hoses.",
            Self::LongerPostFlow => "Let gas flow on after the arc.",
            Self::UseRecommendedGas => "Use the gas that the consumable is made for.",
            Self::CleanJoint => "Clean the joint of oil, rust, paint and moisture.",
            Self::RemovePrimer => "Take the primer off.",
            Self::UseDryConsumable => {
                "Use a dry consumable: bake it, or take one from a sealed pack."
            }
            Self::UseLowerHydrogen => "Use a consumable of a lower hydrogen class.",
            Self::CleanBetweenRuns => "Take the slag off between runs.",
            Self::FlattenBead => "Grind high beads flat before the next run.",
            Self::WidenPreparation => "Open the preparation.",
            Self::ChangeTransferMode => {
                "Use another transfer mode or process than a short-circuiting arc."
            }
            Self::WeldUpwards => "Weld upwards.",
            Self::CheckPolarity => "Check polarity.",
            Self::CheckWorkClamp => "Clean and tighten the work clamp.",
            Self::MoveWorkClamp => "Move the work clamp, against arc blow.",
            Self::CheckContactTip => "Check the contact tip for wear and size.",
            Self::CheckFeedPath => "Check liner, drive rolls and brake.",
            Self::AdjustInductance => "Adjust the inductance of the power source.",
            Self::ShortenBurnBackTime => "Shorten the burn-back time of the power source.",
            Self::FillCrater => "Fill the crater before breaking the arc.",
            Self::LayConvexBead => "Lay a flat to slightly convex bead.",
            Self::LessenRestraint => "Lessen restraint by sequence and fit-up.",
            Self::RegrindTungsten => "Regrind the tungsten and cut out what broke off.",
            Self::UseLargerTungsten => "Use a larger tungsten.",
            Self::StartWithoutTouch => "Start without touching the work.",
        }
    }
}
