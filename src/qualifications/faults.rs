//! What can be wrong across the fields of a qualification record.

use super::QualificationDocument;
use crate::{
    http::problem::FieldError,
    qualifications::document::{PieceDocument, RecordedRunDocument, TestDocument},
    qualify::record::TestKind,
    records::plausible,
};

/// Words of the service's own paths, where the number of a record stands.
const RESERVED: &[&str] = &["support"];

/// Test pieces of one record at most: each two of them are looked at together.
const MOST_PIECES: usize = 24;

/// Every fault, with its place.
pub(super) fn of(document: &QualificationDocument) -> Vec<FieldError> {
    let mut faults = Vec::new();
    if RESERVED.contains(&document.number.as_str()) {
        let detail = "the service has this word in its paths; give the record another number";
        faults.push(fault("/number", detail));
    }
    if document.pieces.is_empty() {
        faults.push(fault("/pieces", "state at least one welded test piece"));
    }
    faults.extend(plausible::to_come("/welded_on".to_owned(), document.welded_on));
    if document.pieces.len() > MOST_PIECES {
        let detail = format!("at most {MOST_PIECES}; give the others a record of their own");
        faults.push(fault("/pieces", &detail));
    }
    for (index, piece) in document.pieces.iter().enumerate().take(MOST_PIECES) {
        let at = format!("/pieces/{index}");
        let earlier = &document.pieces[..index];
        if earlier.iter().any(|other| other.mark == piece.mark) {
            let detail = format!("another piece has the mark \"{}\" already", piece.mark);
            faults.push(fault(&format!("{at}/mark"), &detail));
        }
        faults.extend(piece_faults(piece, &at));
    }
    faults
}

fn piece_faults(piece: &PieceDocument, at: &str) -> Vec<FieldError> {
    let mut faults = Vec::new();
    if piece.runs.is_empty() {
        faults.push(fault(&format!("{at}/runs"), "state at least one run with its process"));
    }
    for (index, part) in piece.parts.iter().enumerate() {
        let metal = part.metal.as_ref();
        let at = format!("{at}/parts/{index}/metal");
        faults.extend(metal.map(|metal| metal.faults(&at)).unwrap_or_default());
    }
    for (index, run) in piece.runs.iter().enumerate() {
        let at = format!("{at}/runs/{index}");
        if piece.runs[..index].iter().any(|other| other.number == run.number) {
            let detail = format!("run {} is there already", run.number);
            faults.push(fault(&format!("{at}/number"), &detail));
        }
        let position = piece.position.as_slice();
        faults.extend(plausible::other_way(format!("{at}/progression"), position, run.progression));
        faults.extend(run_faults(run, &at));
    }
    for (index, test) in piece.tests.iter().enumerate() {
        faults.extend(test_faults(test, &format!("{at}/tests/{index}")));
    }
    if let Some(heating) = &piece.post_heating
        && !heating.done
        && (heating.temperature.is_some() || heating.time.is_some())
    {
        let detail = "it has a temperature or a time, so it was done";
        faults.push(fault(&format!("{at}/post_heating/done"), detail));
    }
    faults
}

/// Energies of two bases are never compared, so a run states one.
fn run_faults(run: &RecordedRunDocument, at: &str) -> Vec<FieldError> {
    let Some(electrical) = &run.electrical else { return Vec::new() };
    let mut faults = Vec::new();
    if electrical.arc_energy.is_some() && electrical.heat_input.is_some() {
        let detail = "state the arc energy or the heat input, on the basis of the record, not both";
        faults.push(fault(&format!("{at}/electrical/heat_input"), detail));
    }
    let at_efficiency = format!("{at}/electrical/thermal_efficiency");
    faults.extend(
        electrical
            .thermal_efficiency
            .and_then(|factor| plausible::no_part(at_efficiency, "a thermal efficiency", factor)),
    );
    if electrical.thermal_efficiency.is_some() && electrical.heat_input.is_none() {
        let detail = "a thermal efficiency belongs to a heat input, which is not stated";
        faults.push(fault(&format!("{at}/electrical/thermal_efficiency"), detail));
    }
    faults
}

fn test_faults(test: &TestDocument, at: &str) -> Vec<FieldError> {
    let mut faults = Vec::from_iter(plausible::to_come(format!("{at}/on"), test.on));
    if !test.impact_energies.is_empty() && test.kind != TestKind::Impact {
        let detail = format!("a test of the kind {} has no impact energies", test.kind);
        faults.push(fault(&format!("{at}/impact_energies"), &detail));
    }
    if !test.hardness.is_empty() && test.kind != TestKind::Hardness {
        let detail = format!("a test of the kind {} has no hardness readings", test.kind);
        faults.push(fault(&format!("{at}/hardness"), &detail));
    }
    faults
}

fn fault(pointer: &str, detail: &str) -> FieldError {
    FieldError { pointer: pointer.to_owned(), detail: detail.to_owned() }
}
