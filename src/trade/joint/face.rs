//! What stands above a straight face: circular segment and parabola.

use super::{JointError, dimension::mm};
use crate::{
    quantity::{Area, FaceWidth, Reinforcement},
    trade::formula,
};

formula! {
    /// Area between a chord and the arc of a circle above it.
    pub const FACE_SEGMENT {
        name: "face-segment",
        equation: "A = R^2 / 2 * (theta - sin theta); R = (c^2 / 4 + h^2) / (2 h), \
                   theta = 4 * atan(2 h / c); c chord, h height in mm",
        source: "area of a circular segment",
        validity: "h at most c / 2 (half a circle)",
        confidence: Derived,
    }
}

formula! {
    /// Area between a chord and a parabola above it.
    pub const FACE_PARABOLA {
        name: "face-parabola",
        equation: "A = 2 / 3 * c * h; c chord, h height in mm",
        source: "area of a parabolic segment; a filler-metal handbook, Calculations section, table of \
                 weights per foot, computes its caps this way",
        validity: "low faces; 0.8 % less than the circle at h = 0.1 c, 3 % less at h = 0.2 c",
        confidence: TextRead,
    }
}

/// Below this angle the series replaces the difference of two nearly equal numbers.
const SMALL_ANGLE: f64 = 0.01;

/// Area of a circular segment, [`FACE_SEGMENT`].
///
/// # Errors
/// [`JointError::TooConvex`] above half a circle, [`JointError::Negative`] for a dimension below
/// zero.
pub fn face_segment(chord: FaceWidth, height: Reinforcement) -> Result<Area, JointError> {
    let (c, h) = (mm(chord)?, mm(height)?);
    if h == 0.0 {
        return Ok(Area::computed(0.0)?);
    }
    // Compared as widths, so that half a circle typed in another unit is still half a circle.
    if !FaceWidth::computed(2.0 * h)?.at_most(chord) {
        return Err(JointError::TooConvex);
    }
    let theta = 4.0 * (2.0 * h / c).atan();
    let radius = c / (2.0 * (theta / 2.0).sin());
    Ok(Area::computed(radius * radius / 2.0 * angle_above_its_sine(theta))?)
}

/// Area of a parabolic segment, [`FACE_PARABOLA`].
///
/// # Errors
/// [`JointError::Negative`] for a dimension below zero.
pub fn face_parabola(chord: FaceWidth, height: Reinforcement) -> Result<Area, JointError> {
    Ok(Area::computed(2.0 / 3.0 * mm(chord)? * mm(height)?)?)
}

/// `x - sin x`, without cancellation near zero.
fn angle_above_its_sine(x: f64) -> f64 {
    if x < SMALL_ANGLE {
        return x.powi(3) / 6.0 * (1.0 - x * x / 20.0);
    }
    x - x.sin()
}
