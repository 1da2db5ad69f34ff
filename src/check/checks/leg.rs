//! `leg`: the leg that one run leaves against the one the job asks for.

use crate::{
    check::{
        Case, Findings, Force, Mark, Outcome, Owner, Shown, Told, range_check::not_applicable,
        registry::declare_check,
    },
    quantity::{Leg, LegKind, Range, Rounding, Span, TravelSpeed},
    trade::JointKind,
};

declare_check! {
    /// ## Checks
    /// Where the job asks for a leg of a fillet, the leg that one run leaves, by the metal that wire feed
    /// and travel speed lay, reaches it with every usual shape of the face and is not surely a quarter more.
    /// Advice only, as in a window: the leg may be made in several runs, and the face is an estimate. Nothing is
    /// said where the job asks for no leg.
    ///
    /// ## Why
    /// A leg below the drawing is a weak weld. The metal grows with the square of the leg: 8 mm in place
    /// of 6 mm is 78 % more wire, time and heat.
    ///
    /// ## Source
    /// The job's own leg. Leg of one run: mass balance; half the square of the leg by TWI Job Knowledge 95.
    /// Face from flat to convex (factor 1.0 to 1.2) and over-welding from a quarter more on: common
    /// practice, no source.
    ///
    /// ## Not checked
    /// Unequal legs, gaps between the parts and the number of runs: the leg is that of one run. A filler
    /// fed by hand, whose feed nobody states.
    "leg", Leg => check, TEXTS
}

/// How much more than asked counts as over-welding (common practice, no source).
const OVER_WELDING: f64 = 1.25;

const SOURCE: &str = "mass balance of one run; its face and what counts as over-welding: common practice, \
                      no source";
const SMALL: &str = "The run leaves too little metal: the fillet is smaller and weaker than drawn.";
const LARGE: &str = "The run leaves far more metal than drawn: wire, time and heat for no strength, and \
                     more distortion.";
const SLOWER: &str = "Travel slower or feed more wire, for a leg of at least";
const FASTER: &str = "Travel faster or feed less wire, for a leg of at most";
const STATE: &str =
    "State feed, travel speed, consumable and diameter, to compare the leg they give.";

const TEXTS: &[&str] = &[SMALL, LARGE, SLOWER, FASTER, STATE];

fn check(case: &Case<'_>, findings: &mut Findings) {
    let Some(asked) = case.setup.job.leg else { return };
    let process = case.setup.process.unwrap_or(case.procedure.process);
    if case.setup.job.joint == Some(JointKind::Butt) {
        return not_applicable(findings, &CHECK, || "A butt weld has no leg.");
    }
    if !process.has_wire_feed() {
        return not_applicable(findings, &CHECK, || {
            format!("Process {process} has no wire feed to compute a leg from.")
        });
    }
    let Some(most) = most_leg(asked) else { return };
    let Ok(allowed) = Range::new(Some(asked), Some(most)) else { return };
    match case.figures().leg() {
        Ok(run) => judge(case, findings, asked, &run, &allowed),
        Err(missing) => note(findings, Outcome::NotGiven, &allowed, || Said {
            given: Shown::Nothing,
            reason: format!(
                "The job asks for a leg of {asked}; that of one run is not known. {missing}"
            ),
            remedy: Some(STATE.to_owned()),
            consequence: None,
        }),
    }
}

/// The leg beyond which one run over-welds, where this one is asked for; `None` where that is no number.
#[must_use]
pub fn most_leg(asked: Leg) -> Option<Leg> {
    Leg::computed(asked.mm() * OVER_WELDING).ok()
}

/// Who advises on the leg of one run.
#[must_use]
pub fn leg_owner() -> Owner {
    Owner::practice(SOURCE)
}

/// The band of one run: too small where some usual face does not reach the leg, too large where every one
/// passes the other end.
fn judge(
    case: &Case<'_>,
    findings: &mut Findings,
    asked: Leg,
    run: &Span<LegKind>,
    allowed: &Range<LegKind>,
) {
    let shown = || match run.single() {
        Some(one) => Shown::Amount(one.amount()),
        None => Shown::Range(run.amounts()),
    };
    let typed = asked.amount().unit_typed();
    let leaves = || format!("One run leaves a leg of {}", shown().beside(typed));
    if !run.low().at_least(asked) {
        let face = if run.high().at_least(asked) { " unless its face is flat enough" } else { "" };
        return note(findings, Outcome::Outside, allowed, || Said {
            given: shown(),
            reason: format!("{}, less than the {asked} that the job asks for{face}.", leaves()),
            remedy: Some(remedy(
                case,
                (SLOWER, asked),
                run.low().mm() / asked.mm(),
                Rounding::Down,
            )),
            consequence: Some(SMALL),
        });
    }
    if let Some(most) = allowed.max().filter(|most| !run.low().at_most(*most)) {
        return note(findings, Outcome::Outside, allowed, || Said {
            given: shown(),
            reason: format!(
                "{}, over a quarter more than the {asked} that the job asks for.",
                leaves()
            ),
            remedy: Some(remedy(case, (FASTER, most), run.low().mm() / most.mm(), Rounding::Up)),
            consequence: Some(LARGE),
        });
    }
    note(findings, Outcome::Inside, allowed, || Said {
        given: shown(),
        reason: format!("{}, which reaches the {asked} that the job asks for.", leaves()),
        remedy: None,
        consequence: None,
    });
}

