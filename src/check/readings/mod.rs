//! Values that follow from a setup, joined with those it states. What can be computed is computed,
//! not trusted: a stated figure is compared with it and never takes its place.

mod arcs;
mod compare;
mod energy;
mod uncertainty;

pub use arcs::Arcs;
pub use compare::{Comparison, compared};

use crate::{
    quantity::{
        ArcEnergyKind, ElectricalStickOutKind, HeatInputKind, Kind, PowerKind, TravelSpeedKind,
    },
    trade::{
        Formula, Process, TRAVEL_SPEED, Waveform, electrical_stick_out_span, travel_speed_span,
    },
};

use super::{
    Accuracy, Given, Origin, Settings, Setup, Variable,
    record::{Procedure, Station},
};
use uncertainty::{of_product, of_sum};

/// A computed value and how it was computed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Computed<K: Kind> {
    /// The value: the worst corners of what is stated, with the combined uncertainty.
    pub given: Given<K>,
    /// The formula.
    pub formula: &'static Formula,
}

/// Why a value cannot be computed, as the start of a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Missing(pub &'static str);

/// Values of one setup.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// Output of the power source, as far as somebody says.
    pub waveform: Option<Waveform>,
    /// How many arcs the values speak of.
    pub arcs: Arcs,
    /// Travel speed as stated, from run length and arc time, or both: then all values between.
    pub travel_speed: Option<Given<TravelSpeedKind>>,
    /// Electrical stick-out as stated, from visible stick-out and tip recess, or both.
    pub stick_out: Option<Given<ElectricalStickOutKind>>,
    /// Mean arc power: as measured, else volts times amps where the output is not controlled; all values between that
    /// and one that is stated and not measured.
    pub arc_power: Result<Given<PowerKind>, Missing>,
    /// Arc energy by ISO/TR 18491; never the stated figure. All values between those of power or energy that are stated
    /// and not measured and those of volts times amps.
    pub arc_energy: Result<Computed<ArcEnergyKind>, Missing>,
    /// Heat input, arc energy times the process's thermal efficiency; never the stated figure.
    pub heat_input: Result<Computed<HeatInputKind>, Missing>,
    /// Values that are both stated and computed.
    pub comparisons: Vec<Comparison>,
}

/// Which output the setup is welded with, where somebody says: the setup itself; else the station,
/// where it has one output only; else the procedure, whose output the setup has to be.
#[must_use]
pub fn output_of(
    setup: &Setup,
    procedure: Option<&Procedure>,
    station: Option<&Station>,
) -> Option<Waveform> {
    let only_one = station.and_then(|station| match station.waveforms[..] {
        [only] => Some(only),
        _ => None,
    });
    setup.settings.waveform.or(only_one).or_else(|| procedure.and_then(|p| p.waveform))
}

impl Readings {
    /// The values of a setup welded with a process and, where known, an output: see [`output_of`].
    /// While nobody says that the output is not waveform-controlled, volts times amps is no power; nor is it that of
    /// several arcs.
    #[must_use]
    pub fn of(
        setup: &Setup,
        process: Option<Process>,
        waveform: Option<Waveform>,
        arcs: Arcs,
    ) -> Self {
        let settings = &setup.settings;
        let speed = speed_of_run(settings);
        let travel_speed = either(settings.travel_speed, speed.map(|speed| speed.given));
        let stick_out = stick_out_of_gun(settings);
        let volt_amperes = energy::volt_amperes(settings, waveform, arcs);
        let of_all = energy::of_all_arcs(settings, waveform, arcs);
        let arc_energy = energy::arc_energy(
            settings,
            travel_speed.as_ref(),
            volt_amperes.as_ref(),
            of_all.as_ref(),
            arcs,
        );
        let heat_input = energy::heat_input(arc_energy.as_ref(), process);
        let (speed, energy, heat) = (
            speed.as_ref().map(|speed| &speed.given),
            arc_energy.as_ref().ok().map(|energy| &energy.given),
            heat_input.as_ref().ok().map(|heat| &heat.given),
        );
        let (stick_out_of_gun, power) =
            (stick_out.as_ref(), volt_amperes.as_ref().ok().or(of_all.as_ref()));
        // One after the other: most are absent, and a list of those that may be there would be moved as a whole.
        let mut comparisons = Vec::new();
        comparisons.extend(compared(Variable::TravelSpeed, settings.travel_speed.as_ref(), speed));
        comparisons.extend(compared(
            Variable::StickOut,
            settings.stick_out.as_ref(),
            stick_out_of_gun,
        ));
        comparisons.extend(compared(Variable::ArcPower, settings.arc_power.as_ref(), power));
        let of_run = energy::measured_and_following(
            settings,
            travel_speed.as_ref(),
            volt_amperes.as_ref(),
            arcs,
        );
        if let Some([measured, follows]) = &of_run {
            comparisons.extend(compared(Variable::RunEnergy, Some(measured), Some(follows)));
        }
        comparisons.extend(compared(Variable::ArcEnergy, settings.arc_energy.as_ref(), energy));
        comparisons.extend(compared(Variable::HeatInput, settings.heat_input.as_ref(), heat));
        Self {
            waveform,
            arcs,
            travel_speed,
            stick_out: either(settings.stick_out, stick_out),
            arc_power: energy::arc_power(settings, volt_amperes, of_all, arcs),
            arc_energy,
            heat_input,
            comparisons,
        }
    }
}

/// Travel speed from length and arc time of the run.
fn speed_of_run(settings: &Settings) -> Option<Computed<TravelSpeedKind>> {
    let (length, time) = (settings.run_length.as_ref()?, settings.arc_time.as_ref()?);
    let span = travel_speed_span(&length.span, &time.span).ok()?;
    let given = of_product(span, &[length.into(), time.into()]);
    Some(Computed { given, formula: &TRAVEL_SPEED })
}

/// Electrical stick-out from what is seen and where the tip sits.
fn stick_out_of_gun(settings: &Settings) -> Option<Given<ElectricalStickOutKind>> {
    let (visible, recess) = (settings.visible_stick_out.as_ref()?, settings.tip_recess.as_ref()?);
    let span = electrical_stick_out_span(&visible.span, &recess.span).ok()?;
    Some(of_sum(span, visible, recess))
}

/// The stated value or the computed one; both where both exist, with the worse uncertainty, so that
/// a limit holds only if it holds whichever of the two is right.
fn either<K: Kind>(stated: Option<Given<K>>, computed: Option<Given<K>>) -> Option<Given<K>> {
    let (stated, computed) = match (stated, computed) {
        (Some(stated), Some(computed)) => (stated, computed),
        (stated, computed) => return stated.or(computed),
    };
    let span = stated.span.hull(computed.span);
    let measured = [&stated, &computed].iter().any(|given| given.origin == Origin::Measured);
    let origin = if measured { Origin::Measured } else { stated.origin };
    let lack = stated.lack.or(computed.lack);
    Some(Given { span, origin, accuracy: worse(&stated, &computed), lack })
}

/// The larger uncertainty of two values; unknown where one is.
fn worse<K: Kind>(a: &Given<K>, b: &Given<K>) -> Accuracy<K> {
    let (Some(of_a), Some(of_b)) = (a.uncertainty(), b.uncertainty()) else {
        return Accuracy::Unknown;
    };
    crate::quantity::Quantity::computed(of_a.max(of_b))
        .map_or(Accuracy::Unknown, Accuracy::of_amount)
}

#[cfg(test)]
mod tests;
