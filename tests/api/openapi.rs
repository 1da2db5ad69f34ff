//! The committed OpenAPI document against the router, and against its own form (OpenAPI 3.1.0, sections
//! 4.8.9 "Paths Object" to 4.8.17 "Response Object" and 4.8.23 "Reference Object").

use std::{collections::BTreeSet, env, fs};

use serde_json::Value;

use crate::{
    every_operation::{PLACE, committed, operations},
    support::Api,
};

/// `UPDATE_OPENAPI=1` writes it anew.
#[test]
fn the_committed_document_is_that_of_the_router() {
    let current = arcbounds::http::document().unwrap();
    if env::var("UPDATE_OPENAPI").is_ok_and(|value| value == "1") {
        fs::write(PLACE, &current).unwrap();
    }
    let kept = fs::read_to_string(PLACE).unwrap();
    assert!(kept == current, "openapi/openapi.json is old; UPDATE_OPENAPI=1 writes it anew");
}

#[tokio::test]
async fn the_service_serves_the_committed_document() {
    let api = Api::start().await;
    let served = api.call(reqwest::Method::GET, "/openapi.json").send().await.expect(200);
    assert!(served == committed(), "another document is served");
}

#[test]
fn the_document_introduces_the_service() {
    let document = committed();
    assert!(document["openapi"].as_str().unwrap().starts_with("3.1"));
    let info = &document["info"];
    assert_eq!(info["title"], "arcbounds");
    assert_eq!(info["version"], env!("CARGO_PKG_VERSION"));
    assert!(info["description"].as_str().unwrap().contains("before the arc"));
    assert_eq!(info["license"]["identifier"], "MIT");
    // The derived default names the author of the package; nobody is named here.
    assert!(info["contact"].as_object().is_none_or(serde_json::Map::is_empty));
    assert_eq!(document["components"]["securitySchemes"]["key"]["scheme"], "bearer");
}

#[test]
fn every_operation_says_what_it_is() {
    let document = committed();
    let tags: BTreeSet<_> = document["tags"]
        .as_array()
        .unwrap()
        .iter()
        .map(|tag| tag["name"].as_str().unwrap())
        .collect();
    let mut ids = BTreeSet::new();
    for operation in operations() {
        let (id, object) = (&operation.id, &operation.object);
        assert!(!id.is_empty(), "{} {}", operation.method, operation.path);
        assert!(ids.insert(id.clone()), "{id} twice");
        let own: Vec<_> = object["tags"].as_array().unwrap().iter().collect();
        assert_eq!(own.len(), 1, "{id}");
        assert!(tags.contains(own[0].as_str().unwrap()), "{id}: {} is not described", own[0]);
        for member in ["summary", "description"] {
            assert!(object[member].as_str().is_some_and(|text| !text.is_empty()), "{id}: {member}");
        }
        let parameters = object["parameters"].as_array().map(Vec::as_slice).unwrap_or_default();
        for parameter in parameters {
            assert!(
                parameter["description"].as_str().is_some_and(|t| !t.is_empty()),
                "{id}: {parameter}"
            );
        }
        let templates = operation.path.matches('{').count();
        let in_path = parameters.iter().filter(|parameter| parameter["in"] == "path").count();
        assert_eq!(templates, in_path, "{id}: parameters of the path");
    }
}

#[test]
fn every_response_is_described_and_problems_are_problems() {
    for operation in operations() {
        let responses = operation.object["responses"].as_object().unwrap();
        assert!(responses.keys().any(|status| status.starts_with('2')), "{}", operation.id);
        for (status, response) in responses {
            let at = format!("{} {status}", operation.id);
            let description = response["description"].as_str();
            assert!(description.is_some_and(|text| !text.is_empty()), "{at}");
            let media: Vec<_> = response["content"]
                .as_object()
                .into_iter()
                .flatten()
                .map(|(name, _)| name)
                .collect();
            if status.starts_with(['4', '5']) {
                assert_eq!(media, ["application/problem+json"], "{at}");
                let schema = &response["content"]["application/problem+json"]["schema"]["$ref"];
                assert_eq!(*schema, "#/components/schemas/ProblemBody", "{at}");
            } else {
                assert_eq!(media.is_empty(), status == "304", "{at}");
            }
        }
    }
}

/// A key is asked for everywhere but at the health of the service.
#[test]
fn operations_without_a_key_are_few_and_known() {
    assert_eq!(committed()["security"], serde_json::json!([{ "key": [] }]));
    let open: Vec<_> = operations()
        .into_iter()
        .filter(|operation| operation.object.get("security").is_some())
        .map(|operation| operation.path)
        .collect();
    assert_eq!(open, ["/health/live", "/health/ready", "/metrics"]);
}

#[test]
fn every_reference_leads_somewhere() {
    let document = committed();
    let mut references = Vec::new();
    collect(&document, &mut references);
    assert!(references.len() > 100, "the document has references");
    for reference in &references {
        let pointer = reference.strip_prefix('#').unwrap_or_else(|| panic!("{reference}"));
        assert!(document.pointer(pointer).is_some(), "{reference} leads nowhere");
    }
    let used: BTreeSet<_> = references.into_iter().collect();
    for name in document["components"]["schemas"].as_object().unwrap().keys() {
        let reference = format!("#/components/schemas/{name}");
        assert!(used.contains(reference.as_str()), "{name} is used nowhere");
    }
}

fn collect<'a>(value: &'a Value, into: &mut Vec<&'a str>) {
    match value {
        Value::Object(members) => {
            into.extend(members.get("$ref").and_then(Value::as_str));
            members.values().for_each(|member| collect(member, into));
        }
        Value::Array(items) => items.iter().for_each(|item| collect(item, into)),
        _ => {}
    }
}
