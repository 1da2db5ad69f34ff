//! The lowest and highest value of each setting, with what binds it and a setting that shows it.

use std::ops::RangeInclusive;

use super::{
    Open,
    amounts::{rounded, rounded_to},
};
use crate::{
    check::{Role, Settings, Variable},
    quantity::{Amount, AmountRange, RELATIVE_TOLERANCE},
    window::{
        linear::{Optimum, Vector, along, dot},
        space::{
            Holder, LimitEnd, ORDER, Side, Subject, amount, axis_of, settings_at, typed_amount,
        },
    },
};

/// One end of what is left of a setting.
#[derive(Debug, Clone, PartialEq)]
pub struct WindowEnd {
    /// Where it is, exactly.
    pub exact: Amount,
    /// The same rounded inward: to a whole step of what is dialled; otherwise to three digits, or to as many more as
    /// leave a value between the ends, or not at all where none do.
    pub stated: Amount,
    /// Every limit without which it would lie farther out.
    pub binding: Vec<LimitEnd>,
    /// Settings with the stated value that keep every limit, as tolerant as there are; `None` where
    /// rounding left no value.
    pub witness: Option<Settings>,
}

/// What is left of one setting. Ends hold one at a time: ask again after each choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Narrowed {
    /// The setting.
    pub variable: Variable,
    /// How far the person at the arc rules it.
    pub role: Role,
    /// Lowest end; `None` where no limit binds it.
    pub lowest: Option<WindowEnd>,
    /// Highest end; `None` where no limit binds it.
    pub highest: Option<WindowEnd>,
    /// Values lie between the ends, but no step of the setting does; never of a setting without steps.
    pub emptied_by_rounding: bool,
}

impl Narrowed {
    /// The stated values; `None` where rounding left none.
    #[must_use]
    pub fn stated(&self) -> Option<AmountRange> {
        let end = |end: &Option<WindowEnd>| end.as_ref().map(|end| end.stated);
        let range = AmountRange { min: end(&self.lowest), max: end(&self.highest) };
        (!self.emptied_by_rounding).then_some(range)
    }
}

/// Normals whose product lies this close to that of their lengths point the same way.
const SAME_WAY: f64 = 1e-9;

/// Digits of a setting without a step, where they fit.
const DIGITS: i32 = 3;

/// Digits of an end of such a setting that are tried where fewer leave no value between the ends.
const MORE_DIGITS: RangeInclusive<u32> = 4..=7;

/// Whether two ends leave no value between them.
fn crossed(low: Amount, high: Amount) -> bool {
    let (low, high) = (low.canonical(), high.canonical());
    low - high > RELATIVE_TOLERANCE * high
}

