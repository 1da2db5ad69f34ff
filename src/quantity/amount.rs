//! A value whose kind is known at run time only, for findings and answers.

use std::{cmp::Ordering, fmt, marker::PhantomData};

use rust_decimal::Decimal;

use super::{
    Digits, Entered, Kind, KindInfo, Quantity, QuantityError, Rounding, Unit, UnitSystem, compare,
    print,
};

/// One value with its kind as data.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Amount {
    pub(super) canonical: f64,
    pub(super) entered: Option<Entered>,
    pub(super) kind: &'static KindInfo,
}

impl Amount {
    /// The number and unit to print. In the system asked for, or as typed where that unit belongs
    /// to the system or to both.
    #[must_use]
    pub fn written(self, system: Option<UnitSystem>) -> (Decimal, &'static Unit) {
        self.written_rounded(system, Rounding::Nearest)
    }

    /// Number and unit as one text; see [`Self::written`].
    #[must_use]
    pub fn told(self, system: UnitSystem) -> String {
        let (number, unit) = self.written(Some(system));
        format!("{number} {}", unit.symbol)
    }

    /// Number and unit as [`Self::written`], rounded one way where a conversion or computation needs rounding.
    #[must_use]
    pub fn written_rounded(
        self,
        system: Option<UnitSystem>,
        rounding: Rounding,
    ) -> (Decimal, &'static Unit) {
        let unit = self.written_unit(system);
        (self.written_in(unit, rounding), unit)
    }

    /// The unit to print it in; see [`Self::written`].
    #[must_use]
    pub fn written_unit(self, system: Option<UnitSystem>) -> &'static Unit {
        match (self.entered, system) {
            (Some(typed), None) => typed.unit,
            (Some(typed), Some(system)) if is_at_home(typed.unit, system) => typed.unit,
            (_, system) => self.kind.answer_unit(system.unwrap_or(UnitSystem::Metric)),
        }
    }

    /// The number in a unit of the same kind: as typed where that is its unit, else with the digits that its
    /// precision deserves.
    #[must_use]
    pub fn written_in(self, unit: &Unit, rounding: Rounding) -> Decimal {
        self.digits_in(unit, rounding).decimal()
    }

    /// The same as digits, to be written.
    #[must_use]
    pub fn digits_in(self, unit: &Unit, rounding: Rounding) -> Digits {
        match self.entered {
            Some(typed) if typed.unit == unit => typed.number.into(),
            Some(typed) => print::converted(unit.number(self.canonical), typed.number, rounding),
            None => print::computed(unit.number(self.canonical), rounding),
        }
    }

    /// The value for a sentence: a computed one as if typed in this unit of its kind, with the digits it
    /// deserves; what was typed stays as typed. It compares as before.
    #[must_use]
    pub fn said_in(self, unit: &'static Unit) -> Self {
        let computed = || Entered { number: self.written_in(unit, Rounding::Nearest), unit };
        Self { entered: self.entered.or_else(|| Some(computed())), ..self }
    }

    /// The value as if typed, with more digits than usual: as few as tell it from an end of a limit that it is not and
    /// would be printed as. `None` where there is no such end, and for what was typed.
    #[must_use]
    pub fn apart_from(self, ends: [Option<Self>; 2]) -> Option<Self> {
        if self.entered.is_some() {
            return None;
        }
        let typed = |end: &Self| end.unit_typed();
        let unit = ends.iter().flatten().find_map(typed).unwrap_or_else(|| self.written_unit(None));
        let is_one = |number: Decimal| {
            let reads_so = |end: &Self| end.written_in(unit, Rounding::Nearest) == number;
            ends.iter()
                .flatten()
                .any(|end| end.compare(self) != Some(Ordering::Equal) && reads_so(end))
        };
        is_one(self.written_in(unit, Rounding::Nearest)).then_some(())?;
        // Two values that are not equal differ in ten digits.
        let longer =
            |digits| print::rounded(unit.number(self.canonical), digits, Rounding::Nearest);
        let number = (5..=10).map(longer).find(|number| !is_one(*number))?;
        Some(Self { entered: Some(Entered { number, unit }), ..self })
    }

    /// Adds it to a text as it is printed, without a detour by way of formatting.
    pub fn push_to(self, text: &mut String) {
        // A text takes whatever is written.
        let _ = self.write_to(text);
    }

    fn write_to(self, text: &mut impl fmt::Write) -> fmt::Result {
        let unit = self.written_unit(None);
        self.digits_in(unit, Rounding::Nearest).write_to(text)?;
        text.write_char(' ')?;
        text.write_str(unit.symbol)
    }

    /// A value that a rule produced, in the canonical unit of a kind known at run time only.
    ///
    /// # Errors
    /// [`QuantityError::NotFinite`] for an overflow.
    pub fn computed(kind: &'static KindInfo, canonical: f64) -> Result<Self, QuantityError> {
        if canonical.is_finite() {
            Ok(Self { canonical, entered: None, kind })
        } else {
            Err(QuantityError::NotFinite { quantity: kind.name })
        }
    }

    /// A value as typed; see [`Quantity::entered`].
    ///
    /// # Errors
    /// As for a quantity.
    pub fn entered(
        kind: &'static KindInfo,
        number: Decimal,
        unit: &str,
    ) -> Result<Self, QuantityError> {
        let unit = kind.unit(unit)?;
        let canonical = unit.to_canonical(number)?;
        kind.plausible(canonical)?;
        Ok(Self { canonical, entered: Some(Entered { number, unit }), kind })
    }

    /// The value with its kind in the type again; `None` when it is of another kind.
    #[must_use]
    pub fn of_kind<K: Kind>(self) -> Option<Quantity<K>> {
        (self.kind == K::INFO).then_some(Quantity {
            canonical: self.canonical,
            entered: self.entered,
            kind: PhantomData,
        })
    }

    /// The unit it was typed in; `None` for a computed value.
    #[must_use]
    pub fn unit_typed(self) -> Option<&'static Unit> {
        self.entered.map(|entered| entered.unit)
    }

    /// Compares two amounts; `None` when they are of different kinds.
    #[must_use]
    pub fn compare(self, other: Self) -> Option<Ordering> {
        (self.kind == other.kind)
            .then(|| compare(self.canonical, other.canonical, self.kind.tolerance_floor))
    }

    /// Trade name of the kind.
    #[must_use]
    pub const fn kind(self) -> &'static KindInfo {
        self.kind
    }

    /// The value in the canonical unit of its kind.
    #[must_use]
    pub const fn canonical(self) -> f64 {
        self.canonical
    }
}

