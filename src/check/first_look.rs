//! The first look at a setup: which limits it plainly meets. Nothing has to be said of those, so most of a check is
//! to compare a few numbers; whatever is not plain is left to the check of its variable.

use super::{
    Case, Force, PARTS_OF_A_JOINT, PlainValues, Setup, Tally, Variable, VariableSet,
    record::{Procedure, RunLimits},
};
use crate::trade::{Gas, GasGroup};

/// The variables that the first look settles, counted as met: numbers inside the limits of all who limit them, and
/// choices that the procedure allows.
pub(super) fn first_look(case: &Case<'_>, tally: &mut Tally) -> VariableSet {
    let values = PlainValues::of(case.setup, case.readings);
    let mut settled = case.numbers();
    for authority in case.authorities() {
        let ranges = authority.ranges();
        let limited = ranges.limited() | ranges.carried().limited();
        settled = settled & (ranges.plainly_met(&values) | !limited);
    }
    for authority in case.authorities() {
        tally.add_inside(authority.force(), authority.ranges().limits_on(settled));
    }
    let mut choices = choices(case.procedure, case.run, case.setup);
    if case.consumable.is_none() {
        choices = choices & !VariableSet::of(&[Variable::Consumable]);
    }
    tally.add_inside(Force::Required, findings_on(choices, case));
    settled | choices
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
    choices(procedure, run, setup) | run.ranges.plainly_met(values)
}

/// Choices that the procedure plainly allows.
fn choices(procedure: &Procedure, run: &RunLimits, setup: &Setup) -> VariableSet {
    let (job, filler, settings) = (&setup.job, &setup.filler, &setup.settings);
    let position = job.only_position();
    let parts = &job.base_metals;
    let thickness = procedure.thickness.as_ref();
    let every_part = parts.len() >= PARTS_OF_A_JOINT;
    let (mut metal_covered, mut thickness_inside) = (every_part, every_part);
    for part in parts {
        metal_covered &= part.group.is_some_and(|group| procedure.covers_metal(group));
        thickness_inside &=
            part.thickness.is_some_and(|one| thickness.is_some_and(|range| range.includes(one)));
    }
    VariableSet::default()
        .with_if(Variable::Process, setup.process == Some(procedure.process))
        .with_if(Variable::Joint, is_among(job.joint.as_ref(), &procedure.joints))
        .with_if(Variable::Position, is_among(position.as_ref(), &procedure.positions))
        .with_if(Variable::BaseMetal, metal_covered)
        .with_if(Variable::Thickness, thickness_inside)
        .with_if(Variable::Consumable, is_among(filler.consumable.as_ref(), &procedure.consumables))
        .with_if(Variable::Diameter, is_among(filler.diameter.as_ref(), &procedure.diameters))
        .with_if(Variable::Polarity, is_among(filler.polarity.as_ref(), &procedure.polarities))
        .with_if(Variable::Gas, gas_is_plain(procedure, setup))
        .with_if(Variable::Waveform, is_same(settings.waveform, procedure.waveform))
        .with_if(Variable::Transfer, is_same(settings.transfer, run.transfer))
        .with_if(Variable::Mechanisation, is_same(setup.mechanisation(), run.mechanisation))
        .with_if(Variable::CurrentForm, is_same(settings.current_form, run.current_form))
        .with_if(Variable::Electrodes, is_same(settings.electrodes, run.electrodes))
}

/// Whether the gas is just the mixture that the procedure fixes, or of a group it allows where it fixes none. Group Z
/// proves nothing.
fn gas_is_plain(procedure: &Procedure, setup: &Setup) -> bool {
    let (Some(rule), Some(gas)) = (&procedure.gas, &setup.filler.gas) else { return false };
    let group = gas.group();
    let of_group = match (&rule.mixture, gas) {
        (None, _) => group != Some(GasGroup::Z) && is_among(group.as_ref(), &rule.groups),
        (Some(fixed), Gas::Mixture(mixture)) => {
            mixture == fixed && (rule.groups.is_empty() || is_among(group.as_ref(), &rule.groups))
        }
        _ => false,
    };
    procedure.process.gas_shielded() && of_group
}

fn is_same<T: Copy + PartialEq>(stated: Option<T>, fixed: Option<T>) -> bool {
    stated.is_some() && stated == fixed
}

fn is_among<T: PartialEq>(stated: Option<&T>, allowed: &[T]) -> bool {
    stated.is_some_and(|stated| allowed.contains(stated))
}
