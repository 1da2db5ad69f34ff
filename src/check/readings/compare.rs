//! A stated value beside the value that follows from others.

use super::uncertainty::relative;
use crate::{
    check::{Given, Origin, Outcome, Shown, Variable, in_words, range_check::shown},
    quantity::{Kind, RELATIVE_TOLERANCE, Share},
};

/// How far two values may lie apart where the accuracy is not known (own choice; common practice,
/// no source).
const UNKNOWN_ACCURACY: f64 = 0.05;

/// Differences up to this share are rounding of typed figures (own choice; common practice, no
/// source).
const ROUNDING: f64 = 0.01;

/// A value that is stated and also follows from others.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The variable.
    pub variable: Variable,
    /// What is stated.
    pub stated: Shown,
    /// What follows.
    pub computed: Shown,
    /// How far they lie apart, as a share of the computed value.
    pub difference: Share,
    /// How far they may lie apart.
    pub tolerance: Share,
    /// `inside`: they agree. `edge-inside`: they agree only because the instruments are no better.
    /// `outside`: they disagree. So a worse instrument never turns advice into agreement.
    pub outcome: Outcome,
    /// An instrument of unknown accuracy is among the sources.
    pub accuracy_unknown: bool,
}

impl Comparison {
    /// Both values and how far they lie apart, as the start of a sentence.
    #[must_use]
    pub fn apart(&self) -> String {
        let Self { variable, stated, computed, difference, .. } = self;
        let (name, follows) = (in_words(*variable), computed.beside(stated.unit_typed()));
        format!("The {name} is stated as {stated} and follows as {follows}, {difference} apart")
    }

    /// The same as a sentence, where they disagree.
    #[must_use]
    pub fn disagreement(&self) -> Option<String> {
        let disagree = self.outcome == Outcome::Outside;
        disagree.then(|| format!("{}: one of the two is wrong", self.apart()))
    }
}

/// The comparison, where both values exist.
#[must_use]
pub fn compared<K: Kind>(
    variable: Variable,
    stated: Option<&Given<K>>,
    computed: Option<&Given<K>>,
) -> Option<Comparison> {
    let (stated, computed) = (stated?, computed?);
    let difference = gap(stated, computed);
    let instruments = [stated, computed].into_iter().any(|given| given.origin == Origin::Measured);
    let tolerance = tolerance(stated, computed, instruments);
    let within = |limit: f64| difference <= limit + RELATIVE_TOLERANCE;
    let outcome = match (within(tolerance), within(ROUNDING)) {
        (false, _) => Outcome::Outside,
        (true, false) if instruments => Outcome::EdgeInside,
        (true, _) => Outcome::Inside,
    };
    Some(Comparison {
        variable,
        stated: shown(stated),
        computed: shown(computed),
        difference: Share::computed(difference).ok()?,
        tolerance: Share::computed(tolerance).ok()?,
        outcome,
        accuracy_unknown: stated.accuracy_unknown() || computed.accuracy_unknown(),
    })
}

/// The combined relative uncertainty of both, where instruments of known accuracy read them.
fn tolerance<K: Kind>(stated: &Given<K>, computed: &Given<K>, instruments: bool) -> f64 {
    match relative(stated).zip(relative(computed)) {
        Some((of_stated, of_computed)) if instruments => {
            of_stated.ratio().hypot(of_computed.ratio()).max(ROUNDING)
        }
        _ => UNKNOWN_ACCURACY,
    }
}

/// The distance between two intervals as a share of the computed one; zero where they overlap.
fn gap<K: Kind>(stated: &Given<K>, computed: &Given<K>) -> f64 {
    let (stated, computed) = (stated.span, computed.span);
    let above = stated.low().canonical() - computed.high().canonical();
    let below = computed.low().canonical() - stated.high().canonical();
    let (distance, end) =
        if above > below { (above, computed.high()) } else { (below, computed.low()) };
    if distance <= 0.0 { 0.0 } else { distance / end.canonical().abs() }
}
