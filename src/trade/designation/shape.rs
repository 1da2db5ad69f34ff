//! The standard whose designations look like a text that names none.

use super::aws_a5_36;
use super::cursor::Cursor;
use super::facts::Standard;
use super::stainless_alloy::nominal_follows;

/// The standard a text looks like; `None` where it looks like none.
pub(super) fn standard(cursor: &Cursor<'_>) -> Option<Standard> {
    let mut ahead = *cursor;
    if ahead.take("ER") {
        return bare_wire(&ahead);
    }
    if ["EC", "EQ"].iter().any(|form| ahead.take(form)) {
        return digit_follows(&ahead).then_some(Standard::AwsA59);
    }
    if ["SS", "BS"].iter().any(|form| ahead.take(form)) {
        return digit_follows(&ahead).then_some(Standard::Iso14343B);
    }
    if ahead.take("TS") {
        return digit_follows(&ahead).then_some(Standard::Iso17633B);
    }
    if ahead.take("T") {
        return tubular(&ahead);
    }
    if ahead.take("G") {
        return wire(&ahead, Standard::Iso14341A, Standard::Iso14341B);
    }
    if ahead.take("W") {
        return wire(&ahead, Standard::Iso636A, Standard::Iso636B);
    }
    if ["P", "S", "B", "L"].iter().any(|letter| ahead.take(letter)) {
        return nominal_follows(&ahead).then_some(Standard::Iso14343A);
    }
    if ahead.take("R") {
        return (digits(&ahead) >= 3).then_some(Standard::AwsA522);
    }
    if ahead.take("E") { electrode(ahead) } else { None }
}

fn digits(cursor: &Cursor<'_>) -> usize {
    cursor.rest().chars().take_while(char::is_ascii_digit).count()
}

fn digit_follows(cursor: &Cursor<'_>) -> bool {
    let mut ahead = *cursor;
    ahead.skip_blanks();
    digits(&ahead) > 0
}

/// The digits that stand here.
fn number<'a>(cursor: &Cursor<'a>) -> &'a str {
    cursor.rest().get(..digits(cursor)).unwrap_or_default()
}

/// `ER70S-6` is A5.18, `ER80S-D2` and `ER70S-A1` A5.28, `ER308L` A5.9.
fn bare_wire(behind: &Cursor<'_>) -> Option<Standard> {
    let mut ahead = *behind;
    ahead.skip_blanks();
    let strength = number(&ahead);
    let mut behind = ahead;
    behind.skip_while(|c| c.is_ascii_digit());
    let class = ["S-", "C-"].iter().any(|form| behind.take(form));
    match strength {
        "" => None,
        "70" | "48" | "80" | "90" | "100" | "110" | "120" | "49" | "55" | "62" | "69" | "76"
        | "83" => Some(carbon_or_low_alloy(ahead)),
        _ if class => Some(carbon_or_low_alloy(ahead)),
        _ => Some(Standard::AwsA59),
    }
}

/// A5.18 for 70 and 48 with a class of digits or G, else A5.28.
fn carbon_or_low_alloy(mut ahead: Cursor<'_>) -> Standard {
    let carbon = matches!(number(&ahead), "70" | "48");
    ahead.skip_while(|c| c.is_ascii_digit());
    let class = ahead.rest().chars().nth(2);
    let alloyed = class.is_some_and(|c| c.is_ascii_alphabetic() && !c.eq_ignore_ascii_case(&'G'));
    if carbon && !alloyed { Standard::AwsA518 } else { Standard::AwsA528 }
}

/// Solid wire behind `G` or `W`: nominal contents are ISO 14343-A, a strength of the B system
/// system B, else system A.
fn wire(behind: &Cursor<'_>, system_a: Standard, system_b: Standard) -> Option<Standard> {
    let mut ahead = *behind;
    ahead.skip_blanks();
    let agreed = ahead.take("Z");
    if nominal_follows(&ahead) {
        return Some(Standard::Iso14343A);
    }
    if agreed {
        return Some(system_a);
    }
    match number(&ahead) {
        "" => None,
        "43" | "49" | "55" | "57" => Some(system_b),
        _ => Some(system_a),
    }
}

/// Tubular wire behind `T`: nominal contents are ISO 17633-A, a usability code `T5-` behind
/// strength and impact a system B, high strengths ISO 18276.
fn tubular(behind: &Cursor<'_>) -> Option<Standard> {
    let mut ahead = *behind;
    ahead.skip_blanks();
    if nominal_follows(&ahead) {
        return Some(Standard::Iso17633A);
    }
    let strength = number(&ahead);
    ahead.skip_while(|c| c.is_ascii_digit());
    ahead.skip_blanks();
    ahead.skip_while(|c| c.is_ascii_alphanumeric());
    ahead.skip_blanks();
    let usability = ahead.take("T") && digit_follows(&ahead);
    match strength {
        "" => None,
        "59" | "62" | "69" | "76" | "78" | "83" if usability => Some(Standard::Iso18276B),
        "43" | "49" | "57" => Some(Standard::Iso17632B),
        _ if usability => Some(Standard::Iso17632B),
        "55" | "62" | "69" | "79" | "89" => Some(Standard::Iso18276A),
        _ => Some(Standard::Iso17632A),
    }
}

