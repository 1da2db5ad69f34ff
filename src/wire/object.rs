//! Objects: one declaration gives the type, its schema, its reader and its writer.

/// Declares a JSON object.
///
/// Each member has a type that implements `FromWire` and `ToWire`; `Option` and `Vec` members may be
/// missing. An unknown member is an error that lists the known ones.
macro_rules! wire_object {
    (
        $(#[$meta:meta])*
        $vis:vis struct $name:ident {
            $(
                $(#[doc = $field_doc:literal])+
                $field_vis:vis $field:ident: $type:ty,
            )+
        }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone)]
        $vis struct $name {
            $( $(#[doc = $field_doc])+ $field_vis $field: $type, )+
        }

        impl $crate::wire::FromWire for $name {
            fn from_wire(
                value: &$crate::wire::Node<'_>,
                at: $crate::wire::Place<'_>,
                errors: &mut $crate::wire::Errors,
            ) -> Option<Self> {
                let Some(members) = value.as_object() else {
                    return errors.note(at, format!(
                        "expected an object with {}, found {}",
                        [$(stringify!($field)),+].join(", "),
                        value.kind(),
                    ));
                };
                let mut sound = true;
                $( let mut $field = None; )+
                for (name, value) in members.iter() {
                    $(
                        if name == stringify!($field) {
                            $field = Some(value);
                            continue;
                        }
                    )+
                    sound = false;
                    errors.note::<()>($crate::wire::Place::Member(&at, name), format!(
                        "no such field; known are {}",
                        [$(stringify!($field)),+].join(", "),
                    ));
                }
                $(
                    let $field = $crate::wire::field::<$type>($field, stringify!($field), &at, errors);
                )+
                if !sound { return None; }
                Some(Self { $( $field: $field?, )+ })
            }

            fn from_plain(text: &mut $crate::wire::PlainText<'_>) -> Option<Self> {
                $( let mut $field: Option<$type> = None; )+
                if text.enter_object()? {
                    let mut start = text.start();
                    // Members mostly come in the order of their declaration, so each is looked for behind the last.
                    'members: loop {
                        let mut any = false;
                        $(
                            if text.is_at(start, const { $crate::wire::PlainName::new(concat!("\"", stringify!($field), "\"")) }) {
                                // A member that is given twice is refused by the longer way.
                                if $field.is_some() { return None; }
                                text.go_to_value(stringify!($field))?;
                                $field = Some($crate::wire::FromWire::from_plain(text)?);
                                if !text.more_members()? { break 'members; }
                                start = text.start();
                                any = true;
                            }
                        )+
                        if !any { return None; }
                    }
                }
                Some(Self { $( $field: $field.or_else($crate::wire::FromWire::when_missing)?, )+ })
            }
        }

        impl $crate::wire::WireSchema for $name {
            fn reference(into: &mut $crate::wire::Definitions) -> utoipa::openapi::RefOr<utoipa::openapi::Schema> {
                let schema = <Self as utoipa::PartialSchema>::schema();
                <Self as utoipa::ToSchema>::schemas(into);
                $crate::wire::define(into, stringify!($name).to_owned(), schema)
            }
        }

        impl utoipa::PartialSchema for $name {
            fn schema() -> utoipa::openapi::RefOr<utoipa::openapi::Schema> {
                let mut nested = $crate::wire::Definitions::new();
                let mut object = utoipa::openapi::ObjectBuilder::new()
                    .schema_type(utoipa::openapi::schema::Type::Object)
                    .additional_properties(Some(
                        utoipa::openapi::schema::AdditionalProperties::<utoipa::openapi::Schema>::FreeForm(false),
                    ));
                $(
                    let member = <$type as $crate::wire::WireSchema>::reference(&mut nested);
                    object = object.property(
                        stringify!($field),
                        $crate::wire::described(member, concat!($($field_doc, "\n"),+)),
                    );
                    if !<$type as $crate::wire::WireSchema>::may_be_missing() {
                        object = object.required(stringify!($field));
                    }
                )+
                object.into()
            }
        }

        impl utoipa::ToSchema for $name {
            fn schemas(into: &mut $crate::wire::Definitions) {
                $( <$type as $crate::wire::WireSchema>::reference(into); )+
            }
        }

        impl $crate::wire::ToWire for $name {
            fn to_wire(&self) -> serde_json::Value {
                let mut members = serde_json::Map::new();
                $(
                    if !$crate::wire::ToWire::is_missing(&self.$field) {
                        members.insert(
                            stringify!($field).to_owned(),
                            $crate::wire::ToWire::to_wire(&self.$field),
                        );
                    }
                )+
                serde_json::Value::Object(members)
            }
        }
    };
}
pub(crate) use wire_object;

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::{quantity::Current, wire};

    wire_object! {
        /// A sample.
        struct Sample {
            /// A name.
            name: String,
            /// A current.
            current: Option<Current>,
            /// Numbers.
            numbers: Vec<u32>,
        }
    }

    #[test]
    fn all_errors_come_at_once_each_with_its_pointer() {
        let body = json!({"current": 240, "numbers": [1, "two"], "amps": 3});
        let problem = wire::read::<Sample>(&body).unwrap_err();
        let text = format!("{problem:?}");
        for pointer in ["/name", "/current", "/numbers/1", "/amps"] {
            assert!(text.contains(&format!("\"{pointer}\"")), "{pointer} in {text}");
        }
    }

    #[test]
    fn a_body_of_nothing_but_errors_is_answered_with_a_hundred() {
        let members = (0..500).map(|index| (format!("wrong{index}"), json!(0)));
        let body = serde_json::Value::Object(members.collect());
        assert_eq!(wire::read::<Sample>(&body).unwrap_err().errors().len(), 100);
    }

    #[test]
    fn a_text_is_read_straight_where_nothing_is_missing_and_no_list_too_long() {
        let read = |text: &str| {
            let sample = wire::read_plain::<Sample>(text.as_bytes());
            sample.map(|sample| wire::ToWire::to_wire(&sample))
        };
        let expected = json!({"name": "x", "current": {"value": 240, "unit": "A"}, "numbers": [7]});
        let text = r#" { "numbers" : [ 7 ] , "current":"240 A","name" :"x" } "#;
        assert_eq!(read(text), Some(expected));
        assert_eq!(read(r#"{"current":null,"name":"x"}"#), Some(json!({"name": "x"})));
        assert_eq!(read(r#"{"current":"240 A","numbers":[7]}"#), None);
        let many =
            |count| format!("{{\"name\":\"x\",\"numbers\":[{}]}}", vec!["1"; count].join(","));
        assert!(read(&many(1000)).is_some());
        assert!(read(&many(1001)).is_none());
    }

    #[test]
    fn a_quantity_is_written_with_its_unit_as_typed() {
        let body = json!({"name": "x", "current": "240 A", "numbers": []});
        let sample: Sample = wire::read(&body).unwrap();
        let written = wire::ToWire::to_wire(&sample);
        assert_eq!(written, json!({"name": "x", "current": {"value": 240, "unit": "A"}}));
    }
}
