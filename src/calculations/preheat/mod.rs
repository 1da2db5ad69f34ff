//! `POST /v1/calculations/preheat`

mod aws;
mod en;
mod inputs;

pub use inputs::{HeatPathForm, HeatPathsIn, Hydrogen};

use super::{Sheet, composition::symbols, endpoint::calculation, metal::Metal};
use crate::{
    organisation::OrganisationSettings,
    quantity::{
        CeIiw, Cet, CombinedThickness, HeatInput, Kind, Pcm, Quantity, Stress, Temperature,
        Thickness, UnitSystem,
    },
    trade::{
        Bounds, CARBON_EQUIVALENT_CET, CARBON_EQUIVALENT_IIW, CARBON_EQUIVALENT_PCM,
        COMBINED_THICKNESS, CarbonEquivalents, Composition, Formula, HEATED_WIDTH, MEASURING_POINT,
        PreheatCategory, Restraint, Validity, carbon_equivalents, combined_thickness, heated_width,
        measuring_point,
    },
    wire::{ChartReadingIn, wire_object},
};

wire_object! {
    /// A joint, its steel and its consumable. Each method that has its values answers; the others say what
    /// they lack.
    pub struct PreheatIn {
        /// The metal; the methods are for unalloyed and low-alloy ferritic steel.
        pub metal: Metal,
        /// Composition of the parent metal; carbon equivalents are taken at their upper bound.
        pub composition: Option<Composition>,
        /// CET, where there is no composition.
        pub cet: Option<Cet>,
        /// CET of the weld metal: it governs, with 0.03 % added, where it is the higher one.
        pub weld_metal_cet: Option<Cet>,
        /// Carbon equivalent of the IIW, where there is no composition.
        pub ce_iiw: Option<CeIiw>,
        /// Pcm, where there is no composition.
        pub pcm: Option<Pcm>,
        /// Yield strength, to check the range of Method B.
        pub yield_strength: Option<Stress>,
        /// Thickness of the thicker part at the point of welding.
        pub thickness: Option<Thickness>,
        /// Plates that lead heat away, for the combined thickness.
        pub heat_paths: Option<HeatPathsIn>,
        /// Diffusible hydrogen of the consumable, as used: a class such as `H5`, or a content.
        pub hydrogen: Option<Hydrogen>,
        /// Lowest heat input that may occur, thermal efficiency counted.
        pub heat_input: Option<HeatInput>,
        /// Temperature of the shop and of the unheated plate.
        pub ambient: Option<Temperature>,
        /// Preheat planned, for the heat input at which it is enough.
        pub preheat: Option<Temperature>,
        /// Your own readings of the charts of EN 1011-2 Method A; those kept in the organisation's
        /// settings (`PUT /v1/organisation`) where none is sent.
        pub chart_readings: Vec<ChartReadingIn>,
        /// AWS D1.1 categories of base metal and process, one for each part.
        pub categories: Vec<PreheatCategory>,
        /// Columns of AWS D1.1 that the code is applied in; for hydrogen control metric where left out.
        pub columns: Option<UnitSystem>,
        /// Restraint of the joint, for hydrogen control.
        pub restraint: Option<Restraint>,
    }
}

calculation! {
    /// Minimum preheat by the methods that have their values, side by side and never averaged: EN 1011-2
    /// Method B with both printed sets of constants and in its parts, EN 1011-2 Method A as far as its
    /// table and your chart readings go (those sent, else those kept in the settings), the AWS D1.1 category, and AWS D1.1 hydrogen control on both
    /// paths. With combined thickness and where to measure. The governing code chooses the method.
    "/v1/calculations/preheat", calculate_preheat(PreheatIn) => fill,
    with: settings,
    summary: "Minimum preheat",
    example: {
        "metal": "1.2", "cet": "0.33 %", "ce_iiw": "0.45 %", "pcm": "0.27 %",
        "thickness": "25 mm", "heat_paths": { "form": "butt", "plates": ["25 mm", "25 mm"] },
        "hydrogen": "H5", "heat_input": "1.3 kJ/mm", "ambient": "20 °C", "preheat": "100 °C",
        "chart_readings": [{
            "highest_ce": "0.45 %", "worst_scale": "D", "lowest_heat_input": "1.0 kJ/mm",
            "largest_combined": "60 mm", "preheat": "50 °C", "read_by": "Welding engineer",
            "read_on": "2026-02-09",
            "figure": "EN 1011-2:2001, Figure C.2 (invented reading)"
        }],
        "categories": ["B"], "columns": "metric", "restraint": "medium"
    }
}

