//! `POST /v1/windows`

use axum::{Json, extract::State};
use serde::Deserialize;
use utoipa::IntoParams;

use super::{
    answer_out::{OfferOut, WindowsAnswer},
    ask::{AskIn, GuardIn},
    windows_in::WindowsIn,
};
use crate::{
    access::{AnyRole, Permitted},
    check::Variable,
    checks::{Question, QuestionQuery, pointer},
    http::{
        AppState, JsonText, Query, aside, problem::Problem, responses::AskProblems,
        retry::WantedRulebook,
    },
    trade::{Coded, Process},
    window::{self, no_setting, nothing_offered, offers, stated_setting},
    wire::{Errors, Place},
};

/// What a window is not.
const CAUTION: &str = "A window is the limits of the records; it does not replace the procedure, the \
governing code, local rules or a qualified person's judgement. Have the whole setup checked before the arc.";

/// What is asked of the windows.
#[derive(Debug, Default, Clone, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub struct WindowsQuery {
    /// `metric` or `us`; the organisation's choice where left out.
    pub units: Option<String>,
    /// `summary` or `full`; a summary for stations, everything for others where left out. A summary has ends and
    /// what binds them, and the settings proposed, without the list of all limits and a setting that shows each end.
    pub detail: Option<String>,
    /// Settings whose stated values are chosen, such as `voltage,travel-speed`: the others are narrowed by
    /// them. A stated interval stays one: everything else holds for each of its values. One that the setup does
    /// not state, or that is no setting of the process, is a problem.
    pub chosen: Option<String>,
    /// Two settings to outline for a plot, such as `wire-feed,voltage`. Where it depends on the procedure whether
    /// both are settings, `no_outline` says why there is none.
    pub outline: Option<String>,
}

impl WindowsQuery {
    fn question(&self) -> Result<window::Question, Problem> {
        let plain = window::Question::plain().map_err(Problem::internal)?;
        let chosen = variables("?chosen", self.chosen.as_deref())?;
        let outline = match variables("?outline", self.outline.as_deref())?.as_slice() {
            [] => None,
            [right, up] if right != up => Some((*right, *up)),
            _ => {
                let why = "an outline has two settings that differ, such as wire-feed,voltage";
                return Err(Problem::parameter("?outline", why));
            }
        };
        Ok(window::Question { chosen, outline, ..plain })
    }

    /// Refuses what is chosen and not stated, and what is no setting of the process.
    fn refuse_unset(asked: &window::Question, question: &Question) -> Result<(), Problem> {
        let process = process_meant(question);
        let refuse = |name: &str, variable: Variable| {
            no_setting(variable, process)
                .map_or(Ok(()), |why| Err(Problem::parameter(name, format!("{why}."))))
        };
        for variable in &asked.chosen {
            refuse("?chosen", *variable)?;
            if stated_setting(&question.setup, *variable).is_none() {
                let code = variable.code();
                let why = format!(
                    "{code} is chosen, but the setup states none: state it at {}, or leave it out here.",
                    pointer(*variable)
                );
                return Err(Problem::parameter("?chosen", why));
            }
        }
        let outlined = asked.outline.into_iter().flat_map(|(right, up)| [right, up]);
        outlined.into_iter().try_for_each(|variable| refuse("?outline", variable))
    }

    fn question_query(&self) -> QuestionQuery {
        QuestionQuery { units: self.units.clone(), detail: self.detail.clone() }
    }
}

/// Variables by their codes, with commas between.
fn variables(name: &str, codes: Option<&str>) -> Result<Vec<Variable>, Problem> {
    let codes = codes.unwrap_or_default().split(',').filter(|code| !code.is_empty());
    let read = |code: &str| {
        Variable::from_code(code).ok_or_else(|| {
            Problem::parameter(name, format!("\"{code}\" is no setting; such as voltage"))
        })
    };
    codes.map(read).collect()
}

/// The process of the setup, or of the procedure that it names, where that is one.
fn process_meant(question: &Question) -> Option<Process> {
    let named = || {
        let named = question.setup.procedure.as_ref()?;
        let revisions = question.rulebook.book.procedures.revisions(&named.number);
        let mut processes = revisions.iter().map(|revision| revision.process);
        let first = processes.next()?;
        processes.all(|other| other == first).then_some(first)
    };
    question.setup.process.or_else(named)
}

