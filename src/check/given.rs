//! Values of a setup as somebody states them: set, measured or nominal, with their accuracy.

use super::record::InstrumentLack;
use crate::{
    quantity::{Kind, Quantity, Range, Share, Span, at_least},
    trade::{Accuracy, Conformity, ErrorAt, ErrorModel, ErrorSize, coded, probability},
};

coded! {
    /// Where a stated value comes from.
    pub enum Origin: "origin" {
        /// Dialled or planned.
        Set = "set",
        /// Read off an instrument.
        Measured = "measured",
        /// Printed on the wire, plate or drawing.
        Nominal = "nominal",
    }
}

/// One stated value or interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Given<K: Kind> {
    /// The value, or all values between two.
    pub span: Span<K>,
    /// Where it comes from.
    pub origin: Origin,
    /// Accuracy of a measured value; without meaning for others.
    pub accuracy: Accuracy<K>,
    /// Why the instrument it names leaves the accuracy unknown; `None` where it names none that does.
    pub lack: Option<InstrumentLack>,
}

/// How a stated value lies to one limit (JCGM 106, ISO 14253-1).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Inside, and no error of the instrument could put it outside.
    Inside,
    /// Shown inside; the instrument's error could put it outside.
    EdgeInside,
    /// Shown outside; the instrument's error could put it inside.
    EdgeOutside,
    /// Outside.
    Outside,
}

impl<K: Kind> Given<K> {
    /// A value that was dialled or planned.
    #[must_use]
    pub const fn set(span: Span<K>) -> Self {
        Self { span, origin: Origin::Set, accuracy: Accuracy::Unknown, lack: None }
    }

    /// Whether this was measured with an accuracy nobody knows.
    #[must_use]
    pub fn accuracy_unknown(&self) -> bool {
        self.origin == Origin::Measured && self.accuracy == Accuracy::Unknown
    }

    /// Whether the value is inside a range and nothing more need be said of it: it was not measured.
    #[inline]
    #[must_use]
    pub fn is_plainly_inside(&self, range: &Range<K>) -> bool {
        self.origin != Origin::Measured && range.contains(&self.span)
    }

    /// How far one reading of it may be off, in canonical units: not at all for values that are set or nominal,
    /// `None` where a measured value's accuracy is unknown.
    fn error_at(&self, reading: Quantity<K>) -> Option<ErrorAt> {
        if self.origin == Origin::Measured {
            self.accuracy.at_reading(reading.distance_on_scale())
        } else {
            Some(ErrorAt::NONE)
        }
    }

    /// The same of the end that may be off the farthest.
    fn error(&self) -> Option<ErrorAt> {
        let (low, high) = (self.error_at(self.span.low())?, self.error_at(self.span.high())?);
        Some(if low.figure > high.figure { low } else { high })
    }

    /// Takes the accuracy that the record of its instrument states. Where the value has one of its own, the larger error
    /// counts; a reading beyond the end of the scale has none that anybody knows.
    pub fn read_by(&mut self, (model, size): (ErrorModel, ErrorSize<K>)) {
        if !size.scale_holds(self.span.high()) {
            self.lacking(InstrumentLack::BeyondScale);
            return;
        }
        let recorded = Self { accuracy: Accuracy::Known(model, size), ..*self };
        self.accuracy = self.worse_of(&recorded);
    }

