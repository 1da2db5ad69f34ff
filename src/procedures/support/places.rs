//! Where in the document of a procedure a qualified variable stands.

use crate::{procedures::ProcedureDocument, qualify::QualifiedVariable as V, trade::RunClass};

/// JSON Pointer into the document; for what is a matter of runs, into those of this class.
#[expect(clippy::too_many_lines, reason = "a line for each variable")]
pub(super) fn pointer(
    document: &ProcedureDocument,
    variable: V,
    class: Option<RunClass>,
) -> String {
    let own = |run: usize| format!("/runs/{run}");
    let index =
        class.and_then(|class| document.runs.iter().position(|run| run.classes.contains(&class)));
    let run = index.map_or_else(|| "/runs".to_owned(), own);
    let of_run = |member: &str| index.map_or_else(|| run.clone(), |_| format!("{run}/{member}"));
    let fixed = match variable {
        V::Process | V::ProcessSequence => "/process",
        V::Position | V::Progression if index.is_none() => "/positions",
        V::Position => "/positions",
        V::Weld => "/joints",
        V::Sides | V::Groove | V::JointAngle | V::GrooveAngle | V::RootGap | V::RootFace => {
            "/joint_design"
        }
        V::Layering => "/layering",
        V::Metals => "/base_metals",
        V::PNumbers | V::PGroups | V::D11Groups | V::PreheatCategory | V::OutsideDiameter => {
            "/parent_metal"
        }
        V::ParentThickness => "/thickness",
        V::DepositThickness => "/deposited_thickness",
        V::Throat => "/throat",
        V::Leg => "/leg",
        V::FillerDesignation
        | V::FillerStandard
        | V::FillerUsability
        | V::FillerWeathering
        | V::FillerForm
        | V::FillerHydrogen
        | V::FillerStrength
        | V::LowHydrogen
        | V::FillerMaker
        | V::FNumber
        | V::ANumber => "/consumables",
        V::FillerDiameter => "/diameters",
        V::CurrentType => "/polarities",
        V::Gas | V::GasOfClass => "/gas",
        V::PostHeatTemperature | V::PostHeatTime => "/post_heating",
        V::TreatmentClass | V::TreatmentTemperature | V::TreatmentTime => "/heat_treatment",
        V::Tests => "/support/records",
        V::Statement => "/support/job/stated",
        V::RunClass => return of_run("classes"),
        V::LayerThickness => return of_run("layer_thickness"),
        V::RunWidth => return of_run("run_width"),
        V::Mechanisation => return of_run("mechanisation"),
        V::Progression => return of_run("progression"),
        V::Flux => return of_run("flux"),
        V::Electrodes | V::WireSystem => return of_run("electrodes"),
        V::CurrentForm => return of_run("current_form"),
        V::Characteristic => return of_run("characteristic"),
        V::Transfer => return of_run("transfer"),
        V::BackingGas => return silent_back(document).unwrap_or_else(|| of_run("backing_gas")),
        V::Bead => return of_run("beads"),
        V::GasFlow => return of_run("limits/gas_flow"),
        V::Current => return of_run("limits/current"),
        V::Voltage => return of_run("limits/voltage"),
        V::WireFeed => return of_run("limits/wire_feed"),
        V::TravelSpeed => return of_run("limits/travel_speed"),
        V::Preheat => return of_run("limits/preheat"),
        V::Interpass | V::InterpassMin => return of_run("limits/interpass"),
        V::Energy => return energy(document, index),
    };
    fixed.to_owned()
}

/// The first runs with an open back that say nothing of a gas there: they leave it open for the joint.
fn silent_back(document: &ProcedureDocument) -> Option<String> {
    let run = document.runs.iter().position(|run| {
        run.backing_gas.is_none() && run.classes.iter().any(|class| class.has_open_back())
    });
    run.map(|run| format!("/runs/{run}/backing_gas"))
}

/// The energy that is stated; where none is, what implies it.
fn energy(document: &ProcedureDocument, run: Option<usize>) -> String {
    let Some(run) = run else { return "/runs".to_owned() };
    let limits = document.runs.get(run).map(|run| &run.limits);
    let stated = |name: &str, given: bool| given.then(|| format!("/runs/{run}/limits/{name}"));
    let arc = limits.is_some_and(|limits| limits.arc_energy.is_some());
    let heat = limits.is_some_and(|limits| limits.heat_input.is_some());
    stated("arc_energy", arc)
        .or_else(|| stated("heat_input", heat))
        .unwrap_or_else(|| format!("/runs/{run}/limits"))
}
