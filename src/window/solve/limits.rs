//! Every limit of a case as faces of a space.

use crate::{
    check::{
        Authority, Case, Force, Given, NUMERIC, Readings, Role, Settings, Variable, WireMetal,
    },
    quantity::{
        AmountRange, Area, DepositionRateKind, Kind, Leg, ShareKind, Span, TravelSpeed, UnitSystem,
        WireFeed,
    },
    trade::{JointKind, usual_shape_factors},
    window::{
        Derived, Follows, Holder, Question, Response, RunSize, Space, Subject,
        boxes::bounds,
        space::{CURRENT, FEED, ORDER, STICK_OUT, plausible, usual_step},
    },
};

/// Feed and speed at which the size of a run is computed; it goes with their ratio.
const PROBE: (f64, f64) = (10.0, 300.0);

/// The space of a case without its response.
pub(super) fn of_case(case: &Case<'_>, question: &Question) -> Space {
    let process = case.procedure.process;
    let mut space = Space::new(process, case.readings.waveform, &question.spread);
    space.write_in(question.units);
    for variable in NUMERIC.iter().filter(|variable| case.lacks(**variable).is_none()) {
        for bound in bounds(case, *variable) {
            space.limit(*variable, &bound.range, &Holder::Record(bound.owner), bound.force);
        }
    }
    steps(case, question.units, &mut space);
    job(case, question, &mut space);
    if let Some(line) = &question.output_line {
        let of_station = |station| Holder::Record(Authority::Station(station).owner());
        space.output_line(line, &case.station.map_or(Holder::Job, of_station));
    }
    for &variable in &question.chosen {
        let chosen = stated(&case.setup.settings, case.readings, variable);
        let why = match (space.lacks(variable), chosen) {
            (None, Some(range)) => {
                space.choose(variable, &range);
                continue;
            }
            (Some(why), _) => why,
            (None, None) => "the setup states none".to_owned(),
        };
        let why = format!("A {variable} is chosen, but {why}.");
        space.cannot_keep(Subject::Variable(variable), why);
    }
    // After what is chosen, so that errors count at the readings that are left.
    for guard in &question.guards {
        let variable = guard.variable;
        match space.lacks(variable) {
            None => space.guard(guard),
            Some(why) => {
                let why = format!("An error of the {variable} is to be kept inside, but {why}.");
                space.cannot_keep(Subject::Variable(variable), why);
            }
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
pub(in crate::window) fn stated(
    settings: &Settings,
    readings: &Readings,
    variable: Variable,
) -> Option<AmountRange> {
    fn range<K: Kind>(given: Option<&Given<K>>) -> Option<AmountRange> {
        given.map(|given| given.span.amounts())
    }
    match variable {
        Variable::WireFeed => range(settings.wire_feed.as_ref()),
        Variable::Voltage => range(settings.voltage.as_ref()),
        Variable::Current => range(settings.current.as_ref()),
        Variable::TravelSpeed => range(readings.travel_speed.as_ref()),
        Variable::StickOut => range(readings.stick_out.as_ref()),
        Variable::ArcPower => range(settings.arc_power.as_ref()),
        _ => None,
    }
}

/// What the job asks of one run.
fn job(case: &Case<'_>, question: &Question, space: &mut Space) {
    let cannot_keep = |space: &mut Space, demand: Derived, asked: AmountRange, why: &str| {
        let subject = Subject::Derived(demand);
        let why = format!("The {subject} asked for, {asked}, is not shown to be kept: {why}");
        space.cannot_keep(subject, why);
    };
    // The leg may take more runs than this one, and its face is an estimate: advice, as the check has it.
    if let (Some(leg), Ok((size, shape))) = (leg(case), size_and_shape(case)) {
        space.leg_at_least(leg, &size, &shape, Force::Advised);
    }
    if let Some(wanted) = &question.run_area {
        match run_size(case) {
            Ok(size) => space.run_area(wanted, &size, false),
            Err(why) => cannot_keep(space, Derived::RunArea, wanted.amounts(), &why),
        }
    }
    if let Some(wanted) = &question.deposition_rate {
        match deposited(case) {
            Ok((feed, rate)) => space.deposition_rate(wanted, feed, &rate),
            Err(why) => cannot_keep(space, Derived::DepositionRate, wanted.amounts(), &why),
        }
    }
}

/// Deposition rate of the case at one feed.
fn deposited(case: &Case<'_>) -> Result<(WireFeed, Span<DepositionRateKind>), String> {
    let feed = WireFeed::computed(PROBE.0).map_err(|error| error.to_string())?;
    Ok((feed, metal(case)?.rate(feed).map_err(|why| why.to_string())?))
}

/// The leg that the job asks for; as for the check, of a fillet unless the joint is said to be a butt joint.
fn leg(case: &Case<'_>) -> Option<Leg> {
    let job = &case.setup.job;
    job.leg.filter(|_| job.joint != Some(JointKind::Butt))
}

fn size_and_shape(case: &Case<'_>) -> Result<(RunSize, Span<ShareKind>), String> {
    Ok((run_size(case)?, usual_shape_factors().map_err(|error| error.to_string())?))
}

/// What the window of a case leaves out, in words.
pub(super) fn left_out(case: &Case<'_>, question: &Question) -> Vec<String> {
    let leg = leg(case).zip(size_and_shape(case).err());
    let leg = leg.map(|(leg, why)| {
        format!("That one run leaves the leg of {leg} is not in the window, and advice only: {why}")
    });
    leg.into_iter().chain(unused_rates(case, question)).collect()
}

/// Why printed deposition rates are not what a demand on the metal of a run rests on; `None` where they are, where
/// there are none, or where nothing is asked of it.
fn unused_rates(case: &Case<'_>, question: &Question) -> Option<String> {
    let asked = case.setup.job.leg.is_some()
        || question.run_area.is_some()
        || question.deposition_rate.is_some();
    metal(case).ok().filter(|_| asked)?.unused().map(ToString::to_string)
}

/// What one run of the case deposits.
///
/// # Errors
/// What is not known of it, in words.
pub(in crate::window) fn run_size(case: &Case<'_>) -> Result<RunSize, String> {
    size(&metal(case)?)
}

fn metal(case: &Case<'_>) -> Result<WireMetal, String> {
    WireMetal::of(&case.figure_inputs()).map_err(|why| why.to_string())
}

fn size(metal: &WireMetal) -> Result<RunSize, String> {
    let feed = WireFeed::computed(PROBE.0).map_err(|error| error.to_string())?;
    let speed = TravelSpeed::computed(PROBE.1).map_err(|error| error.to_string())?;
    let area = metal.run_area(feed, speed).map_err(|why| why.to_string())?;
    if Area::computed(0.0).is_ok_and(|nothing| area.low().at_most(nothing)) {
        return Err("The cross-section of a run is no number.".to_owned());
    }
    Ok(RunSize { feed, speed, area })
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
