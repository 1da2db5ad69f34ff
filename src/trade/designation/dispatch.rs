//! Which standard a text belongs to: by the standard in front of it, else by its shape.

use super::cursor::Cursor;
use super::facts::{Facts, Standard};
use super::{DesignationError, shape};
use super::{aws_a5_1, aws_a5_5, aws_a5_9, aws_a5_18, aws_a5_20, aws_a5_22, aws_a5_28, aws_a5_29};
use super::{aws_a5_36, iso_636_a, iso_636_b, iso_2560_a, iso_2560_b, iso_14341_a, iso_14341_b};
use super::{iso_14343_a, iso_14343_b, iso_17632_a, iso_17632_b, iso_17633_a, iso_17633_b};
use super::{iso_18276_a, iso_18276_b};

/// Reads the designation itself, from behind the prefix to the end of the text.
type Parser = fn(&mut Cursor<'_>) -> Result<Facts, DesignationError>;

const fn parser(standard: Standard) -> Parser {
    match standard {
        Standard::AwsA51 => aws_a5_1::parse,
        Standard::AwsA55 => aws_a5_5::parse,
        Standard::AwsA59 => aws_a5_9::parse,
        Standard::AwsA518 => aws_a5_18::parse,
        Standard::AwsA520 => aws_a5_20::parse,
        Standard::AwsA522 => aws_a5_22::parse,
        Standard::AwsA528 => aws_a5_28::parse,
        Standard::AwsA529 => aws_a5_29::parse,
        Standard::AwsA536 => aws_a5_36::parse,
        Standard::Iso636A => iso_636_a::parse,
        Standard::Iso636B => iso_636_b::parse,
        Standard::Iso2560A => iso_2560_a::parse,
        Standard::Iso2560B => iso_2560_b::parse,
        Standard::Iso14341A => iso_14341_a::parse,
        Standard::Iso14341B => iso_14341_b::parse,
        Standard::Iso14343A => iso_14343_a::parse,
        Standard::Iso14343B => iso_14343_b::parse,
        Standard::Iso17632A => iso_17632_a::parse,
        Standard::Iso17632B => iso_17632_b::parse,
        Standard::Iso17633A => iso_17633_a::parse,
        Standard::Iso17633B => iso_17633_b::parse,
        Standard::Iso18276A => iso_18276_a::parse,
        Standard::Iso18276B => iso_18276_b::parse,
    }
}

const SHAPES: &str = "a designation as E71T-1C, E81T1-Ni1C, ER70S-6, ER308L, E7018, E8018-C3, \
                      T 46 4 P M21 1 H5, G 42 4 M21 3Si1, W 42 5 3Si1 or E 42 4 B 3 2 H5";

const AWS: &[(&str, Standard)] = &[
    ("5.1", Standard::AwsA51),
    ("5.5", Standard::AwsA55),
    ("5.9", Standard::AwsA59),
    ("5.18", Standard::AwsA518),
    ("5.20", Standard::AwsA520),
    ("5.22", Standard::AwsA522),
    ("5.28", Standard::AwsA528),
    ("5.29", Standard::AwsA529),
    ("5.36", Standard::AwsA536),
];

const ISO: &[(&str, Standard)] = &[
    ("636-A", Standard::Iso636A),
    ("636-B", Standard::Iso636B),
    ("2560-A", Standard::Iso2560A),
    ("2560-B", Standard::Iso2560B),
    ("14341-A", Standard::Iso14341A),
    ("14341-B", Standard::Iso14341B),
    ("14343-A", Standard::Iso14343A),
    ("14343-B", Standard::Iso14343B),
    ("17632-A", Standard::Iso17632A),
    ("17632-B", Standard::Iso17632B),
    ("17633-A", Standard::Iso17633A),
    ("17633-B", Standard::Iso17633B),
    ("18276-A", Standard::Iso18276A),
    ("18276-B", Standard::Iso18276B),
];

pub(super) fn parse(text: &str) -> Result<(Standard, Facts), DesignationError> {
    let mut cursor = Cursor::new(text);
    cursor.skip_blanks();
    let standard = match prefix(&mut cursor)? {
        Some(standard) => standard,
        None => shape::standard(&cursor).ok_or_else(|| cursor.wrong(SHAPES))?,
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
    if named && shape::standard(cursor).is_some() {
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
