//! What can be wrong across the fields of a consumable.

use std::{cmp::Ordering, collections::HashMap};

use super::{ConsumableDocument, document::ConditionDocument};
use crate::{http::problem::FieldError, quantity::Quantity, records::plausible};

/// Longest name of a document or edition: together they are a key of the database.
const LONGEST_NAME: usize = 200;

/// What a deposition efficiency is called in a refusal.
const EFFICIENCY: &str = "a deposition efficiency";

/// Every fault, with the place of the second of two things that do not agree.
pub(super) fn of(document: &ConsumableDocument) -> Vec<FieldError> {
    let mut faults = Vec::new();
    if document.diameters.is_empty() {
        faults.push(fault("/diameters", "name at least one diameter the consumable is bought in"));
    }
    faults.extend(document.care.iter().flat_map(super::CareDocument::faults));
    faults.extend(document.efficiency.and_then(|efficiency| {
        plausible::no_part("/efficiency".to_owned(), EFFICIENCY, efficiency)
    }));
    faults.extend(document.spools.iter().enumerate().filter_map(|(index, spool)| {
        plausible::nothing(format!("/spools/{index}"), "the mass of a spool", *spool)
    }));
    alike_conditions(document, &mut faults);
    for (edition, data) in document.data.iter().enumerate() {
        for (member, text) in [("document", &data.document), ("edition", &data.edition)] {
            if text.len() > LONGEST_NAME {
                let at = format!("/data/{edition}/{member}");
                faults.push(fault(&at, &format!("a name has at most {LONGEST_NAME} bytes")));
            }
        }
        for (index, condition) in data.conditions.iter().enumerate() {
            if !document.diameters.contains(&condition.diameter) {
                let at = format!("/data/{edition}/conditions/{index}/diameter");
                faults.push(fault(&at, "the consumable is not bought in this diameter"));
            }
            faults.extend(plausible::names_none(
                format!("/data/{edition}/conditions/{index}/positions"),
                condition.positions.as_deref(),
                "is for all",
            ));
            points(condition, &format!("/data/{edition}/conditions/{index}/points"), &mut faults);
        }
    }
    faults
}

/// What no printed table of points says: metal that was not melted, and two currents at one wire feed.
fn points(condition: &ConditionDocument, at: &str, faults: &mut Vec<FieldError>) {
    for (index, point) in condition.points.iter().enumerate() {
        faults.extend(point.efficiency.and_then(|efficiency| {
            plausible::no_part(format!("{at}/{index}/efficiency"), EFFICIENCY, efficiency)
        }));
        let Some(feed) = point.wire_feed else { continue };
        let earlier = condition.points[..index].iter().position(|earlier| {
            earlier.wire_feed.is_some_and(|other| other.compare(feed) == Ordering::Equal)
                && earlier.current.compare(point.current) != Ordering::Equal
        });
        if let Some(earlier) = earlier {
            let detail = format!("another current stands at this wire feed at {at}/{earlier}");
            faults.push(fault(&format!("{at}/{index}/current"), &detail));
        }
    }
}

/// No two conditions of one edition are for the same: which of them counts, nobody could say. One for all positions may
/// stand beside others that name theirs.
fn alike_conditions(document: &ConsumableDocument, faults: &mut Vec<FieldError>) {
    let mut seen: HashMap<_, String> = HashMap::new();
    for (edition, data) in document.data.iter().enumerate() {
        for (index, condition) in data.conditions.iter().enumerate() {
            let at = format!("/data/{edition}/conditions/{index}");
            let named = condition.positions.as_deref().unwrap_or_default();
            let every = std::iter::once(None).filter(|_| named.is_empty());
            for position in every.chain(named.iter().copied().map(Some)) {
                let key = (
                    data.document.as_str(),
                    data.edition.as_str(),
                    canonical(condition.diameter),
                    condition.gas,
                    condition.polarity,
                    position,
                );
                // A position that one line names twice is no second line.
                if let Some(first) = seen.get(&key).filter(|first| **first != at) {
                    let which = position
                        .map_or_else(|| "positions".to_owned(), |one| format!("position, {one},"));
                    let detail =
                        format!("the same diameter, gas, polarity and {which} stand at {first}");
                    faults.push(fault(&at, &detail));
                    break;
                }
                seen.insert(key, at.clone());
            }
        }
    }
}

/// A diameter as a key: nanometres, far below the tolerance of a comparison.
#[expect(clippy::cast_possible_truncation, reason = "a diameter has at most 12 mm")]
fn canonical<K: crate::quantity::Kind>(diameter: Quantity<K>) -> i64 {
    (diameter.canonical() * 1e6).round() as i64
}

fn fault(pointer: &str, detail: &str) -> FieldError {
    FieldError { pointer: pointer.to_owned(), detail: detail.to_owned() }
}
