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
    #[cfg(test)]
    tests::note(&name, &schema);
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
        define(into, schema_name(K::INFO.name), super::quantity_schema::quantity_schema::<K>())
    }
}

impl<K: Kind> WireSchema for Range<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let name = format!("{}Range", schema_name(K::INFO.name));
        let schema = super::quantity_schema::range_schema::<K>(into);
        define(into, name, schema)
    }
}

impl<K: Kind> WireSchema for Span<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let name = format!("{}Interval", schema_name(K::INFO.name));
        let schema = super::quantity_schema::span_schema::<K>(into);
        define(into, name, schema)
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

#[cfg(test)]
mod tests {
    use std::{
        cell::RefCell,
        collections::{BTreeMap, BTreeSet},
        fs,
        path::Path,
    };

    use serde_json::{Value, json};

    use super::*;
    use crate::{
        qualify::record::Measured,
        quantity::{CurrentKind, ThicknessKind},
        trade::Process,
        wire::{self, FromWire, Stated},
    };

    thread_local! {
        /// Every definition made so far, by its name.
        static MADE: RefCell<BTreeMap<String, BTreeSet<String>>> = RefCell::default();
    }

    pub(super) fn note(name: &str, schema: &RefOr<Schema>) {
        let text = json!(schema).to_string();
        MADE.with_borrow_mut(|made| made.entry(name.to_owned()).or_default().insert(text));
    }

    /// Names of the types whose schema is derived, as the sources declare them.
    fn derived(folder: &Path, into: &mut Vec<String>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                derived(&path, into);
                continue;
            }
            let text = fs::read_to_string(&path).unwrap();
            let declared = text.split("#[derive(").skip(1).filter(|part| {
                part.split_once(")]").is_some_and(|(traits, _)| traits.contains("ToSchema"))
            });
            into.extend(declared.filter_map(|part| {
                let named = |keyword| part.split_once(keyword).map(|(_, rest)| rest);
                let rest = match (named("struct "), named("enum ")) {
                    (Some(one), Some(other)) if one.len() < other.len() => other,
                    (one, other) => one.or(other)?,
                };
                Some(rest.chars().take_while(|c| c.is_alphanumeric()).collect())
            }));
        }
    }

    /// The document has one definition for each name: of two, one would describe members of the other type.
    #[test]
    fn no_two_types_of_different_content_share_a_name() {
        crate::http::document().unwrap();
        let made = MADE.take();
        assert!(made.len() > 100, "{made:?}");
        let clashes: Vec<_> = made.iter().filter(|(_, schemas)| schemas.len() > 1).collect();
        assert!(clashes.is_empty(), "{clashes:#?}");
        let mut names = Vec::new();
        derived(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut names);
        let count = names.len();
        assert!(count > 50, "{names:?}");
        let unique: BTreeSet<_> = names.iter().cloned().collect();
        names.sort();
        assert_eq!(unique.len(), count, "a derived name stands twice: {names:?}");
        let both: Vec<_> = unique.iter().filter(|name| made.contains_key(*name)).collect();
        assert!(both.is_empty(), "derived and declared: {both:?}");
    }

    /// Holds what the schema says of each value to what the reader says.
    fn agree<T: WireSchema + FromWire>(values: &[(Value, bool)]) {
        let mut definitions = Definitions::new();
        let mut root = json!(T::reference(&mut definitions));
        let schemas: serde_json::Map<_, _> =
            definitions.into_iter().map(|(name, schema)| (name, json!(schema))).collect();
        root["components"] = json!({ "schemas": schemas });
        let schema = jsonschema::validator_for(&root).unwrap();
        for (value, sound) in values {
            assert_eq!(wire::read::<T>(value).is_ok(), *sound, "reader: {value}");
            assert_eq!(schema.is_valid(value), *sound, "schema: {value}");
        }
    }

    #[test]
    fn the_schema_of_a_range_takes_what_its_reader_takes() {
        let common = [
            (json!("3 to 24 mm"), true),
            (json!("3 mm"), true),
            (json!({ "value": 3, "unit": "mm" }), true),
            (json!({ "min": 3, "max": 24, "unit": "mm" }), true),
            (json!({ "min": "1/8 in", "max": "1 in" }), true),
            (json!({ "min": "1/8 in", "max": { "value": 1, "unit": "in" } }), true),
            (json!({ "min": 3, "max": "1 in", "unit": "mm" }), true),
            (json!({ "min": 3, "max": 24 }), false),
            (json!({ "min": 3, "max": "1 in" }), false),
            (json!({ "value": 3 }), false),
            (json!({ "unit": "mm" }), false),
            (json!({}), false),
            (json!(3), false),
            (json!({ "min": 3, "max": 24, "unit": "mm", "to": 5 }), false),
        ];
        let open = |sound| {
            [
                (json!({ "min": "1/8 in" }), sound),
                (json!({ "max": "1 in" }), sound),
                (json!({ "min": 3, "unit": "mm" }), sound),
            ]
        };
        agree::<Range<ThicknessKind>>(&[&common[..], &open(true)].concat());
        agree::<Span<ThicknessKind>>(&[&common[..], &open(false)].concat());
        agree::<Stated<ThicknessKind>>(&[&common[..], &open(false)].concat());
    }

    #[test]
    fn the_schema_of_a_stated_value_or_a_reading_takes_what_its_reader_takes() {
        agree::<Stated<CurrentKind>>(&[
            (json!({ "value": 240, "unit": "A", "origin": "measured", "instrument": "A-1" }), true),
            (json!({ "min": 230, "max": 240, "unit": "A", "origin": "measured" }), true),
            (json!({ "value": 240, "origin": "set" }), false),
            (json!({ "origin": "set", "unit": "A" }), false),
        ]);
        agree::<Measured<CurrentKind>>(&[
            (json!("240 A"), true),
            (json!({ "value": 240, "unit": "A", "instrument": "A-1" }), true),
            (json!({ "value": 240, "unit": "A", "min": 232, "max": "249 A" }), true),
            (json!({ "value": 240, "unit": "A", "min": 232 }), false),
            (json!({ "min": 232, "max": 249, "unit": "A" }), false),
        ]);
    }

    #[test]
    fn the_schema_of_a_process_takes_its_numbers_and_its_letters() {
        for (text, sound) in
            [("136", true), ("SMAW", true), ("smaw", true), ("FCAW-G", true), ("137", false)]
        {
            agree::<Process>(&[(json!(text), sound)]);
        }
    }
}
