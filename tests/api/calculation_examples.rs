//! The example of every calculation in the committed document is a request that works, and every figure of
//! its answer says where it comes from.

use std::collections::BTreeMap;

use reqwest::Method;
use serde_json::Value;

use crate::{every_operation::operations, support::Api};

/// Examples by path.
fn examples() -> BTreeMap<String, Value> {
    let calculations = operations().into_iter().filter(|operation| {
        operation.method == Method::POST && operation.path.starts_with("/v1/calculations/")
    });
    calculations
        .map(|operation| {
            let content = &operation.object["requestBody"]["content"]["application/json"];
            (operation.path, content["example"].clone())
        })
        .collect()
}

#[tokio::test]
async fn every_example_gives_figures_with_their_sources() {
    let api = Api::start().await;
    let examples = examples();
    assert!(examples.len() >= 15, "only {} calculations", examples.len());
    for (path, example) in examples {
        assert!(example.is_object(), "{path} has no example");
        for units in ["metric", "us"] {
            let path = format!("{path}?units={units}");
            let answer = api.post(api.shop.reader(), &path, &example).await;
            assert_eq!(answer.status, 200, "{path}: {}", answer.text);
            check(&path, &answer.json());
        }
    }
}

/// A comparison has figures of its basis and of each option.
fn check(path: &str, answer: &Value) {
    let says = |object: &Value, member: &str| {
        object[member].as_str().is_some_and(|text| !text.trim().is_empty())
    };
    assert!(says(answer, "caution"), "{path}");
    let Some(basis) = answer.get("basis") else { return check_figures(path, answer) };
    check_figures(path, basis);
    let ranked = answer["ranked"].as_array().unwrap();
    assert!(!ranked.is_empty(), "{path} ranks nothing: {answer:#}");
    for option in ranked.iter().chain(answer["unranked"].as_array().unwrap()) {
        check_figures(path, option);
    }
}

fn check_figures(path: &str, answer: &Value) {
    let figures = answer["figures"].as_array().unwrap();
    assert!(!figures.is_empty(), "{path} gives no figure: {answer:#}");
    let says = |object: &Value, member: &str| {
        object[member].as_str().is_some_and(|text| !text.trim().is_empty())
    };
    for figure in figures {
        for member in ["name", "formula", "equation", "source", "validity", "confidence"] {
            assert!(says(figure, member), "{path}: a figure without {member}: {figure}");
        }
        assert!(has_value(&figure["value"]), "{path}: a figure without value: {figure}");
        let assumptions = figure["assumptions"].as_array().unwrap();
        let blank = assumptions.iter().any(|text| text.as_str().unwrap().trim().is_empty());
        assert!(!blank, "{path}: an assumption that says nothing: {figure}");
    }
    for absent in answer["absent"].as_array().unwrap() {
        assert!(says(absent, "name") && says(absent, "reason"), "{path}: {absent}");
    }
}

/// An amount or range with its unit, money with its currency, ranges, or words.
fn has_value(value: &Value) -> bool {
    match value {
        Value::Object(members) => {
            let ends = ["value", "min", "max"];
            let measured_in = members.get("unit").or_else(|| members.get("currency"));
            measured_in.is_some_and(Value::is_string)
                && ends.iter().any(|end| members.contains_key(*end))
        }
        Value::Array(items) => !items.is_empty(),
        _ => false,
    }
}
