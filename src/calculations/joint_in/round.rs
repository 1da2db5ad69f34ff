//! Preparations with a round bottom as sent: U and J, from one side and from both.

use crate::{
    quantity::{BevelAngle, PreparationDepth, RootFace, RootGap, RootRadius, Thickness},
    trade::{DoubleJ, DoubleU, Joint, RoundSide, SingleJ, SingleU},
    wire::wire_object,
};

wire_object! {
    /// A U or J from one side.
    pub struct RoundRootIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Root face.
        pub face: RootFace,
        /// Root radius.
        pub radius: RootRadius,
        /// Bevel angle of each prepared wall.
        pub angle: BevelAngle,
    }
}

wire_object! {
    /// One side of a double U or double J.
    pub struct RoundSideIn {
        /// Depth of this side.
        pub depth: PreparationDepth,
        /// Root radius.
        pub radius: RootRadius,
        /// Bevel angle of each prepared wall.
        pub angle: BevelAngle,
    }
}

wire_object! {
    /// A U or J from both sides; the root face is what both depths leave.
    pub struct DoubleRoundRootIn {
        /// Plate thickness.
        pub thickness: Thickness,
        /// Root gap.
        pub gap: RootGap,
        /// Side welded first.
        pub near: RoundSideIn,
        /// Other side.
        pub far: RoundSideIn,
    }
}

impl RoundRootIn {
    pub(super) const fn u(&self) -> Joint {
        let Self { thickness, gap, face, radius, angle } = *self;
        Joint::SingleU(SingleU { thickness, gap, face, radius, angle })
    }

    pub(super) const fn j(&self) -> Joint {
        let Self { thickness, gap, face, radius, angle } = *self;
        Joint::SingleJ(SingleJ { thickness, gap, face, radius, angle })
    }
}

impl RoundSideIn {
    const fn side(&self) -> RoundSide {
        let Self { depth, radius, angle } = *self;
        RoundSide { depth, radius, angle }
    }
}

impl DoubleRoundRootIn {
    pub(super) const fn u(&self) -> Joint {
        let (near, far) = (self.near.side(), self.far.side());
        Joint::DoubleU(DoubleU { thickness: self.thickness, gap: self.gap, near, far })
    }

    pub(super) const fn j(&self) -> Joint {
        let (near, far) = (self.near.side(), self.far.side());
        Joint::DoubleJ(DoubleJ { thickness: self.thickness, gap: self.gap, near, far })
    }
}