/// What the methods share: carbon equivalents and combined thickness, or why they are not known.
struct Shared {
    cet: Result<Cet, String>,
    ce: Result<CeIiw, String>,
    pcm: Result<Pcm, String>,
    combined: Result<CombinedThickness, String>,
    /// Whether the composition is one that Method A is for; `None` where it is not known.
    method_a_range: Option<Validity>,
}

fn fill(sent: &PreheatIn, settings: &OrganisationSettings, sheet: &mut Sheet) {
    let shared = shared(sent, sheet);
    en::method_b(sent, &shared, sheet);
    en::method_a(sent, &settings.chart_readings, &shared, sheet);
    aws::category(sent, sheet);
    aws::hydrogen_control(sent, &shared, sheet);
    measuring(sent, sheet);
}

/// A value, or what is missing.
fn need<T: Copy>(value: Option<T>, what: &str) -> Result<T, String> {
    value.ok_or_else(|| format!("{what} is missing"))
}

fn shared(sent: &PreheatIn, sheet: &mut Sheet) -> Shared {
    let all = sent.composition.as_ref().and_then(|steel| carbon_equivalents(steel).ok());
    let of = all.as_ref();
    let cet = equivalent("cet", sent.cet, of, |all| &all.cet, &CARBON_EQUIVALENT_CET, sheet);
    let ce =
        equivalent("ce-iiw", sent.ce_iiw, of, |all| &all.ce_iiw, &CARBON_EQUIVALENT_IIW, sheet);
    let pcm = equivalent("pcm", sent.pcm, of, |all| &all.pcm, &CARBON_EQUIVALENT_PCM, sheet);
    let name = "combined-thickness";
    let combined = match &sent.heat_paths {
        None => Err("the plates that lead heat away are missing".to_owned()),
        Some(paths) => paths.compile().and_then(|paths| combined_thickness(&paths)).map_err(text),
    };
    sheet.one(name, combined.clone(), &COMBINED_THICKNESS, &[]);
    let method_a_range = of.map(|all| all.ce_iiw_validity.clone());
    Shared { cet, ce, pcm, combined, method_a_range }
}

/// How far a certificate's carbon equivalent of two decimals is off by rounding, in percent.
const ROUNDED: f64 = 0.005_001;

/// A carbon equivalent as given, unless the composition cannot have one that low; else the upper bound of the
/// composition's, which is put on the sheet.
fn equivalent<K: Kind>(
    name: &str,
    given: Option<Quantity<K>>,
    all: Option<&CarbonEquivalents>,
    of: impl Fn(&CarbonEquivalents) -> &Bounds<K>,
    formula: &Formula,
    sheet: &mut Sheet,
) -> Result<Quantity<K>, String> {
    if let Some(given) = given {
        let least = all.map(|all| of(all).low);
        let least = least.filter(|least| least.canonical() - given.canonical() > ROUNDED);
        return least.map_or(Ok(given), |least| {
            Err(format!("{name} is stated as {given}, and the composition has at least {least}"))
        });
    }
    let bounds = all.map(of).ok_or_else(|| format!("the composition or {name} is missing"))?;
    let value = bounds.high.ok_or_else(|| {
        format!("{name} has no upper bound: nothing is stated of {}", symbols(&bounds.unknown))
    });
    sheet.one(name, value.clone(), formula, &["upper bound of the composition"]);
    value
}

/// Where to measure, and how far preheat reaches.
fn measuring(sent: &PreheatIn, sheet: &mut Sheet) {
    let point = need(sent.thickness, "the thickness")
        .and_then(|thickness| measuring_point(thickness).map_err(text));
    let extent = point.as_ref().map(|point| format!("{} this distance", point.extent));
    let extent = extent.unwrap_or_default();
    let distance = point.clone().map(|point| point.distance);
    sheet.one("measuring-distance", distance, &MEASURING_POINT, &[&extent]);
    let face = "where the heated face is measured, after the heat is taken away";
    sheet.at_least("measuring-wait", point.map(|point| point.wait), &MEASURING_POINT, &[face]);
    let width = need(sent.thickness, "the thickness").and_then(|thickness| {
        let columns = need(sent.columns, "\"columns\" (metric or us)")?;
        heated_width(thickness, columns).map_err(text)
    });
    sheet.at_least("heated-width", width, &HEATED_WIDTH, &[]);
}

fn text(error: impl std::fmt::Display) -> String {
    error.to_string()
}
