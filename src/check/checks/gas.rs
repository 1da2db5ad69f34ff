//! `gas`: shielding gas against the procedure, by group and by composition.

use rust_decimal::Decimal;

use crate::{
    check::{
        Case, Findings, Force, Outcome, Shown, Source,
        choice_check::{Rule, Said, Words, texts},
        record::{GasRule, Procedure},
        registry::declare_check,
    },
    trade::{Coded, Gas, GasComponent, GasGroup, GasMixture},
};

declare_check! {
    /// ## Checks
    /// The group of the shielding gas by ISO 14175 is one the procedure allows, and where the procedure
    /// fixes a mixture, the composition is that mixture. A setup that states only the group cannot
    /// prove a mixture, unless the group is one pure gas (I1, I2, C1, N1, O1), and group Z proves nothing: two Z
    /// gases are not interchangeable.
    ///
    /// ## Why
    /// The active part of the gas decides metal transfer, penetration and how much manganese and
    /// silicon burn off.
    ///
    /// ## Source
    /// Groups: ISO 14175:2008, Table 2. Tolerance of a mixture, from memory of the same standard: a
    /// component above 5 % by a tenth of its share, one of 1 to 5 % by 0.5 %, below 1 % none. A
    /// mixture that only this tolerance lets pass is therefore shown as near the edge; its group is that
    /// of the mixture fixed, also where 25 % CO2 turn out as 26.
    ///
    /// ## Not checked
    /// Purity and dew point; the flow, which `gas-flow` checks.
    "gas", Gas => check, texts!(GROUP, MIXTURE, NO_GAS)
}

const GROUP: Words = Words {
    consequence: Some(
        "Another group of gas changes transfer, penetration and what burns off: pores or a weak deposit.",
    ),
    change: Some("Connect a gas of group"),
    state: Some("State the shielding gas, best as its composition."),
    record: Some("Record the gas groups or the mixture the procedure allows."),
};

const MIXTURE: Words = Words {
    consequence: Some(
        "The procedure was tested with one mixture; with another its results are not proven.",
    ),
    change: Some("Connect the mixture of the procedure,"),
    state: Some("State the composition of the gas, not only its group."),
    ..Words::NONE
};

const NO_GAS: Words = Words {
    consequence: Some(
        "Gas over an arc that makes its own protection disturbs the slag and hides a wrong filler.",
    ),
    change: Some("Shut off the shielding gas, or check that the right process is meant"),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let gas = case.setup.filler.gas;
    let source = case.procedure_source();
    if !case.procedure.process.gas_shielded() {
        without_gas(findings, source, gas);
        return;
    }
    let group = rule(source, &GROUP);
    let limits = case.procedure.gas.as_ref();
    let Some(limits) = limits.filter(|r| !r.groups.is_empty() || r.mixture.is_some()) else {
        group.finding(findings, Outcome::NoLimit, |owner| Said {
            given: shown(gas),
            allowed: Shown::Nothing,
            reason: format!("The process is gas-shielded, and no gas is set by {owner}."),
        });
        return;
    };
    let group_fits = against_groups(findings, &group, (gas, as_mixed(limits, gas)), limits);
    if let (Some(mixture), Some(gas), true) = (&limits.mixture, gas, group_fits) {
        against_mixture(findings, &rule(source, &MIXTURE), gas, mixture);
    }
}

const fn rule<'a>(source: Source<'a>, words: &'static Words) -> Rule<'a> {
    Rule { check: &CHECK, source, force: Force::Required, words }
}

fn without_gas(findings: &mut Findings, source: Source<'_>, gas: Option<Gas>) {
    let rule = rule(source, &NO_GAS);
    match gas {
        None | Some(Gas::None) => rule.finding(findings, Outcome::NotApplicable, |_| Said {
            given: shown(gas),
            allowed: Shown::word("no shielding gas"),
            reason: "The process uses no shielding gas.".to_owned(),
        }),
        Some(_) => rule.finding(findings, Outcome::Outside, |owner| Said {
            given: shown(gas),
            allowed: Shown::Nothing,
            reason: format!("No shielding gas is used by {owner}."),
        }),
    }
}

