//! Units of a physical kind, and the kind's plausible span.

use std::num::NonZero;

use rust_decimal::Decimal;

use super::{QuantityError, at_least, decimal::double};

/// The family a unit belongs to when an answer is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnitSystem {
    /// SI and the trade's metric units.
    Metric,
    /// US customary units.
    Us,
}

/// One unit: its symbol, its UCUM code and its exact conversion to the canonical unit,
/// `canonical = (number − offset) · factor`.
#[derive(Debug)]
pub struct Unit {
    /// The symbol that answers print.
    pub symbol: &'static str,
    /// Other spellings that are read: the UCUM code and plain-ASCII forms.
    pub also: &'static [&'static str],
    /// Numerator and denominator of the factor to the canonical unit, exact by definition.
    pub factor: (f64, f64),
    /// Subtracted before the factor; zero for all but temperatures.
    pub offset: f64,
    /// Where the unit is at home; `None` for units used everywhere (A, V, deg).
    pub system: Option<UnitSystem>,
    /// The symbol as one number, where it is short: texts are full of units, and nearly all are symbols.
    key: Option<Key>,
}

/// The bytes of a short symbol.
type Key = NonZero<u64>;

/// The symbol as one number; `None` where it is long.
const fn key(bytes: &[u8]) -> Option<Key> {
    if bytes.len() > 7 {
        return None;
    }
    // The one before the first byte tells symbols of unlike length apart.
    let (mut key, mut at) = (1, 0);
    while at < bytes.len() {
        key = key << 8 | bytes[at] as u64;
        at += 1;
    }
    Key::new(key)
}

impl PartialEq for Unit {
    /// By its place, and where it has several by what it is.
    fn eq(&self, other: &Self) -> bool {
        let what = |unit: &Self| (unit.symbol, unit.also, unit.factor, unit.offset, unit.system);
        std::ptr::eq(self, other) || what(self) == what(other)
    }
}

impl Eq for Unit {}

impl Unit {
    /// A unit without offset.
    #[must_use]
    pub const fn new(
        symbol: &'static str,
        also: &'static [&'static str],
        factor: (f64, f64),
        system: Option<UnitSystem>,
    ) -> Self {
        Self { symbol, also, factor, offset: 0.0, system, key: key(symbol.as_bytes()) }
    }

    /// The same unit, counted from another zero.
    pub(super) const fn with_zero_at(self, offset: f64) -> Self {
        Self { offset, ..self }
    }

    /// The canonical value of a number in this unit.
    ///
    /// # Errors
    /// [`QuantityError::NotANumber`] where the number does not fit a double.
    pub(super) fn to_canonical(&self, number: Decimal) -> Result<f64, QuantityError> {
        let number = double(number).ok_or_else(|| QuantityError::NotANumber {
            given: number.to_string(),
            example: format!("12.5 {}", self.symbol),
        })?;
        Ok(self.canonical(number))
    }

    /// The canonical value of a number in this unit that is a double already.
    pub(super) fn canonical(&self, number: f64) -> f64 {
        (number - self.offset) * self.factor.0 / self.factor.1
    }

    /// The number in this unit for a canonical value.
    #[must_use]
    pub fn number(&self, canonical: f64) -> f64 {
        canonical * self.factor.1 / self.factor.0 + self.offset
    }

    /// The difference, in the canonical unit, of a canonical number from the zero of this unit.
    pub(super) fn without_offset(&self, canonical: f64) -> f64 {
        if self.offset == 0.0 {
            canonical
        } else {
            self.number(canonical) * self.factor.0 / self.factor.1
        }
    }

    fn is_called(&self, name: &str) -> bool {
        self.symbol == name || self.also.contains(&name)
    }
}

/// What is known about one physical kind.
#[derive(Debug)]
pub struct KindInfo {
    /// Trade name in the singular, as problems and findings print it.
    pub name: &'static str,
    /// All units that are read; the first one is canonical.
    pub units: &'static [Unit],
    /// Unit for metric answers.
    pub metric: &'static str,
    /// Unit for US customary answers.
    pub us: &'static str,
    /// Lowest and highest plausible canonical value, ends included.
    pub span: (f64, f64),
    /// Magnitude below which the comparison tolerance stops shrinking.
    pub tolerance_floor: f64,
}

impl PartialEq for KindInfo {
    /// By its name, not its address: a constant may have several.
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self, other) || self.name == other.name
    }
}

