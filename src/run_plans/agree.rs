//! Whether the setup speaks of the joint that is to be planned.

use super::create::RunPlansIn;
use crate::{
    check::Job,
    wire::{Errors, Place},
};

/// Notes where what the setup states of the joint is not the joint.
pub(super) fn agree(sent: &RunPlansIn, job: &Job, errors: &mut Errors) {
    let setup = Place::Member(&Place::Root, "setup");
    let at = Place::Member(&setup, "job");
    let kind = sent.joint.kind();
    let stated = sent.setup.job.as_ref().and_then(|job| job.joint);
    if stated.is_some_and(|stated| stated != kind) {
        let why = format!("the joint to be planned is a {kind}; leave this out");
        errors.note::<()>(Place::Member(&at, "joint"), why);
    }
    let fillet = sent.joint.fillet();
    if !job.may_ask_for(fillet) {
        let why = match fillet {
            Some(fillet) => format!("the fillet to be planned has a leg of {}", fillet.leg),
            None => "a butt weld has no leg".to_owned(),
        };
        let by_throat = sent.setup.job.as_ref().is_some_and(|job| job.throat.is_some());
        let name = if by_throat { "throat" } else { "leg" };
        errors.note::<()>(Place::Member(&at, name), format!("{why}; leave this out"));
    }
    if job.weld_length.is_some_and(|stated| stated != sent.length) {
        let why = format!("the weld to be planned is {} long; leave this out", sent.length);
        errors.note::<()>(Place::Member(&at, "weld_length"), why);
    }
    thickness(sent, job, Place::Member(&at, "base_metals"), errors);
}

/// A butt joint is as thick as one of its parts.
fn thickness(sent: &RunPlansIn, job: &Job, at: Place<'_>, errors: &mut Errors) {
    let Some(joint) = sent.joint.section().joint.thickness() else { return };
    if job.may_be_thick(joint) {
        return;
    }
    let parts = job.base_metals.iter().filter_map(|part| part.thickness);
    let parts = parts.map(|part| part.to_string()).collect::<Vec<_>>().join(" and ");
    let form = Place::Member(&Place::Root, "joint");
    let form = Place::Member(&form, sent.joint.form());
    let why = format!("the setup welds parts of {parts}; a joint is as thick as one of its parts");
    errors.note::<()>(Place::Member(&form, "thickness"), why);
    let why = format!("the joint to be planned is {joint} thick; state the parts it joins");
    errors.note::<()>(at, why);
}