/// The group against the groups of the procedure, or that of its mixture where it lists none; says whether it
/// fits.
fn against_groups(
    findings: &mut Findings,
    rule: &Rule<'_>,
    (gas, nominal): (Option<Gas>, Option<Gas>),
    limits: &GasRule,
) -> bool {
    let of_mixture = limits.mixture.map(|mixture| mixture.iso_14175());
    let groups = if limits.groups.is_empty() { of_mixture.as_slice() } else { &limits.groups };
    let group = nominal.and_then(|gas| gas.group());
    match gas {
        Some(Gas::None) => {
            rule.finding(findings, Outcome::Outside, |owner| {
                let allowed = Shown::words(groups);
                let reason = format!("No gas is used; {owner} allows {allowed}.");
                Said { given: shown(gas), allowed, reason }
            });
            false
        }
        Some(_) if group == Some(GasGroup::Z) && limits.mixture.is_none() => {
            let listed = groups.contains(&GasGroup::Z);
            let outcome = if listed { Outcome::NoLimit } else { Outcome::Outside };
            rule.finding(findings, outcome, |_| Said {
                given: shown(gas),
                allowed: Shown::words(groups),
                reason:
                    "Two gases of group Z are not interchangeable (ISO 14175, from memory), and \
                         the procedure fixes no mixture."
                        .to_owned(),
            });
            false
        }
        _ => {
            rule.one_of_shown(findings, group, |_| shown(gas), groups);
            group.is_some_and(|group| groups.contains(&group))
        }
    }
}

fn against_mixture(findings: &mut Findings, rule: &Rule<'_>, gas: Gas, fixed: &GasMixture) {
    let given = || shown(Some(gas));
    let allowed = || Shown::word(fixed.designation());
    let Some(mixture) = gas.mixture() else {
        rule.finding(findings, Outcome::NotGiven, |owner| {
            let (given, allowed) = (given(), allowed());
            let reason = format!("{given} is only a group; {owner} fixes {allowed}.");
            Said { given, allowed, reason }
        });
        return;
    };
    let outcome = if mixture == *fixed {
        Outcome::Inside
    } else if within_tolerance(&mixture, fixed) {
        Outcome::EdgeInside
    } else {
        Outcome::Outside
    };
    rule.finding(findings, outcome, |owner| {
        let (given, allowed) = (given(), allowed());
        let reason = match outcome {
            Outcome::Inside => format!("{given} is the mixture of {owner}."),
            Outcome::EdgeInside => format!(
                "{given} differs from {allowed} of {owner} by no more than the tolerance of a mixture \
                 in ISO 14175, which is from memory."
            ),
            _ => format!("{given} is not {allowed} of {owner}."),
        };
        Said { given, allowed, reason }
    });
}

/// The gas as it was ordered: the mixture that the procedure fixes, where the stated one differs from it by no more than
/// mixing does; else as stated. A mixture is named by its nominal composition (ISO 14175:2008, from memory).
fn as_mixed(limits: &GasRule, gas: Option<Gas>) -> Option<Gas> {
    match (gas, &limits.mixture) {
        // Mostly it is that one, and nothing has to be compared share by share.
        (Some(Gas::Mixture(mixture)), Some(fixed))
            if mixture != *fixed && within_tolerance(&mixture, fixed) =>
        {
            Some(Gas::Mixture(*fixed))
        }
        _ => gas,
    }
}

/// The same for a procedure, whatever it fixes.
pub(in crate::check) fn nominal_gas(procedure: &Procedure, gas: Option<Gas>) -> Option<Gas> {
    procedure.gas.as_ref().map_or(gas, |limits| as_mixed(limits, gas))
}

/// Every component but the base gas within its tolerance; the base gas is the rest.
pub(super) fn within_tolerance(mixture: &GasMixture, fixed: &GasMixture) -> bool {
    let components = || GasComponent::ALL.iter().map(|(component, _)| *component);
    let base = components().max_by_key(|component| fixed.share(*component));
    components().filter(|component| Some(*component) != base).all(|component| {
        let nominal = fixed.share(component);
        (mixture.share(component) - nominal).abs() <= tolerance(nominal)
    })
}

/// Allowed deviation of a component in vol % (ISO 14175:2008, from memory).
fn tolerance(nominal: Decimal) -> Decimal {
    if nominal > Decimal::from(5) {
        nominal / Decimal::TEN
    } else if nominal >= Decimal::ONE {
        Decimal::new(5, 1)
    } else {
        Decimal::ZERO
    }
}

