//! `fillet-size`: leg and throat of the fillet asked for against the procedure.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    quantity::{AmountRange, Leg},
    trade::{Fillet, JointKind},
};

declare_check! {
    /// ## Checks
    /// Where the procedure sets a range of legs or throats, the fillet that the job asks for lies inside it, ends
    /// included. The throat is that of a flat fillet of equal legs in a square joint: the leg over the root of two.
    ///
    /// ## Why
    /// A larger fillet than tested takes more runs and more heat, and a smaller one cools faster.
    ///
    /// ## Source
    /// The procedure. Rules behind the range: ISO 15614-1:2017, 8.3.2.2, Table 8 (throat of fillets); AWS D1.1 (2015,
    /// Table 4.4, fillet sizes; number from memory). Throat: geometry.
    ///
    /// ## Not checked
    /// Fillets of unequal legs, skewed joints, gaps between the parts; what a run really leaves is the check `leg`.
    "fillet-size", Leg => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "Fusion and hardness were proven on fillets of other sizes: they cool and are built up differently.",
    ),
    change: Some("Use a procedure for fillets of this size; this one covers"),
    state: Some("State the leg of the fillet that is asked for."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let Some(sizes) = &case.procedure.fillet else { return };
    if case.setup.job.joint == Some(JointKind::Butt) {
        return;
    }
    let asked = case.setup.job.weld_leg;
    if let Some(legs) = &sizes.leg {
        against(case, findings, asked, ("leg", legs.amounts()), |leg| Some(legs.includes(leg)));
    }
    if let Some(throats) = &sizes.throat {
        let throat = |leg| Fillet::equal(leg).ok()?.throat().ok();
        against(case, findings, asked, ("throat", throats.amounts()), |leg| {
            throat(leg).map(|throat| throats.includes(throat))
        });
    }
}

fn against(
    case: &Case<'_>,
    findings: &mut Findings,
    asked: Option<Leg>,
    (what, range): (&str, AmountRange),
    is_inside: impl FnOnce(Leg) -> Option<bool>,
) {
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let outcome = match asked.map(is_inside) {
        Some(Some(true)) => Outcome::Inside,
        Some(Some(false)) => Outcome::Outside,
        Some(None) | None => Outcome::NotGiven,
    };
    let lies = if outcome == Outcome::Inside { "inside" } else { "outside" };
    rule.finding(findings, outcome, |owner| {
        let allowed = Shown::Range(range);
        let limit = format!("the {what} of {allowed} set by {owner}");
        let (given, reason) = if let Some(leg) = asked {
            (
                Shown::Amount(leg.amount()),
                format!("A fillet with a leg of {leg} is {lies} {limit}."),
            )
        } else {
            (
                Shown::Nothing,
                format!("The job does not say which leg is asked for; {limit} counts."),
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
        trade::JointKind,
    };

    fn outcomes(sizes: &FilletSizes, leg: Option<&str>) -> Vec<Outcome> {
        let with = |scene: &mut Scene| {
            scene.procedure.fillet = Some(Box::new(sizes.clone()));
            scene.setup.job.weld_leg = leg.map(quantity);
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