impl KindInfo {
    pub(super) fn unit(&self, name: &str) -> Result<&'static Unit, QuantityError> {
        let by_symbol = self.unit_of_symbol(name.as_bytes());
        let found = by_symbol.or_else(|| self.units.iter().find(|unit| unit.is_called(name)));
        found.ok_or_else(|| QuantityError::UnknownUnit {
            given: name.to_owned(),
            quantity: self.name,
            known: self.units.iter().map(|unit| unit.symbol).collect(),
        })
    }

    /// The unit of a short symbol; other spellings are for [`Self::unit`].
    #[inline]
    pub(super) fn unit_of_symbol(&self, symbol: &[u8]) -> Option<&'static Unit> {
        let key = key(symbol)?;
        self.units.iter().find(|unit| unit.key == Some(key))
    }

    pub(super) fn plausible(&self, canonical: f64) -> Result<(), QuantityError> {
        let (low, high) = self.span;
        let inside = at_least(canonical, low, self.tolerance_floor)
            && at_least(high, canonical, self.tolerance_floor);
        if canonical.is_finite() && inside {
            return Ok(());
        }
        let unit = self.answer_unit(UnitSystem::Metric);
        let (low, high) = (unit.number(low), unit.number(high));
        Err(QuantityError::Implausible { quantity: self.name, low, high, unit: unit.symbol })
    }

    /// The unit somebody probably means who types this number: the first in which it is plausible, of those of
    /// answers and then of all.
    #[must_use]
    pub fn probable_unit(&self, number: Decimal) -> &'static Unit {
        let usual = [UnitSystem::Metric, UnitSystem::Us].map(|system| self.answer_unit(system));
        let fits = |unit: &&'static Unit| {
            unit.to_canonical(number).is_ok_and(|canonical| self.plausible(canonical).is_ok())
        };
        usual.into_iter().chain(self.units).find(fits).unwrap_or(usual[0])
    }

    /// The unit an answer in the given system uses.
    #[must_use]
    pub fn answer_unit(&self, system: UnitSystem) -> &'static Unit {
        let symbol = match system {
            UnitSystem::Metric => self.metric,
            UnitSystem::Us => self.us,
        };
        let short = self.unit_of_symbol(symbol.as_bytes());
        let found = short.or_else(|| self.units.iter().find(|unit| unit.symbol == symbol));
        found.unwrap_or(&self.units[0])
    }
}

/// A physical kind, as a type.
pub trait Kind: std::fmt::Debug + Copy + PartialEq + Send + Sync + 'static {
    /// Units, spans and names of the kind.
    const INFO: &'static KindInfo;
}

#[cfg(test)]
mod tests {
    use std::collections::HashMap;

    use crate::quantity::kinds::ALL_KINDS;

    #[test]
    fn a_unit_is_found_by_every_spelling_and_by_no_other() {
        for kind in ALL_KINDS {
            for unit in kind.units {
                for name in unit.also.iter().chain([&unit.symbol]) {
                    assert_eq!(kind.unit(name).unwrap().symbol, unit.symbol, "{name}");
                    for wrong in [format!("\0{name}"), format!("{name}\0")] {
                        assert!(kind.unit(&wrong).is_err(), "{wrong:?}");
                    }
                }
            }
            assert!(kind.unit("").is_err());
        }
    }

    /// 400 m/min is no wire feed, 400 in/min are 10.16 m/min; 0.3 kW and 12.5 % are plausible as they stand.
    #[test]
    fn a_number_is_taken_for_one_in_a_unit_that_makes_it_plausible() {
        use crate::quantity::{Kind, PowerKind, ShareKind, WireFeedKind};
        for (kind, number, unit) in [
            (WireFeedKind::INFO, "9", "m/min"),
            (WireFeedKind::INFO, "400", "in/min"),
            (WireFeedKind::INFO, "5000", "cm/min"),
            (WireFeedKind::INFO, "9000000", "m/min"),
            (PowerKind::INFO, "0.3", "kW"),
            (PowerKind::INFO, "5000", "W"),
            (ShareKind::INFO, "12.5", "%"),
        ] {
            let number = number.parse().unwrap();
            assert_eq!(kind.probable_unit(number).symbol, unit, "{} {number}", kind.name);
        }
    }

    #[test]
    fn no_two_short_symbols_share_their_number() {
        let mut seen = HashMap::new();
        for unit in ALL_KINDS.iter().flat_map(|kind| kind.units) {
            if let Some(key) = unit.key {
                assert_eq!(*seen.entry(key).or_insert(unit.symbol), unit.symbol);
            }
        }
        assert!(seen.len() > 30);
    }
}
