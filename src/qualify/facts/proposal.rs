//! Facts of a proposal.

use super::{
    Fact, Side, code_of, electrodes_word, filler_fact, flux_word, gas_of_class_word, gas_word,
    may_have_open_back, sequence_word, sides_word, weld_word, wires_word, with_open_back, word,
};
use crate::{
    qualify::{
        Proposal, ProposedEnergy, ProposedRun, QualifiedVariable as V,
        record::{D11Group, PNumber, PostHeating, ProductForm},
    },
    quantity::{Amount, AmountRange, Kind, Quantity, Range, Span},
    trade::{Gas, Position, Process},
};

fn range<K: Kind>(range: Option<Range<K>>) -> Option<Fact> {
    range.map(|range| Fact::Range(range.amounts()))
}

fn one<K: Kind>(value: Option<Quantity<K>>) -> Option<Fact> {
    value.map(|value| Fact::Range(Span::one(value).amounts()))
}

fn at_least<K: Kind>(value: Option<Quantity<K>>) -> Option<Fact> {
    range(value.map(Range::at_least))
}

fn at_most<K: Kind>(value: Option<Quantity<K>>) -> Option<Fact> {
    range(value.map(Range::at_most))
}

/// Left out: below any lower end.
const OMITTED: Fact = Fact::Range(AmountRange { min: None, max: None });

/// `I-II`, sorted.
pub(super) fn group_pair(mut groups: Vec<D11Group>) -> Option<Fact> {
    groups.sort();
    let codes: Vec<_> = groups.iter().map(ToString::to_string).collect();
    if codes.is_empty() { None } else { Some(word(&codes.join("-"))) }
}

fn d11_groups(proposal: &Proposal) -> Option<Fact> {
    group_pair(proposal.parts.iter().map(|part| part.d11_group).collect::<Option<_>>()?)
}

/// Thicknesses of the parts; `None` where one is missing.
pub(in crate::qualify) fn proposed_parts(proposal: &Proposal) -> Option<Vec<AmountRange>> {
    let all: Option<Vec<_>> =
        proposal.parts.iter().map(|part| part.thickness.map(|range| range.amounts())).collect();
    all.filter(|parts| !parts.is_empty())
}

/// The widest span over several ranges; `None` where one is missing.
fn hull<K: Kind>(ranges: impl Iterator<Item = Option<Range<K>>>) -> Option<Fact> {
    let all: Vec<_> = ranges.collect::<Option<_>>()?;
    let lowest: Option<Vec<_>> = all.iter().map(|range: &Range<K>| range.min()).collect();
    let highest: Option<Vec<_>> = all.iter().map(Range::max).collect();
    let end = |ends: Option<Vec<Quantity<K>>>, pick: fn(_, _) -> _| -> Option<Amount> {
        ends.and_then(|ends| ends.into_iter().reduce(pick)).map(Quantity::amount)
    };
    if all.is_empty() {
        return None;
    }
    let (min, max) = (end(lowest, Quantity::min), end(highest, Quantity::max));
    Some(Fact::Range(AmountRange { min, max }))
}

/// Diameters of the joint. Plate and sections have none; a pipe that states none is no reason to judge the others alone.
fn outside_diameter(proposal: &Proposal) -> Option<Fact> {
    let round = proposal.parts.iter().filter(|part| {
        let may_be_round =
            matches!(part.form, None | Some(ProductForm::Pipe | ProductForm::HollowSection));
        may_be_round || part.outside_diameter.is_some()
    });
    hull(round.map(|part| part.outside_diameter))
}

fn proposed_p_numbers(proposal: &Proposal) -> Option<Vec<PNumber>> {
    proposal.parts.iter().map(|part| part.p_number.clone()).collect()
}

/// Every word of several facts; `None` where one of them is unknown: it may be another word.
fn words(facts: impl Iterator<Item = Option<Fact>>) -> Option<Fact> {
    let mut all = Vec::new();
    for fact in facts {
        if let Fact::Words(words) = fact? {
            all.extend(words);
        }
    }
    (!all.is_empty()).then_some(Fact::Words(all))
}

/// Gases behind the runs whose back is open, and what is set for others apart from them: a check asks for it there.
fn backing_gases(runs: &[ProposedRun]) -> Option<Fact> {
    let open = with_open_back(runs, |run| run.class).into_iter();
    let apart = runs.iter().filter(|run| {
        let is_gas = !matches!(run.backing_gas, None | Some(Gas::None));
        is_gas && !may_have_open_back(run.class)
    });
    words(open.chain(apart).map(|run| gas_word(run.backing_gas)))
}

fn processes(proposal: &Proposal) -> Vec<Process> {
    let mut all = Vec::new();
    let deposited = proposal.deposits.iter().map(|(process, _)| *process);
    for process in deposited.chain(proposal.runs.iter().map(|run| run.process)) {
        if !all.contains(&process) {
            all.push(process);
        }
    }
    all
}

