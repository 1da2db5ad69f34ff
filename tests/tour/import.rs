//! Bad lines of an import are refused one by one, each with its number and reason; good ones between them
//! are loaded.

use arcbounds::import::{self, Keys, Report};
use serde_json::{Value, json};

use crate::demo::{Demo, Scratch};

/// A consumable that loads, to be spoilt.
fn wire() -> Value {
    json!({
        "code": "FW-99",
        "name": "A wire",
        "kind": "flux-cored-wire",
        "designations": ["AWS A5.20: E71T-1M"],
        "diameters": ["0.045 in"],
        "data": [{
            "document": "Sheet", "edition": "1",
            "conditions": [{
                "diameter": "0.045 in", "gas": "M21", "polarity": "DCEP",
                "limits": {"current": "180 to 300 A"},
            }],
        }],
    })
}

/// A procedure that loads, to be spoilt.
fn procedure() -> Value {
    json!({
        "number": "WPS-901",
        "title": "A procedure",
        "codes": [{"name": "AWS D1.1", "edition": "2020"}],
        "support": {"kind": "declared-not-judged", "statement": "Invented."},
        "process": "136",
        "joints": ["fillet"], "positions": ["PB"], "base_metals": ["1.2"],
        "consumables": ["FW-71"], "diameters": ["0.045 in"],
        "gas": {"groups": ["M21"]}, "polarities": ["DCEP"],
        "runs": [{"classes": ["single"], "limits": {"current": "200 to 250 A"}}],
    })
}

fn with(mut document: Value, pointer: &str, value: Value) -> Value {
    match document.pointer_mut(pointer) {
        Some(place) => *place = value,
        None => document[pointer.trim_start_matches('/')] = value,
    }
    document
}

fn line(record: &str, document: &Value) -> String {
    json!({"record": record, "document": document}).to_string()
}