/// What stands behind `E`: covered electrodes and tubular or composite wires.
fn electrode(mut ahead: Cursor<'_>) -> Option<Standard> {
    ahead.skip_blanks();
    let number = number(&ahead);
    let mut behind = ahead;
    behind.skip_while(|c| c.is_ascii_digit());
    match (number.len(), behind.rest().chars().next().map(|c| c.to_ascii_uppercase())) {
        (2.., Some('T')) => Some(flux_cored(number, behind)),
        (2 | 3, Some('C' | 'S')) if behind.rest().get(1..2) == Some("-") => {
            Some(carbon_or_low_alloy(ahead))
        }
        (_, Some(_)) if number.len() >= 3 && stainless_tubular(&behind) => Some(Standard::AwsA522),
        (2.., Some('C' | 'S')) => Some(Standard::AwsA518),
        (4, Some(' ' | '-')) if condition_follows(&behind) => Some(Standard::Iso2560B),
        (2, Some(' ')) => Some(match number {
            "43" | "49" | "55" | "57" => Standard::Iso2560B,
            _ => Standard::Iso2560A,
        }),
        (4.., _) => Some(covered(number, &behind)),
        _ => None,
    }
}

/// Letters of an alloy, then `T0-` or `T1-`.
fn stainless_tubular(behind: &Cursor<'_>) -> bool {
    let mut ahead = *behind;
    ahead.skip_while(|c| c.is_ascii_alphabetic());
    let letters = ahead.since(behind);
    let tail = ahead.rest().as_bytes();
    letters.to_ascii_uppercase().ends_with('T') && matches!(tail, [b'0'..=b'9', b'-', ..])
}

/// Whether a condition of ISO 2560-B is the first word behind strength, covering and alloy.
fn condition_follows(behind: &Cursor<'_>) -> bool {
    let mut words = behind.rest().split_whitespace().filter(|word| !word.starts_with('-'));
    let first = words.next().unwrap_or_default();
    ["A", "P", "AP"].iter().any(|condition| condition.eq_ignore_ascii_case(first))
}

/// A5.1 for its strengths without an alloy symbol, else A5.5.
fn covered(number: &str, behind: &Cursor<'_>) -> Standard {
    let carbon = ["60", "70", "43", "49"].iter().any(|s| number.starts_with(s));
    let mut ahead = *behind;
    let alloyed = ahead.take("-")
        && ahead.rest().starts_with(|c: char| c.is_ascii_alphabetic())
        && !ahead.rest().starts_with(['H', 'h', 'R', 'r', 'M', 'm']);
    if carbon && !alloyed { Standard::AwsA51 } else { Standard::AwsA55 }
}

/// `E` number `T`: A5.20 where no code stands between `T` and a hyphen, else by what stands behind
/// the hyphen: a gas digit A5.22, gas and condition A5.36, an alloy A5.29.
fn flux_cored(number: &str, mut ahead: Cursor<'_>) -> Standard {
    ahead.take("T");
    if !ahead.take("G") {
        ahead.skip_while(|c| c.is_ascii_digit());
    }
    if ahead.rest().starts_with('-') && !is_bare_t(&ahead) {
        ahead.take("-");
        return behind_hyphen(number, &ahead);
    }
    Standard::AwsA520
}

/// Whether the hyphen that stands here follows `T` itself.
fn is_bare_t(hyphen: &Cursor<'_>) -> bool {
    hyphen.before().is_some_and(|c| c.eq_ignore_ascii_case(&'T'))
}

fn behind_hyphen(number: &str, tail: &Cursor<'_>) -> Standard {
    let mut ahead = *tail;
    let stainless = number.len() >= 3 && !strength_and_position(number);
    if digits(tail) > 0 || ahead.take("G") && stainless && !ahead.rest().starts_with(['C', 'M']) {
        return Standard::AwsA522;
    }
    if free_combination(*tail) { Standard::AwsA536 } else { Standard::AwsA529 }
}

/// Whether a three-digit number is a strength of A5.29 and a position. 430, a stainless alloy too,
/// is not counted.
fn strength_and_position(number: &str) -> bool {
    const STRENGTHS: &[&str] = &["10", "11", "12", "43", "49", "55", "62", "69", "76", "83"];
    let (strength, position) = number.split_at_checked(2).unwrap_or_default();
    number != "430" && STRENGTHS.contains(&strength) && matches!(position, "0" | "1")
}

/// A gas group of ISO 14175, or a condition and an impact symbol before a second hyphen.
fn free_combination(mut ahead: Cursor<'_>) -> bool {
    let start = ahead;
    if aws_a5_36::gas(&mut ahead).is_some() && ahead.since(&start).len() > 1 {
        return true;
    }
    let block = ahead.symbol(aws_a5_36::CONDITIONS).is_some()
        && ahead.symbol(aws_a5_36::IMPACTS).is_some()
        && ahead.take("-");
    block
        && ahead.rest().starts_with(|c: char| c.is_ascii_alphabetic())
        && !ahead.rest().starts_with(['J', 'j', 'H', 'h'])
}