/// Puts what is asked beyond the setup into a question to the windows; instruments are those of the station.
pub(crate) fn put_ask(
    ask: &AskIn,
    into: &mut window::Question,
    question: &Question,
    at: Place<'_>,
    errors: &mut Errors,
) {
    let book = &question.rulebook.book;
    let station = question.setup.station.as_ref().and_then(|code| book.stations.get(code));
    let accuracy = |guard: &GuardIn, at: Place<'_>, errors: &mut Errors| {
        guard.of_station(station.map(AsRef::as_ref), question.day, at, errors)
    };
    ask.put(into, at, &accuracy, errors);
    ask.refuse_unread(process_meant(question), at, errors);
}

/// Ask what may be set
///
/// Says what may be set, for every procedure that covers the job: for each variable the intersection of
/// all limits and who binds each end, and with every limit at once, heat input and the current that
/// follows the feed among them, what is left of each setting, a starting point, the fastest and the
/// coolest settings, the least change of what is stated, or the limits that cannot hold together.
#[utoipa::path(
    post, path = "/v1/windows", tag = "windows",
    request_body(content = WindowsIn, example = json!({
        "process": "136",
        "job": {
            "code": { "name": "AWS D1.1", "edition": "2020" }, "joint": "fillet", "position": "2F",
            "base_metals": [
                { "group": "1.2", "thickness": "3/8 in" }, { "group": "1.2", "thickness": "1/2 in" }
            ],
            "run_class": "single", "leg": "3/16 in"
        },
        "filler": {
            "consumable": "FW-71", "diameter": "0.045 in", "gas": "M21-ArC-25", "polarity": "DCEP"
        },
        "settings": { "waveform": "not-controlled", "bead": "stringer" },
        "day": "2026-12-01",
        "ask": {
            "deposition_rate": { "min": "5 lb/h" },
            "cooling": {
                "metal": "low-alloy-ferritic", "cooling_time": { "min": "3 s" },
                "lowest_temperature": "70 °F", "highest_temperature": "300 °F", "thickness": "1/2 in",
                "shape": "single-run-fillet-on-tee-joint"
            },
            "guards": [{ "variable": "voltage", "accuracy": { "absolute": "0.2 V" } }],
            "hand_spread": { "travel_speed": "4 %", "stick_out": "5 %" }
        }
    })),
    params(
        WindowsQuery,
        ("Rulebook-Version" = Option<i64>, Header,
            description = "Version a write gave; the answer waits up to a second for it"),
    ),
    responses((status = 200, description = "The windows", body = WindowsAnswer), AskProblems),
)]
pub(super) async fn open_windows(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    wanted: WantedRulebook,
    Query(query): Query<WindowsQuery>,
    text: JsonText,
) -> Result<Json<WindowsAnswer>, Problem> {
    let mut asked = query.question()?;
    let rulebook = Question::rulebook(&state, &permitted.caller, wanted).await?;
    let WindowsIn { setup, ask } = text.read()?;
    let question = Question::of(&permitted.caller, rulebook, setup)?;
    let told = query.question_query();
    let (units, detail) = (told.units(&question.rulebook)?, told.detail(&permitted.caller)?);
    asked.units = units.unwrap_or(asked.units);
    if let Some(ask) = ask {
        let mut errors = Errors::default();
        put_ask(&ask, &mut asked, &question, Place::Member(&Place::Root, "ask"), &mut errors);
        errors.finish()?;
    }
    WindowsQuery::refuse_unset(&asked, &question)?;
    let (rulebook, too_old) = question.rulebook_now(&state.rulebooks);
    aside(move || {
        let (book, setup, day) = (&question.rulebook.book, &question.setup, question.day);
        let found = offers(book, setup, day, &asked);
        let offers = found.iter().map(|offer| OfferOut::new(offer, units, detail)).collect();
        let nothing_offered = found.is_empty().then(|| nothing_offered(book, setup, day).into());
        Json(WindowsAnswer { offers, nothing_offered, caution: CAUTION, rulebook, stale: too_old })
    })
    .await
}
