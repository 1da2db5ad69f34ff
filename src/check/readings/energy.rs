//! Arc power, arc energy and heat input of the settings, by whichever method they allow.

use super::{Computed, Missing, either, uncertainty::of_product};
use crate::{
    check::{Arcs, Given, Origin, Settings},
    quantity::{ArcEnergyKind, HeatInputKind, Kind, Power, PowerKind, Span, TravelSpeedKind},
    trade::{self, Formula, Process, Waveform},
};

/// Average volts times average amps, where that is a power at all.
pub(super) fn volt_amperes(
    settings: &Settings,
    waveform: Option<Waveform>,
    arcs: Arcs,
) -> Result<Given<PowerKind>, Missing> {
    not_controlled(waveform)?;
    match arcs {
        Arcs::One => {}
        Arcs::Several => return Err(SEVERAL),
        Arcs::Unsaid => return Err(UNSAID),
    }
    let voltage = settings.voltage.as_ref().ok_or(Missing("No arc voltage is stated"))?;
    let current = settings.current.as_ref().ok_or(Missing("No welding current is stated"))?;
    let product = |volts: f64, amperes: f64| Power::computed(volts * amperes).map_err(|_| ODD);
    let low = product(voltage.span.low().volts(), current.span.low().amperes())?;
    let high = product(voltage.span.high().volts(), current.span.high().amperes())?;
    let span = Span::new(low, high).map_err(|_| ODD)?;
    Ok(of_product(span, &[voltage.into(), current.into()]))
}

/// The power of several electrodes with a plain output, between that of all at the lowest and all at the highest volts and
/// amps: what is stated for all, and nobody measured, is no less and no more than that. `None` where it is not known.
pub(super) fn of_all_arcs(
    settings: &Settings,
    waveform: Option<Waveform>,
    arcs: Arcs,
) -> Option<Given<PowerKind>> {
    let number = f64::from(settings.electrodes.filter(|_| arcs == Arcs::Several)?);
    let one = volt_amperes(settings, waveform, Arcs::One).ok()?;
    let all = |power: Power| Power::computed(number * power.canonical());
    let span = Span::new(all(one.span.low()).ok()?, all(one.span.high()).ok()?).ok()?;
    Some(Given { span, ..one })
}

/// Volts times amps is refused while nobody says that the output is plain.
const fn not_controlled(waveform: Option<Waveform>) -> Result<(), Missing> {
    match waveform {
        Some(Waveform::NotControlled) => Ok(()),
        Some(Waveform::Controlled) => Err(Missing(
            "The output is waveform-controlled, where volts times amps is no arc power, and \
             neither power nor energy was measured",
        )),
        None => Err(Missing(
            "Nobody says whether the output is waveform-controlled, so volts times amps may be no \
             arc power",
        )),
    }
}

const SEVERAL: Missing = Missing(
    "Several electrodes burn together, where volts times amps is the power of one of them, and neither \
     arc power nor energy of the run is stated for all",
);

const UNSAID: Missing = Missing(
    "The procedure lets several electrodes burn together, and the setup does not say how many do, so \
     nothing stated is the power or energy of all",
);

const OF_NO_LENGTH: Missing = Missing(
    "Several electrodes burn together, and what is stated for all gives no energy per length: the energy of the run \
     needs its length, the arc power a travel speed or length and time",
);

/// Mean arc power: as measured, else volts times amps; one that is stated and that nobody measured does not replace
/// volts times amps, a limit then holds for both. None while nobody says of how many arcs.
pub(super) fn arc_power(
    settings: &Settings,
    volt_amperes: Result<Given<PowerKind>, Missing>,
    of_all: Option<Given<PowerKind>>,
    arcs: Arcs,
) -> Result<Given<PowerKind>, Missing> {
    if arcs == Arcs::Unsaid {
        return Err(UNSAID);
    }
    let Some(stated) = settings.arc_power else { return volt_amperes };
    match volt_amperes.ok().or(of_all) {
        Some(computed) if !is_measured(&stated) => either(Some(stated), Some(computed)).ok_or(ODD),
        _ => Ok(stated),
    }
}

fn is_measured<K: Kind>(given: &Given<K>) -> bool {
    given.origin == Origin::Measured
}

const ODD: Missing = Missing("The stated values give no finite result");

const NO_SPEED: Missing =
    Missing("No travel speed is stated, and none follows from run length and arc time");

/// Arc energy by ISO/TR 18491: method B from measured energy, method C from measured power, else method A from
/// averages. What is stated and nobody measured replaces none of the others: a limit then holds for all.
pub(super) fn arc_energy(
    settings: &Settings,
    speed: Option<&Given<TravelSpeedKind>>,
    volt_amperes: Result<&Given<PowerKind>, &Missing>,
    of_all: Option<&Given<PowerKind>>,
    arcs: Arcs,
) -> Result<Computed<ArcEnergyKind>, Missing> {
    if arcs == Arcs::Unsaid {
        return Err(UNSAID);
    }
    if settings.run_energy.is_none() && settings.arc_power.is_none() {
        return by_averages(settings, speed, volt_amperes);
    }
    let by_energy = by_energy(settings);
    if let Some(measured) =
        by_energy.filter(|_| settings.run_energy.as_ref().is_some_and(is_measured))
    {
        return Ok(measured);
    }
    let by_power = by_power(settings, speed);
    if by_power.is_some() && settings.arc_power.as_ref().is_some_and(is_measured) {
        return both(by_energy, by_power).ok_or(ODD);
    }
    let Some(stated) = both(by_energy, by_power) else {
        // Of what is stated for all, nothing says how much of it a length gets; volts and amps are those of one.
        let nothing_of_all = arcs == Arcs::Several;
        return if nothing_of_all {
            Err(OF_NO_LENGTH)
        } else {
            by_averages(settings, speed, volt_amperes)
        };
    };
    let averages = match of_all.zip(speed) {
        Some((power, speed)) => {
            Some(over_speed(power, speed, &trade::ARC_ENERGY_FROM_AVERAGES).ok_or(ODD)?)
        }
        None => by_averages(settings, speed, volt_amperes).ok(),
    };
    both(Some(stated), averages).ok_or(ODD)
}

