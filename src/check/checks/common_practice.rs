//! `common-practice`: settings and technique against what the trade usually does.

use crate::{
    check::{
        Case, Findings, Force, Given, Mark, Outcome, Owner, Place, Shown, Told, Variable,
        range_check::shown,
        registry::declare_check,
        remedy::{accuracy_remedy, in_words, sentence},
        worded::worded,
    },
    quantity::{Kind, Range},
    trade::{AdvisedRange, AdvisedVariable},
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
    /// Stringer or weave, which is `bead`. Current and volts of a wire with printed operating points for the setup:
    /// those say what it takes, and `settings-fit-data` compares.
    "common-practice", Procedure => check, TEXTS
}

const CONSEQUENCE: &str =
    "Few weld like this; expect to look for the reason when the bead is not good.";
const REMEDY: &str = "Unless there is a reason, keep to one of the usual values for";

const TEXTS: &[&str] = &[CONSEQUENCE, REMEDY];

fn check(case: &Case<'_>, findings: &mut Findings) {
    let (settings, readings, numbers) = (&case.setup.settings, case.readings, case.numbers());
    macro_rules! compare {
        ($($variable:ident by $advised:ident: $given:expr;)+) => {$(
            if let Some(given) = &$given && numbers.contains(Variable::$variable) {
                let variables = (Variable::$variable, AdvisedVariable::$advised);
                compared(case, findings, variables, given, |range| match range {
                    AdvisedRange::$advised(range) => Some(range),
                    _ => None,
                });
            }
        )+};
    }
    compare! {
        TravelAngle by TravelAngle: settings.travel_angle;
        WorkAngle by WorkAngle: settings.work_angle;
        StickOut by ElectricalStickOut: readings.stick_out;
        Current by Current: settings.current;
        Voltage by Voltage: settings.voltage;
        WeaveWidth by WeaveWidth: settings.weave_width;
    }
}

/// The finding on one variable; none where nothing is stated, nothing is advised, or the case does
/// not have the variable.
fn compared<K: Kind>(
    case: &Case<'_>,
    findings: &mut Findings,
    (variable, advised): (Variable, AdvisedVariable),
    given: &Given<K>,
    pick: impl Fn(&AdvisedRange) -> Option<&Range<K>>,
) {
    let is_usual = |range: &Range<K>| given.is_plainly_inside(range);
    let mut practice = case.practice().on(advised);
    if practice.any(|(advised, _)| pick(&advised).is_some_and(is_usual))
        && findings.pass(Force::Advised)
    {
        return;
    }
    let usual = || {
        let practice = case.practice().on(advised);
        practice.filter_map(|(advised, source)| Some((*pick(&advised)?, source)))
    };
    let places = usual().map(|(range, _)| given.place(&range, findings.guard()));
    let Some(best) = places.min_by_key(|place| rank(*place)) else { return };
    let outcome = Outcome::from(best);
    let mark = Mark {
        check: CHECK.code,
        variable,
        outcome,
        force: Force::Advised,
        accuracy_unknown: given.accuracy_unknown(),
    };
    findings.note(mark, || {
        let mut usual: Vec<_> = usual().collect();
        usual.dedup();
        told(given, variable, outcome, &usual)
    });
}

const fn rank(place: Place) -> u8 {
    match place {
        Place::Inside => 0,
        Place::EdgeInside => 1,
        Place::EdgeOutside => 2,
        Place::Outside => 3,
    }
}

fn told<K: Kind>(
    given: &Given<K>,
    variable: Variable,
    outcome: Outcome,
    usual: &[(Range<K>, &'static str)],
) -> Told {
    let listed: Vec<_> = usual
        .iter()
        .map(|(range, source)| worded(format_args!("{} ({source})", range.amounts())))
        .collect();
    let usual_words = listed.join("; ");
    let allowed = match usual {
        [(range, _)] => Shown::Range(range.amounts()),
        _ => Shown::Words(listed),
    };
    let mut sources: Vec<_> = usual.iter().map(|(_, source)| *source).collect();
    sources.dedup();
    let met = outcome == Outcome::Inside;
    let name = in_words(variable);
    let typed = usual.iter().find_map(|(range, _)| Shown::Range(range.amounts()).unit_typed());
    let given_words = shown(given).beside(typed);
    let verb = match outcome {
        Outcome::Inside => "is inside",
        Outcome::EdgeInside => "is shown inside, but the instrument's error could put it outside,",
        _ => "is outside",
    };
    let reason = format_args!("{name} {given_words} {verb} what is usual: {usual_words}.");
    Told {
        reason: sentence(worded(reason)),
        given: given_words,
        allowed,
        owner: Owner::practice(sources.join("; ")),
        remedy: if met {
            accuracy_remedy(given, variable)
        } else {
            Some(format!("{REMEDY} {name}: {usual_words}."))
        },
        consequence: (!met).then_some(CONSEQUENCE),
    }
}