/// What to change, with the travel speed that does it at this feed: the area of a run is in inverse
/// proportion to it, the leg to its root.
fn remedy(case: &Case<'_>, (words, end): (&str, Leg), ratio: f64, rounding: Rounding) -> String {
    let asked = case.setup.job.leg.and_then(Leg::as_entered);
    let end = asked.map_or(end.amount(), |typed| end.amount().said_in(typed.unit));
    let speed = case.readings.travel_speed.as_ref().and_then(|speed| {
        // The smallest leg of the band is that of the highest speed.
        let from = speed.span.high();
        let (how, more) = match rounding {
            Rounding::Up => ("faster", ""),
            _ => ("slower", ", so that it takes more runs"),
        };
        let needed = TravelSpeed::computed(from.canonical() * ratio * ratio).ok()?;
        let system = from.as_entered().and_then(|typed| typed.unit.system);
        let (number, unit) = needed.amount().written_rounded(system, rounding);
        let symbol = unit.symbol;
        // Any speed on the far side does as well, so that one end of the procedure counts.
        let permitted = case.run.ranges.travel_speed.as_ref();
        let is_permitted = match rounding {
            Rounding::Up => permitted.and_then(Range::max).is_none_or(|most| needed.at_most(most)),
            _ => permitted.and_then(Range::min).is_none_or(|least| needed.at_least(least)),
        };
        Some(if is_permitted {
            format!("; with this feed travel at {number} {symbol} or {how}")
        } else {
            format!(
                "; with this feed that is {number} {symbol} or {how}, beyond the procedure{more}"
            )
        })
    });
    format!("{words} {end}{}.", speed.unwrap_or_default())
}

/// What a finding says beyond limit and owner.
struct Said {
    given: Shown,
    reason: String,
    remedy: Option<String>,
    consequence: Option<&'static str>,
}

