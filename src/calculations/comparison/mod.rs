//! `POST /v1/calculations/comparison`

mod answer_out;
mod option;

use axum::{Json, extract::State};
use serde_json::Value;
use time::Date;

use self::{
    answer_out::{ComparisonAnswer, OptionOut},
    option::{Asked, read_setups},
};
use super::{
    Sheet, UnitsQuery,
    joint::{density_of, needs_density, section},
    joint_in::JointIn,
    work_in::{MaterialPricesIn, SharedPricesIn, WorkIn, prices, show},
};
use crate::{
    access::{AnyRole, Permitted},
    check::cautions,
    checks::{Question, SetupIn},
    http::{
        AppState, JsonBody, Query, problem::Problem, responses::AskProblems, retry::WantedRulebook,
    },
    quantity::{Density, RunLength},
    trade::{
        EqualBasis, EstimateError, EstimateOption, JointEstimate, MOST_OPTIONS, RankBy,
        compare_options, estimate_joint,
    },
    wire::{self, wire_object},
};

wire_object! {
    /// One consumable or procedure.
    pub struct ComparisonOptionIn {
        /// What you call it; no two alike.
        pub name: String,
        /// How the joint is welded with it.
        pub work: WorkIn,
        /// Prices of filler, flux and gas.
        pub material_prices: Option<MaterialPricesIn>,
        /// The setup to be judged with your records. Position, joint and length of the basis stand in where
        /// it does not state them. An option without a setup is not judged, and the answer says so.
        pub setup: Option<SetupIn>,
    }
}

wire_object! {
    /// Options for one joint, on an equal basis.
    pub struct ComparisonIn {
        /// The joint.
        pub joint: JointIn,
        /// Length of the joint.
        pub length: RunLength,
        /// Position, the same for every option: ISO 6947 (`PF`), US test position or letter.
        pub position: String,
        /// Density of the weld metal; unalloyed steel, 7.85 g/cm3, where left out.
        pub density: Option<Density>,
        /// Prices of labour and energy, the same for every option.
        pub shared_prices: Option<SharedPricesIn>,
        /// Day of the prices; today by the organisation's time zone where left out.
        pub day: Option<Date>,
        /// What options are ranked by: `cost`, `elapsed-time`, `arc-time` or `filler`.
        pub rank_by: RankBy,
        /// Two to ten options.
        pub options: Vec<ComparisonOptionIn>,
    }
}

/// Compare ways to weld a joint
///
/// Up to ten consumables or procedures for one joint, length and position, each with its operating factor.
/// An option whose setup is not allowed, or not known to be, carries its reason and no place; so does one
/// that lacks the figure to rank by.
#[utoipa::path(
    post, path = "/v1/calculations/comparison", tag = "calculations",
    request_body(content = ComparisonIn, example = json!({
        "joint": { "fillet": { "leg": "6 mm" } },
        "length": "10 m",
        "position": "PB",
        "rank_by": "arc-time",
        "options": [
            { "name": "flux-cored wire", "work": {
                "process": "136", "deposition_rate": "3.5 kg/h", "efficiency": "86 %",
                "operating_factor": "35 %", "gas_flow": "18 L/min" } },
            { "name": "covered electrode", "work": {
                "process": "111", "deposition_rate": "1.5 kg/h", "efficiency": "60 %",
                "operating_factor": "30 %" } }
        ]
    })),
    params(
        UnitsQuery,
        ("Rulebook-Version" = Option<i64>, Header,
            description = "Version a write gave; the answer waits up to a second for it"),
    ),
    responses(
        (status = 200, description = "The options in their order", body = ComparisonAnswer),
        AskProblems,
    ),
)]
pub(super) async fn calculate_comparison(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    wanted: WantedRulebook,
    Query(query): Query<UnitsQuery>,
    JsonBody(body): JsonBody,
) -> Result<Json<ComparisonAnswer>, Problem> {
    let caller = &permitted.caller;
    let rulebook = Question::rulebook(&state, caller, wanted).await?;
    let sent: ComparisonIn = wire::read(&body)?;
    check_names(&sent)?;
    let asked = read_setups(&state, caller, &rulebook, &sent, &body)?;
    let sheet = || query.of(caller).map(Sheet::new);
    let day = sent.day.unwrap_or_else(|| rulebook.settings.today());
    compare((&sent, day), asked, sheet).map(Json)
}

