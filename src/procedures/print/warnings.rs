//! What has to be known before anything else, and the cautions that apply.

use std::collections::BTreeSet;

use super::gather::Gathered;
use crate::{
    check::{
        self, BaseMetal, Caution, Cautions, Filler, Given, Job, PARTS_OF_A_JOINT, ProcedureState,
        Settings, Setup,
    },
    procedures::ProcedureDocument,
    quantity::{Current, Diameter, Span},
    sheet::{Section, Table},
    trade::Gas,
};

/// Sentences that stand before everything else.
pub(super) fn notices(gathered: &Gathered) -> Vec<String> {
    let mut notices = Vec::new();
    if gathered.state() == Some(ProcedureState::Released) && gathered.needs_signature() {
        notices.push(
            "Nobody has signed its support: no check by this revision is allowed before that."
                .to_owned(),
        );
    }
    for named in &gathered.consumables {
        match &named.stored {
            Some((stored, _)) if stored.state != ProcedureState::Withdrawn.to_string() => {}
            Some(_) => notices.push(format!("Consumable {} has been withdrawn.", named.code)),
            None => notices.push(format!("There is no record of consumable {}.", named.code)),
        }
    }
    for own in &gathered.changed {
        let (kind, code, now) = (own.kind, &own.code, own.now);
        let then = own.at_release.map(|then| format!(", revision {then} then")).unwrap_or_default();
        notices.push(format!(
            "Since the release {kind} {code} was revised: revision {now} now{then}."
        ));
    }
    notices
}

/// The cautions that apply to welding by this procedure; what is not known excludes none.
pub(super) fn cautions(gathered: &Gathered) -> Section {
    let document = &gathered.document;
    let setup = widest(document);
    let process = Some(document.process);
    let known = gathered.consumables.iter().filter_map(|named| named.stored.as_ref());
    let compiled: Vec<_> = known.map(|(stored, own)| own.compile(&stored.code)).collect();
    let mut all: Vec<Caution> = Vec::new();
    let mut seen = BTreeSet::new();
    let of_each = compiled.iter().map(|own| check::cautions(&setup, process, Some(own)));
    // Without any known consumable, and with one that is not known, every caution about fillers applies.
    let unknown = compiled.len() < gathered.consumables.len() || compiled.is_empty();
    let of_none = unknown.then(|| check::cautions(&setup, process, None));
    for caution in of_each.chain(of_none).flat_map(Cautions::into_list) {
        if seen.insert(caution.code) {
            all.push(caution);
        }
    }
    // "If in doubt, stop" is said last.
    all.sort_by_key(|caution| caution.code == "judgement");
    let mut table = Table::new(&[("Caution", 17), ("What to heed", 58), ("Source", 25)]);
    for caution in &all {
        table.row(&[&caution.code.replace('-', " "), &caution.text, caution.source]);
    }
    let mut section = Section::new("Cautions", None);
    section.table(table);
    section
}

/// A setup with the highest current and the thickest electrode that the procedure allows.
fn widest(document: &ProcedureDocument) -> Setup {
    // In any pairing, so each group may be that of both parts.
    let parts = document.base_metals.iter().flat_map(|group| [group; PARTS_OF_A_JOINT]);
    let part = |group: &_| BaseMetal { group: Some(*group), ..BaseMetal::UNKNOWN };
    let mixture = document.gas.as_ref().and_then(|gas| gas.mixture).map(Gas::Mixture);
    let group = document.gas.as_ref().and_then(|gas| gas.groups.first()).copied().map(Gas::Group);
    Setup {
        job: Job { base_metals: parts.map(part).collect(), ..Job::default() },
        filler: Filler {
            diameter: document.diameters.iter().copied().reduce(Diameter::max),
            gas: mixture.or(group),
            ..Filler::default()
        },
        settings: Settings {
            current: highest_current(document).map(|current| Given::set(Span::one(current))),
            ..Settings::default()
        },
        ..Setup::default()
    }
}

/// The highest current of any run; `None` where a run has no upper limit.
fn highest_current(document: &ProcedureDocument) -> Option<Current> {
    let limits = document.runs.iter().map(|run| run.limits.current.and_then(|range| range.max()));
    limits.collect::<Option<Vec<_>>>()?.into_iter().reduce(Current::max)
}
