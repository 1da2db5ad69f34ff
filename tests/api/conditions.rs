//! Data editions of consumables: their projected rows, old editions, and conditions that are alike.

use serde_json::{Value, json};

use crate::{
    behind::{etag, rows},
    projections::{canonical, range, text},
    support::{Api, documents},
};

/// Every condition row that the newest document of every consumable asks for.
async fn conditions_of_documents(api: &Api) -> Vec<Value> {
    let documents = rows(
        api,
        "select v.code, v.document from record r join record_revision v
         using (organisation_id, kind, code, revision, edit) where r.kind = 'consumable'",
    )
    .await;
    let mut expected = Vec::new();
    for row in documents {
        for data in row["document"]["data"].as_array().unwrap() {
            for condition in data["conditions"].as_array().unwrap() {
                let diameter = &condition["diameter"];
                let unit = diameter["unit"].as_str().unwrap();
                let mut positions: Vec<_> =
                    condition["positions"].as_array().into_iter().flatten().map(text).collect();
                positions.sort();
                let limit = |member: &str| match condition["limits"].get(member) {
                    Some(value) => json!(range(member, value)),
                    None => Value::Null,
                };
                expected.push(json!({
                    "code": row["code"],
                    "document": data["document"],
                    "edition": data["edition"],
                    "diameter": canonical("diameter", &diameter["value"], unit),
                    "gas": text(&condition["gas"]),
                    "polarity": condition["polarity"],
                    "positions": positions.join(" "),
                    "wire_feed": limit("wire_feed"),
                    "voltage": limit("voltage"),
                    "stick_out": limit("electrical_stick_out"),
                }));
            }
        }
    }
    expected.sort_by_key(ToString::to_string);
    expected
}

async fn condition_rows(api: &Api) -> Vec<Value> {
    let mut found = rows(
        api,
        "select code, document, edition, diameter_mm::text as diameter, gas, polarity, positions,
                wire_feed::text, voltage::text, stick_out::text from consumable_condition",
    )
    .await;
    // In the order of members of the expected ones.
    for row in &mut found {
        let members = [
            "code",
            "document",
            "edition",
            "diameter",
            "gas",
            "polarity",
            "positions",
            "wire_feed",
            "voltage",
            "stick_out",
        ];
        *row = members.iter().map(|name| ((*name).to_owned(), row[name].clone())).collect();
    }
    found.sort_by_key(ToString::to_string);
    found
}

/// The consumable with a newer edition for two diameters beside the first one, one of them in inches.
fn with_new_edition() -> Value {
    let condition = |diameter: &str, positions: &[&str]| {
        json!({
            "diameter": diameter, "gas": "M21", "polarity": "DCEP",
            "positions": (!positions.is_empty()).then_some(positions),
            "points": [{ "wire_feed": "300 in/min", "current": "210 A", "voltage": "25 V" }],
            "limits": { "wire_feed": "200 to 500 in/min", "voltage": { "min": 22, "unit": "V" } },
        })
    };
    let edition = json!({
        "document": "Data sheet 1", "edition": "2026",
        "conditions": [
            condition("0.045 in", &[]), condition("1.2 mm", &["PF", "PA"]), condition("1.2 mm", &["PC"]),
        ],
    });
    let first = documents::consumable()["data"][0].clone();
    let document = documents::with(documents::consumable(), "/data", json!([first, edition]));
    documents::with(document, "/diameters", json!(["1.2 mm", "0.045 in"]))
}

#[tokio::test]
async fn condition_rows_are_what_the_documents_say() {
    let api = Api::furnished().await;
    assert_eq!(condition_rows(&api).await, conditions_of_documents(&api).await);
    let path = "/v1/consumables/FCW-1";
    let now = etag(&api, path).await;
    api.put(api.shop.author(), path, &now, &with_new_edition()).await.expect(200);
    let found = condition_rows(&api).await;
    assert_eq!(found, conditions_of_documents(&api).await);
    assert_eq!(found.len(), 4, "the old edition and three conditions of the new one");
    // Own arithmetic: 0.045 in = 1.143 mm; 200 and 500 in/min = 5.08 and 12.7 m/min.
    let inch = found.iter().find(|row| row["diameter"] == "1.143").unwrap();
    assert_eq!((&inch["wire_feed"], &inch["voltage"]), (&json!("[5.08,12.7]"), &json!("[22,)")));
}

