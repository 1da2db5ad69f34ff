//! What is laid from each side of a groove, and how deep that side is filled.

use super::{BackGouge, Joint, JointError, WeldSection, dimension::mm, face::face_parabola};
use crate::{
    quantity::{Area, LayerThickness, PreparationDepth, RootGap, Thickness},
    trade::{coded, formula},
};

formula! {
    /// What is laid from each side, and how deep.
    pub const SIDES_OF_A_JOINT {
        name: "sides-of-a-joint",
        equation: "far: A = A_prepared,2 + g d2 + A_far_cap + A_gouge, depth d2 + d_gouge; near: the rest of \
                   the joint and A_cap, depth T - d2; A_root near, with a gouge far; mm, mm2",
        source: "areas of the parts, each by its own formula; their sum is the cross-section of all that is \
                 laid",
        validity: "the near side is welded first and closes the gap down to the far preparation, root face \
                   included; a gouge goes on from the bottom of the far preparation",
        confidence: Derived,
    }
}

coded! {
    /// Side of a joint that is filled from both.
    pub enum WeldSide: "side of a joint" {
        /// Welded first.
        Near = "near",
        /// Welded after the other.
        Far = "far",
    }
}

/// What is laid from one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideSection {
    /// Cross-section.
    pub area: Area,
    /// Depth that is filled, caps left out.
    pub depth: LayerThickness,
    /// The part of the cross-section that stands above the plate.
    pub cap: Area,
}

/// A groove by its sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldSides {
    /// Laid from the side welded first; everything, where the joint is filled from one side.
    pub near: SideSection,
    /// Laid from the other side; `None` where nothing is.
    pub far: Option<SideSection>,
}

impl WeldSection {
    /// What is laid from each side, [`SIDES_OF_A_JOINT`]; `None` for a fillet.
    ///
    /// Root reinforcement is opposite the side that is welded (AWS A3.0, from memory), so it is laid with the
    /// root; after a gouge it stands on what is filled there (common practice, no source).
    ///
    /// # Errors
    /// [`JointError`] as of [`WeldSection::area`]; [`JointError::GougeThroughPlate`] for a gouge that leaves
    /// nothing of the near side.
    pub fn sides(&self) -> Result<Option<WeldSides>, JointError> {
        let Some(thickness) = self.joint.thickness() else { return Ok(None) };
        let total = self.area()?.mm2();
        let prepared = self.joint.far_preparation()?;
        let mut far = prepared.map_or(0.0, |side| side.area.mm2());
        let prepared_depth = prepared.map_or(0.0, |side| side.depth.mm());
        let mut depth = prepared_depth;
        let mut far_cap = 0.0;
        if let Some(cap) = &self.far_cap {
            let width = self.joint.far_face_width()?.ok_or(JointError::NoFarFace)?;
            far_cap += cap.area(width)?.mm2();
        }
        if let Some(gouge) = &self.gouge {
            far += gouge.area()?.mm2();
            depth += mm(gouge.depth())?;
            if let Some(root) = &self.root {
                far_cap += face_parabola(root.width, root.height)?.mm2();
            }
        }
        far += far_cap;
        if !Thickness::computed(depth)?.at_most(thickness) {
            return Err(JointError::GougeThroughPlate);
        }
        let near = SideSection {
            area: Area::computed((total - far).max(0.0))?,
            depth: LayerThickness::computed(mm(thickness)? - prepared_depth)?,
            cap: match &self.cap {
                Some(cap) => cap.area(self.joint.face_width()?)?,
                None => Area::computed(0.0)?,
            },
        };
        let far = SideSection {
            area: Area::computed(far)?,
            depth: LayerThickness::computed(depth)?,
            cap: Area::computed(far_cap)?,
        };
        Ok(Some(WeldSides { near, far: Some(far).filter(|far| far.area.mm2() > 0.0) }))
    }
}

impl Joint {
    /// Plate thickness; `None` for a fillet.
    #[must_use]
    pub const fn thickness(&self) -> Option<Thickness> {
        match self {
            Self::Fillet(_) => None,
            Self::Square(joint) => Some(joint.thickness),
            Self::SingleVee(joint) => Some(joint.thickness),
            Self::VeeOnBacking(joint) => Some(joint.thickness),
            Self::DoubleVee(joint) => Some(joint.thickness),
            Self::SingleBevel(joint) => Some(joint.thickness),
            Self::DoubleBevel(joint) => Some(joint.thickness),
            Self::SingleU(joint) => Some(joint.thickness),
            Self::SingleJ(joint) => Some(joint.thickness),
            Self::DoubleU(joint) => Some(joint.thickness),
            Self::DoubleJ(joint) => Some(joint.thickness),
        }
    }

    /// The preparation on the far side with its part of the gap, flush with the plate; `None` for a joint that
    /// is prepared on one side.
    fn far_preparation(&self) -> Result<Option<SideSection>, JointError> {
        match self {
            Self::DoubleVee(joint) => joint.far_preparation().map(Some),
            Self::DoubleBevel(joint) => joint.far_preparation().map(Some),
            Self::DoubleU(joint) => joint.far_preparation().map(Some),
            Self::DoubleJ(joint) => joint.far_preparation().map(Some),
            Self::Fillet(_)
            | Self::Square(_)
            | Self::SingleVee(_)
            | Self::VeeOnBacking(_)
            | Self::SingleBevel(_)
            | Self::SingleU(_)
            | Self::SingleJ(_) => Ok(None),
        }
    }
}

impl SideSection {
    /// A preparation of this depth: its part of the gap, and what the prepared edges open in mm².
    pub(super) fn prepared(
        gap: RootGap,
        depth: PreparationDepth,
        edges: f64,
    ) -> Result<Self, JointError> {
        let deep = mm(depth)?;
        Ok(Self {
            area: Area::computed(mm(gap)? * deep + edges)?,
            depth: LayerThickness::computed(deep)?,
            cap: Area::computed(0.0)?,
        })
    }
}

impl BackGouge {
    /// How deep it goes.
    #[must_use]
    pub const fn depth(&self) -> PreparationDepth {
        match self {
            Self::Parabola { depth, .. } | Self::Round { depth, .. } => *depth,
        }
    }
}
