//! Which numeric variables a process has, who rules them, and which of them must be bounded.

use super::{Ranges, Variable, VariableSet};
use crate::{
    quantity::{AmountRange, Range},
    trade::{Coded, Process, coded},
};

coded! {
    /// How far the person at the arc rules a variable.
    pub enum Role: "role" {
        /// It is dialled or brought about, and stays.
        Settable = "settable",
        /// It follows from what is set and held.
        Resulting = "resulting",
        /// A hand can only roughly hold it.
        HandHeld = "hand-held",
    }
}

/// The numeric variables of a weld, in the order answers list them.
pub const NUMERIC: &[Variable] = &[
    Variable::WireFeed,
    Variable::Voltage,
    Variable::Current,
    Variable::TravelSpeed,
    Variable::StickOut,
    Variable::TravelAngle,
    Variable::WorkAngle,
    Variable::WeaveWidth,
    Variable::GasFlow,
    Variable::Preheat,
    Variable::Interpass,
    Variable::ArcPower,
    Variable::ArcEnergy,
    Variable::HeatInput,
];

/// Role of a variable in a process; `None` where the process does not have it, or where the
/// variable is no number.
///
/// On processes with a fed electrode feed and volts are set and the current follows; where the
/// electrode is not fed the current is set, and the volts follow from the arc length. A submerged
/// arc travels on a carriage, so nothing of it is held by hand (common practice, no source).
#[must_use]
pub const fn role(process: Process, variable: Variable) -> Option<Role> {
    let fed = process.has_wire_feed();
    let carried = fed && !process.gas_shielded() && !process.is_constant_voltage_wire();
    let held = if carried { Role::Settable } else { Role::HandHeld };
    match variable {
        Variable::WireFeed if fed => Some(Role::Settable),
        Variable::StickOut if process.has_stick_out() => Some(held),
        Variable::GasFlow if process.gas_shielded() => Some(Role::Settable),
        Variable::Voltage => Some(if fed { Role::Settable } else { Role::Resulting }),
        Variable::Current => Some(if fed { Role::Resulting } else { Role::Settable }),
        Variable::TravelSpeed
        | Variable::TravelAngle
        | Variable::WorkAngle
        | Variable::WeaveWidth => Some(held),
        Variable::Preheat | Variable::Interpass => Some(Role::Settable),
        Variable::ArcPower | Variable::ArcEnergy | Variable::HeatInput => Some(Role::Resulting),
        _ => None,
    }
}

/// The numeric variables that a process has.
pub(super) const fn numbers_of(process: Process) -> VariableSet {
    const OF_EACH: [VariableSet; Process::ALL.len()] = {
        let mut of_each = [VariableSet::of(&[]); Process::ALL.len()];
        let mut at = 0;
        while at < NUMERIC.len() * Process::ALL.len() {
            let (process, _) = Process::ALL[at / NUMERIC.len()];
            let variable = NUMERIC[at % NUMERIC.len()];
            let known = &mut of_each[process as usize];
            *known = known.with_if(variable, role(process, variable).is_some());
            at += 1;
        }
        of_each
    };
    OF_EACH[process as usize]
}

/// What must be bounded before anything is allowed: one variable of each group.
///
/// AWS D1.1 wants amperage or wire feed, volts, travel speed and gas flow on every prequalified
/// procedure (2015, clause 3.6; read in its commentary C-3.6), ISO 15609-1:2019 the stick-out of
/// processes 13x. A limit on energy per length bounds travel speed as well (own choice).
pub fn must_be_bounded(process: Process) -> impl Iterator<Item = &'static [Variable]> {
    use Variable::{
        ArcEnergy, Current, GasFlow, HeatInput, StickOut, TravelSpeed, Voltage, WireFeed,
    };
    const GROUPS: &[&[Variable]] = &[
        &[Current, WireFeed],
        &[Voltage],
        &[TravelSpeed, ArcEnergy, HeatInput],
        &[StickOut],
        &[GasFlow],
    ];
    GROUPS.iter().copied().filter(move |group| role(process, group[0]).is_some())
}

/// Groups of which one variable must be bounded, and none of these is.
pub fn unbounded(
    process: Process,
    bounded: VariableSet,
) -> impl Iterator<Item = &'static [Variable]> {
    must_be_bounded(process).filter(move |group| !group.iter().any(|one| bounded.contains(*one)))
}

