//! Combined thickness: all paths that lead heat away from a weld.

use super::PreheatError;
use crate::{
    quantity::{CombinedThickness, Thickness, WeldDistance},
    trade::{formula, scope::positive},
};

formula! {
    /// Combined thickness of a joint.
    pub const COMBINED_THICKNESS {
        name: "combined-thickness",
        equation: "butt and corner: d1 + d2; fillet: d1 + d2 + d3; two opposed fillets laid at the same \
                   time: (d1 + d2 + d3)/2; each d the mean thickness over 75 mm from the weld line",
        source: "EN 1011-2:2001, Figure C.1; from memory",
        validity: "for Method A only; Method B takes the plate thickness",
        confidence: Memory,
    }
}

/// Width over which thickness is averaged, in mm.
const NEAR: f64 = 75.0;

/// The plates that lead heat from a weld, each with its mean thickness near the weld.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeatPaths {
    /// Butt weld.
    Butt {
        /// One plate.
        first: Thickness,
        /// The other.
        second: Thickness,
    },
    /// Corner joint.
    Corner {
        /// One plate.
        first: Thickness,
        /// The other.
        second: Thickness,
    },
    /// Fillet on a T-joint, or one side of a cruciform joint.
    Fillet {
        /// Flange on one side of the web.
        flange: Thickness,
        /// Flange on the other side.
        other_flange: Thickness,
        /// Web.
        web: Thickness,
    },
    /// Two opposed fillets laid at the same time.
    OpposedFillets {
        /// Flange on one side of the web.
        flange: Thickness,
        /// Flange on the other side.
        other_flange: Thickness,
        /// Web.
        web: Thickness,
    },
}

/// A strip of one plate along the weld.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateStrip {
    /// Width, away from the weld line.
    pub width: WeldDistance,
    /// Thickness, the mean one of a taper.
    pub thickness: Thickness,
}

/// Combined thickness, [`COMBINED_THICKNESS`].
///
/// # Errors
/// [`PreheatError::OutOfRange`] for a thickness not above zero.
pub fn combined_thickness(paths: &HeatPaths) -> Result<CombinedThickness, PreheatError> {
    let (plates, share) = match *paths {
        HeatPaths::Butt { first, second } | HeatPaths::Corner { first, second } => {
            (vec![first, second], 1.0)
        }
        HeatPaths::Fillet { flange, other_flange, web } => (vec![flange, other_flange, web], 1.0),
        HeatPaths::OpposedFillets { flange, other_flange, web } => {
            (vec![flange, other_flange, web], 0.5)
        }
    };
    let mut sum = 0.0;
    for plate in plates {
        positive(plate)?;
        sum += plate.mm();
    }
    Ok(CombinedThickness::computed(share * sum)?)
}

/// Mean thickness of a plate within 75 mm of the weld line, from strips in order away from it. Of a
/// plate that ends before 75 mm the mean is over the plate: metal that is not there is not averaged
/// in, which is the safe side (common practice, no source).
///
/// # Errors
/// [`PreheatError::NoPlate`] without a strip, [`PreheatError::OutOfRange`] for a width or thickness
/// not above zero.
pub fn mean_thickness_near_weld(strips: &[PlateStrip]) -> Result<Thickness, PreheatError> {
    let (mut width, mut area) = (0.0_f64, 0.0);
    for strip in strips {
        positive(strip.width)?;
        positive(strip.thickness)?;
        let counted = strip.width.mm().min(NEAR - width).max(0.0);
        width += counted;
        area += counted * strip.thickness.mm();
    }
    if width <= 0.0 {
        return Err(PreheatError::NoPlate);
    }
    Ok(Thickness::computed(area / width)?)
}
