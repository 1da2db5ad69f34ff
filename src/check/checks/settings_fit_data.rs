//! `settings-fit-data`: whether current and volts go together with the feed, by printed points.

use crate::{
    check::{
        Case, Findings, Force, Given, Limit, PrintedFit, Variable,
        range_check::{Stated, Words, against, not_applicable},
        registry::declare_check,
    },
    quantity::{CurrentKind, Kind, Quantity, Range, VoltageKind},
};

declare_check! {
    /// ## Checks
    /// On a constant-voltage wire process the stated current lies within 15 %, and the stated volts
    /// within 10 %, of what the consumable's printed operating points give for the stated wire feed,
    /// by straight lines between neighbouring points. Advice only: it refuses nothing. The advised region of a
    /// window keeps to the same bands.
    ///
    /// ## Why
    /// The feed fixes the current within a band. A current that the feed cannot produce means a wrong
    /// reading, another wire than thought, or another stick-out.
    ///
    /// ## Source
    /// The consumable's data on record. The bands of 15 % and 10 %, and the order of the causes:
    /// common practice, no source.
    ///
    /// ## Not checked
    /// Feeds outside the printed points: nothing is extrapolated. Stick-outs other than the printed
    /// one, which move the current.
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

const TEXTS: &[&str] = {
    const C: [&str; 5] = CURRENT.texts();
    const V: [&str; 5] = VOLTAGE.texts();
    &[C[0], C[1], C[2], C[3], C[4], V[0], V[1], V[2], V[3], V[4]]
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if let Err(why) = plausible(case, findings) {
        not_applicable(findings, &CHECK, || why);
    }
}

/// Findings on current and volts, or why nothing can be compared.
fn plausible(case: &Case<'_>, findings: &mut Findings) -> Result<(), &'static str> {
    let condition = case.printed_for_feeds()?;
    let settings = &case.setup.settings;
    let feed = settings.wire_feed.as_ref().ok_or("No wire feed is stated to start from.")?;
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
