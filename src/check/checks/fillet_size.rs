//! `fillet-size`: leg and throat of the fillet asked for against the procedure.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    quantity::{Amount, AmountRange, Leg, Throat},
    trade::JointKind,
};

declare_check! {
    /// ## Checks
    /// Where the procedure sets a range of legs or throats, the fillet that the job asks for lies inside it, ends
    /// included: each of its legs, and its throat. Where the job states a leg alone, the throat is that of a flat fillet
    /// of equal legs in a square joint: the leg over the root of two.
    ///
    /// ## Why
    /// A larger fillet than tested takes more runs and more heat, and a smaller one cools faster.
    ///
    /// ## Source
    /// The procedure. Rules behind the range: ISO 15614-1:2017, 8.3.2.2, Table 8 (throat of fillets); AWS D1.1 (2015,
    /// Table 4.4, fillet sizes; number from memory). Throat: geometry.
    ///
    /// ## Not checked
    /// Gaps between the parts, and what a run really leaves: the latter is the check `leg`.
    "fillet-size", Leg => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Fusion and hardness were proven on fillets of other sizes: they cool and are built up differently.",
    ),
    change: Some("Use a procedure for fillets of this size; this one covers"),
    state: Some("State the leg or the throat of the fillet that is asked for."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let Some(sizes) = &case.procedure.fillet else { return };
    let job = &case.setup.job;
    if job.joint == Some(JointKind::Butt) {
        return;
    }
    if let Some(legs) = &sizes.leg {
        let judged = |leg: Leg| (leg.amount(), legs.includes(leg));
        let limit = ("leg", legs.amounts());
        against(case, findings, limit, job.fillet.map(|fillet| judged(fillet.leg)));
        if let Some(fillet) = job.fillet.filter(|fillet| fillet.other_leg != fillet.leg) {
            against(case, findings, limit, Some(judged(fillet.other_leg)));
        }
    }
    if let Some(throats) = &sizes.throat {
        let throat = job.fillet.and_then(|fillet| fillet.throat().ok());
        let judged = |throat: Throat| (throat.amount(), throats.includes(throat));
        against(case, findings, ("throat", throats.amounts()), throat.map(judged));
    }
}

fn against(
    case: &Case<'_>,
    findings: &mut Findings,
    (what, range): (&str, AmountRange),
    asked: Option<(Amount, bool)>,
) {
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let outcome = match asked {
        Some((_, true)) => Outcome::Inside,
        Some((_, false)) => Outcome::Outside,
        None => Outcome::NotGiven,
    };
    rule.finding(findings, outcome, |owner| {
        let allowed = Shown::Range(range);
        let limit = format!("the {what} of {allowed} set by {owner}");
        let (given, reason) = if let Some((size, is_inside)) = asked {
            let size = Shown::Amount(size);
            let given =
                size.apart_from(&range).unwrap_or_else(|| size.beside(allowed.unit_typed()));
            let lies = if is_inside { "inside" } else { "outside" };
            let reason = format!("A fillet with a {what} of {given} is {lies} {limit}.");
            (given, reason)
        } else {
            (
                Shown::Nothing,
                format!("The job does not say which fillet is asked for; {limit} counts."),
            )
        };
        Said { given, allowed, reason }
    });
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{
            Outcome::{self, *},
            fixture::{Scene, quantity, range},
            record::FilletSizes,
        },
        trade::{Fillet, JointKind},
    };

    fn outcomes(sizes: &FilletSizes, leg: Option<&str>) -> Vec<Outcome> {
        let with = |scene: &mut Scene| {
            scene.procedure.fillet = Some(Box::new(sizes.clone()));
            scene.setup.job.fillet = leg.map(|leg| Fillet::equal(quantity(leg)).unwrap());
        };
        Scene::allowed().with(with).outcomes("fillet-size")
    }

    /// 8 mm over the root of two are 5.657 mm, 7 mm are 4.950 mm (own arithmetic).
    #[test]
    fn leg_and_throat_are_held_to_the_procedure() {
        let legs = FilletSizes { leg: Some(range("5 mm", "8 mm")), throat: None };
        let throats = FilletSizes { leg: None, throat: Some(range("5 mm", "7 mm")) };
        assert_eq!(outcomes(&legs, Some("8 mm")), [Inside]);
        assert_eq!(outcomes(&legs, Some("8.1 mm")), [Outside]);
        assert_eq!(outcomes(&legs, Some("3/16 in")), [Outside]);
        assert_eq!(outcomes(&legs, None), [NotGiven]);
        assert_eq!(outcomes(&throats, Some("8 mm")), [Inside]);
        assert_eq!(outcomes(&throats, Some("7 mm")), [Outside]);
        let both = FilletSizes { leg: legs.leg, throat: throats.throat };
        assert_eq!(outcomes(&both, Some("7 mm")), [Inside, Outside]);
    }

    /// 4.2426 mm over the root of two are 2.999 971 mm (own arithmetic), which as 3 mm would be inside.
    #[test]
    fn a_throat_just_too_small_is_not_printed_as_the_limit() {
        let scene = Scene::allowed().with(|s| {
            let throat = Some(range("3 mm", "6 mm"));
            s.procedure.fillet = Some(Box::new(FilletSizes { leg: None, throat }));
            s.setup.job.fillet = Some(Fillet::equal(quantity("4.2426 mm")).unwrap());
        });
        let finding = scene.of("fillet-size").remove(0);
        assert_eq!(finding.outcome, Outside);
        assert!(finding.reason.contains("throat of 2.99997 mm is outside"), "{}", finding.reason);
    }

    /// A throat that is stated is not rounded by way of its leg, and each of two legs counts: 10 and 5 mm have a throat
    /// of 10 * 5 / sqrt(125) = 4.472 mm (own arithmetic).
    #[test]
    fn the_fillet_itself_is_judged() {
        let sizes =
            FilletSizes { leg: Some(range("6 mm", "12 mm")), throat: Some(range("5 mm", "7 mm")) };
        let of = |fillet: Fillet| {
            let scene = Scene::allowed().with(|s| {
                s.procedure.fillet = Some(Box::new(sizes.clone()));
                s.setup.job.fillet = Some(fillet);
            });
            scene.outcomes("fillet-size")
        };
        assert_eq!(of(Fillet::with_throat(quantity("7 mm")).unwrap()), [Inside, Inside]);
        assert_eq!(of(Fillet::with_throat(quantity("5 mm")).unwrap()), [Inside, Inside]);
        let unequal =
            Fillet { other_leg: quantity("5 mm"), ..Fillet::equal(quantity("10 mm")).unwrap() };
        assert_eq!(of(unequal), [Inside, Outside, Outside]);
    }

    #[test]
    fn a_butt_weld_and_a_procedure_without_sizes_have_none() {
        assert!(Scene::allowed().outcomes("fillet-size").is_empty());
        let sizes = FilletSizes { leg: Some(range("5 mm", "8 mm")), throat: None };
        let butt = Scene::allowed().with(|s| {
            s.procedure.fillet = Some(Box::new(sizes));
            s.setup.job.joint = Some(JointKind::Butt);
        });
        assert!(butt.outcomes("fillet-size").is_empty());
    }
}
