//! Stainless alloys: by number (`308L`, `16-8-2`) as AWS and the B systems of ISO write them, and
//! by nominal chromium, nickel and molybdenum (`19 12 3 L`) as the A systems do.

use super::cursor::Cursor;
use super::facts::Facts;
use super::{AlloyFamily, DesignationError};

/// Letters behind an alloy number: carbon, silicon, low residuals, further elements; K for use at
/// very low temperatures.
const NUMBER_LETTERS: &[(&str, ())] = &[
    ("LR", ()),
    ("L", ()),
    ("H", ()),
    ("Si", ()),
    ("Mo", ()),
    ("Mn", ()),
    ("Nb", ()),
    ("Cb", ()),
    ("Ni", ()),
    ("N", ()),
    ("Cu", ()),
    ("Ti", ()),
    ("W", ()),
    ("K", ()),
];

/// Letters behind nominal contents.
const NOMINAL_LETTERS: &[(&str, ())] = &[
    ("L", ()),
    ("H", ()),
    ("Si", ()),
    ("Nb", ()),
    ("N", ()),
    ("Mn", ()),
    ("Mo", ()),
    ("Cu", ()),
    ("Ti", ()),
];

/// Reads an alloy number with its letters into the facts: three or four digits, or numbers joined
/// by hyphens.
pub(super) fn number(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<(), DesignationError> {
    cursor.skip_blanks();
    let start = *cursor;
    let mut joined = false;
    let digits = take_digits(cursor);
    while digits == 2 && hyphen_and_digit(cursor) {
        cursor.take("-");
        joined |= take_digits(cursor) > 0;
    }
    if !(joined || matches!(digits, 3 | 4)) {
        return Err(start.wrong("a stainless alloy number as 308, 2209 or 16-8-2"));
    }
    while cursor.symbol(NUMBER_LETTERS).is_some() {}
    state(facts, cursor.since(&start));
    Ok(())
}

fn take_digits(cursor: &mut Cursor<'_>) -> usize {
    let before = cursor.rest().len();
    cursor.skip_while(|c| c.is_ascii_digit());
    before - cursor.rest().len()
}

fn hyphen_and_digit(cursor: &Cursor<'_>) -> bool {
    let mut ahead = *cursor;
    ahead.take("-") && ahead.rest().starts_with(|c: char| c.is_ascii_digit())
}

/// Whether nominal contents stand here: two digits from 10 to 34, as no strength symbol does.
pub(super) fn nominal_follows(cursor: &Cursor<'_>) -> bool {
    let mut ahead = *cursor;
    ahead.skip_blanks();
    let rest = ahead.rest();
    let number = rest.get(..2).and_then(|two| two.parse::<u8>().ok());
    take_digits(&mut ahead) == 2 && number.is_some_and(|number| (10..35).contains(&number))
}

/// Reads one to three nominal contents and their letters into the facts; `Z` in front marks an
/// agreed composition.
pub(super) fn nominal(cursor: &mut Cursor<'_>, facts: &mut Facts) -> Result<(), DesignationError> {
    cursor.skip_blanks();
    let start = *cursor;
    cursor.take("Z");
    if !nominal_follows(cursor) {
        cursor.skip_blanks();
        return Err(cursor.wrong("nominal chromium, nickel and molybdenum as 19 12 3"));
    }
    let mut end = *cursor;
    for _ in 0..3 {
        cursor.skip_blanks();
        if !(1..=2).contains(&take_digits(cursor)) {
            *cursor = end;
            break;
        }
        end = *cursor;
    }
    loop {
        cursor.skip_blanks();
        if cursor.symbol(NOMINAL_LETTERS).is_none() {
            break;
        }
    }
    state(facts, cursor.since(&start));
    Ok(())
}

fn state(facts: &mut Facts, composition: &str) {
    facts.composition = Some(composition.to_owned());
    facts.family = Some(AlloyFamily::Stainless);
}
