//! JSON that is written already.

use serde::{Serialize, Serializer, ser::Error as _};
use serde_json::Value;

/// JSON text of one value. [`write_json`](super::write_json) copies it; whoever writes it otherwise gets the value it stands for.
#[derive(Debug, Clone)]
pub struct Ready(Vec<u8>);

/// Tells [`write_json`](super::write_json) that what follows is ready.
pub(super) const READY: &str = "ready JSON";

impl Ready {
    /// Takes text that is the JSON of one value.
    #[must_use]
    pub const fn from_json(text: Vec<u8>) -> Self {
        Self(text)
    }

    /// Bytes of the text.
    #[must_use]
    pub const fn bytes(&self) -> usize {
        self.0.len()
    }
}

impl Serialize for Ready {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_newtype_struct(READY, &Text(&self.0))
    }
}

struct Text<'t>(&'t [u8]);

impl Serialize for Text<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if !serializer.is_human_readable() {
            return serializer.serialize_bytes(self.0);
        }
        serde_json::from_slice::<Value>(self.0).map_err(S::Error::custom)?.serialize(serializer)
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::{super::write_json, *};

    #[derive(Serialize)]
    struct Holder {
        before: u8,
        ready: Ready,
        after: Option<u8>,
    }

    #[test]
    fn what_is_ready_is_copied_here_and_read_everywhere_else() {
        let list = Ready::from_json(br#"[{"value": 1.50},null]"#.to_vec());
        let holder = Holder { before: 1, ready: list, after: None };
        let mut text = Vec::new();
        write_json(&holder, &mut text).unwrap();
        let expected = r#"{"before":1,"ready":[{"value": 1.50},null],"after":null}"#;
        assert_eq!(String::from_utf8(text).unwrap(), expected);
        let value = json!({"before": 1, "ready": [{"value": 1.5}, null], "after": null});
        assert_eq!(serde_json::to_value(&holder).unwrap(), value);
    }
}
