//! Rows that are made from documents and events say what those say.

use std::{collections::BTreeMap, str::FromStr};

use arcbounds::database::{Actor, TenantTx};
use rust_decimal::Decimal;
use serde_json::{Value, json};
use sqlx::AssertSqlSafe;

use crate::{
    behind::{etag, rows, step},
    support::{Api, documents},
};

/// Unit as written in a document, canonical units in one of it. An inch is 25.4 mm (international yard and
/// pound agreement, 1959).
const FACTORS: &[(&str, &str)] = &[
    ("A", "1"),
    ("V", "1"),
    ("m/min", "1"),
    ("mm/min", "1"),
    ("mm", "1"),
    ("in", "25.4"),
    ("deg", "1"),
    ("°C", "1"),
    ("L/min", "1"),
    ("kJ/mm", "1"),
];

/// Variables that a document calls otherwise than the rows do: all others swap `_` for `-`.
fn variable(member: &str) -> String {
    member.replace('_', "-")
}

/// The number of an end of a range in the canonical unit of the rows; the wire feed is kept in m/min and
/// the travel speed in mm/min, so one symbol has a factor for each.
pub fn canonical(member: &str, value: &Value, unit: &str) -> String {
    let number = Decimal::from_str(&value.to_string()).unwrap();
    let factor = match (member, unit) {
        ("wire_feed", "in/min") => "0.0254",
        ("travel_speed", "in/min") => "25.4",
        _ => FACTORS.iter().find(|(known, _)| *known == unit).unwrap_or_else(|| panic!("{unit}")).1,
    };
    (number * Decimal::from_str(factor).unwrap()).normalize().to_string()
}

/// A range of a document as PostgreSQL prints it.
pub fn range(member: &str, value: &Value) -> String {
    let unit = value["unit"].as_str().unwrap();
    let end = |name: &str| value.get(name).map(|end| canonical(member, end, unit));
    let (min, max) = (end("min"), end("max"));
    let (open, close) =
        (if min.is_some() { '[' } else { '(' }, if max.is_some() { ']' } else { ')' });
    format!("{open}{},{}{close}", min.unwrap_or_default(), max.unwrap_or_default())
}

pub fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().to_owned()
}

/// Every limit row that the newest edit of every procedure revision asks for.
async fn limits_of_documents(api: &Api) -> BTreeMap<String, String> {
    let documents = rows(
        api,
        "select distinct on (code, revision) code, revision, document from record_revision
         where kind = 'procedure' order by code, revision, edit desc",
    )
    .await;
    let mut expected = BTreeMap::new();
    for row in documents {
        for run in row["document"]["runs"].as_array().unwrap() {
            for class in run["classes"].as_array().unwrap() {
                for (member, value) in run["limits"].as_object().unwrap() {
                    let name = format!(
                        "{} {} {} {}",
                        text(&row["code"]),
                        row["revision"],
                        text(class),
                        variable(member)
                    );
                    expected.insert(name, range(member, value));
                }
            }
        }
    }
    expected
}

async fn limit_rows(api: &Api) -> BTreeMap<String, String> {
    let found = rows(
        api,
        "select code || ' ' || revision || ' ' || run_class || ' ' || variable as name,
                allowed::text as allowed from procedure_limit",
    )
    .await;
    found.into_iter().map(|row| (text(&row["name"]), text(&row["allowed"]))).collect()
}

/// The limits of a US shop floor; each end can be told exactly in metric units.
fn in_inches() -> Value {
    let limits = json!({
        "current": "205 to 215 A",
        "voltage": { "max": 27, "unit": "V" },
        "wire_feed": "280 to 350 in/min",
        "travel_speed": "12 to 16 in/min",
        "electrical_stick_out": "5/8 to 7/8 in",
        "travel_angle": "5 to 15 deg",
        "preheat": { "min": 20, "unit": "°C" },
    });
    documents::with(documents::procedure(), "/runs/0/limits", limits)
}

