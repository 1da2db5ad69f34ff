//! JSON that is written already, and what is kept of it because it is always the same.

use std::{cell::RefCell, ptr};

use serde::{Serialize, Serializer, ser::Error as _};
use serde_json::{Error, Value};

use super::write_json;

/// JSON text of one value. [`write_json`] copies it; whoever writes it otherwise gets the value it stands for.
#[derive(Debug, Clone)]
pub struct Ready(Vec<u8>);

/// Tells [`write_json`] that what follows is ready.
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

/// JSON around parts that change.
#[derive(Debug)]
pub struct Frame(Vec<Vec<u8>>);

/// In the example of a frame, a list of this one text stands for a part.
pub const PART: &str = "part";

/// What a frame is known by: names that mean the same in every answer, and which of several of these names it is.
type Names = (&'static str, &'static str, u32);

/// Where the names stand in the program, which is looked up faster than what they say.
type Places = (*const str, *const str, u32);

/// The frames that one thread has made.
struct Frames {
    known: Vec<(Places, Frame)>,
    /// Where the next one is looked for first: answers ask for them in the same order each time.
    next: usize,
}

impl Frames {
    fn find(&mut self, places: Places) -> Option<usize> {
        let is_next = self.known.get(self.next).is_some_and(|(known, _)| *known == places);
        let at = if is_next {
            self.next
        } else {
            self.known.iter().position(|(known, _)| *known == places)?
        };
        self.next = at + 1;
        Some(at)
    }

    fn add(&mut self, places: Places, frame: Frame) -> usize {
        self.known.push((places, frame));
        self.next = self.known.len();
        self.next - 1
    }
}

thread_local! {
    /// Each thread has its own, so that none waits for another.
    static FRAMES: RefCell<Frames> = const { RefCell::new(Frames { known: Vec::new(), next: 0 }) };
}

impl Frame {
    /// Gives what stands around the parts of the frame known by these names, one piece more than there are parts;
    /// it is made from an example where it is not known yet.
    ///
    /// # Errors
    /// Where the example cannot be written.
    pub fn with<T: Serialize, R>(
        names: Names,
        example: impl Fn() -> T,
        look: impl FnOnce(&[Vec<u8>]) -> R,
    ) -> Result<R, Error> {
        let places = (ptr::from_ref(names.0), ptr::from_ref(names.1), names.2);
        FRAMES.with_borrow_mut(|frames| {
            let at = match frames.find(places) {
                Some(at) => at,
                None => frames.add(places, Self(around_parts(&example())?)),
            };
            let frame = &frames.known[at].1;
            debug_assert_eq!(frame.0, around_parts(&example())?, "{names:?} mean two things");
            Ok(look(&frame.0))
        })
    }
}

/// What stands around the parts of an example; each part is a list of [`PART`] alone.
///
/// # Errors
/// Where the example cannot be written.
pub(super) fn around_parts(example: &impl Serialize) -> Result<Vec<Vec<u8>>, Error> {
    let mut text = Vec::new();
    write_json(example, &mut text)?;
    let part = format!("[\"{PART}\"]").into_bytes();
    let (mut pieces, mut rest) = (Vec::new(), &text[..]);
    while let Some(at) = rest.windows(part.len()).position(|window| window == part) {
        pieces.push(rest[..at].to_vec());
        rest = &rest[at + part.len()..];
    }
    pieces.push(rest.to_vec());
    Ok(pieces)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

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

    #[test]
    fn a_frame_is_made_once_and_cut_where_its_parts_go() {
        let example = || json!({"name": "a", "value": [PART], "last": [PART]});
        let text = |which| {
            let text = |pieces: &[Vec<u8>]| pieces.join(&b'|');
            String::from_utf8(Frame::with(("a", "b", which), example, text).unwrap()).unwrap()
        };
        let expected = r#"{"name":"a","value":|,"last":|}"#;
        assert_eq!(text(1), expected);
        assert_eq!((text(0), text(1), text(1)), (expected.to_owned(), text(1), text(0)));
        assert_eq!(FRAMES.with_borrow(|frames| frames.known.len()), 2);
        let other = Frame::with(("b", "c", 0), || json!(null), <[Vec<u8>]>::concat).unwrap();
        assert_eq!(other, b"null");
        assert_eq!(FRAMES.with_borrow(|frames| frames.known.len()), 3);
    }
}
