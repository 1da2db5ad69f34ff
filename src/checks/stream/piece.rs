//! Some lines of a stream, judged together.

use serde_json::Value;

use super::{LONGEST_LINE, StreamLine, StreamSummary, pieces::Piece};
use crate::{
    access::Caller,
    check::Verdict,
    checks::{
        answer_out::CheckAnswer,
        answering::answer,
        question::{Question, QuestionQuery},
        setup_in::SetupIn,
    },
    http::{
        AppState,
        problem::{NO_KEY, Problem, ProblemBody, TOO_LARGE, UNREADABLE},
    },
    trade::Coded,
    wire::{FromWire, Node, PlainName, PlainText, read_node, read_text, write_json},
};

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
type Line<T> = (Option<Value>, Result<T, Problem>);

impl Judging {
    /// Answers each line of a piece. One step is taken with all lines before the next: the code of a step, as
    /// much as a processor keeps at hand, is then fetched once for all of them.
    pub(super) fn judge(&self, piece: &Piece) -> Judged {
        let mut goes_on = true;
        let mut read = Vec::new();
        for text in piece.lines() {
            goes_on = self.state.rulebooks.works(&self.caller.holder);
            read.push(if goes_on { self.read(text) } else { (None, Err(no_longer())) });
            if !goes_on {
                break;
            }
        }
        let answer = |question| answer(&self.state.rulebooks, &self.caller, &self.query, &question);
        let answered: Vec<Line<CheckAnswer>> =
            read.into_iter().map(|(id, question)| (id, question.and_then(answer))).collect();
        let of_one =
            |(_, answered): &Line<CheckAnswer>| answered.as_ref().map_or(0, CheckAnswer::room);
        let answers = Vec::with_capacity(answered.iter().map(of_one).sum());
        let mut judged = Judged { answers, counted: StreamSummary::default(), goes_on };
        for (id, answered) in answered {
            judged.counted.lines += 1;
            judged.put(piece.before, id, answered);
        }
        judged
    }

    fn read(&self, text: &[u8]) -> Line<Question> {
        if text.len() > LONGEST_LINE {
            let detail = format!("A line has at most {LONGEST_LINE} bytes; the stream ends here.");
            return (None, Err(Problem::new(&TOO_LARGE, detail)));
        }
        let plain = str::from_utf8(text).ok().and_then(|text| PlainText::whole(text, plain_line));
        if let Some((id, setup)) = plain {
            return (id, self.question(Ok(setup)));
        }
        let value = match read_text(text) {
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
        (id, self.question(read_node(setup)))
    }

    fn question(&self, setup: Result<Box<SetupIn>, Problem>) -> Result<Question, Problem> {
        let organisation = self.caller.holder.organisation;
        let rulebook = self.state.rulebooks.of(organisation);
        let rulebook =
            rulebook.ok_or_else(|| Problem::new(&NO_KEY, "The organisation is gone."))?;
        Question::of(&self.caller, rulebook, setup?)
    }
}

/// A line as most come: an id, a sound setup and nothing else.
fn plain_line(text: &mut PlainText<'_>) -> Option<(Option<Value>, Box<SetupIn>)> {
    const ID: PlainName = PlainName::new("\"id\"");
    const SETUP: PlainName = PlainName::new("\"setup\"");
    let (mut id, mut setup) = (None, None);
    let mut more = text.enter_object()?;
    while more {
        let start = text.start();
        if id.is_none() && text.is_at(start, ID) {
            text.go_to_value("id")?;
            id = Some(text.value()?.to_value());
        } else if setup.is_none() && text.is_at(start, SETUP) {
            text.go_to_value("setup")?;
            setup = Some(Box::from_plain(text)?);
        } else {
            return None;
        }
        more = text.more_members()?;
    }
    Some((id, setup?))
}

impl Judged {
    fn put(&mut self, before: u64, id: Option<Value>, answered: Result<CheckAnswer, Problem>) {
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
        let line = Some(before + self.counted.lines);
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

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    /// Its id, or none, where it is read at once.
    fn ids_of(line: &str) -> Option<Vec<Value>> {
        PlainText::whole(line, plain_line).map(|(id, _)| id.into_iter().collect())
    }

    #[test]
    fn a_line_of_an_id_and_a_sound_setup_is_read_at_once_and_keeps_its_id() {
        for (line, id) in [
            (r#"{"id":1,"setup":{"process":"136"}}"#, Some(json!(1))),
            (
                r#"{"setup": {"keep": false}, "id": {"shift": ["early", 2.50]}} "#,
                Some(json!({"shift": ["early", 2.5]})),
            ),
            (r#"{"id":null,"setup":{}}"#, Some(Value::Null)),
            (r#"{"setup":{"process":"136"}}"#, None),
        ] {
            assert_eq!(ids_of(line), Some(id.into_iter().collect()), "{line}");
        }
    }

    #[test]
    fn every_other_line_is_left_to_the_longer_way() {
        for line in [
            r#"{"id":1}"#,
            r#"{"id":1,"setup":{"amps":"3 A"}}"#,
            r#"{"id":1,"setup":{"process":"none"}}"#,
            r#"{"id":1,"id":2,"setup":{}}"#,
            r#"{"id":1,"setup":{},"setup":{}}"#,
            r#"{"id":1,"setup":{},"shift":"early"}"#,
            r#"{"id":"\u0031","setup":{}}"#,
            r#"{"id":1,"setup":{}} {}"#,
            r#"[{"id":1,"setup":{}}]"#,
        ] {
            assert_eq!(ids_of(line), None, "{line}");
        }
    }
}
