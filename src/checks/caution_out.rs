//! Cautions as sent.

use std::{borrow::Cow, cell::RefCell};

use serde::Serialize;
use serde_json::Error;
use utoipa::ToSchema;

use crate::{
    check::{Caution, CautionRows, Cautions},
    wire::{Kept, Ready, room, write_json},
};

/// A caution that applies.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CautionOut {
    /// Code of the caution.
    #[schema(example = "eye-and-face")]
    pub code: &'static str,
    /// What to heed.
    pub text: Cow<'static, str>,
    /// Where it is printed; left out of the summary of a check.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<&'static str>,
}

impl From<Caution> for CautionOut {
    fn from(caution: Caution) -> Self {
        Self { code: caution.code, text: caution.text, source: Some(caution.source) }
    }
}

impl CautionOut {
    fn new(caution: Caution, briefly: bool) -> Self {
        let whole = Self::from(caution);
        if briefly { Self { source: None, ..whole } } else { whole }
    }
}

/// Bytes that hold the caution that is worded for the setup.
const ROOM: usize = 512;

/// What follows the first caution, which alone is worded for the setup.
struct Others {
    rows: CautionRows,
    briefly: bool,
    text: Vec<u8>,
}

impl Others {
    fn new(rows: CautionRows, briefly: bool) -> Result<Self, Error> {
        let mut text = Vec::new();
        for caution in rows.iter() {
            text.push(b',');
            write_json(&CautionOut::new(caution, briefly), &mut text)?;
        }
        text.push(b']');
        Ok(Self { rows, briefly, text })
    }
}

thread_local! {
    static OTHERS: RefCell<Kept<Others>> = const { RefCell::new(Kept::none()) };
}

/// Cautions as [`CautionOut`]s that are written; `briefly` without where they are printed.
///
/// # Errors
/// None of the cautions there are.
pub(super) fn cautions_ready(cautions: Cautions, briefly: bool) -> Result<Ready, Error> {
    let Cautions { eye_and_face, always_alike: rows } = cautions;
    OTHERS.with_borrow_mut(|kept| {
        let fits = |others: &Others| others.rows == rows && others.briefly == briefly;
        let others = kept.fitting(fits, || Others::new(rows, briefly))?;
        let mut text = room(ROOM + others.text.len());
        text.push(b'[');
        write_json(&CautionOut::new(eye_and_face, briefly), &mut text)?;
        text.extend_from_slice(&others.text);
        Ok(Ready::from_json(text))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::{Setup, cautions},
        trade::Coded,
    };

    /// The list of the described type is the reference.
    #[test]
    fn cautions_are_written_as_the_described_type() {
        for process in ["136", "111", "141", "121"] {
            for briefly in [true, false] {
                let all = || cautions(&Setup::default(), Coded::from_code(process), None);
                let list: Vec<_> =
                    all().into_list().map(|caution| CautionOut::new(caution, briefly)).collect();
                assert!(list.len() > 5);
                let mut text = Vec::new();
                write_json(&cautions_ready(all(), briefly).unwrap(), &mut text).unwrap();
                let expected = serde_json::to_string(&list).unwrap();
                assert_eq!(String::from_utf8(text).unwrap(), expected);
            }
        }
    }
}
