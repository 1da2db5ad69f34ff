//! Technique, electrical values and limits, per class of runs.

use super::{
    filler::Limits,
    gather::Gathered,
    say::{self, Part, Said, Say},
};
use crate::{
    check::{NUMERIC, role},
    procedures::RunDocument,
    qualifications::{FillerAdditionDocument, FluxDocument, TungstenDocument},
    quantity::{Kind, Range},
    sheet::Section,
    trade::Process,
};

/// One section for each entry of runs.
pub(super) fn sections(gathered: &Gathered, say: &Say) -> Vec<Section> {
    gathered.document.runs.iter().map(|run| section(gathered, run, say)).collect()
}

fn section(gathered: &Gathered, run: &RunDocument, say: &Say) -> Section {
    let process = gathered.document.process;
    let classes = say::all(&run.classes).unwrap_or_default();
    let title = format!("Runs: {classes}");
    let mut part = Part::new(&title, Some("ISO 15609-1:2019, 4.4.5, 4.4.9 to 4.4.11"));
    technique(&mut part, run, process);
    additions(&mut part, run, say, process);
    part.not_stated();
    let ranges = run.limits.compile();
    let mut table = Limits::new("Variable");
    let mut open = Vec::new();
    let owner = gathered.owner();
    for variable in NUMERIC {
        match ranges.amounts(*variable) {
            Some(range) => table.row(&say::variable(*variable), say.allowed(&range), &owner),
            None if role(process, *variable).is_some() => open.push(say::variable(*variable)),
            None => {}
        }
    }
    for (name, said) in other_ranges(run, say) {
        if let Some(said) = said {
            table.row(name, said, &owner);
        }
    }
    part.section().table(table.end());
    part.also("No limit stated for", say::listed(open));
    part.end()
}

fn technique(part: &mut Part, run: &RunDocument, process: Process) {
    part.fact("Beads", say::all(&run.beads));
    part.also("Weaving", run.weaving.clone());
    part.fact("Degree of mechanisation", run.mechanisation.map(say::words));
    part.also("Progression", run.progression.map(say::words));
    if process.is_constant_voltage_wire() {
        part.fact("Metal transfer", run.transfer.map(say::words));
    } else {
        part.also("Metal transfer", run.transfer.map(say::words));
    }
    part.fact("Current", run.current_form.map(say::words));
    part.also("Pulse or programme", run.programme.clone());
    part.also("Power source", run.characteristic.map(say::words));
    let efficiency = run.thermal_efficiency.map(|share| share.to_string());
    part.also("Thermal efficiency of the heat input", efficiency);
}

fn additions(part: &mut Part, run: &RunDocument, say: &Say, process: Process) {
    part.also("Electrodes that burn together", run.electrodes.map(|number| number.to_string()));
    part.also("Arrangement of the electrodes", run.arrangement.clone());
    part.also("Added filler", say::listed(run.additions.iter().map(addition)));
    if process.is_submerged() {
        part.fact("Flux", run.flux.as_ref().and_then(flux));
    } else {
        part.also("Flux", run.flux.as_ref().and_then(flux));
    }
    part.also("Tungsten electrode", run.tungsten.as_ref().and_then(|own| tungsten(own, say)));
    part.also("Gas behind the root", run.backing_gas.map(say::gas));
    part.also("Plasma gas", run.plasma_gas.map(say::gas));
}

fn addition(own: &FillerAdditionDocument) -> String {
    let heating = own.heating.map(say::words);
    let share = own.share.map(|share| format!("{share} of the deposit"));
    let parts = [own.designation.clone(), heating, share].into_iter().flatten();
    say::listed(parts).unwrap_or_else(|| "not described".to_owned())
}

fn flux(own: &FluxDocument) -> Option<String> {
    let batch = own.batch.as_ref().map(|batch| format!("batch {batch}"));
    let slag =
        own.recrushed_slag.map(|with| if with { "with crushed slag" } else { "no crushed slag" });
    let texts = [own.designation.clone(), own.trade_name.clone(), own.maker.clone(), batch];
    let kind = own.kind.map(say::words);
    say::listed(texts.into_iter().flatten().chain(kind).chain(slag.map(str::to_owned)))
}

fn tungsten(own: &TungstenDocument, say: &Say) -> Option<String> {
    let diameter = own.diameter.map(|diameter| say.value(diameter));
    say::listed([own.code.clone(), diameter].into_iter().flatten())
}

/// Ranges that no check reads.
fn other_ranges(run: &RunDocument, say: &Say) -> [(&'static str, Option<Said>); 5] {
    fn said<K: Kind>(say: &Say, range: Option<&Range<K>>) -> Option<Said> {
        range.map(|range| say.allowed(&range.amounts()))
    }
    [
        ("gas nozzle, inside diameter", said(say, run.nozzle.as_ref())),
        ("plasma gas flow", said(say, run.plasma_flow.as_ref())),
        ("nozzle to work", said(say, run.stand_off.as_ref())),
        ("run-out length of one electrode", said(say, run.run_out_length.as_ref())),
        ("width of a run", said(say, run.run_width.as_ref())),
    ]
}
