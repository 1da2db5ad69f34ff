//! Parent metal.

use super::say::{self, Part, Say};
use crate::{procedures::ProcedureDocument, sheet::Section};

/// Parent metal: type and dimensions.
pub(super) fn section(document: &ProcedureDocument, say: &Say) -> Section {
    let mut part = Part::new("Parent metal", Some("ISO 15609-1:2019, 4.3"));
    let metal = document.parent_metal.as_ref();
    part.fact("Standards and grades", metal.and_then(|own| say::listed(own.designations.clone())));
    let groups = document.base_metals.iter().map(ToString::to_string);
    part.fact("Groups of ISO/TR 15608", say::listed(groups));
    part.fact("Thickness", document.thickness.map(|range| say.range(&range)));
    part.fact("Delivery condition", metal.and_then(|own| own.condition).map(say::words));
    part.fact("Forms", metal.and_then(|own| say::all(&own.forms)));
    let diameter = metal.and_then(|own| own.outside_diameter);
    part.fact("Outside diameter", diameter.map(|range| say.range(&range)));
    let highest = metal.and_then(|own| own.highest_yield);
    part.also("Specified minimum yield strength", highest.map(|stress| say.at_most(stress)));
    let p_number = metal.and_then(|own| own.p_number.as_ref()).map(|own| match own.group {
        Some(group) => format!("{}, group {group}", own.number),
        None => own.number.clone(),
    });
    part.also("P-Number (ASME IX)", p_number);
    part.also("Group of AWS D1.1", metal.and_then(|own| own.d11_group).map(say::words));
    part.end()
}
