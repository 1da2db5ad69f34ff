//! Which standard a text belongs to: by the standard in front of it, else by its shape.

use super::cursor::Cursor;
use super::facts::{Facts, Standard};
use super::{DesignationError, aws_a5_1, aws_a5_18, aws_a5_20};
use super::{iso_2560_a, iso_14341_a, iso_17632_a};

/// Reads the designation itself, from behind the prefix to the end of the text.
type Parser = fn(&mut Cursor<'_>) -> Result<Facts, DesignationError>;

const fn parser(standard: Standard) -> Parser {
    match standard {
        Standard::AwsA51 => aws_a5_1::parse,
        Standard::AwsA518 => aws_a5_18::parse,
        Standard::AwsA520 => aws_a5_20::parse,
        Standard::Iso2560A => iso_2560_a::parse,
        Standard::Iso14341A => iso_14341_a::parse,
        Standard::Iso17632A => iso_17632_a::parse,
    }
}

const SHAPES: &str = "a designation as E71T-1C, ER70S-6, E7018, T 46 4 P M21 1 H5, \
                      G 42 4 M21 3Si1 or E 42 4 B 3 2 H5";

const AWS: &[(&str, Standard)] =
    &[("5.1", Standard::AwsA51), ("5.18", Standard::AwsA518), ("5.20", Standard::AwsA520)];

const ISO: &[(&str, Standard)] = &[
    ("2560-A", Standard::Iso2560A),
    ("14341-A", Standard::Iso14341A),
    ("17632-A", Standard::Iso17632A),
];

pub(super) fn parse(text: &str) -> Result<(Standard, Facts), DesignationError> {
    let mut cursor = Cursor::new(text);
    cursor.skip_blanks();
    let standard = match prefix(&mut cursor)? {
        Some(standard) => standard,
        None => by_shape(&cursor).ok_or_else(|| cursor.wrong(SHAPES))?,
    };
    Ok((standard, parser(standard)(&mut cursor)?))
}

/// `AWS A5.20/A5.20M:2005 -`, `SFA-5.20`, `EN ISO 17632-A -`.
fn prefix(cursor: &mut Cursor<'_>) -> Result<Option<Standard>, DesignationError> {
    let mut named = false;
    for word in ["AWS", "ASME", "SFA"] {
        named |= cursor.take(word);
        cursor.skip_blanks();
    }
    if named {
        cursor.take("-");
        cursor.skip_blanks();
    }
    if named && by_shape(cursor).is_some() {
        return Ok(None);
    }
    if cursor.take("A") || named {
        return numbered(cursor, AWS).map(Some);
    }
    let european = cursor.take("EN ");
    cursor.skip_blanks();
    if cursor.take("ISO") || european {
        cursor.skip_blanks();
        return numbered(cursor, ISO).map(Some);
    }
    Ok(None)
}

/// The number of a standard, its twin in other units, its year, and the marks behind them.
fn numbered(
    cursor: &mut Cursor<'_>,
    standards: &[(&str, Standard)],
) -> Result<Standard, DesignationError> {
    let start = *cursor;
    let standard = cursor.need(standards, "the number of a standard")?;
    if cursor.rest().starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        *cursor = start;
        let known: Vec<_> = standards.iter().map(|(number, _)| *number).collect();
        return Err(cursor.wrong(format!("the number of a standard ({})", known.join(", "))));
    }
    cursor.take("M");
    if cursor.take("/") {
        cursor.take("A");
        cursor.skip_while(|c| c.is_ascii_digit() || c == '.');
        cursor.take("M");
    }
    if cursor.take(":") {
        cursor.skip_while(|c| c.is_ascii_digit());
    }
    cursor.skip_while(|c| c.is_whitespace() || matches!(c, ':' | '-'));
    Ok(standard)
}

/// The standard whose designations look like this; `None` where none does.
fn by_shape(cursor: &Cursor<'_>) -> Option<Standard> {
    let mut ahead = *cursor;
    let solid_wire = ahead.take("ER");
    if solid_wire {
        return Some(Standard::AwsA518);
    }
    let [tubular, wire] = ["T", "G"].map(|letter| ahead.take(letter));
    if tubular || wire {
        ahead.skip_blanks();
        let follows = |c: char| c.is_ascii_digit() || wire && c.eq_ignore_ascii_case(&'Z');
        let standard = if tubular { Standard::Iso17632A } else { Standard::Iso14341A };
        return ahead.rest().starts_with(follows).then_some(standard);
    }
    if !ahead.take("E") {
        return None;
    }
    ahead.skip_blanks();
    let digits = ahead.rest().chars().take_while(char::is_ascii_digit).count();
    let behind = ahead.rest().chars().nth(digits).map(|c| c.to_ascii_uppercase());
    match (digits, behind) {
        (2.., Some('T')) => Some(Standard::AwsA520),
        (2.., Some('C' | 'S')) => Some(Standard::AwsA518),
        (2, Some(' ')) => Some(Standard::Iso2560A),
        (4.., _) => Some(Standard::AwsA51),
        _ => None,
    }
}
