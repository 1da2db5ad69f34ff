//! Where a reader of a written pack stands, so that a slip is named by rule and field. Packs of procedures and of
//! welders are read with it alike.

use super::{End, PackError};
use crate::trade::Coded;

pub(in crate::qualify) type Read<T> = Result<T, PackError>;

/// A field of a rule, or of the pack itself.
#[derive(Clone, Copy)]
pub(in crate::qualify) struct At<'a> {
    pub rule: Option<&'a str>,
    pub field: &'a str,
}

impl<'a> At<'a> {
    pub fn wrong(self, problem: impl Into<String>) -> PackError {
        PackError {
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
