//! From JSON text to nodes. Requests consist of names and short texts without an escape, which are read in one look at
//! each byte ([`PlainText`]); numbers and every other text, errors above all, are left to `serde_json`.

use std::cell::RefCell;

use serde::de::DeserializeSeed;
use serde_json::{Deserializer, de::Read};

use super::{Errors, Node, Place, PlainText, node::NodeReader};
use crate::http::problem::{FieldError, Problem, UNREADABLE};

/// Why a text cannot be read.
#[derive(Debug, thiserror::Error)]
pub enum Unread {
    /// It is no JSON.
    #[error("no JSON: {0}")]
    NoJson(#[from] serde_json::Error),
    /// Members that their objects have more than once. Readers differ in which one counts, so none does.
    #[error("{} is given more than once", .0[0].pointer)]
    Doubled(Vec<FieldError>),
}

impl Unread {
    /// The problem of a body or a line.
    #[must_use]
    pub fn problem(self, what: &str) -> Problem {
        match self {
            Self::NoJson(error) => {
                Problem::new(&UNREADABLE, format!("{what} is no JSON: {error}."))
            }
            Self::Doubled(members) => Problem::fields(members),
        }
    }
}

/// Reads one JSON text, as `serde_json` reads it, but that no object may have two members of one name.
///
/// # Errors
/// Where it is no JSON, or a member is given more than once.
pub fn read_text(bytes: &[u8]) -> Result<Node<'_>, Unread> {
    // The whole text is looked at once; read as bytes, each text in it would be.
    let Ok(text) = str::from_utf8(bytes) else {
        return by_library(Deserializer::from_slice(bytes));
    };
    let node = PlainText::whole(text, PlainText::value);
    node.map_or_else(|| by_library(Deserializer::from_str(text)), Ok)
}

