//! One line of an import.

use serde_json::Value;

use super::later::{self, Later};
use crate::{
    batches::{self, BatchDocument},
    consumables::{self, ConsumableDocument},
    database::document_hash,
    procedures::{self, ProcedureDocument},
    qualifications::{self, QualificationDocument},
    records::RecordDocument,
    stations::{self, StationDocument},
    welders::{self, WelderDocument},
    wire::{self, read_text},
    work_orders::{self, WorkOrderDocument},
};

/// A line that was read.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    record: Kind,
    /// The document.
    pub(super) document: Value,
    /// The record exists.
    pub(super) revise: bool,
    /// Why the revision is made.
    pub(super) reason: Option<String>,
    /// What is done after it is written, in this order.
    pub(super) later: Vec<Later>,
}

/// Kinds of record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Consumable,
    ConsumableBatch,
    Procedure,
    Qualification,
    Station,
    WorkOrder,
    Welder,
}

/// Members of a line.
const MEMBERS: &[&str] = &["record", "document", "revise", "release", "sign", "reason", "events"];

impl Line {
    /// Reads a line.
    pub(super) fn read(text: &str) -> Result<Self, String> {
        let value = read_text(text.as_bytes()).map_err(|unread| unread.to_string())?.to_value();
        let members = value.as_object().ok_or("expected an object")?;
        if let Some(unknown) = members.keys().find(|name| !MEMBERS.contains(&name.as_str())) {
            return Err(format!("no such member \"{unknown}\"; known are {}", MEMBERS.join(", ")));
        }
        let record = match members.get("record").and_then(Value::as_str) {
            Some("consumable") => Kind::Consumable,
            Some("consumable-batch") => Kind::ConsumableBatch,
            Some("procedure") => Kind::Procedure,
            Some("qualification") => Kind::Qualification,
            Some("station") => Kind::Station,
            Some("work-order") => Kind::WorkOrder,
            Some("welder") => Kind::Welder,
            _ => {
                let kinds = "consumable, consumable-batch, procedure, qualification, station, welder or \
                             work-order";
                return Err(format!("\"record\" is {kinds}"));
            }
        };
        let reason = match members.get("reason") {
            None => None,
            Some(Value::String(reason)) => Some(reason.clone()),
            Some(_) => return Err("\"reason\" is a text".to_owned()),
        };
        let revise = match members.get("revise") {
            None => false,
            Some(Value::Bool(revise)) => *revise,
            Some(_) => return Err("\"revise\" is true or false".to_owned()),
        };
        if reason.is_some() && !revise {
            return Err("\"reason\" goes with \"revise\": a first revision has none".to_owned());
        }
        let document = members.get("document").cloned().ok_or("\"document\" is missing")?;
        let later = later::read(record, members, &document, revise)?;
        Ok(Self { record, document, revise, reason, later })
    }

