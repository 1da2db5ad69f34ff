//! `POST /v1/checks/stream`

use std::{convert::Infallible, time::Duration};

use axum::{
    body::{Body, Bytes},
    extract::State,
    http::header,
    response::{IntoResponse, Response},
};
use futures_util::stream;
use http_body_util::BodyExt;
use serde::Serialize;
use serde_json::Value;
use tokio::sync::mpsc;
use utoipa::ToSchema;

use super::{
    answer_out::CheckAnswer,
    create::answer,
    question::{Question, QuestionQuery},
};
use crate::{
    access::{AnyRole, Caller, Permitted},
    check::Verdict,
    http::{
        AppState, Query,
        problem::{NO_KEY, Problem, ProblemBody, TOO_LARGE, UNREADABLE},
        responses::ListProblems,
    },
    trade::Coded,
    wire::Node,
};

/// Bytes of answers that wait to be sent together.
const MOST_UNSENT: usize = 64 * 1024;

/// Media type of one JSON value a line.
const NDJSON: &str = "application/x-ndjson";

/// Longest line.
const LONGEST_LINE: usize = 256 * 1024;

/// Answers that may wait for a slow reader.
const WAITING: usize = 64;

/// Longest wait for the next part of the body.
const PATIENCE: Duration = Duration::from_secs(30);

/// One line of the answer.
#[derive(Debug, Serialize, ToSchema)]
pub struct StreamLine {
    /// Number of the line it answers, counted from 1; left out in the summary.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<u64>,
    /// The caller's own id of the line.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>)]
    pub id: Option<Value>,
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
#[derive(Debug, Default, Serialize, ToSchema)]
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
/// One JSON object a line: `{"id": …, "setup": {…}}`. Each line is answered by one line with its number and
/// id; a bad line is one bad answer. A summary closes the stream. Lines are checked as they arrive and
/// nothing is kept.
#[utoipa::path(
    post, path = "/v1/checks/stream", tag = "checks",
    request_body(content = String, content_type = "application/x-ndjson"),
    params(QuestionQuery),
    responses(
        (status = 200, description = "One line an answer, then a summary", body = StreamLine,
            content_type = "application/x-ndjson"),
        ListProblems,
    ),
)]
pub(super) async fn check_stream(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    Query(query): Query<QuestionQuery>,
    body: Body,
) -> Result<Response, Problem> {
    query.units(&permitted.caller.rulebook)?;
    query.detail(&permitted.caller)?;
    let (lines, answers) = mpsc::channel(WAITING);
    let checking = Checking {
        state,
        caller: permitted.caller,
        query: QuestionQuery {
            detail: Some(query.detail.unwrap_or_else(|| "summary".to_owned())),
            ..query
        },
        answers: lines,
        unsent: Vec::new(),
        summary: StreamSummary::default(),
    };
    tokio::spawn(checking.run(body));
    let sent = stream::unfold(answers, |mut answers| async {
        let line: Bytes = answers.recv().await?;
        Some((Ok::<_, Infallible>(line), answers))
    });
    Ok(([(header::CONTENT_TYPE, NDJSON)], Body::from_stream(sent)).into_response())
}

/// A stream can outlive its key.
fn no_longer() -> Problem {
    Problem::new(&NO_KEY, "The key was revoked or has expired; the stream ends here.")
}

/// One stream under way.
struct Checking {
    state: AppState,
    caller: Caller,
    query: QuestionQuery,
    answers: mpsc::Sender<Bytes>,
    unsent: Vec<u8>,
    summary: StreamSummary,
}

