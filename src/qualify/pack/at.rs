//! Where a reader of a written pack stands, so that a slip is named by rule and field. Packs of procedures and of
//! welders are read with it alike.

use super::{End, PackError, text::is_id};
use crate::trade::Coded;

pub(in crate::qualify) type Read<T> = Result<T, PackError>;

impl PackError {
    /// The same with the line of the text that it is about: that of the field, else that of the rule.
    pub(super) fn with_line(self, text: &str) -> Self {
        if self.line.is_some() {
            return self;
        }
        // A pack writes `when.for` inside `when`, and the head before the first rule.
        let field = self.field.split('.').next().unwrap_or_default();
        let is_field = |line: &str| {
            let rest = line.trim_start().strip_prefix(field);
            rest.is_some_and(|rest| rest.trim_start().starts_with(['=', '.']))
        };
        let lines = || text.lines().zip(1..);
        let line = match &self.rule {
            None => lines()
                .take_while(|(line, _)| line.trim() != "[[rule]]")
                .find(|(line, _)| is_field(line)),
            Some(id) => {
                let found = lines().filter(|(line, _)| is_id(line, id)).map(|(_, at)| at);
                // Of an id that is there twice the second one is wrong.
                let at = if self.field == "id" { found.last() } else { found.min() };
                let block = |at: usize| {
                    let rest = lines().skip(at).take_while(|(line, _)| line.trim() != "[[rule]]");
                    rest.into_iter().find(|(line, _)| is_field(line))
                };
                at.and_then(block).or_else(|| at.map(|at| ("", at)))
            }
        };
        Self { line: line.map(|(_, at)| at), ..self }
    }
}

/// A field of a rule, or of the pack itself.
#[derive(Clone, Copy)]
pub(in crate::qualify) struct At<'a> {
    pub rule: Option<&'a str>,
    pub field: &'a str,
}

impl<'a> At<'a> {
    pub fn wrong(self, problem: impl Into<String>) -> PackError {
        PackError {
            line: None,
            rule: self.rule.map(str::to_owned),
            field: self.field.to_owned(),
            problem: problem.into(),
        }
    }

    pub const fn field(self, field: &'a str) -> Self {
        Self { rule: self.rule, field }
    }

    pub fn code<T: Coded>(self, code: &str) -> Read<T> {
        T::from_code(code).ok_or_else(|| {
            let known: Vec<_> = T::ALL.iter().map(|(_, code)| *code).collect();
            self.wrong(format!("\"{code}\" is no {}; known are {}", T::NAME, known.join(", ")))
        })
    }

    pub fn codes<T: Coded>(self, codes: &[String]) -> Read<Vec<T>> {
        codes.iter().map(|code| self.code(code)).collect()
    }

    pub fn optional<T: Coded>(self, code: Option<&String>) -> Read<Option<T>> {
        code.map(|code| self.code(code)).transpose()
    }

    /// An end of a row's band with whether it belongs to it.
    pub fn bound(self, open: Option<f64>, closed: Option<f64>) -> Read<Option<(f64, bool)>> {
        match (open, closed) {
            (Some(_), Some(_)) => Err(self.wrong("an end is either open or closed")),
            (Some(number), None) => Ok(Some((number, false))),
            (None, Some(number)) => Ok(Some((number, true))),
            (None, None) => Ok(None),
        }
    }

    /// An end of what a row qualifies, as a formula.
    pub fn end(self, text: Option<&String>) -> Read<Option<End>> {
        text.map(|text| End::parse(text).map_err(|problem| self.wrong(problem))).transpose()
    }
}
