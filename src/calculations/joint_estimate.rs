//! `POST /v1/calculations/joint-estimate`

use time::Date;

use super::{
    Sheet,
    endpoint::calculation,
    joint::{density_of, needs_density, section},
    joint_in::JointIn,
    work_in::{MaterialPricesIn, SharedPricesIn, WorkIn, prices, show},
};
use crate::{
    check::{BaseMetal, Setup, cautions},
    organisation::OrganisationSettings,
    quantity::{Density, RunLength},
    trade::{
        Confidence, EstimateError, Formula, Manner, MetalGroup, estimate_joint,
        usual_operating_factor,
    },
    wire::wire_object,
};

/// Usual operating factor.
const USUAL_FACTOR: Formula = Formula {
    name: "usual-operating-factor",
    equation: "covered electrode 30 %, semi-automatic 45 %, automatic 60 to 80 %",
    source: "filler-metal handbook, Calculations section; Basic Welding Filler Metal Technology, \
             correspondence course, Lesson 9, 2000: \"if unknown\"",
    validity: "where none was recorded; records of manual work are often 10 to 25 %, so a recorded \
               factor goes first",
    confidence: Confidence::TextRead,
};

wire_object! {
    /// A joint, how it is welded, and prices.
    pub struct JointEstimateIn {
        /// The joint.
        pub joint: JointIn,
        /// Length of the joint.
        pub length: RunLength,
        /// Density of the weld metal; unalloyed steel, 7.85 g/cm3, where left out and no base metal is something else.
        pub density: Option<Density>,
        /// How it is welded.
        pub work: WorkIn,
        /// Manner of welding, to see the usual operating factor beside the stated one.
        pub manner: Option<Manner>,
        /// Prices of filler, flux and gas.
        pub material_prices: Option<MaterialPricesIn>,
        /// Prices of labour and energy.
        pub shared_prices: Option<SharedPricesIn>,
        /// Day of the prices; today by the organisation's time zone where left out.
        pub day: Option<Date>,
        /// Groups of the base metals (ISO/TR 15608), one for each part, for the cautions and the density.
        pub base_metals: Vec<MetalGroup>,
    }
}

calculation! {
    /// Arc time, elapsed time, wire, flux, gas, energy and costs of a joint, in all and per metre. What has
    /// no price or no reading is unknown and leaves the sum unknown; it is never zero.
    "/v1/calculations/joint-estimate", calculate_joint_estimate(JointEstimateIn) => fill,
    with: settings,
    summary: "Estimate a joint",
    example: {
        "joint": {
            "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "2 mm", "angle": "60 deg" },
            "cap": { "height": "2 mm", "overlap": "1 mm" }
        },
        "length": "12 m",
        "work": {
            "process": "136", "deposition_rate": "3.5 kg/h", "efficiency": "86 %",
            "operating_factor": "35 %", "gas_flow": "18 L/min", "arc_power": "6.21 kW",
            "source_efficiency": "85 %"
        },
        "material_prices": {
            "filler": {
                "amount": "2.90", "currency": "EUR", "per": "1 kg", "valid_from": "2026-01-01"
            },
            "gas": { "amount": "9.00", "currency": "EUR", "per": "1 m3", "valid_from": "2026-01-01" }
        },
        "shared_prices": {
            "labour": { "amount": "42", "currency": "EUR", "per": "1 h", "valid_from": "2026-01-01" },
            "energy": {
                "amount": "0.18", "currency": "EUR", "per": "1 kWh", "valid_from": "2026-01-01"
            }
        },
        "day": "2026-03-02"
    }
}

fn fill(sent: &JointEstimateIn, settings: &OrganisationSettings, sheet: &mut Sheet) {
    sheet.heed(cautions(&setup(sent), Some(sent.work.process), None));
    if let Some(manner) = sent.manner {
        sheet.span("usual-operating-factor", usual_operating_factor(manner), &USUAL_FACTOR, &[]);
    }
    if let Err(error) = estimate(sent, settings, sheet) {
        sheet.absent("estimate", error);
    }
}

fn estimate(
    sent: &JointEstimateIn,
    settings: &OrganisationSettings,
    sheet: &mut Sheet,
) -> Result<(), EstimateError> {
    let section = section(&sent.joint, sheet);
    if let Some(why) = needs_density(sent.density, sent.base_metals.iter().copied()) {
        sheet.absent("estimate", why);
        return Ok(());
    }
    let Some((density, basis)) = density_of(sent.density) else { return Ok(()) };
    let work = sent.work.work(density, sheet);
    let (Some(section), Some(work)) = (section, work) else {
        sheet.absent("estimate", "the cross-section or the deposition rate is not known");
        return Ok(());
    };
    let estimate = estimate_joint(section, density, sent.length, &work)?;
    let prices = prices(sent.material_prices.as_ref(), sent.shared_prices.as_ref());
    let day = sent.day.unwrap_or_else(|| settings.today());
    show(&estimate, (&prices, day), basis, sheet);
    Ok(())
}

/// As far as cautions depend on it.
fn setup(sent: &JointEstimateIn) -> Setup {
    let mut setup = Setup { process: Some(sent.work.process), ..Setup::default() };
    let part = |group: &MetalGroup| BaseMetal { group: Some(*group), ..BaseMetal::UNKNOWN };
    setup.job.base_metals = sent.base_metals.iter().map(part).collect();
    setup
}
