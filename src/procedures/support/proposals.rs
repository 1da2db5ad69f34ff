//! What a procedure allows, as proposals: one for each joint, product form and pair of base-metal groups.

use std::collections::BTreeMap;

use crate::{
    check::record::RunLimits,
    consumables::ConsumableDocument,
    procedures::document::{ProcedureDocument, RunDocument},
    qualifications::{
        FluxDocument, HeatTreatmentDocument, JointDocument, PNumberDocument, PostHeatingDocument,
    },
    qualify::{
        Pack, Proposal, ProposedEnergy, ProposedPart, ProposedRun,
        record::{D11Group, Filler, Joint, ProductForm, Record, Run, RunEnergy, WeldKind},
    },
    quantity::{Diameter, Range, Temperature},
    trade::{Gas, JointKind, MetalGroup, designation::Standard},
};

/// One proposal, and what it is about in words.
pub(super) struct Asked {
    pub about: String,
    pub proposal: Proposal,
}

/// What decides in which terms a procedure is put: its records, or a pack of fixed limits.
#[derive(Debug, Default)]
pub(super) struct Basis {
    /// Standards of filler metals that it speaks in.
    pub standards: Vec<Standard>,
    /// Whether energy is heat input, with the thermal efficiency factor.
    pub heat_input: bool,
}

impl Basis {
    /// As the records state it.
    pub fn of_records(records: &[&Record]) -> Self {
        let runs = || records.iter().flat_map(|own| &own.pieces).flat_map(|piece| &piece.runs);
        let standard = |run: &Run| Some(run.filler.as_ref()?.designation.as_ref()?.standard());
        let is_heat =
            |run: &Run| matches!(run.electrical.energy, Some(RunEnergy::HeatInput { .. }));
        Self { standards: runs().filter_map(standard).collect(), heat_input: runs().any(is_heat) }
    }

    /// As a pack of fixed limits names its filler metals.
    pub fn of_pack(pack: &Pack) -> Self {
        Self { standards: pack.filler_standards(), heat_input: false }
    }
}

/// How many combinations have to be judged: runs of every proposal in every position.
pub(in crate::procedures) fn combinations(document: &ProcedureDocument) -> usize {
    let beads = |run: &RunDocument| run.classes.len().saturating_mul(run.beads.len().max(1));
    let runs = document.runs.iter().map(beads).fold(0, usize::saturating_add);
    let groups = document.base_metals.len();
    let gases = match &document.gas {
        Some(rule) if rule.mixture.is_none() => rule.groups.len(),
        _ => 1,
    };
    let forms = document.parent_metal.as_ref().map_or(1, |metal| metal.forms.len());
    let each = [
        document.joints.len(),
        document.positions.len(),
        forms,
        groups.saturating_mul(groups.saturating_add(1)) / 2,
        document.consumables.len(),
        document.diameters.len(),
        document.polarities.len(),
        gases,
    ];
    each.into_iter().fold(runs, |all, own| all.saturating_mul(own.max(1)))
}

/// Everything that the procedure allows. Each of its joints, forms and pairs of groups has to be supported.
pub(super) fn of(
    document: &ProcedureDocument,
    basis: &Basis,
    consumables: &BTreeMap<String, ConsumableDocument>,
) -> Vec<Asked> {
    let runs = runs(document, basis, consumables);
    let metal = document.parent_metal.as_ref();
    let forms = open_or(metal.map(|metal| metal.forms.as_slice()).unwrap_or_default());
    let pairs = pairs(&document.base_metals);
    let mut all = Vec::new();
    for joint in &document.joints {
        for form in &forms {
            for pair in &pairs {
                let groups: Vec<_> = pair.iter().flatten().map(ToString::to_string).collect();
                let shape = form.map(|form| format!(", {form}")).unwrap_or_default();
                all.push(Asked {
                    about: format!("{joint}{shape}, groups {}", groups.join(" with ")),
                    proposal: proposal(document, *joint, *form, *pair, &runs),
                });
            }
        }
    }
    all
}

