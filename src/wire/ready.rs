//! JSON that is written already.

use std::{cell::RefCell, mem};

use serde::{Serialize, Serializer, ser::Error as _};
use serde_json::Value;

/// JSON text of one value. [`write_json`](super::write_json) copies it; whoever writes it otherwise gets the value it stands for.
#[derive(Debug, Clone)]
pub struct Ready(Vec<u8>);

/// Rooms a thread keeps at most: an answer has two such texts.
const MOST: usize = 4;

/// The largest room that is kept.
const LARGEST: usize = 16 * 1024;

thread_local! {
    /// Rooms of texts that were copied: the next one is written where the memory is at hand.
    static ROOMS: RefCell<Vec<Vec<u8>>> = const { RefCell::new(Vec::new()) };
}

/// An empty text with room for so many bytes.
pub(crate) fn room(bytes: usize) -> Vec<u8> {
    let mut room = ROOMS.with_borrow_mut(Vec::pop).unwrap_or_default();
    room.reserve(bytes);
    room
}

impl Drop for Ready {
    fn drop(&mut self) {
        let mut room = mem::take(&mut self.0);
        if room.capacity() > LARGEST {
            return;
        }
        room.clear();
        // A thread that ends keeps nothing any more.
        let _ = ROOMS.try_with(|rooms| {
            let mut rooms = rooms.borrow_mut();
            if rooms.len() < MOST {
                rooms.push(room);
            }
        });
    }
}

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

    /// A test has a thread of its own, and so has what a thread keeps.
    #[test]
    fn a_room_is_used_again_unless_it_is_large() {
        let mut text = room(100);
        text.extend_from_slice(b"[]");
        let place = text.as_ptr();
        drop(Ready::from_json(text));
        let again = room(50);
        assert!(again.is_empty());
        assert_eq!(again.as_ptr(), place);
        drop(Ready::from_json(Vec::with_capacity(LARGEST + 1)));
        assert!(room(1).capacity() <= LARGEST);
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
