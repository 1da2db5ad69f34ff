//! Cooling time and preheat as intervals of heat input.

use super::Pieces;
use crate::{
    check::{Force, Variable},
    quantity::{HeatInput, HeatInputKind, Range, Rounding, Temperature, UnitSystem},
    trade::{
        CoolingLimit, HeatInputNeed, MethodB, PreheatError, PreheatNeed,
        heat_input_for_cooling_time, heat_input_for_preheat, method_b_preheat,
    },
    window::{Derived, PreheatPlan, Question, Space, Subject, linear::Vector},
};

/// What preheat and heat input cost each other by the CET method: keep to the heat input at this
/// preheat, or preheat more and have all of the window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PreheatTrade {
    /// At the preheat planned: this heat input or more.
    pub heat_input: HeatInputNeed,
    /// The least heat input that the other limits leave, where it is known.
    pub least_heat_input: Option<HeatInput>,
    /// The preheat that does for that.
    pub preheat_for_least: Option<Temperature>,
}

/// The pieces of a space, each with the heat input it stands for; one at least.
pub(super) fn of(base: &Space, question: &Question) -> Pieces {
    let mut base = base.clone();
    preheat(&mut base, question);
    let Some(limit) = &question.cooling else { return vec![(None, base)] };
    match heat_input_for_cooling_time(limit) {
        Ok(ranges) if !ranges.is_empty() => {
            let piece = |range: Range<_>| {
                let mut space = base.clone();
                held(&mut space, Derived::CoolingTime, &range);
                (Some(range), space)
            };
            ranges.into_iter().map(piece).collect()
        }
        Ok(_) => vec![(None, without_cooling(base, limit, question.units))],
        Err(error) => {
            let why = format!("The cooling time is not shown to be kept: {error}.");
            base.cannot_keep(Subject::Derived(Derived::CoolingTime), why);
            vec![(None, base)]
        }
    }
}

/// A range of heat input that something asked stands for.
fn held(space: &mut Space, demand: Derived, range: &Range<HeatInputKind>) {
    space.heat_input(demand, range);
    space.refuse_unresolved(demand);
}

fn without_cooling(mut space: Space, limit: &CoolingLimit, units: UnitSystem) -> Space {
    let (low, high) = (limit.lowest_temperature, limit.highest_temperature);
    let [low, high] = [low, high].map(|temperature| temperature.amount().told(units));
    let why = format!(
        "No heat input keeps a cooling time of {} for every start from {low} to {high}: widen the time, or \
         bring the temperatures closer together.",
        limit.time.amounts()
    );
    space.cannot_keep(Subject::Derived(Derived::CoolingTime), why);
    space
}

fn preheat(space: &mut Space, question: &Question) {
    let Some(plan) = &question.preheat else { return };
    let needed = heat_input_for_preheat(&plan.joint, plan.preheat).and_then(|need| {
        let (least, most) = MethodB::heat_inputs()?;
        // Beyond the method's range nothing shows that the preheat does.
        let from = match need {
            HeatInputNeed::AnyInRange => Some(least),
            HeatInputNeed::AtLeast(needed) => Some(needed.min(most)),
            HeatInputNeed::NoneInRange => None,
        };
        Ok(from.and_then(|from| Range::new(Some(from), Some(most)).ok()))
    });
    let why = match needed {
        Ok(Some(range)) => return held(space, Derived::Preheat, &range),
        Ok(None) => preheat_more(space, plan, question.units),
        Err(error) => format!("The preheat is not shown to do: {error}."),
    };
    space.cannot_keep(Subject::Derived(Derived::Preheat), why);
}

/// That a preheat does nowhere, and which one would.
fn preheat_more(space: &Space, plan: &PreheatPlan, units: UnitSystem) -> String {
    let at = |heat_input: HeatInput| preheat_at(plan, heat_input).ok();
    let most = MethodB::heat_inputs().ok().map(|(_, most)| most);
    let up = |temperature: Temperature| {
        let (number, unit) = temperature.amount().written_rounded(Some(units), Rounding::Up);
        format!("{number} {}", unit.symbol)
    };
    let at_most = most.and_then(|most| Some((at(most)?, most.amount().told(units))));
    let somewhere = at_most.map_or_else(String::new, |(preheat, most)| {
        format!(" At {most}, the highest, {} would do.", up(preheat))
    });
    let everywhere = least_heat_input(space).and_then(at).map_or_else(String::new, |preheat| {
        format!(" {} would do for every heat input that the other limits leave.", up(preheat))
    });
    format!(
        "A preheat of {} does at no heat input of the CET method's range: preheat more.{somewhere}{everywhere}",
        plan.preheat.amount().told(units)
    )
}

/// The preheat that does at a heat input: that of the shop where the method asks for none.
fn preheat_at(plan: &PreheatPlan, heat_input: HeatInput) -> Result<Temperature, PreheatError> {
    let found = method_b_preheat(&MethodB { heat_input, ..plan.joint.clone() })?;
    Ok(match found.need {
        PreheatNeed::AtLeast(temperature) => temperature,
        PreheatNeed::NoneCalculated => plan.joint.ambient,
    })
}

/// The trade, with the least heat input that the limits other than the preheat leave.
pub(super) fn preheat_trade(
    space: &Space,
    question: &Question,
    notes: &mut Vec<String>,
) -> Option<PreheatTrade> {
    let plan = question.preheat.as_ref()?;
    let heat_input = heat_input_for_preheat(&plan.joint, plan.preheat).ok()?;
    let least_heat_input = least_heat_input(&space.without(Derived::Preheat));
    let preheat_for_least = match least_heat_input.map(|least| preheat_at(plan, least)) {
        Some(Ok(preheat)) => Some(preheat),
        Some(Err(error)) => {
            notes.push(format!("No preheat is known for the least heat input: {error}."));
            None
        }
        None => None,
    };
    Some(PreheatTrade { heat_input, least_heat_input, preheat_for_least })
}

/// The least heat input of the required window, with everything that strays at its worst.
fn least_heat_input(space: &Space) -> Option<HeatInput> {
    let (weights, constant) = space.terms(Variable::HeatInput).ok()??;
    let down = weights.map(|weight| -weight);
    let region = space.region(Force::Required);
    let least = |(normal, shift): (Vector, f64)| {
        let (_, value) = region.polytope.highest(&normal)?;
        let strays = space.worst(&normal) + space.combined_errors(&down, &normal);
        Some(constant - value - shift - strays)
    };
    let all: Option<Vec<f64>> = space.substituted(&down).into_iter().map(least).collect();
    HeatInput::computed(all?.into_iter().reduce(f64::min)?.exp()).ok()
}
