//! `POST /v1/calculations/burn-off`

use axum::Json;

use super::{CalculationAnswer, Sheet, UnitsQuery};
use crate::{
    access::{AnyRole, Permitted},
    check::{
        Filler, Setup, matching_data,
        record::{Condition, Consumable},
    },
    http::{JsonBody, Query, problem::Problem, responses::AskProblems},
    quantity::{Current, Diameter, ElectricalStickOut, WireFeed},
    rulebook::Rulebook,
    trade::{
        BURN_OFF, BURN_OFF_FIT, BurnOffError, BurnOffFit, BurnOffForm, BurnOffPoint,
        CURRENT_FOR_FEED, Coded, CurrentBand, DEFAULT_STICK_OUT_EFFECT, FillerKind,
        GENERIC_BURN_OFF, Gas, Polarity, PositionClaim, StickOutEffect, generic_burn_off,
        generic_current_band,
    },
    wire::{self, Code, Errors, Place, wire_object},
};

wire_object! {
    /// One operating point.
    pub struct BurnOffPointIn {
        /// Wire feed speed.
        pub wire_feed: WireFeed,
        /// Current that followed.
        pub current: Current,
        /// Electrical stick-out at it.
        pub electrical_stick_out: ElectricalStickOut,
    }
}

wire_object! {
    /// A condition of a consumable's printed data.
    pub struct PrintedPointsIn {
        /// Code of the consumable.
        pub consumable: Code,
        /// Nominal diameter.
        pub diameter: Diameter,
        /// Shielding gas: group, mixture, or `none`.
        pub gas: Option<Gas>,
        /// Polarity.
        pub polarity: Polarity,
        /// Position, where the data is printed for some positions only.
        pub position: Option<String>,
        /// Electrical stick-out of the printed points, where the data gives none or a range.
        pub electrical_stick_out: Option<ElectricalStickOut>,
    }
}

wire_object! {
    /// Where the current is asked for.
    pub struct BurnOffAtIn {
        /// Wire feed speed.
        pub wire_feed: WireFeed,
        /// Electrical stick-out.
        pub electrical_stick_out: ElectricalStickOut,
        /// Another stick-out at the same feed, for the change of current.
        pub then_stick_out: Option<ElectricalStickOut>,
        /// A current that was read there, to see how far it lies from the fit.
        pub current: Option<Current>,
    }
}

wire_object! {
    /// Operating points, typed or printed, and where to ask.
    pub struct BurnOffIn {
        /// Operating points of one consumable, diameter, gas and polarity.
        pub points: Vec<BurnOffPointIn>,
        /// Printed points of a consumable of your organisation, in place of typed ones.
        pub printed: Option<PrintedPointsIn>,
        /// Form of the fit: `feed` where the scatter is the same in feed, `feed-per-current` where it grows
        /// with the current; the latter where left out.
        pub form: Option<BurnOffForm>,
        /// Where the current is asked for.
        pub at: Option<BurnOffAtIn>,
        /// Diameter of the wire, for the generic equation beside typed points.
        pub diameter: Option<Diameter>,
        /// Kind of wire: the generic equation is for solid steel wire only.
        pub kind: Option<FillerKind>,
    }
}

/// Current of a wire feed
///
/// Fits the burn-off equation to a consumable's own operating points: coefficients, rank, residual, what the
/// points cover, the current at a feed and stick-out as a band, and what another stick-out does to it. Where
/// the points do not carry a fit, that is said, and a generic equation stands in with a wide band.
#[utoipa::path(
    post, path = "/v1/calculations/burn-off", tag = "calculations",
    request_body(content = BurnOffIn, example = json!({
        "points": [
            { "wire_feed": "5.4 m/min", "current": "200 A", "electrical_stick_out": "15 mm" },
            { "wire_feed": "7.312 m/min", "current": "250 A", "electrical_stick_out": "15 mm" },
            { "wire_feed": "9.45 m/min", "current": "300 A", "electrical_stick_out": "15 mm" }
        ],
        "at": {
            "wire_feed": "7.3 m/min", "electrical_stick_out": "15 mm", "then_stick_out": "18 mm"
        },
        "diameter": "1.2 mm", "kind": "solid-wire"
    })),
    params(UnitsQuery),
    responses(
        (status = 200, description = "The figures with their sources", body = CalculationAnswer),
        AskProblems,
    ),
)]
pub(super) async fn calculate_burn_off(
    permitted: Permitted<AnyRole>,
    Query(query): Query<UnitsQuery>,
    JsonBody(body): JsonBody,
) -> Result<Json<CalculationAnswer>, Problem> {
    let mut sheet = Sheet::new(query.of(&permitted.caller)?);
    let sent: BurnOffIn = wire::read(&body)?;
    let data = Data::of(&sent, &permitted.caller.rulebook)?;
    fill(&sent, &data, &mut sheet);
    Ok(Json(sheet.finish()))
}

