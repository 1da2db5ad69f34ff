//! U and J preparations: a round bottom, then a straight wall.

use super::{
    JointError,
    depth::depth_above_face,
    dimension::{bevel, mm},
};
use crate::{
    quantity::{
        Area, BevelAngle, FaceWidth, PreparationDepth, RootFace, RootGap, RootRadius, Thickness,
    },
    trade::formula,
};

formula! {
    /// Cross-section of a U or J preparation.
    pub const U_GROOVE {
        name: "u-groove",
        equation: "A = g T + n (A_arc + A_wall), n = 2 for U, 1 for J; d = T - f, \
                   x = r cos(beta), y = r (1 - sin(beta)), H = d - y, \
                   A_arc = r^2 / 2 ((pi / 2 - beta) - sin(beta) cos(beta)), \
                   A_wall = x H + H^2 tan(beta) / 2; face width w = g + n (x + H tan(beta)); mm, mm2",
        source: "areas of a circular section, a rectangle and a triangle; agrees with numerical \
                 integration",
        validity: "d at least r (1 - sin(beta)); the arc starts level at the edge of the root face; \
                   filler area: penetration is left out",
        confidence: Derived,
    }
}

/// A U preparation from one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingleU {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Root face f.
    pub face: RootFace,
    /// Root radius r.
    pub radius: RootRadius,
    /// Bevel angle beta of each wall.
    pub angle: BevelAngle,
}

/// A J preparation from one side: one square edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SingleJ {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
    /// Root face f.
    pub face: RootFace,
    /// Root radius r.
    pub radius: RootRadius,
    /// Bevel angle beta of the wall.
    pub angle: BevelAngle,
}

/// Area and width of one round-bottomed wall, in mm² and mm.
pub(super) struct Wall {
    pub(super) area: f64,
    pub(super) width: f64,
}

/// One wall of a U, from its depth, radius and angle.
///
/// # Errors
/// [`JointError::RadiusTooLarge`] where the arc is deeper than the preparation.
pub(super) fn wall(
    depth: PreparationDepth,
    radius: RootRadius,
    angle: BevelAngle,
) -> Result<Wall, JointError> {
    let (d, r, beta) = (mm(depth)?, mm(radius)?, bevel(angle)?);
    let (sin, cos) = beta.sin_cos();
    let (x, y) = (r * cos, r * (1.0 - sin));
    if !PreparationDepth::computed(y)?.at_most(depth) {
        return Err(JointError::RadiusTooLarge { depth_mm: d, needed_mm: y });
    }
    let straight = (d - y).max(0.0);
    let arc = r * r / 2.0 * ((std::f64::consts::FRAC_PI_2 - beta) - sin * cos);
    let area = arc + x * straight + straight * straight * beta.tan() / 2.0;
    Ok(Wall { area, width: x + straight * beta.tan() })
}

impl SingleU {
    /// Cross-section, [`U_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        let gap = mm(self.gap)? * mm(self.thickness)?;
        Ok(Area::computed(gap + 2.0 * self.wall()?.area)?)
    }

    /// Width of the face.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        Ok(FaceWidth::computed(mm(self.gap)? + 2.0 * self.wall()?.width)?)
    }

    fn wall(&self) -> Result<Wall, JointError> {
        wall(depth_above_face(self.thickness, self.face)?, self.radius, self.angle)
    }
}

impl SingleJ {
    /// Cross-section, [`U_GROOVE`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        let gap = mm(self.gap)? * mm(self.thickness)?;
        Ok(Area::computed(gap + self.wall()?.area)?)
    }

    /// Width of the face.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        Ok(FaceWidth::computed(mm(self.gap)? + self.wall()?.width)?)
    }

    fn wall(&self) -> Result<Wall, JointError> {
        wall(depth_above_face(self.thickness, self.face)?, self.radius, self.angle)
    }
}
