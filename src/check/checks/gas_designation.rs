//! `gas-designation`: shielding gas against the filler's designation and its maker.

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown, Source,
        checks::gas::{nominal_gas, shown},
        choice_check::{Rule, Said, Words, texts},
        record::Consumable,
        registry::declare_check,
    },
    trade::{
        Designation, Gas,
        designation::{GasFit, GasRequirement},
    },
};

declare_check! {
    /// ## Checks
    /// The shielding gas is the one a designation of the filler was tested with, and of a group its
    /// maker allows. A wire that shields itself takes none. A mixture of the right group outside the
    /// narrower test mixture, such as 18 % CO2 for a wire tested with 75 to 80 % argon, is advised
    /// against unless the maker allows the group. A mixture that differs from the one the procedure fixes by
    /// no more than the tolerance of mixing counts as that one.
    ///
    /// ## Why
    /// Strength and toughness of a designation hold for its test gas only; a richer argon leaves more
    /// manganese and silicon in the weld, a richer CO2 less.
    ///
    /// ## Source
    /// AWS A5.20 and A5.18, ISO 17632-A and 14341-A as the designation says; groups by ISO 14175:2008.
    ///
    /// ## Not checked
    /// A designation that states no gas.
    "gas-designation", Gas => check, texts!(DESIGNATION, TEST_MIXTURE, MAKER)
}

const DESIGNATION: Words = Words {
    consequence: Some(
        "The filler was classified with another protection: pores, and strength or toughness not as marked.",
    ),
    change: Some("Match gas and filler; this designation needs"),
    state: Some("State the gas, so that it can be held against the filler's designation."),
    ..Words::NONE
};

const TEST_MIXTURE: Words = Words {
    consequence: Some(
        "More argon than in the classification test leaves more alloy in the weld: stronger, less ductile.",
    ),
    change: Some("Connect the test mixture, or have the maker confirm this one;"),
    state: Some("State the composition, so that it can be held against the test mixture."),
    ..Words::NONE
};

const MAKER: Words = Words {
    consequence: Some(
        "The maker does not stand behind this gas: spatter, unsteady transfer, pores.",
    ),
    change: Some("Connect a gas the maker allows:"),
    state: Some("State the gas, so that it can be held against what the maker allows."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let Some(consumable) = case.consumable else { return };
    let gas = nominal_gas(case.procedure, case.setup.filler.gas);
    by_designation(case, consumable, gas, findings);
    if consumable.gases.is_empty() {
        return;
    }
    let rule = rule(Source::Maker(consumable), Force::Required, &MAKER);
    if let Some(Gas::None) = gas {
        rule.finding(findings, Outcome::Outside, |owner| Said {
            given: shown(gas),
            allowed: Shown::words(&consumable.gases),
            reason: format!("No gas is used; {owner} needs one."),
        });
    } else {
        let group = gas.and_then(|gas| gas.group());
        rule.one_of_shown(findings, group, |_| shown(gas), &consumable.gases);
    }
}

const fn rule<'a>(source: Source<'a>, force: Force, words: &'static Words) -> Rule<'a> {
    Rule { check: &CHECK, source, force, words }
}

/// The finding of the designation that fits best: a wire may be classified with several gases.
fn by_designation(
    case: &Case<'_>,
    consumable: &Consumable,
    gas: Option<Gas>,
    findings: &mut Findings,
) {
    let mut bound = case.designations().filter(|d| d.gas() != GasRequirement::NotStated);
    let Some(gas) = gas else {
        return bound.next().into_iter().for_each(|first| not_given(case, first, findings));
    };
    let fits = bound.map(|designation| (designation.gas().admits(&gas), designation));
    let Some((fit, best)) = fits.min_by_key(|(fit, _)| rank(*fit)) else { return };
    let required = rule(case.designation_source(best), Force::Required, &DESIGNATION);
    let (given, allowed) = (|| shown(Some(gas)), || Shown::word(needs(best.gas())));
    match fit {
        GasFit::Fits => required.finding(findings, Outcome::Inside, |owner| {
            let reason = format!("{} is what {owner} was tested with.", given());
            Said { given: given(), allowed: allowed(), reason }
        }),
        GasFit::DoesNotFit => required.finding(findings, Outcome::Outside, |owner| {
            let (given, allowed) = (given(), allowed());
            let reason = format!("{given} is not {allowed}, which {owner} needs.");
            Said { given, allowed, reason }
        }),
        fit => {
            let confirmed = gas.group().is_some_and(|group| consumable.gases.contains(&group));
            let outcome = match fit {
                _ if confirmed => Outcome::Inside,
                GasFit::OutsideTestMixture => Outcome::Outside,
                _ => Outcome::NotGiven,
            };
            let rule = rule(case.designation_source(best), Force::Advised, &TEST_MIXTURE);
            rule.finding(findings, outcome, |owner| {
                let (given, allowed) = (given(), allowed());
                let confirmed = if confirmed { "; its maker allows the group" } else { "" };
                let reason =
                    format!("{given} is not shown to be {allowed}, tested for {owner}{confirmed}.");
                Said { given, allowed, reason }
            });
        }
    }
}

/// Where the setup does not speak of gas: a gap for a filler that needs one, nothing for the others.
fn not_given<'a>(case: &Case<'a>, designation: &'a Designation, findings: &mut Findings) {
    let required = rule(case.designation_source(designation), Force::Required, &DESIGNATION);
    let allowed = || Shown::word(needs(designation.gas()));
    if designation.gas() == GasRequirement::SelfShielded {
        required.finding(findings, Outcome::NotApplicable, |_| Said {
            allowed: allowed(),
            ..Said::reason("The filler needs no gas, and the setup states none.")
        });
        return;
    }
    required.finding(findings, Outcome::NotGiven, |owner| {
        let allowed = allowed();
        let reason = format!("The setup does not state the gas; {owner} needs {allowed}.");
        Said { given: Shown::Nothing, allowed, reason }
    });
}