#[tokio::test]
async fn old_editions_stay_readable() {
    let api = Api::furnished().await;
    let path = "/v1/consumables/FCW-1";
    let first = api.get(api.shop.reader(), path).await.expect(200);
    let now = etag(&api, path).await;
    api.put(api.shop.author(), path, &now, &with_new_edition()).await.expect(200);
    // Then a document without the old edition.
    let newest =
        documents::with(with_new_edition(), "/data", json!([with_new_edition()["data"][1]]));
    let now = etag(&api, path).await;
    api.put(api.shop.author(), path, &now, &newest).await.expect(200);
    assert_eq!(condition_rows(&api).await, conditions_of_documents(&api).await);
    let editions = |body: &Value| -> Vec<String> {
        body["document"]["data"].as_array().unwrap().iter().map(|d| text(&d["edition"])).collect()
    };
    for (revision, expected) in [(1, vec!["2024"]), (2, vec!["2024", "2026"]), (3, vec!["2026"])] {
        let read =
            api.get(api.shop.reader(), &format!("{path}?revision={revision}")).await.expect(200);
        assert_eq!(editions(&read), expected, "revision {revision}");
        assert_eq!(read["revision"], revision);
    }
    let again = api.get(api.shop.reader(), &format!("{path}?revision=1")).await.expect(200);
    assert_eq!(again["document"], first["document"]);
    assert_eq!(again["document_hash"], first["document_hash"]);
    for missing in ["?revision=4", "?revision=0"] {
        api.get(api.shop.reader(), &format!("{path}{missing}")).await.problem(404, "not-found");
    }
}

#[tokio::test]
async fn two_alike_conditions_are_refused_where_the_second_stands() {
    let api = Api::start().await;
    let first = documents::consumable()["data"][0]["conditions"][0].clone();
    let with = |second: Value| {
        documents::with(documents::consumable(), "/data/0/conditions", json!([first, second]))
    };
    // One diameter in two units: 0.045 in is 1.143 mm (own arithmetic).
    let metric = documents::with(first.clone(), "/diameter", json!("1.143 mm"));
    let inch = documents::with(first.clone(), "/diameter", json!("0.045 in"));
    let units = documents::with(with(inch), "/data/0/conditions/0", metric);
    let units = documents::with(units, "/diameters", json!(["0.045 in"]));
    let ordered =
        |positions: &[&str]| documents::with(first.clone(), "/positions", json!(positions));
    let positions = documents::with(
        with(ordered(&["PB", "PA"])),
        "/data/0/conditions/0",
        ordered(&["PA", "PB"]),
    );
    let overlap =
        documents::with(with(ordered(&["PF", "PA"])), "/data/0/conditions/0", ordered(&["PA"]));
    for document in [with(first.clone()), units, positions, overlap] {
        let refused = api.post(api.shop.author(), "/v1/consumables", &document).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), ["/data/0/conditions/1"], "{document}");
        assert!(refused.text.contains("/data/0/conditions/0"), "{}", refused.text);
    }
    for (member, value) in
        [("/gas", json!("M20")), ("/polarity", json!("DCEN")), ("/positions", json!(["PA"]))]
    {
        let apart =
            documents::with(with(first.clone()), &format!("/data/0/conditions/1{member}"), value);
        let code = format!("FCW-{}", &member[1..]);
        let apart = documents::with(apart, "/code", json!(code));
        api.post(api.shop.author(), "/v1/consumables", &apart).await.expect(201);
    }
    assert_eq!(condition_rows(&api).await, conditions_of_documents(&api).await);
}

/// Names of documents are part of an index of the database; a long one is a field error.
#[tokio::test]
async fn a_long_name_of_a_data_document_is_a_field_error() {
    let api = Api::start().await;
    // Not to be compressed, so that the index would have to take all of it.
    let long: String =
        (0..900_u32).map(|index| char::from_u32(0x4e00 + index * 7919 % 20_000).unwrap()).collect();
    let document = documents::with(documents::consumable(), "/data/0/document", json!(long));
    let refused = api.post(api.shop.author(), "/v1/consumables", &document).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/data/0/document"]);
}
