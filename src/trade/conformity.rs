//! How likely it is that a quantity lies inside its limits, by what an instrument showed of it.

use crate::quantity::{Kind, Quantity, Range, Share, Span};

use super::{ErrorAt, ErrorModel, Formula, formula};

formula! {
    /// Probability of conformity with normal errors.
    pub const CONFORMITY_NORMAL {
        name: "conformity-normal",
        equation: "p = Phi((TU - y)/u) - Phi((TL - y)/u), u = U/2; one end alone leaves the other term 1 or 0",
        source: "JCGM 106:2012, 7.2 to 7.4; U of a certificate by JCGM 100:2008, 4.3.3",
        validity: "normal errors and nothing known of the quantity before it was read; for an interval of readings \
                   the least over it",
        confidence: Memory,
    }
}

formula! {
    /// Probability of conformity where every error up to the largest is as likely.
    pub const CONFORMITY_RECTANGULAR {
        name: "conformity-rectangular",
        equation: "p = share of [y - a, y + a] that lies in [TL, TU]; u = a/sqrt(3)",
        source: "JCGM 106:2012, 7.1 with the rectangular distribution of JCGM 100:2008, 4.3.7",
        validity: "no error is larger than a, and nothing is known of the quantity before it was read; for an \
                   interval of readings the least over it",
        confidence: Memory,
    }
}

/// What an instrument shows of the quantity being inside its limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conformity {
    /// Probability that the quantity lies inside its limits.
    pub probability: Share,
    /// How the errors of the instrument are spread.
    pub model: ErrorModel,
    /// Whether some value read with this instrument could prove conformity: the guard bands leave
    /// something of the limits.
    pub provable: bool,
}

impl Conformity {
    /// The formula of the probability.
    #[must_use]
    pub const fn formula(&self) -> &'static Formula {
        match self.model {
            ErrorModel::Expanded => &CONFORMITY_NORMAL,
            ErrorModel::Largest => &CONFORMITY_RECTANGULAR,
        }
    }

    /// Whether the value lies so near a limit, or beyond it, that the probability is neither none nor
    /// certainty to a tenth of a percent.
    #[must_use]
    pub fn is_near(&self) -> bool {
        let probability = self.probability.ratio();
        (0.0005..0.9995).contains(&probability)
    }
}

/// Probability that a quantity lies in a range, after an instrument showed a value of it; the least over
/// an interval of readings. Errors in canonical units; one of zero makes it 1 or 0.
pub(crate) fn probability<K: Kind>(shown: &Span<K>, range: &Range<K>, error: ErrorAt) -> f64 {
    let ends = (
        range.min().map_or(f64::NEG_INFINITY, Quantity::canonical),
        range.max().map_or(f64::INFINITY, Quantity::canonical),
    );
    // The probability rises up to the middle of the range and falls after it, so the least is at an end.
    let low = of_value(shown.low().canonical(), ends, error);
    low.min(of_value(shown.high().canonical(), ends, error))
}

fn of_value(value: f64, (min, max): (f64, f64), error: ErrorAt) -> f64 {
    if error.figure <= 0.0 {
        return if min <= value && value <= max { 1.0 } else { 0.0 };
    }
    match error.model {
        ErrorModel::Expanded => {
            let u = error.standard();
            (below((max - value) / u) - below((min - value) / u)).clamp(0.0, 1.0)
        }
        ErrorModel::Largest => {
            let a = error.figure;
            let inside = (value + a).min(max) - (value - a).max(min);
            (inside / (2.0 * a)).clamp(0.0, 1.0)
        }
    }
}