#[tokio::test]
async fn limit_rows_are_what_the_documents_say() {
    let api = Api::furnished().await;
    assert_eq!(limit_rows(&api).await, limits_of_documents(&api).await);
    let path = "/v1/procedures/WPS-1";
    // A second revision beside the first, then edited as a draft.
    for document in [documents::procedure(), in_inches()] {
        let now = etag(&api, path).await;
        api.put(api.shop.author(), path, &now, &document).await.expect(200);
        assert_eq!(limit_rows(&api).await, limits_of_documents(&api).await);
    }
    let found = limit_rows(&api).await;
    // 13 variables and three run classes; then 7 variables. Own arithmetic: 12 in/min = 304.8 mm/min,
    // 16 in/min = 406.4 mm/min; 280 in/min = 7.112 m/min, 350 in/min = 8.89 m/min; 5/8 in = 15.875 mm,
    // 7/8 in = 22.225 mm.
    assert_eq!(found.len(), 3 * 13 + 3 * 7);
    for (name, allowed) in [
        ("WPS-1 1 fill travel-speed", "[300,400]"),
        ("WPS-1 2 fill travel-speed", "[304.8,406.4]"),
        ("WPS-1 2 cap wire-feed", "[7.112,8.89]"),
        ("WPS-1 2 single electrical-stick-out", "[15.875,22.225]"),
        ("WPS-1 2 fill voltage", "(,27]"),
        ("WPS-1 2 fill preheat", "[20,)"),
        ("WPS-1 1 cap heat-input", "[0.6,1]"),
    ] {
        assert_eq!(found.get(name).map(String::as_str), Some(allowed), "{name}");
    }
}

/// State, dates and signature that the events of one revision add up to.
fn standing_of(events: &[&Value]) -> Value {
    let (mut state, mut from, mut until, mut signed) =
        (json!("draft"), Value::Null, Value::Null, Value::Null);
    for event in events {
        state = match event["event"].as_str().unwrap() {
            "submitted" => json!("in-review"),
            "returned" => json!("draft"),
            "released" => json!("released"),
            "superseded" => json!("superseded"),
            "withdrawn" => json!("withdrawn"),
            _ => state,
        };
        match event["event"].as_str().unwrap() {
            "support-signed" => signed = event["person_id"].clone(),
            "returned" => signed = Value::Null,
            _ => {}
        }
        (from, until) = (event["effective_from"].clone(), event["effective_until"].clone());
    }
    json!({
        "state": state, "events": events.len(), "effective_from": from, "effective_until": until,
        "signed_by": signed,
    })
}

/// Compares every standing with its events, and the head of the record with the newest standing.
async fn compare_standings(api: &Api) {
    let standings = rows(
        api,
        "select code, revision, state, events, effective_from, effective_until, signed_by
         from procedure_standing order by code, revision",
    )
    .await;
    let events = rows(api, "select * from procedure_event order by code, revision, sequence").await;
    let revisions = "select distinct code, revision from record_revision where kind = 'procedure'";
    assert_eq!(standings.len(), rows(api, revisions).await.len());
    for standing in standings {
        let own: Vec<_> = events
            .iter()
            .filter(|e| e["code"] == standing["code"] && e["revision"] == standing["revision"])
            .collect();
        let sequence: Vec<_> =
            own.iter().map(|event| event["sequence"].as_u64().unwrap()).collect();
        assert_eq!(sequence, (1..=own.len() as u64).collect::<Vec<_>>(), "{standing}");
        let mut expected = standing_of(&own);
        expected["code"] = standing["code"].clone();
        expected["revision"] = standing["revision"].clone();
        assert_eq!(standing, expected);
    }
    let apart = "select 1 as one from record r join procedure_standing s
                 on (s.organisation_id, s.code, s.revision) = (r.organisation_id, r.code, r.revision)
                 where r.kind = 'procedure' and r.state <> s.state";
    assert_eq!(rows(api, apart).await, Vec::<Value>::new(), "head and standing agree");
}

