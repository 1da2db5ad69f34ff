//! What can be wrong across the fields of a procedure.

use super::{
    ProcedureDocument, RunDocument, SupportKind, document::GasRuleDocument, support::combinations,
};
use crate::{
    http::problem::FieldError,
    qualifications::PNumberDocument,
    qualify::record::WeldKind,
    quantity::compare,
    records::plausible,
    trade::{GasGroup, GasMixture, JointKind, MetalGroup, Process, thermal_efficiency},
    wire::CodeEditionDocument,
};

/// Most combinations of what a procedure allows that are judged by its records.
const MOST_COMBINATIONS: usize = 5000;

/// Every fault, with the place of the second of two things that do not agree.
pub(super) fn of(document: &ProcedureDocument) -> Vec<FieldError> {
    let codes: Vec<_> = document.codes.iter().map(CodeEditionDocument::compile).collect();
    let mut faults = document.support.faults(&codes);
    faults.extend(design(document));
    faults.extend(stronger_groups(document));
    faults.extend(other_metal(document));
    faults.extend(too_much(document));
    if document.runs.is_empty() {
        faults.push(fault("/runs", "state the limits of at least one run class"));
    }
    let mut seen = Vec::new();
    for (index, run) in document.runs.iter().enumerate() {
        faults.extend(of_run(document, index, run));
        for class in &run.classes {
            if seen.contains(class) {
                let at = format!("/runs/{index}/classes");
                faults.push(fault(&at, &format!("run class {class} has its limits already")));
            } else {
                seen.push(*class);
            }
        }
    }
    faults.extend(document.gas.iter().flat_map(|gas| of_gas(document.process, gas)));
    faults
}

/// Faults of the shielding gas.
fn of_gas(process: Process, gas: &GasRuleDocument) -> Vec<FieldError> {
    let mut faults = Vec::new();
    if gas.groups.is_empty() && gas.mixture.is_none() {
        faults.push(fault("/gas", "name gas groups, a mixture or both"));
    }
    let refused = |at: &str, group: GasGroup| {
        let why = process.refuses_gas(group)?;
        Some(fault(at, &format!("{group} is no gas of process {process} (ISO 4063): {why}")))
    };
    for (index, group) in gas.groups.iter().enumerate() {
        faults.extend(refused(&format!("/gas/groups/{index}"), *group));
    }
    if let Some(group) = gas.mixture.as_ref().map(GasMixture::iso_14175) {
        if !gas.groups.is_empty() && !gas.groups.contains(&group) {
            let detail = format!("the mixture is {group}, which is not among the groups");
            faults.push(fault("/gas/mixture", &detail));
        } else if gas.groups.is_empty() {
            faults.extend(refused("/gas/mixture", group));
        }
    }
    faults
}

/// Faults of the limits for one kind of run.
fn of_run(document: &ProcedureDocument, index: usize, run: &RunDocument) -> Vec<FieldError> {
    let at = |member: &str| format!("/runs/{index}/{member}");
    let mut faults = Vec::new();
    if run.classes.is_empty() {
        faults.push(fault(&at("classes"), "name at least one run class"));
    }
    if run.electrodes == Some(0) {
        faults.push(fault(&at("electrodes"), "at least one electrode burns"));
    }
    faults.extend(plausible::other_way(at("progression"), &document.positions, run.progression));
    faults.extend(run.limits.faults(&at("limits")));
    faults.extend(no_factor(&at("limits/heat_input"), document.process, run));
    let at = at("thermal_efficiency");
    faults.extend(run.thermal_efficiency.and_then(|factor| {
        plausible::no_part(at.clone(), "a thermal efficiency", factor)
            .or_else(|| other_factor(&at, document.process, run))
    }));
    faults
}

