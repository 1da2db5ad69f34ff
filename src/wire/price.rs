//! Money and prices on the wire: exact amounts, each with its currency and the days it holds.

use serde::Serialize;
use serde_json::{Value, json};
use time::Date;
use utoipa::{
    ToSchema,
    openapi::{
        ObjectBuilder, RefOr, Schema,
        schema::{AnyOfBuilder, SchemaFormat, Type},
    },
};

use super::{
    Definitions, Errors, FromWire, Members, Node, Place, ToWire, WireSchema, define, member,
    number::NumberOut,
    quantities::{decimal, known_members},
    schema::schema_name,
};
use crate::{
    quantity::{Kind, Quantity},
    trade::{Currency, Money, Price, PriceValidity},
};

/// A sum of money.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct MoneyOut {
    /// The amount, to six digits after the point; round it as its currency asks.
    #[schema(value_type = f64, example = 445.2)]
    pub value: NumberOut,
    /// ISO 4217 letters.
    #[schema(example = "EUR")]
    pub currency: String,
}

impl From<Money> for MoneyOut {
    fn from(money: Money) -> Self {
        Self { value: money.amount().into(), currency: money.currency().to_string() }
    }
}

/// A price as sent: `{"amount": "2.90", "currency": "EUR", "per": "1 kg", "valid_from": "2026-01-01"}`.
#[derive(Debug, Clone, Copy)]
pub struct PriceIn<K: Kind> {
    /// The price.
    pub price: Price<K>,
    money: Money,
    per: Quantity<K>,
    from: Date,
    until: Option<Date>,
}

/// Members of a price.
const MEMBERS: &[&str] = &["amount", "currency", "per", "valid_from", "valid_until"];

impl<K: Kind> FromWire for PriceIn<K> {
    fn from_wire(value: &Node<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Self> {
        let Some(members) = value.as_object() else {
            let (form, found) = (MEMBERS.join(", "), value.kind());
            return errors.note(at, format!("expected an object with {form}, found {found}"));
        };
        let known = known_members(members, MEMBERS, at, errors);
        let money = money(members, at, errors);
        let per = member::<Quantity<K>>(members, "per", at, errors);
        let from = member::<Date>(members, "valid_from", at, errors);
        let until = member::<Option<Date>>(members, "valid_until", at, errors);
        known?;
        let (money, per, from, until) = (money?, per?, from?, until?);
        let price = PriceValidity::new(from, until)
            .and_then(|validity| Price::new(money, per, validity))
            .map_or_else(|error| errors.note(at, error.to_string()), Some)?;
        Some(Self { price, money, per, from, until })
    }
}

fn money(members: &Members<'_>, at: Place<'_>, errors: &mut Errors) -> Option<Money> {
    let here = Place::Member(&at, "amount");
    let amount = match members.get("amount") {
        Some(Node::Number(number)) => decimal(number),
        Some(Node::Text(text)) => text.trim().parse().ok(),
        Some(other) => {
            return errors.note(here, format!("expected an amount, found {}", other.kind()));
        }
        None => return errors.note(here, "this field is required"),
    };
    let amount = amount.or_else(|| errors.note(here, "expected an amount such as \"2.90\""));
    let currency = member::<String>(members, "currency", at, errors).and_then(|text| {
        let here = Place::Member(&at, "currency");
        Currency::parse(&text).map_or_else(|error| errors.note(here, error.to_string()), Some)
    });
    Some(Money::new(amount?, currency?))
}

impl<K: Kind> ToWire for PriceIn<K> {
    fn to_wire(&self) -> Value {
        let mut value = json!({
            "amount": self.money.amount().to_string(),
            "currency": self.money.currency().to_string(),
            "per": self.per.to_wire(),
            "valid_from": self.from.to_wire(),
        });
        if let Some(until) = self.until {
            value["valid_until"] = until.to_wire();
        }
        value
    }
}

impl<K: Kind> WireSchema for PriceIn<K> {
    fn reference(into: &mut Definitions) -> RefOr<Schema> {
        let text = || ObjectBuilder::new().schema_type(Type::String);
        let date = || text().format(Some(SchemaFormat::Custom("date".to_owned())));
        let amount = AnyOfBuilder::new()
            .description(Some("The amount, exactly."))
            .item(text().examples(["2.90"]))
            .item(ObjectBuilder::new().schema_type(Type::Number));
        let mut schema = ObjectBuilder::new()
            .schema_type(Type::Object)
            .description(Some("Money for an amount, on the days it holds."))
            .property("amount", Schema::AnyOf(amount.build()))
            .property("currency", text().description(Some("Three letters of ISO 4217.")))
            .property("per", <Quantity<K> as WireSchema>::reference(into))
            .property("valid_from", date().description(Some("First day.")))
            .property("valid_until", date().description(Some("Last day; open where left out.")));
        for name in &MEMBERS[..4] {
            schema = schema.required(*name);
        }
        define(into, format!("{}Price", schema_name(K::INFO.name)), schema.into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{quantity::MassKind, wire};

    fn read(value: &Value) -> Result<PriceIn<MassKind>, crate::http::problem::Problem> {
        wire::read(value)
    }

    #[test]
    fn a_price_is_read_exactly_and_written_back() {
        let sent = json!({
            "amount": "2.90", "currency": "EUR", "per": {"value": 1, "unit": "kg"},
            "valid_from": "2026-01-01", "valid_until": "2026-06-30",
        });
        assert_eq!(read(&sent).unwrap().to_wire(), sent);
    }

    #[test]
    fn each_wrong_member_is_named() {
        let sent = json!({"amount": "much", "currency": "EURO", "per": 1, "valid_until": "now"});
        let problem = read(&sent).unwrap_err();
        let named: Vec<_> = problem.errors().iter().map(|error| error.pointer.as_str()).collect();
        assert_eq!(named, ["/amount", "/currency", "/per", "/valid_from", "/valid_until"]);
    }

    #[test]
    fn a_price_below_zero_or_for_reversed_days_is_none() {
        let base = |amount: &str, until: &str| {
            json!({
                "amount": amount, "currency": "EUR", "per": "1 kg",
                "valid_from": "2026-01-01", "valid_until": until,
            })
        };
        assert!(read(&base("-1", "2026-12-31")).is_err());
        assert!(read(&base("1", "2025-12-31")).is_err());
        assert!(read(&base("1", "2026-12-31")).is_ok());
    }
}