    /// Of two accuracies of one reading the one that is worse at both ends of it; where each is at one, the largest error
    /// that either gives.
    fn worse_of(&self, recorded: &Self) -> Accuracy<K> {
        let ends = [self.span.low(), self.span.high()];
        let errors = ends.map(|end| (self.error_at(end), recorded.error_at(end)));
        let expanded = |error: Option<ErrorAt>| error.map_or(0.0, ErrorAt::expanded);
        let is_worse =
            |(own, other): &(Option<ErrorAt>, Option<ErrorAt>)| expanded(*other) >= expanded(*own);
        match errors.each_ref().map(is_worse) {
            [true, true] => recorded.accuracy,
            [false, false] => self.accuracy,
            _ => {
                let all = errors.into_iter().flat_map(|(own, other)| [own, other]).flatten();
                let worst = all.max_by(|a, b| a.expanded().total_cmp(&b.expanded()));
                let known = |worst: ErrorAt| {
                    let figure = Quantity::computed(worst.figure).ok()?;
                    Some(Accuracy::Known(worst.model, ErrorSize::Absolute(figure)))
                };
                worst.and_then(known).unwrap_or(Accuracy::Unknown)
            }
        }
    }

    /// Notes why its instrument leaves the accuracy unknown, whatever else was said of it.
    pub const fn lacking(&mut self, lack: InstrumentLack) {
        (self.accuracy, self.lack) = (Accuracy::Unknown, Some(lack));
    }

    /// Expanded uncertainty of the value (coverage factor 2) in canonical units: zero for values that are
    /// set or nominal, `None` where a measured value's accuracy is unknown.
    pub(crate) fn uncertainty(&self) -> Option<f64> {
        self.error().map(ErrorAt::expanded)
    }

    /// How far inside a limit the value has to lie, as a difference in canonical units: the expanded
    /// uncertainty or the largest error, times the organisation's factor; zero where it has none or nobody
    /// knows it.
    pub(crate) fn guard_band(&self, guard: GuardFactor) -> f64 {
        self.error().map_or(0.0, |error| guard.ratio() * error.figure)
    }

    /// How the value lies to a range, with guard bands of the organisation's width.
    #[must_use]
    pub fn place(&self, range: &Range<K>, guard: GuardFactor) -> Place {
        let ends = (range.min().map(Quantity::canonical), range.max().map(Quantity::canonical));
        let (low, high) = (self.span.low(), self.span.high());
        // Each end is a reading of its own, and as far off as that one may be.
        let bands = [low, high].map(|reading| {
            self.error_at(reading).map_or(0.0, |error| guard.ratio() * error.figure)
        });
        place((low.canonical(), high.canonical()), ends, bands, K::INFO.tolerance_floor)
    }

    /// Whether the guard bands leave something of a range, so that some value can be shown to conform.
    #[must_use]
    pub fn can_prove(&self, range: &Range<K>, guard: GuardFactor) -> bool {
        let (Some(min), Some(max)) = (range.min(), range.max()) else { return true };
        let band = self.guard_band(guard);
        let floor = K::INFO.tolerance_floor;
        at_least(max.canonical() - band, min.canonical() + band, floor)
    }

    /// What the instrument shows of the quantity being inside a range; `None` for a value that was not
    /// measured or whose accuracy nobody knows.
    #[must_use]
    pub fn conformity(&self, range: &Range<K>, guard: GuardFactor) -> Option<Conformity> {
        let Accuracy::Known(model, _) = self.accuracy else { return None };
        let error = self.error().filter(|_| self.origin == Origin::Measured)?;
        let probability = Share::computed(probability(&self.span, range, error)).ok()?;
        Some(Conformity { probability, model, provable: self.can_prove(range, guard) })
    }
}

/// How wide a guard band is, as a multiple of the expanded uncertainty or the largest error (JCGM 106:2012,
/// 8.3: w = r U; ISO 14253-1 takes 1). More than zero and at most 3.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GuardFactor(f64);

impl GuardFactor {
    /// The whole uncertainty.
    pub const ONE: Self = Self(1.0);

    /// A factor; `None` unless it is more than zero and at most 3.
    #[must_use]
    pub fn new(factor: f64) -> Option<Self> {
        (factor > 0.0 && factor <= 3.0).then_some(Self(factor))
    }

    /// The multiple.
    #[must_use]
    pub const fn ratio(self) -> f64 {
        self.0
    }
}

impl Default for GuardFactor {
    fn default() -> Self {
        Self::ONE
    }
}