/// The standard normal distribution function, by the series of G. Marsaglia, Evaluating the normal
/// distribution, Journal of Statistical Software 11 (2004) no. 4 (from memory; compared with a general
/// library by the tests).
fn below(z: f64) -> f64 {
    if z.abs() > 7.0 {
        return if z > 0.0 { 1.0 } else { 0.0 };
    }
    let (mut sum, mut term, mut odd) = (z, z, 1.0);
    loop {
        odd += 2.0;
        term *= z * z / odd;
        let next = sum + term;
        if next.to_bits() == sum.to_bits() {
            break;
        }
        sum = next;
    }
    let density = (-0.5 * z * z).exp() / std::f64::consts::TAU.sqrt();
    0.5 + sum * density
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Current, CurrentKind};

    fn amperes(value: f64) -> Current {
        Quantity::computed(value).unwrap()
    }

    fn normal(value: f64, min: Option<f64>, max: Option<f64>, u: f64) -> f64 {
        of(ErrorModel::Expanded, value, min, max, 2.0 * u)
    }

    fn of(model: ErrorModel, value: f64, min: Option<f64>, max: Option<f64>, figure: f64) -> f64 {
        let range = Range::<CurrentKind>::new(min.map(amperes), max.map(amperes)).unwrap();
        probability(&Span::one(amperes(value)), &range, ErrorAt { model, figure })
    }

    /// JCGM 106:2012, 7.3.3, table of the conformance probability for one limit at a distance of z standard
    /// uncertainties (from memory; two decimals of z, so that the probabilities agree to 0.003).
    #[test]
    fn one_limit_as_printed() {
        for (z, printed) in [(0.84, 0.80), (1.28, 0.90), (1.64, 0.95), (2.33, 0.99), (3.09, 0.999)]
        {
            assert!((normal(100.0 - z, None, Some(100.0), 1.0) - printed).abs() < 0.003, "{z}");
            assert!((normal(100.0 + z, Some(100.0), None, 1.0) - printed).abs() < 0.003, "{z}");
            assert!((normal(100.0 + z, None, Some(100.0), 1.0) - (1.0 - printed)).abs() < 0.003);
        }
    }

    /// JCGM 106:2012, 7.3.3 example of one upper limit: 1.4 standard uncertainties inside it, 0.92; 7.4
    /// example of two limits, 12.5 and 16.3, read 13.6 with u = 1.8: 0.93 - 0.27 = 0.66 (both from memory).
    #[test]
    fn the_worked_examples() {
        assert!((normal(99.3, None, Some(100.0), 0.5) - 0.92).abs() < 0.005);
        assert!((normal(13.6, Some(12.5), Some(16.3), 1.8) - 0.66).abs() < 0.005);
    }

    /// Band 234 to 286 A, read 281 A with U = 7 A: Phi(5/3.5) = 0.923; at 279 A Phi(2) = 0.977 (own
    /// arithmetic by the tables of the normal distribution).
    #[test]
    fn a_current_near_the_upper_end_of_its_band() {
        let band = |value| normal(value, Some(234.0), Some(286.0), 3.5);
        assert!((band(281.0) - 0.923).abs() < 0.0005);
        assert!((band(279.0) - 0.977).abs() < 0.0005);
        assert!((band(286.0) - 0.5).abs() < 0.0005);
    }

    /// The same with a largest error of 7 A: 281 A may be 274 to 288 A, of which 12/14 lie inside (own
    /// arithmetic).
    #[test]
    fn errors_that_are_all_as_likely_fill_their_interval() {
        let band = |value| of(ErrorModel::Largest, value, Some(234.0), Some(286.0), 7.0);
        assert!((band(281.0) - 12.0 / 14.0).abs() < 1e-12);
        assert!((band(279.0) - 1.0).abs() < 1e-12);
        assert!((band(290.0) - 3.0 / 14.0).abs() < 1e-12);
        assert!(band(293.5).abs() < 1e-12);
        // Wider than the whole band: 52 of 200 A.
        let wide = of(ErrorModel::Largest, 260.0, Some(234.0), Some(286.0), 100.0);
        assert!((wide - 0.26).abs() < 1e-12);
    }

    #[test]
    fn no_error_leaves_no_doubt() {
        assert!((normal(286.0, None, Some(286.0), 0.0) - 1.0).abs() < 1e-12);
        assert!(normal(286.1, None, Some(286.0), 0.0).abs() < 1e-12);
    }

    #[test]
    fn of_an_interval_the_worse_end_counts() {
        let range = Range::at_most(amperes(100.0));
        let error = ErrorAt { model: ErrorModel::Expanded, figure: 2.0 };
        let both = Span::new(amperes(90.0), amperes(100.0)).unwrap();
        assert!((probability(&both, &range, error) - 0.5).abs() < 1e-12);
    }
}
