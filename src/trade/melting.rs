//! Cross-section that an arc can melt, from the energy that a volume of metal takes.
//!
//! A screen for whether a run is plausible; it says nothing about shape.
//!
//! A textbook's way to a bead or a travel speed: of the arc's energy a share melts metal ([`MELTED_AREA`]). It counts
//! parent metal too, unlike the mass balance of [`bead`](super::bead), which counts what is laid.

use super::formula;
use crate::quantity::{ArcEnergy, Area, MeltingEnergy, QuantityError, Share};

formula! {
    /// Cross-section melted by an arc.
    pub const MELTED_AREA {
        name: "melted-area",
        equation: "A = 1000 * eta * E / u; E = U I / (1000 v) in kJ/mm, u in J/mm3, A in mm2",
        source: "energy balance; Kalpakjian S., Schmid S.R., Manufacturing Engineering and Technology, \
                 Example 30.1, p. 871 (as in a textbook companion)",
        validity: "eta is the share of the arc energy that melts metal, conduction left out; filler \
                   and parent metal together",
        confidence: Secondary,
    }
}

/// Cross-section melted, [`MELTED_AREA`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a melting energy of zero.
pub fn melted_area(
    energy: ArcEnergy,
    melting_efficiency: Share,
    melting: MeltingEnergy,
) -> Result<Area, QuantityError> {
    let joules = 1_000.0 * energy.kj_per_mm() * melting_efficiency.ratio();
    Area::computed(joules / melting.j_per_mm3())
}

/// Arc energy that melts a cross-section: [`MELTED_AREA`] solved for E.
///
/// # Errors
/// [`QuantityError::NotFinite`] for an efficiency of zero.
pub fn arc_energy_to_melt(
    area: Area,
    melting_efficiency: Share,
    melting: MeltingEnergy,
) -> Result<ArcEnergy, QuantityError> {
    let joules = area.mm2() * melting.j_per_mm3() / melting_efficiency.ratio();
    ArcEnergy::computed(joules / 1_000.0)
}

/// Share of the arc energy that melts a cross-section: [`MELTED_AREA`] solved for eta.
///
/// # Errors
/// [`QuantityError::NotFinite`] for an arc energy of zero.
pub fn melting_efficiency(
    area: Area,
    energy: ArcEnergy,
    melting: MeltingEnergy,
) -> Result<Share, QuantityError> {
    Share::computed(area.mm2() * melting.j_per_mm3() / (1_000.0 * energy.kj_per_mm()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic: 2 kJ/mm with a share of 0.24 at 10 J/mm³ melt 48 mm².
    #[test]
    fn the_three_forms_agree() {
        let (energy, share) = ("2 kJ/mm".parse().unwrap(), "24 %".parse().unwrap());
        let (melting, area) = ("10 J/mm3".parse().unwrap(), "48 mm2".parse().unwrap());
        assert_eq!(melted_area(energy, share, melting), Ok(area));
        assert_eq!(arc_energy_to_melt(area, share, melting), Ok(energy));
        assert_eq!(melting_efficiency(area, energy, melting), Ok(share));
    }

    #[test]
    fn no_energy_and_no_efficiency_are_refused() {
        let (area, melting) = ("48 mm2".parse().unwrap(), "10 J/mm3".parse().unwrap());
        assert!(arc_energy_to_melt(area, Share::computed(0.0).unwrap(), melting).is_err());
        assert!(melting_efficiency(area, ArcEnergy::computed(0.0).unwrap(), melting).is_err());
    }
}
