//! `POST /v1/windows`

use axum::{Json, extract::State, http::HeaderMap};

use super::answer_out::{OfferOut, WindowsAnswer};
use crate::{
    access::{AnyRole, Permitted},
    checks::{Question, QuestionQuery, SetupIn},
    http::{AppState, JsonBody, Query, problem::Problem, responses::AskProblems},
    window::offers,
};

/// What a window is not.
const CAUTION: &str = "A window is the limits of the records, one variable at a time; it does not replace \
the procedure, the governing code, local rules or a qualified person's judgement. Have the whole setup \
checked before the arc.";

/// Ask what may be set
///
/// Says what may be set, for every procedure that covers the job: for each variable the intersection of
/// all limits, and who binds each end.
#[utoipa::path(
    post, path = "/v1/windows", tag = "windows",
    request_body = SetupIn,
    params(
        QuestionQuery,
        ("Rulebook-Version" = Option<i64>, Header,
            description = "Version a write gave; the answer waits up to a second for it"),
    ),
    responses((status = 200, description = "The windows", body = WindowsAnswer), AskProblems),
)]
pub(super) async fn open_windows(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    headers: HeaderMap,
    Query(query): Query<QuestionQuery>,
    JsonBody(body): JsonBody,
) -> Result<Json<WindowsAnswer>, Problem> {
    let question = Question::read(&state, &permitted.caller, &headers, &body).await?;
    let units = query.units(&question.rulebook)?;
    let found = offers(&question.rulebook.book, &question.setup, question.day);
    let (rulebook, too_old) = question.rulebook_now(&state);
    let offers = found.iter().map(|offer| OfferOut::new(offer, units)).collect();
    Ok(Json(WindowsAnswer { offers, caution: CAUTION, rulebook, stale: too_old }))
}