impl Checking {
    /// Reads lines as they arrive; ends when the body does, or when nobody reads the answers.
    async fn run(mut self, mut body: Body) {
        let mut rest = Vec::new();
        while let Ok(Some(Ok(frame))) = tokio::time::timeout(PATIENCE, body.frame()).await {
            let Some(data) = frame.data_ref() else { continue };
            rest.extend_from_slice(data);
            let mut from = 0;
            while let Some(length) = rest[from..].iter().position(|&byte| byte == b'\n') {
                if self.line(&rest[from..from + length]).await.is_err() {
                    return;
                }
                from += length + 1;
            }
            rest.drain(..from);
            // What came together is answered together.
            if self.flush().await.is_err() {
                return;
            }
            if rest.len() > LONGEST_LINE {
                break;
            }
        }
        if !rest.is_empty() && self.line(&rest).await.is_err() {
            return;
        }
        let summary = Some(std::mem::take(&mut self.summary));
        let last = StreamLine { line: None, id: None, answer: None, problem: None, summary };
        if self.send(last).await.is_ok() {
            let _ = self.flush().await;
        }
    }

    /// Answers one line; an error means that nobody reads any more, or that the key stopped working.
    async fn line(&mut self, text: &[u8]) -> Result<(), ()> {
        if text.iter().all(u8::is_ascii_whitespace) {
            return Ok(());
        }
        self.summary.lines += 1;
        let works = self.state.rulebooks.works(&self.caller.holder);
        let (id, answered) = if works { self.answer(text) } else { (None, Err(no_longer())) };
        let (answer, problem) = match answered {
            Ok(answer) => {
                self.count(answer.verdict);
                (Some(answer), None)
            }
            Err(problem) => {
                self.summary.refused += 1;
                (None, Some(ProblemBody::from(problem)))
            }
        };
        let line = Some(self.summary.lines);
        self.send(StreamLine { line, id, answer, problem, summary: None }).await?;
        if works { Ok(()) } else { self.flush().await.and(Err(())) }
    }

    fn answer(&self, text: &[u8]) -> (Option<Value>, Result<CheckAnswer, Problem>) {
        if text.len() > LONGEST_LINE {
            let detail = format!("A line has at most {LONGEST_LINE} bytes; the stream ends here.");
            return (None, Err(Problem::new(&TOO_LARGE, detail)));
        }
        let value: Node<'_> = match serde_json::from_slice(text) {
            Ok(value) => value,
            Err(error) => {
                let detail = format!("The line is no JSON: {error}.");
                return (None, Err(Problem::new(&UNREADABLE, detail)));
            }
        };
        let id = value.get("id").map(Node::to_value);
        let Some(setup) = value.get("setup") else {
            let form = "expected {\"id\": …, \"setup\": {…}}";
            return (id, Err(Problem::field("/setup", form)));
        };
        (id, self.judged(setup))
    }

    fn judged(&self, setup: &Node<'_>) -> Result<CheckAnswer, Problem> {
        let organisation = self.caller.holder.organisation;
        let rulebook = self.state.rulebooks.of(organisation);
        let rulebook =
            rulebook.ok_or_else(|| Problem::new(&NO_KEY, "The organisation is gone."))?;
        let question = Question::resolve(&self.caller, rulebook, setup)?;
        answer(&self.state, &self.caller, &self.query, &question)
    }

    fn count(&mut self, verdict: &str) {
        let summary = &mut self.summary;
        match Verdict::from_code(verdict) {
            Some(Verdict::Allowed) => summary.allowed += 1,
            Some(Verdict::AllowedWithAdvice) => summary.allowed_with_advice += 1,
            Some(Verdict::Undetermined) => summary.undetermined += 1,
            Some(Verdict::NotAllowed) => summary.not_allowed += 1,
            None => summary.refused += 1,
        }
    }

    /// Writes one line; many wait in memory until [`MOST_UNSENT`] bytes or [`Checking::flush`].
    async fn send(&mut self, line: StreamLine) -> Result<(), ()> {
        sonic_rs::to_writer(&mut self.unsent, &line).map_err(drop)?;
        self.unsent.push(b'\n');
        if self.unsent.len() > MOST_UNSENT { self.flush().await } else { Ok(()) }
    }

    async fn flush(&mut self) -> Result<(), ()> {
        if self.unsent.is_empty() {
            return Ok(());
        }
        self.answers.send(std::mem::take(&mut self.unsent).into()).await.map_err(drop)
    }
}
