//! Arc energy and heat input of settings given as intervals: the lowest and highest they allow.

use super::{
    HeatError, Waveform, arc_energy::from_averages, arc_energy_from_energy, arc_energy_from_power,
    arc_energy_from_power_and_time, heat_input,
};
use crate::{
    quantity::{
        ArcEnergyKind, CurrentKind, DurationKind, EnergyKind, HeatInputKind, PowerKind,
        QuantityError, RunLengthKind, Share, Span, TravelSpeedKind, VoltageKind,
    },
    trade::corners::span_of,
};

/// Method A over intervals: coldest at low volts, low amps and high speed, hottest at the opposite.
///
/// # Errors
/// As [`arc_energy_from_averages`](super::arc_energy_from_averages).
pub fn arc_energy_span(
    voltage: &Span<VoltageKind>,
    current: &Span<CurrentKind>,
    speed: &Span<TravelSpeedKind>,
    waveform: Waveform,
) -> Result<Span<ArcEnergyKind>, HeatError> {
    if waveform == Waveform::Controlled {
        return Err(HeatError::WaveformControlled);
    }
    let low = from_averages(voltage.low(), current.low(), speed.high());
    let high = from_averages(voltage.high(), current.high(), speed.low());
    Ok(span_of(low, high)?)
}

/// Method B over intervals.
///
/// # Errors
/// As [`arc_energy_from_energy`].
pub fn arc_energy_span_from_energy(
    energy: &Span<EnergyKind>,
    length: &Span<RunLengthKind>,
) -> Result<Span<ArcEnergyKind>, QuantityError> {
    span_of(
        arc_energy_from_energy(energy.low(), length.high()),
        arc_energy_from_energy(energy.high(), length.low()),
    )
}

/// Method C over intervals of power and travel speed.
///
/// # Errors
/// As [`arc_energy_from_power`].
pub fn arc_energy_span_from_power(
    power: &Span<PowerKind>,
    speed: &Span<TravelSpeedKind>,
) -> Result<Span<ArcEnergyKind>, QuantityError> {
    span_of(
        arc_energy_from_power(power.low(), speed.high()),
        arc_energy_from_power(power.high(), speed.low()),
    )
}

/// Method C over intervals of power, arc time and length.
///
/// # Errors
/// As [`arc_energy_from_power_and_time`].
pub fn arc_energy_span_from_power_and_time(
    power: &Span<PowerKind>,
    time: &Span<DurationKind>,
    length: &Span<RunLengthKind>,
) -> Result<Span<ArcEnergyKind>, QuantityError> {
    span_of(
        arc_energy_from_power_and_time(power.low(), time.low(), length.high()),
        arc_energy_from_power_and_time(power.high(), time.high(), length.low()),
    )
}

/// Heat input over an interval of arc energy, at one thermal efficiency.
///
/// # Errors
/// As [`heat_input`].
pub fn heat_input_span(
    arc_energy: &Span<ArcEnergyKind>,
    efficiency: Share,
) -> Result<Span<HeatInputKind>, HeatError> {
    let low = heat_input(arc_energy.low(), efficiency)?;
    let high = heat_input(arc_energy.high(), efficiency)?;
    Ok(span_of(Ok(low), Ok(high))?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Kind, Quantity};

    fn span<K: Kind>(low: &str, high: &str) -> Span<K> {
        let [low, high]: [Quantity<K>; 2] = [low.parse().unwrap(), high.parse().unwrap()];
        Span::new(low, high).unwrap()
    }

    fn job_card() -> Span<ArcEnergyKind> {
        arc_energy_span(
            &span("24 V", "26 V"),
            &span("200 A", "240 A"),
            &span("240 mm/min", "300 mm/min"),
            Waveform::NotControlled,
        )
        .unwrap()
    }

    /// 24 * 200 * 60 / (1000 * 300) = 0.96; 26 * 240 * 60 / (1000 * 240) = 1.56 (own arithmetic).
    #[test]
    fn the_corners_are_the_coldest_and_the_hottest_setting() {
        assert_eq!(job_card(), span("0.96 kJ/mm", "1.56 kJ/mm"));
    }

    /// 0.8 * 0.96 = 0.768; 0.8 * 1.56 = 1.248 (own arithmetic).
    #[test]
    fn heat_input_keeps_both_corners() {
        let span_of_heat = heat_input_span(&job_card(), "80 %".parse().unwrap()).unwrap();
        assert_eq!(span_of_heat, span("0.768 kJ/mm", "1.248 kJ/mm"));
    }

    #[test]
    fn intervals_of_a_controlled_waveform_are_refused_like_values() {
        let refused = arc_energy_span(
            &span("24 V", "26 V"),
            &span("200 A", "240 A"),
            &span("240 mm/min", "300 mm/min"),
            Waveform::Controlled,
        );
        assert_eq!(refused, Err(HeatError::WaveformControlled));
    }

    /// 60 000 J / 250 mm = 0.24 kJ/mm, 62 500 / 200 = 0.3125; 5000 W at 300 mm/min is 1.0,
    /// 5500 W at 250 is 1.32; 5000 W * 60 s / 300 mm = 1.0, 5500 * 62 / 250 = 1.364 (own arithmetic).
    #[test]
    fn measured_energy_and_power_have_corners_too() {
        let by_energy =
            arc_energy_span_from_energy(&span("60 kJ", "62.5 kJ"), &span("200 mm", "250 mm"));
        assert_eq!(by_energy, Ok(span("0.24 kJ/mm", "0.3125 kJ/mm")));
        let power = span("5000 W", "5500 W");
        let by_speed = arc_energy_span_from_power(&power, &span("250 mm/min", "300 mm/min"));
        assert_eq!(by_speed, Ok(span("1 kJ/mm", "1.32 kJ/mm")));
        let by_time = arc_energy_span_from_power_and_time(
            &power,
            &span("60 s", "62 s"),
            &span("250 mm", "300 mm"),
        );
        assert_eq!(by_time, Ok(span("1 kJ/mm", "1.364 kJ/mm")));
    }
}
