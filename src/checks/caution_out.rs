//! Cautions as sent.

use std::{borrow::Cow, cell::RefCell, sync::Arc};

use serde::{Serialize, Serializer, ser::SerializeSeq};
use serde_json::Error;
use utoipa::ToSchema;

use crate::{
    check::{Caution, CautionRows, Cautions},
    wire::{Kept, Ready, write_json},
};

/// A caution that applies.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CautionOut {
    /// Code of the caution.
    #[schema(example = "eye-and-face")]
    pub code: &'static str,
    /// What to heed.
    pub text: Cow<'static, str>,
    /// Where it is printed.
    pub source: &'static str,
}

impl From<Caution> for CautionOut {
    fn from(caution: Caution) -> Self {
        Self { code: caution.code, text: caution.text, source: caution.source }
    }
}

/// A caution that applies to a check.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CheckCautionOut {
    /// Code of the caution.
    #[schema(example = "eye-and-face")]
    pub code: &'static str,
    /// What to heed. Left out in a stream where an earlier line said it: what was said last under this code applies.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub text: Option<Cow<'static, str>>,
    /// Where it is printed; left out of a summary, and with the text.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<&'static str>,
}

impl CheckCautionOut {
    fn new(caution: Caution, briefly: bool) -> Self {
        let Caution { code, text, source } = caution;
        Self { code, text: Some(text), source: (!briefly).then_some(source) }
    }

    const fn of_code(code: &'static str) -> Self {
        Self { code, text: None, source: None }
    }
}

/// What the answers before one said of cautions.
#[derive(Debug, Default)]
pub(super) struct Said {
    eye_and_face: Option<Cow<'static, str>>,
    rows: CautionRows,
}

/// The cautions of an answer, written as a list of [`CheckCautionOut`]s.
#[derive(Debug, Clone)]
pub struct CautionList {
    /// The one that is worded for the setup.
    first: CheckCautionOut,
    /// The others, which several answers share.
    others: Arc<[Ready]>,
    bytes: usize,
}

impl Serialize for CautionList {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut list = serializer.serialize_seq(Some(1 + self.others.len()))?;
        list.serialize_element(&self.first)?;
        for other in self.others.iter() {
            list.serialize_element(other)?;
        }
        list.end()
    }
}

/// What follows the first caution.
struct Others {
    key: OthersKey,
    written: Arc<[Ready]>,
    /// Bytes that hold the whole list.
    bytes: usize,
}

/// Bytes that hold the caution that is worded for the setup.
const FIRST: usize = 512;

/// What the text of them follows from.
#[derive(Clone, Copy, PartialEq)]
struct OthersKey {
    rows: CautionRows,
    /// Those that were said before.
    said: CautionRows,
    briefly: bool,
}

impl Others {
    fn new(key: OthersKey) -> Result<Self, Error> {
        let said: Vec<_> = key.said.iter().map(|caution| caution.code).collect();
        let told = |caution: Caution| {
            let out = if said.contains(&caution.code) {
                CheckCautionOut::of_code(caution.code)
            } else {
                CheckCautionOut::new(caution, key.briefly)
            };
            let mut text = Vec::new();
            write_json(&out, &mut text).map(|()| Ready::from_json(text))
        };
        let written = key.rows.iter().map(told).collect::<Result<Arc<[_]>, _>>()?;
        let bytes = FIRST + written.iter().map(|other| other.bytes() + 1).sum::<usize>();
        Ok(Self { key, written, bytes })
    }
}

thread_local! {
    static OTHERS: RefCell<Kept<Others>> = const { RefCell::new(Kept::none()) };
}

impl CautionList {
    /// The cautions of an answer, `briefly` without where they are printed. What answers before it said is not said
    /// again, where there are such.
    ///
    /// # Errors
    /// None of the cautions there are.
    pub(super) fn new(
        cautions: Cautions,
        said: Option<&mut Said>,
        briefly: bool,
    ) -> Result<Self, Error> {
        let Cautions { eye_and_face, always_alike: rows } = cautions;
        let (first, rows_said) = match said {
            None => (CheckCautionOut::new(eye_and_face, briefly), CautionRows::default()),
            Some(said) => {
                let rows_said = said.rows;
                said.rows = rows_said.or(rows);
                (said.first(eye_and_face, briefly), rows.and(rows_said))
            }
        };
        let key = OthersKey { rows, said: rows_said, briefly };
        let (others, bytes) = OTHERS.with_borrow_mut(|kept| {
            let others = kept.fitting(|others| others.key == key, || Others::new(key))?;
            Ok::<_, Error>((Arc::clone(&others.written), others.bytes))
        })?;
        Ok(Self { first, others, bytes })
    }

    /// Bytes that hold the text.
    pub(super) const fn bytes(&self) -> usize {
        self.bytes
    }
}

impl Said {
    /// The caution that is worded for the setup; by its code alone, where the last one said the same.
    fn first(&mut self, caution: Caution, briefly: bool) -> CheckCautionOut {
        if self.eye_and_face.as_ref() == Some(&caution.text) {
            return CheckCautionOut::of_code(caution.code);
        }
        self.eye_and_face = Some(caution.text.clone());
        CheckCautionOut::new(caution, briefly)
    }
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use serde_json::{Value, json};

    use super::*;
    use crate::{
        check::{Setup, cautions},
        trade::Coded,
    };

    fn all(process: &str) -> Cautions {
        cautions(&Setup::default(), Coded::from_code(process), None)
    }

    fn written(list: &impl Serialize) -> String {
        let mut text = Vec::new();
        write_json(list, &mut text).unwrap();
        String::from_utf8(text).unwrap()
    }

    /// The list of the described type is the reference.
    #[test]
    fn cautions_are_written_as_the_described_type() {
        for process in ["136", "111", "141", "121"] {
            for briefly in [true, false] {
                let outs = all(process).into_list().map(|one| CheckCautionOut::new(one, briefly));
                let outs: Vec<_> = outs.collect();
                assert!(outs.len() > 5);
                let list = CautionList::new(all(process), None, briefly).unwrap();
                assert_eq!(written(&list), serde_json::to_string(&outs).unwrap());
                assert_eq!(json!(list), json!(outs));
                assert!(written(&list).len() <= list.bytes());
            }
        }
    }

    /// A reader that remembers what was said last under each code has every text of every answer.
    #[test]
    fn what_was_said_before_is_named_by_its_code_and_known_from_there() {
        let (mut said, mut known) = (Said::default(), HashMap::new());
        let mut left_out = 0;
        for process in ["136", "136", "111", "141", "111", "136"] {
            let list = CautionList::new(all(process), Some(&mut said), true).unwrap();
            let list: Vec<Value> = serde_json::from_str(&written(&list)).unwrap();
            for one in &list {
                match one.get("text") {
                    Some(text) => drop(known.insert(one["code"].to_string(), text.clone())),
                    None => left_out += 1,
                }
            }
            let with_text =
                |one: &Value| json!({"code": one["code"], "text": known[&one["code"].to_string()]});
            let read: Vec<_> = list.iter().map(with_text).collect();
            let outs: Vec<_> =
                all(process).into_list().map(|one| CheckCautionOut::new(one, true)).collect();
            assert_eq!(json!(read), json!(outs), "{process}");
        }
        // Of six answers, only the first says all.
        assert!(left_out > 4 * 5, "{left_out}");
    }
}
