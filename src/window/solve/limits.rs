//! Every limit of a case as faces of a space.

use std::fmt;

use crate::{
    check::{Authority, Case, Force, Given, NUMERIC, Role, Variable, WireMetal},
    quantity::{AmountRange, Area, Kind, TravelSpeed, UnitSystem, WireFeed},
    trade::{JointKind, usual_shape_factors},
    window::{
        Follows, Holder, Question, Response, RunSize, Space,
        boxes::bounds,
        space::{CURRENT, FEED, ORDER, STICK_OUT, plausible, usual_step},
    },
};

/// Feed and speed at which the size of a run is computed; it goes with their ratio.
const PROBE: (f64, f64) = (10.0, 300.0);

/// The space of a case without its response.
pub(super) fn of_case(case: &Case<'_>, question: &Question, notes: &mut Vec<String>) -> Space {
    let process = case.procedure.process;
    let mut space = Space::new(process, case.readings.waveform, &question.spread);
    space.write_in(question.units);
    for variable in NUMERIC.iter().filter(|variable| case.lacks(**variable).is_none()) {
        for bound in bounds(case, *variable) {
            space.limit(*variable, &bound.range, &Holder::Record(bound.owner), bound.force);
        }
    }
    steps(case, question.units, &mut space);
    if let Err(why) = job(case, question, &mut space, notes) {
        notes.push(why);
    }
    if let Some(line) = &question.output_line {
        let of_station = |station| Holder::Record(Authority::Station(station).owner());
        space.output_line(line, &case.station.map_or(Holder::Job, of_station));
    }
    for guard in &question.guards {
        space.guard(guard);
    }
    for variable in &question.chosen {
        if let Some(range) = stated(case, *variable) {
            space.choose(*variable, &range);
        }
    }
    space
}

/// Steps of what is dialled: the station's, else the usual ones.
fn steps(case: &Case<'_>, system: UnitSystem, space: &mut Space) {
    for (axis, variable) in ORDER.iter().enumerate() {
        if space.role(axis) != Some(Role::Settable) {
            continue;
        }
        let own = case.station.and_then(|station| station.steps.of(*variable));
        if let Some(step) = own.or_else(|| usual_step(axis, system)) {
            space.step(*variable, step);
        }
    }
}

/// What the setup states of a setting.
fn stated(case: &Case<'_>, variable: Variable) -> Option<AmountRange> {
    fn range<K: Kind>(given: Option<&Given<K>>) -> Option<AmountRange> {
        given.map(|given| given.span.amounts())
    }
    let settings = &case.setup.settings;
    match variable {
        Variable::WireFeed => range(settings.wire_feed.as_ref()),
        Variable::Voltage => range(settings.voltage.as_ref()),
        Variable::Current => range(settings.current.as_ref()),
        Variable::TravelSpeed => range(case.readings.travel_speed.as_ref()),
        Variable::StickOut => range(case.readings.stick_out.as_ref()),
        Variable::ArcPower => range(settings.arc_power.as_ref()),
        _ => None,
    }
}

/// What the job asks of one run.
fn job(
    case: &Case<'_>,
    question: &Question,
    space: &mut Space,
    notes: &mut Vec<String>,
) -> Result<(), String> {
    let job = &case.setup.job;
    let leg = job.leg.filter(|_| job.joint == Some(JointKind::Fillet));
    if leg.is_none() && question.run_area.is_none() && question.deposition_rate.is_none() {
        return Ok(());
    }
    let metal = metal(case)?;
    notes.extend(metal.unused().map(ToString::to_string));
    if leg.is_some() || question.run_area.is_some() {
        let size = size(&metal)?;
        if let Some(leg) = leg {
            let shape = usual_shape_factors().map_err(|error| error.to_string())?;
            // The leg may take more runs than this one, and its face is an estimate: advice, as the check has it.
            space.leg_at_least(leg, &size, &shape, Force::Advised);
        }
        if let Some(wanted) = &question.run_area {
            space.run_area(wanted, &size, false);
        }
    }
    if let Some(wanted) = &question.deposition_rate {
        let feed = WireFeed::computed(PROBE.0).map_err(|error| error.to_string())?;
        let rate = metal.rate(feed).map_err(not_in_window)?;
        space.deposition_rate(wanted, feed, &rate);
    }
    Ok(())
}

/// What one run of the case deposits.
///
/// # Errors
/// What is not known of it, in words.
pub(in crate::window) fn run_size(case: &Case<'_>) -> Result<RunSize, String> {
    size(&metal(case)?)
}

fn metal(case: &Case<'_>) -> Result<WireMetal, String> {
    WireMetal::of(&case.figure_inputs()).map_err(not_in_window)
}

fn size(metal: &WireMetal) -> Result<RunSize, String> {
    let feed = WireFeed::computed(PROBE.0).map_err(|error| error.to_string())?;
    let speed = TravelSpeed::computed(PROBE.1).map_err(|error| error.to_string())?;
    let area = metal.run_area(feed, speed).map_err(not_in_window)?;
    if Area::computed(0.0).is_ok_and(|nothing| area.low().at_most(nothing)) {
        return Err("The cross-section of a run is no number.".to_owned());
    }
    Ok(RunSize { feed, speed, area })
}

fn not_in_window(reason: impl fmt::Display) -> String {
    format!("What the job asks of one run is not in the window: {reason}")
}

/// The response of the current, within the feeds and stick-outs that the required limits leave.
///
/// # Errors
/// Why there is none; nothing where the current does not follow, or is chosen.
pub(super) fn robust(case: &Case<'_>, space: &Space) -> Result<Response, Option<String>> {
    if *space.follows() == Follows::IsSet || space.chosen[CURRENT] {
        return Err(None);
    }
    if !case.procedure.process.is_constant_voltage_wire() {
        return Err(Some("the source does not hold the voltage constant".to_owned()));
    }
    let region = space.region(Force::Required);
    let reach = |axis: usize| {
        let (low, high) = region.polytope.ends_of(axis).unwrap_or_else(|| plausible(axis));
        (low - space.stray(axis).down, high + space.stray(axis).up)
    };
    Response::of_data(case, (reach(FEED), reach(STICK_OUT))).map_err(Some)
}
