//! Melt and deposition rate, cross-section and leg of one run.

use super::{
    Estimate, FigureInputs, Figures, Found, Note, between, known, stated, together, wire_mass,
};
use crate::{
    quantity::{
        AreaKind, DepositionRateKind, LegKind, LinearMassKind, ShareKind, Span, WireFeedKind,
    },
    trade::{
        DEPOSITION_RATE, FILLET_AREA, JointKind, MELT_RATE, RUN_AREA, RunMetal, deposition_rate,
        leg_band, melt_rate, run_area, usual_shape_factors,
    },
};

/// Adds the four figures.
pub(super) fn add(
    inputs: &FigureInputs<'_>,
    fed: &Fed,
    melted: &Found<DepositionRateKind>,
    figures: &mut Figures,
) {
    let area = fed.area(inputs);
    figures.add("melt-rate", MELT_RATE, melted.clone());
    figures.add("deposition-rate", DEPOSITION_RATE, fed.deposited());
    let leg = leg_of(inputs, &area);
    figures.add("run-area", RUN_AREA, area);
    figures.add(LEG, FILLET_AREA, leg);
}

const LEG: &str = "leg-of-one-run";

impl Figures {
    /// Leg that one run leaves, over the usual shapes of its face.
    pub(in crate::check) fn leg(&self) -> Result<Span<LegKind>, Note> {
        let Some(figure) = self.get(LEG) else {
            let why = self.absent.iter().find(|absent| absent.name == LEG);
            return Err(why.map_or(Note::Borrowed("The leg is not computed."), |absent| {
                absent.reason.clone()
            }));
        };
        figure.value.span().ok_or(Note::Borrowed("What is computed is no leg."))
    }
}

/// What the wire feeds into the arc; all figures of metal rest on it.
pub(super) struct Fed {
    feed: Found<WireFeedKind>,
    wire: Found<LinearMassKind>,
    share: Found<ShareKind>,
}

impl Fed {
    pub(super) fn of(inputs: &FigureInputs<'_>) -> Self {
        let wire = wire_mass::linear_mass(inputs);
        Self { feed: feed(inputs), wire, share: wire_mass::efficiency(inputs) }
    }

    /// All wire fed, per hour.
    pub(super) fn melted(&self) -> Found<DepositionRateKind> {
        let (feed, wire) = (known(&self.feed)?, known(&self.wire)?);
        let low = melt_rate(wire.span.low(), feed.span.low());
        let high = melt_rate(wire.span.high(), feed.span.high());
        Ok(Estimate::with(between(low, high)?, wire.assumptions.clone()))
    }

    fn deposited(&self) -> Found<DepositionRateKind> {
        let (feed, wire) = (known(&self.feed)?, known(&self.wire)?);
        let share = known(&self.share)?;
        let low = deposition_rate(wire.span.low(), feed.span.low(), share.span.low());
        let high = deposition_rate(wire.span.high(), feed.span.high(), share.span.high());
        let assumptions = together(&[&wire.assumptions, &share.assumptions]);
        Ok(Estimate::with(between(low, high)?, assumptions))
    }

    fn area(&self, inputs: &FigureInputs<'_>) -> Found<AreaKind> {
        let (feed, wire) = (known(&self.feed)?, known(&self.wire)?);
        let share = known(&self.share)?;
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
        let metal = [Note::Borrowed("weld metal: unalloyed steel, 7.85 g/cm3")];
        let assumptions = together(&[&wire.assumptions, &share.assumptions, &metal]);
        Ok(Estimate::with(span, assumptions))
    }
}

fn feed(inputs: &FigureInputs<'_>) -> Found<WireFeedKind> {
    if inputs.process.is_some_and(|process| !process.has_wire_feed()) {
        return Err("The process has no wire feed.".into());
    }
    let feed = inputs.setup.settings.wire_feed.map(|given| given.span);
    stated(feed, "The wire feed speed is not stated.")
}

fn leg_of(inputs: &FigureInputs<'_>, area: &Found<AreaKind>) -> Found<LegKind> {
    match inputs.setup.job.joint {
        Some(JointKind::Fillet) => {}
        Some(JointKind::Butt) => return Err("A butt weld has no leg.".into()),
        None => return Err("The joint is not stated.".into()),
    }
    let area = known(area)?;
    let shape = usual_shape_factors().map_err(|error| error.to_string())?;
    let smallest = leg_band(area.span.low(), &shape).map(|band| band.low());
    let largest = leg_band(area.span.high(), &shape).map(|band| band.high());
    let note = "shape of the face: flat to convex, factor 1.0 to 1.2 (common practice, no source)";
    let assumptions = together(&[&area.assumptions, &[Note::Borrowed(note)]]);
    Ok(Estimate::with(between(smallest, largest)?, assumptions))
}
