//! Metal that a wire leaves in the weld. This is the one place that says which numbers it rests on, for the
//! figures of a check and for windows and run plans alike; the first that is known counts:
//!
//! 1. Deposition rates printed at wire feeds for just this diameter, gas, polarity and position: they were
//!    measured on this wire, with its mass and its losses in them ([`PRINTED_DEPOSITION_RATE`]). Rates that
//!    come to more metal than the wire weighs are not used, and that is said.
//! 2. Mass per length of the wire times its deposition efficiency ([`DEPOSITION_RATE`]). The mass is the weighed one,
//!    else estimated from diameter and kind; the efficiency is the one printed for this condition, else the one its
//!    maker prints for the wire, else the span of typical values of the process.

use std::iter;

use super::{Estimate, FigureInputs, Found, Note, Notes, between, known, together, wire_mass};
use crate::{
    check::record::{Condition, DataEdition},
    quantity::{
        DepositionRateKind, LinearMass, LinearMassKind, Range, Share, Span, WireFeed, WireFeedKind,
    },
    trade::{DEPOSITION_RATE, Formula, PRINTED_DEPOSITION_RATE, PrintedRates, melt_rate},
};

/// Where the metal is known from.
pub(super) struct Deposit<'a> {
    source: Source<'a>,
    notes: Notes,
}

enum Source<'a> {
    /// Rates printed for this condition.
    Printed(&'a PrintedRates),
    /// Metal per length of wire, from its mass and efficiency.
    Wire(Span<LinearMassKind>),
}

impl<'a> Deposit<'a> {
    /// What is known of it, given the mass per length of the wire.
    pub(super) fn of(
        inputs: &FigureInputs<'a>,
        wire: &Found<LinearMassKind>,
    ) -> Result<Self, Note> {
        let unused = match printed(inputs, wire) {
            Some(Ok(deposit)) => return Ok(deposit),
            Some(Err(why)) => Some(why),
            None => None,
        };
        let wire = known(wire)?;
        let share = wire_mass::efficiency(inputs)?;
        let metal =
            |wire: LinearMass, share: Share| LinearMass::computed(wire.g_per_m() * share.ratio());
        let span = between(
            metal(wire.span.low(), share.span.low()),
            metal(wire.span.high(), share.span.high()),
        )?;
        let notes = inputs.assumed(|| {
            let mut notes: Notes = unused.into_iter().collect();
            notes.extend(wire.assumptions.iter().cloned());
            notes.extend(share.assumptions);
            notes
        });
        Ok(Self { source: Source::Wire(span), notes })
    }

    /// Formula of the rate.
    pub(super) const fn formula(&self) -> &'static Formula {
        match self.source {
            Source::Printed(_) => &PRINTED_DEPOSITION_RATE,
            Source::Wire(_) => &DEPOSITION_RATE,
        }
    }

    /// Deposition rate over a span of feeds.
    pub(super) fn rate(
        &self,
        inputs: &FigureInputs<'_>,
        feed: &Span<WireFeedKind>,
    ) -> Found<DepositionRateKind> {
        let mut beyond = None;
        let span = match &self.source {
            Source::Printed(rates) => {
                if !Range::from(rates.feeds()).contains(feed) {
                    beyond = Some(BEYOND);
                }
                rates.at(feed).map_err(|error| error.to_string())?
            }
            Source::Wire(metal) => {
                between(melt_rate(metal.low(), feed.low()), melt_rate(metal.high(), feed.high()))?
            }
        };
        Ok(Estimate::with(span, inputs.assumed(|| together(&self.notes, beyond.as_slice()))))
    }

    /// Least and greatest rate at a feed, as if the wire's least and greatest metal per length, of whatever feed,
    /// were fed there: these bounds go with the feed, and the rate of every setting lies between them.
    pub(super) fn bounds(&self, feed: WireFeed) -> Result<Span<DepositionRateKind>, Note> {
        let metal = match &self.source {
            Source::Printed(rates) => rates.per_length(),
            Source::Wire(metal) => *metal,
        };
        between(melt_rate(metal.low(), feed), melt_rate(metal.high(), feed))
    }

    /// Where the metal is known from, what was assumed for it, and what is printed but not used.
    pub(super) const fn notes(&self) -> &Notes {
        &self.notes
    }
}

const BEYOND: Note = Note::always(
    "the feed lies beyond the printed ones: metal per length of wire taken as at the nearest of them",
);
const NOT_COMPARED: Note =
    Note::always("printed rates not compared with the mass of the wire, which is not known");

/// By the rates printed for the condition; `None` where there are none.
///
/// # Errors
/// Why they cannot be right, in words.
fn printed<'a>(
    inputs: &FigureInputs<'a>,
    wire: &Found<LinearMassKind>,
) -> Option<Result<Deposit<'a>, Note>> {
    let (edition, condition) = inputs.data?;
    let rates = condition.points.rates()?;
    let metal = rates.per_length().high();
    let heaviest = wire_mass::heaviest(inputs, wire);
    if let Some(heaviest) = heaviest.filter(|heaviest| !metal.at_most(*heaviest)) {
        let why = format!(
            "printed deposition rates not used: those of {} come to {metal} of metal per length of wire, \
             more than the {heaviest} that the wire weighs at most",
            named(edition)
        );
        return Some(Err(why.into()));
    }
    let said = || {
        format!(
            "deposited metal: deposition rates printed in {} for {}, at wire feeds of {} to {}; mass and \
             efficiency of the wire are in them",
            named(edition),
            words(condition),
            rates.feeds().low(),
            rates.feeds().high()
        )
    };
    let notes = inputs.assumed(|| {
        let compared = heaviest.is_none().then_some(NOT_COMPARED);
        iter::once(condition.points.rates_said(said)).chain(compared).collect()
    });
    Some(Ok(Deposit { source: Source::Printed(rates), notes }))
}

/// Document and edition, in words.
pub(super) fn named(edition: &DataEdition) -> String {
    format!("{}, edition {}", edition.document, edition.edition)
}

/// What a condition is for, in words.
fn words(condition: &Condition) -> String {
    let gas = condition.gas.map_or_else(|| "no gas".to_owned(), |gas| gas.to_string());
    format!("{}, {gas}, {}", condition.diameter, condition.polarity)
}
