//! Reads the tables of published values in `data/`, and compares with their tolerance.

use arcbounds::quantity::{Kind, Quantity};

/// Rows of one table as lists of fields, headings left out.
pub fn rows<const N: usize>(table: &str) -> Vec<[String; N]> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let records = reader.records().map(|record| record.unwrap());
    let rows: Vec<_> = records
        .map(|record| {
            let fields: Vec<_> = record.iter().map(str::to_owned).collect();
            <[String; N]>::try_from(fields).unwrap()
        })
        .collect();
    assert!(!rows.is_empty());
    rows
}

/// A quantity from its text.
pub fn q<K: Kind>(text: &str) -> Quantity<K> {
    text.parse().unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// Fails unless both agree within a share of the expected value.
#[track_caller]
pub fn assert_near<K: Kind>(id: &str, got: Quantity<K>, expected: Quantity<K>, relative: f64) {
    let gap = (got.canonical() - expected.canonical()).abs();
    assert!(gap <= relative * expected.canonical().abs(), "{id}: {got} is not {expected}");
}
