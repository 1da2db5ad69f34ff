//! `polarity`: polarity against the procedure, the filler's designation and its maker.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown, Source,
        choice_check::{Rule, Said, Words, texts},
        registry::declare_check,
    },
    trade::{Agreement, Coded, Polarity, PolarityRule, Position},
};

declare_check! {
    /// ## Checks
    /// The polarity is one the procedure allows, one the designation of the filler allows, and one its
    /// maker allows.
    ///
    /// ## Why
    /// Turned polarity moves the heat from the work to the wire or back: a self-shielded wire made for
    /// electrode negative spatters and turns porous on positive, a gas-shielded one loses its
    /// penetration on negative.
    ///
    /// ## Source
    /// The procedure; the designation's own standard; ISO 15614-1:2017, 8.4.6 for type of current and
    /// polarity.
    ///
    /// ## Not checked
    /// How the leads are really connected.
    "polarity", Polarity => check, texts!(PROCEDURE, DESIGNATION, MAKER)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "The heat goes to the wrong end of the arc: penetration is not the one tested.",
    ),
    change: Some("Connect the leads for"),
    state: Some("State the polarity: DCEP, DCEN or AC."),
    record: Some("Record the polarities the procedure allows."),
};

const DESIGNATION: Words = Words {
    consequence: Some(
        "The filler is not classified on this polarity: spatter, pores, lack of fusion.",
    ),
    change: Some("Change over the leads to what the filler is classified on:"),
    state: Some("State the polarity, so that it can be held against the filler's designation."),
    ..Words::NONE
};

const MAKER: Words = Words {
    consequence: Some(
        "The maker does not offer the filler for this polarity: the arc is unstable.",
    ),
    change: Some("Follow the maker's polarity:"),
    state: Some("State the polarity, so that it can be held against what the maker allows."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.filler.polarity;
    let rule = |source, words| Rule { check: &CHECK, source, force: Force::Required, words };
    let procedure = rule(case.procedure_source(), &PROCEDURE);
    if !findings.has_settled(CHECK.variable) {
        procedure.one_of(findings, stated, &case.procedure.polarities);
    }
    // One that may be meant counts: what is not known is not allowed.
    let horizontal_fillet =
        case.position().is_some_and(|claim| claim.positions().any(|one| one == Position::Pb));
    for designation in case.designations() {
        let rule = rule(case.designation_source(designation), &DESIGNATION);
        let limit = if horizontal_fillet {
            designation.polarity_rule_in_horizontal_fillet()
        } else {
            designation.polarity_rule()
        };
        by_designation(findings, &rule, stated, limit);
    }
    if let Some(consumable) = case.consumable.filter(|known| !known.polarities.is_empty()) {
        rule(Source::Maker(consumable), &MAKER).one_of(findings, stated, &consumable.polarities);
    }
}

fn by_designation(
    findings: &mut Findings,
    rule: &Rule<'_>,
    stated: Option<Polarity>,
    limit: PolarityRule,
) {
    let open = |findings: &mut Findings, reason| {
        rule.finding(findings, Outcome::NotApplicable, |_| Said {
            given: Shown::words(stated),
            ..Said::reason(reason)
        });
    };
    match (stated, limit) {
        (_, PolarityRule::NotStated) => {
            open(findings, "The designation does not state a polarity.");
        }
        (Some(polarity), _) if limit.admits(polarity) == Agreement::Unknown => {
            open(findings, "The designation leaves the pole to the maker.");
        }
        _ => {
            let possible = |polarity: &Polarity| limit.admits(*polarity) != Agreement::Differs;
            let all = || Polarity::ALL.iter().map(|(polarity, _)| polarity);
            let listed = || Shown::words(all().filter(|polarity| possible(polarity)));
            rule.judged(findings, stated.as_ref(), listed, all().any(possible), possible);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::{
            Outcome::*,
            fixture::{Scene, claim},
        },
        trade::Designation,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("polarity")
    }

    #[test]
    fn procedure_designation_and_maker_all_count() {
        assert_eq!(outcomes(|_| ()), [Inside, Inside, Inside]);
        let negative = Some(Polarity::Dcen);
        assert_eq!(outcomes(|s| s.setup.filler.polarity = negative), [Outside, Outside, Outside]);
        let moved = outcomes(|s| s.procedure.polarities = vec![Polarity::Dcen]);
        assert_eq!(moved, [Outside, Inside, Inside]);
        let unknown = outcomes(|s| s.setup.filler.polarity = None);
        assert_eq!(unknown, [NotGiven, NotGiven, NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.polarities.clear()), [NoLimit, Inside, Inside]);
        assert_eq!(outcomes(|s| s.consumable = None), [Inside]);
    }

    /// AWS A5.20: T-11 is classified on DCEN, T-1 on DCEP; ISO 17632-A states no polarity.
    #[test]
    fn the_wrong_pole_for_the_designation_is_refused() {
        let with = |text: &str| {
            let designation = Designation::parse(text).unwrap();
            outcomes(|s| {
                let wire = s.consumable.as_mut().unwrap();
                wire.polarities.clear();
                wire.designations = vec![designation];
            })
        };
        assert_eq!(with("E71T-11"), [Inside, Outside]);
        assert_eq!(with("E71T-1M"), [Inside, Inside]);
        assert_eq!(with("T 46 4 P M21 1 H5"), [Inside, NotApplicable]);
    }

    /// AWS A5.1, class table: E6020 and E6027 on any current when flat, on AC or DCEN in horizontal fillets (from memory).
    #[test]
    fn iron_oxide_has_a_rule_of_its_own_in_horizontal_fillets() {
        let with = |class: &str, position, polarity| {
            let designation = Designation::parse(class).unwrap();
            let all = outcomes(|s| {
                let wire = s.consumable.as_mut().unwrap();
                wire.polarities.clear();
                wire.designations = vec![designation];
                s.procedure.polarities = vec![polarity];
                s.setup.filler.polarity = Some(polarity);
                s.setup.job.position = Some(claim(position));
            });
            all[1]
        };
        for class in ["E6020", "E6027", "E7027"] {
            assert_eq!(with(class, Position::Pb, Polarity::Dcep), Outside, "{class}");
            assert_eq!(with(class, Position::Pb, Polarity::Dcen), Inside, "{class}");
            assert_eq!(with(class, Position::Pa, Polarity::Dcep), Inside, "{class}");
        }
        assert_eq!(with("E6013", Position::Pb, Polarity::Dcep), Inside);
    }
}
