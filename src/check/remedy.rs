//! What to change when a number does not meet its limit, and what happens otherwise.

use crate::{
    quantity::{Kind, Range},
    trade::Coded,
};

use super::{Given, Place, Variable, range_check::Words};

/// What a value inside its limit still lacks: an instrument somebody knows.
pub fn accuracy_remedy<K: Kind>(given: &Given<K>, variable: Variable) -> Option<String> {
    let in_words = in_words(variable);
    let computed = matches!(variable, Variable::ArcEnergy | Variable::HeatInput);
    given.accuracy_unknown().then(|| {
        if computed {
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
        (None, None) => edge_advice(given, range, words),
    }
}

/// Shown inside, too near an end for the instrument.
fn edge_advice<K: Kind>(
    given: &Given<K>,
    range: &Range<K>,
    words: &Words,
) -> (Option<String>, Option<&'static str>) {
    let clear_of_min = range.min().map(|min| (min, Range::at_least(min)));
    let near_min = clear_of_min.filter(|(_, part)| given.place(part) != Place::Inside);
    let near = near_min.map(|(min, _)| (min, words.below));
    let near = near.or_else(|| range.max().map(|max| (max, words.above)));
    let in_words = in_words(words.variable);
    let remedy = |end| {
        format!(
            "Keep the {in_words} further inside {end} than the instrument's error, or use a better \
             instrument."
        )
    };
    (near.map(|(end, _)| remedy(end)), near.map(|(_, consequence)| consequence))
}

/// The code of a variable as words of a sentence.
pub fn in_words(variable: Variable) -> String {
    variable.code().replace('-', " ").replace("stick out", "stick-out")
}

/// A sentence with its first letter in upper case.
pub fn sentence(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

fn lower_case(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}
