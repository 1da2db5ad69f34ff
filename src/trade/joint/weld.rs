//! All weld metal of a joint: groove or fillet, cap, root reinforcement, gouged groove.

use super::{Joint, JointError, dimension::mm, face::face_parabola, u_and_j::wall};
use crate::{
    quantity::{
        Area, BevelAngle, EdgeOverlap, FaceWidth, PreparationDepth, Reinforcement, RootRadius,
    },
    trade::formula,
};

formula! {
    /// Cross-section of a cap.
    pub const CAP_SECTION {
        name: "cap-section",
        equation: "A = 2 / 3 * (w + 2 s) * h; w face width of the groove, s overlap past each edge, \
                   h height; mm, mm2",
        source: "area of a parabolic segment; a filler-metal handbook, Calculations section, table of \
                 weights per foot",
        validity: "low caps of usual shape",
        confidence: TextRead,
    }
}

formula! {
    /// Cross-section of a gouged groove that is filled again.
    pub const GOUGE_SECTION {
        name: "gouge-section",
        equation: "parabola: A = 2 / 3 * w * d; round bottom: A = 2 (A_arc + A_wall) as in u-groove",
        source: "area of a parabolic segment, or of a U without gap",
        validity: "all of it is laid again, weld metal gouged out included",
        confidence: Derived,
    }
}

/// Metal above the face of a groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cap {
    /// Height above the plate.
    pub height: Reinforcement,
    /// How far it reaches past each edge.
    pub overlap: EdgeOverlap,
}

/// Metal below the root.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RootReinforcement {
    /// Width.
    pub width: FaceWidth,
    /// Height below the plate.
    pub height: Reinforcement,
}

/// A groove gouged out of the back, filled again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BackGouge {
    /// Measured by width and depth only.
    Parabola {
        /// Width at the surface.
        width: FaceWidth,
        /// Depth.
        depth: PreparationDepth,
    },
    /// With a known radius and wall angle.
    Round {
        /// Depth.
        depth: PreparationDepth,
        /// Radius of the bottom.
        radius: RootRadius,
        /// Angle of each wall.
        angle: BevelAngle,
    },
}

/// Everything that is laid in a joint. Absent parts are not laid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldSection {
    /// The joint itself.
    pub joint: Joint,
    /// Cap on the side welded first.
    pub cap: Option<Cap>,
    /// Cap on the other side of a joint prepared on both.
    pub far_cap: Option<Cap>,
    /// Root reinforcement.
    pub root: Option<RootReinforcement>,
    /// Gouged groove, filled again.
    pub gouge: Option<BackGouge>,
}

impl WeldSection {
    /// The joint alone.
    #[must_use]
    #[expect(clippy::large_types_passed_by_value, reason = "the joint is moved in")]
    pub const fn bare(joint: Joint) -> Self {
        Self { joint, cap: None, far_cap: None, root: None, gouge: None }
    }

    /// Cross-section of all weld metal.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint; [`JointError::NoFarFace`] for a far cap
    /// on a joint prepared on one side.
    pub fn area(&self) -> Result<Area, JointError> {
        let mut total = self.joint.area()?.mm2();
        if let Some(cap) = &self.cap {
            total += cap.area(self.joint.face_width()?)?.mm2();
        }
        if let Some(cap) = &self.far_cap {
            let width = self.joint.far_face_width()?.ok_or(JointError::NoFarFace)?;
            total += cap.area(width)?.mm2();
        }
        if let Some(root) = &self.root {
            total += face_parabola(root.width, root.height)?.mm2();
        }
        if let Some(gouge) = &self.gouge {
            total += gouge.area()?.mm2();
        }
        Ok(Area::computed(total)?)
    }
}

impl Cap {
    /// Cross-section over a groove of this width, [`CAP_SECTION`].
    ///
    /// # Errors
    /// [`JointError::Negative`].
    pub fn area(&self, groove: FaceWidth) -> Result<Area, JointError> {
        let width = FaceWidth::computed(mm(groove)? + 2.0 * mm(self.overlap)?)?;
        face_parabola(width, self.height)
    }
}

impl BackGouge {
    /// Cross-section, [`GOUGE_SECTION`].
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no groove.
    pub fn area(&self) -> Result<Area, JointError> {
        match *self {
            Self::Parabola { width, depth } => {
                face_parabola(width, Reinforcement::computed(mm(depth)?)?)
            }
            Self::Round { depth, radius, angle } => {
                Ok(Area::computed(2.0 * wall(depth, radius, angle)?.area)?)
            }
        }
    }
}
