//! From JSON text to nodes. Requests consist of names and short texts without an escape, which are read here in one
//! look at each byte; numbers and every other text, errors above all, are left to `serde_json`.

use std::borrow::Cow;

use serde_json::Error;

use super::{
    Members, Node,
    json_text::{is_special, special_in},
};

/// Reads one JSON text, as `serde_json` reads it.
///
/// # Errors
/// Where it is no JSON.
pub fn read_text(bytes: &[u8]) -> Result<Node<'_>, Error> {
    // The whole text is looked at once; read as bytes, each text in it would be.
    let Ok(text) = str::from_utf8(bytes) else { return serde_json::from_slice(bytes) };
    Plain { text, at: 0 }.whole().map_or_else(|| serde_json::from_str(text), Ok)
}

/// Levels of objects and lists that are read here.
const DEEPEST: usize = 16;

/// Members of most objects at most.
const MEMBERS: usize = 12;

/// Items of most lists at most.
const ITEMS: usize = 4;

/// JSON without escapes; `None` from any step leaves the whole text to the library.
struct Plain<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Plain<'a> {
    fn whole(mut self) -> Option<Node<'a>> {
        let first = self.peek()?;
        let value = self.value(first, DEEPEST)?;
        self.peek().is_none().then_some(value)
    }

    /// A value that starts with this byte, which stands next.
    fn value(&mut self, first: u8, levels: usize) -> Option<Node<'a>> {
        match first {
            b'"' => self.plain_text().map(as_node),
            b'{' => self.object(levels.checked_sub(1)?),
            b'[' => self.list(levels.checked_sub(1)?),
            _ => self.left_to_library(),
        }
    }

    fn object(&mut self, levels: usize) -> Option<Node<'a>> {
        let mut members = Vec::with_capacity(MEMBERS);
        let mut next = self.peek_line()?;
        while next != b'}' || !members.is_empty() {
            if next != b'"' {
                return None;
            }
            let name = Cow::Borrowed(self.plain_text()?);
            if self.peek()? != b':' {
                return None;
            }
            self.at += 1;
            // Most values are texts: no call, and no copy of what it gives.
            match self.peek()? {
                b'"' => members.push((name, as_node(self.plain_text()?))),
                first => members.push((name, self.value(first, levels)?)),
            }
            match self.peek_mark()? {
                b',' => next = self.peek_line()?,
                b'}' => break,
                _ => return None,
            }
        }
        self.at += 1;
        Some(Node::Object(Members::from(members)))
    }

    fn list(&mut self, levels: usize) -> Option<Node<'a>> {
        let mut items = Vec::with_capacity(ITEMS);
        let mut next = self.peek_line()?;
        while next != b']' || !items.is_empty() {
            items.push(self.value(next, levels)?);
            match self.peek_mark()? {
                b',' => next = self.peek_line()?,
                b']' => break,
                _ => return None,
            }
        }
        self.at += 1;
        Some(Node::List(items))
    }

    /// The text whose opening quote stands next.
    fn plain_text(&mut self) -> Option<&'a str> {
        let rest = self.text.get(self.at + 1..)?;
        let length = plain_length(rest.as_bytes());
        self.at += length + 2;
        if rest.as_bytes().get(length) == Some(&b'"') { rest.get(..length) } else { None }
    }

    /// A number or a word.
    fn left_to_library(&mut self) -> Option<Node<'a>> {
        let rest = &self.text[self.at..];
        let ends = |byte| matches!(byte, b',' | b'}' | b']') || is_space(byte);
        let length = rest.bytes().position(ends).unwrap_or(rest.len());
        self.at += length;
        serde_json::from_str(&rest[..length]).ok()
    }

    /// The byte that stands next behind spaces, after the mark that stands here.
    fn peek_line(&mut self) -> Option<u8> {
        self.at += 1;
        self.skip_line();
        self.peek()
    }

    /// The mark behind a value. A comma mostly stands right there, the end of an object on a line of its own.
    fn peek_mark(&mut self) -> Option<u8> {
        if self.text.as_bytes().get(self.at) != Some(&b',') {
            self.skip_line();
        }
        self.peek()
    }

    /// Goes to the first word of the next line in one step, where a line ends here.
    fn skip_line(&mut self) {
        if let Some(next) = self.text.as_bytes().get(self.at..).and_then(<[u8]>::first_chunk) {
            self.at += indent(*next);
        }
    }

    /// The byte that stands next behind spaces.
    fn peek(&mut self) -> Option<u8> {
        loop {
            let byte = *self.text.as_bytes().get(self.at)?;
            if !is_space(byte) {
                return Some(byte);
            }
            self.at += 1;
        }
    }
}

/// A text as a value.
const fn as_node(text: &str) -> Node<'_> {
    Node::Text(Cow::Borrowed(text))
}

/// How many of eight bytes are the start of a line and the spaces before its first word.
#[inline]
const fn indent(bytes: [u8; 8]) -> usize {
    let others = u64::from_le_bytes(bytes) ^ u64::from_le_bytes(*b"\n       ");
    others.trailing_zeros() as usize / 8
}

/// Bytes before the first control, quote or backslash; all where there is none. Not copied to each place that asks,
/// where its numbers would be written anew in each round.
#[inline(never)]
fn plain_length(text: &[u8]) -> usize {
    let mut rest = text;
    while let Some((eight, after)) = rest.split_first_chunk() {
        let special = special_in(*eight);
        if special != 0 {
            return text.len() - rest.len() + special.trailing_zeros() as usize / 8;
        }
        rest = after;
    }
    let in_rest = rest.iter().position(|byte| is_special(*byte));
    text.len() - rest.len() + in_rest.unwrap_or(rest.len())
}

const fn is_space(byte: u8) -> bool {
    matches!(byte, b' ' | b'\n' | b'\t' | b'\r')
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::Value;

    use super::*;

    /// Whether it was read here; that it is read as the library reads it.
    fn agree(text: &str) -> bool {
        let library: Result<Node<'_>, _> = serde_json::from_str(text);
        match (read_text(text.as_bytes()), library) {
            (Ok(read), Ok(expected)) => assert_eq!(read, expected, "{text:?}"),
            (Err(error), Err(expected)) => {
                assert_eq!(error.to_string(), expected.to_string(), "{text:?}");
            }
            (read, expected) => panic!("{text:?}: {read:?} for {expected:?}"),
        }
        Plain { text, at: 0 }.whole().is_some()
    }

    #[test]
    fn what_requests_consist_of_is_read_here_and_the_rest_is_left() {
        for text in [
            r#"{"procedure": "WPS-101", "revision": 2, "keep": true, "id": null}"#,
            "{\"base_metals\":[{\"group\":\"1.2\"},{}],\n\t\"unit\": \"°F\" , \"a\":[ ],\r\"a\":[[-1.5e3]]}",
            " \"240 A\" ",
            "{\"a\":\"1 A\",\"b\":null,\"a\":\"2 A\"}",
            "-0",
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
            "1.",
            ".5",
            "+1",
            "NaN",
            "1e999",
            "\"tab\there\"",
            r#""es\u0063aped""#,
            r#""3\/4 in""#,
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
