//! All methods that have their inputs, side by side.

use super::{
    CategoryPreheat, ChartReading, HydrogenControl, HydrogenControlPreheat, MethodA, MethodAAnswer,
    MethodB, MethodBPreheat, PreheatCategory, PreheatError, category_preheat,
    hydrogen_control_preheat, method_a_preheat, method_b_preheat,
};
use crate::quantity::{Thickness, UnitSystem};

/// Inputs of each method; `None` where a method is not asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct PreheatMethods<'a> {
    /// EN 1011-2 Method A, and the organisation's chart readings.
    pub method_a: Option<(MethodA, &'a [ChartReading])>,
    /// EN 1011-2 Method B.
    pub method_b: Option<MethodB>,
    /// AWS D1.1 table: categories of the parts, thickest part, columns.
    pub category: Option<(&'a [PreheatCategory], Thickness, UnitSystem)>,
    /// AWS D1.1 hydrogen control.
    pub hydrogen_control: Option<HydrogenControl>,
}

/// What each method says. They differ, by more than 50 °C at times: the governing code chooses one,
/// and no mean of them has a meaning.
#[derive(Debug, Clone, PartialEq)]
pub struct PreheatOpinions<'a> {
    /// EN 1011-2 Method A.
    pub method_a: Option<Result<MethodAAnswer<'a>, PreheatError>>,
    /// EN 1011-2 Method B.
    pub method_b: Option<Result<MethodBPreheat, PreheatError>>,
    /// AWS D1.1 table.
    pub category: Option<Result<CategoryPreheat, PreheatError>>,
    /// AWS D1.1 hydrogen control.
    pub hydrogen_control: Option<Result<HydrogenControlPreheat, PreheatError>>,
}

/// Asks every method that has its inputs. One that is outside its validity says so and leaves the
/// others standing.
#[must_use]
pub fn preheat_side_by_side<'a>(methods: &PreheatMethods<'a>) -> PreheatOpinions<'a> {
    PreheatOpinions {
        method_a: methods.method_a.as_ref().map(|(case, rows)| method_a_preheat(case, rows)),
        method_b: methods.method_b.as_ref().map(method_b_preheat),
        category: methods
            .category
            .map(|(categories, thickest, columns)| category_preheat(categories, thickest, columns)),
        hydrogen_control: methods.hydrogen_control.as_ref().map(hydrogen_control_preheat),
    }
}
