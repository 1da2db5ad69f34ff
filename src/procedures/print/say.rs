//! Quantities and codes in words, in the units that the sheet is asked for in.

use std::cell::Cell;

use crate::{
    check::Variable,
    quantity::{Amount, AmountRange, Kind, Quantity, Range, Span, UnitSystem},
    sheet::Section,
    trade::{Coded, Gas, GasComponent, GasMixture, Process},
    wire::{AmountOut, RangeOut},
};

/// Says quantities in one system of units. What was written in other units stands beside.
#[derive(Debug)]
pub(super) struct Say {
    units: UnitSystem,
    converted: Cell<bool>,
}

/// A limit: as printed, and as written where that is in other units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Said {
    pub(super) printed: String,
    pub(super) written: Option<String>,
}

impl Say {
    pub(super) const fn new(units: UnitSystem) -> Self {
        Self { units, converted: Cell::new(false) }
    }

    /// Whether anything was said in other units than it was written in.
    pub(super) const fn has_converted(&self) -> bool {
        self.converted.get()
    }

    /// What may be, rounded inward where it has to be rounded, so that nothing is allowed that was not written.
    pub(super) fn allowed(&self, range: &AmountRange) -> Said {
        let written = as_written(range);
        let printed = match (range.min, range.max) {
            (Some(min), Some(max)) if min == max => Some(self.one(min)),
            _ => RangeOut::inward(range, Some(self.units)).and_then(|out| in_order(&out)),
        };
        // A range too narrow for the digits of another unit stays as it was written.
        let Some(printed) = printed else { return Said { printed: written, written: None } };
        let typed = [range.min, range.max].into_iter().flatten().filter_map(Amount::unit_typed);
        let mut symbols = typed.map(|unit| format!(" {}", unit.symbol));
        let is_other = symbols.any(|symbol| !printed.ends_with(&symbol));
        if is_other {
            self.converted.set(true);
        }
        Said { printed, written: is_other.then_some(written) }
    }

    fn one(&self, amount: Amount) -> String {
        let out = AmountOut::new(amount, Some(self.units));
        format!("{} {}", out.value, out.unit)
    }

    /// A range in one text.
    pub(super) fn range<K: Kind>(&self, range: &Range<K>) -> String {
        self.allowed(&range.amounts()).joined()
    }

    /// A span in one text.
    pub(super) fn span<K: Kind>(&self, span: &Span<K>) -> String {
        self.allowed(&span.amounts()).joined()
    }

    /// One value without what was written, for a place with little room.
    pub(super) fn shortly<K: Kind>(&self, value: Quantity<K>) -> String {
        self.allowed(&Span::one(value).amounts()).printed
    }

    /// One value.
    pub(super) fn value<K: Kind>(&self, value: Quantity<K>) -> String {
        self.span(&Span::one(value))
    }

    /// A lowest value.
    pub(super) fn at_least<K: Kind>(&self, value: Quantity<K>) -> String {
        self.range(&Range::at_least(value))
    }

    /// A highest value.
    pub(super) fn at_most<K: Kind>(&self, value: Quantity<K>) -> String {
        self.range(&Range::at_most(value))
    }

    /// Values in a list.
    pub(super) fn values<K: Kind>(&self, values: &[Quantity<K>]) -> Option<String> {
        listed(values.iter().map(|value| self.value(*value)))
    }
}

impl Said {
    /// In one text.
    pub(super) fn joined(self) -> String {
        match self.written {
            Some(written) => format!("{} (written as {written})", self.printed),
            None => self.printed,
        }
    }
}

fn in_order(out: &RangeOut) -> Option<String> {
    let unit = out.unit;
    match (&out.min, &out.max) {
        (Some(min), Some(max)) => (min <= max).then(|| format!("{min} to {max} {unit}")),
        (Some(min), None) => Some(format!("at least {min} {unit}")),
        (None, Some(max)) => Some(format!("at most {max} {unit}")),
        (None, None) => None,
    }
}

/// As it was typed, each end in its own unit.
fn as_written(range: &AmountRange) -> String {
    match (range.min, range.max) {
        (Some(min), Some(max)) if min != max && min.unit_typed() == max.unit_typed() => {
            let (number, _) = min.written(None);
            format!("{number} to {max}")
        }
        _ => range.to_string(),
    }
}

/// Texts in a list; `None` where there are none.
pub(super) fn listed(texts: impl IntoIterator<Item = String>) -> Option<String> {
    let all: Vec<_> = texts.into_iter().collect();
    (!all.is_empty()).then(|| all.join(", "))
}

/// A code as words: `partly-mechanised` as "partly mechanised", `single-v` as "single V". Symbols stay.
pub(super) fn words<T: Coded>(value: T) -> String {
    let code = value.code();
    if code.chars().any(|c| c.is_ascii_uppercase() || c.is_ascii_digit()) {
        return code.to_owned();
    }
    let spaced = code.replace('-', " ");
    match spaced.rsplit_once(' ') {
        Some((before, letter @ ("v" | "u" | "j"))) => {
            format!("{before} {}", letter.to_ascii_uppercase())
        }
        _ => spaced,
    }
}

