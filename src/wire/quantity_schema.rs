//! Schemas of quantities, of ranges and intervals of them, and of values as findings show them.

use rust_decimal::Decimal;
use utoipa::{
    PartialSchema, ToSchema,
    openapi::{
        ObjectBuilder, Ref, RefOr, Schema,
        schema::{AdditionalProperties, AnyOfBuilder, ArrayBuilder, Type},
    },
};

use super::{AmountOut, Definitions, MoneyOut, RangeOut, ShownOut, WireSchema, described};
use crate::quantity::{Kind, Quantity};

fn text_form(example: String) -> Schema {
    ObjectBuilder::new().schema_type(Type::String).examples([example]).into()
}

fn number_property() -> ObjectBuilder {
    ObjectBuilder::new().schema_type(Type::Number)
}

fn unit_property<K: Kind>() -> ObjectBuilder {
    let symbols: Vec<_> = K::INFO.units.iter().map(|unit| unit.symbol).collect();
    ObjectBuilder::new()
        .schema_type(Type::String)
        .description(Some(format!("One of {}; UCUM codes are read too.", symbols.join(", "))))
}

/// An object that has no other members than those that are added to it.
fn closed_object() -> ObjectBuilder {
    ObjectBuilder::new()
        .schema_type(Type::Object)
        .additional_properties(Some(AdditionalProperties::<Schema>::FreeForm(false)))
}

/// `{"value": …, "unit": …}`.
pub(super) fn value_object<K: Kind>() -> ObjectBuilder {
    closed_object()
        .property("value", number_property())
        .required("value")
        .property("unit", unit_property::<K>())
        .required("unit")
}

/// Adds an end that is a number in the unit beside it, or a quantity of its own.
pub(super) fn end_property<K: Kind>(
    object: ObjectBuilder,
    name: &str,
    into: &mut Definitions,
) -> ObjectBuilder {
    let own = <Quantity<K> as WireSchema>::reference(into);
    let end = AnyOfBuilder::new().item(number_property()).item(own);
    object.property(name, Schema::AnyOf(end.build()))
}

/// `{"min": …, "max": …}` with these ends at least: as numbers with one unit, or as quantities of their own.
pub(super) fn ends_objects<K: Kind>(needed: &[&str], into: &mut Definitions) -> [ObjectBuilder; 2] {
    let (mut numbers, mut quantities) = (closed_object(), closed_object());
    for name in ["min", "max"] {
        numbers = end_property::<K>(numbers, name, into);
        quantities = quantities.property(name, <Quantity<K> as WireSchema>::reference(into));
    }
    for name in needed {
        (numbers, quantities) = (numbers.required(*name), quantities.required(*name));
    }
    [numbers.property("unit", unit_property::<K>()).required("unit"), quantities]
}

fn probable_symbol<K: Kind>() -> &'static str {
    K::INFO.probable_unit(Decimal::from(12)).symbol
}

/// Schema of one quantity: an object or a text.
pub(super) fn quantity_schema<K: Kind>() -> RefOr<Schema> {
    let schema = AnyOfBuilder::new()
        .description(Some(format!("A {} with its unit.", K::INFO.name)))
        .item(value_object::<K>())
        .item(text_form(format!("12 {}", probable_symbol::<K>())));
    Schema::AnyOf(schema.build()).into()
}

/// Schema of a range: one end or two, one value, or a text.
pub(super) fn range_schema<K: Kind>(into: &mut Definitions) -> RefOr<Schema> {
    let words = format!("A range of {}; an end left out is open.", K::INFO.name);
    ends_schema::<K>(words, &[&["min"], &["max"]], into)
}

/// Schema of a value or an interval: both ends, one value, or a text.
pub(super) fn span_schema<K: Kind>(into: &mut Definitions) -> RefOr<Schema> {
    let words = format!("A {}: one value, or an interval with both ends.", K::INFO.name);
    ends_schema::<K>(words, &[&["min", "max"]], into)
}

fn ends_schema<K: Kind>(
    words: String,
    needed: &[&[&str]],
    into: &mut Definitions,
) -> RefOr<Schema> {
    let mut schema = AnyOfBuilder::new()
        .description(Some(words))
        .item(value_object::<K>())
        .item(text_form(format!("12 to 15 {}", probable_symbol::<K>())));
    for ends in needed.iter().flat_map(|needed| ends_objects::<K>(needed, into)) {
        schema = schema.item(ends);
    }
    Schema::AnyOf(schema.build()).into()
}

/// Not `oneOf`, as a derived schema has it: an amount is a range without ends, and an empty list is one of either kind.
impl PartialSchema for ShownOut {
    fn schema() -> RefOr<Schema> {
        let list = |items: RefOr<Schema>| Schema::from(ArrayBuilder::new().items(items)).into();
        let schema = AnyOfBuilder::new()
            .description(Some("A value or a limit as a finding shows it."))
            .item(described(named::<AmountOut>(), "One amount."))
            .item(described(named::<RangeOut>(), "A range."))
            .item(described(
                list(named::<RangeOut>()),
                "Ranges with gaps between them, from low to high.",
            ))
            .item(described(list(String::schema()), "Words and codes."))
            .item(described(named::<MoneyOut>(), "Money."));
        Schema::AnyOf(schema.build()).into()
    }
}

impl ToSchema for ShownOut {
    fn schemas(into: &mut Definitions) {
        for (name, schema) in [
            (AmountOut::name(), AmountOut::schema()),
            (RangeOut::name(), RangeOut::schema()),
            (MoneyOut::name(), MoneyOut::schema()),
        ] {
            into.push((name.into_owned(), schema));
        }
        AmountOut::schemas(into);
        RangeOut::schemas(into);
        MoneyOut::schemas(into);
    }
}

fn named<T: ToSchema>() -> RefOr<Schema> {
    Ref::from_schema_name(T::name()).into()
}
