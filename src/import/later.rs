//! What a line asks for beside its document. All of it is read before anything is written, so that a line with a
//! mistake leaves nothing behind.

use serde_json::{Map, Value, json};
use time::OffsetDateTime;

use super::line::Kind;
use crate::{
    batches,
    http::problem::{FieldError, Problem},
    procedures::{ReleaseIn, SignatureIn},
    qualifications::QualificationSignatureIn,
    welders::WelderEventIn,
    wire::{self, FromWire},
};

/// One step after the document is written.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Later {
    /// Note what was done with a portion of a batch.
    Note(Value),
    /// Submit a procedure for review.
    Submit,
    /// Release it.
    Release(Value),
    /// Sign a procedure's support, or a qualification record, with this statement.
    Sign(Value),
    /// Sign the range of one of a welder's qualifications.
    SignRange {
        /// Id of the qualification.
        qualification: String,
        /// What the signer vouches for.
        statement: Value,
    },
}

impl Later {
    /// Whether it takes the approver's key.
    pub(super) const fn takes_approver(&self) -> bool {
        !matches!(self, Self::Note(_) | Self::Submit)
    }

    /// What was done when it is done.
    pub(super) fn done(&self) -> String {
        match self {
            Self::Note(event) => {
                let part = |name: &str| event.get(name).and_then(Value::as_str).unwrap_or_default();
                format!("noted {} of {}", part("event"), part("portion"))
            }
            Self::Submit => "submitted for review".to_owned(),
            Self::Release(_) => "released".to_owned(),
            Self::Sign(_) => "signed".to_owned(),
            Self::SignRange { qualification, .. } => format!("signed the range of {qualification}"),
        }
    }
}

/// The steps of a line, in their order.
///
/// # Errors
/// What is wrong with any of them, as the service would say it.
pub(super) fn read(
    record: Kind,
    members: &Map<String, Value>,
    document: &Value,
    revise: bool,
) -> Result<Vec<Later>, String> {
    let mut steps = Vec::new();
    match members.get("events") {
        None => {}
        Some(Value::Array(events)) if record == Kind::ConsumableBatch => {
            let faults = batches::faults_of_events(events, revise, OffsetDateTime::now_utc());
            sound("events", &faults)?;
            steps.extend(events.iter().cloned().map(Later::Note));
        }
        Some(_) => return Err("\"events\" is a list, and only batches have it".to_owned()),
    }
    if let Some(release) = members.get("release") {
        if record != Kind::Procedure {
            return Err("only procedures are released".to_owned());
        }
        let read = wire::read::<ReleaseIn>(release).and_then(|release| release.leaves_no_gap());
        accepted("release", read)?;
        steps.extend([Later::Submit, Later::Release(release.clone())]);
    }
    if let Some(statement) = members.get("sign") {
        steps.extend(signatures(record, statement, document)?);
    }
    Ok(steps)
}

fn signatures(record: Kind, statement: &Value, document: &Value) -> Result<Vec<Later>, String> {
    let body = json!({ "statement": statement });
    match record {
        Kind::Procedure => readable::<SignatureIn>("sign", &body)?,
        Kind::Qualification => readable::<QualificationSignatureIn>("sign", &body)?,
        Kind::Welder => {
            let mut steps = Vec::new();
            let listed = document.get("qualifications").and_then(Value::as_array);
            for id in listed.into_iter().flatten().filter_map(|one| one.get("id")?.as_str()) {
                readable::<WelderEventIn>("sign", &range_signed(id, statement))?;
                let (qualification, statement) = (id.to_owned(), statement.clone());
                steps.push(Later::SignRange { qualification, statement });
            }
            return Ok(steps);
        }
        _ => return Err("only procedures, qualification records and welders are signed".to_owned()),
    }
    Ok(vec![Later::Sign(statement.clone())])
}

/// What is sent to sign the range of a qualification.
pub(super) fn range_signed(qualification: &str, statement: &Value) -> Value {
    json!({ "qualification": qualification, "event": "range-signed", "reason": statement })
}

fn readable<T: FromWire>(member: &str, body: &Value) -> Result<(), String> {
    accepted(member, wire::read::<T>(body).map(drop))
}

fn accepted(member: &str, read: Result<(), Problem>) -> Result<(), String> {
    read.or_else(|problem| sound(member, problem.errors()))
}

/// Faults at their places in a member of the line. A signature stands in the line as its statement alone.
fn sound(member: &str, faults: &[FieldError]) -> Result<(), String> {
    let told = faults.iter().map(|FieldError { pointer, detail }| {
        let pointer = pointer.trim_start_matches("/statement").trim_start_matches("/reason");
        format!("/{member}{pointer}: {detail}.")
    });
    let told = told.collect::<Vec<_>>().join(" ");
    if told.is_empty() { Ok(()) } else { Err(format!("{told} Nothing was written.")) }
}
