//! Bevel and double bevel (K) preparations: one square edge, one prepared.

use super::{
    JointError, SideSection,
    depth::{depth_above_face, sides_fit},
    dimension::{bevel, mm},
};
use crate::{
    quantity::{Area, BevelAngle, FaceWidth, PreparationDepth, RootFace, RootGap, Thickness},
    trade::formula,
};

formula! {
    /// Cross-section of a bevel preparation.
    pub const BEVEL_GROOVE {
        name: "bevel-groove",
        equation: "A = g T + d^2 tan(beta) / 2, d = T - f; face width w = g + d tan(beta); mm, mm2",
        source: "areas of a rectangle and a triangle",
        validity: "one edge square; filler area: penetration is left out",
        confidence: Derived,
    }
}

formula! {
    /// Cross-section of a double bevel preparation.
    pub const DOUBLE_BEVEL_GROOVE {
        name: "double-bevel-groove",
        equation: "A = g T + (d1^2 tan(beta1) + d2^2 tan(beta2)) / 2; root face f = T - d1 - d2; \
                   mm, mm2",
        source: "areas of a rectangle and two triangles",
        validity: "one edge square; filler area; metal gouged out and laid again is not counted",
        confidence: Derived,
    }
}

/// A bevel preparation from one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingleBevel {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Root face f.
    pub face: RootFace,
    /// Bevel angle beta.
    pub angle: BevelAngle,
}

/// One side of a double bevel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BevelSide {
    /// Depth d of this side.
    pub depth: PreparationDepth,
    /// Bevel angle of this side.
    pub angle: BevelAngle,
}

/// A bevel preparation from both sides; the root face is what both depths leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoubleBevel {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Side welded first.
    pub near: BevelSide,
    /// Other side.
    pub far: BevelSide,
}

impl SingleBevel {
    /// Cross-section, [`BEVEL_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        let prepared = self.side()?.prepared()?;
        Ok(Area::computed(mm(self.gap)? * mm(self.thickness)? + prepared)?)
    }

    /// Width of the face.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        self.side()?.face_width(self.gap)
    }

    fn side(&self) -> Result<BevelSide, JointError> {
        let depth = depth_above_face(self.thickness, self.face)?;
        Ok(BevelSide { depth, angle: self.angle })
    }
}

impl BevelSide {
    /// Area of the triangle in mm².
    fn prepared(&self) -> Result<f64, JointError> {
        Ok(mm(self.depth)?.powi(2) * bevel(self.angle)?.tan() / 2.0)
    }

    fn face_width(&self, gap: RootGap) -> Result<FaceWidth, JointError> {
        let prepared = mm(self.depth)? * bevel(self.angle)?.tan();
        Ok(FaceWidth::computed(mm(gap)? + prepared)?)
    }
}

impl DoubleBevel {
    /// Cross-section of both sides, [`DOUBLE_BEVEL_GROOVE`].
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
