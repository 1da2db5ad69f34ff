//! Arc energy of readings, with the uncertainty that the instruments leave.

use super::{Accuracy, HeatError, Waveform, arc_energy_from_averages, combined_uncertainty};
use crate::{
    quantity::{
        ArcEnergy, CurrentKind, Kind, Quantity, QuantityError, Share, TravelSpeedKind, VoltageKind,
    },
    trade::formula,
};

formula! {
    /// Uncertainty of arc energy by averages.
    pub const ARC_ENERGY_UNCERTAINTY {
        name: "arc-energy-uncertainty",
        equation: "U(E)/E = sqrt((U(U)/U)^2 + (U(I)/I)^2 + (U(v)/v)^2); every part at coverage factor 2",
        source: "JCGM 100:2008, 5.1.6 and 6.2",
        validity: "three independent instruments; the scatter of the welding itself is not counted",
        confidence: Memory,
    }
}

/// A value read and what is known of its instrument.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading<K: Kind> {
    /// The value shown.
    pub value: Quantity<K>,
    /// The instrument's accuracy.
    pub accuracy: Accuracy<K>,
}

/// Readings of one steady arc.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArcReadings {
    /// Mean voltage near the arc.
    pub voltage: Reading<VoltageKind>,
    /// Mean current.
    pub current: Reading<CurrentKind>,
    /// Travel speed.
    pub speed: Reading<TravelSpeedKind>,
    /// Whether the output is waveform-controlled.
    pub waveform: Waveform,
}

/// Arc energy and how well it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UncertainArcEnergy {
    /// From the values shown.
    pub value: ArcEnergy,
    /// Expanded uncertainty as a share of the value; `None` where one instrument's error is unknown.
    pub relative: Option<Share>,
    /// Expanded uncertainty itself.
    pub absolute: Option<ArcEnergy>,
}

impl<K: Kind> Reading<K> {
    /// Expanded uncertainty as a share of the value; `None` where unknown.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] for a reading of zero.
    pub fn relative(&self) -> Result<Option<Share>, QuantityError> {
        let shown = self.value.canonical().abs();
        let error = self.accuracy.at_reading(shown);
        error.map(|error| Share::computed(error.expanded() / shown)).transpose()
    }
}

/// Arc energy by averages with its uncertainty, [`ARC_ENERGY_UNCERTAINTY`].
///
/// # Errors
/// As [`arc_energy_from_averages`].
pub fn arc_energy_of_readings(readings: &ArcReadings) -> Result<UncertainArcEnergy, HeatError> {
    let ArcReadings { voltage, current, speed, waveform } = readings;
    let value = arc_energy_from_averages(voltage.value, current.value, speed.value, *waveform)?;
    let parts = [voltage.relative()?, current.relative()?, speed.relative()?];
    let known: Option<Vec<Share>> = parts.into_iter().collect();
    let relative = known.map(|parts| combined_uncertainty(&parts)).transpose()?;
    let absolute =
        relative.map(|share| ArcEnergy::computed(share.ratio() * value.kj_per_mm())).transpose()?;
    Ok(UncertainArcEnergy { value, relative, absolute })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::{ErrorModel, ErrorSize};

    fn share(text: &str) -> Share {
        text.parse().unwrap()
    }

    fn readings() -> ArcReadings {
        ArcReadings {
            voltage: Reading {
                value: "24 V".parse().unwrap(),
                accuracy: Accuracy::of_reading(share("3 %")),
            },
            current: Reading {
                value: "200 A".parse().unwrap(),
                accuracy: Accuracy::Known(
                    ErrorModel::Expanded,
                    ErrorSize::OfFullScale {
                        share: share("1.5 %"),
                        full_scale: "400 A".parse().unwrap(),
                    },
                ),
            },
            speed: Reading {
                value: "300 mm/min".parse().unwrap(),
                accuracy: Accuracy::of_amount("15 mm/min".parse().unwrap()),
            },
            waveform: Waveform::NotControlled,
        }
    }

    /// Own arithmetic: 1.5 % of 400 A is 3 % of 200 A, 15 mm/min is 5 % of 300; sqrt(9 + 9 + 25) =
    /// 6.557 % of 0.96 kJ/mm are 0.06295.
    #[test]
    fn three_forms_of_accuracy_meet_in_one_result() {
        let got = arc_energy_of_readings(&readings()).unwrap();
        assert_eq!(got.value, "0.96 kJ/mm".parse().unwrap());
        assert_eq!(got.relative.unwrap().to_string(), "6.557 %");
        assert_eq!(got.absolute.unwrap().to_string(), "0.06295 kJ/mm");
    }

    /// A largest error of 2 % leaves 2 % over the root of 3 as standard, twice that as expanded uncertainty:
    /// 2.309 % (own arithmetic by JCGM 100:2008, 4.3.7).
    #[test]
    fn a_largest_error_enters_with_its_standard_uncertainty() {
        let size = ErrorSize::OfReading(share("2 %"));
        let accuracy = Accuracy::Known(ErrorModel::Largest, size);
        let reading = Reading { accuracy, ..readings().voltage };
        assert_eq!(reading.relative().unwrap().unwrap().to_string(), "2.309 %");
    }

    #[test]
    fn one_unknown_instrument_leaves_the_result_without_a_known_error() {
        let mut some = readings();
        some.current.accuracy = Accuracy::Unknown;
        let got = arc_energy_of_readings(&some).unwrap();
        assert_eq!((got.relative, got.absolute), (None, None));
    }

    #[test]
    fn averages_of_a_controlled_waveform_are_refused_here_too() {
        let controlled = ArcReadings { waveform: Waveform::Controlled, ..readings() };
        assert_eq!(arc_energy_of_readings(&controlled), Err(HeatError::WaveformControlled));
    }
}
