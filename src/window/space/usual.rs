//! The current that a wire usually draws at a feed and a stick-out: two faces inside the usual band.
//!
//! By the burn-off equation the logarithm of the feed is convex in those of current and stick-out, a sum of powers; so
//! that of the current is concave in those of feed and stick-out. A plane that touches it lies above it, and one that
//! is below it at the corners of the reach is below it everywhere in the reach.

use super::{
    Asked, CURRENT, Derived, FEED, Holder, Plane, STICK_OUT, Side, Space, Subject, end_of,
};
use crate::{
    check::{Force, UsualCurrent},
    quantity::{Current, ElectricalStickOut, RELATIVE_TOLERANCE, WireFeed},
    window::linear::AXES,
};

/// A plane inside the band, and how much of the band it gives away at most.
struct Safe {
    plane: Plane,
    gap: f64,
}

impl Space {
    /// Advises of a current that such a wire usually draws at these feeds and stick-outs, which the check compares.
    ///
    /// # Errors
    /// Why the window cannot hold that, in words.
    pub(in crate::window) fn usual_current(
        &mut self,
        usual: UsualCurrent,
        feeds: &Asked,
        stick_outs: &Asked,
    ) -> Result<(), &'static str> {
        let none = "what goes with the feed is no number";
        let sides = [Side::Lowest, Side::Highest];
        let [low, high] = sides.map(|side| Safe::inside(usual, side, (feeds, stick_outs)));
        let (low, high) = low.zip(high).ok_or(none)?;
        let in_the_middle = |safe: &Safe| safe.plane.current(feeds.middle(), stick_outs.middle());
        if in_the_middle(&low) >= in_the_middle(&high) {
            return Err("the allowed feeds and stick-outs lie too far apart for straight faces");
        }
        let shown = (feeds.shown(feeds.ends), stick_outs.shown(stick_outs.ends));
        let holder = Holder::Record(UsualCurrent::SOURCE.owner());
        for (side, Safe { plane, gap }) in sides.into_iter().zip([low, high]) {
            let end = end_at(usual, side, shown).ok_or(none)?;
            let subject = Subject::Derived(Derived::UsualCurrent);
            let mut limit = end_of(subject, side, end.amount(), &holder, Force::Advised);
            if gap > RELATIVE_TOLERANCE {
                limit = limit.linearised(gap);
            }
            let mut weights = [0.0; AXES];
            weights[CURRENT] = 1.0;
            (weights[FEED], weights[STICK_OUT]) = (-plane.feed, -plane.stick_out);
            self.add(weights, end.amperes().ln() - plane.at, limit);
        }
        Ok(())
    }
}

/// One end of what is usual at logarithms of a feed and a stick-out.
fn end_at(usual: UsualCurrent, side: Side, (feed, stick_out): (f64, f64)) -> Option<Current> {
    let feed = WireFeed::computed(feed.exp()).ok()?;
    let band = usual.at(feed, ElectricalStickOut::computed(stick_out.exp()).ok()?)?;
    Some(if side == Side::Lowest { band.low() } else { band.high() })
}

impl Safe {
    /// The plane parallel to the one that touches an end of the band in the middle of the reach.
    fn inside(
        usual: UsualCurrent,
        side: Side,
        (feeds, stick_outs): (&Asked, &Asked),
    ) -> Option<Self> {
        let middle = (feeds.middle(), stick_outs.middle());
        let end = end_at(usual, side, middle)?;
        let stick_out = ElectricalStickOut::computed(middle.1.exp()).ok()?;
        let share = usual.resistive_share(end, stick_out)?.ratio();
        let touching =
            Plane { feed: 1.0 / (1.0 + share), stick_out: -share / (1.0 + share), at: 0.0 };
        let above = |at: (f64, f64)| {
            let end = end_at(usual, side, at)?;
            Some(end.amperes().ln() - touching.current(at.0, at.1))
        };
        let ((slow, fast), (short, long)) = (feeds.ends, stick_outs.ends);
        let corners = [(slow, short), (slow, long), (fast, short), (fast, long)].into_iter();
        let lowest =
            corners.map(above).try_fold(f64::INFINITY, |least, at| Some(least.min(at?)))?;
        let touch = above(middle)?;
        let at = if side == Side::Lowest { touch } else { lowest };
        Some(Self { plane: Plane { at, ..touching }, gap: touch - lowest })
    }
}
