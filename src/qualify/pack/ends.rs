//! Ends of a range in a table, as codes print them: `3`, `2 t`, `max(0.5 t, 3)`.

use crate::trade::coded;

coded! {
    /// A recorded size that a table counts by.
    pub enum Symbol: "symbol" {
        /// Thickness of the test piece.
        ParentThickness = "t",
        /// Thickness that the process deposited.
        DepositThickness = "s",
        /// Throat of the fillet.
        Throat = "a",
        /// Outside diameter.
        OutsideDiameter = "D",
        /// Angle between the parts.
        JointAngle = "angle",
        /// Leg of the fillet.
        Leg = "z",
    }
}

/// A number, or a factor of a recorded size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::qualify) struct Term {
    pub factor: f64,
    pub symbol: Option<Symbol>,
}

/// An end of a range; the strictest or widest of several terms.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::qualify) enum End {
    One(Term),
    Largest(Vec<Term>),
    Smallest(Vec<Term>),
}

impl End {
    /// Reads an end.
    ///
    /// # Errors
    /// What was expected.
    pub fn parse(text: &str) -> Result<Self, String> {
        let listed = |rest: &str| -> Result<Vec<Term>, String> {
            let inner = rest.strip_suffix(')').ok_or("a closing bracket is missing")?;
            inner.split(',').map(term).collect()
        };
        let text = text.trim();
        if let Some(rest) = text.strip_prefix("max(") {
            return Ok(Self::Largest(listed(rest)?));
        }
        if let Some(rest) = text.strip_prefix("min(") {
            return Ok(Self::Smallest(listed(rest)?));
        }
        term(text).map(Self::One)
    }

    /// The value, each symbol looked up by the caller.
    pub fn value<E>(&self, look_up: impl Fn(Symbol) -> Result<f64, E>) -> Result<f64, E> {
        let one = |term: &Term| match term.symbol {
            Some(symbol) => look_up(symbol).map(|size| size * term.factor),
            None => Ok(term.factor),
        };
        let (terms, choose): (_, fn(f64, f64) -> f64) = match self {
            Self::One(term) => return one(term),
            Self::Largest(terms) => (terms, f64::max),
            Self::Smallest(terms) => (terms, f64::min),
        };
        let values = terms.iter().map(one).collect::<Result<Vec<_>, _>>()?;
        Ok(values.into_iter().reduce(choose).unwrap_or_default())
    }
}

fn term(text: &str) -> Result<Term, String> {
    use crate::trade::Coded;
    let text = text.trim();
    let split = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(text.len());
    let (number, symbol) = (&text[..split], text[split..].trim());
    let symbol = match symbol {
        "" => None,
        known => Some(
            Symbol::from_code(known)
                .ok_or_else(|| format!("\"{known}\" is none of t, s, a, z, D, angle"))?,
        ),
    };
    let factor = match (number, symbol) {
        ("", Some(_)) => 1.0,
        (number, _) => number
            .parse::<f64>()
            .map_err(|_| format!("\"{text}\" is no end; write 3, 2 t or max(0.5 t, 3)"))?,
    };
    Ok(Term { factor, symbol })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn value(text: &str, t: f64) -> f64 {
        End::parse(text).unwrap().value(|_| Ok::<_, ()>(t)).unwrap()
    }

    #[test]
    fn ends_are_read_as_printed() {
        for (text, expected) in [
            ("3", 3.0),
            ("2 t", 16.0),
            ("0.5t", 4.0),
            ("t", 8.0),
            ("max(0.5 t, 3)", 4.0),
            ("min(0.5 t, 3)", 3.0),
        ] {
            assert!((value(text, 8.0) - expected).abs() < 1e-12, "{text}");
        }
    }

    #[test]
    fn what_is_no_end_is_refused() {
        for text in ["", "2 q", "max(2 t", "t + 3", "-3"] {
            assert!(End::parse(text).is_err(), "{text}");
        }
    }
}