fn check_names(sent: &ComparisonIn) -> Result<(), Problem> {
    let options = &sent.options;
    if options.len() < 2 || options.len() > MOST_OPTIONS {
        let detail = format!("two to {MOST_OPTIONS} options are compared, not {}", options.len());
        return Err(Problem::field("/options", detail));
    }
    let twice = |(index, option): &(usize, &ComparisonOptionIn)| {
        options[..*index].iter().any(|other| other.name == option.name)
    };
    match options.iter().enumerate().find(twice) {
        Some((index, _)) => {
            Err(Problem::field(format!("/options/{index}/name"), "another option has this name"))
        }
        None => Ok(()),
    }
}

/// One option on its way: what was asked of it, its sheet, and what it takes.
struct Weighed<'a> {
    sent: &'a ComparisonOptionIn,
    asked: Asked,
    sheet: Sheet,
    option: Option<EstimateOption>,
}

fn compare(
    (sent, day): (&ComparisonIn, Date),
    asked: Vec<Asked>,
    new_sheet: impl Fn() -> Result<Sheet, Problem>,
) -> Result<ComparisonAnswer, Problem> {
    let mut basis_sheet = new_sheet()?;
    let parts = asked.iter().flat_map(|one| &one.setup.job.base_metals);
    if let Some(why) = needs_density(sent.density, parts.filter_map(|part| part.group)) {
        return Err(Problem::field("/density", why));
    }
    let (density, density_basis) =
        density_of(sent.density).ok_or_else(|| Problem::internal("the density of steel"))?;
    let Some(section) = section(&sent.joint, &mut basis_sheet) else {
        return Ok(ComparisonAnswer::none(sent, day, basis_sheet.finish()));
    };
    let shared = prices(None, sent.shared_prices.as_ref());
    let basis = EqualBasis {
        section,
        density,
        length: sent.length,
        day,
        labour: shared.labour,
        energy: shared.energy,
    };
    let mut weighed = Vec::new();
    for (index, (option, asked)) in sent.options.iter().zip(asked).enumerate() {
        let mut sheet = new_sheet()?;
        let work = option.work.work(density, &mut sheet);
        if let Some(work) = &work {
            estimate_joint(section, density, sent.length, work).map_err(|error| {
                Problem::field(format!("/options/{index}/work"), error.to_string())
            })?;
        }
        let option_of = |work| EstimateOption {
            name: option.name.clone(),
            work,
            prices: prices(option.material_prices.as_ref(), None),
            permission: asked.permission.clone(),
        };
        let estimate = work.map(option_of);
        weighed.push(Weighed { sent: option, asked, sheet, option: estimate });
    }
    ranked(sent, (&basis, density_basis), weighed, basis_sheet)
}

/// Ranks what can be ranked, and says of the others why not.
fn ranked(
    sent: &ComparisonIn,
    (basis, density_basis): (&EqualBasis, &str),
    weighed: Vec<Weighed<'_>>,
    basis_sheet: Sheet,
) -> Result<ComparisonAnswer, Problem> {
    let refused = |error: EstimateError| Problem::field("/options", error.to_string());
    let options: Vec<_> = weighed.iter().filter_map(|one| one.option.clone()).collect();
    let compared = compare_options(basis, &options, sent.rank_by).map_err(refused)?;
    let mut answer = ComparisonAnswer::none(sent, basis.day, basis_sheet.finish());
    for mut one in weighed {
        for caution in cautions(&one.asked.setup, Some(one.sent.work.process), None).into_list() {
            answer.heed(caution);
        }
        let name = &one.sent.name;
        let place = compared.ranked.iter().find(|ranked| ranked.name == *name);
        let unplaced = compared.unranked.iter().find(|unranked| unranked.name == *name);
        let estimate = place.map(|p| p.estimate).or_else(|| unplaced.and_then(|u| u.estimate));
        if let (Some(estimate), Some(option)) = (&estimate, &one.option) {
            show_option(estimate, option, (basis, density_basis), &mut one.sheet);
        }
        let reason = unplaced.map(|unranked| unranked.reason.clone());
        let reason = reason.or_else(|| {
            place.is_none().then(|| "the deposition rate of this option is not known".to_owned())
        });
        let place = place.map(|ranked| ranked.place);
        answer.add(OptionOut::new(name, place, reason, &one.asked, one.sheet.finish()));
    }
    answer.sort();
    Ok(answer)
}

fn show_option(
    estimate: &JointEstimate,
    option: &EstimateOption,
    (basis, density_basis): (&EqualBasis, &str),
    sheet: &mut Sheet,
) {
    let prices =
        crate::trade::JointPrices { labour: basis.labour, energy: basis.energy, ..option.prices };
    show(estimate, (&prices, basis.day), density_basis, sheet);
}

/// The setup of an option in the body as sent.
fn setup_in(body: &Value, index: usize) -> Option<&Value> {
    body.get("options")?.get(index)?.get("setup").filter(|setup| !setup.is_null())
}
