//! Schemas of what is read, for the OpenAPI document.

use utoipa::openapi::{
    Object, ObjectBuilder, Ref, RefOr, Schema,
    schema::{ArrayBuilder, SchemaFormat, Type},
};
use uuid::Uuid;

use crate::{
    quantity::{Kind, Quantity, Range, Span},
    trade::{Coded, MetalGroup},
};

/// Named schemas met while describing a body.
pub type Definitions = Vec<(String, RefOr<Schema>)>;

/// A type that can describe how it is read.
pub trait WireSchema {
    /// The schema, or a reference to it with the definition added.
    fn reference(into: &mut Definitions) -> RefOr<Schema>;

    /// Whether a member of this type may be left out.
    #[must_use]
    fn may_be_missing() -> bool {
        false
    }
}

/// Adds a named definition and gives the reference to it.
pub fn define(into: &mut Definitions, name: String, schema: RefOr<Schema>) -> RefOr<Schema> {
    let reference = Ref::from_schema_name(&name).into();
    if !into.iter().any(|(known, _)| *known == name) {
        into.push((name, schema));
    }
    reference
}

/// `welding current` as a schema name: `WeldingCurrent`.
#[must_use]
pub fn schema_name(words: &str) -> String {
    words
        .split([' ', '-'])
        .filter_map(|word| {
            let mut chars = word.chars();
            chars.next().map(|first| first.to_uppercase().chain(chars).collect::<String>())
        })
        .collect()
}

/// Puts the member's own description beside its schema.
#[must_use]
pub fn described(schema: RefOr<Schema>, description: &str) -> RefOr<Schema> {
    let description = description.trim().to_owned();
    match schema {
        RefOr::Ref(mut reference) => {
            reference.description = description;
            RefOr::Ref(reference)
        }
        RefOr::T(Schema::Object(mut object)) => {
            object.description = Some(description);
            RefOr::T(Schema::Object(object))
        }
        RefOr::T(Schema::Array(mut array)) => {
            array.description = Some(description);
            RefOr::T(Schema::Array(array))
        }
        other @ RefOr::T(_) => other,
    }
}

fn text(format: Option<&str>) -> Object {
    let format = format.map(|format| SchemaFormat::Custom(format.to_owned()));
    ObjectBuilder::new().schema_type(Type::String).format(format).build()
}

fn whole_number(most: impl Into<f64>) -> Object {
    let number = ObjectBuilder::new().schema_type(Type::Integer);
    number.minimum(Some(0)).maximum(Some(most.into())).build()
}

macro_rules! plain {
    ($($type:ty => $schema:expr),+ $(,)?) => {$(
        impl WireSchema for $type {
            fn reference(_: &mut Definitions) -> RefOr<Schema> {
                Schema::from($schema).into()
            }
        }
    )+};
}

plain! {
    String => text(None),
    Uuid => text(Some("uuid")),
    time::Date => text(Some("date")),
    time::OffsetDateTime => text(Some("date-time")),
    MetalGroup => text(None),
    bool => ObjectBuilder::new().schema_type(Type::Boolean).build(),
    u8 => whole_number(u8::MAX),
    u16 => whole_number(u16::MAX),
    u32 => ObjectBuilder::new().schema_type(Type::Integer).minimum(Some(0)).build(),
}

impl<T: WireSchema> WireSchema for Option<T> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        T::reference(into)
    }

    fn may_be_missing() -> bool {
        true
    }
}

impl<T: WireSchema> WireSchema for Box<T> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        T::reference(into)
    }

    fn may_be_missing() -> bool {
        T::may_be_missing()
    }
}

impl<T: WireSchema> WireSchema for Vec<T> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        ArrayBuilder::new().items(T::reference(into)).into()
    }

    fn may_be_missing() -> bool {
        true
    }
}

impl<K: Kind> WireSchema for Quantity<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        define(into, schema_name(K::INFO.name), super::quantities::quantity_schema::<K>())
    }
}

impl<K: Kind> WireSchema for Range<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let name = format!("{}Range", schema_name(K::INFO.name));
        define(into, name, super::quantities::range_schema::<K>())
    }
}

/// A proposed value or interval reads like a range with both ends.
impl<K: Kind> WireSchema for Span<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        <Range<K> as WireSchema>::reference(into)
    }
}

/// A closed set: a text with its codes listed.
pub fn coded<T: Coded>(into: &mut Definitions) -> RefOr<Schema> {
    let codes: Vec<_> = T::ALL.iter().map(|(_, code)| *code).collect();
    let schema = ObjectBuilder::new()
        .schema_type(Type::String)
        .description(Some(format!("A {}: one of {}.", T::NAME, codes.join(", "))))
        .enum_values(Some(codes));
    define(into, schema_name(T::NAME), schema.into())
}