/// A variable as the trade writes it.
pub(super) fn variable(variable: Variable) -> String {
    match variable {
        Variable::StickOut => "electrical stick-out".to_owned(),
        other => words(other),
    }
}

/// Codes in a list; `None` where there are none.
pub(super) fn all<T: Coded>(values: &[T]) -> Option<String> {
    listed(values.iter().map(|value| words(*value)))
}

/// A process: number, name and letters.
pub(super) fn process(process: Process) -> String {
    format!("{}, {} ({})", process.code(), process.name(), process.aws_letters())
}

/// A gas: its group or its mixture.
pub(super) fn gas(gas: Gas) -> String {
    match gas {
        Gas::None => "none".to_owned(),
        Gas::Group(group) => format!("group {}", group.code()),
        Gas::Mixture(own) => mixture(own),
    }
}

/// A mixture in vol %.
pub(super) fn mixture(mixture: GasMixture) -> String {
    let shares =
        GasComponent::ALL.iter().map(|(component, code)| (*code, mixture.share(*component)));
    let present = shares.filter(|(_, percent)| !percent.is_zero());
    let parts = present.map(|(code, percent)| format!("{code} {} vol %", percent.normalize()));
    listed(parts).unwrap_or_default()
}

/// A section that remembers what is not stated.
pub(super) struct Part {
    section: Section,
    missing: Vec<&'static str>,
}

impl Part {
    pub(super) fn new(title: &str, source: Option<&'static str>) -> Self {
        Self { section: Section::new(title, source), missing: Vec::new() }
    }

    /// Something that a procedure says; told as not stated where it does not.
    pub(super) fn fact(&mut self, name: &'static str, value: Option<String>) {
        match value {
            Some(value) => self.section.fact(name, &value),
            None => self.missing.push(name),
        }
    }

    /// Something that only some procedures say.
    pub(super) fn also(&mut self, name: &str, value: Option<String>) {
        if let Some(value) = value {
            self.section.fact(name, &value);
        }
    }

    /// Writes what was not stated so far.
    pub(super) fn not_stated(&mut self) {
        if let Some(missing) = listed(self.missing.drain(..).map(str::to_lowercase)) {
            self.section.fact("Not stated", &missing);
        }
    }

    /// The section being written.
    pub(super) const fn section(&mut self) -> &mut Section {
        &mut self.section
    }

    pub(super) fn end(mut self) -> Section {
        self.not_stated();
        self.section
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        qualify::record::GrooveKind,
        quantity::{CurrentKind, TravelSpeedKind},
        trade::Polarity,
    };

    fn speeds(min: &str, max: &str) -> AmountRange {
        let end = |text: &str| (!text.is_empty()).then(|| text.parse().unwrap());
        Range::<TravelSpeedKind>::new(end(min), end(max)).unwrap().amounts()
    }

    fn said(units: UnitSystem, range: &AmountRange) -> (String, Option<String>) {
        let Said { printed, written } = Say::new(units).allowed(range);
        (printed, written)
    }

    /// 1 in = 25.4 mm exactly (NIST SP 811, appendix B.8). Own arithmetic: 300/25.4 = 11.8110… and
    /// 400/25.4 = 15.7480…; the lower end goes up and the upper one down.
    #[test]
    fn a_converted_limit_allows_nothing_that_was_not_written() {
        let range = speeds("300 mm/min", "400 mm/min");
        assert_eq!(said(UnitSystem::Metric, &range), ("300 to 400 mm/min".into(), None));
        let us = ("11.82 to 15.74 in/min".into(), Some("300 to 400 mm/min".into()));
        assert_eq!(said(UnitSystem::Us, &range), us);
        let floor = ("at least 11.82 in/min".into(), Some("at least 300 mm/min".into()));
        assert_eq!(said(UnitSystem::Us, &speeds("300 mm/min", "")), floor);
        let ceiling = ("at most 15.74 in/min".into(), Some("at most 400 mm/min".into()));
        assert_eq!(said(UnitSystem::Us, &speeds("", "400 mm/min")), ceiling);
    }

    #[test]
    fn a_range_narrower_than_the_digits_stays_as_written() {
        // Own arithmetic: 300/25.4 = 11.8110…, up to 11.82; 300.001/25.4 = 11.81106…, down to 11.81106.
        let range = speeds("300 mm/min", "300.001 mm/min");
        assert_eq!(said(UnitSystem::Us, &range), ("300 to 300.001 mm/min".into(), None));
        let one = ("11.81 in/min".into(), Some("300 mm/min".into()));
        assert_eq!(said(UnitSystem::Us, &speeds("300 mm/min", "300 mm/min")), one);
    }

    #[test]
    fn a_unit_of_both_systems_is_not_converted() {
        let range = Range::<CurrentKind>::new("200 A".parse().ok(), "240 A".parse().ok()).unwrap();
        let say = Say::new(UnitSystem::Us);
        assert_eq!(say.range(&range), "200 to 240 A");
        assert!(!say.has_converted());
    }

    #[test]
    fn codes_read_as_words_and_symbols_stay() {
        assert_eq!(words(GrooveKind::SingleV), "single V");
        assert_eq!(words(Polarity::Dcep), "DCEP");
        assert_eq!(process(Process::MagFluxCored), "136, MAG, flux-cored wire (FCAW-G)");
    }
}
