//! Melt and deposition rate, cross-section and leg of one run.

use super::{
    Estimate, FigureInputs, Figures, Found, Note, Notes, between, deposit::Deposit, known,
    together, travel_speed, wire_mass,
};
use crate::{
    check::Arcs,
    quantity::{
        AreaKind, Density, DepositionRateKind, LegKind, LinearMassKind, Span, TravelSpeed,
        WireFeed, WireFeedKind,
    },
    trade::{
        DEPOSITION_RATE, FILLET_AREA, Formula, JointKind, MELT_RATE, RUN_AREA, leg_band, melt_rate,
        run_area_at, usual_shape_factors,
    },
};

/// Adds the four figures.
pub(super) fn add(
    inputs: &FigureInputs<'_>,
    fed: &Fed<'_>,
    melted: &Found<DepositionRateKind>,
    figures: &mut Figures,
) {
    let deposited = fed.deposited(inputs);
    let area = area(inputs, &deposited);
    figures.add("melt-rate", &MELT_RATE, melted.clone());
    figures.add("deposition-rate", fed.formula(), deposited);
    let leg = leg_of(inputs, &area);
    figures.add("run-area", &RUN_AREA, area);
    figures.add(LEG, &FILLET_AREA, leg);
}

const METAL: Note = Note::always("weld metal: unalloyed steel, 7.85 g/cm3");
const SHAPE: Note = Note::always(
    "shape of the face: flat to convex, factor 1.0 to 1.2 (common practice, no source)",
);

const SEVERAL_WIRES: Note = Note::always(
    "Several electrodes may burn together, and what all of them lay is not computed from the feed of one.",
);

const LEG: &str = "leg-of-one-run";

impl Figures {
    /// Leg that one run leaves, over the usual shapes of its face.
    pub(in crate::check) fn leg(&self) -> Result<Span<LegKind>, Note> {
        let Some(figure) = self.get(LEG) else {
            let why = self.absent.iter().find(|absent| absent.name == LEG);
            return Err(why
                .map_or(Note::always("The leg is not computed."), |absent| absent.reason.clone()));
        };
        figure.value.span().ok_or(Note::always("What is computed is no leg."))
    }
}

/// What the wire feeds into the arc; all figures of metal rest on it.
pub(super) struct Fed<'a> {
    feed: Result<Span<WireFeedKind>, Note>,
    wire: Found<LinearMassKind>,
    deposit: Result<Deposit<'a>, Note>,
}

impl<'a> Fed<'a> {
    pub(super) fn of(inputs: &FigureInputs<'a>) -> Self {
        let wire = wire_mass::linear_mass(inputs);
        let deposit = Deposit::of(inputs, &wire);
        Self { feed: feed(inputs), wire, deposit }
    }

    /// All wire fed, per hour.
    pub(super) fn melted(&self) -> Found<DepositionRateKind> {
        let (feed, wire) = (known(&self.feed)?, known(&self.wire)?);
        let low = melt_rate(wire.span.low(), feed.low());
        let high = melt_rate(wire.span.high(), feed.high());
        Ok(Estimate::with(between(low, high)?, wire.assumptions.clone()))
    }

    /// The part of it that stays in the weld, by what [`Deposit`] knows of it.
    fn deposited(&self, inputs: &FigureInputs<'_>) -> Found<DepositionRateKind> {
        let feed = known(&self.feed)?;
        known(&self.deposit)?.rate(inputs, feed)
    }

    fn formula(&self) -> &'static Formula {
        self.deposit.as_ref().map_or(&DEPOSITION_RATE, Deposit::formula)
    }
}

fn area(inputs: &FigureInputs<'_>, rate: &Found<DepositionRateKind>) -> Found<AreaKind> {
    let rate = known(rate)?;
    let density = wire_mass::steel(inputs.consumable)?;
    let speed = travel_speed(inputs)?;
    let span = between(
        run_area_at(rate.span.low(), density, speed.high()),
        run_area_at(rate.span.high(), density, speed.low()),
    )?;
    Ok(Estimate::with(span, inputs.assumed(|| together(&rate.assumptions, &[METAL]))))
}

/// What a wire lays whatever its settings: bounds for windows, by the same sources as the figures of a check.
/// The figures of every setting of this wire lie inside, and the bounds go with feed and with feed over speed.
pub struct WireMetal<'a> {
    deposit: Deposit<'a>,
    density: Result<Density, Note>,
}

impl<'a> WireMetal<'a> {
    /// Of the wire of a setup.
    ///
    /// # Errors
    /// What is not known of it, in words.
    pub fn of(inputs: &FigureInputs<'a>) -> Result<Self, Note> {
        has_feed(inputs)?;
        let wire = wire_mass::linear_mass(inputs);
        let deposit = Deposit::of(inputs, &wire)?;
        Ok(Self { deposit, density: wire_mass::steel(inputs.consumable) })
    }

    /// Least and greatest deposition rate at a feed.
    ///
    /// # Errors
    /// Why it is no number, in words.
    pub fn rate(&self, feed: WireFeed) -> Result<Span<DepositionRateKind>, Note> {
        self.deposit.bounds(feed)
    }

    /// Least and greatest cross-section of a run at a feed and a travel speed.
    ///
    /// # Errors
    /// What is not known of the weld metal, in words.
    pub fn run_area(&self, feed: WireFeed, speed: TravelSpeed) -> Result<Span<AreaKind>, Note> {
        let rate = self.rate(feed)?;
        let density = *known(&self.density)?;
        between(run_area_at(rate.low(), density, speed), run_area_at(rate.high(), density, speed))
    }

    /// Where it is known from, what was assumed for it, and what is printed of the wire but not used.
    #[must_use]
    pub fn notes(&self) -> Notes {
        let mut notes = self.deposit.notes().clone();
        notes.extend(self.density.as_ref().ok().map(|_| METAL));
        notes
    }
}

fn has_feed(inputs: &FigureInputs<'_>) -> Result<(), Note> {
    if inputs.process.is_some_and(|process| !process.has_wire_feed()) {
        return Err("The process has no wire feed.".into());
    }
    if inputs.readings.arcs != Arcs::One {
        return Err(SEVERAL_WIRES);
    }
    Ok(())
}

fn feed(inputs: &FigureInputs<'_>) -> Result<Span<WireFeedKind>, Note> {
    has_feed(inputs)?;
    let feed = inputs.setup.settings.wire_feed.as_ref().map(|given| given.span);
    Ok(feed.ok_or("The wire feed speed is not stated.")?)
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
    let assumptions = inputs.assumed(|| together(&area.assumptions, &[SHAPE]));
    Ok(Estimate::with(between(smallest, largest)?, assumptions))
}
