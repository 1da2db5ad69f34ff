//! Whether an answer has what a shortened one promises.

use serde_json::Value;

/// Where an answer lacks what is promised; empty where it has all. Members of an object may be left
/// out. Items of a list may be left out too, but keep their order; an empty list promises an empty one.
pub fn lacking(promised: &Value, answer: &Value) -> Vec<String> {
    let mut found = Vec::new();
    compare(promised, answer, "", &mut found);
    found
}

fn compare(promised: &Value, answer: &Value, at: &str, found: &mut Vec<String>) {
    match (promised, answer) {
        (Value::Object(promised), Value::Object(answer)) => {
            for (name, value) in promised {
                let at = format!("{at}/{name}");
                match answer.get(name) {
                    Some(own) => compare(value, own, &at, found),
                    None => found.push(format!("{at} is not there")),
                }
            }
        }
        (Value::Array(promised), Value::Array(answer)) => {
            if promised.is_empty() && !answer.is_empty() {
                found.push(format!("{at} has items"));
            }
            let mut rest = answer.iter();
            for (index, value) in promised.iter().enumerate() {
                if !rest.any(|own| lacking(value, own).is_empty()) {
                    found.push(format!("{at}/{index} is not there: {value} in {answer:?}"));
                    return;
                }
            }
        }
        _ if promised == answer => {}
        _ => found.push(format!("{at} is {answer}, not {promised}")),
    }
}

#[test]
fn what_is_promised_has_to_be_there() {
    let answer = serde_json::json!({"a": [1, {"b": 2, "c": 3}, 4], "d": [], "e": "f"});
    let holds = |promised: Value| lacking(&promised, &answer).is_empty();
    assert!(holds(serde_json::json!({"a": [1, {"c": 3}], "d": []})));
    assert!(!holds(serde_json::json!({"a": [{"c": 3}, 1]})));
    assert!(!holds(serde_json::json!({"a": []})));
    assert!(!holds(serde_json::json!({"a": [{"c": 4}]})));
    assert!(!holds(serde_json::json!({"e": "g"})));
    assert!(!holds(serde_json::json!({"x": 1})));
}