fn proposal(
    document: &ProcedureDocument,
    joint: JointKind,
    form: Option<ProductForm>,
    pair: [Option<MetalGroup>; 2],
    runs: &[ProposedRun],
) -> Proposal {
    let fillet = joint == JointKind::Fillet;
    let held = document.compiled_runs();
    Proposal {
        joint: design(document, joint),
        parts: pair.map(|group| part(document, form, group)).to_vec(),
        positions: document.positions.clone(),
        layering: document.layering,
        throat: document.throat.filter(|_| fillet),
        leg: document.leg.filter(|_| fillet),
        deposits: vec![(document.process, document.deposited_thickness)],
        runs: runs.to_vec(),
        preheat_category: document.parent_metal.as_ref().and_then(|m| m.d11_preheat_category),
        preheat: preheat(&held),
        interpass_max: interpass_max(&held),
        interpass_min: interpass_min(document, &held),
        post_heating: document.post_heating.as_ref().map(PostHeatingDocument::compile),
        heat_treatment: document.heat_treatment.as_ref().map(HeatTreatmentDocument::compile),
    }
}

/// The joint design as far as it is about this joint.
fn design(document: &ProcedureDocument, joint: JointKind) -> Joint {
    let design = document.joint_design.as_ref().map(JointDocument::compile).unwrap_or_default();
    let weld = match joint {
        JointKind::Fillet => WeldKind::Fillet,
        JointKind::Butt => {
            design.weld.filter(|weld| *weld != WeldKind::Fillet).unwrap_or(WeldKind::Butt)
        }
    };
    Joint { weld: Some(weld), ..design }
}

fn part(
    document: &ProcedureDocument,
    form: Option<ProductForm>,
    group: Option<MetalGroup>,
) -> ProposedPart {
    let metal = document.parent_metal.as_ref();
    let round = matches!(form, Some(ProductForm::Pipe | ProductForm::HollowSection));
    ProposedPart {
        form,
        thickness: document.thickness,
        outside_diameter: metal.and_then(|metal| metal.outside_diameter).filter(|_| round),
        group,
        // Stored before groups of other metals were refused: which metal is meant is not known.
        p_number: metal
            .and_then(|metal| metal.p_number.as_ref())
            .map(PNumberDocument::compile)
            .filter(|own| group.is_none_or(|group| own.may_be(group))),
        d11_group: metal
            .and_then(|metal| metal.d11_group)
            .filter(|_| group.is_none_or(D11Group::may_list)),
        specified_yield: metal.and_then(|metal| metal.highest_yield).filter(|highest| {
            // Stored before such groups were refused: how strong its steels may be is not known.
            !group.is_some_and(|group| group.reaches_above(*highest))
        }),
    }
}

/// Every pair of groups, in one order; one pair without groups where none is named.
fn pairs(groups: &[MetalGroup]) -> Vec<[Option<MetalGroup>; 2]> {
    if groups.is_empty() {
        return vec![[None, None]];
    }
    let later = |(index, a): (usize, &MetalGroup)| {
        let a = *a;
        groups[index..].iter().map(move |b| [Some(a), Some(*b)])
    };
    groups.iter().enumerate().flat_map(later).collect()
}

/// Each value, or one that is open where there is none.
fn open_or<T: Copy>(values: &[T]) -> Vec<Option<T>> {
    if values.is_empty() { vec![None] } else { values.iter().copied().map(Some).collect() }
}

/// The lowest preheat that a run of any class may have: as stated, or as the loosest of the others carries over to it.
/// Unknown where no run states one.
fn preheat(runs: &[RunLimits]) -> Option<Temperature> {
    runs.iter().filter_map(|run| run.ranges.least_preheat()).reduce(Temperature::min)
}

/// The highest interpass temperature likewise.
fn interpass_max(runs: &[RunLimits]) -> Option<Temperature> {
    runs.iter().filter_map(|run| run.ranges.most_interpass()).reduce(Temperature::max)
}

/// The lowest one: as stated, or as a minimum preheat carries it over to runs that lie on earlier ones. Unknown where one
/// of these has none.
fn interpass_min(document: &ProcedureDocument, runs: &[RunLimits]) -> Option<Temperature> {
    let least = |(run, held): (&RunDocument, &RunLimits)| {
        let is_later = !run.classes.iter().all(|class| class.is_first());
        // The preheat of others is that of the first run.
        let own = || held.ranges.interpass.as_ref().and_then(Range::min);
        (is_later, if is_later { held.ranges.least_interpass() } else { own() })
    };
    let each = || document.runs.iter().zip(runs).map(least);
    if each().any(|(is_later, least)| is_later && least.is_none()) {
        return None;
    }
    each().filter_map(|(_, least)| least).reduce(Temperature::min)
}