fn is_at_home(unit: &Unit, system: UnitSystem) -> bool {
    unit.system.is_none_or(|home| home == system)
}

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write_to(f)
    }
}

/// A range of amounts of one kind; one end may be open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AmountRange {
    /// Lowest value, included; `None` where there is no lower end.
    pub min: Option<Amount>,
    /// Highest value, included; `None` where there is no upper end.
    pub max: Option<Amount>,
}

impl AmountRange {
    /// Whether every amount of the other range, of the same kind, is one of this.
    #[must_use]
    pub fn holds(&self, other: &Self) -> bool {
        let within =
            |end: Option<Amount>, other: Option<Amount>, beyond: Ordering| match (end, other) {
                (None, _) => true,
                (Some(_), None) => false,
                (Some(end), Some(other)) => other.compare(end).is_some_and(|order| order != beyond),
            };
        within(self.min, other.min, Ordering::Less)
            && within(self.max, other.max, Ordering::Greater)
    }

    /// The range for a sentence; see [`Amount::said_in`].
    #[must_use]
    pub fn said_in(self, unit: &'static Unit) -> Self {
        let said = |end: Option<Amount>| end.map(|end| end.said_in(unit));
        let min = said(self.min);
        Self { min, max: if self.max == self.min { min } else { said(self.max) } }
    }

    /// Adds it to a text as it is printed; see [`Amount::push_to`].
    pub fn push_to(self, text: &mut String) {
        let _ = self.write_to(text);
    }

    fn write_to(self, text: &mut impl fmt::Write) -> fmt::Result {
        match (self.min, self.max) {
            (Some(min), Some(max)) if min != max => {
                min.write_to(text)?;
                text.write_str(" to ")?;
                max.write_to(text)
            }
            (Some(min), Some(_)) => min.write_to(text),
            (Some(min), None) => {
                text.write_str("at least ")?;
                min.write_to(text)
            }
            (None, Some(max)) => {
                text.write_str("at most ")?;
                max.write_to(text)
            }
            (None, None) => text.write_str("any"),
        }
    }
}

impl fmt::Display for AmountRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write_to(f)
    }
}

#[cfg(test)]
mod tests {
    use super::AmountRange;
    use crate::quantity::{
        Amount, ElectricalStickOut, Leg, TravelSpeed, TravelSpeedKind, UnitSystem, WireFeed,
        WireFeedKind, kinds::ALL_KINDS,
    };

    fn written(text: &str, system: Option<UnitSystem>) -> String {
        let amount = text.parse::<ElectricalStickOut>().unwrap().amount();
        let (number, unit) = amount.written(system);
        format!("{number} {}", unit.symbol)
    }

