//! Melt and deposition rate, cross-section and leg of one run.

use super::{Estimate, FigureInputs, Figures, Found, between, stated, wire_mass};
use crate::{
    quantity::{AreaKind, DepositionRateKind, LegKind, WireFeedKind},
    trade::{
        DEPOSITION_RATE, FILLET_AREA, JointKind, MELT_RATE, RUN_AREA, RunMetal, deposition_rate,
        leg_band, melt_rate, run_area, usual_shape_factors,
    },
};

/// Adds the four figures.
pub(super) fn add(inputs: &FigureInputs<'_>, figures: &mut Figures) {
    figures.add("melt-rate", MELT_RATE, melted(inputs));
    figures.add("deposition-rate", DEPOSITION_RATE, deposited(inputs));
    figures.add("run-area", RUN_AREA, area(inputs));
    figures.add("leg-of-one-run", FILLET_AREA, leg(inputs));
}

fn feed(inputs: &FigureInputs<'_>) -> Found<WireFeedKind> {
    if inputs.process.is_some_and(|process| !process.has_wire_feed()) {
        return Err("The process has no wire feed.".to_owned());
    }
    let feed = inputs.setup.settings.wire_feed.map(|given| given.span);
    stated(feed, "The wire feed speed is not stated.")
}

/// All wire fed, per hour.
pub(super) fn melted(inputs: &FigureInputs<'_>) -> Found<DepositionRateKind> {
    let (feed, wire) = (feed(inputs)?, wire_mass::linear_mass(inputs)?);
    let low = melt_rate(wire.span.low(), feed.span.low());
    let high = melt_rate(wire.span.high(), feed.span.high());
    Ok(Estimate::with(between(low, high)?, wire.assumptions))
}

fn deposited(inputs: &FigureInputs<'_>) -> Found<DepositionRateKind> {
    let (feed, wire) = (feed(inputs)?, wire_mass::linear_mass(inputs)?);
    let share = wire_mass::efficiency(inputs)?;
    let low = deposition_rate(wire.span.low(), feed.span.low(), share.span.low());
    let high = deposition_rate(wire.span.high(), feed.span.high(), share.span.high());
    Ok(Estimate::with(between(low, high)?, [wire.assumptions, share.assumptions].concat()))
}

fn area(inputs: &FigureInputs<'_>) -> Found<AreaKind> {
    let (feed, wire) = (feed(inputs)?, wire_mass::linear_mass(inputs)?);
    let share = wire_mass::efficiency(inputs)?;
    let density = wire_mass::steel(inputs.consumable)?;
    let speed = inputs.readings.travel_speed.map(|given| given.span);
    let speed = stated(speed, "The travel speed is neither stated nor computable.")?;
    let least = RunMetal {
        wire: wire.span.low(),
        feed: feed.span.low(),
        efficiency: share.span.low(),
        density,
    };
    let most = RunMetal {
        wire: wire.span.high(),
        feed: feed.span.high(),
        efficiency: share.span.high(),
        density,
    };
    let span = between(run_area(&least, speed.span.high()), run_area(&most, speed.span.low()))?;
    let metal = "weld metal: unalloyed steel, 7.85 g/cm3".to_owned();
    Ok(Estimate::with(span, [wire.assumptions, share.assumptions, vec![metal]].concat()))
}

/// Leg that one run leaves, over the usual shapes of its face.
pub(in crate::check) fn leg(inputs: &FigureInputs<'_>) -> Found<LegKind> {
    match inputs.setup.job.joint {
        Some(JointKind::Fillet) => {}
        Some(JointKind::Butt) => return Err("A butt weld has no leg.".to_owned()),
        None => return Err("The joint is not stated.".to_owned()),
    }
    let area = area(inputs)?;
    let shape = usual_shape_factors().map_err(|error| error.to_string())?;
    let smallest = leg_band(area.span.low(), &shape).map(|band| band.low());
    let largest = leg_band(area.span.high(), &shape).map(|band| band.high());
    let note = "shape of the face: flat to convex, factor 1.0 to 1.2 (common practice, no source)";
    let assumptions = [area.assumptions, vec![note.to_owned()]].concat();
    Ok(Estimate::with(between(smallest, largest)?, assumptions))
}