/// All values between two that may both be right, by the formula of the first.
fn both<K: Kind>(first: Option<Computed<K>>, other: Option<Computed<K>>) -> Option<Computed<K>> {
    let formula = first.or(other)?.formula;
    let given = either(first.map(|first| first.given), other.map(|other| other.given))?;
    Some(Computed { given, formula })
}

/// The arc energy of a measured run energy, and the one that power and speed of the same run give; none while nobody
/// says of how many arcs they are.
pub(super) fn measured_and_following(
    settings: &Settings,
    speed: Option<&Given<TravelSpeedKind>>,
    volt_amperes: Result<&Given<PowerKind>, &Missing>,
    arcs: Arcs,
) -> Option<[Given<ArcEnergyKind>; 2]> {
    let measured = by_energy(settings).filter(|_| arcs != Arcs::Unsaid)?;
    let follows =
        by_power(settings, speed).or_else(|| by_averages(settings, speed, volt_amperes).ok())?;
    Some([measured.given, follows.given])
}

fn by_energy(settings: &Settings) -> Option<Computed<ArcEnergyKind>> {
    let (energy, length) = (settings.run_energy.as_ref()?, settings.run_length.as_ref()?);
    let span = trade::arc_energy_span_from_energy(&energy.span, &length.span).ok()?;
    let given = of_product(span, &[energy.into(), length.into()]);
    Some(Computed { given, formula: &trade::ARC_ENERGY_FROM_ENERGY })
}

/// By time and length of the run; where the setup states a travel speed too, by all speeds between the two.
fn by_power(
    settings: &Settings,
    speed: Option<&Given<TravelSpeedKind>>,
) -> Option<Computed<ArcEnergyKind>> {
    let by_time = || by_power_and_time(settings).filter(|_| settings.travel_speed.is_none());
    by_time().or_else(|| by_power_and_speed(settings, speed))
}

fn by_power_and_time(settings: &Settings) -> Option<Computed<ArcEnergyKind>> {
    let power = settings.arc_power.as_ref()?;
    let (time, length) = (settings.arc_time.as_ref()?, settings.run_length.as_ref()?);
    let span =
        trade::arc_energy_span_from_power_and_time(&power.span, &time.span, &length.span).ok()?;
    let given = of_product(span, &[power.into(), time.into(), length.into()]);
    Some(Computed { given, formula: &trade::ARC_ENERGY_FROM_POWER_AND_TIME })
}

fn by_power_and_speed(
    settings: &Settings,
    speed: Option<&Given<TravelSpeedKind>>,
) -> Option<Computed<ArcEnergyKind>> {
    over_speed(settings.arc_power.as_ref()?, speed?, &trade::ARC_ENERGY_FROM_POWER)
}

fn over_speed(
    power: &Given<PowerKind>,
    speed: &Given<TravelSpeedKind>,
    formula: &'static Formula,
) -> Option<Computed<ArcEnergyKind>> {
    let span = trade::arc_energy_span_from_power(&power.span, &speed.span).ok()?;
    let given = of_product(span, &[power.into(), speed.into()]);
    Some(Computed { given, formula })
}

fn by_averages(
    settings: &Settings,
    speed: Option<&Given<TravelSpeedKind>>,
    volt_amperes: Result<&Given<PowerKind>, &Missing>,
) -> Result<Computed<ArcEnergyKind>, Missing> {
    volt_amperes.map_err(|missing| *missing)?;
    let (Some(voltage), Some(current)) = (&settings.voltage, &settings.current) else {
        return Err(ODD);
    };
    let speed = speed.ok_or(NO_SPEED)?;
    let span =
        trade::arc_energy_span(&voltage.span, &current.span, &speed.span, Waveform::NotControlled);
    let span = span.map_err(|_| ODD)?;
    let given = of_product(span, &[voltage.into(), current.into(), speed.into()]);
    Ok(Computed { given, formula: &trade::ARC_ENERGY_FROM_AVERAGES })
}

/// Heat input from arc energy. The factor has no uncertainty of its own: a code fixes it.
pub(super) fn heat_input(
    arc_energy: Result<&Computed<ArcEnergyKind>, &Missing>,
    process: Option<Process>,
) -> Result<Computed<HeatInputKind>, Missing> {
    let arc_energy = arc_energy.map_err(|missing| *missing)?;
    let process =
        process.ok_or(Missing("No process is stated, so no thermal efficiency is known"))?;
    let (efficiency, _) = trade::thermal_efficiency(process)
        .ok_or(Missing("EN 1011-1 lists no thermal efficiency for this process"))?;
    let span = trade::heat_input_span(&arc_energy.given.span, efficiency).map_err(|_| ODD)?;
    let given = of_product(span, &[(&arc_energy.given).into()]);
    Ok(Computed { given, formula: &trade::HEAT_INPUT })
}
