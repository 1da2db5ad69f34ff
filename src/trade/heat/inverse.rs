//! The setting that meets a given arc energy, for remedies.

use crate::{
    quantity::{ArcEnergy, Current, QuantityError, TravelSpeed, Voltage},
    trade::formula,
};

formula! {
    /// Travel speed at which an arc has a given energy per length.
    pub const TRAVEL_SPEED_FOR_ARC_ENERGY {
        name: "travel-speed-for-arc-energy",
        equation: "v = U * I * 60 / (1000 * E); U in V, I in A, E in kJ/mm, v in mm/min",
        source: "ISO/TR 18491:2015, method A, solved for v",
        validity: "output not waveform-controlled; one arc",
        confidence: Derived,
    }
}

formula! {
    /// Current at which an arc has a given energy per length.
    pub const CURRENT_FOR_ARC_ENERGY {
        name: "current-for-arc-energy",
        equation: "I = 1000 * E * v / (60 * U); E in kJ/mm, v in mm/min, U in V, I in A",
        source: "ISO/TR 18491:2015, method A, solved for I",
        validity: "output not waveform-controlled; one arc; voltage held",
        confidence: Derived,
    }
}

/// Travel speed for an arc energy, [`TRAVEL_SPEED_FOR_ARC_ENERGY`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for an arc energy of zero.
pub fn travel_speed_for_arc_energy(
    voltage: Voltage,
    current: Current,
    energy: ArcEnergy,
) -> Result<TravelSpeed, QuantityError> {
    TravelSpeed::computed(
        voltage.volts() * current.amperes() * 60.0 / (1_000.0 * energy.kj_per_mm()),
    )
}

/// Current for an arc energy, [`CURRENT_FOR_ARC_ENERGY`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a voltage of zero.
pub fn current_for_arc_energy(
    voltage: Voltage,
    speed: TravelSpeed,
    energy: ArcEnergy,
) -> Result<Current, QuantityError> {
    Current::computed(1_000.0 * energy.kj_per_mm() * speed.mm_per_min() / (60.0 * voltage.volts()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 24 V, 200 A, 0.96 kJ/mm belong to 300 mm/min (own arithmetic).
    #[test]
    fn both_inverses_find_the_setting_again() {
        let (volts, amperes) = ("24 V".parse().unwrap(), "200 A".parse().unwrap());
        let (speed, energy) = ("300 mm/min".parse().unwrap(), "0.96 kJ/mm".parse().unwrap());
        assert_eq!(travel_speed_for_arc_energy(volts, amperes, energy), Ok(speed));
        assert_eq!(current_for_arc_energy(volts, speed, energy), Ok(amperes));
    }

    #[test]
    fn no_energy_has_no_speed() {
        let zero = ArcEnergy::computed(0.0).unwrap();
        let (volts, amperes) = ("24 V".parse().unwrap(), "200 A".parse().unwrap());
        assert!(travel_speed_for_arc_energy(volts, amperes, zero).is_err());
    }
}