/// Every kind of run with every filler, diameter, gas and polarity that the procedure allows.
fn runs(
    document: &ProcedureDocument,
    basis: &Basis,
    consumables: &BTreeMap<String, ConsumableDocument>,
) -> Vec<ProposedRun> {
    let fillers = fillers(document, basis, consumables);
    let gases = gases(document);
    let polarities = open_or(&document.polarities);
    let mut all = Vec::new();
    for run in &document.runs {
        for class in &run.classes {
            for bead in open_or(&run.beads) {
                for filler in &fillers {
                    for gas in &gases {
                        for polarity in &polarities {
                            all.push(ProposedRun {
                                class: Some(*class),
                                bead,
                                filler: Some(filler.clone()),
                                gas: *gas,
                                polarity: *polarity,
                                ..one_run(document, run, basis.heat_input)
                            });
                        }
                    }
                }
            }
        }
    }
    all
}

fn one_run(document: &ProcedureDocument, run: &RunDocument, heat: bool) -> ProposedRun {
    let limits = &run.limits;
    let arc = limits.arc_energy.map(ProposedEnergy::Arc);
    let with_factor = limits.heat_input.map(ProposedEnergy::HeatInput);
    // The records decide the basis; the floor is held to both where both are stated.
    let energy = if heat { with_factor.or(arc) } else { arc.or(with_factor) };
    ProposedRun {
        mechanisation: run.mechanisation,
        progression: run.progression,
        flux: run.flux.as_ref().map(FluxDocument::compile),
        electrodes: run.electrodes,
        backing_gas: run.backing_gas,
        form: run.current_form,
        waveform: document.waveform,
        characteristic: run.characteristic,
        transfer: run.transfer,
        current: limits.current,
        voltage: limits.voltage,
        wire_feed: limits.wire_feed,
        travel_speed: limits.travel_speed,
        layer_thickness: run.layer_thickness,
        width: run.run_width,
        gas_flow: limits.gas_flow,
        energy,
        efficiency: run.thermal_efficiency,
        ..ProposedRun::new(document.process)
    }
}

/// The mixture where one is fixed; else each group. Nothing said about gas is unknown.
fn gases(document: &ProcedureDocument) -> Vec<Option<Gas>> {
    match &document.gas {
        None => vec![None],
        Some(rule) => match rule.mixture {
            Some(mixture) => vec![Some(Gas::Mixture(mixture))],
            None => rule.groups.iter().map(|group| Some(Gas::Group(*group))).collect(),
        },
    }
}

/// Each named consumable in each diameter, designated by a standard of the basis where it has one.
fn fillers(
    document: &ProcedureDocument,
    basis: &Basis,
    consumables: &BTreeMap<String, ConsumableDocument>,
) -> Vec<Filler> {
    let diameters = open_or(&document.diameters);
    let one = |own: Option<&ConsumableDocument>, diameter: Option<Diameter>| {
        let designations = own.map(|own| own.designations.as_slice()).unwrap_or_default();
        let alike = designations.iter().find(|own| basis.standards.contains(&own.standard()));
        Filler {
            designation: alike.or(designations.first()).cloned(),
            kind: own.map(|own| own.kind),
            maker: own.and_then(|own| own.maker.clone()),
            trade_name: own.and_then(|own| own.trade_name.clone()),
            f_number: own.and_then(|own| own.f_number.clone()),
            a_number: own.and_then(|own| own.a_number.clone()),
            diameter,
            ..Filler::default()
        }
    };
    let named: Vec<_> =
        document.consumables.iter().map(|code| consumables.get(code.as_str())).collect();
    let named = if named.is_empty() { vec![None] } else { named };
    let each = |own: Option<&ConsumableDocument>| -> Vec<Filler> {
        diameters.iter().map(|diameter| one(own, *diameter)).collect()
    };
    named.into_iter().flat_map(each).collect()
}
