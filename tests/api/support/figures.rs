//! Figures of a calculation's answer.

use serde_json::Value;

use super::{Answer, Api};

/// The answer of a calculation.
pub struct Figures(pub Value);

impl Figures {
    /// Asks a calculation, in metric units.
    pub async fn of(api: &Api, calculation: &str, body: &Value) -> Self {
        Self(ask(api, calculation, "metric", body).await.expect(200))
    }

    /// The same, in US customary units.
    pub async fn us(api: &Api, calculation: &str, body: &Value) -> Self {
        Self(ask(api, calculation, "us", body).await.expect(200))
    }

    /// The figure of this name.
    #[track_caller]
    pub fn get(&self, name: &str) -> &Value {
        let figures = self.0["figures"].as_array().unwrap();
        let found = figures.iter().find(|figure| figure["name"] == name);
        found.unwrap_or_else(|| panic!("no figure {name}: {:#}", self.0))
    }

    /// Checks one amount and its unit, within a relative tolerance.
    #[track_caller]
    pub fn near(&self, name: &str, expected: f64, unit: &str, relative: f64) {
        let value = &self.get(name)["value"];
        assert_eq!(value["unit"], unit, "{name}: {value}");
        let got = value["value"].as_f64().unwrap_or_else(|| panic!("{name}: {value}"));
        let most = relative * expected.abs();
        assert!((got - expected).abs() <= most, "{name}: {got} is not {expected}");
    }

    /// Checks the whole value.
    #[track_caller]
    pub fn is(&self, name: &str, expected: &Value) {
        assert_eq!(self.get(name)["value"], *expected, "{name}");
    }

    /// Whether an assumption of a figure holds this text.
    #[track_caller]
    pub fn assumes(&self, name: &str, text: &str) -> bool {
        let assumptions = self.get(name)["assumptions"].as_array().unwrap();
        assumptions.iter().any(|assumption| assumption.as_str().unwrap().contains(text))
    }

    /// Why a figure is not there.
    #[track_caller]
    pub fn why_absent(&self, name: &str) -> &str {
        let absent = self.0["absent"].as_array().unwrap();
        let found = absent.iter().find(|figure| figure["name"] == name);
        found.unwrap_or_else(|| panic!("{name} is not absent: {:#}", self.0))["reason"]
            .as_str()
            .unwrap()
    }
}

/// Asks a calculation as a reader.
pub async fn ask(api: &Api, calculation: &str, units: &str, body: &Value) -> Answer {
    let path = format!("/v1/calculations/{calculation}?units={units}");
    api.post(api.shop.reader(), &path, body).await
}

/// Checks that a body is refused at these places and no other.
#[track_caller]
pub fn refused(answer: &Answer, pointers: &[&str]) {
    answer.problem(422, "invalid-fields");
    assert_eq!(answer.pointers(), pointers, "{answer:?}");
}
