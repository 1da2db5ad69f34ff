//! Answers as JSON text. What an answer mostly consists of is quick here: names of fields, which need no look, and
//! texts without a character to be escaped, which are copied. Numbers and all other texts are left to `serde_json`.

use serde::{
    Serialize, Serializer,
    ser::{
        Error as _, Impossible, SerializeMap, SerializeSeq, SerializeStruct, SerializeTuple,
        SerializeTupleStruct,
    },
};

use serde_json::Error;

use super::ready::READY;

/// Adds a value's JSON text, the same that `serde_json` writes.
///
/// # Errors
/// Where the value has a form that no answer has: bytes, a map whose keys are no texts, an enum variant with
/// several fields.
pub fn write_json<T: Serialize + ?Sized>(value: &T, text: &mut Vec<u8>) -> Result<(), Error> {
    value.serialize(Writer::of(text))
}

/// Writes one value.
struct Writer<'t> {
    text: &'t mut Vec<u8>,
    /// Whether the value is JSON that is ready.
    is_ready: bool,
}

/// Writes the members of an object or the items of a list.
struct Members<'t> {
    text: &'t mut Vec<u8>,
    is_first: bool,
    end: u8,
}

/// Whether a text may stand between quotes as it is.
#[inline]
fn is_plain(text: &[u8]) -> bool {
    // The last block overlaps the one before it.
    if let Some(last) = text.last_chunk::<32>() {
        text.as_chunks::<32>().0.iter().all(all_plain) && all_plain(last)
    } else if let (Some(first), Some(last)) = (text.first_chunk::<16>(), text.last_chunk::<16>()) {
        all_plain(first) && all_plain(last)
    } else if let (Some(first), Some(last)) = (text.first_chunk(), text.last_chunk()) {
        (special_in(*first) | special_in(*last)) == 0
    } else if let (Some(first), Some(last)) = (text.first_chunk::<4>(), text.last_chunk::<4>()) {
        let mut both = [0; 8];
        both[..4].copy_from_slice(first);
        both[4..].copy_from_slice(last);
        special_in(both) == 0
    } else {
        !text.iter().any(|byte| is_special(*byte))
    }
}

/// Without a way out half way, so that the compiler looks at all bytes at once.
#[inline]
fn all_plain<const N: usize>(bytes: &[u8; N]) -> bool {
    !bytes.iter().fold(false, |special, byte| special | is_special(*byte))
}

/// Controls, quotes and backslashes. With its second bit turned round a quote stands right behind the controls.
pub(super) const fn is_special(byte: u8) -> bool {
    (byte ^ 2) <= b' ' || byte == b'\\'
}

/// Not zero where one of eight bytes is special: all eight are compared at once, by borrowing into the highest bit
/// of each byte that is below what is subtracted from it. The lowest bit that is set stands in the first special byte.
#[inline]
pub(super) fn special_in(bytes: [u8; 8]) -> u64 {
    const EACH: u64 = 0x0101_0101_0101_0101;
    const HIGHEST: u64 = 0x80 * EACH;
    let word = u64::from_le_bytes(bytes);
    let up_to = |word: u64, limit: u8| word.wrapping_sub((u64::from(limit) + 1) * EACH) & !word;
    (up_to(word ^ (2 * EACH), b' ') | up_to(word ^ (u64::from(b'\\') * EACH), 0)) & HIGHEST
}

impl<'t> Writer<'t> {
    #[inline]
    const fn of(text: &'t mut Vec<u8>) -> Self {
        Self { text, is_ready: false }
    }

    #[inline]
    fn open(self, start: u8, end: u8) -> Members<'t> {
        self.text.push(start);
        Members { text: self.text, is_first: true, end }
    }

    fn left_to_library<T: Serialize + ?Sized>(self, value: &T) -> Result<(), Error> {
        serde_json::to_writer(self.text, value)
    }
}

impl Members<'_> {
    #[inline]
    fn separate(&mut self) {
        if !std::mem::take(&mut self.is_first) {
            self.text.push(b',');
        }
    }

    fn item<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Error> {
        self.separate();
        value.serialize(Writer::of(self.text))
    }

    #[inline]
    fn close(self) {
        self.text.push(self.end);
    }
}

