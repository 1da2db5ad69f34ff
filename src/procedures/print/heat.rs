//! Heating before, between and after the runs.

use super::say::{self, Part, Say};
use crate::{procedures::ProcedureDocument, qualify::record::TreatmentClass, sheet::Section};

/// What is heated and held besides the limits of the runs.
pub(super) fn section(document: &ProcedureDocument, say: &Say) -> Section {
    let mut part = Part::new("Preheat held, post-heating, heat treatment", None);
    part.also("Preheat and interpass", Some("limits of the runs above".to_owned()));
    let held = document.preheat_maintenance.map(|temperature| say.at_least(temperature));
    part.fact("Held when welding is interrupted", held);
    let post = document.post_heating.as_ref().map(|own| {
        if !own.done {
            return "none".to_owned();
        }
        let temperature = own.temperature.map(|span| say.span(&span));
        let time = own.time.map(|time| say.value(time));
        say::listed(temperature.into_iter().chain(time)).unwrap_or_else(|| "done".to_owned())
    });
    part.fact("Post-heating for hydrogen", post);
    let Some(own) = &document.heat_treatment else {
        part.fact("Heat treatment after welding", None);
        return part.end();
    };
    part.also("Heat treatment after welding", Some(say::words(own.class)));
    if own.class != TreatmentClass::None {
        part.fact("Holding temperature", own.temperature.map(|span| say.span(&span)));
        part.fact("Holding time", own.time.map(|time| say.value(time)));
        part.also("Rates", own.rates.clone());
        part.also("Cooling rate", own.cooling.map(|range| say.range(&range)));
        part.also("Fastest heating", own.heating.map(|rate| say.at_most(rate)));
    }
    part.end()
}
