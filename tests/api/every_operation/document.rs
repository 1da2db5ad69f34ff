//! The committed OpenAPI document, as far as the walk reads it.

use std::fs;

use reqwest::Method;
use serde_json::Value;

/// Where the committed document lies.
pub const PLACE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/openapi/openapi.json");

/// The committed document.
pub fn committed() -> Value {
    serde_json::from_str(&fs::read_to_string(PLACE).unwrap()).unwrap()
}

/// One operation of the document.
pub struct Operation {
    pub id: String,
    pub method: Method,
    pub path: String,
    /// The operation object.
    pub object: Value,
}

/// All operations, in the order of the document.
pub fn operations() -> Vec<Operation> {
    let document = committed();
    let paths = document["paths"].as_object().unwrap();
    let mut all = Vec::new();
    for (path, item) in paths {
        for (method, object) in item.as_object().unwrap() {
            all.push(Operation {
                id: object["operationId"].as_str().unwrap_or_default().to_owned(),
                method: method.to_uppercase().parse().unwrap(),
                path: path.clone(),
                object: object.clone(),
            });
        }
    }
    all
}

impl Operation {
    /// Whether a header or query parameter of this name is documented.
    pub fn takes(&self, place: &str, name: Option<&str>) -> bool {
        let parameters = self.object["parameters"].as_array().map(Vec::as_slice);
        parameters.unwrap_or_default().iter().any(|parameter| {
            parameter["in"] == place && name.is_none_or(|name| parameter["name"] == name)
        })
    }

    /// Whether a response of this status is documented.
    pub fn answers(&self, status: u16) -> bool {
        self.object["responses"].get(status.to_string()).is_some()
    }

    /// The path with a record in it.
    pub fn at(&self, named: &str) -> String {
        match (self.path.find('{'), self.path.find('}')) {
            (Some(from), Some(to)) => {
                format!("{}{named}{}", &self.path[..from], &self.path[to + 1..])
            }
            _ => self.path.clone(),
        }
    }

    /// The path of the record that a step belongs to; what is put stands at the path itself.
    pub fn record(&self, named: &str) -> String {
        if self.method == Method::PUT {
            return self.at(named);
        }
        let from = self.path.find('{').unwrap_or(self.path.len());
        format!("{}{named}", &self.path[..from])
    }
}
