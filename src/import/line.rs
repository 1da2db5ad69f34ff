//! One line of an import.

use serde_json::{Value, json};

use crate::{
    batches, consumables, procedures, qualifications, stations, welders, wire::read_text,
    work_orders,
};

/// A line that was read.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    record: Kind,
    /// The document.
    pub(super) document: Value,
    /// The record exists.
    pub(super) revise: bool,
    /// How to release it.
    pub(super) release: Option<Value>,
    /// What the second person signs.
    pub(super) sign: Option<String>,
    /// Why the revision is made.
    pub(super) reason: Option<String>,
    /// What was done with portions of a batch.
    pub(super) events: Vec<Value>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
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
        let release = members.get("release").cloned();
        let text = |name: &str| {
            let value = members.get(name).map(|text| text.as_str().map(str::to_owned));
            value.map(|text| text.ok_or_else(|| format!("\"{name}\" is a text"))).transpose()
        };
        let (sign, reason) = (text("sign")?, text("reason")?);
        if record != Kind::Procedure && release.is_some() {
            return Err("only procedures are released".to_owned());
        }
        if !matches!(record, Kind::Procedure | Kind::Qualification | Kind::Welder) && sign.is_some()
        {
            return Err("only procedures, qualification records and welders are signed".to_owned());
        }
        let events = match members.get("events") {
            None => Vec::new(),
            Some(Value::Array(events)) if record == Kind::ConsumableBatch => events.clone(),
            Some(_) => return Err("\"events\" is a list, and only batches have it".to_owned()),
        };
        Ok(Self {
            record,
            document: members.get("document").cloned().ok_or("\"document\" is missing")?,
            revise: members.get("revise") == Some(&json!(true)),
            release,
            sign,
            reason,
            events,
        })
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

    /// Ids of a welder's qualifications, whose ranges are signed; `None` for other records.
    pub(super) fn qualifications(&self) -> Option<Vec<&str>> {
        if self.record != Kind::Welder {
            return None;
        }
        let listed = self.document.get("qualifications").and_then(Value::as_array);
        let ids = listed.into_iter().flatten();
        Some(ids.filter_map(|one| one.get("id").and_then(Value::as_str)).collect())
    }

    /// The step by which a second person signs it.
    pub(super) fn signature(&self) -> &'static str {
        if self.record == Kind::Qualification { "signature" } else { "support-signature" }
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
        assert!(refused(r#"{"record":"station","document":{},"events":[]}"#).contains("batches"));
        assert!(
            refused(r#"{"record":"consumable-batch","document":{},"events":{}}"#).contains("list")
        );
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
