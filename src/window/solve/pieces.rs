//! Cooling time and preheat as intervals of heat input.

use super::Pieces;
use crate::{
    check::{Force, Variable},
    quantity::{HeatInput, Range, Temperature},
    trade::{
        HeatInputNeed, MethodB, PreheatNeed, heat_input_for_cooling_time, heat_input_for_preheat,
        method_b_preheat,
    },
    window::{Derived, Question, Space, linear::Vector},
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

/// The pieces of a space, each with the heat input it stands for.
pub(super) fn of(base: &Space, question: &Question, notes: &mut Vec<String>) -> Pieces {
    let mut base = base.clone();
    preheat(&mut base, question, notes);
    let Some(limit) = &question.cooling else { return vec![(None, base)] };
    match heat_input_for_cooling_time(limit) {
        Ok(ranges) => {
            if ranges.is_empty() {
                notes.push("No heat input keeps the cooling time.".to_owned());
            }
            let piece = |range: Range<_>| {
                let mut space = base.clone();
                space.heat_input(Derived::CoolingTime, &range);
                (Some(range), space)
            };
            ranges.into_iter().map(piece).collect()
        }
        Err(error) => {
            notes.push(format!("The cooling time is not in the window: {error}."));
            vec![(None, base)]
        }
    }
}

fn preheat(space: &mut Space, question: &Question, notes: &mut Vec<String>) {
    let Some(plan) = &question.preheat else { return };
    match heat_input_for_preheat(&plan.joint, plan.preheat) {
        Ok(HeatInputNeed::AtLeast(least)) => {
            space.heat_input(Derived::Preheat, &Range::at_least(least));
        }
        Ok(HeatInputNeed::AnyInRange) => {}
        Ok(HeatInputNeed::NoneInRange) => notes.push(
            "No heat input of the method's range does at this preheat: preheat more.".to_owned(),
        ),
        Err(error) => notes.push(format!("The preheat is not in the window: {error}.")),
    }
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
    let at_least = least_heat_input
        .map(|heat_input| method_b_preheat(&MethodB { heat_input, ..plan.joint.clone() }));
    let preheat_for_least = match at_least {
        Some(Ok(found)) => match found.need {
            PreheatNeed::AtLeast(temperature) => Some(temperature),
            PreheatNeed::NoneCalculated => Some(plan.joint.ambient),
        },
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
        Some(constant - value - shift - space.worst(&normal))
    };
    let all: Option<Vec<f64>> = space.substituted(&down).into_iter().map(least).collect();
    HeatInput::computed(all?.into_iter().reduce(f64::min)?.exp()).ok()
}