const fn rank(fit: GasFit) -> u8 {
    match fit {
        GasFit::Fits => 0,
        GasFit::OutsideTestMixture => 1,
        GasFit::Unknown => 2,
        GasFit::DoesNotFit => 3,
    }
}

fn needs(requirement: GasRequirement) -> String {
    match requirement {
        GasRequirement::SelfShielded => "no gas".to_owned(),
        GasRequirement::Co2 => "CO2 (C1)".to_owned(),
        GasRequirement::ArgonCo2Test => "75 to 80 % argon, the rest CO2".to_owned(),
        GasRequirement::Group(group) => group.to_string(),
        GasRequirement::AnyM1WithoutHelium => "a gas of group M1 without helium".to_owned(),
        GasRequirement::AnyM2WithoutHelium => "a gas of group M2 without helium".to_owned(),
        GasRequirement::NotStated => "a gas it does not state".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::{Finding, Outcome::*, fixture::Scene, record::GasRule},
        trade::{GasGroup, GasMixture},
    };

    fn findings(designation: &str, gases: &[GasGroup], gas: Option<Gas>) -> Vec<Finding> {
        let changed = Scene::allowed().with(|s| {
            let wire = s.consumable.as_mut().unwrap();
            wire.designations =
                designation.split('/').map(|text| Designation::parse(text).unwrap()).collect();
            wire.gases = gases.to_vec();
            s.setup.filler.gas = gas;
        });
        changed.of("gas-designation")
    }

    fn outcomes(designation: &str, gas: Option<Gas>) -> Vec<(Force, Outcome)> {
        findings(designation, &[], gas).iter().map(|f| (f.force, f.outcome)).collect()
    }

    fn mixture(text: &str) -> Gas {
        Gas::Mixture(GasMixture::parse(text).unwrap())
    }

    /// AWS A5.20: letter M is 75 to 80 % argon, balance CO2; 18 % CO2 is M21 but outside it.
    #[test]
    fn the_test_mixture_is_narrower_than_its_group() {
        use Force::{Advised, Required};
        assert_eq!(outcomes("E71T-1M", Some(mixture("ArC-20"))), [(Required, Inside)]);
        assert_eq!(outcomes("E71T-1M", Some(mixture("ArC-18"))), [(Advised, Outside)]);
        assert_eq!(outcomes("E71T-1M", Some(Gas::Group(GasGroup::M21))), [(Advised, NotGiven)]);
        assert_eq!(outcomes("E71T-1M", Some(Gas::Group(GasGroup::C1))), [(Required, Outside)]);
        assert_eq!(outcomes("E71T-1M", None), [(Required, NotGiven)]);
        assert_eq!(outcomes("E71T-1M", Some(Gas::None)), [(Required, Outside)]);
    }

    #[test]
    fn the_maker_may_allow_the_group() {
        let confirmed = findings("E71T-1M", &[GasGroup::M21], Some(mixture("ArC-18")));
        let outcomes: Vec<_> = confirmed.iter().map(|f| f.outcome).collect();
        assert_eq!(outcomes, [Inside, Inside]);
        let refused = findings("E71T-1M", &[GasGroup::C1], Some(mixture("ArC-20")));
        assert_eq!(refused[1].outcome, Outside);
        let open = findings("E71T-1M", &[GasGroup::C1], None);
        assert_eq!(open[1].outcome, NotGiven);
        let none = findings("E71T-1M", &[GasGroup::C1], Some(Gas::None));
        assert_eq!(none[1].outcome, Outside);
    }

    /// AWS A5.20: 75 to 80 % argon. A cylinder with 26 % CO2 in place of the 25 % that the procedure fixes is a tenth of
    /// it and less away (ISO 14175:2008, from memory), though M21 ends at 25 %.
    #[test]
    fn a_mixture_counts_as_the_one_it_was_ordered_as() {
        let found = |fixed: Option<&str>| {
            let scene = Scene::allowed().with(|s| {
                let wire = s.consumable.as_mut().unwrap();
                wire.designations = vec![Designation::parse("E71T-1M").unwrap()];
                wire.gases = vec![GasGroup::M21];
                let fixed = fixed.map(|text| GasMixture::parse(text).unwrap());
                s.procedure.gas = Some(GasRule { groups: vec![GasGroup::M21], mixture: fixed });
                s.setup.filler.gas = Some(mixture("ArC-26"));
            });
            scene.outcomes("gas-designation")
        };
        assert_eq!(found(Some("ArC-25")), [Inside, Inside]);
        // The printed data of the wire are those for the gas as ordered too.
        let data = |fixed: &str| {
            let scene = Scene::allowed().with(|s| {
                let mixture = GasMixture::parse(fixed).ok();
                s.procedure.gas = Some(GasRule { groups: vec![GasGroup::M21], mixture });
                s.setup.filler.gas = Some(self::mixture("ArC-26"));
            });
            scene.in_case(|case| case.data.is_some())
        };
        assert!(data("ArC-25"));
        assert!(!data("ArC-20"));
        assert_eq!(found(None), [Outside, Outside]);
    }

    #[test]
    fn gas_over_a_self_shielded_wire_is_refused() {
        use Force::Required;
        let with_gas = findings("E71T-11", &[], Some(Gas::Group(GasGroup::C1)));
        assert_eq!((with_gas[0].force, with_gas[0].outcome), (Required, Outside));
        assert!(with_gas[0].owner.name.starts_with("designation "));
        assert_eq!(outcomes("E71T-11", Some(Gas::None)), [(Required, Inside)]);
        assert_eq!(outcomes("E71T-11", None), [(Required, NotApplicable)]);
    }

    #[test]
    fn of_two_classifications_the_fitting_one_counts() {
        use Force::Required;
        let c1 = Some(Gas::Group(GasGroup::C1));
        assert_eq!(outcomes("E71T-1C/E71T-1M", c1), [(Required, Inside)]);
        assert_eq!(outcomes("E71T-1C/E71T-1M", Some(mixture("ArC-25"))), [(Required, Inside)]);
    }

    /// AWS A5.18: ER70S-6 states no gas.
    #[test]
    fn a_designation_without_gas_is_silent() {
        assert_eq!(outcomes("ER70S-6", Some(mixture("ArC-20"))), []);
    }
}
