//! Requests and answers held to the schemas and headers that the document gives them. OpenAPI 3.1 describes bodies by
//! JSON Schema, draft 2020-12 (OpenAPI 3.1.0, section 4.8.24).

use jsonschema::Validator;
use serde_json::Value;

use super::Operation;
use crate::support::Answer;

/// Headers that say something about an answer.
const TELLING: &[&str] = &[
    "accept-encoding",
    "content-disposition",
    "etag",
    "link",
    "location",
    "retry-after",
    "rulebook-version",
    "www-authenticate",
];

/// The document as it is served.
pub struct Served(Value);

impl Served {
    pub fn new() -> Self {
        Self(serde_json::from_str(&arcbounds::http::document().unwrap()).unwrap())
    }

    fn operation(&self, operation: &Operation) -> &Value {
        let method = operation.method.as_str().to_lowercase();
        &self.0["paths"][&operation.path][&method]
    }

    fn validator(&self, content: &Value) -> Validator {
        let mut schema = content["schema"].clone();
        assert!(schema.is_object(), "no schema: {content}");
        schema["components"] = self.0["components"].clone();
        jsonschema::validator_for(&schema).unwrap()
    }

    /// What is wrong with an answer.
    pub fn faults_of_answer(&self, operation: &Operation, answer: &Answer) -> Vec<String> {
        let response = &self.operation(operation)["responses"][answer.status.to_string()];
        let declared = response["headers"].as_object();
        let is_declared = |name: &str| {
            declared.is_some_and(|headers| headers.keys().any(|key| key.eq_ignore_ascii_case(name)))
        };
        let undeclared =
            TELLING.iter().filter(|name| answer.headers.contains_key(**name) && !is_declared(name));
        let mut faults: Vec<_> = undeclared
            .map(|name| format!("{}: the header {name} is not declared", answer.status))
            .collect();
        let media = answer.header("content-type").split(';').next().unwrap_or_default();
        let content = &response["content"][media];
        let values: Vec<Value> = match media {
            "application/json" | "application/problem+json" => vec![answer.json()],
            "application/x-ndjson" if content["schema"].get("$ref").is_some() => {
                answer.text.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
            }
            _ => return faults,
        };
        let validator = self.validator(content);
        let wrong = values.iter().flat_map(|value| validator.iter_errors(value));
        faults.extend(
            wrong
                .take(5)
                .map(|error| format!("{} {}: {error}", answer.status, error.instance_path())),
        );
        faults
    }

    /// What is wrong with a body that the service takes.
    pub fn faults_of_body(&self, operation: &Operation, body: &Value) -> Vec<String> {
        let content = &self.operation(operation)["requestBody"]["content"]["application/json"];
        let validator = self.validator(content);
        let faults = validator.iter_errors(body).take(5);
        faults.map(|error| format!("body {}: {error}", error.instance_path())).collect()
    }
}
