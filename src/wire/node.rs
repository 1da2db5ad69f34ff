//! JSON as it was sent, borrowed from the request's own bytes: reading a body copies no text that needs no copy.

use std::{borrow::Cow, cell::RefCell, collections::HashSet, fmt};

use serde::{
    Deserialize, Deserializer,
    de::{DeserializeSeed, MapAccess, SeqAccess, Visitor},
};
use serde_json::{Map, Number, Value};

use super::{Errors, Place};

/// Members among which each name is looked for; among more, they are hashed.
const FEW: usize = 32;

/// One JSON value.
#[derive(Debug, Clone, PartialEq)]
pub enum Node<'a> {
    /// `null`.
    Null,
    /// `true` or `false`.
    Bool(bool),
    /// A number.
    Number(Number),
    /// A text.
    Text(Cow<'a, str>),
    /// A list.
    List(Vec<Node<'a>>),
    /// An object.
    Object(Members<'a>),
}

/// Members of an object, in the order they were sent, each name once; one that is `null` is as if it had been left out,
/// since many a front end writes every member that it knows. Objects of requests are small: a look at each name is
/// faster than a hash table.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Members<'a>(Vec<Pair<'a>>);

/// A name and its value.
type Pair<'a> = (Cow<'a, str>, Node<'a>);

impl<'a> Members<'a> {
    /// The member of this name.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Node<'a>> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, value)| value)
    }

    /// Whether there is none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether there is a member of this name.
    #[must_use]
    pub fn contains(&self, name: &str) -> bool {
        self.get(name).is_some()
    }

    /// The members but those of these names.
    #[must_use]
    pub fn without(&self, names: &[&str]) -> Self {
        let kept = self.0.iter().filter(|(name, _)| !names.contains(&name.as_ref()));
        Self(kept.cloned().collect())
    }

    /// All names.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.0.iter().map(|(name, _)| name.as_ref())
    }

    /// All members.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Node<'a>)> {
        self.0.iter().map(|(name, value)| (name.as_ref(), value))
    }
}

impl<'a> Node<'a> {
    /// The text.
    #[must_use]
    pub fn as_str(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// `true` or `false`.
    #[must_use]
    pub const fn as_bool(&self) -> Option<bool> {
        match self {
            Self::Bool(value) => Some(*value),
            _ => None,
        }
    }

    /// The number, where it is whole and not negative.
    #[must_use]
    pub fn as_u64(&self) -> Option<u64> {
        match self {
            Self::Number(number) => number.as_u64(),
            _ => None,
        }
    }

    /// The items of a list.
    #[must_use]
    pub fn as_list(&self) -> Option<&[Self]> {
        match self {
            Self::List(items) => Some(items),
            _ => None,
        }
    }

    /// The members of an object.
    #[must_use]
    pub const fn as_object(&self) -> Option<&Members<'a>> {
        match self {
            Self::Object(members) => Some(members),
            _ => None,
        }
    }

    /// A member of an object.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Self> {
        self.as_object()?.get(name)
    }

    /// Whether it is `null`.
    #[must_use]
    pub const fn is_null(&self) -> bool {
        matches!(self, Self::Null)
    }

    /// What it is called in a message.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Null => "null",
            Self::Bool(_) => "true or false",
            Self::Number(_) => "a number",
            Self::Text(_) => "a text",
            Self::List(_) => "a list",
            Self::Object(_) => "an object",
        }
    }

    /// The same as a value of its own, to keep.
    #[must_use]
    pub fn to_value(&self) -> Value {
        match self {
            Self::Null => Value::Null,
            Self::Bool(value) => Value::Bool(*value),
            Self::Number(number) => Value::Number(number.clone()),
            Self::Text(text) => Value::String(text.clone().into_owned()),
            Self::List(items) => Value::Array(items.iter().map(Self::to_value).collect()),
            Self::Object(members) => Value::Object(
                members.iter().map(|(name, value)| (name.to_owned(), value.to_value())).collect(),
            ),
        }
    }
}

impl<'a> From<Vec<Pair<'a>>> for Members<'a> {
    fn from(mut pairs: Vec<Pair<'a>>) -> Self {
        pairs.retain(|(_, value)| !value.is_null());
        Self(pairs)
    }
}

impl<'a> From<&'a Value> for Node<'a> {
    fn from(value: &'a Value) -> Self {
        match value {
            Value::Null => Self::Null,
            Value::Bool(value) => Self::Bool(*value),
            Value::Number(number) => Self::Number(number.clone()),
            Value::String(text) => Self::Text(Cow::Borrowed(text)),
            Value::Array(items) => Self::List(items.iter().map(Self::from).collect()),
            Value::Object(members) => Self::Object(members.into()),
        }
    }
}

impl<'a> From<&'a Map<String, Value>> for Members<'a> {
    fn from(members: &'a Map<String, Value>) -> Self {
        let pairs = members.iter();
        let pairs = pairs.map(|(name, value)| (Cow::Borrowed(name.as_str()), value.into()));
        pairs.collect::<Vec<_>>().into()
    }
}

