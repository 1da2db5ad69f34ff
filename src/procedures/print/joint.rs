//! Process, joint, positions, and how the joint is prepared.

use super::{
    say::{self, Part, Say},
    sketch,
};
use crate::{
    procedures::ProcedureDocument, qualify::record::Sides, sheet::Section, trade::JointKind,
};

/// Process, joint design and positions, with the joint drawn where that can be done.
pub(super) fn section(document: &ProcedureDocument, say: &Say) -> Section {
    let mut part =
        Part::new("Process, joint and position", Some("ISO 15609-1:2019, 4.4.1 to 4.4.3"));
    let design = document.joint_design.as_ref();
    part.also("Process (ISO 4063)", Some(say::process(document.process)));
    part.fact("Joints", say::all(&document.joints));
    part.fact("Kind of weld", design.and_then(|own| own.weld).map(say::words));
    if document.joints.contains(&JointKind::Butt) {
        part.fact("Penetration", design.and_then(|own| own.penetration).map(say::words));
        part.fact("Groove", design.and_then(|own| own.groove).map(say::words));
    }
    part.fact(
        "Welded from",
        design.and_then(|own| own.sides).map(|sides| match sides {
            Sides::One => "one side".to_owned(),
            Sides::Both => "both sides".to_owned(),
        }),
    );
    fit_up(&mut part, document, say);
    part.fact("Tolerances", words(document, |own| &own.tolerances));
    if document.joints.contains(&JointKind::Fillet) {
        let size = |name: &str, said: Option<String>| said.map(|said| format!("{name} {said}"));
        let leg = size("leg", document.leg.map(|range| say.range(&range)));
        let throat = size("throat", document.throat.map(|range| say.range(&range)));
        part.fact("Leg or throat", say::listed(leg.into_iter().chain(throat)));
    }
    part.also("Deposited thickness", document.deposited_thickness.map(|range| say.range(&range)));
    part.fact("Layers", document.layering.map(say::words));
    part.fact("Sequence of runs", words(document, |own| &own.run_sequence));
    part.also("Sketch", words(document, |own| &own.sketch));
    part.fact("Positions (ISO 6947)", say::all(&document.positions));
    let drawn = sketch::sketch(document, say);
    if let Err(reason) = &drawn {
        part.also("Joint not drawn", Some(reason.clone()));
    }
    let mut section = part.end();
    if let Ok(drawing) = drawn {
        section.beside(drawing);
    }
    section
}

fn fit_up(part: &mut Part, document: &ProcedureDocument, say: &Say) {
    let design = document.joint_design.as_ref();
    let Some(fit) = design.and_then(|own| own.fit_up.as_ref()) else {
        return part.fact("Fit-up", None);
    };
    part.also("Groove angle", fit.groove_angle.map(|angle| say.value(angle)));
    part.also("Bevel angle", fit.bevel_angle.map(|angle| say.value(angle)));
    part.also("Root gap", fit.root_gap.map(|gap| say.value(gap)));
    part.also("Root face", fit.root_face.map(|face| say.value(face)));
    part.also("Root radius", fit.root_radius.map(|radius| say.value(radius)));
    part.also("Angle between the parts", fit.joint_angle.map(|angle| say.value(angle)));
}

/// Edges, cleaning, holding and tacking, gouging, backing.
pub(super) fn preparation(document: &ProcedureDocument, say: &Say) -> Section {
    let mut part = Part::new(
        "Preparation, gouging and backing",
        Some("ISO 15609-1:2019, 4.4.4, 4.4.6 and 4.4.7"),
    );
    let design = document.joint_design.as_ref();
    part.fact("Preparation of the edges", design.and_then(|own| own.preparation.clone()));
    part.fact("Cleaning", words(document, |own| &own.cleaning));
    part.fact("Holding and tacking", design.and_then(|own| own.assembly.clone()));
    part.fact("Root removal", design.and_then(|own| own.root_removal).map(say::words));
    let tool = design.and_then(|own| own.gouging_tool);
    part.also("Gouging tool", tool.map(|diameter| say.value(diameter)));
    part.also("Back gouging", words(document, |own| &own.gouging_method));
    let depth = document.execution.as_ref().and_then(|own| own.gouging_depth);
    part.also("Depth of gouging", depth.map(|depth| say.value(depth)));
    part.also("Shape after gouging", words(document, |own| &own.gouging_shape));
    part.fact("Backing", design.and_then(|own| own.backing).map(say::words));
    part.also("Backing material", design.and_then(|own| own.backing_material).map(say::words));
    part.also("Size of the backing", words(document, |own| &own.backing_dimensions));
    part.end()
}

/// A text of the execution.
fn words(
    document: &ProcedureDocument,
    of: impl Fn(&crate::procedures::ExecutionDocument) -> &Option<String>,
) -> Option<String> {
    document.execution.as_ref().and_then(|own| of(own).clone())
}