/// Numbers, as the library writes them.
macro_rules! numbers {
    ($($method:ident($type:ty),)+) => {$(
        fn $method(self, value: $type) -> Result<(), Error> {
            self.left_to_library(&value)
        }
    )+};
}

impl<'t> Serializer for Writer<'t> {
    type Ok = ();
    type Error = Error;
    type SerializeSeq = Members<'t>;
    type SerializeTuple = Members<'t>;
    type SerializeTupleStruct = Members<'t>;
    type SerializeTupleVariant = Impossible<(), Error>;
    type SerializeMap = Members<'t>;
    type SerializeStruct = Members<'t>;
    type SerializeStructVariant = Impossible<(), Error>;

    numbers! {
        serialize_i8(i8),
        serialize_i16(i16),
        serialize_i32(i32),
        serialize_i64(i64),
        serialize_i128(i128),
        serialize_u8(u8),
        serialize_u16(u16),
        serialize_u32(u32),
        serialize_u64(u64),
        serialize_u128(u128),
        serialize_f32(f32),
        serialize_f64(f64),
    }

    fn serialize_bool(self, value: bool) -> Result<(), Error> {
        self.text.extend_from_slice(if value { b"true" } else { b"false" });
        Ok(())
    }

    fn serialize_char(self, value: char) -> Result<(), Error> {
        self.left_to_library(&value)
    }

    #[inline]
    fn serialize_str(self, value: &str) -> Result<(), Error> {
        if !is_plain(value.as_bytes()) {
            return self.left_to_library(value);
        }
        self.text.push(b'"');
        self.text.extend_from_slice(value.as_bytes());
        self.text.push(b'"');
        Ok(())
    }

    fn is_human_readable(&self) -> bool {
        !self.is_ready
    }

    fn serialize_bytes(self, bytes: &[u8]) -> Result<(), Error> {
        if !self.is_ready {
            return Err(Error::custom("bytes have no form in an answer"));
        }
        self.text.extend_from_slice(bytes);
        Ok(())
    }

    fn serialize_none(self) -> Result<(), Error> {
        self.serialize_unit()
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<(), Error> {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Result<(), Error> {
        self.text.extend_from_slice(b"null");
        Ok(())
    }

    fn serialize_unit_struct(self, _: &'static str) -> Result<(), Error> {
        self.serialize_unit()
    }

    fn serialize_unit_variant(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
    ) -> Result<(), Error> {
        self.serialize_str(variant)
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(
        self,
        name: &'static str,
        value: &T,
    ) -> Result<(), Error> {
        value.serialize(Self { is_ready: name == READY, ..self })
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        _: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<(), Error> {
        let mut members = self.open(b'{', b'}');
        SerializeStruct::serialize_field(&mut members, variant, value)?;
        members.close();
        Ok(())
    }

    fn serialize_seq(self, _: Option<usize>) -> Result<Members<'t>, Error> {
        Ok(self.open(b'[', b']'))
    }

    fn serialize_tuple(self, _: usize) -> Result<Members<'t>, Error> {
        Ok(self.open(b'[', b']'))
    }

    fn serialize_tuple_struct(self, _: &'static str, _: usize) -> Result<Members<'t>, Error> {
        Ok(self.open(b'[', b']'))
    }

    fn serialize_tuple_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Impossible<(), Error>, Error> {
        Err(Error::custom("a variant with several fields has no form in an answer"))
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Members<'t>, Error> {
        Ok(self.open(b'{', b'}'))
    }

    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Members<'t>, Error> {
        Ok(self.open(b'{', b'}'))
    }

    fn serialize_struct_variant(
        self,
        _: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<Impossible<(), Error>, Error> {
        Err(Error::custom("a variant with several fields has no form in an answer"))
    }
}

/// Lists and tuples of all three kinds.
macro_rules! items {
    ($($kind:ident: $method:ident,)+) => {$(
        impl $kind for Members<'_> {
            type Ok = ();
            type Error = Error;

            fn $method<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Error> {
                self.item(value)
            }

            fn end(self) -> Result<(), Error> {
                self.close();
                Ok(())
            }
        }
    )+};
}

items! {
    SerializeSeq: serialize_element,
    SerializeTuple: serialize_element,
    SerializeTupleStruct: serialize_field,
}

impl SerializeStruct for Members<'_> {
    type Ok = ();
    type Error = Error;

    #[expect(
        clippy::inline_always,
        reason = "the name is known where this is called, and so what is copied"
    )]
    #[inline(always)]
    fn serialize_field<T: Serialize + ?Sized>(
        &mut self,
        name: &'static str,
        value: &T,
    ) -> Result<(), Error> {
        self.separate();
        self.text.push(b'"');
        self.text.extend_from_slice(name.as_bytes());
        self.text.extend_from_slice(b"\":");
        value.serialize(Writer::of(self.text))
    }

    fn end(self) -> Result<(), Error> {
        self.close();
        Ok(())
    }
}