fn note(
    findings: &mut Findings,
    outcome: Outcome,
    allowed: &Range<LegKind>,
    said: impl FnOnce() -> Said,
) {
    let mark = Mark {
        check: CHECK.code,
        variable: CHECK.variable,
        outcome,
        force: Force::Advised,
        accuracy_unknown: false,
    };
    findings.note(mark, || {
        let Said { given, reason, remedy, consequence } = said();
        Told {
            given,
            allowed: Shown::Range(allowed.amounts()),
            owner: leg_owner(),
            reason,
            remedy,
            consequence,
        }
    });
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{
            Finding, Force, Outcome, Shown, Verdict,
            fixture::{Scene, quantity, set},
        },
        trade::{Designation, FillerKind, JointKind, Process},
    };

    /// A solid wire of 1.2 mm at 8 m/min, 95 % and 400 mm/min: a leg of 5.984 mm to 6.556 mm (own
    /// arithmetic: 21.49 mm² with a factor of 1.2 and of 1.0).
    fn asking(leg: &str) -> Scene {
        Scene::allowed().with(|s| {
            s.limits().travel_speed = None;
            let wire = s.consumable.as_mut().unwrap();
            wire.kind = FillerKind::SolidWire;
            wire.designations = vec![Designation::parse("ER70S-6").unwrap()];
            wire.efficiency = Some(quantity("95 %"));
            s.setup.settings.travel_speed = Some(set("400 mm/min"));
            s.setup.job.leg = Some(quantity(leg));
        })
    }

    fn only(scene: &Scene) -> Finding {
        let mut findings = scene.of("leg");
        assert_eq!(findings.len(), 1, "{findings:?}");
        findings.remove(0)
    }

    /// Own arithmetic: the band is 5.984 to 6.556 mm; 5.984 / 1.25 = 4.787 mm.
    #[test]
    fn the_leg_is_reached_missed_or_far_exceeded() {
        for (leg, outcome) in [
            ("6.6 mm", Outcome::Outside),
            ("6.5 mm", Outcome::Outside),
            ("6 mm", Outcome::Outside),
            ("5.9 mm", Outcome::Inside),
            ("4.8 mm", Outcome::Inside),
            ("4.7 mm", Outcome::Outside),
        ] {
            let finding = only(&asking(leg));
            assert_eq!(finding.outcome, outcome, "{leg}: {}", finding.reason);
            assert_eq!(finding.force, Force::Advised);
            assert_eq!(finding.given.to_string(), "5.984 mm to 6.556 mm");
        }
        assert!(only(&asking("6.5 mm")).reason.contains("unless its face is flat enough"));
        for leg in ["6.6 mm", "5.9 mm"] {
            assert!(!only(&asking(leg)).reason.contains("flat enough"));
        }
    }

    /// Own arithmetic: 8 mm needs 400 * (5.9845 / 8)² = 223.8 mm/min or less, with every usual face; at most 5 mm, for a leg of
    /// 4 mm asked, needs 400 * (5.984 / 5)² = 573.03 mm/min or more.
    #[test]
    fn the_remedy_names_the_travel_speed_at_this_feed() {
        let small = only(&asking("8 mm"));
        let remedy = small.remedy.unwrap();
        assert!(
            remedy.contains("at least 8 mm; with this feed travel at 223.8 mm/min or slower"),
            "{remedy}"
        );
        assert!(small.consequence.unwrap().contains("weaker"));
        let large = only(&asking("4 mm"));
        let remedy = large.remedy.unwrap();
        assert!(
            remedy.contains("at most 5 mm; with this feed travel at 573.1 mm/min or faster"),
            "{remedy}"
        );
        assert_eq!(large.allowed.to_string(), "4 mm to 5 mm");
    }

    /// 223.8 and 573.1 mm/min are no advice where the procedure permits neither.
    #[test]
    fn a_travel_speed_beyond_the_procedure_is_not_advised() {
        let within = |leg: &str| {
            let scene = asking(leg).with(|s| {
                s.limits().travel_speed =
                    Some(crate::check::fixture::range("300 mm/min", "450 mm/min"));
            });
            only(&scene).remedy.unwrap()
        };
        let small = within("8 mm");
        assert!(
            small.contains(
                "223.8 mm/min or slower, beyond the procedure, so that it takes more runs"
            ),
            "{small}"
        );
        let large = within("4 mm");
        assert!(large.ends_with("573.1 mm/min or faster, beyond the procedure."), "{large}");
        // 400 * (5.9845 / 6.2)² = 372.68 mm/min, rounded down, or slower (own arithmetic) leaves all that the procedure
        // permits.
        let slower = asking("6.2 mm").with(|s| {
            s.limits().travel_speed =
                Some(crate::check::fixture::range("300 mm/min", "350 mm/min"));
        });
        let slower = only(&slower).remedy.unwrap();
        assert!(slower.ends_with("travel at 372.6 mm/min or slower."), "{slower}");
    }

    /// Own arithmetic: 5.984 and 6.556 mm over 25.4 are 0.2356 and 0.2581 in; 0.18 in times 1.25 is 0.225 in.
    #[test]
    fn what_one_run_leaves_stands_in_the_unit_of_the_leg_asked_for() {
        let reached = only(&asking("1/4 in")).reason;
        let expected = "One run leaves a leg of 0.2356 in to 0.2581 in, less than the 0.25 in that the job \
                        asks for unless its face is flat enough.";
        assert_eq!(reached, expected);
        let remedy = only(&asking("0.18 in")).remedy.unwrap();
        assert!(remedy.contains("for a leg of at most 0.225 in; with"), "{remedy}");
    }

    #[test]
    fn a_leg_is_advice_only() {
        assert_eq!(Scene::allowed().verdict(), Verdict::Allowed);
        let large = Scene::allowed().with(|s| s.setup.job.leg = Some(quantity("20 mm")));
        assert_eq!(only(&large).outcome, Outcome::Outside);
        assert_eq!(large.verdict(), Verdict::AllowedWithAdvice);
    }

    #[test]
    fn what_is_missing_is_named_and_no_leg_asked_is_no_finding() {
        let no_feed = asking("6 mm").with(|s| s.setup.settings.wire_feed = None);
        let finding = only(&no_feed);
        assert_eq!((finding.outcome, &finding.given), (Outcome::NotGiven, &Shown::Nothing));
        assert!(finding.reason.contains("wire feed speed is not stated"), "{}", finding.reason);
        let butt = asking("6 mm").with(|s| s.setup.job.joint = Some(JointKind::Butt));
        assert_eq!(only(&butt).outcome, Outcome::NotApplicable);
        let stick = asking("6 mm").with(|s| s.setup.process = Some(Process::ManualMetalArc));
        assert_eq!(only(&stick).outcome, Outcome::NotApplicable);
        assert!(Scene::allowed().of("leg").is_empty());
    }
}
