//! Every limit of a case as faces of a space.

use std::cmp::Ordering;

use crate::{
    check::{
        Arcs, Authority, Case, Force, Given, NUMERIC, Notes, PrintedFit, Readings, Role, Settings,
        Variable, WireMetal, leg_owner, most_leg,
    },
    quantity::{
        Amount, AmountRange, Area, DepositionRateKind, Kind, Leg, Range, ShareKind, Span,
        TravelSpeed, UnitSystem, WireFeed,
    },
    trade::{JointKind, usual_shape_factors},
    window::{
        Derived, Follows, Holder, Question, Response, RunSize, Space, Subject,
        boxes::{Bound, bounds, practice},
        space::{
            Asked, CURRENT, FEED, ORDER, Region, STICK_OUT, VOLTAGE, plausible, towards_size,
            usual_step,
        },
    },
};

/// Feed and speed at which the size of a run is computed; it goes with their ratio.
const PROBE: (f64, f64) = (10.0, 300.0);

/// What is said beside the space of a case.
#[derive(Default)]
pub(super) struct Aside {
    /// What is left out of it.
    pub(super) left_out: Vec<String>,
    /// Where the metal of the wire is known from, if something is asked of it.
    pub(super) metal: Notes,
}

/// The space of a case without its response.
pub(super) fn of_case(case: &Case<'_>, question: &Question) -> (Space, Aside) {
    let process = case.procedure.process;
    let mut space = Space::new(process, case.readings.waveform, &question.spread);
    space.write_in(question.units);
    if case.readings.arcs != Arcs::One {
        space.of_several_arcs();
    }
    for variable in NUMERIC.iter().filter(|variable| case.lacks(**variable).is_none()) {
        for bound in bounds(case, *variable) {
            space.limit(*variable, &bound.range, &Holder::Record(bound.owner), bound.force);
        }
    }
    steps(case, question.units, &mut space);
    let aside = job(case, question, &mut space);
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
            None => space.guard(guard, case.book.settings.guard_factor),
            Some(why) => {
                let why = format!("An error of the {variable} is to be kept inside, but {why}.");
                space.cannot_keep(Subject::Variable(variable), why);
            }
        }
    }
    (space, aside)
}

/// Advises of volts that go with the feed; says what is left out.
pub(super) fn printed_volts(case: &Case<'_>, space: &mut Space) -> Option<String> {
    printed(case, space, VOLTAGE)
}

/// Advises of a current that goes with the feed, every one that can follow; says what is left out.
pub(super) fn printed_current(case: &Case<'_>, space: &mut Space) -> Option<String> {
    printed(case, space, CURRENT)
}

/// Advises of volts or current that go with the feed as the printed ones do, as the check compares them. Says so where
/// the window cannot hold that.
fn printed(case: &Case<'_>, space: &mut Space, axis: usize) -> Option<String> {
    // Nothing is to be advised of what is empty already.
    if !space.is_open(Force::Required) {
        return None;
    }
    let (condition, authority) = case.printed_for_feeds().ok().zip(case.printed_data())?;
    let feeds = asked(case, space, &space.region(Force::Required), FEED)?;
    let (derived, fit) = match axis {
        CURRENT => (Derived::PrintedCurrent, PrintedFit::of_current(condition)),
        _ => (Derived::PrintedVolts, PrintedFit::of_volts(condition)),
    };
    let held = space.printed_for_feeds((axis, derived), &fit, &feeds, &authority.owner());
    let of = ORDER[axis];
    held.err().map(|why| {
        format!("That the {of} goes with the feed as printed is not in the window, and advice only: {why}.")
    })
}

/// What is left of feeds or stick-outs, and what the setup states of them.
fn asked(case: &Case<'_>, space: &Space, region: &Region, axis: usize) -> Option<Asked> {
    let ends = reach(space, region, axis)?;
    let stated = stated(&case.setup.settings, case.readings, ORDER[axis]);
    let stated = stated.and_then(|range| range.min.zip(range.max));
    let middle =
        |(low, high): (Amount, Amount)| f64::midpoint(low.canonical().ln(), high.canonical().ln());
    Some(Asked { ends, stated: stated.map(middle) })
}