impl Open<'_> {
    /// Both ends of every setting of the job; witnesses take everything else from `base`.
    #[must_use]
    pub fn narrow(&self, base: &Settings) -> Vec<Narrowed> {
        self.axes().filter_map(|axis| self.narrow_one(axis, base)).collect()
    }

    /// Exact ends of one setting, without binding limits and witnesses; an end that only what is plausible
    /// binds is open. `None` where it is no setting of the job.
    #[must_use]
    pub fn extent(&self, variable: Variable) -> Option<AmountRange> {
        let axis = axis_of(variable).filter(|axis| self.space.is_active(*axis))?;
        let exact = |upper| self.end(axis, upper).map(|end| end.exact);
        Some(AmountRange { min: exact(false), max: exact(true) })
    }

    fn narrow_one(&self, axis: usize, base: &Settings) -> Option<Narrowed> {
        if self.space.chosen[axis] {
            return self.chosen(axis, base);
        }
        let mut lowest = self.end(axis, false);
        let mut highest = self.end(axis, true);
        if let (None, Some(low), Some(high)) = (self.step(axis), &mut lowest, &mut highest) {
            self.keep_apart(low, high);
        }
        let both = lowest.as_ref().zip(highest.as_ref());
        let emptied_by_rounding = both.is_some_and(|(low, high)| crossed(low.stated, high.stated));
        if !emptied_by_rounding {
            for end in [&mut lowest, &mut highest].into_iter().flatten() {
                let at = end.stated.canonical().ln();
                let point = self.as_tolerant_as_any(&[(axis, at)]);
                end.witness = point
                    .map(|point| self.tidied(&self.region.polytope.held(axis, at), &point, DIGITS))
                    .map(|point| settings_at(self.space, base, &point));
            }
        }
        let role = self.space.role(axis)?;
        Some(Narrowed { variable: ORDER[axis], role, lowest, highest, emptied_by_rounding })
    }

    /// Ends of a setting without a step: where plain figures leave no value between them, in more digits.
    fn keep_apart(&self, low: &mut WindowEnd, high: &mut WindowEnd) {
        if !crossed(low.stated, high.stated) {
            return;
        }
        let figures = |digits| {
            let least = rounded_to(digits, low.exact, true, self.space.system)?;
            let most = rounded_to(digits, high.exact, false, self.space.system)?;
            (!crossed(least, most)).then_some((least, most))
        };
        let fit = MORE_DIGITS.clone().find_map(figures);
        (low.stated, high.stated) = fit.unwrap_or((low.exact, high.exact));
    }

    /// What was chosen, as it was chosen.
    fn chosen(&self, axis: usize, base: &Settings) -> Option<Narrowed> {
        let variable = ORDER[axis];
        let own = |limit: &&LimitEnd| {
            limit.holder == Holder::Chosen && limit.subject == Subject::Variable(variable)
        };
        let limits = self.space.faces.iter().map(|face| &face.limit).filter(own);
        let witness = self.most_tolerant().map(|point| {
            let tidy = self.tidied(&self.region.polytope, &point, DIGITS);
            settings_at(self.space, base, &tidy)
        });
        let end = |side| {
            let limit = limits.clone().find(|limit| limit.side == side)?;
            let (exact, witness) = (limit.at, witness.clone());
            Some(WindowEnd { exact, stated: exact, binding: vec![limit.clone()], witness })
        };
        let (lowest, highest) = (end(Side::Lowest), end(Side::Highest));
        let role = self.space.role(axis)?;
        Some(Narrowed { variable, role, lowest, highest, emptied_by_rounding: false })
    }

    /// One end without its witness; `None` where only what is plausible binds it.
    fn end(&self, axis: usize, upper: bool) -> Option<WindowEnd> {
        let objective = along(axis, if upper { 1.0 } else { -1.0 });
        let Optimum::At { point, binding } = self.region.polytope.maximise(&objective) else {
            return None;
        };
        let faces = self.region.faces.len();
        if binding.iter().any(|number| *number >= faces) {
            return None;
        }
        let exact = amount(ORDER[axis], point[axis].exp())?;
        Some(WindowEnd {
            exact,
            stated: self.rounded_inward(axis, exact, upper)?,
            binding: self.binding(&binding, &point),
            witness: None,
        })
    }

    fn rounded_inward(&self, axis: usize, exact: Amount, upper: bool) -> Option<Amount> {
        let Some(step) = self.step(axis) else {
            return rounded(exact, !upper, self.space.system);
        };
        let count = exact.canonical() / step;
        let noise = RELATIVE_TOLERANCE * count;
        let whole = if upper { (count + noise).floor() } else { (count - noise).ceil() };
        typed_amount(ORDER[axis], whole * step, self.space.unit(axis))
    }

    /// The limits of the binding faces, with every other one that says the same.
    fn binding(&self, binding: &[usize], point: &Vector) -> Vec<LimitEnd> {
        let rows = &self.region.polytope.faces;
        let same_way = |a: &Vector, b: &Vector| {
            let lengths = (dot(a, a) * dot(b, b)).sqrt();
            dot(a, b) > lengths * (1.0 - SAME_WAY)
        };
        let says_the_same = |number: &usize| {
            rows[*number].excess(point).abs() <= RELATIVE_TOLERANCE
                && binding.iter().any(|own| same_way(&rows[*own].normal, &rows[*number].normal))
        };
        let mut limits = Vec::new();
        for number in (0..rows.len()).filter(says_the_same) {
            let limit = &self.space.faces[self.region.faces[number]].limit;
            if !limits.contains(limit) {
                limits.push(limit.clone());
            }
        }
        limits
    }
}