    /// Part of the path.
    pub(super) const fn path(&self) -> &'static str {
        match self.record {
            Kind::Consumable => consumables::KIND.path,
            Kind::ConsumableBatch => batches::KIND.path,
            Kind::Procedure => procedures::KIND.path,
            Kind::Qualification => qualifications::KIND.path,
            Kind::Station => stations::KIND.path,
            Kind::WorkOrder => work_orders::KIND.path,
            Kind::Welder => welders::KIND.path,
        }
    }

    /// The step by which a second person signs it.
    pub(super) fn signature(&self) -> &'static str {
        if self.record == Kind::Qualification { "signature" } else { "support-signature" }
    }

    /// Hash of the document as the service keeps it; `None` where it cannot be read, which the service then says.
    pub(super) fn hash(&self) -> Option<String> {
        fn of<D: RecordDocument>(document: &Value) -> Option<String> {
            let read = wire::read::<D>(document).ok()?;
            Some(hex::encode(document_hash(&read.to_wire())))
        }
        let hash = match self.record {
            Kind::Consumable => of::<ConsumableDocument>,
            Kind::ConsumableBatch => of::<BatchDocument>,
            Kind::Procedure => of::<ProcedureDocument>,
            Kind::Qualification => of::<QualificationDocument>,
            Kind::Station => of::<StationDocument>,
            Kind::WorkOrder => of::<WorkOrderDocument>,
            Kind::Welder => of::<WelderDocument>,
        };
        hash(&self.document)
    }

    /// Code of the record.
    pub(super) fn code(&self) -> Result<&str, String> {
        let member = match self.record {
            Kind::Consumable | Kind::ConsumableBatch | Kind::Station | Kind::Welder => "code",
            Kind::Procedure | Kind::Qualification | Kind::WorkOrder => "number",
        };
        let code = self.document.get(member).and_then(Value::as_str);
        code.ok_or_else(|| format!("the document has no \"{member}\""))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_says_what_is_wrong_with_it() {
        let refused = |text: &str| Line::read(text).unwrap_err();
        assert!(refused("{").starts_with("no JSON"));
        assert!(refused("[]").contains("object"));
        let twice = r#"{"record":"station","document":{"code":"A","code":"B"}}"#;
        assert_eq!(refused(twice), "/document/code is given more than once");
        assert!(refused(r#"{"record":"wire","document":{}}"#).contains("consumable"));
        assert!(refused(r#"{"record":"station"}"#).contains("document"));
        assert!(refused(r#"{"record":"station","document":{},"colour":1}"#).contains("colour"));
        assert!(
            refused(r#"{"record":"station","document":{},"release":{}}"#)
                .contains("only procedures")
        );
        assert!(
            refused(r#"{"record":"station","document":{},"sign":"seen"}"#).contains("and welders")
        );
        assert!(
            refused(r#"{"record":"qualification","document":{},"release":{}}"#)
                .contains("only procedures")
        );
        assert!(refused(r#"{"record":"station","document":{},"reason":7}"#).contains("is a text"));
        assert!(
            refused(r#"{"record":"station","document":{},"reason":"why"}"#).contains("goes with")
        );
        assert!(
            refused(r#"{"record":"station","document":{},"revise":"yes"}"#)
                .contains("true or false")
        );
        assert!(refused(r#"{"record":"station","document":{},"events":[]}"#).contains("batches"));
        assert!(
            refused(r#"{"record":"consumable-batch","document":{},"events":{}}"#).contains("list")
        );
    }

    #[test]
    fn what_is_done_later_is_read_with_the_line() {
        let refused = |rest: &str| {
            Line::read(&format!(r#"{{"record":"procedure","document":{{}},{rest}}}"#)).unwrap_err()
        };
        assert!(refused(r#""release":{"foo":1}"#).starts_with("/release/foo: no such field"));
        assert!(refused(r#""release":true"#).starts_with("/release: expected an object"));
        let gap = r#""release":{"effective_from":"2026-03-01","previous_until":"2026-02-01"}"#;
        assert!(refused(gap).starts_with("/release/previous_until"));
        assert!(refused(r#""release":{},"sign":" ""#).starts_with("/sign: the text is empty"));
        assert!(refused(r#""sign":7"#).starts_with("/sign: expected a text"));
        let batch = |events: &str| {
            Line::read(&format!(
                r#"{{"record":"consumable-batch","document":{{}},"events":[{events}]}}"#
            ))
        };
        let opened = r#"{"portion":"Q-1","event":"opened","at":"2026-02-10T06:00:00Z"}"#;
        let baked = r#"{"portion":"Q-1","event":"baked","at":"2026-02-10T05:00:00Z"}"#;
        assert_eq!(batch(opened).unwrap().later.len(), 1);
        let refused = batch(&[opened, baked].join(",")).unwrap_err();
        assert!(
            refused.contains("/events/1/until") && refused.contains("Nothing was written"),
            "{refused}"
        );
        // Twice opened: each is sound, and they cannot follow each other.
        assert!(batch(&[opened, opened].join(",")).unwrap_err().starts_with("/events/1/event"));
    }

    #[test]
    fn the_code_is_where_the_record_has_it() {
        let line = Line::read(r#"{"record":"procedure","document":{"number":"WPS-1"}}"#).unwrap();
        assert_eq!(line.code().unwrap(), "WPS-1");
        assert_eq!(line.path(), "procedures");
        let line = Line::read(r#"{"record":"station","document":{"number":"S"}}"#).unwrap();
        assert!(line.code().is_err());
    }
}
