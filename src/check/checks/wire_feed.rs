//! `wire-feed`: wire feed against every recorded limit.

use crate::check::{
    Case, Findings, Variable,
    range_check::{Words, against_limits},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The wire feed speed lies inside the range of the procedure's run class, the consumable's
    /// printed data, the span of the station's feeder and the work order, ends included.
    ///
    /// ## Why
    /// On constant-voltage wire processes the feed is what the welder dials; current and deposition
    /// follow from it.
    ///
    /// ## Source
    /// The ranges are records of the organisation. AWS D1.1 takes wire feed for amperage (2015, clause
    /// 3.6 and Table 4.5; read in a text that quotes them). What happens outside: common practice, no
    /// source.
    ///
    /// ## Not checked
    /// Whether the feeder holds the speed under load, and the state of liner and rolls.
    "wire-feed", WireFeed => check, &WORDS.texts()
}

const WORDS: Words = Words {
    variable: Variable::WireFeed,
    below: "Too slow a feed: the arc burns back towards the tip, little current and fusion remain.",
    above: "Too fast a feed: the wire stubs into the puddle, more metal arrives than the arc can fuse.",
    raise: "Raise the wire feed to at least",
    lower: "Lower the wire feed to at most",
    state: "State the wire feed speed.",
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.wire_feed.as_ref();
    against_limits(case, &CHECK, stated, |ranges| &ranges.wire_feed, &WORDS, findings);
}