/// Where values lie, with the guard band of each end; not generic, so that the code of every check is the same.
fn place(
    (low, high): (f64, f64),
    (min, max): (Option<f64>, Option<f64>),
    [below, above]: [f64; 2],
    floor: f64,
) -> Place {
    let holds_with = |times: f64| {
        min.is_none_or(|min| at_least(low - times * below, min, floor))
            && max.is_none_or(|max| at_least(max, high + times * above, floor))
    };
    let is_exact = below == 0.0 && above == 0.0;
    match holds_with(0.0) {
        true if is_exact || holds_with(1.0) => Place::Inside,
        true => Place::EdgeInside,
        false if !is_exact && holds_with(-1.0) => Place::EdgeOutside,
        false => Place::Outside,
    }
}

#[cfg(test)]
mod tests {
    use rust_decimal::Decimal;

    use super::*;
    use crate::{
        quantity::{Current, CurrentKind, TemperatureKind},
        trade::{ErrorModel, ErrorSize},
    };

    fn amperes(text: &str) -> Current {
        text.parse().unwrap()
    }

    fn measured(value: &str, accuracy: Accuracy<CurrentKind>) -> Given<CurrentKind> {
        let span = Span::one(amperes(value));
        Given { origin: Origin::Measured, accuracy, ..Given::set(span) }
    }

    /// Band 234 to 286 A, measured 281 A, expanded uncertainty 7.0 A: the guarded upper limit is
    /// 279.0 A, so 281 lies in the guard band (JCGM 106 terms; own arithmetic).
    #[test]
    fn the_guard_band_lies_inside_the_limit_and_outside_it() {
        let band = Range::new(Some(amperes("234 A")), Some(amperes("286 A"))).unwrap();
        let seven = Accuracy::of_amount(amperes("7 A"));
        assert_eq!(measured("279 A", seven).place(&band, GuardFactor::ONE), Place::Inside);
        assert_eq!(measured("281 A", seven).place(&band, GuardFactor::ONE), Place::EdgeInside);
        assert_eq!(measured("286 A", seven).place(&band, GuardFactor::ONE), Place::EdgeInside);
        assert_eq!(measured("290 A", seven).place(&band, GuardFactor::ONE), Place::EdgeOutside);
        assert_eq!(measured("293.1 A", seven).place(&band, GuardFactor::ONE), Place::Outside);
    }

    /// The same reading: half the guard band ends at 282.5 A, twice at 272 A (own arithmetic; JCGM 106:2012,
    /// 8.3, w = r U).
    #[test]
    fn the_organisations_factor_moves_the_guard_band() {
        let band = Range::new(Some(amperes("234 A")), Some(amperes("286 A"))).unwrap();
        let seven = Accuracy::of_amount(amperes("7 A"));
        let place =
            |value, factor| measured(value, seven).place(&band, GuardFactor::new(factor).unwrap());
        assert_eq!(place("282.5 A", 0.5), Place::Inside);
        assert_eq!(place("282.6 A", 0.5), Place::EdgeInside);
        assert_eq!(place("272 A", 2.0), Place::Inside);
        assert_eq!(place("272.1 A", 2.0), Place::EdgeInside);
        assert!([0.0, -1.0, 3.1, f64::NAN].iter().all(|r| GuardFactor::new(*r).is_none()));
    }

