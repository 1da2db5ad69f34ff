//! Square butt joint.

use super::{JointError, dimension::mm};
use crate::{
    quantity::{Area, FaceWidth, RootGap, Thickness},
    trade::formula,
};

formula! {
    /// Cross-section of a square butt joint.
    pub const SQUARE_GROOVE {
        name: "square-groove",
        equation: "A = g * T; face width g; mm, mm2",
        source: "area of a rectangle",
        validity: "filler area: parent metal melted by penetration is left out",
        confidence: Derived,
    }
}

/// A square butt joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Square {
    /// Plate thickness T.
    pub thickness: Thickness,
    /// Root gap g.
    pub gap: RootGap,
}

impl Square {
    /// Cross-section, [`SQUARE_GROOVE`].
    ///
    /// # Errors
    /// [`JointError::Negative`].
    pub fn area(&self) -> Result<Area, JointError> {
        Ok(Area::computed(mm(self.gap)? * mm(self.thickness)?)?)
    }

    /// Width of either face.
    ///
    /// # Errors
    /// [`JointError::Negative`].
    pub fn face_width(&self) -> Result<FaceWidth, JointError> {
        Ok(FaceWidth::computed(mm(self.gap)?)?)
    }
}
