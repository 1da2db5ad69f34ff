//! `POST /v1/checks/stream`
//!
//! A stream is cut into pieces of whole lines as they arrive (`pieces`). Pieces are judged side by side, a few at
//! a time (`piece`), and their answers leave in the order of the lines.

mod line;
mod piece;
mod pieces;

use std::sync::Arc;

use axum::{body::Bytes, extract::State, response::Response};
use futures_util::{StreamExt, stream, stream::BoxStream};
use serde::Serialize;
use tokio::task::JoinError;
use utoipa::ToSchema;

use self::{
    line::StreamLineIn,
    piece::{Judged, Judging},
    pieces::Pieces,
};
use super::{answer_out::CheckAnswer, question::QuestionQuery};
use crate::{
    access::{AnyRole, Permitted},
    http::{
        AppState, NdjsonBody, Query, ndjson_answer,
        problem::{Problem, ProblemBody},
        responses::StreamProblems,
    },
};

/// Longest line.
const LONGEST_LINE: usize = 256 * 1024;

/// Pieces judged side by side, or judged and waiting for a slow reader.
const AT_ONCE: usize = 8;

/// One line of the answer.
#[derive(Debug, Serialize, ToSchema)]
pub struct StreamLine {
    /// Number of the line it answers, counted from 1 with blank lines, which are not answered; left out in the summary.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<u64>,
    /// The caller's own id of the line, as it was sent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub id: Option<String>,
    /// The answer.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub answer: Option<CheckAnswer>,
    /// Why the line has no answer.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub problem: Option<ProblemBody>,
    /// The last line: how many lines got which verdict.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub summary: Option<StreamSummary>,
}

/// How many lines got which verdict.
#[derive(Debug, Default, Clone, Serialize, ToSchema)]
pub struct StreamSummary {
    /// Lines read.
    pub lines: u64,
    /// Allowed.
    pub allowed: u64,
    /// Allowed, with advice not met.
    pub allowed_with_advice: u64,
    /// Not decided, for something is not known.
    pub undetermined: u64,
    /// Not allowed.
    pub not_allowed: u64,
    /// Without an answer, for the line could not be read.
    pub refused: u64,
}

/// Check a stream of setups
///
/// Checks a stream of setups.
///
/// One JSON object a line: `{"id": "…", "setup": {…}}`, the id a text of your own or left out. Each line is answered
/// by one line with its number and id; a bad line is one bad answer, whose places are those of the line, such as
/// `/setup/settings/current`. A summary closes the stream. Lines are checked as they arrive and nothing is kept: a setup
/// that asks for it with `"keep": true` is a bad line. What a caution says stands in the first answer of a few that have
/// it, and in those after it its code alone: what was said last under that code applies.
#[utoipa::path(
    post, path = "/v1/checks/stream", tag = "checks",
    request_body(content = StreamLineIn, content_type = "application/x-ndjson"),
    params(QuestionQuery),
    responses(
        (status = 200, description = "One line an answer, then a summary", body = StreamLine,
            content_type = "application/x-ndjson"),
        StreamProblems,
    ),
)]
pub(super) async fn check_stream(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    Query(query): Query<QuestionQuery>,
    NdjsonBody(body): NdjsonBody,
) -> Result<Response, Problem> {
    query.units(&permitted.caller.rulebook)?;
    query.detail(&permitted.caller)?;
    let query = QuestionQuery {
        detail: Some(query.detail.unwrap_or_else(|| "summary".to_owned())),
        ..query
    };
    let judging = Arc::new(Judging { state, caller: permitted.caller, query });
    let pieces = stream::unfold(Pieces::of(body), Pieces::next);
    let judged = pieces
        .map(move |piece| {
            let judging = Arc::clone(&judging);
            tokio::spawn(async move { judging.judge(&piece) })
        })
        .buffered(AT_ONCE)
        .boxed();
    let answering = Answering { judged, summary: Some(StreamSummary::default()) };
    Ok(ndjson_answer(stream::unfold(answering, Answering::next)))
}

/// Answers on their way; the summary is there until the stream has ended.
struct Answering {
    judged: BoxStream<'static, Result<Judged, JoinError>>,
    summary: Option<StreamSummary>,
}

impl Answering {
    /// The answers of the next piece; after the last one, or where the key stopped working, the end.
    async fn next(mut self) -> Option<(Result<Bytes, JoinError>, Self)> {
        let mut summary = self.summary.take()?;
        match self.judged.next().await {
            Some(Ok(Judged { answers, counted, goes_on })) => {
                summary.add(&counted);
                self.summary = goes_on.then_some(summary);
                Some((Ok(answers.into()), self))
            }
            Some(Err(broken)) => Some((Err(broken), self)),
            None => {
                let mut line = Vec::new();
                piece::write(&mut line, &StreamLine::last(summary));
                Some((Ok(line.into()), self))
            }
        }
    }
}

impl StreamLine {
    const fn last(summary: StreamSummary) -> Self {
        Self { line: None, id: None, answer: None, problem: None, summary: Some(summary) }
    }
}

impl StreamSummary {
    fn add(&mut self, other: &Self) {
        let Self { lines, allowed, allowed_with_advice, undetermined, not_allowed, refused } =
            other;
        self.lines += lines;
        self.allowed += allowed;
        self.allowed_with_advice += allowed_with_advice;
        self.undetermined += undetermined;
        self.not_allowed += not_allowed;
        self.refused += refused;
    }
}
