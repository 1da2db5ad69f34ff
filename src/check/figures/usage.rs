//! Arc time, wire and gas for the stated length of weld in one run.

use super::{Estimate, FigureInputs, Figures, Found, Note, between, known, together, travel_speed};
use crate::{
    quantity::{DepositionRateKind, DurationKind, GasVolumeKind, Mass, MassKind},
    trade::{Confidence, Formula, GAS_USED, RUN_TIME, gas_used, run_time},
};

/// Wire fed in an arc time.
const WIRE_USED: Formula = Formula {
    name: "wire-used",
    equation: "M = MR * t / 3600; MR in kg/h, t in s, M in kg",
    source: "definition of melt rate",
    validity: "wire fed while the arc burns; ends left on spools are not counted",
    confidence: Confidence::Derived,
};

const ONE_RUN: Note = Note::always("the length is welded in one run");

/// Adds the three figures.
pub(super) fn add(
    inputs: &FigureInputs<'_>,
    melted: &Found<DepositionRateKind>,
    figures: &mut Figures,
) {
    let time = time(inputs);
    let wire = wire(inputs, &time, melted);
    let gas = gas(inputs, &time);
    figures.add("arc-time", &RUN_TIME, time);
    figures.add("wire-used", &WIRE_USED, wire);
    figures.add("gas-used", &GAS_USED, gas);
}

fn time(inputs: &FigureInputs<'_>) -> Found<DurationKind> {
    let length = inputs.setup.job.weld_length.ok_or("The length of weld is not stated.")?;
    let speed = travel_speed(inputs)?;
    let span = between(run_time(length, speed.high()), run_time(length, speed.low()))?;
    Ok(Estimate::with(span, inputs.assumed(|| vec![ONE_RUN])))
}

fn wire(
    inputs: &FigureInputs<'_>,
    time: &Found<DurationKind>,
    melted: &Found<DepositionRateKind>,
) -> Found<MassKind> {
    let (time, rate) = (known(time)?, known(melted)?);
    let mass = |kg_per_h: f64, seconds: f64| Mass::computed(kg_per_h * seconds / 3_600.0);
    let low = mass(rate.span.low().kg_per_h(), time.span.low().seconds());
    let high = mass(rate.span.high().kg_per_h(), time.span.high().seconds());
    let assumptions = inputs.assumed(|| together(&time.assumptions, &rate.assumptions));
    Ok(Estimate::with(between(low, high)?, assumptions))
}

fn gas(inputs: &FigureInputs<'_>, time: &Found<DurationKind>) -> Found<GasVolumeKind> {
    if inputs.process.is_some_and(|process| !process.gas_shielded()) {
        return Err("The process uses no shielding gas.".into());
    }
    let flow = inputs.setup.settings.gas_flow.as_ref().ok_or("The gas flow is not stated.")?;
    let time = known(time)?;
    let low = gas_used(flow.span.low(), time.span.low());
    let high = gas_used(flow.span.high(), time.span.high());
    Ok(Estimate::with(between(low, high)?, time.assumptions.clone()))
}
