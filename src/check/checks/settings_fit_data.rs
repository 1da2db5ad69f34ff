//! `settings-fit-data`: whether current and volts go together with the feed, by printed points or, for the current
//! without them, by what such a wire usually draws.

use crate::{
    check::{
        Case, Findings, Force, Given, Limit, PrintedFit, UsualCurrent, Variable,
        range_check::{Stated, Words, against, not_applicable},
        registry::declare_check,
    },
    quantity::{CurrentKind, Kind, Quantity, Range, VoltageKind},
};

declare_check! {
    /// ## Checks
    /// On a constant-voltage wire process the stated current lies within 15 %, and the stated volts
    /// within 10 %, of what the consumable's printed operating points give for the stated wire feed,
    /// by straight lines between neighbouring points. Where no point is printed for a solid wire of unalloyed or
    /// low-alloy steel on the positive pole, the current lies within what the generic burn-off equation gives for
    /// two thirds to one and a half times the stated feed, at the stated stick-out. Advice only: it refuses nothing.
    /// The advised region of a window keeps to the same bands.
    ///
    /// ## Why
    /// The feed fixes the current within a band. A current that the feed cannot produce means a wrong
    /// reading, another wire than thought, or another stick-out.
    ///
    /// ## Source
    /// The consumable's data on record. The bands of 15 % and 10 %, and the order of the causes:
    /// common practice, no source. The generic coefficients: from memory; they burn off 1.00 to 1.47 times the feed of
    /// Machinery's Handbook, 31st ed., p. 1583, Table 5.
    ///
    /// ## Not checked
    /// Feeds outside the printed points: nothing is extrapolated. Stick-outs other than the printed
    /// one, which move the current. Without printed points: tubular wires, other metals, the negative pole, wires
    /// thinner than 0.8 or thicker than 1.6 mm, several arcs, and volts.
    "settings-fit-data", Current => check, TEXTS
}

const CURRENT: Words = Words {
    variable: Variable::Current,
    below: "This feed gives more current than stated. Likely causes, in order: stick-out longer than \
            printed; current read or averaged wrongly; wire slipping in the rolls; another diameter \
            or wire.",
    above: "This feed gives less current than stated. Likely causes, in order: stick-out shorter than \
            printed; feed read wrongly or not calibrated; another diameter or wire; other polarity.",
    raise: "Check stick-out, meters, rolls and wire, in this order; with this feed expect at least",
    lower: "Check stick-out, feed, wire and polarity, in this order; with this feed expect at most",
    state: "State the current, to compare it with the printed points.",
};

const VOLTAGE: Words = Words {
    variable: Variable::Voltage,
    below: "Far fewer volts than printed for this feed: the wire stubs. Likely causes, in order: \
            volts too low for the feed; feed too fast; a long or loose work lead; another gas.",
    above: "Far more volts than printed for this feed. Likely causes, in order: volts too high for \
            the feed; volts read at the source, not at the arc; feed too slow; another gas.",
    raise: "Check volts, feed, leads and gas, in this order; with this feed expect at least",
    lower: "Check volts, where they are read, feed and gas, in this order; with this feed expect at \
            most",
    state: "State the volts, to compare them with the printed points.",
};

const USUAL: Words = Words {
    variable: Variable::Current,
    below: "A solid steel wire draws more current than stated at this feed and stick-out. Likely causes, in \
            order: current read or averaged wrongly; feed read wrongly or not calibrated; wire slipping in the \
            rolls; another diameter or wire.",
    above: "A solid steel wire draws less current than stated at this feed and stick-out. Likely causes, in \
            order: current or feed read wrongly; feed not calibrated; stick-out shorter than stated; another \
            diameter or wire.",
    raise: "Check meters, feed, rolls and wire, in this order; such a wire draws at least about",
    lower: "Check meters, feed, stick-out and wire, in this order; such a wire draws at most about",
    state: "State the current, to compare it with what such a wire draws.",
};

const TEXTS: &[&str] = {
    const C: [&str; 5] = CURRENT.texts();
    const V: [&str; 5] = VOLTAGE.texts();
    const U: [&str; 5] = USUAL.texts();
    &[C[0], C[1], C[2], C[3], C[4], V[0], V[1], V[2], V[3], V[4], U[0], U[1], U[2], U[3], U[4]]
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let compared = match case.usual_current() {
        Some(usual) => draws_the_usual(case, findings, usual),
        None => plausible(case, findings),
    };
    if let Err(why) = compared {
        not_applicable(findings, &CHECK, || why);
    }
}

const NO_FEED: &str = "No wire feed is stated to start from.";

/// The finding on a current without printed points, or why it cannot be compared.
fn draws_the_usual(
    case: &Case<'_>,
    findings: &mut Findings,
    usual: UsualCurrent,
) -> Result<(), &'static str> {
    let settings = &case.setup.settings;
    let feed = settings.wire_feed.as_ref().ok_or(NO_FEED)?;
    let stick_out = case.readings.stick_out.as_ref();
    let stick_out = stick_out.ok_or("No point is printed, and no stick-out is stated.")?;
    let current =
        settings.current.as_ref().ok_or("No point is printed, and no current is stated.")?;
    let usual = usual.between(feed.span, stick_out.span);
    let range = &Range::from(usual.ok_or("What current goes with this feed is no number.")?);
    let limit = Limit { range, source: UsualCurrent::SOURCE, force: Force::Advised };
    against(findings, &CHECK, &Stated::Known(current), &limit, &USUAL);
    Ok(())
}

/// Findings on current and volts, or why nothing can be compared.
fn plausible(case: &Case<'_>, findings: &mut Findings) -> Result<(), &'static str> {
    let condition = case.printed_for_feeds()?;
    let settings = &case.setup.settings;
    let feed = settings.wire_feed.as_ref().ok_or(NO_FEED)?;
    let within =
        |fit: PrintedFit<'_>| fit.band(feed.span.low().canonical(), feed.span.high().canonical());
    let outside = "The printed points do not reach this wire feed.";
    let currents = within(PrintedFit::of_current(condition)).ok_or(outside)?;
    let volts = within(PrintedFit::of_volts(condition)).ok_or(outside)?;
    let (current, voltage) = (settings.current.as_ref(), settings.voltage.as_ref());
    let on_current = current
        .is_some_and(|given| compared::<CurrentKind>(case, findings, given, currents, &CURRENT));
    let on_volts = voltage
        .is_some_and(|given| compared::<VoltageKind>(case, findings, given, volts, &VOLTAGE));
    if on_current || on_volts { Ok(()) } else { Err("Neither current nor volts are stated.") }
}

fn range<K: Kind>((low, high): (f64, f64)) -> Option<Range<K>> {
    Range::new(Some(Quantity::computed(low).ok()?), Some(Quantity::computed(high).ok()?)).ok()
}

/// Whether there was something to compare with.
fn compared<K: Kind>(
    case: &Case<'_>,
    findings: &mut Findings,
    given: &Given<K>,
    band: (f64, f64),
    words: &Words,
) -> bool {
    let range: Option<Range<K>> = range(band);
    let Some((range, authority)) = range.zip(case.printed_data()) else { return false };
    let limit = Limit { range: &range, source: authority.into(), force: Force::Advised };
    against(findings, &CHECK, &Stated::Known(given), &limit, words);
    true
}