    /// The band is 52 A wide: with errors of 26 A only its middle can be proven, with more nothing (own
    /// arithmetic).
    #[test]
    fn an_instrument_whose_guard_bands_fill_the_band_proves_nothing() {
        let band = Range::new(Some(amperes("234 A")), Some(amperes("286 A"))).unwrap();
        let proves = |error: &str, band: &Range<CurrentKind>| {
            let given = measured("260 A", Accuracy::of_amount(amperes(error)));
            (given.can_prove(band, GuardFactor::ONE), given.place(band, GuardFactor::ONE))
        };
        assert_eq!(proves("26 A", &band), (true, Place::Inside));
        assert_eq!(proves("26.1 A", &band), (false, Place::EdgeInside));
        assert!(proves("26.1 A", &Range::at_most(amperes("286 A"))).0);
        let given = measured("281 A", Accuracy::of_amount(amperes("7 A")));
        let conformity = given.conformity(&band, GuardFactor::ONE).unwrap();
        assert!((conformity.probability.ratio() - 0.923).abs() < 0.0005 && conformity.provable);
        assert_eq!(
            Given::set(Span::one(amperes("281 A"))).conformity(&band, GuardFactor::ONE),
            None
        );
        let unknown = measured("281 A", Accuracy::Unknown);
        assert_eq!(unknown.conformity(&band, GuardFactor::ONE), None);
    }

    /// 1 % of 202 A is 2.02 A, of 280 A 2.8 A: the lower end lies 2.5 A above its limit, which is more than its own
    /// error and less than that of the other (own arithmetic; JCGM 106 terms).
    #[test]
    fn each_end_of_an_interval_has_an_error_of_its_own() {
        let one = Accuracy::of_reading("1 %".parse().unwrap());
        let place = |low: &str, high: &str, min: &str, max: &str| {
            let band = Range::new(Some(amperes(min)), Some(amperes(max))).unwrap();
            let span = Span::new(amperes(low), amperes(high)).unwrap();
            let given = Given { origin: Origin::Measured, accuracy: one, ..Given::set(span) };
            given.place(&band, GuardFactor::ONE)
        };
        assert_eq!(place("202 A", "280 A", "199.5 A", "283 A"), Place::Inside);
        assert_eq!(place("202 A", "280 A", "200 A", "283 A"), Place::EdgeInside);
        assert_eq!(place("202 A", "280 A", "199.5 A", "282.5 A"), Place::EdgeInside);
        assert_eq!(place("202 A", "280 A", "204 A", "283 A"), Place::EdgeOutside);
        assert_eq!(place("202 A", "280 A", "204.5 A", "283 A"), Place::Outside);
    }

    /// A difference of 9 °F is one of 5 K (own arithmetic by the factor 5/9).
    #[test]
    fn an_absolute_accuracy_is_a_difference() {
        let five = |number: i64, unit| {
            let accuracy = Accuracy::<TemperatureKind>::absolute(Decimal::from(number), unit);
            let Ok(Accuracy::Known(_, ErrorSize::Absolute(amount))) = accuracy else {
                panic!("{accuracy:?}")
            };
            (amount.canonical() - 5.0).abs() < 1e-12
        };
        assert!(five(9, "°F") && five(5, "K") && five(5, "°C") && five(-5, "Cel"));
        assert!(Accuracy::<TemperatureKind>::absolute(Decimal::ONE, "A").is_err());
        assert!(Accuracy::<CurrentKind>::absolute(Decimal::new(5, 1), "A").is_ok());
    }

    #[test]
    fn a_set_value_has_no_guard_band() {
        let band = Range::at_most(amperes("286 A"));
        assert_eq!(
            Given::set(Span::one(amperes("286 A"))).place(&band, GuardFactor::ONE),
            Place::Inside
        );
        assert_eq!(
            Given::set(Span::one(amperes("286.1 A"))).place(&band, GuardFactor::ONE),
            Place::Outside
        );
    }

    #[test]
    fn full_scale_accuracy_is_the_same_everywhere_on_the_scale() {
        let band = Range::at_most(amperes("286 A"));
        let (share, full_scale) = ("2.5 %".parse().unwrap(), amperes("400 A"));
        let size = ErrorSize::OfFullScale { share, full_scale };
        let accuracy = Accuracy::Known(ErrorModel::Expanded, size);
        assert_eq!(measured("276 A", accuracy).place(&band, GuardFactor::ONE), Place::Inside);
        assert_eq!(measured("276.5 A", accuracy).place(&band, GuardFactor::ONE), Place::EdgeInside);
    }
}