/// The gas as a finding shows it.
pub(super) fn shown(gas: Option<Gas>) -> Shown {
    match gas {
        None => Shown::Nothing,
        Some(Gas::None) => Shown::word("no gas"),
        Some(Gas::Group(group)) => Shown::word(group),
        Some(Gas::Mixture(mixture)) => Shown::word(mixture.designation()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::{Outcome::*, fixture::Scene},
        trade::Process,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("gas")
    }

    fn mixture(text: &str) -> GasMixture {
        GasMixture::parse(text).unwrap()
    }

    #[test]
    fn the_group_has_every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside]);
        let lean = Some(Gas::Mixture(mixture("ArC-15")));
        assert_eq!(outcomes(|s| s.setup.filler.gas = lean), [Outside]);
        let group = |group| Some(Gas::Group(group));
        assert_eq!(outcomes(|s| s.setup.filler.gas = group(GasGroup::M21)), [Inside]);
        assert_eq!(outcomes(|s| s.setup.filler.gas = group(GasGroup::C1)), [Outside]);
        assert_eq!(outcomes(|s| s.setup.filler.gas = None), [NotGiven]);
        assert_eq!(outcomes(|s| s.setup.filler.gas = Some(Gas::None)), [Outside]);
        assert_eq!(outcomes(|s| s.procedure.gas = None), [NoLimit]);
        let empty = GasRule { groups: Vec::new(), mixture: None };
        assert_eq!(outcomes(|s| s.procedure.gas = Some(empty)), [NoLimit]);
    }

    fn against(stated: Gas, fixed: &str) -> Vec<Outcome> {
        let rule = GasRule { groups: Vec::new(), mixture: Some(mixture(fixed)) };
        outcomes(|s| {
            s.procedure.gas = Some(rule);
            s.setup.filler.gas = Some(stated);
        })
    }

    /// Tolerances of ISO 14175:2008, from memory: 20 % by 2 %, 2 % by 0.5 %.
    #[test]
    fn a_fixed_mixture_wants_its_composition() {
        let stated = |text: &str| Gas::Mixture(mixture(text));
        assert_eq!(against(stated("ArC-20"), "ArC-20"), [Inside, Inside]);
        assert_eq!(against(stated("ArC-18"), "ArC-20"), [Inside, EdgeInside]);
        assert_eq!(against(stated("ArC-22"), "ArC-20"), [Inside, EdgeInside]);
        assert_eq!(against(stated("ArC-17.9"), "ArC-20"), [Inside, Outside]);
        assert_eq!(against(stated("ArO-2.5"), "ArO-2"), [Inside, EdgeInside]);
        assert_eq!(against(stated("ArO-2.6"), "ArO-2"), [Inside, Outside]);
        // 26 % are a tenth of 25 % and less away from it, though M21 ends at 25 %.
        assert_eq!(against(stated("ArC-26"), "ArC-25"), [Inside, EdgeInside]);
        assert_eq!(against(stated("ArC-27.6"), "ArC-25"), [Outside]);
        assert_eq!(against(stated("ArC-10"), "ArC-20"), [Outside]);
        assert_eq!(against(Gas::Group(GasGroup::M21), "ArC-20"), [Inside, NotGiven]);
        assert_eq!(against(Gas::Group(GasGroup::M20), "ArC-20"), [Outside]);
    }

    /// ISO 14175:2008, Table 2, from memory: I1 is argon, C1 carbon dioxide, and nothing else; M21 are many mixtures.
    #[test]
    fn a_group_of_one_pure_gas_is_its_composition() {
        let pure = |component| GasMixture::new(&[(component, Decimal::ONE_HUNDRED)]).unwrap();
        for (component, group) in
            [(GasComponent::Argon, GasGroup::I1), (GasComponent::CarbonDioxide, GasGroup::C1)]
        {
            for groups in [Vec::new(), vec![group]] {
                let rule = GasRule { groups, mixture: Some(pure(component)) };
                let with = |gas| {
                    outcomes(|s| {
                        s.procedure.gas = Some(rule.clone());
                        s.setup.filler.gas = Some(gas);
                    })
                };
                assert_eq!(with(Gas::Group(group)), [Inside, Inside], "{group}");
                assert_eq!(with(Gas::Mixture(pure(component))), [Inside, Inside], "{group}");
                assert_eq!(with(Gas::Group(GasGroup::I3)), [Outside], "{group}");
            }
        }
    }

    #[test]
    fn group_z_proves_nothing() {
        let with = |groups: Vec<GasGroup>| {
            outcomes(|s| {
                s.procedure.gas = Some(GasRule { groups, mixture: None });
                s.setup.filler.gas = Some(Gas::Group(GasGroup::Z));
            })
        };
        assert_eq!(with(vec![GasGroup::Z]), [NoLimit]);
        assert_eq!(with(vec![GasGroup::M21]), [Outside]);
    }

    #[test]
    fn a_process_without_gas_takes_none() {
        let with = |gas| {
            outcomes(|s| {
                s.procedure.process = Process::SelfShieldedFluxCored;
                s.setup.filler.gas = gas;
            })
        };
        assert_eq!(with(None), [NotApplicable]);
        assert_eq!(with(Some(Gas::None)), [NotApplicable]);
        assert_eq!(with(Some(Gas::Group(GasGroup::C1))), [Outside]);
    }
}