    #[test]
    fn what_was_typed_comes_back_as_typed() {
        assert_eq!(written("3/4 in", None), "0.75 in");
        assert_eq!(written("3/4 in", Some(UnitSystem::Us)), "0.75 in");
    }

    #[test]
    fn a_conversion_keeps_sensible_digits() {
        assert_eq!(written("3/4 in", Some(UnitSystem::Metric)), "19.05 mm");
        assert_eq!(written("20 mm", Some(UnitSystem::Us)), "0.7874 in");
    }

    #[test]
    fn a_computed_value_has_four_digits() {
        let speed = TravelSpeed::computed(1.0 / 3.0).unwrap();
        assert_eq!(speed.to_string(), "0.3333 mm/min");
    }

    /// Own arithmetic: 3.174 99 mm over 25.4 are 0.124 999 606 in.
    #[test]
    fn a_computed_value_just_beside_a_limit_does_not_read_as_the_limit() {
        let limit = |text: &str| text.parse::<Leg>().unwrap().amount();
        let computed = |mm| Leg::computed(mm).unwrap().amount();
        let apart = |amount: Amount, end: &str| {
            amount.apart_from([Some(limit(end)), None]).map(|apart| apart.to_string())
        };
        assert_eq!(apart(computed(2.999_96), "3 mm").as_deref(), Some("2.99996 mm"));
        assert_eq!(apart(computed(3.000_000_1), "3 mm").as_deref(), Some("3.0000001 mm"));
        assert_eq!(apart(computed(3.174_99), "1/8 in").as_deref(), Some("0.1249996 in"));
        for (clear, end) in [(2.99, "3 mm"), (3.0, "3 mm"), (3.0 + 1e-9, "3 mm"), (3.175, "1/8 in")]
        {
            assert_eq!(apart(computed(clear), end), None, "{clear}");
        }
        assert_eq!(apart(limit("2.99996 mm"), "3 mm"), None);
        assert_eq!(computed(2.0).apart_from([None, None]), None);
    }

    /// 25.4 mm/min is 1 in/min; what was typed stays as typed.
    #[test]
    fn a_computed_value_is_said_in_the_unit_asked_for() {
        let inches = "1 in/min".parse::<TravelSpeed>().unwrap().as_entered().unwrap().unit;
        let computed = TravelSpeed::computed(25.4 / 3.0).unwrap().amount();
        assert_eq!(computed.said_in(inches).to_string(), "0.3333 in/min");
        assert_eq!(computed.said_in(inches).compare(computed), Some(std::cmp::Ordering::Equal));
        let typed = "30 cm/min".parse::<TravelSpeed>().unwrap().amount();
        assert_eq!(typed.said_in(inches).to_string(), "30 cm/min");
    }

    #[test]
    fn an_amount_is_of_its_own_kind_only_and_compares_with_no_other() {
        let speed = "9 in/min".parse::<TravelSpeed>().unwrap().amount();
        assert_eq!(speed.of_kind::<TravelSpeedKind>().unwrap().to_string(), "9 in/min");
        assert!(speed.of_kind::<WireFeedKind>().is_none());
        let feed = "9 in/min".parse::<WireFeed>().unwrap().amount();
        assert_eq!(speed.compare(feed), None);
        assert_eq!(speed.compare(speed), Some(std::cmp::Ordering::Equal));
    }

    #[test]
    fn what_is_added_to_a_text_is_what_is_printed() {
        let typed = |text: &str| Some(text.parse::<TravelSpeed>().unwrap().amount());
        let long = typed("100.12345678901234567890123 mm/min");
        let speeds = [None, typed("9 in/min"), typed("30 cm/min"), long];
        for (min, max) in speeds.into_iter().flat_map(|min| speeds.map(|max| (min, max))) {
            let mut text = "at ".to_owned();
            if let Some(min) = min {
                min.push_to(&mut text);
                assert_eq!(text, format!("at {min}"));
            }
            let expected = match (min, max) {
                (Some(min), Some(max)) if min == max => min.to_string(),
                (Some(min), Some(max)) => format!("{min} to {max}"),
                (Some(min), None) => format!("at least {min}"),
                (None, Some(max)) => format!("at most {max}"),
                (None, None) => "any".to_owned(),
            };
            assert_eq!(AmountRange { min, max }.to_string(), expected);
        }
    }

    /// Kinds are told apart by their names.
    #[test]
    fn no_two_kinds_share_a_name() {
        let names: std::collections::HashSet<_> = ALL_KINDS.iter().map(|kind| kind.name).collect();
        assert_eq!(names.len(), ALL_KINDS.len());
    }
}