/// What the joint as a whole says, for one position.
pub(in crate::qualify) fn proposed_joint(
    proposal: &Proposal,
    position: Option<Position>,
    variable: V,
) -> Option<Fact> {
    let joint = &proposal.joint;
    match variable {
        V::ProcessSequence => sequence_word(&processes(proposal)),
        V::Process => {
            let codes = processes(proposal).iter().map(ToString::to_string).collect::<Vec<_>>();
            (!codes.is_empty()).then_some(Fact::Words(codes))
        }
        V::Position => code_of(position),
        V::Weld => weld_word(joint),
        V::Sides => sides_word(joint),
        V::Groove => code_of(joint.groove),
        V::Layering => code_of(proposal.layering),
        V::Metals => {
            let side = |part: &crate::qualify::ProposedPart| Side {
                group: part.group,
                specified_yield: part.specified_yield,
            };
            let sides: Vec<_> = proposal.parts.iter().map(side).collect();
            (!sides.is_empty()).then_some(Fact::Metals(sides))
        }
        V::D11Groups => d11_groups(proposal),
        V::PreheatCategory => code_of(proposal.preheat_category),
        V::PNumbers => super::p_numbers(proposed_p_numbers(proposal)),
        V::PGroups => super::p_groups(proposed_p_numbers(proposal)),
        V::ParentThickness => hull(proposal.parts.iter().map(|part| part.thickness)),
        V::OutsideDiameter => outside_diameter(proposal),
        V::Throat => range(proposal.throat),
        V::Leg => range(proposal.leg),
        V::JointAngle => one(joint.fit_up.joint_angle),
        V::GrooveAngle => one(joint.fit_up.groove_angle),
        V::RootGap => one(joint.fit_up.root_gap),
        V::RootFace => one(joint.fit_up.root_face),
        V::Progression => match position.and_then(Position::progression) {
            Some(fixed) => code_of(Some(fixed)),
            None => words(proposal.runs.iter().map(|run| code_of(run.progression))),
        },
        V::BackingGas => backing_gases(&proposal.runs),
        V::Preheat => at_least(proposal.preheat),
        V::Interpass => at_most(proposal.interpass_max),
        V::InterpassMin => at_least(proposal.interpass_min),
        V::PostHeatTemperature => match proposal.post_heating? {
            PostHeating::Done { temperature, .. } => at_least(temperature.map(|span| span.low())),
            PostHeating::NotDone => Some(OMITTED),
        },
        V::PostHeatTime => match proposal.post_heating? {
            PostHeating::Done { time, .. } => at_least(time),
            PostHeating::NotDone => Some(OMITTED),
        },
        V::TreatmentClass => code_of(proposal.heat_treatment.as_ref().map(|treated| treated.class)),
        V::TreatmentTemperature => {
            let span = proposal.heat_treatment.as_ref()?.temperature?;
            Some(Fact::Range(span.amounts()))
        }
        V::TreatmentTime => at_least(proposal.heat_treatment.as_ref()?.time),
        _ => None,
    }
}

/// What one process is to do.
pub(in crate::qualify) fn proposed_process(
    proposal: &Proposal,
    process: Process,
    variable: V,
) -> Option<Fact> {
    match variable {
        V::DepositThickness => {
            let own = proposal.deposits.iter().filter(|(of, _)| *of == process);
            hull(own.map(|(_, thickness)| *thickness))
        }
        _ => None,
    }
}

/// What runs of one kind are to be welded with.
pub(in crate::qualify) fn proposed_run(run: &ProposedRun, variable: V) -> Option<Fact> {
    match variable {
        V::Process => Some(word(&run.process.to_string())),
        V::Mechanisation => code_of(run.mechanisation),
        V::Flux => flux_word(run.flux.as_ref()?),
        V::Electrodes => electrodes_word(run.electrodes),
        V::WireSystem => wires_word(run.electrodes),
        V::CurrentType => code_of(run.polarity),
        V::CurrentForm => code_of(run.form),
        V::Characteristic => code_of(run.characteristic),
        V::Transfer => code_of(run.transfer),
        V::RunClass => code_of(run.class),
        V::LayerThickness => range(run.layer_thickness),
        V::RunWidth => range(run.width),
        V::GasOfClass => gas_of_class_word(run.filler.as_ref(), run.gas),
        V::Gas => run.gas.map(Fact::Gas),
        V::GasFlow => range(run.gas_flow),
        V::Current => range(run.current),
        V::Voltage => range(run.voltage),
        V::WireFeed => range(run.wire_feed),
        V::TravelSpeed => range(run.travel_speed),
        V::Energy => match run.energy? {
            ProposedEnergy::Arc(energy) => range(Some(energy)),
            ProposedEnergy::HeatInput(energy) => range(Some(energy)),
        },
        V::Bead => code_of(run.bead),
        _ => match filler_fact(run.filler.as_ref()?, variable)? {
            Fact::Readings { low, high, .. } => {
                Some(Fact::Range(AmountRange { min: Some(low), max: Some(high) }))
            }
            other => Some(other),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::{
        Progression::{self, Down, Up},
        RunClass,
    };

    #[test]
    fn a_run_without_a_direction_may_go_either_way() {
        let of = |ways: &[Option<Progression>]| {
            let run = |way: &Option<Progression>| ProposedRun {
                progression: *way,
                class: Some(RunClass::Fill),
                ..ProposedRun::new(Process::MagSolidWire)
            };
            let runs = ways.iter().map(run).collect();
            proposed_joint(&Proposal { runs, ..Proposal::default() }, None, V::Progression)
        };
        assert_eq!(of(&[Some(Up)]), Some(word("up")));
        let both = Fact::Words(vec!["up".to_owned(), "down".to_owned()]);
        assert_eq!(of(&[Some(Up), Some(Down)]), Some(both));
        assert_eq!(of(&[Some(Up), None]), None);
        assert_eq!(of(&[]), None);
    }
}