/// Reads a node with the library, and notes each member that an object has more than once.
#[derive(Debug, Clone, Copy)]
pub(super) struct NodeReader<'p> {
    /// Where the node stands.
    pub(super) at: Place<'p>,
    /// What was noted.
    pub(super) errors: &'p RefCell<Errors>,
}

impl<'de> DeserializeSeed<'de> for NodeReader<'_> {
    type Value = Node<'de>;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Node<'de>, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for NodeReader<'_> {
    type Value = Node<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any JSON value")
    }

    fn visit_unit<E>(self) -> Result<Node<'de>, E> {
        Ok(Node::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Node<'de>, E> {
        Ok(Node::Bool(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Node<'de>, E> {
        Ok(Node::Number(value.into()))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Node<'de>, E> {
        Ok(Node::Number(value.into()))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Node<'de>, E> {
        Ok(Number::from_f64(value).map_or(Node::Null, Node::Number))
    }

    fn visit_borrowed_str<E>(self, text: &'de str) -> Result<Node<'de>, E> {
        Ok(Node::Text(Cow::Borrowed(text)))
    }

    fn visit_str<E>(self, text: &str) -> Result<Node<'de>, E> {
        Ok(Node::Text(Cow::Owned(text.to_owned())))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Node<'de>, A::Error> {
        let mut list = Vec::new();
        let below = |index| NodeReader { at: Place::Item(&self.at, index), errors: self.errors };
        while let Some(item) = items.next_element_seed(below(list.len()))? {
            list.push(item);
        }
        Ok(Node::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Node<'de>, A::Error> {
        let mut object = Vec::new();
        while let Some(Name(name)) = members.next_key()? {
            let at = Place::Member(&self.at, &name);
            let value = members.next_value_seed(NodeReader { at, errors: self.errors })?;
            object.push((name, value));
        }
        for name in doubled(&object) {
            let at = Place::Member(&self.at, name);
            self.errors.borrow_mut().note::<()>(at, "this member is given more than once");
        }
        Ok(Node::Object(object.into()))
    }
}

/// Names that are there before (RFC 8259, section 4, and RFC 7493, section 2.3: names are unique).
pub(super) fn doubled<'p>(pairs: &'p [Pair<'_>]) -> Vec<&'p str> {
    let names = pairs.iter().map(|(name, _)| name.as_ref());
    if pairs.len() <= FEW {
        let before = names.clone();
        let is_doubled =
            |(index, name): &(usize, &str)| before.clone().take(*index).any(|known| known == *name);
        return names.enumerate().filter(is_doubled).map(|(_, name)| name).collect();
    }
    let mut known = HashSet::with_capacity(pairs.len());
    names.filter(|name| !known.insert(*name)).collect()
}

/// A member's name, borrowed where it holds no escape.
struct Name<'a>(Cow<'a, str>);

impl<'de: 'a, 'a> Deserialize<'de> for Name<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(NameVisitor)
    }
}

struct NameVisitor;

impl<'de> Visitor<'de> for NameVisitor {
    type Value = Name<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a name")
    }

    fn visit_borrowed_str<E>(self, name: &'de str) -> Result<Name<'de>, E> {
        Ok(Name(Cow::Borrowed(name)))
    }

    fn visit_str<E>(self, name: &str) -> Result<Name<'de>, E> {
        Ok(Name(Cow::Owned(name.to_owned())))
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::wire::read_text;

    #[test]
    fn text_is_borrowed_unless_it_holds_an_escape() {
        let text =
            r#"{"plain": "240 A", "es\u0063aped": "3\/4 in", "n": [1, -2, 2.5, null, true]}"#;
        let node = read_text(text.as_bytes()).unwrap();
        let members = node.as_object().unwrap();
        assert!(matches!(members.get("plain"), Some(Node::Text(Cow::Borrowed("240 A")))));
        assert_eq!(members.get("escaped").and_then(Node::as_str), Some("3/4 in"));
        let value = json!({"plain": "240 A", "escaped": "3/4 in", "n": [1, -2, 2.5, null, true]});
        assert_eq!(node.to_value(), value);
        assert_eq!(Node::from(&value), node);
    }

    #[test]
    fn a_member_that_is_null_is_as_if_left_out() {
        let text = r#"{"a": 1, "b": null, "c": {"d": null, "e": [null]}, "f": 2}"#;
        let node = read_text(text.as_bytes()).unwrap();
        assert_eq!(node.to_value(), json!({"a": 1, "c": {"e": [null]}, "f": 2}));
        assert_eq!(Node::from(&json!({"a": 1, "c": {"d": null, "e": [null]}, "f": 2})), node);
        let members = node.as_object().unwrap();
        assert!(!members.contains("b") && members.contains("f"));
    }

    #[test]
    fn a_body_nested_too_deeply_is_refused() {
        let text = "[".repeat(1000) + &"]".repeat(1000);
        assert!(read_text(text.as_bytes()).is_err());
    }
}
