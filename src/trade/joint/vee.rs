//! V and double V preparations, with and without backing.

use super::{
    JointError, SideSection,
    depth::{depth_above_face, sides_fit},
    dimension::{half_tangent, mm},
};
use crate::{
    quantity::{Area, FaceWidth, IncludedAngle, PreparationDepth, RootFace, RootGap, Thickness},
    trade::formula,
};

formula! {
    /// Cross-section of a V preparation.
    pub const VEE_GROOVE {
        name: "vee-groove",
        equation: "A = g T + d^2 tan(alpha / 2), d = T - f; face width w = g + 2 d tan(alpha / 2); \
                   mm, mm2",
        source: "areas of a rectangle and two triangles",
        validity: "symmetric V; filler area: penetration is left out; on backing f = 0",
        confidence: Derived,
    }
}

formula! {
    /// Cross-section of a double V preparation.
    pub const DOUBLE_VEE_GROOVE {
        name: "double-vee-groove",
        equation: "A = g T + d1^2 tan(alpha1 / 2) + d2^2 tan(alpha2 / 2); root face f = T - d1 - d2; \
                   mm, mm2",
        source: "areas of a rectangle and four triangles",
        validity: "each V symmetric; filler area; metal gouged out and laid again is not counted",
        confidence: Derived,
    }
}

/// A V preparation from one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingleVee {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Root face f.
    pub face: RootFace,
    /// Included angle alpha.
    pub angle: IncludedAngle,
}

/// A V preparation on a backing: no root face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VeeOnBacking {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Included angle alpha.
    pub angle: IncludedAngle,
}

/// One side of a double V.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VeeSide {
    /// Depth d of this side.
    pub depth: PreparationDepth,
    /// Included angle of this side.
    pub angle: IncludedAngle,
}

/// A V preparation from both sides; the root face is what both depths leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoubleVee {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Side welded first.
    pub near: VeeSide,
    /// Other side.
    pub far: VeeSide,
}

impl SingleVee {
    /// Cross-section, [`VEE_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        let side = VeeSide { depth: self.depth()?, angle: self.angle };
        Ok(Area::computed(mm(self.gap)? * mm(self.thickness)? + side.prepared()?)?)
    }

    /// Width of the face.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        VeeSide { depth: self.depth()?, angle: self.angle }.face_width(self.gap)
    }

    fn depth(&self) -> Result<PreparationDepth, JointError> {
        depth_above_face(self.thickness, self.face)
    }
}

impl VeeOnBacking {
    /// Cross-section, [`VEE_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        self.without_face()?.area()
    }

    /// Width of the face.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        self.without_face()?.face_width()
    }

    fn without_face(&self) -> Result<SingleVee, JointError> {
        let Self { thickness, gap, angle } = *self;
        Ok(SingleVee { thickness, gap, face: RootFace::computed(0.0)?, angle })
    }
}

impl VeeSide {
    /// Area of both triangles in mm².
    fn prepared(&self) -> Result<f64, JointError> {
        Ok(mm(self.depth)?.powi(2) * half_tangent(self.angle)?)
    }

    fn face_width(&self, gap: RootGap) -> Result<FaceWidth, JointError> {
        let prepared = 2.0 * mm(self.depth)? * half_tangent(self.angle)?;
        Ok(FaceWidth::computed(mm(gap)? + prepared)?)
    }
}

impl DoubleVee {
    /// Cross-section of both sides, [`DOUBLE_VEE_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        sides_fit(self.thickness, self.near.depth, self.far.depth)?;
        let sides = self.near.prepared()? + self.far.prepared()?;
        Ok(Area::computed(mm(self.gap)? * mm(self.thickness)? + sides)?)
    }

    /// Width of the face on the side welded first.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        self.near.face_width(self.gap)
    }

    /// Width of the face on the other side.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn far_face_width(&self) -> Result<FaceWidth, JointError> {
        self.far.face_width(self.gap)
    }

    /// The far side, with its part of the gap.
    pub(super) fn far_preparation(&self) -> Result<SideSection, JointError> {
        SideSection::prepared(self.gap, self.far.depth, self.far.prepared()?)
    }
}
