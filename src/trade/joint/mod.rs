//! Cross-sections of joints: the filler area, one file per family.
//!
//! Penetration into parent metal is never counted: it is the metal that has to be laid. Symbols:
//! T plate thickness, g root gap, f root face, d depth of the preparation, alpha included angle,
//! beta bevel angle of one edge (alpha / 2 of a symmetric V only), r root radius, z leg, h height,
//! w face width. Lengths in mm, areas in mm².

mod bevel;
mod depth;
mod dimension;
mod double_u_and_j;
mod error;
mod face;
mod fillet;
mod sides;
mod square;
mod u_and_j;
mod vee;
mod weld;

pub use bevel::{BEVEL_GROOVE, BevelSide, DOUBLE_BEVEL_GROOVE, DoubleBevel, SingleBevel};
pub use double_u_and_j::{DOUBLE_U_GROOVE, DoubleJ, DoubleU, RoundSide};
pub use error::JointError;
pub use face::{FACE_PARABOLA, FACE_SEGMENT, face_parabola, face_segment};
pub use fillet::{FILLET_SECTION, FILLET_THROAT, Fillet, FilletFace, leg_for_throat};
pub use sides::{SIDES_OF_A_JOINT, SideSection, WeldSide, WeldSides};
pub use square::{SQUARE_GROOVE, Square};
pub use u_and_j::{SingleJ, SingleU, U_GROOVE};
pub use vee::{DOUBLE_VEE_GROOVE, DoubleVee, SingleVee, VEE_GROOVE, VeeOnBacking, VeeSide};
pub use weld::{BackGouge, CAP_SECTION, Cap, GOUGE_SECTION, RootReinforcement, WeldSection};

use super::Formula;
use crate::quantity::{Area, FaceWidth};

/// A joint by its preparation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Joint {
    /// Fillet weld.
    Fillet(Fillet),
    /// Square butt joint.
    Square(Square),
    /// V from one side.
    SingleVee(SingleVee),
    /// V from one side, on a backing.
    VeeOnBacking(VeeOnBacking),
    /// V from both sides.
    DoubleVee(DoubleVee),
    /// Bevel from one side.
    SingleBevel(SingleBevel),
    /// Bevel from both sides (K).
    DoubleBevel(DoubleBevel),
    /// U from one side.
    SingleU(SingleU),
    /// J from one side.
    SingleJ(SingleJ),
    /// U from both sides.
    DoubleU(DoubleU),
    /// J from both sides.
    DoubleJ(DoubleJ),
}

impl Joint {
    /// Cross-section of the weld metal, flush with the plate.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn area(&self) -> Result<Area, JointError> {
        match self {
            Self::Fillet(joint) => joint.area(),
            Self::Square(joint) => joint.area(),
            Self::SingleVee(joint) => joint.area(),
            Self::VeeOnBacking(joint) => joint.area(),
            Self::DoubleVee(joint) => joint.area(),
            Self::SingleBevel(joint) => joint.area(),
            Self::DoubleBevel(joint) => joint.area(),
            Self::SingleU(joint) => joint.area(),
            Self::SingleJ(joint) => joint.area(),
            Self::DoubleU(joint) => joint.area(),
            Self::DoubleJ(joint) => joint.area(),
        }
    }

    /// Width of the face on the side welded first.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        match self {
            Self::Fillet(joint) => joint.face_width(),
            Self::Square(joint) => joint.face_width(),
            Self::SingleVee(joint) => joint.face_width(),
            Self::VeeOnBacking(joint) => joint.face_width(),
            Self::DoubleVee(joint) => joint.face_width(),
            Self::SingleBevel(joint) => joint.face_width(),
            Self::DoubleBevel(joint) => joint.face_width(),
            Self::SingleU(joint) => joint.face_width(),
            Self::SingleJ(joint) => joint.face_width(),
            Self::DoubleU(joint) => joint.face_width(),
            Self::DoubleJ(joint) => joint.face_width(),
        }
    }

    /// Width of the face on the other side; `None` for a joint prepared on one side.
    ///
    /// # Errors
    /// [`JointError`] for dimensions that make no joint.
    pub fn far_face_width(&self) -> Result<Option<FaceWidth>, JointError> {
        match self {
            Self::Square(joint) => joint.face_width().map(Some),
            Self::DoubleVee(joint) => joint.far_face_width().map(Some),
            Self::DoubleBevel(joint) => joint.far_face_width().map(Some),
            Self::DoubleU(joint) => joint.far_face_width().map(Some),
            Self::DoubleJ(joint) => joint.far_face_width().map(Some),
            Self::Fillet(_)
            | Self::SingleVee(_)
            | Self::VeeOnBacking(_)
            | Self::SingleBevel(_)
            | Self::SingleU(_)
            | Self::SingleJ(_) => Ok(None),
        }
    }

    /// The formula behind the cross-section.
    #[must_use]
    pub const fn formula(&self) -> &'static Formula {
        match self {
            Self::Fillet(_) => &FILLET_SECTION,
            Self::Square(_) => &SQUARE_GROOVE,
            Self::SingleVee(_) | Self::VeeOnBacking(_) => &VEE_GROOVE,
            Self::DoubleVee(_) => &DOUBLE_VEE_GROOVE,
            Self::SingleBevel(_) => &BEVEL_GROOVE,
            Self::DoubleBevel(_) => &DOUBLE_BEVEL_GROOVE,
            Self::SingleU(_) | Self::SingleJ(_) => &U_GROOVE,
            Self::DoubleU(_) | Self::DoubleJ(_) => &DOUBLE_U_GROOVE,
        }
    }
}
