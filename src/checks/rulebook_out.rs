//! The records an answer rests on, as sent.

use std::cell::RefCell;

use serde::{Serialize, Serializer, ser::Error as _};
use serde_json::Error;
use utoipa::ToSchema;

use crate::wire::{AmountOut, Kept, Ready, write_json};

/// The records an answer rests on.
#[derive(Debug, Clone, Copy, Serialize, ToSchema)]
pub struct RulebookOut {
    /// Version of the rulebook.
    pub version: i64,
    /// How measurement uncertainty entered the verdict: `simple-acceptance` or `guarded-acceptance`.
    #[schema(example = "simple-acceptance")]
    pub decision_rule: &'static str,
    /// Width of the guard bands, as a multiple of the instrument's uncertainty or largest error.
    #[schema(example = 1.0)]
    pub guard_factor: f64,
    /// Time since the version was last confirmed, in seconds.
    pub age: AmountOut,
    /// Age past which nothing is allowed.
    pub stale_after: AmountOut,
}

/// What the text is the same for, whatever the age.
struct Frame {
    of: RulebookOut,
    before_age: Vec<u8>,
    after_age: Vec<u8>,
}

/// What stands before the age's number.
const BEFORE_AGE: &[u8] = b"\"age\":{\"value\":";

/// Bytes that hold the number.
const NUMBER: usize = 16;

thread_local! {
    static FRAMES: RefCell<Kept<Frame>> = const { RefCell::new(Kept::none()) };
}

impl Frame {
    fn around(out: &RulebookOut) -> Result<Self, Error> {
        let mut text = Vec::new();
        write_json(out, &mut text)?;
        let at = text.windows(BEFORE_AGE.len()).position(|part| part == BEFORE_AGE);
        let at = at.ok_or_else(|| Error::custom("a rulebook has an age"))? + BEFORE_AGE.len();
        let length = text[at..].iter().take_while(|byte| **byte != b',').count();
        let (before_age, after_age) = (text[..at].to_vec(), text[at + length..].to_vec());
        Ok(Self { of: *out, before_age, after_age })
    }

    fn fits(&self, out: &RulebookOut) -> bool {
        let RulebookOut { version, decision_rule, guard_factor, age, stale_after } = *out;
        self.of.version == version
            && self.of.guard_factor.to_bits() == guard_factor.to_bits()
            && self.of.stale_after == stale_after
            && self.of.age.unit == age.unit
            && self.of.decision_rule == decision_rule
    }
}

/// Writes it as the described type is written; of a check after another only the age is new.
pub(super) fn quickly<S: Serializer>(out: &RulebookOut, serializer: S) -> Result<S::Ok, S::Error> {
    let text = FRAMES.with_borrow_mut(|frames| {
        let frame = frames.fitting(|frame| frame.fits(out), || Frame::around(out))?;
        let mut text = Vec::with_capacity(frame.before_age.len() + NUMBER + frame.after_age.len());
        text.extend_from_slice(&frame.before_age);
        write_json(&out.age.value, &mut text)?;
        text.extend_from_slice(&frame.after_age);
        Ok::<_, Error>(text)
    });
    Ready::from_json(text.map_err(S::Error::custom)?).serialize(serializer)
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;
    use serde_json::json;

    use super::*;

    #[derive(Serialize)]
    struct Holder(#[serde(serialize_with = "quickly")] RulebookOut);

    /// The described type is the reference.
    #[test]
    fn a_rulebook_is_written_as_the_described_type_whatever_was_written_before() {
        let amount = |number: i64, unit| AmountOut { value: Decimal::new(number, 1).into(), unit };
        let first = RulebookOut {
            version: 7,
            decision_rule: "simple-acceptance",
            guard_factor: 1.0,
            age: amount(12, "s"),
            stale_after: amount(9000, "s"),
        };
        let older = RulebookOut { age: amount(12_345_678_901, "s"), ..first };
        let stale = RulebookOut { stale_after: amount(15, "min"), ..first };
        let others = [
            older,
            stale,
            RulebookOut { version: 8, ..older },
            RulebookOut { guard_factor: 0.25, ..first },
            RulebookOut { decision_rule: "guarded-acceptance", ..first },
            RulebookOut { age: amount(0, "s"), ..stale },
        ];
        for out in [first].into_iter().chain(others).chain([first]) {
            let mut text = Vec::new();
            write_json(&Holder(out), &mut text).unwrap();
            assert_eq!(String::from_utf8(text).unwrap(), serde_json::to_string(&out).unwrap());
            assert_eq!(json!(Holder(out)), json!(out));
        }
    }
}