#[tokio::test]
async fn standings_are_what_the_events_add_up_to() {
    let api = Api::furnished().await;
    compare_standings(&api).await;
    let (author, approver, path) = (api.shop.author(), api.shop.approver(), "/v1/procedures/WPS-1");
    let (from, until) = ("2031-01-01", "2031-02-28");
    let plan = json!({ "effective_from": from, "previous_until": until });
    let steps = [
        ("submission", author, Value::Null),
        ("support-signature", approver, json!({ "statement": "x" })),
        ("return", approver, json!({ "reason": "x" })),
        ("submission", author, Value::Null),
        ("release", approver, plan),
        ("support-signature", approver, json!({ "statement": "x" })),
    ];
    api.put(author, path, &etag(&api, path).await, &in_inches()).await.expect(200);
    for (last, key, body) in steps {
        let now = etag(&api, path).await;
        step(&api, key, &format!("{path}/{last}"), &now, &body).await.expect(200);
        compare_standings(&api).await;
    }
    let dates =
        "select state, effective_from, effective_until from procedure_standing order by revision";
    let expected = [
        json!({ "state": "superseded", "effective_from": null, "effective_until": until }),
        json!({ "state": "released", "effective_from": from, "effective_until": null }),
    ];
    assert_eq!(rows(&api, dates).await, expected);
    // A third revision in the making, then all of it withdrawn.
    api.put(author, path, &etag(&api, path).await, &documents::procedure()).await.expect(200);
    compare_standings(&api).await;
    let now = etag(&api, path).await;
    api.withdraw(approver, &format!("{path}/withdrawal"), &now).await.expect(200);
    compare_standings(&api).await;
}

/// SQLSTATE with which the service's own role is refused a statement about this organisation; `00000` where
/// it is not.
async fn refused(api: &Api, statement: &str) -> String {
    let actor = Actor::service(api.shop.organisation);
    let mut tx = TenantTx::begin(&api.state().pool, actor).await.unwrap();
    match sqlx::query(AssertSqlSafe(statement)).execute(tx.connection()).await {
        Ok(_) => "00000".to_owned(),
        Err(error) => error.as_database_error().unwrap().code().unwrap().into_owned(),
    }
}

/// SQL:2016, 24.1 (class 23, integrity constraint violation), as PostgreSQL lists it in its appendix A.
#[tokio::test]
async fn nothing_is_slipped_into_a_revision_that_is_closed() {
    const CLOSED: &str = "23000";
    let api = Api::furnished().await;
    let edit = |kind: &str, code: &str, revision: u32, edit: u32| {
        format!(
            "insert into record_revision (organisation_id, kind, code, revision, edit, document,
                 document_hash, key_id)
             select organisation_id, kind, code, {revision}, {edit}, document, document_hash, key_id
             from record_revision where kind = '{kind}' and code = '{code}' limit 1"
        )
    };
    // The rulebook reads the last edit of a released revision: another one would be the rule at once.
    for (kind, code) in [
        ("procedure", "WPS-1"),
        ("qualification", "PQR-1"),
        ("consumable", "FCW-1"),
        ("station", "ST-1"),
    ] {
        for (revision, number) in [(1, 2), (2, 2), (3, 1), (1, 9)] {
            let slipped = edit(kind, code, revision, number);
            assert_eq!(refused(&api, &slipped).await, CLOSED, "{kind} {revision} {number}");
        }
    }
    let limit = "insert into procedure_limit (organisation_id, code, revision, run_class, variable, allowed)
                 select organisation_id, 'WPS-1', 1, 'root', 'current', '[1,900]' from organisation";
    let judgement = "insert into procedure_support (organisation_id, code, revision, judgement)
                     select organisation_id, 'WPS-1', 1, '{}' from organisation";
    for slipped in [limit, judgement, "delete from procedure_limit"] {
        assert_eq!(refused(&api, slipped).await, CLOSED, "{slipped}");
    }
    assert_eq!(limit_rows(&api).await, limits_of_documents(&api).await);
    // The next revision and the next edit of a draft are how it is done, and nothing else than these.
    assert_eq!(refused(&api, &edit("procedure", "WPS-1", 2, 1)).await, "00000");
    let path = "/v1/procedures/WPS-1";
    api.put(api.shop.author(), path, &etag(&api, path).await, &in_inches()).await.expect(200);
    assert_eq!(refused(&api, &edit("procedure", "WPS-1", 2, 2)).await, "00000");
    for (revision, number) in [(2, 3), (3, 1), (1, 2)] {
        let slipped = edit("procedure", "WPS-1", revision, number);
        assert_eq!(refused(&api, &slipped).await, CLOSED, "{revision} {number}");
    }
    assert_eq!(refused(&api, "delete from procedure_limit where revision = 2").await, "00000");
    // Under review it is closed.
    api.shop.submit(&api, documents::PROCEDURE).await;
    assert_eq!(refused(&api, &edit("procedure", "WPS-1", 2, 2)).await, CLOSED);
    assert_eq!(refused(&api, "delete from procedure_limit where revision = 2").await, CLOSED);
}