/// The points to fit, and the wire they belong to.
struct Data {
    points: Result<Vec<BurnOffPoint>, String>,
    /// Where they come from.
    basis: String,
    diameter: Option<Diameter>,
    kind: Option<FillerKind>,
}

impl Data {
    fn of(sent: &BurnOffIn, rulebook: &Rulebook) -> Result<Self, Problem> {
        let Some(printed) = &sent.printed else {
            let points = sent.points.iter().map(|point| BurnOffPoint {
                feed: point.wire_feed,
                current: point.current,
                stick_out: point.electrical_stick_out,
            });
            return Ok(Self {
                points: Ok(points.collect()),
                basis: "points as given by the caller".to_owned(),
                diameter: sent.diameter,
                kind: sent.kind,
            });
        };
        if !sent.points.is_empty() {
            return Err(Problem::field("/points", "give points, or a condition with printed ones"));
        }
        let code = printed.consumable.as_str();
        let consumable = rulebook.book.consumables.get(code).ok_or_else(|| {
            Problem::field(
                "/printed/consumable",
                format!("there is no consumable \"{code}\" in force"),
            )
        })?;
        let setup = setup(printed)?;
        let found = matching_data(consumable, &setup, setup.filler.gas);
        let (points, basis) = match found {
            Some((edition, condition)) => (
                points_of(condition, printed.electrical_stick_out),
                format!("points of {code}: {}, {}", edition.document, edition.edition),
            ),
            None => (Err(no_condition(consumable)), String::new()),
        };
        let (diameter, kind) = (Some(printed.diameter), Some(consumable.kind));
        Ok(Self { points, basis, diameter, kind })
    }
}

fn no_condition(consumable: &Consumable) -> String {
    format!(
        "consumable {} has no printed data for this diameter, gas, polarity and position",
        consumable.code
    )
}

/// The condition as a setup names it.
fn setup(printed: &PrintedPointsIn) -> Result<Setup, Problem> {
    let mut setup = Setup {
        filler: Filler {
            diameter: Some(printed.diameter),
            gas: printed.gas,
            polarity: Some(printed.polarity),
            ..Filler::default()
        },
        ..Setup::default()
    };
    if let Some(position) = &printed.position {
        let mut errors = Errors::default();
        setup.job.position = PositionClaim::parse(position, None).map_or_else(
            |error| {
                let at = Place::Member(&Place::Root, "printed");
                errors.note(Place::Member(&at, "position"), error.to_string())
            },
            Some,
        );
        errors.finish()?;
    }
    Ok(setup)
}

/// Printed points with their stick-out; a data sheet that prints a range does not say which.
fn points_of(
    condition: &Condition,
    stated: Option<ElectricalStickOut>,
) -> Result<Vec<BurnOffPoint>, String> {
    let printed = condition.ranges.stick_out;
    let single = printed
        .and_then(|range| range.min().zip(range.max()))
        .and_then(|(min, max)| (min == max).then_some(min));
    let stick_out = stated.or(single).ok_or(
        "the printed data does not say at which stick-out its points were taken; state \
         \"electrical_stick_out\" beside the consumable",
    )?;
    let point = |point: &crate::check::record::OperatingPoint| {
        Some(BurnOffPoint { feed: point.wire_feed?, current: point.current, stick_out })
    };
    Ok(condition.points.iter().filter_map(point).collect())
}

fn fill(sent: &BurnOffIn, data: &Data, sheet: &mut Sheet) {
    let form = sent.form.unwrap_or(BurnOffForm::FeedPerCurrent);
    let fit = data
        .points
        .as_ref()
        .map_err(Clone::clone)
        .and_then(|points| BurnOffFit::new(points, form).map_err(|error| error.to_string()));
    match &fit {
        Ok(fit) => coefficients(fit, &data.basis, sheet),
        Err(reason) => sheet.absent("coefficients", reason),
    }
    let Some(at) = &sent.at else {
        return sheet.absent("current", "say where: \"at\" with feed and stick-out");
    };
    let fitted = match &fit {
        Ok(fit) => fitted(fit, at, sheet),
        Err(reason) => {
            sheet.absent("current", reason);
            false
        }
    };
    if !fitted {
        generic(data, at, sheet);
    }
}

