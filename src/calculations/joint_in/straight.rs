//! Preparations with straight walls as sent: square, V, bevel.

use crate::{
    quantity::{BevelAngle, IncludedAngle, PreparationDepth, RootFace, RootGap, Thickness},
    trade::{
        BevelSide, DoubleBevel, DoubleVee, Joint, SingleBevel, SingleVee, Square, VeeOnBacking,
        VeeSide,
    },
    wire::wire_object,
};

wire_object! {
    /// A square butt joint.
    pub struct SquareIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
    }
}

wire_object! {
    /// A V from one side.
    pub struct VeeIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Root face.
        pub face: RootFace,
        /// Included angle.
        pub angle: IncludedAngle,
    }
}

wire_object! {
    /// A V on a backing, without root face.
    pub struct VeeOnBackingIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Included angle.
        pub angle: IncludedAngle,
    }
}

wire_object! {
    /// One side of a double V.
    pub struct VeeSideIn {
        /// Depth of this side.
        pub depth: PreparationDepth,
        /// Included angle of this side.
        pub angle: IncludedAngle,
    }
}

wire_object! {
    /// A V from both sides; the root face is what both depths leave.
    pub struct DoubleVeeIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Side welded first.
        pub near: VeeSideIn,
        /// Other side.
        pub far: VeeSideIn,
    }
}

wire_object! {
    /// A bevel from one side: one edge square.
    pub struct BevelIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Root face.
        pub face: RootFace,
        /// Bevel angle of the prepared edge.
        pub angle: BevelAngle,
    }
}

wire_object! {
    /// One side of a double bevel.
    pub struct BevelSideIn {
        /// Depth of this side.
        pub depth: PreparationDepth,
        /// Bevel angle of this side.
        pub angle: BevelAngle,
    }
}

wire_object! {
    /// A bevel from both sides (K); the root face is what both depths leave.
    pub struct DoubleBevelIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Side welded first.
        pub near: BevelSideIn,
        /// Other side.
        pub far: BevelSideIn,
    }
}

impl SquareIn {
    pub(super) const fn joint(&self) -> Joint {
        Joint::Square(Square { thickness: self.thickness, gap: self.gap })
    }
}

impl VeeIn {
    pub(super) const fn joint(&self) -> Joint {
        let Self { thickness, gap, face, angle } = *self;
        Joint::SingleVee(SingleVee { thickness, gap, face, angle })
    }
}

impl VeeOnBackingIn {
    pub(super) const fn joint(&self) -> Joint {
        let Self { thickness, gap, angle } = *self;
        Joint::VeeOnBacking(VeeOnBacking { thickness, gap, angle })
    }
}

impl DoubleVeeIn {
    pub(super) const fn joint(&self) -> Joint {
        let near = VeeSide { depth: self.near.depth, angle: self.near.angle };
        let far = VeeSide { depth: self.far.depth, angle: self.far.angle };
        Joint::DoubleVee(DoubleVee { thickness: self.thickness, gap: self.gap, near, far })
    }
}

impl BevelIn {
    pub(super) const fn joint(&self) -> Joint {
        let Self { thickness, gap, face, angle } = *self;
        Joint::SingleBevel(SingleBevel { thickness, gap, face, angle })
    }
}

impl DoubleBevelIn {
    pub(super) const fn joint(&self) -> Joint {
        let near = BevelSide { depth: self.near.depth, angle: self.near.angle };
        let far = BevelSide { depth: self.far.depth, angle: self.far.angle };
        Joint::DoubleBevel(DoubleBevel { thickness: self.thickness, gap: self.gap, near, far })
    }
}
