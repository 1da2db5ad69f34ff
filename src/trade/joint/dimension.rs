//! Numbers for the geometry, checked once.

use super::JointError;
use crate::quantity::{BevelAngle, IncludedAngle, JointAngle, Kind, Quantity};

/// A length in mm, never below zero. All lengths of joints are held in mm.
///
/// # Errors
/// [`JointError::Negative`].
pub(super) fn mm<K: Kind>(length: Quantity<K>) -> Result<f64, JointError> {
    if length.canonical() < 0.0 {
        return Err(JointError::Negative { dimension: K::INFO.name });
    }
    Ok(length.canonical())
}

/// Tangent of half the included angle.
///
/// # Errors
/// [`JointError::Angle`] outside 0 to 180 degrees.
pub(super) fn half_tangent(angle: IncludedAngle) -> Result<f64, JointError> {
    Ok((within("included angle", angle.degrees(), 180.0)? / 2.0).tan())
}

/// A bevel angle in radians.
///
/// # Errors
/// [`JointError::Angle`] outside 0 to 90 degrees.
pub(super) fn bevel(angle: BevelAngle) -> Result<f64, JointError> {
    within("bevel angle", angle.degrees(), 90.0)
}

/// The angle between two parts in radians.
///
/// # Errors
/// [`JointError::Angle`] outside 0 to 180 degrees, both ends included.
pub(super) fn between_parts(angle: JointAngle) -> Result<f64, JointError> {
    let radians = within("angle between the parts", angle.degrees(), 180.0)?;
    if radians > 0.0 {
        Ok(radians)
    } else {
        Err(JointError::Angle { angle: "angle between the parts", low: 0.0, high: 180.0 })
    }
}

fn within(angle: &'static str, degrees: f64, high: f64) -> Result<f64, JointError> {
    if (0.0..high).contains(&degrees) {
        Ok(degrees.to_radians())
    } else {
        Err(JointError::Angle { angle, low: 0.0, high })
    }
}
