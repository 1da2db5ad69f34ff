//! The theory behind the cooling times: a fast-moving heat source on a thick or a thin plate.

use super::CoolingError;
use crate::{
    quantity::{
        Duration, HeatInput, QuantityError, Temperature, ThermalConductivity, Thickness,
        VolumetricHeat,
    },
    trade::{
        SteelFamily, coded, formula,
        scope::{positive, within},
    },
};

formula! {
    /// Cooling time on a thick plate by theory.
    pub const THICK_PLATE {
        name: "thick-plate-theory",
        equation: "t = q/(2*pi*lambda) * [1/(500-T0) - 1/(800-T0)]; q in J/mm, lambda in W/(mm*K), T0 \
                   in °C, t in s",
        source: "Rosenthal 1941, point source; on the weld line exact at any speed",
        validity: "constant properties; quasi-steady run; unalloyed and low-alloy ferritic steel",
        confidence: Derived,
    }
}

formula! {
    /// Cooling time on a thin plate by theory.
    pub const THIN_PLATE {
        name: "thin-plate-theory",
        equation: "t = q^2/(4*pi*lambda*rho_c*d^2) * [1/(500-T0)^2 - 1/(800-T0)^2]; rho_c in \
                   J/(mm3*K), d in mm, other symbols of thick-plate-theory",
        source: "Rosenthal 1941, line source, limit of high travel speed",
        validity: "as thick-plate-theory; within 0.1 % from 2 mm/s of travel speed (own arithmetic)",
        confidence: Derived,
    }
}

formula! {
    /// Transition thickness by theory.
    pub const TRANSITION_BY_THEORY {
        name: "transition-theory",
        equation: "d_t = sqrt{q/(2*rho_c) * [1/(500-T0) + 1/(800-T0)]}; symbols of thin-plate-theory",
        source: "thick-plate-theory and thin-plate-theory set equal",
        validity: "as thick-plate-theory",
        confidence: Derived,
    }
}

/// Upper and lower temperature of the cooling time in °C.
pub(super) const UPPER: f64 = 800.0;
pub(super) const LOWER: f64 = 500.0;

coded! {
    /// Sets of thermal constants in use for steel; they differ widely.
    pub enum MaterialConstants: "thermal constants" {
        /// 0.024 W/(mm·K) and 0.0075 J/(mm³·K): fitted to the equations of EN 1011-2 (own
        /// arithmetic).
        FittedToEn1011 = "fitted-to-en-1011-2",
        /// 0.030 and 0.0055: middle of 500 to 800 °C (from memory).
        MidRange = "mid-range",
        /// 0.041 and 0.0045: values of older textbooks (from memory).
        Textbook = "textbook",
        /// 0.025 and 0.0050: low-alloy steel in texts on metallurgical modelling (from memory).
        LowAlloy = "low-alloy",
        /// 0.028 and 0.0044: examples of handbooks on cooling rate (from memory; 0.0044 was read).
        Handbook = "handbook",
    }
}

/// Thermal constants of a metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThermalProperties {
    /// Thermal conductivity.
    pub conductivity: ThermalConductivity,
    /// Heat capacity of a volume.
    pub heat_capacity: VolumetricHeat,
}

/// One run on one plate, for the forms that take thermal constants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldOnPlate {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Heat input, thermal efficiency counted.
    pub heat_input: HeatInput,
    /// Preheat or interpass temperature just before the run.
    pub temperature: Temperature,
    /// Thickness of the plate.
    pub thickness: Thickness,
    /// Thermal constants.
    pub properties: ThermalProperties,
}

impl MaterialConstants {
    /// The constants of the set.
    ///
    /// # Errors
    /// None in practice; the values are constants.
    pub fn properties(self) -> Result<ThermalProperties, QuantityError> {
        let (conductivity, heat_capacity) = match self {
            Self::FittedToEn1011 => (0.024, 0.007_5),
            Self::MidRange => (0.030, 0.005_5),
            Self::Textbook => (0.041, 0.004_5),
            Self::LowAlloy => (0.025, 0.005_0),
            Self::Handbook => (0.028, 0.004_4),
        };
        Ok(ThermalProperties {
            conductivity: ThermalConductivity::computed(conductivity)?,
            heat_capacity: VolumetricHeat::computed(heat_capacity)?,
        })
    }
}

impl WeldOnPlate {
    /// Refuses what the theory says nothing about.
    pub(super) fn check(&self) -> Result<(), CoolingError> {
        self.metal.low_alloy_only()?;
        positive(self.heat_input)?;
        positive(self.thickness)?;
        positive(self.properties.conductivity)?;
        positive(self.properties.heat_capacity)?;
        Ok(within(self.temperature, 0.0, 300.0)?)
    }

    /// Heat input in J/mm.
    pub(super) fn joules_per_mm(&self) -> f64 {
        self.heat_input.kj_per_mm() * 1_000.0
    }

    /// Rise above the plate of a temperature in °C.
    pub(super) fn rise(&self, celsius: f64) -> f64 {
        celsius - self.temperature.celsius()
    }
}

/// Cooling time from 800 °C to 500 °C by [`THICK_PLATE`].
///
/// # Errors
/// [`CoolingError`].
pub fn thick_plate_cooling_time(weld: &WeldOnPlate) -> Result<Duration, CoolingError> {
    weld.check()?;
    let lambda = weld.properties.conductivity.w_per_mm_k();
    let inverse = 1.0 / weld.rise(LOWER) - 1.0 / weld.rise(UPPER);
    let seconds = weld.joules_per_mm() / (std::f64::consts::TAU * lambda) * inverse;
    Ok(Duration::computed(seconds)?)
}

/// Cooling time from 800 °C to 500 °C by [`THIN_PLATE`].
///
/// # Errors
/// [`CoolingError`].
pub fn thin_plate_cooling_time(weld: &WeldOnPlate) -> Result<Duration, CoolingError> {
    weld.check()?;
    let lambda = weld.properties.conductivity.w_per_mm_k();
    let capacity = weld.properties.heat_capacity.j_per_mm3_k();
    let per_thickness = weld.joules_per_mm() / weld.thickness.mm();
    let inverse = weld.rise(LOWER).powi(-2) - weld.rise(UPPER).powi(-2);
    let seconds =
        per_thickness * per_thickness / (2.0 * std::f64::consts::TAU * lambda * capacity) * inverse;
    Ok(Duration::computed(seconds)?)
}

/// Thickness at which thick and thin plate give one time, [`TRANSITION_BY_THEORY`].
///
/// # Errors
/// [`CoolingError`].
pub fn transition_by_theory(weld: &WeldOnPlate) -> Result<Thickness, CoolingError> {
    weld.check()?;
    let capacity = weld.properties.heat_capacity.j_per_mm3_k();
    let inverse = 1.0 / weld.rise(LOWER) + 1.0 / weld.rise(UPPER);
    Ok(Thickness::computed((weld.joules_per_mm() / (2.0 * capacity) * inverse).sqrt())?)
}
