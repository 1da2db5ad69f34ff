//! One welded test piece.

use super::{BaseMetal, HeatTreatment, Joint, PostHeating, Run, Test};
use crate::{
    quantity::{Leg, OutsideDiameter, RunLength, Thickness, Throat},
    trade::{Position, Process, coded},
};

coded! {
    /// Form of a part.
    pub enum ProductForm: "product form" {
        /// Plate or sheet.
        Plate = "plate",
        /// Pipe or round tube.
        Pipe = "pipe",
        /// Hollow section that is not round; its diameter is the smaller side.
        HollowSection = "hollow-section",
        /// Rolled or welded section.
        Section = "section",
        /// Bar.
        Bar = "bar",
        /// Forging.
        Forging = "forging",
        /// Casting.
        Casting = "casting",
    }
}

coded! {
    /// One run or several, counted per side of the joint.
    pub enum Layering: "single-run or multi-run" {
        /// One run per side.
        SingleRun = "single-run",
        /// Several runs.
        MultiRun = "multi-run",
    }
}

/// One side of the joint.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Part {
    /// Form of the part.
    pub form: Option<ProductForm>,
    /// Thickness at the joint.
    pub thickness: Option<Thickness>,
    /// Outside diameter; smaller side of a hollow section; the branch's own where it is the branch.
    pub outside_diameter: Option<OutsideDiameter>,
    /// The metal.
    pub metal: BaseMetal,
}

/// Metal that one process deposited.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deposit {
    /// Process.
    pub process: Process,
    /// Deposited thickness, without excess metal.
    pub thickness: Option<Thickness>,
}

/// One welded coupon with its tests.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct TestPiece {
    /// Mark that tells the pieces of a record apart.
    pub mark: String,
    /// Parts joined: two, or three where permanent backing counts as one.
    pub parts: Vec<Part>,
    /// Joint and fit-up.
    pub joint: Joint,
    /// Position of the piece; for a pipe in several positions the one of the whole.
    pub position: Option<Position>,
    /// Whether the pipe was rotated under the arc.
    pub rotated: Option<bool>,
    /// One run per side or several.
    pub layering: Option<Layering>,
    /// What each process deposited, in the order of welding.
    pub deposits: Vec<Deposit>,
    /// Throat of a fillet.
    pub throat: Option<Throat>,
    /// Leg of a fillet, for codes that count by it.
    pub leg: Option<Leg>,
    /// Length of the weld.
    pub length: Option<RunLength>,
    /// Runs in the order of welding.
    pub runs: Vec<Run>,
    /// Heating after welding that lets hydrogen out.
    pub post_heating: Option<PostHeating>,
    /// Heat treatment after welding.
    pub heat_treatment: Option<HeatTreatment>,
    /// Tests and their results, repeated ones included.
    pub tests: Vec<Test>,
}
