//! How deep a preparation is, and whether two fit into one plate.

use super::{JointError, dimension::mm};
use crate::quantity::{PreparationDepth, RootFace, Thickness};

/// What the root face leaves of the plate.
///
/// # Errors
/// [`JointError::RootFaceAbovePlate`], [`JointError::Negative`].
pub(super) fn depth_above_face(
    thickness: Thickness,
    face: RootFace,
) -> Result<PreparationDepth, JointError> {
    let (plate, root) = (mm(thickness)?, mm(face)?);
    if !Thickness::computed(root)?.at_most(thickness) {
        return Err(JointError::RootFaceAbovePlate);
    }
    Ok(PreparationDepth::computed((plate - root).max(0.0))?)
}

/// Refuses two sides that are deeper than the plate.
///
/// # Errors
/// [`JointError::SidesOverlap`], [`JointError::Negative`].
pub(super) fn sides_fit(
    thickness: Thickness,
    near: PreparationDepth,
    far: PreparationDepth,
) -> Result<(), JointError> {
    mm(thickness)?;
    let both = Thickness::computed(mm(near)? + mm(far)?)?;
    if both.at_most(thickness) { Ok(()) } else { Err(JointError::SidesOverlap) }
}
