//! `POST /v1/advice`

use axum::{Json, extract::State};

use super::answer_out::{AdviceAnswer, Ground};
use crate::{
    access::{AnyRole, Permitted},
    check::practice,
    checks::{Question, QuestionQuery, SetupIn},
    http::{
        AppState, JsonBody, Query, problem::Problem, responses::AskProblems, retry::WantedRulebook,
    },
    trade::{Symptom, symptom_advice},
    window::Governing,
    wire::{self, wire_object},
};

wire_object! {
    /// What is seen, and with which setup.
    pub struct AdviceIn {
        /// What the bead or the arc shows.
        pub symptom: Symptom,
        /// The setup as it was welded.
        pub setup: Box<SetupIn>,
    }
}

/// Explain a symptom
///
/// What a symptom may come from, in the order to check it. A remedy that changes a setting is cut to what the
/// governing procedure, station, work order and the heat input that follows still allow; where there is no
/// room, the owner of the limit is named, and where something is not known no value is given. Technique by
/// process and position stands beside it, with every source where sources differ.
#[utoipa::path(
    post, path = "/v1/advice", tag = "advice",
    request_body(content = AdviceIn, example = json!({
        "symptom": "worm-tracks",
        "setup": { "process": "136", "settings": { "voltage": "28 V" } }
    })),
    params(
        QuestionQuery,
        ("Rulebook-Version" = Option<i64>, Header,
            description = "Version a write gave; the answer waits up to a second for it"),
    ),
    responses(
        (status = 200, description = "Causes in order, with what may be done", body = AdviceAnswer),
        AskProblems,
    ),
)]
pub(super) async fn advise(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    wanted: WantedRulebook,
    Query(query): Query<QuestionQuery>,
    JsonBody(body): JsonBody,
) -> Result<Json<AdviceAnswer>, Problem> {
    let caller = &permitted.caller;
    let rulebook = Question::rulebook(&state, caller, wanted).await?;
    let AdviceIn { symptom, setup } = wire::read(&body)?;
    let question =
        Question::of(caller, rulebook, setup).map_err(|problem| problem.under("/setup"))?;
    let units = query.units(&question.rulebook)?;
    let (rulebook, too_old) = question.rulebook_now(&state.rulebooks);
    let book = &question.rulebook.book;
    let (verdict, governing) = Governing::of(book, &question.setup, question.day);
    let process = question.setup.process.or(governing.as_ref().map(|case| case.process));
    let process = process.ok_or_else(|| {
        Problem::field("/setup/process", "state the process, or a procedure that is in force")
    })?;
    let causes = symptom_advice(symptom, process).map_err(Problem::internal)?;
    let practice = governing.as_ref().map_or_else(
        || practice(book, &question.setup, question.day, process).advice().collect(),
        |case| case.practice.clone(),
    );
    let ground = Ground {
        setup: &question.setup,
        book,
        process,
        verdict,
        // Records too old to allow anything govern nothing.
        governing: governing.as_ref().filter(|_| !too_old),
        units,
    };
    AdviceAnswer::new(symptom, &causes, &practice, &ground, (rulebook, too_old)).map(Json)
}
