//! The first look at a setup: which limits it plainly meets. Nothing has to be said of those, so most of a check is
//! to compare a few numbers; whatever is not plain is left to the check of its variable.

use super::{
    Authority, Case, Force, Met, NUMERIC, PlainValues, Setup, Variable, VariableSet,
    record::{Procedure, RunLimits},
};
use crate::{
    quantity::Span,
    trade::{Gas, GasGroup},
};

/// What the first look settles.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct FirstLook {
    /// Numbers inside the limits of all who limit them, and choices that the procedure allows.
    pub settled: VariableSet,
    /// How many limits that are.
    pub met: Met,
}

impl FirstLook {
    /// Of one case.
    pub fn of(case: &Case<'_>) -> Self {
        const NUMBERS: VariableSet = VariableSet::of(NUMERIC);
        let values = PlainValues::of(case.setup, case.readings);
        let own = plainly_met(case.procedure, case.run, case.setup, &values);
        let mut settled = case.numbers() & (own | !case.run.ranges.limited());
        // The procedure comes first; the others limit numbers too.
        for other in case.authorities().skip(1).map(Authority::ranges) {
            settled = settled & (other.plainly_met(&values) | !other.limited());
        }
        let met = case.authorities().fold(Met::default(), |met, authority| {
            met.and_more(authority.force(), (authority.ranges().limited() & settled).len())
        });
        let mut choices = own & !NUMBERS;
        if case.consumable.is_none() {
            choices = choices & !VariableSet::of(&[Variable::Consumable]);
        }
        let met = met.and_more(Force::Required, findings_on(choices, case));
        Self { settled: settled | choices, met }
    }
}

/// How many findings there are on these choices: one on each, but one for each part of the joint on its metal and
/// thickness, and one more where the gas has to be one mixture.
fn findings_on(choices: VariableSet, case: &Case<'_>) -> u16 {
    let parts = u16::try_from(case.setup.job.base_metals.len()).unwrap_or(u16::MAX);
    let of_parts = choices & VariableSet::of(&[Variable::BaseMetal, Variable::Thickness]);
    let mixture = choices.contains(Variable::Gas)
        && case.procedure.gas.as_ref().is_some_and(|rule| rule.mixture.is_some());
    ((choices & !of_parts).len() + u16::from(mixture))
        .saturating_add(of_parts.len().saturating_mul(parts))
}

/// Limits of a procedure's revision and of one of its runs that a setup plainly meets, whatever others limit. What is
/// not among them is not refused: it may be measured, be at the very edge, or not be limited here.
#[must_use]
pub fn plainly_met(
    procedure: &Procedure,
    run: &RunLimits,
    setup: &Setup,
    values: &PlainValues,
) -> VariableSet {
    choices(procedure, setup) | run.ranges.plainly_met(values)
}

/// Choices that the procedure plainly allows.
fn choices(procedure: &Procedure, setup: &Setup) -> VariableSet {
    let (job, filler) = (&setup.job, &setup.filler);
    let position = job.narrowed_position().and_then(|claim| claim.only());
    let parts = &job.base_metals;
    let metal = !parts.is_empty()
        && parts.iter().all(|part| part.group.is_some_and(|group| procedure.covers_metal(group)));
    let thickness = !parts.is_empty()
        && procedure.thickness.as_ref().is_some_and(|range| {
            parts
                .iter()
                .all(|part| part.thickness.is_some_and(|one| range.contains(&Span::one(one))))
        });
    VariableSet::default()
        .with_if(Variable::Process, setup.process == Some(procedure.process))
        .with_if(Variable::Joint, is_among(job.joint, &procedure.joints))
        .with_if(Variable::Position, is_among(position, &procedure.positions))
        .with_if(Variable::BaseMetal, metal)
        .with_if(Variable::Thickness, thickness)
        .with_if(
            Variable::Consumable,
            filler.consumable.as_ref().is_some_and(|code| procedure.consumables.contains(code)),
        )
        .with_if(Variable::Diameter, is_among(filler.diameter, &procedure.diameters))
        .with_if(Variable::Polarity, is_among(filler.polarity, &procedure.polarities))
        .with_if(Variable::Gas, gas_is_plain(procedure, setup))
        .with_if(
            Variable::Waveform,
            setup.settings.waveform.is_some() && setup.settings.waveform == procedure.waveform,
        )
}

/// Whether the gas is just the mixture that the procedure fixes, or of a group it allows where it fixes none. Group Z
/// proves nothing.
fn gas_is_plain(procedure: &Procedure, setup: &Setup) -> bool {
    let (Some(rule), Some(gas)) = (&procedure.gas, &setup.filler.gas) else { return false };
    let group = gas.group();
    let of_group = match (&rule.mixture, gas) {
        (None, _) => group != Some(GasGroup::Z) && is_among(group, &rule.groups),
        (Some(fixed), Gas::Mixture(mixture)) => {
            mixture == fixed && (rule.groups.is_empty() || is_among(group, &rule.groups))
        }
        _ => false,
    };
    procedure.process.gas_shielded() && of_group
}

fn is_among<T: PartialEq>(stated: Option<T>, allowed: &[T]) -> bool {
    stated.is_some_and(|stated| allowed.contains(&stated))
}
