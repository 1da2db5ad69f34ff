//! Alloy symbols that the low-alloy standards of AWS share: `B2L`, `Ni1`, `K2`, `G`.

use super::cursor::Cursor;
use super::facts::{Facts, System};
use super::{AlloyFamily, DesignationError, WeldCondition};

/// Strength symbol of A5.5 and A5.28 and the tensile strength it stands for, in ksi or MPa.
pub(super) const STRENGTHS: &[(&str, (System, i64))] = &[
    ("70", (System::Us, 70)),
    ("80", (System::Us, 80)),
    ("90", (System::Us, 90)),
    ("100", (System::Us, 100)),
    ("110", (System::Us, 110)),
    ("120", (System::Us, 120)),
    ("49", (System::Si, 490)),
    ("55", (System::Si, 550)),
    ("62", (System::Si, 620)),
    ("69", (System::Si, 690)),
    ("76", (System::Si, 760)),
    ("83", (System::Si, 830)),
];

/// What is from memory of a strength symbol.
pub(super) fn strength_note(system: System) -> Option<&'static str> {
    (system == System::Si)
        .then_some("tensile strength in MPa, ten times the symbol, is from memory")
}

const UNKNOWN: &str = "the alloy symbol is not known here, so neither is its composition";

/// Said of chromium-molybdenum classes.
const HEAT_TREATED: &str = "that the class is tested after post-weld heat treatment is from memory";

/// Marks a chromium-molybdenum class as tested after heat treatment, from memory.
pub(super) fn heat_treated_if_creep_resisting(facts: &mut Facts) {
    if facts.family == Some(AlloyFamily::ChromiumMolybdenum) {
        facts.condition = Some(WeldCondition::HeatTreated);
        facts.notes.push(HEAT_TREATED);
    }
}

/// Reads an alloy symbol into the facts: one of the known ones, else another of the same shape
/// (letters, a number, `L` or `H`), since editions add symbols.
pub(super) fn read(
    cursor: &mut Cursor<'_>,
    known: &[&str],
    facts: &mut Facts,
) -> Result<(), DesignationError> {
    let start = *cursor;
    if !take_shape(cursor) {
        let symbols: Vec<_> = known.iter().map(|symbol| (*symbol, ())).collect();
        cursor.need(&symbols, "the alloy symbol")?;
    }
    let symbol = cursor.since(&start);
    let is_known = known.iter().any(|known| known.eq_ignore_ascii_case(symbol));
    facts.family = if is_known { family(symbol) } else { None };
    facts.composition = Some(symbol.to_owned());
    facts.notes.extend((!is_known).then_some(UNKNOWN));
    Ok(())
}

/// One or two letters, one or two digits, and `L` or `H` where no number follows, as it does in
/// `H4`. `G` and `M` stand alone or before a gas letter.
fn take_shape(cursor: &mut Cursor<'_>) -> bool {
    let rest = cursor.rest().as_bytes();
    let letters = rest.iter().take_while(|c| c.is_ascii_alphabetic()).count();
    let digits = rest.iter().skip(letters).take_while(|c| c.is_ascii_digit()).count();
    let first = rest.first().map(u8::to_ascii_uppercase);
    let last = rest.get(letters.saturating_sub(1)).map(u8::to_ascii_uppercase);
    let symbol = (1..=2).contains(&letters) && (1..=2).contains(&digits);
    if !symbol || first == Some(b'G') || last == Some(b'H') {
        return false;
    }
    for _ in 0..letters + digits {
        cursor.skip_one();
    }
    let mut ahead = *cursor;
    let carbon = ahead.take("L") || ahead.take("H");
    if carbon && !ahead.rest().starts_with(|c: char| c.is_ascii_digit()) {
        *cursor = ahead;
    }
    true
}

/// Nominal steel of a symbol, as one-page guides print them: A carbon-molybdenum, B
/// chromium-molybdenum, C and Ni nickel, D manganese-molybdenum, K, M, NM and 1 other, P pipe, W
/// weathering; CS carbon steel (AWS D1.1:2020, Annex M); G as agreed.
fn family(symbol: &str) -> Option<AlloyFamily> {
    let upper = symbol.to_ascii_uppercase();
    match upper.as_bytes() {
        [b'G', ..] => None,
        [b'C', b'S', ..] => Some(AlloyFamily::Unalloyed),
        [b'B', ..] => Some(AlloyFamily::ChromiumMolybdenum),
        _ => Some(AlloyFamily::LowAlloy),
    }
}
