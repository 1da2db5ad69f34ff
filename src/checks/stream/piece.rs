//! Some lines of a stream, judged together.

use std::sync::Arc;

use super::{LONGEST_LINE, StreamLine, StreamSummary, line::StreamLineIn, pieces::Piece};
use crate::{
    access::Caller,
    check::Verdict,
    checks::{
        answer_out::CheckAnswer,
        answering::answer,
        caution_out::Said,
        question::{Question, QuestionQuery},
    },
    http::{
        AppState,
        problem::{NO_KEY, Problem, ProblemBody, TOO_LARGE},
    },
    rulebook::Rulebook,
    trade::Coded,
    wire::{Node, read_node, read_plain, read_text, write_json},
};

/// Bytes that hold most answers after the first, which do not say again what it said.
const LATER: usize = 2048;

/// What a stream is judged with.
pub(super) struct Judging {
    pub(super) state: AppState,
    pub(super) caller: Caller,
    pub(super) query: QuestionQuery,
}

/// Lines answered.
pub(super) struct Judged {
    pub(super) answers: Vec<u8>,
    pub(super) counted: StreamSummary,
    /// Whether the stream goes on; it ends where its key stopped working.
    pub(super) goes_on: bool,
}

/// Where the setup of a line stands.
const SETUP: &str = "/setup";

/// Adds a line.
pub(super) fn write(answers: &mut Vec<u8>, line: &StreamLine) {
    // Into memory; of what a line holds, all can be written.
    let written = write_json(line, answers);
    debug_assert!(written.is_ok(), "{written:?}");
    answers.push(b'\n');
}

/// A stream can outlive its key.
fn no_longer() -> Problem {
    Problem::new(&NO_KEY, "The key was revoked or has expired; the stream ends here.")
}

/// The caller's id of a line, and what became of its setup so far.
type Line<T> = (Option<String>, Result<T, Problem>);

impl Judging {
    /// Answers each line of a piece. One step is taken with all lines before the next: the code of a step, as
    /// much as a processor keeps at hand, is then fetched once for all of them.
    pub(super) fn judge(&self, piece: &Piece) -> Judged {
        let rulebook = self.state.rulebooks.still_for(&self.caller.holder);
        let goes_on = rulebook.is_some();
        let read: Vec<_> = match rulebook {
            Some(rulebook) => piece
                .lines()
                .map(|(number, text)| (number, self.read(text, Arc::clone(&rulebook))))
                .collect(),
            None => piece
                .lines()
                .take(1)
                .map(|(number, _)| (number, (None, Err(no_longer()))))
                .collect(),
        };
        let lines = read.len();
        let mut judged = Judged { answers: Vec::new(), counted: StreamSummary::default(), goes_on };
        let mut said = Said::default();
        for (number, (id, question)) in read {
            let answered = question.and_then(|question| {
                let said = Some(&mut said);
                answer(&self.state.rulebooks, &self.caller, &self.query, &question, said)
                    .map_err(|problem| problem.under(SETUP))
            });
            if let (true, Ok(first)) = (judged.answers.is_empty(), &answered) {
                judged.answers.reserve(first.room() + lines * LATER);
            }
            judged.counted.lines += 1;
            judged.put(number, (id, answered));
        }
        judged
    }

    fn read(&self, text: &[u8], rulebook: Arc<Rulebook>) -> Line<Question> {
        if text.len() > LONGEST_LINE {
            let detail = format!("A line has at most {LONGEST_LINE} bytes; the stream ends here.");
            return (None, Err(Problem::new(&TOO_LARGE, detail)));
        }
        if let Some(line) = read_plain::<StreamLineIn>(text) {
            return self.question(line, rulebook);
        }
        let node = match read_text(text) {
            Ok(node) => node,
            Err(unread) => return (None, Err(unread.problem("The line"))),
        };
        match read_node::<StreamLineIn>(&node) {
            Ok(line) => self.question(line, rulebook),
            // The answer repeats the id where it is one, whatever else is wrong.
            Err(problem) => {
                (node.get("id").and_then(Node::as_str).map(ToOwned::to_owned), Err(problem))
            }
        }
    }

    fn question(&self, line: StreamLineIn, rulebook: Arc<Rulebook>) -> Line<Question> {
        let question = Question::refuse_to_keep(&line.setup)
            .and_then(|()| Question::of_check(&self.caller, rulebook, line.setup));
        (line.id.map(|id| id.0), question.map_err(|problem| problem.under(SETUP)))
    }
}

impl Judged {
    fn put(&mut self, number: u64, (id, answered): Line<CheckAnswer>) {
        let (answer, problem) = match answered {
            Ok(answer) => {
                self.count(answer.verdict);
                (Some(answer), None)
            }
            Err(problem) => {
                self.counted.refused += 1;
                (None, Some(ProblemBody::from(problem)))
            }
        };
        let line = Some(number);
        write(&mut self.answers, &StreamLine { line, id, answer, problem, summary: None });
    }

    fn count(&mut self, verdict: &str) {
        let counted = &mut self.counted;
        match Verdict::from_code(verdict) {
            Some(Verdict::Allowed) => counted.allowed += 1,
            Some(Verdict::AllowedWithAdvice) => counted.allowed_with_advice += 1,
            Some(Verdict::Undetermined) => counted.undetermined += 1,
            Some(Verdict::NotAllowed) => counted.not_allowed += 1,
            None => counted.refused += 1,
        }
    }
}
