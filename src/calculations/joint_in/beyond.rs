//! What is laid beyond the joint itself: caps, root reinforcement, gouged groove.

use crate::{
    quantity::{BevelAngle, EdgeOverlap, FaceWidth, PreparationDepth, Reinforcement, RootRadius},
    trade::{BackGouge, Cap, RootReinforcement},
    wire::{Errors, Place, wire_object},
};

wire_object! {
    /// Metal above the face of a groove.
    pub struct CapIn {
        /// Height above the plate.
        pub height: Reinforcement,
        /// How far it reaches past each edge.
        pub overlap: EdgeOverlap,
    }
}

wire_object! {
    /// Metal below the root.
    pub struct RootReinforcementIn {
        /// Width.
        pub width: FaceWidth,
        /// Height below the plate.
        pub height: Reinforcement,
    }
}

wire_object! {
    /// A groove gouged out of the back and filled again: its depth, and either its width (parabola) or
    /// radius and wall angle.
    pub struct GougeIn {
        /// Depth; in a joint prepared on both sides, from the bottom of the far preparation.
        pub depth: PreparationDepth,
        /// Width at the surface.
        pub width: Option<FaceWidth>,
        /// Radius of the bottom.
        pub radius: Option<RootRadius>,
        /// Angle of each wall.
        pub angle: Option<BevelAngle>,
    }
}

impl CapIn {
    pub(super) const fn cap(&self) -> Cap {
        Cap { height: self.height, overlap: self.overlap }
    }
}

impl RootReinforcementIn {
    pub(super) const fn root(&self) -> RootReinforcement {
        RootReinforcement { width: self.width, height: self.height }
    }
}

impl GougeIn {
    pub(super) fn gouge(&self, at: Place<'_>, errors: &mut Errors) -> Option<BackGouge> {
        let depth = self.depth;
        match (self.width, self.radius, self.angle) {
            (Some(width), None, None) => Some(BackGouge::Parabola { width, depth }),
            (None, Some(radius), Some(angle)) => Some(BackGouge::Round { depth, radius, angle }),
            _ => errors.note(at, "a gouge has a width, or a radius and an angle"),
        }
    }
}
