//! What to change when a number does not meet its limit, and what happens otherwise.

use crate::{
    quantity::{Kind, Quantity, Range, rounded_down},
    trade::{Coded, ErrorModel},
};

use super::{Accuracy, Given, GuardFactor, Place, Variable, range_check::Words};

/// What a value inside its limit still lacks: an instrument somebody knows.
pub fn accuracy_remedy<K: Kind>(given: &Given<K>, variable: Variable) -> Option<String> {
    given.accuracy_unknown().then(|| {
        let in_words = in_words(variable);
        let computed = matches!(variable, Variable::ArcEnergy | Variable::HeatInput);
        if let Some(lack) = given.lack {
            let what = lack.remedy();
            format!("The instrument named for the {in_words} {lack}. {what}")
        } else if computed {
            format!(
                "State the accuracy of the instruments behind the {in_words}, or calibrate them."
            )
        } else {
            format!(
                "State the accuracy of the instrument that reads the {in_words}, or calibrate it."
            )
        }
    })
}

/// Which end is broken or nearest, and what to do about it.
pub(super) fn advice<K: Kind>(
    given: &Given<K>,
    range: &Range<K>,
    guard: GuardFactor,
    words: &Words,
) -> (Option<String>, Option<&'static str>) {
    let below = range.min().filter(|min| !given.span.low().at_least(*min));
    let above = range.max().filter(|max| !given.span.high().at_most(*max));
    match (below, above) {
        (Some(min), Some(max)) => {
            let remedy = format!("{} {min} and {} {max}.", words.raise, lower_case(words.lower));
            (Some(remedy), Some(words.below))
        }
        (Some(min), None) => (Some(format!("{} {min}.", words.raise)), Some(words.below)),
        (None, Some(max)) => (Some(format!("{} {max}.", words.lower)), Some(words.above)),
        (None, None) => edge_advice(given, range, guard, words),
    }
}

/// Shown inside, too near an end for the instrument.
fn edge_advice<K: Kind>(
    given: &Given<K>,
    range: &Range<K>,
    guard: GuardFactor,
    words: &Words,
) -> (Option<String>, Option<&'static str>) {
    let clear_of_min = range.min().map(|min| (min, Range::at_least(min)));
    let near_min = clear_of_min.filter(|(_, part)| given.place(part, guard) != Place::Inside);
    let near = near_min.map(|(min, _)| (min, words.below));
    let near = near.or_else(|| range.max().map(|max| (max, words.above)));
    let remedy = |end| edge_remedy(given, range, guard, (end, words.variable));
    (near.map(|(end, _)| remedy(end)), near.map(|(_, consequence)| consequence))
}

/// How far inside the value has to lie, or which error the instrument may have.
fn edge_remedy<K: Kind>(
    given: &Given<K>,
    range: &Range<K>,
    guard: GuardFactor,
    (end, variable): (Quantity<K>, Variable),
) -> String {
    let in_words = in_words(variable);
    let factor = guard.ratio();
    let meaning = match given.accuracy {
        Accuracy::Known(ErrorModel::Largest, _) => "a largest error",
        _ => "an expanded uncertainty (k = 2)",
    };
    if given.can_prove(range, guard) {
        let band = difference(given.guard_band(guard), range);
        let room = (end.canonical() - given.span.low().canonical())
            .abs()
            .min((end.canonical() - given.span.high().canonical()).abs());
        let better = if room > 0.0 {
            let most = difference(room / factor, range);
            format!(", or use a better instrument, with {meaning} of at most {most}")
        } else {
            String::new()
        };
        return format!(
            "Keep the {in_words} further inside {end} than the instrument's error, by {band}{better}."
        );
    }
    let (min, max) = (range.min(), range.max());
    let width = min.zip(max).map_or(0.0, |(min, max)| max.canonical() - min.canonical());
    format!(
        "No {in_words} read with this instrument can be shown to meet this limit; use one with {meaning} of at \
         most {}, less where the value is not in the middle, or set a limit that the instrument can prove.",
        difference(width / 2.0 / factor, range)
    )
}

/// A difference in canonical units, rounded down to three digits, in the unit that a range was typed in.
pub(super) fn difference<K: Kind>(canonical: f64, range: &Range<K>) -> String {
    let typed = range.min().or(range.max()).and_then(Quantity::as_entered);
    let unit = typed.map_or(&K::INFO.units[0], |typed| typed.unit);
    let number = rounded_down(canonical * unit.factor.1 / unit.factor.0);
    format!("{number} {}", unit.symbol)
}

/// The code of a variable as words of a sentence.
#[must_use]
pub fn in_words(variable: Variable) -> String {
    match variable {
        Variable::StickOut => "electrical stick-out".to_owned(),
        Variable::Transfer => "metal transfer".to_owned(),
        Variable::RunEnergy => "energy of the run over its length".to_owned(),
        Variable::Mechanisation => "degree of mechanisation".to_owned(),
        Variable::CurrentForm => "form of the current".to_owned(),
        Variable::Electrodes => "number of electrodes".to_owned(),
        _ => variable.code().replace('-', " "),
    }
}

/// A sentence that starts with a variable, with its first letter in upper case.
pub fn sentence(mut text: String) -> String {
    if let Some(first) = text.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    text
}

fn lower_case(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}
