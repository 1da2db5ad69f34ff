//! U and J preparations from both sides.

use super::{
    JointError, SideSection,
    depth::sides_fit,
    dimension::mm,
    u_and_j::{Wall, wall},
};
use crate::{
    quantity::{Area, BevelAngle, FaceWidth, PreparationDepth, RootGap, RootRadius, Thickness},
    trade::formula,
};

formula! {
    /// Cross-section of a double U or double J preparation.
    pub const DOUBLE_U_GROOVE {
        name: "double-u-groove",
        equation: "A = g T + n (A1 + A2), n = 2 for double U, 1 for double J; A1, A2: A_arc + A_wall as \
                   in u-groove, each with the depth, radius and angle of its side; root face \
                   f = T - d1 - d2; face width w = g + n (x + H tan(beta)); mm, mm2",
        source: "areas of circular sections, rectangles and triangles; agrees with polygon geometry",
        validity: "each d at least r (1 - sin(beta)); the arcs start level at the root face; filler \
                   area; metal gouged out and laid again is not counted",
        confidence: Derived,
    }
}

/// One side of a double U or double J.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoundSide {
    /// Depth d of this side.
    pub depth: PreparationDepth,
    /// Root radius r.
    pub radius: RootRadius,
    /// Bevel angle beta of each wall.
    pub angle: BevelAngle,
}

/// A U preparation from both sides; the root face is what both depths leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoubleU {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Side welded first.
    pub near: RoundSide,
    /// Other side.
    pub far: RoundSide,
}

/// A J preparation from both sides: one square edge; the root face is what both depths leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoubleJ {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Side welded first.
    pub near: RoundSide,
    /// Other side.
    pub far: RoundSide,
}

impl RoundSide {
    fn wall(&self) -> Result<Wall, JointError> {
        wall(self.depth, self.radius, self.angle)
    }

    /// Width of the face with this many prepared edges.
    fn face_width(&self, gap: RootGap, edges: f64) -> Result<FaceWidth, JointError> {
        Ok(FaceWidth::computed(mm(gap)? + edges * self.wall()?.width)?)
    }
}

/// Cross-section of both sides with this many prepared edges on each.
fn area(
    (thickness, gap): (Thickness, RootGap),
    (near, far): (&RoundSide, &RoundSide),
    edges: f64,
) -> Result<Area, JointError> {
    sides_fit(thickness, near.depth, far.depth)?;
    let sides = near.wall()?.area + far.wall()?.area;
    Ok(Area::computed(mm(gap)? * mm(thickness)? + edges * sides)?)
}

impl DoubleU {
    /// Cross-section of both sides, [`DOUBLE_U_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        area((self.thickness, self.gap), (&self.near, &self.far), 2.0)
    }

    /// Width of the face on the side welded first.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        self.near.face_width(self.gap, 2.0)
    }

    /// Width of the face on the other side.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn far_face_width(&self) -> Result<FaceWidth, JointError> {
        self.far.face_width(self.gap, 2.0)
    }

    /// The far side, with its part of the gap.
    pub(super) fn far_preparation(&self) -> Result<SideSection, JointError> {
        SideSection::prepared(self.gap, self.far.depth, 2.0 * self.far.wall()?.area)
    }
}

impl DoubleJ {
    /// Cross-section of both sides, [`DOUBLE_U_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        area((self.thickness, self.gap), (&self.near, &self.far), 1.0)
    }

    /// Width of the face on the side welded first.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        self.near.face_width(self.gap, 1.0)
    }

    /// Width of the face on the other side.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn far_face_width(&self) -> Result<FaceWidth, JointError> {
        self.far.face_width(self.gap, 1.0)
    }

    /// The far side, with its part of the gap.
    pub(super) fn far_preparation(&self) -> Result<SideSection, JointError> {
        SideSection::prepared(self.gap, self.far.depth, self.far.wall()?.area)
    }
}