fn coefficients(fit: &BurnOffFit, basis: &str, sheet: &mut Sheet) {
    let (model, span) = (fit.model(), fit.span());
    let form = format!("form {}", fit.form());
    let notes: &[&str] = &[basis, &form];
    sheet.one::<_, &str>("arc-melting", Ok(model.arc), &BURN_OFF_FIT, notes);
    sheet.one::<_, &str>("resistance-melting", Ok(model.resistance), &BURN_OFF_FIT, notes);
    sheet.count::<&str>("rank", Ok(u32::from(BurnOffFit::RANK)), &BURN_OFF_FIT, &["of 2"]);
    let points = u32::try_from(fit.points()).map_err(|error| error.to_string());
    sheet.count("points", points, &BURN_OFF_FIT, notes);
    let residual = fit
        .residual()
        .map_err(|error| error.to_string())
        .and_then(|residual| residual.ok_or_else(|| "two points leave no residual".to_owned()));
    sheet.one("residual", residual, &BURN_OFF_FIT, &["standard deviation, as a share of the mean"]);
    sheet.span::<_, &str>("feed-covered", Ok(span.feed), &BURN_OFF_FIT, notes);
    sheet.span::<_, &str>("current-covered", Ok(span.current), &BURN_OFF_FIT, notes);
    sheet.span::<_, &str>("stick-out-covered", Ok(span.stick_out), &BURN_OFF_FIT, notes);
}

/// The current by the fit; whether there is one.
fn fitted(fit: &BurnOffFit, at: &BurnOffAtIn, sheet: &mut Sheet) -> bool {
    let band = fit.current_band(at.wire_feed, at.electrical_stick_out);
    let known = band.is_ok();
    show_band("current", band, sheet);
    if let Some(then) = at.then_stick_out {
        let effect = fit.stick_out_effect();
        let formula = match effect {
            StickOutEffect::FromData => &BURN_OFF,
            StickOutEffect::Default => &DEFAULT_STICK_OUT_EFFECT,
        };
        let ratio = fit.current_ratio(at.wire_feed, at.electrical_stick_out, then);
        let effect = format!("effect of the stick-out: {}", effect.code());
        sheet.span("current-ratio", ratio, formula, &["at constant feed", &effect]);
        show_band("current-then", fit.current_band(at.wire_feed, then), sheet);
    }
    if let Some(current) = at.current {
        let reading =
            BurnOffPoint { feed: at.wire_feed, current, stick_out: at.electrical_stick_out };
        let far = match fit.is_far_from(&reading) {
            Ok(true) => "more than 15 % from the fit: look at the readings again",
            Ok(false) | Err(_) => "feed above (or, negative, below) the fit",
        };
        sheet.one("reading-deviation", fit.deviation(&reading), &BURN_OFF_FIT, &[far]);
    }
    known
}

fn show_band(name: &str, band: Result<CurrentBand, BurnOffError>, sheet: &mut Sheet) {
    let notes = band.as_ref().map_or_else(
        |_| [String::new(), String::new(), String::new()],
        |band| {
            [
                format!("central {}", band.central),
                band.basis.code().to_owned(),
                format!("effect of the stick-out: {}", band.stick_out_effect.code()),
            ]
        },
    );
    let notes = notes.each_ref().map(String::as_str);
    sheet.span(name, band.map(|band| band.band), &CURRENT_FOR_FEED, &notes);
}

/// The generic equation with its wide band, for solid wire only.
fn generic(data: &Data, at: &BurnOffAtIn, sheet: &mut Sheet) {
    let name = "generic-current";
    if data.kind != Some(FillerKind::SolidWire) {
        return sheet.absent(name, "the generic equation is for wire known to be solid steel wire");
    }
    let Some(diameter) = data.diameter else {
        return sheet.absent(name, "the diameter is missing");
    };
    let model = generic_burn_off(diameter);
    let (arc, resistance) = match &model {
        Ok(model) => (Ok(model.arc), Ok(model.resistance)),
        Err(error) => (Err(error.clone()), Err(error.clone())),
    };
    sheet.one("generic-arc-melting", arc, &GENERIC_BURN_OFF, &[]);
    sheet.one("generic-resistance-melting", resistance, &GENERIC_BURN_OFF, &[]);
    let band = generic_current_band(diameter, at.wire_feed, at.electrical_stick_out);
    let notes = ["for display, never to forbid", "feed taken 1.5 times higher and lower"];
    sheet.span(name, band.map(|band| band.band), &GENERIC_BURN_OFF, &notes);
}