/// Bad lines, each with what its reason has to say.
fn bad_lines() -> Vec<(String, Vec<&'static str>)> {
    let wire_with = |pointer, value| line("consumable", &with(wire(), pointer, value));
    let procedure_with = |pointer, value| line("procedure", &with(procedure(), pointer, value));
    let current = "/data/0/conditions/0/limits/current";
    let alike = wire()["data"][0]["conditions"][0].clone();
    vec![
        ("{".to_owned(), vec!["no JSON"]),
        (
            line("rod", &wire()),
            vec![
                "consumable, consumable-batch, procedure, qualification, station, welder or work-order",
            ],
        ),
        (r#"{"record": "consumable"}"#.to_owned(), vec!["\"document\" is missing"]),
        (
            r#"{"record": "station", "document": {"code": "ST-9"}, "sign": "x"}"#.to_owned(),
            vec!["only procedures"],
        ),
        (wire_with(current, json!(240)), vec!["422", current, "240 A"]),
        (wire_with(current, json!("180 to 300 V")), vec!["One field", current, "\"V\""]),
        (wire_with(current, json!("300 to 180 A")), vec!["422", current]),
        (wire_with(current, json!("180 to 40000 A")), vec!["422", current, "between 1 and 3000 A"]),
        (wire_with("/designations", json!(["AWS A5.20: E71T-1X"])), vec!["/designations/0"]),
        (wire_with("/colour", json!("red")), vec!["/colour", "no such field"]),
        (wire_with("/diameters", json!(["1.2 mm"])), vec!["not bought in this diameter"]),
        (
            wire_with("/data/0/conditions", json!([alike, alike])),
            vec!["/data/0/conditions/1", "the same diameter, gas, polarity and positions"],
        ),
        (line("consumable", &with(wire(), "/code", json!("FW-71"))), vec!["409"]),
        (
            line(
                "qualification",
                &json!({"number": "PQR-9", "units": "metric", "pieces": [],
                "code": {"name": "AWS D1.1", "edition": "2015"}}),
            ),
            vec!["422", "/pieces", "at least one"],
        ),
        // PQR-37 is signed: a correction says why.
        (
            json!({"record": "qualification", "revise": true, "document": {"number": "PQR-37",
                "code": {"name": "AWS D1.1", "edition": "2015"}, "units": "us",
                "pieces": [{"mark": "1", "runs": [{"number": 1, "process": "136"}]}]}})
            .to_string(),
            vec!["400", "?reason"],
        ),
        (procedure_with("/process", json!("GMAW")), vec!["/process", "135"]),
        (procedure_with("/base_metals", json!(["S355"])), vec!["/base_metals/0", "S355"]),
        (procedure_with("/consumables", json!(["FW-00"])), vec!["/consumables/0", "FW-00"]),
        (procedure_with("/runs", json!([])), vec!["/runs", "at least one run class"]),
        (
            line("work-order", &json!({"number": "WO-1", "code": {"name": "AWS D1.1"}})),
            vec!["/code/edition", "required"],
        ),
        (
            json!({"record": "procedure", "revise": true,
                "document": with(procedure(), "/number", json!("WPS-000"))})
            .to_string(),
            vec!["404", "WPS-000"],
        ),
    ]
}

#[tokio::test]
async fn bad_lines_are_refused_one_by_one_with_number_and_reason() {
    let scratch = Scratch::new();
    let demo = Demo::start(&scratch.data());
    let (author, approver) = (demo.key("AUTHOR").to_owned(), demo.key("APPROVER").to_owned());
    let keys = Keys { author, approver: Some(approver) };
    let bad = bad_lines();
    let mut lines = vec!["# a remark".to_owned(), String::new(), line("consumable", &wire())];
    lines.extend(bad.iter().map(|(line, _)| line.clone()));
    lines.push(line("procedure", &procedure()));

    let texts = || lines.iter().map(String::as_str);
    let report = import::load(demo.address(), &keys, texts()).await.unwrap();
    assert_eq!(report.refused.len(), bad.len(), "{:#?}", report.refused);
    assert_eq!(report.loaded, 2);
    for (index, (refused, (_, words))) in report.refused.iter().zip(&bad).enumerate() {
        assert_eq!(refused.number, index + 4, "{refused:?}");
        for word in words {
            assert!(refused.reason.contains(word), "{word}: {refused:?}");
        }
    }
    let found = demo.get("READER", "/v1/procedures/WPS-901").send().await.unwrap();
    assert_eq!(found.status(), 200);

    a_release_needs_a_second_person(&demo, keys).await;
}

/// Without the approver's key nothing of such a line is written.
async fn a_release_needs_a_second_person(demo: &Demo, keys: Keys) {
    let document = with(procedure(), "/number", json!("WPS-902"));
    let text = json!({"record": "procedure", "document": document, "release": {}}).to_string();
    let alone = Keys { approver: None, ..keys.clone() };
    let report = import::load(demo.address(), &alone, [text.as_str()].into_iter()).await.unwrap();
    assert!(report.refused[0].reason.contains("approver's key"), "{report:?}");
    let found = demo.get("READER", "/v1/procedures/WPS-902").send().await.unwrap();
    assert_eq!(found.status(), 404);
    // The author's own key in the approver's place is no second person.
    let document = with(procedure(), "/number", json!("WPS-903"));
    let text = json!({"record": "procedure", "document": document, "release": {}}).to_string();
    let same = Keys { approver: Some(keys.author.clone()), ..keys };
    let report = import::load(demo.address(), &same, [text.as_str()].into_iter()).await.unwrap();
    assert!(report.refused[0].reason.starts_with("403"), "{report:?}");
}

/// Number of the newest entry of the audit chain.
async fn head(demo: &Demo) -> Value {
    let sent = demo.post_text("READER", "/v1/audit/verify", "{}".to_owned()).send().await.unwrap();
    sent.json::<Value>().await.unwrap()["head"]["number"].clone()
}

async fn load(demo: &Demo, keys: &Keys, text: &str) -> Report {
    import::load(demo.address(), keys, text.lines()).await.unwrap()
}

/// Revision and state of the procedure that is written half.
async fn state(demo: &Demo) -> (Value, Value) {
    let found = demo.get("READER", "/v1/procedures/WPS-910").send().await.unwrap();
    let record: Value = found.json().await.unwrap();
    (record["revision"].clone(), record["state"].clone())
}

#[tokio::test]
async fn a_line_that_was_half_written_is_gone_on_with_and_a_whole_file_changes_nothing() {
    let scratch = Scratch::new();
    let demo = Demo::start(&scratch.data());
    let (author, approver) = (demo.key("AUTHOR").to_owned(), demo.key("APPROVER").to_owned());
    let keys = Keys { author, approver: Some(approver) };

    // What was loaded stands: nothing of it is written again, the second revision of WPS-101 no more than the events
    // of the batch.
    let before = head(&demo).await;
    let scenario = include_str!("../../demo/scenario.ndjson");
    let report = load(&demo, &keys, scenario).await;
    assert_eq!((report.loaded, report.there_already), (0, 32), "{report:#?}");
    assert_eq!(head(&demo).await, before);

    // A mistake in a later step is known before the first write.
    let released = |release: Value, sign: &str| {
        let document = with(procedure(), "/number", json!("WPS-910"));
        json!({"record": "procedure", "document": document, "release": release, "sign": sign})
            .to_string()
    };
    let report = load(&demo, &keys, &released(json!({"foo": 1}), "Seen.")).await;
    assert!(report.refused[0].reason.contains("/release/foo: no such field"), "{report:#?}");
    assert!(report.refused[0].reason.contains("Nothing was written"), "{report:#?}");
    let report = load(&demo, &keys, &released(json!({}), " ")).await;
    assert!(report.refused[0].reason.contains("/sign: the text is empty"), "{report:#?}");
    assert_eq!(state(&demo).await, (Value::Null, Value::Null));
    assert_eq!(head(&demo).await, before);

    // What the service refuses later leaves the line half written, which is said and mended by another import.
    let no_approver = Keys { approver: Some(keys.author.clone()), ..keys.clone() };
    let report = load(&demo, &no_approver, &released(json!({}), "Seen.")).await;
    let reason = &report.refused[0].reason;
    assert!(reason.starts_with("403"), "{reason}");
    let so_far =
        "procedures/WPS-910 revision 1 is written, submitted for review; importing the line again";
    assert!(reason.contains(so_far), "{reason}");
    assert_eq!(state(&demo).await, (json!(1), json!("in-review")));
    let report = load(&demo, &keys, &released(json!({}), "Seen.")).await;
    assert_eq!((report.loaded, report.refused.len()), (1, 0), "{report:#?}");
    assert_eq!(state(&demo).await, (json!(1), json!("released")));
    let history = demo.get("READER", "/v1/procedures/WPS-910/history").send().await.unwrap();
    let history: Value = history.json().await.unwrap();
    assert!(history["revisions"][0]["support_signed_by"].is_string(), "{history:#}");
    back_to_an_older_revision(&demo, &keys).await;
}

/// Back to what an older revision said: a new revision, not the old one.
async fn back_to_an_older_revision(demo: &Demo, keys: &Keys) {
    let other = with(with(procedure(), "/number", json!("WPS-910")), "/title", json!("Another"));
    let revise = |document: &Value| {
        json!({"record": "procedure", "revise": true, "document": document, "release": {}})
            .to_string()
    };
    let first = with(procedure(), "/number", json!("WPS-910"));
    let report = load(demo, keys, &revise(&other)).await;
    assert_eq!(report.loaded, 1, "{report:#?}");
    let report = load(demo, keys, &revise(&first)).await;
    assert_eq!(report.loaded, 1, "{report:#?}");
    assert_eq!(state(demo).await, (json!(3), json!("released")));
    let report = load(demo, keys, &revise(&first)).await;
    assert_eq!(report.there_already, 1, "{report:#?}");
    // The code is taken by another document.
    let taken = with(first, "/title", json!("A third"));
    let report = load(demo, keys, &line("procedure", &taken)).await;
    assert!(report.refused[0].reason.starts_with("409"), "{report:#?}");
}
