//! Joint and fit-up of a test piece.

use crate::{
    quantity::{BevelAngle, Diameter, IncludedAngle, JointAngle, RootFace, RootGap, RootRadius},
    trade::coded,
};

coded! {
    /// Kind of weld, as codes tell them apart.
    pub enum WeldKind: "kind of weld" {
        /// Butt weld in a butt joint.
        Butt = "butt",
        /// Butt weld in a T-joint or corner.
        TeeButt = "tee-butt",
        /// Branch connection or set-on nozzle.
        Branch = "branch",
        /// Fillet weld.
        Fillet = "fillet",
        /// Buttering.
        Buttering = "buttering",
        /// Overlay.
        Overlay = "overlay",
    }
}

coded! {
    /// How deep a butt weld reaches.
    pub enum Penetration: "penetration" {
        /// Full penetration.
        Full = "full",
        /// Partial penetration.
        Partial = "partial",
    }
}

coded! {
    /// From which sides the joint is welded.
    pub enum Sides: "sides" {
        /// From one side.
        One = "one",
        /// From both sides.
        Both = "both",
    }
}

coded! {
    /// Shape of the groove.
    pub enum GrooveKind: "groove" {
        /// Square edges.
        Square = "square",
        /// Single V.
        SingleV = "single-v",
        /// Double V.
        DoubleV = "double-v",
        /// Single bevel.
        SingleBevel = "single-bevel",
        /// Double bevel.
        DoubleBevel = "double-bevel",
        /// Single U.
        SingleU = "single-u",
        /// Double U.
        DoubleU = "double-u",
        /// Single J.
        SingleJ = "single-j",
        /// Double J.
        DoubleJ = "double-j",
        /// Flare V, between two curved edges.
        FlareV = "flare-v",
        /// Flare bevel, between a curved and a flat edge.
        FlareBevel = "flare-bevel",
    }
}

coded! {
    /// What lies behind the root.
    pub enum Backing: "backing" {
        /// Nothing.
        None = "none",
        /// Metal that stays; it counts as a part of the joint.
        Permanent = "permanent",
        /// Metal or ceramic that is taken off.
        Removable = "removable",
        /// Weld metal of an earlier run.
        Weld = "weld",
        /// Flux.
        Flux = "flux",
    }
}

coded! {
    /// Material of a backing.
    pub enum BackingMaterial: "backing material" {
        /// Steel.
        Steel = "steel",
        /// Copper.
        Copper = "copper",
        /// Ceramic.
        Ceramic = "ceramic",
        /// Flux.
        Flux = "flux",
    }
}

coded! {
    /// How the root was removed before the second side.
    pub enum RootRemoval: "root removal" {
        /// Not at all.
        None = "none",
        /// Ground or machined.
        Mechanical = "mechanical",
        /// Gouged by arc or flame.
        Thermal = "thermal",
    }
}

/// Fit-up as measured.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct FitUp {
    /// Angle between the prepared edges.
    pub groove_angle: Option<IncludedAngle>,
    /// Angle of one prepared edge.
    pub bevel_angle: Option<BevelAngle>,
    /// Opening at the root.
    pub root_gap: Option<RootGap>,
    /// Unprepared edge at the root.
    pub root_face: Option<RootFace>,
    /// Radius at the root of a U or J.
    pub root_radius: Option<RootRadius>,
    /// Angle between the parts of a T, corner or branch.
    pub joint_angle: Option<JointAngle>,
}

/// The joint of a test piece.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Joint {
    /// Kind of weld.
    pub weld: Option<WeldKind>,
    /// Full or partial penetration; for butt welds.
    pub penetration: Option<Penetration>,
    /// From one side or both.
    pub sides: Option<Sides>,
    /// Shape of the groove; none for a fillet.
    pub groove: Option<GrooveKind>,
    /// Backing.
    pub backing: Option<Backing>,
    /// Material of the backing.
    pub backing_material: Option<BackingMaterial>,
    /// Root removal before the second side.
    pub root_removal: Option<RootRemoval>,
    /// Diameter of the gouging carbon or burr, where the record says so.
    pub gouging_tool: Option<Diameter>,
    /// How the edges were prepared and cleaned, in words.
    pub preparation: Option<String>,
    /// How the parts were held and tacked, in words.
    pub assembly: Option<String>,
    /// Fit-up as measured.
    pub fit_up: FitUp,
    /// Whether a pipe piece had the restriction ring of 6GR.
    pub restriction_ring: Option<bool>,
}