/// Something of the range of a numeric variable, whatever its kind.
macro_rules! of_variable {
    ($ranges:expr, $variable:expr, $range:ident => $what:expr, else $no_number:expr) => {
        of_variable!(@ $ranges, $variable, $range => $what, else $no_number,
            Current current, Voltage voltage, WireFeed wire_feed, TravelSpeed travel_speed,
            StickOut stick_out, TravelAngle travel_angle, WorkAngle work_angle,
            WeaveWidth weave_width, Preheat preheat, Interpass interpass, GasFlow gas_flow,
            ArcEnergy arc_energy, HeatInput heat_input, ArcPower arc_power)
    };
    (@ $ranges:expr, $variable:expr, $range:ident => $what:expr, else $no_number:expr,
        $($name:ident $field:ident),+) => {
        match $variable {
            $(Variable::$name => { let $range = &$ranges.$field; $what })+
            _ => $no_number,
        }
    };
}

impl Ranges {
    /// The range of a variable, without its kind in the type; `None` where it is not limited, or
    /// where the variable is no number.
    #[must_use]
    pub fn amounts(&self, variable: Variable) -> Option<AmountRange> {
        of_variable!(self, variable, range => range.as_ref().map(Range::amounts), else None)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_covered_electrode_has_no_feed_no_stick_out_and_no_gas() {
        let process = Process::ManualMetalArc;
        for variable in [Variable::WireFeed, Variable::StickOut, Variable::GasFlow] {
            assert_eq!(role(process, variable), None, "{variable}");
        }
        assert_eq!(role(process, Variable::Current), Some(Role::Settable));
        let groups = must_be_bounded(process);
        assert_eq!(
            groups.map(|group| group[0]).collect::<Vec<_>>(),
            [Variable::Current, Variable::Voltage, Variable::TravelSpeed]
        );
    }

    #[test]
    fn on_a_constant_voltage_wire_the_current_follows() {
        let process = Process::MagFluxCored;
        assert_eq!(role(process, Variable::WireFeed), Some(Role::Settable));
        assert_eq!(role(process, Variable::Voltage), Some(Role::Settable));
        assert_eq!(role(process, Variable::Current), Some(Role::Resulting));
        assert_eq!(role(process, Variable::StickOut), Some(Role::HandHeld));
        assert_eq!(must_be_bounded(process).count(), 5);
        assert_eq!(must_be_bounded(Process::SelfShieldedFluxCored).count(), 4);
    }

    #[test]
    fn what_must_be_bounded_follows_the_shape_of_the_process() {
        let first =
            |process| must_be_bounded(process).map(|group| group[0].code()).collect::<Vec<_>>();
        let open = ["current", "voltage", "travel-speed"];
        let gas = ["current", "voltage", "travel-speed", "gas-flow"];
        let fed = ["current", "voltage", "travel-speed", "electrical-stick-out"];
        assert_eq!(first(Process::ManualMetalArc), open);
        for process in [Process::TigSolidFiller, Process::TigAutogenous, Process::Plasma] {
            assert_eq!(first(process), gas, "{process}");
        }
        for process in [Process::SubmergedSolidWire, Process::SelfShieldedFluxCored] {
            assert_eq!(first(process), fed, "{process}");
        }
        let all = ["current", "voltage", "travel-speed", "electrical-stick-out", "gas-flow"];
        assert_eq!(first(Process::MagSolidWire), all);
    }

    #[test]
    fn the_numbers_of_a_process_are_those_with_a_role() {
        for (process, _) in Process::ALL {
            for (variable, _) in Variable::ALL {
                let has = numbers_of(*process).contains(*variable);
                assert_eq!(has, role(*process, *variable).is_some(), "{process} {variable}");
            }
        }
    }

    #[test]
    fn nothing_of_a_submerged_arc_is_held_by_hand() {
        for variable in NUMERIC {
            let role = role(Process::SubmergedSolidWire, *variable);
            assert_ne!(role, Some(Role::HandHeld), "{variable}");
        }
    }

    #[test]
    fn every_process_has_a_role_for_every_variable_that_is_no_matter_of_shape() {
        let shaped = [Variable::WireFeed, Variable::StickOut, Variable::GasFlow];
        for (process, _) in Process::ALL {
            for variable in NUMERIC.iter().filter(|variable| !shaped.contains(variable)) {
                assert!(role(*process, *variable).is_some(), "{process} {variable}");
            }
        }
        assert_eq!(role(Process::MagFluxCored, Variable::Position), None);
    }
}