impl SerializeMap for Members<'_> {
    type Ok = ();
    type Error = Error;

    fn serialize_key<T: Serialize + ?Sized>(&mut self, key: &T) -> Result<(), Error> {
        self.separate();
        let start = self.text.len();
        key.serialize(Writer::of(self.text))?;
        if self.text.get(start) == Some(&b'"') {
            Ok(())
        } else {
            Err(Error::custom("the keys of an object are texts"))
        }
    }

    fn serialize_value<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Error> {
        self.text.push(b':');
        value.serialize(Writer::of(self.text))
    }

    fn end(self) -> Result<(), Error> {
        self.close();
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use proptest::prelude::*;

    use super::*;

    /// `serde_json` is the reference.
    fn agree<T: Serialize + ?Sized>(value: &T) {
        let mut text = b"before ".to_vec();
        write_json(value, &mut text).unwrap();
        let expected = serde_json::to_string(value).unwrap();
        assert_eq!(String::from_utf8(text).unwrap(), format!("before {expected}"));
    }

    #[derive(Serialize)]
    struct Inner {
        number: u8,
        #[serde(skip_serializing_if = "Option::is_none")]
        left_out: Option<u8>,
        null: Option<u8>,
    }

    #[derive(Serialize)]
    #[serde(rename_all = "kebab-case")]
    enum Choice {
        Plain,
        Holding(Vec<u8>),
    }

    #[derive(Serialize)]
    #[serde(untagged)]
    enum Either {
        Number(f64),
        Text(char),
    }

    #[derive(Serialize)]
    struct Wrapped(i64);

    #[derive(Serialize)]
    struct Unit;

    #[derive(Serialize)]
    struct Whole {
        #[serde(flatten)]
        inner: Inner,
        choices: [Choice; 3],
        either: (Either, Either),
        wrapped: Wrapped,
        units: ((), Unit, bool),
        map: BTreeMap<String, Vec<Inner>>,
    }

    #[test]
    fn every_form_of_an_answer_is_written_as_the_library_writes_it() {
        let inner = |number| Inner { number, left_out: None, null: None };
        agree(&Whole {
            inner: Inner { left_out: Some(1), null: Some(2), ..inner(3) },
            choices: [Choice::Plain, Choice::Holding(vec![1, 2]), Choice::Holding(Vec::new())],
            either: (Either::Number(-0.5e-7), Either::Text('"')),
            wrapped: Wrapped(i64::MIN),
            units: ((), Unit, true),
            map: [(String::new(), vec![]), ("a\"b".into(), vec![inner(1), inner(2)])].into(),
        });
    }

    #[test]
    fn special_characters_are_found_wherever_they_stand() {
        for length in 0..100 {
            for at in 0..length {
                for special in
                    ['"', '\\', '\0', '\n', '\u{1f}', '\u{7f}', '°', ' ', '!', '#', ']', '^']
                {
                    let mut text: Vec<char> = "x".repeat(length).chars().collect();
                    text[at] = special;
                    agree(&text.into_iter().collect::<String>());
                }
            }
        }
    }

    #[test]
    fn a_key_that_is_no_text_is_refused() {
        let written = write_json(&BTreeMap::from([(1, 2)]), &mut Vec::new());
        assert!(written.is_err());
    }

    proptest! {
        #[test]
        fn texts_and_numbers_are_those_of_the_library(
            text in any::<String>(), float in any::<f64>(), whole in any::<i64>(), sign in any::<u64>(),
        ) {
            agree(&text);
            agree(&(float, whole, sign));
        }
    }
}
