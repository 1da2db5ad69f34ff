//! `common-practice`: settings and technique against what the trade usually does.

use crate::{
    check::{
        Case, Finding, Force, Given, Outcome, Owner, Place, Shown, Variable,
        range_check::shown,
        registry::declare_check,
        remedy::{accuracy_remedy, in_words, sentence},
    },
    quantity::{Kind, Range},
    trade::AdvisedRange,
};

declare_check! {
    /// ## Checks
    /// Travel and work angle, stick-out, current, volts and weave width as stated lie inside one of
    /// the ranges that handbooks or common practice give for the process, position, diameter and run.
    /// Where sources differ all are shown, and one that is met is enough. A setup that does not state
    /// a value gets no advice on it. Advice only.
    ///
    /// ## Why
    /// A setup can be permitted and still be an odd way to weld.
    ///
    /// ## Source
    /// Named with each range: a printed handbook, or "common practice, no source".
    ///
    /// ## Not checked
    /// Stringer or weave, which is `bead`.
    "common-practice", Procedure => check, TEXTS
}

const CONSEQUENCE: &str =
    "Few weld like this; expect to look for the reason when the bead is not good.";
const REMEDY: &str = "Unless there is a reason, keep to one of the usual values for";

const TEXTS: &[&str] = &[CONSEQUENCE, REMEDY];

fn check(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let settings = &case.setup.settings;
    let readings = case.readings;
    let mut add = |finding: Option<Finding>| findings.extend(finding);
    add(compared(
        case,
        Variable::TravelAngle,
        settings.travel_angle.as_ref(),
        |range| match range {
            AdvisedRange::TravelAngle(range) => Some(*range),
            _ => None,
        },
    ));
    add(compared(case, Variable::WorkAngle, settings.work_angle.as_ref(), |range| match range {
        AdvisedRange::WorkAngle(range) => Some(*range),
        _ => None,
    }));
    add(compared(case, Variable::StickOut, readings.stick_out.as_ref(), |range| match range {
        AdvisedRange::ElectricalStickOut(range) => Some(*range),
        _ => None,
    }));
    add(compared(case, Variable::Current, settings.current.as_ref(), |range| match range {
        AdvisedRange::Current(range) => Some(*range),
        _ => None,
    }));
    add(compared(case, Variable::Voltage, settings.voltage.as_ref(), |range| match range {
        AdvisedRange::Voltage(range) => Some(*range),
        _ => None,
    }));
    add(compared(case, Variable::WeaveWidth, settings.weave_width.as_ref(), |range| match range {
        AdvisedRange::WeaveWidth(range) => Some(*range),
        _ => None,
    }));
}

/// The finding on one variable; `None` where nothing is stated, nothing is advised, or the case does
/// not have the variable.
fn compared<K: Kind>(
    case: &Case<'_>,
    variable: Variable,
    given: Option<&Given<K>>,
    pick: fn(&AdvisedRange) -> Option<Range<K>>,
) -> Option<Finding> {
    let given = given?;
    if case.lacks(variable).is_some() {
        return None;
    }
    let mut usual: Vec<(Range<K>, &'static str)> = case
        .practice
        .iter()
        .filter_map(|advice| Some((pick(&advice.range)?, advice.source)))
        .collect();
    usual.dedup();
    let best =
        usual.iter().map(|(range, _)| given.place(range)).min_by_key(|place| rank(*place))?;
    Some(finding(given, variable, Outcome::from(best), &usual))
}

const fn rank(place: Place) -> u8 {
    match place {
        Place::Inside => 0,
        Place::EdgeInside => 1,
        Place::EdgeOutside => 2,
        Place::Outside => 3,
    }
}

fn finding<K: Kind>(
    given: &Given<K>,
    variable: Variable,
    outcome: Outcome,
    usual: &[(Range<K>, &'static str)],
) -> Finding {
    let listed: Vec<_> =
        usual.iter().map(|(range, source)| format!("{} ({source})", range.amounts())).collect();
    let allowed = match usual {
        [(range, _)] => Shown::Range(range.amounts()),
        _ => Shown::words(&listed),
    };
    let mut sources: Vec<_> = usual.iter().map(|(_, source)| *source).collect();
    sources.dedup();
    let met = outcome == Outcome::Inside;
    let name = in_words(variable);
    let usual_words = listed.join("; ");
    let given_words = shown(given);
    let verb = match outcome {
        Outcome::Inside => "is inside",
        Outcome::EdgeInside => "is shown inside, but the instrument's error could put it outside,",
        _ => "is outside",
    };
    let reason = sentence(&format!("{name} {given_words} {verb} what is usual: {usual_words}."));
    let remedy = format!("{REMEDY} {name}: {usual_words}.");
    Finding {
        check: CHECK.code,
        variable,
        outcome,
        force: Force::Advised,
        given: given_words,
        allowed,
        owner: Owner::Practice { source: sources.join("; ") },
        reason,
        remedy: if met { accuracy_remedy(given, variable) } else { Some(remedy) },
        consequence: (!met).then_some(CONSEQUENCE),
        accuracy_unknown: given.accuracy_unknown(),
    }
}
