//! Reading JSON into typed values, and writing them back.
//!
//! Every field error of a request is collected, each with its JSON Pointer; nothing stops at the
//! first one. A type that can be read implements [`FromWire`]; objects are declared with
//! `wire_object!`, which also keeps their schema for the OpenAPI document.

mod chart_reading;
mod choices;
mod codes;
mod composition;
mod demands;
mod figure;
mod figure_text;
mod filler;
mod guard_factor;
mod instruments;
mod json_text;
mod kept;
mod limits;
mod long_text;
mod measured;
mod node;
mod node_text;
mod number;
mod object;
mod part;
mod plain_text;
mod price;
mod quantities;
mod quantity_schema;
mod ready;
mod scalars;
mod schema;
mod stated;
mod step;
mod welder_work;

pub use chart_reading::ChartReadingIn;
pub use codes::{Code, CodeEditionDocument};
pub use demands::DemandsDocument;
pub use figure::{AbsentFigureOut, FigureOut};
pub use figure_text::figures_ready;
pub use instruments::{AnyAccuracy, Measurand};
pub use json_text::write_json;
pub use kept::Kept;
pub use limits::Limits;
pub use long_text::LongText;
pub use node::{Members, Node};
pub use node_text::{Unread, read_text};
pub use number::NumberOut;
pub(crate) use object::wire_object;
pub use part::Part;
pub use plain_text::{PlainName, PlainText};
pub use price::{MoneyOut, PriceIn};
pub use quantities::{AmountOut, RangeOut, ShownOut, Units};
pub use ready::Ready;
pub use scalars::calendar_day;
pub use schema::{Definitions, WireSchema, define, described, schema_name};
pub use stated::Stated;
pub(crate) use stated::accuracy;
pub use step::Step;
pub use welder_work::WelderWorkIn;

use serde_json::Value;

use crate::http::problem::{FieldError, MOST_ERRORS, Problem};

/// Where in the body reading stands; a linked list on the stack, so that good input costs nothing.
#[derive(Debug, Clone, Copy)]
pub enum Place<'a> {
    /// The body itself.
    Root,
    /// A member of an object.
    Member(&'a Place<'a>, &'a str),
    /// An item of an array.
    Item(&'a Place<'a>, usize),
}

impl Place<'_> {
    /// JSON Pointer (RFC 6901) of this place.
    #[must_use]
    pub fn pointer(&self) -> String {
        match self {
            Self::Root => String::new(),
            Self::Member(parent, name) => {
                format!("{}/{}", parent.pointer(), name.replace('~', "~0").replace('/', "~1"))
            }
            Self::Item(parent, index) => format!("{}/{index}", parent.pointer()),
        }
    }
}

/// Field errors met so far, at most a hundred.
#[derive(Debug, Default)]
pub struct Errors {
    met: Vec<FieldError>,
    of_stored: bool,
}

impl Errors {
    /// None yet, of what was stored before.
    #[must_use]
    pub fn in_stored() -> Self {
        Self { of_stored: true, ..Self::default() }
    }

    /// Notes one error, once, and gives `None`, so that readers can return it. Both ends of a range
    /// can fail alike in one text.
    pub fn note<T>(&mut self, at: Place<'_>, detail: impl Into<String>) -> Option<T> {
        let error = FieldError { pointer: at.pointer(), detail: detail.into() };
        if self.met.len() < MOST_ERRORS && !self.met.contains(&error) {
            self.met.push(error);
        }
        None
    }

    /// Whether what is read was stored before, by rules that may have been wider than those of today.
    #[must_use]
    pub const fn of_stored(&self) -> bool {
        self.of_stored
    }

    /// Fails when anything was noted.
    ///
    /// # Errors
    /// All noted errors as one problem.
    pub fn finish(self) -> Result<(), Problem> {
        if self.met.is_empty() { Ok(()) } else { Err(Problem::fields(self.met)) }
    }
}

/// A value that can be read from JSON.
pub trait FromWire: Sized {
    /// Reads the value; notes what is wrong and gives `None` where it cannot.
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self>;

    /// Reads the value that stands next in a text. `None`, or an error that the text notes, where it is not plain or
    /// not sound: the text is then read by way of nodes, which says what is wrong, and where.
    #[inline]
    fn from_plain(text: &mut PlainText<'_>) -> Option<Self> {
        text.leaf(|value, errors| Self::from_wire(value, Place::Root, errors))
    }

    /// The value of a member that is not there; `None` where it must be.
    #[must_use]
    fn when_missing() -> Option<Self> {
        None
    }
}

/// A value that can be written as JSON.
pub trait ToWire {
    /// The canonical form: quantities as objects with value and unit.
    fn to_wire(&self) -> Value;

    /// Whether a member with this value is left out.
    fn is_missing(&self) -> bool {
        false
    }
}

/// Reads a whole body.
///
/// # Errors
/// All field errors at once.
pub fn read<T: FromWire>(body: &Value) -> Result<T, Problem> {
    read_node(&body.into())
}

/// Reads a document as it was stored, also one that would no more be taken.
///
/// # Errors
/// All field errors at once.
pub fn read_stored<T: FromWire>(document: &Value) -> Result<T, Problem> {
    read_with(&document.into(), Errors::in_stored())
}

/// Reads a whole body, or a part of one.
///
/// # Errors
/// All field errors at once.
pub fn read_node<T: FromWire>(body: &Node<'_>) -> Result<T, Problem> {
    read_with(body, Errors::default())
}

fn read_with<T: FromWire>(body: &Node<'_>, mut errors: Errors) -> Result<T, Problem> {
    let value = T::from_wire(body, Place::Root, &mut errors);
    errors.finish()?;
    value.ok_or_else(|| Problem::internal("a reader gave neither a value nor an error"))
}

/// Reads a whole body from its text, without nodes, where it is plain and sound; every other one is for [`read_text`]
/// and [`read_node`].
#[must_use]
pub fn read_plain<T: FromWire>(body: &[u8]) -> Option<T> {
    PlainText::whole(str::from_utf8(body).ok()?, T::from_plain)
}

/// A member of an object; the value of a missing one where its type has one.
pub(crate) fn member<T: FromWire>(
    members: &Members<'_>,
    name: &str,
    at: Place<'_>,
    errors: &mut Errors,
) -> Option<T> {
    field(members.get(name), name, &at, errors)
}

/// A field of an object as found there; the value of a missing one where its type has one.
pub(crate) fn field<T: FromWire>(
    found: Option<&Node<'_>>,
    name: &str,
    at: &Place<'_>,
    errors: &mut Errors,
) -> Option<T> {
    let here = Place::Member(at, name);
    match found {
        Some(value) => T::from_wire(value, here, errors),
        None => T::when_missing().or_else(|| errors.note(here, "this field is required")),
    }
}
