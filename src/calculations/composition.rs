//! `POST /v1/calculations/composition`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{Kind, Range},
    trade::{
        Bounds, CARBON_EQUIVALENT_CEN, CARBON_EQUIVALENT_CET, CARBON_EQUIVALENT_IIW,
        CARBON_EQUIVALENT_PCM, CARBON_EQUIVALENT_WITH_SILICON, Coded, Composition, Element,
        Formula, Validity, carbon_equivalents,
    },
    wire::wire_object,
};

wire_object! {
    /// A steel.
    pub struct CompositionIn {
        /// Its analysis, or the ceilings of its standard. An element that is left out is unknown.
        pub composition: Composition,
    }
}

calculation! {
    /// Carbon equivalents side by side, each with its formula and whether the composition is in the range it
    /// was made for. Elements that are not stated, and mere ceilings, make bounds of a value: an unknown
    /// element is not an absent one.
    "/v1/calculations/composition", calculate_carbon_equivalents(CompositionIn) => fill,
    summary: "Carbon equivalents of a steel",
    example: {
        "composition": {
            "C": "0.16 %", "Si": "0.35 %", "Mn": "1.40 %", "Cr": { "at_most": "0.05 %" },
            "Mo": { "at_most": "0.01 %" }, "V": { "is": "0.003 %" }, "Ni": { "at_most": "0.05 %" },
            "Cu": { "at_most": "0.05 %" }
        }
    }
}

fn fill(sent: &CompositionIn, sheet: &mut Sheet) {
    let all = match carbon_equivalents(&sent.composition) {
        Ok(all) => all,
        Err(error) => return sheet.absent("carbon-equivalents", error),
    };
    put("ce-iiw", &all.ce_iiw, &CARBON_EQUIVALENT_IIW, &all.ce_iiw_validity, sheet);
    let silicon = &CARBON_EQUIVALENT_WITH_SILICON;
    put("ce-with-silicon", &all.ce_with_silicon, silicon, &all.ce_iiw_validity, sheet);
    put("cet", &all.cet, &CARBON_EQUIVALENT_CET, &all.cet_validity, sheet);
    put("pcm", &all.pcm, &CARBON_EQUIVALENT_PCM, &all.pcm_validity, sheet);
    put("cen", &all.cen, &CARBON_EQUIVALENT_CEN, &all.cen_validity, sheet);
}

fn put<K: Kind>(
    name: &str,
    bounds: &Bounds<K>,
    formula: &Formula,
    validity: &Validity,
    sheet: &mut Sheet,
) {
    let validity = in_words(validity);
    if let Some(exact) = bounds.exact() {
        return sheet.one::<_, &str>(name, Ok(exact), formula, &[&validity]);
    }
    let range = Range::new(Some(bounds.low), bounds.high);
    let open = if bounds.unknown.is_empty() {
        "a ceiling counts from nothing up to all of it".to_owned()
    } else {
        format!("no upper bound: nothing is stated of {}", symbols(&bounds.unknown))
    };
    sheet.bounds(name, range, formula, &[&open, &validity]);
}

/// Symbols of elements, in order.
pub(super) fn symbols(elements: &[Element]) -> String {
    elements.iter().map(|element| element.code()).collect::<Vec<_>>().join(", ")
}

fn in_words(validity: &Validity) -> String {
    match validity {
        Validity::Inside => "the composition is in the range the formula was made for".to_owned(),
        Validity::Outside(limits) => {
            let each = limits.iter().map(|limit| {
                let (element, valid) = (limit.element.code(), limit.valid.amounts());
                format!("{element} {} (valid {valid})", limit.given)
            });
            let each: Vec<_> = each.collect();
            format!("outside the range the formula was made for: {}", each.join(", "))
        }
        Validity::Unknown(elements) => {
            format!("not known to be in the range the formula was made for: {}", symbols(elements))
        }
    }
}
