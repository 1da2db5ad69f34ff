//! Arc energy by the three methods of ISO/TR 18491.

use super::{HeatError, Waveform};
use crate::{
    quantity::{
        ArcEnergy, Current, Duration, Energy, Power, QuantityError, RunLength, TravelSpeed, Voltage,
    },
    trade::formula,
};

formula! {
    /// Method A: averages of voltage and current.
    pub const ARC_ENERGY_FROM_AVERAGES {
        name: "arc-energy-averages",
        equation: "E = U * I * 60 / (1000 * v); U in V, I in A, v in mm/min, E in kJ/mm",
        source: "ISO/TR 18491:2015, method A; same equation in NAVSEA S9074-AQ-GIB-010/248 Rev 1, \
                 4-4.1.13.2 a",
        validity: "output not waveform-controlled; one arc; voltage taken near the arc; v is the \
                   forward speed of the bead, not the path of a weave",
        confidence: Secondary,
    }
}

formula! {
    /// Arc power from averages.
    pub const ARC_POWER_FROM_AVERAGES {
        name: "arc-power-averages",
        equation: "P = U * I; U in V, I in A, P in W",
        source: "definition of power; ISO/TR 18491:2015, method A without its travel speed",
        validity: "output not waveform-controlled; voltage taken near the arc",
        confidence: Derived,
    }
}

formula! {
    /// Method B: summed instantaneous energy over the length of the run.
    pub const ARC_ENERGY_FROM_ENERGY {
        name: "arc-energy-energy",
        equation: "E = IE / (1000 * L); IE in J, L in mm, E in kJ/mm",
        source: "ISO/TR 18491:2015, method B; same equation in NAVSEA S9074-AQ-GIB-010/248 Rev 1, \
                 4-4.1.13.2 c",
        validity: "any output; IE is the sum of instantaneous voltage times current times time step",
        confidence: Secondary,
    }
}

formula! {
    /// Method C: mean instantaneous power over travel speed.
    pub const ARC_ENERGY_FROM_POWER {
        name: "arc-energy-power-speed",
        equation: "E = IP * 60 / (1000 * v); IP in W, v in mm/min, E in kJ/mm",
        source: "ISO/TR 18491:2015, method C",
        validity: "any output; IP is the mean of instantaneous voltage times current",
        confidence: Secondary,
    }
}

formula! {
    /// Method C: mean instantaneous power, arc time and length of the run.
    pub const ARC_ENERGY_FROM_POWER_AND_TIME {
        name: "arc-energy-power-time",
        equation: "E = IP * t / (1000 * L); IP in W, t in s, L in mm, E in kJ/mm",
        source: "ISO/TR 18491:2015, method C; same equation in NAVSEA S9074-AQ-GIB-010/248 Rev 1, \
                 4-4.1.13.2 c",
        validity: "any output; t is the time the arc burned over the length L",
        confidence: Secondary,
    }
}

/// Arc energy by method A, [`ARC_ENERGY_FROM_AVERAGES`].
///
/// # Errors
/// [`HeatError::WaveformControlled`] for such an output: averages are wrong there in either
/// direction. [`HeatError::Quantity`] for a travel speed of zero.
pub fn arc_energy_from_averages(
    voltage: Voltage,
    current: Current,
    speed: TravelSpeed,
    waveform: Waveform,
) -> Result<ArcEnergy, HeatError> {
    match waveform {
        Waveform::Controlled => Err(HeatError::WaveformControlled),
        Waveform::NotControlled => Ok(from_averages(voltage, current, speed)?),
    }
}

/// Method A without its guard, for the inside of this folder.
pub(super) fn from_averages(
    voltage: Voltage,
    current: Current,
    speed: TravelSpeed,
) -> Result<ArcEnergy, QuantityError> {
    ArcEnergy::computed(voltage.volts() * current.amperes() * 60.0 / (1_000.0 * speed.mm_per_min()))
}

/// Arc power by averages, [`ARC_POWER_FROM_AVERAGES`].
///
/// # Errors
/// [`HeatError::WaveformControlled`] for such an output.
pub fn arc_power_from_averages(
    voltage: Voltage,
    current: Current,
    waveform: Waveform,
) -> Result<Power, HeatError> {
    match waveform {
        Waveform::Controlled => Err(HeatError::WaveformControlled),
        Waveform::NotControlled => Ok(Power::computed(voltage.volts() * current.amperes())?),
    }
}

/// Arc energy by method B, [`ARC_ENERGY_FROM_ENERGY`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a length of zero.
pub fn arc_energy_from_energy(
    energy: Energy,
    length: RunLength,
) -> Result<ArcEnergy, QuantityError> {
    ArcEnergy::computed(energy.joules() / (1_000.0 * length.mm()))
}

/// Arc energy by method C, [`ARC_ENERGY_FROM_POWER`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a travel speed of zero.
pub fn arc_energy_from_power(power: Power, speed: TravelSpeed) -> Result<ArcEnergy, QuantityError> {
    ArcEnergy::computed(power.watts() * 60.0 / (1_000.0 * speed.mm_per_min()))
}

/// Arc energy by method C, [`ARC_ENERGY_FROM_POWER_AND_TIME`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a length of zero.
pub fn arc_energy_from_power_and_time(
    power: Power,
    time: Duration,
    length: RunLength,
) -> Result<ArcEnergy, QuantityError> {
    ArcEnergy::computed(power.watts() * time.seconds() / (1_000.0 * length.mm()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ideal two-level pulse: 350 A at 32 V for 30 %, 80 A at 20 V for 70 %, 360 mm/min. Mean power
    /// 4480 W gives 0.7467 kJ/mm; averages (23.6 V, 161 A) would say 0.6333 (own arithmetic).
    #[test]
    fn averages_of_a_controlled_waveform_are_refused() {
        let (volts, amperes) = ("23.6 V".parse().unwrap(), "161 A".parse().unwrap());
        let speed = "360 mm/min".parse().unwrap();
        let refused = arc_energy_from_averages(volts, amperes, speed, Waveform::Controlled);
        let message = refused.unwrap_err().to_string();
        assert!(message.contains("method B") && message.contains("method C"), "{message}");
        let energy = arc_energy_from_power("4480 W".parse().unwrap(), speed).unwrap();
        assert_eq!(energy.to_string(), "0.7467 kJ/mm");
    }

    /// NAVSEA S9074-AQ-GIB-010/248 Rev 1, 4-4.1.13.2 (formula): 24 V and 220 A are 5280 W (own
    /// arithmetic).
    #[test]
    fn power_of_averages_has_the_same_guard() {
        let (volts, amperes) = ("24 V".parse().unwrap(), "220 A".parse().unwrap());
        let power = arc_power_from_averages(volts, amperes, Waveform::NotControlled);
        assert_eq!(power, Ok("5280 W".parse().unwrap()));
        let refused = arc_power_from_averages(volts, amperes, Waveform::Controlled);
        assert_eq!(refused, Err(HeatError::WaveformControlled));
    }

    #[test]
    fn a_run_that_does_not_move_has_no_arc_energy() {
        let still = TravelSpeed::computed(0.0).unwrap();
        let (volts, amperes) = ("24 V".parse().unwrap(), "200 A".parse().unwrap());
        let result = arc_energy_from_averages(volts, amperes, still, Waveform::NotControlled);
        assert!(matches!(result, Err(HeatError::Quantity(QuantityError::NotFinite { .. }))));
    }
}