/// A limit on heat input by another factor than the one that checks compute heat input with: the two are no measure of
/// each other.
fn other_factor(at: &str, process: Process, run: &RunDocument) -> Option<FieldError> {
    let (own, (used, _)) = (run.thermal_efficiency?, thermal_efficiency(process)?);
    (run.limits.heat_input.is_some() && own != used).then(|| {
        let detail = format!(
            "checks compute the heat input of process {process} with {} (EN 1011-1), so a limit on it by {own} would \
             be another one; limit the heat input by that factor, or the arc energy in its place",
            used.ratio()
        );
        fault(at, &detail)
    })
}

/// A limit on heat input of a process that no check computes the heat input of.
fn no_factor(at: &str, process: Process, run: &RunDocument) -> Option<FieldError> {
    (run.limits.heat_input.is_some() && thermal_efficiency(process).is_none()).then(|| {
        let detail = format!(
            "checks compute heat input with the thermal efficiency of EN 1011-1, which has none for process {process}, so \
             every check would be undetermined; limit the arc energy in its place"
        );
        fault(at, &detail)
    })
}

/// Groups with steels above the highest yield that the procedure states: a check is told the group of a part, not its
/// yield, and would allow them. Of a declared procedure only those that have no other steels.
fn stronger_groups(document: &ProcedureDocument) -> Vec<FieldError> {
    let Some(highest) = document.parent_metal.as_ref().and_then(|metal| metal.highest_yield) else {
        return Vec::new();
    };
    let is_judged = document.support.kind != SupportKind::Declared;
    let fault_of = |(index, group): (usize, &MetalGroup)| {
        let lowest = group.yield_above();
        let all = lowest.is_some_and(|above| compare(above, highest.mpa(), 0.0).is_ge());
        if !(all || is_judged && group.reaches_above(highest)) {
            return None;
        }
        let which = if all { "only steels" } else { "steels" };
        let fitting: Vec<_> =
            group.sub_groups_up_to(highest).iter().map(ToString::to_string).collect();
        let instead = if fitting.is_empty() {
            "leave it out".to_owned()
        } else {
            format!("write {}", fitting.join(" and "))
        };
        let detail = format!(
            "group {group} of ISO/TR 15608 has {which} of a higher yield than {highest}, the highest that parent_metal \
             states; {instead}, or state no lower yield than its strongest steel has"
        );
        Some(fault(&format!("/base_metals/{index}"), &detail))
    };
    document.base_metals.iter().enumerate().filter_map(fault_of).collect()
}

/// Groups of other codes that are of another metal than the base metals: a check is told those of ISO/TR 15608 alone.
fn other_metal(document: &ProcedureDocument) -> Vec<FieldError> {
    let Some(metal) = &document.parent_metal else { return Vec::new() };
    let p_number = metal.p_number.as_ref().map(PNumberDocument::compile);
    plausible::other_metal(
        ["/parent_metal/d11_group", "/parent_metal/p_number/number"].map(str::to_owned),
        (metal.d11_group, p_number.as_ref()),
        &document.base_metals,
    )
}

/// More than can be judged by records at once.
fn too_much(document: &ProcedureDocument) -> Option<FieldError> {
    let count = combinations(document);
    let judged = document.support.kind != SupportKind::Declared;
    let detail = format!(
        "{count} combinations of joint, metal, position, run, filler, gas and polarity would have to be \
         judged; at most {MOST_COMBINATIONS} are, so write several procedures"
    );
    (judged && count > MOST_COMBINATIONS).then(|| fault("/support/kind", &detail))
}

/// A joint design for another weld than the procedure is for.
fn design(document: &ProcedureDocument) -> Option<FieldError> {
    let weld = document.joint_design.as_ref()?.weld?;
    let joint = if weld == WeldKind::Fillet { JointKind::Fillet } else { JointKind::Butt };
    let detail = format!("the procedure is not for a {joint} weld, which {weld} is");
    (!document.joints.contains(&joint)).then(|| fault("/joint_design/weld", &detail))
}

fn fault(pointer: &str, detail: &str) -> FieldError {
    FieldError { pointer: pointer.to_owned(), detail: detail.to_owned() }
}
