//! Where arcs are seen.

use crate::{
    check::Variable,
    quantity::Amount,
    window::{
        linear::{AXES, Polytope},
        space::{ORDER, Region, Side, Space, Subject},
    },
};

/// Values of a setting that arcs are seen at, in its canonical unit (common practice, no source): the plausible span of
/// a kind only keeps slips of typing out. `None` for what is no setting that stands by itself.
const fn seen(variable: Variable) -> Option<(f64, f64)> {
    match variable {
        Variable::WireFeed => Some((0.3, 30.0)),        // m/min
        Variable::Voltage => Some((8.0, 60.0)),         // V
        Variable::Current => Some((5.0, 2_000.0)),      // A
        Variable::TravelSpeed => Some((20.0, 5_000.0)), // mm/min
        Variable::StickOut => Some((5.0, 100.0)),       // mm
        _ => None,
    }
}

/// Whether arcs are seen at a value; a limit that would have to leave these is no limit to be changed.
pub(super) fn is_seen(subject: Subject, value: Amount) -> bool {
    let Subject::Variable(variable) = subject else { return true };
    seen(variable).is_none_or(|(low, high)| (low..=high).contains(&value.canonical()))
}

/// Keeps each end of a setting that nobody limits to the values that arcs are seen at: no other limit is mended by what
/// lies beyond.
pub(super) fn keep_to_seen(space: &Space, region: &Region, polytope: &mut Polytope) {
    for axis in (0..AXES).filter(|axis| space.is_active(*axis)) {
        let Some((low, high)) = seen(ORDER[axis]) else { continue };
        let is_limited = |side: Side| {
            region.faces.iter().any(|number| {
                let limit = &space.faces[*number].limit;
                (limit.subject, limit.side) == (Subject::Variable(ORDER[axis]), side)
            })
        };
        if !is_limited(Side::Lowest) {
            polytope.low[axis] = polytope.low[axis].max(low.ln());
        }
        if !is_limited(Side::Highest) {
            polytope.high[axis] = polytope.high[axis].min(high.ln());
        }
    }
}