/// Advises of a current that such a wire usually draws, where nothing is printed for it, as the check compares it. Says
/// so where the window cannot hold that.
pub(super) fn usual_current(case: &Case<'_>, space: &mut Space) -> Option<String> {
    let usual = case.usual_current()?;
    let region = space.region(Force::Required);
    let [feeds, stick_outs] = [FEED, STICK_OUT].map(|axis| asked(case, space, &region, axis));
    let (feeds, stick_outs) = feeds.zip(stick_outs)?;
    let held = space.usual_current(usual, &feeds, &stick_outs);
    held.err().map(|why| {
        format!(
            "That the current is usual for the feed is not in the window, and advice only: {why}."
        )
    })
}

/// Advises of a run that is not over-welded for the leg of the job, where its metal is known.
pub(super) fn over_welding(case: &Case<'_>, space: &mut Space) {
    let asked = leg(case).and_then(most_leg);
    let known = || metal(case).and_then(|metal| size_and_shape(&metal)).ok();
    if let Some((most, (size, shape))) = asked.and_then(|most| Some((most, known()?))) {
        space.leg_at_most(most, &size, &shape, &Holder::Record(leg_owner()));
    }
}

/// How many times the smallest run that can be had one may be where even that is over-welded (own choice): room to
/// set, and no more.
const SMALLEST: f64 = 1.1;

/// Advises of a run that is hardly larger than the smallest that can be had, where even that is over-welded.
pub(super) fn smallest_run(case: &Case<'_>, space: &mut Space) {
    let Ok((size, _)) = run_size(case) else { return };
    let region = space.region(Force::Advised);
    let Some((_, fallen)) = region.polytope.highest(&towards_size(-1.0)) else { return };
    if let Ok(area) = Area::computed((size.most() - fallen).exp() * SMALLEST) {
        space.run_advised(&Range::at_most(area), &size, &Holder::Record(leg_owner()));
    }
}

/// Usual values of a variable: of sources that differ one that is met is enough, so that each end is that of the source
/// that goes furthest.
///
/// # Errors
/// In words, where sources leave something out between them: what is met by some lies in no one range.
pub(super) fn usual(case: &Case<'_>, variable: Variable) -> Result<Vec<Bound>, String> {
    if case.lacks(variable).is_some() {
        return Ok(Vec::new());
    }
    let mut usual = practice(case, variable);
    usual.sort_by(|a, b| below(a.range.min, b.range.min, Ordering::Less));
    let mut sources = usual.into_iter();
    let Some(lowest) = sources.next() else { return Ok(Vec::new()) };
    let mut highest = lowest.clone();
    for next in sources {
        let ends = next.range.min.zip(highest.range.max);
        if ends.is_some_and(|(min, max)| below(Some(min), Some(max), Ordering::Less).is_gt()) {
            return Err(format!(
                "the sources ({} and {}) leave some out between them",
                highest.owner, next.owner
            ));
        }
        if below(highest.range.max, next.range.max, Ordering::Greater).is_lt() {
            highest = next;
        }
    }
    if lowest.range.holds(&highest.range) {
        return Ok(vec![lowest]);
    }
    if highest.range.holds(&lowest.range) {
        return Ok(vec![highest]);
    }
    let (low, high) = (lowest.range.min, highest.range.max);
    let from = Bound { range: AmountRange { min: low, max: None }, ..lowest };
    let to = Bound { range: AmountRange { min: None, max: high }, ..highest };
    Ok(vec![from, to])
}

/// The order of two ends; one that is left open lies on this side of every other.
fn below(a: Option<Amount>, b: Option<Amount>, open: Ordering) -> Ordering {
    match (a, b) {
        (Some(a), Some(b)) => a.compare(b).unwrap_or(Ordering::Equal),
        (None, None) => Ordering::Equal,
        (None, Some(_)) => open,
        (Some(_), None) => open.reverse(),
    }
}