fn by_library<'a, R: Read<'a>>(mut text: Deserializer<R>) -> Result<Node<'a>, Unread> {
    let errors = RefCell::new(Errors::default());
    let node = NodeReader { at: Place::Root, errors: &errors }.deserialize(&mut text)?;
    text.end()?;
    let doubled = errors.into_inner().met;
    if doubled.is_empty() { Ok(node) } else { Err(Unread::Doubled(doubled)) }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::Value;

    use super::*;
    use crate::wire::plain_text::DEEPEST;

    /// Whether it was read here; that it is read as the library reads it.
    fn agree(text: &str) -> bool {
        let library: Result<Value, _> = serde_json::from_str(text);
        match (read_text(text.as_bytes()), library) {
            (Ok(read), Ok(expected)) => assert_eq!(read, Node::from(&expected), "{text:?}"),
            (Err(Unread::Doubled(members)), Ok(_)) => assert!(!members.is_empty()),
            (Err(Unread::NoJson(error)), Err(expected)) => {
                assert_eq!(error.to_string(), expected.to_string(), "{text:?}");
            }
            (read, expected) => panic!("{text:?}: {read:?} for {expected:?}"),
        }
        PlainText::whole(text, PlainText::value).is_some()
    }

    #[test]
    fn what_requests_consist_of_is_read_here_and_the_rest_is_left() {
        for text in [
            r#"{"procedure": "WPS-101", "revision": 2, "keep": true, "id": null}"#,
            "{\"base_metals\":[{\"group\":\"1.2\"},{}],\n\t\"unit\": \"°F\" , \"a\":[ ],\r\"b\":[[-1.5e3]]}",
            " \"240 A\" ",
            "{\"a\":\"1 A\",\"b\":null,\"c\":\"2 A\"}",
            "-0",
            "[0, 7, 10, 123456789, 1234567890, 18446744073709551616, 1e2, 10.5, 0.5]",
            "123456789 ",
            "[\"\u{7f}\", \"\u{2028}\"]",
        ] {
            assert!(agree(text), "{text:?}");
        }
        let deep = "[".repeat(DEEPEST + 1) + &"]".repeat(DEEPEST + 1);
        let too_deep = "[".repeat(1000) + &"]".repeat(1000);
        for text in [
            "",
            " ",
            "{",
            "[",
            "\"",
            "{\"a\"",
            "{\"a\":",
            "{\"a\":1",
            "[1",
            "[1,]",
            "[,1]",
            "{\"a\":1,}",
            "{,}",
            "{a:1}",
            "{\"a\" 1}",
            "{\"a\":1 \"b\":2}",
            "{1:2}",
            "[1 2]",
            "1 2",
            "{} {}",
            "tru",
            "truer",
            "01",
            "00",
            "1x",
            "12\"",
            "1.",
            ".5",
            "+1",
            "NaN",
            "1e999",
            "\"tab\there\"",
            r#""es\u0063aped""#,
            r#""3\/4 in""#,
            r#"{"a":1,"a":1}"#,
            "\"half",
            "é",
            "'a'",
            "\u{feff}1",
            deep.as_str(),
            too_deep.as_str(),
        ] {
            assert!(!agree(text), "{text:?}");
        }
        assert!(read_text(b"\"\xff\"").is_err() && read_text(b"\xff").is_err());
    }

    /// RFC 8259, section 4, and RFC 7493 (I-JSON), section 2.3: names within an object are unique.
    #[test]
    fn each_member_that_is_given_twice_is_named_wherever_it_stands() {
        let doubled = |text: &str| match read_text(text.as_bytes()) {
            Err(Unread::Doubled(members)) => {
                members.into_iter().map(|member| member.pointer).collect()
            }
            _ => Vec::new(),
        };
        for (text, expected) in [
            (r#"{"a":1,"a":1}"#, &["/a"][..]),
            (r#"{"a":1,"\u0061":2,"a":3}"#, &["/a"]),
            (r#"{"a":null,"a":1}"#, &["/a"]),
            (r#"{"a":1,"a":null}"#, &["/a"]),
            (r#"[{"a":{}},{"a":{"b/c":1,"b/c":1},"d":1,"d":{}}]"#, &["/1/a/b~1c", "/1/d"]),
            (r#"{"a":{"b":1},"c":{"b":1},"A":1}"#, &[]),
        ] {
            assert_eq!(doubled(text), expected, "{text}");
        }
        let many: Vec<_> = (0..50_000).map(|index| format!("\"m{index}\":null")).collect();
        assert!(read_text(format!("{{{}}}", many.join(",")).as_bytes()).is_ok());
        assert_eq!(doubled(&format!("{{{},\"m7\":0}}", many.join(","))), ["/m7"]);
    }

    fn any_json() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            "[a-z0-9°/ ]{0,20}".prop_map(Value::from),
            any::<String>().prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 40, 6, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
                prop::collection::hash_map("[a-z_]{0,9}", inner, 0..6)
                    .prop_map(|members| members.into_iter().collect()),
            ]
        })
    }

    proptest! {
        #[test]
        fn every_text_is_read_as_the_library_reads_it(
            value in any_json(),
            line in prop::option::of(prop::sample::select(["\n", "\r\n", "\n\t", "\n\n   "].as_slice())),
        ) {
            agree(&line.map_or_else(
                || value.to_string(),
                |line| format!("{value:#}").replace('\n', line),
            ));
        }

        #[test]
        fn a_damaged_text_is_read_or_refused_as_by_the_library(
            value in any_json(),
            place: prop::sample::Index,
            byte in prop::sample::select(br#"{}[]",:\ 1e-t"#.as_slice()),
        ) {
            let mut text = value.to_string();
            let places: Vec<_> = text.char_indices().map(|(place, _)| place).collect();
            let place = *place.get(&places);
            text.insert(place, char::from(byte));
            agree(&text);
            text.remove(place);
            text.remove(place);
            agree(&text);
        }
    }
}
