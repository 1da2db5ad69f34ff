//! Why a joint has no cross-section.

use crate::quantity::QuantityError;

/// Each variant says what was wrong and what would be right.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum JointError {
    /// A dimension below zero.
    #[error("no {dimension} is below zero")]
    Negative {
        /// Trade name of the dimension.
        dimension: &'static str,
    },
    /// An angle that encloses no finite joint.
    #[error("the {angle} of a joint lies between {low} and {high} degrees")]
    Angle {
        /// Trade name of the angle.
        angle: &'static str,
        /// Lower end.
        low: f64,
        /// Upper end, not included.
        high: f64,
    },
    /// The root face is higher than the plate is thick.
    #[error("the root face is higher than the plate is thick")]
    RootFaceAbovePlate,
    /// The preparations of both sides overlap.
    #[error("the depths of both sides together exceed the plate thickness")]
    SidesOverlap,
    /// The round bottom does not fit into the preparation.
    #[error(
        "the preparation is {depth_mm:.4} mm deep, but its root radius alone needs \
         r * (1 - sin beta) = {needed_mm:.4} mm"
    )]
    RadiusTooLarge {
        /// Depth of the preparation in mm.
        depth_mm: f64,
        /// Least depth for this radius and angle in mm.
        needed_mm: f64,
    },
    /// A convex face higher than a half circle over its width.
    #[error("a convex face is at most half as high as it is wide")]
    TooConvex,
    /// A concave face deeper than the throat of the flat fillet.
    #[error("the hollow of a concave face is less deep than the throat of the flat fillet")]
    TooConcave,
    /// A cap on the far side of a joint that is prepared on one side only.
    #[error("a joint prepared on one side has no far face to cap; give a root reinforcement")]
    NoFarFace,
    /// A gouge that leaves nothing of what was laid from the near side.
    #[error("the gouge, with the preparation it lies in, is deeper than the plate is thick")]
    GougeThroughPlate,
    /// The result is no number.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}