/// Steps of what is dialled: the station's, else the usual ones are assumed.
fn steps(case: &Case<'_>, system: UnitSystem, space: &mut Space) {
    for (axis, variable) in ORDER.iter().enumerate() {
        if space.role(axis) != Some(Role::Settable) {
            continue;
        }
        let own = case.station.and_then(|station| station.steps.of(*variable));
        if let Some(step) = own {
            space.step(*variable, step);
        } else if let Some(step) = usual_step(axis, system) {
            space.assume_step(*variable, step);
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

/// The leg asked for. As for the check, it is one of a fillet unless the joint is said to be a butt joint.
fn leg(case: &Case<'_>) -> Option<Leg> {
    case.setup.job.leg.filter(|_| case.setup.job.joint != Some(JointKind::Butt))
}

/// What the job asks of one run.
fn job(case: &Case<'_>, question: &Question, space: &mut Space) -> Aside {
    let leg = leg(case);
    if leg.is_none() && question.run_area.is_none() && question.deposition_rate.is_none() {
        return Aside::default();
    }
    let metal = metal(case);
    let known = || metal.as_ref().map_err(Clone::clone);
    let cannot_keep = |space: &mut Space, demand: Derived, asked: AmountRange, why: &str| {
        let subject = Subject::Derived(demand);
        let why = format!("The {subject} asked for, {asked}, is not shown to be kept: {why}");
        space.cannot_keep(subject, why);
    };
    let mut left_out = Vec::new();
    if let Some(leg) = leg {
        match known().and_then(size_and_shape) {
            // It may take more runs than this one, and its face is an estimate: advice, as the check has it.
            Ok((size, shape)) => space.leg_at_least(leg, &size, &shape, Force::Advised),
            Err(why) => left_out.push(format!(
                "That one run leaves the leg of {leg} is not in the window, and advice only: {why}"
            )),
        }
    }
    if let Some(wanted) = &question.run_area {
        match known().and_then(size) {
            Ok(size) => space.run_area(wanted, &size),
            Err(why) => cannot_keep(space, Derived::RunArea, wanted.amounts(), &why),
        }
    }
    if let Some(wanted) = &question.deposition_rate {
        match known().and_then(deposited) {
            Ok((feed, rate)) => space.deposition_rate(wanted, feed, &rate),
            Err(why) => cannot_keep(space, Derived::DepositionRate, wanted.amounts(), &why),
        }
    }
    Aside { left_out, metal: known().map(WireMetal::notes).unwrap_or_default() }
}

/// Deposition rate at one feed.
fn deposited(metal: &WireMetal<'_>) -> Result<(WireFeed, Span<DepositionRateKind>), String> {
    let feed = WireFeed::computed(PROBE.0).map_err(|error| error.to_string())?;
    Ok((feed, metal.rate(feed).map_err(|why| why.to_string())?))
}

fn size_and_shape(metal: &WireMetal<'_>) -> Result<(RunSize, Span<ShareKind>), String> {
    Ok((size(metal)?, usual_shape_factors().map_err(|error| error.to_string())?))
}

/// What one run of the case deposits, and where that is known from.
///
/// # Errors
/// What is not known of it, in words.
pub(in crate::window) fn run_size(case: &Case<'_>) -> Result<(RunSize, Notes), String> {
    let metal = metal(case)?;
    Ok((size(&metal)?, metal.notes()))
}

fn metal<'c>(case: &'c Case<'_>) -> Result<WireMetal<'c>, String> {
    WireMetal::of(&case.figure_inputs()).map_err(|why| why.to_string())
}

fn size(metal: &WireMetal<'_>) -> Result<RunSize, String> {
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
    let reach = |axis: usize| reach(space, &region, axis).unwrap_or_else(|| plausible(axis));
    Response::of_data(case, (reach(FEED), reach(STICK_OUT))).map_err(Some)
}

/// What is left of a setting, as logarithms, with how far it strays; nothing where nothing is left.
fn reach(space: &Space, region: &Region, axis: usize) -> Option<(f64, f64)> {
    let (low, high) = region.polytope.ends_of(axis)?;
    let stray = space.stray(axis);
    Some((low - stray.down, high + stray.up))
}
