//! Facts of a record.

use super::{
    Fact, Side, code_of, electrodes_word, filler_fact, flux_word, gas_of_class_word, gas_word,
    reading, sequence_word, sides_word, weld_word, wires_word, with_open_back, word,
};
use crate::{
    qualify::{
        QualifiedVariable as V,
        record::{Measured, PNumber, Part, PostHeating, Run, RunEnergy, TestPiece},
    },
    quantity::{Amount, Kind, Quantity, Span},
    trade::{Process, RunClass, arc_energy_from_averages},
};

/// Processes of a piece, each once, in the order of welding.
pub(in crate::qualify) fn processes_of(piece: &TestPiece) -> Vec<Process> {
    let deposited = piece.deposits.iter().map(|deposit| deposit.process);
    let welded = piece.runs.iter().map(|run| run.process);
    let mut all = Vec::new();
    for process in deposited.chain(welded) {
        if !all.contains(&process) {
            all.push(process);
        }
    }
    all
}

/// The parts' thicknesses; `None` where one is missing.
pub(in crate::qualify) fn recorded_parts(piece: &TestPiece) -> Option<Vec<Amount>> {
    let all: Option<Vec<_>> =
        piece.parts.iter().map(|part| part.thickness.map(Quantity::amount)).collect();
    all.filter(|parts| !parts.is_empty())
}

fn span<K: Kind>(span: Option<Span<K>>) -> Option<Fact> {
    span.map(|span| Fact::Readings {
        low: span.low().amount(),
        mean: span.low().amount(),
        high: span.high().amount(),
    })
}

fn measured<K: Kind>(value: Option<&Measured<K>>) -> Option<Fact> {
    value.map(|value| Fact::Readings {
        low: value.lowest().amount(),
        mean: value.value.amount(),
        high: value.highest().amount(),
    })
}

/// The thinner part where the parts differ.
fn thinnest(piece: &TestPiece) -> Option<Fact> {
    let all: Option<Vec<_>> = piece.parts.iter().map(|part| part.thickness).collect();
    reading(all?.into_iter().reduce(Quantity::min))
}

fn smallest_diameter(parts: &[Part]) -> Option<Fact> {
    reading(parts.iter().filter_map(|part| part.outside_diameter).reduce(Quantity::min))
}

/// What the piece as a whole says.
pub(in crate::qualify) fn piece_fact(piece: &TestPiece, variable: V) -> Option<Fact> {
    let joint = &piece.joint;
    match variable {
        V::ProcessSequence => sequence_word(&processes_of(piece)),
        V::Process => {
            let codes = processes_of(piece).iter().map(ToString::to_string).collect::<Vec<_>>();
            (!codes.is_empty()).then_some(Fact::Words(codes))
        }
        V::Position => positions(piece),
        V::Weld => weld_word(joint),
        V::Sides => sides_word(joint),
        V::Groove => code_of(joint.groove),
        V::Layering => code_of(piece.layering),
        V::Metals => metals(piece),
        V::D11Groups => {
            let groups: Option<Vec<_>> =
                piece.parts.iter().map(|part| part.metal.d11_group).collect();
            super::proposal::group_pair(groups?)
        }
        V::PNumbers => super::p_numbers(recorded_p_numbers(piece)),
        V::PGroups => super::p_groups(recorded_p_numbers(piece)),
        V::ParentThickness => thinnest(piece),
        V::Throat => reading(piece.throat),
        V::Leg => reading(piece.leg),
        V::OutsideDiameter => smallest_diameter(&piece.parts),
        V::JointAngle => reading(joint.fit_up.joint_angle),
        V::GrooveAngle => reading(joint.fit_up.groove_angle),
        V::RootGap => reading(joint.fit_up.root_gap),
        V::RootFace => reading(joint.fit_up.root_face),
        V::Progression => match piece.position.and_then(crate::trade::Position::progression) {
            Some(fixed) => code_of(Some(fixed)),
            None => over(piece.runs.iter().map(|run| code_of(run.progression))),
        },
        V::BackingGas => backing_gas(piece),
        V::Preheat => {
            let preheated = piece.runs.iter().filter(|run| !is_laid_on_earlier(run));
            over(preheated.map(|run| measured(run.preheat.as_ref())))
        }
        // A run without a reading was laid on cold metal.
        V::Interpass | V::InterpassMin => {
            over(piece.runs.iter().filter_map(|run| measured(run.interpass.as_ref())).map(Some))
        }
        V::PostHeatTemperature => match piece.post_heating? {
            PostHeating::Done { temperature, .. } => span(temperature),
            PostHeating::NotDone => None,
        },
        V::PostHeatTime => match piece.post_heating? {
            PostHeating::Done { time, .. } => reading(time),
            PostHeating::NotDone => None,
        },
        V::TreatmentClass => code_of(piece.heat_treatment.as_ref().map(|treated| treated.class)),
        V::TreatmentTemperature => span(piece.heat_treatment.as_ref()?.temperature),
        V::TreatmentTime => reading(piece.heat_treatment.as_ref()?.time),
        _ => None,
    }
}

fn recorded_p_numbers(piece: &TestPiece) -> Option<Vec<PNumber>> {
    piece.parts.iter().map(|part| part.metal.p_number.clone()).collect()
}

/// What was behind the root. Unknown where one of the runs there does not say, or says another gas than the rest:
/// which of them kept the root sound is not known.
fn backing_gas(piece: &TestPiece) -> Option<Fact> {
    let mut all = with_open_back(&piece.runs, |run| run.class).into_iter();
    let first = gas_word(all.next()?.gases.backing);
    if all.all(|run| gas_word(run.gases.backing) == first) { first } else { None }
}

/// Whether a run without a preheat reading was laid on earlier ones, whose heat counts as interpass temperature.
fn is_laid_on_earlier(run: &Run) -> bool {
    run.preheat.is_none() && (run.interpass.is_some() || !run.class.is_some_and(RunClass::is_first))
}

fn positions(piece: &TestPiece) -> Option<Fact> {
    if let Some(position) = piece.position {
        return code_of(Some(position));
    }
    let mut all = Vec::new();
    for position in piece.runs.iter().filter_map(|run| run.position) {
        let code = position.to_string();
        if !all.contains(&code) {
            all.push(code);
        }
    }
    (!all.is_empty()).then_some(Fact::Words(all))
}

fn metals(piece: &TestPiece) -> Option<Fact> {
    let side =
        |part: &Part| Side { group: part.metal.group, specified_yield: part.metal.specified_yield };
    let sides: Vec<_> = piece.parts.iter().map(side).collect();
    (!sides.is_empty()).then_some(Fact::Metals(sides))
}

/// What one process of the piece says; numbers over all its runs. `None` where one of its runs has no
/// value: an unknown run may have been the highest.
pub(in crate::qualify) fn recorded_process(
    piece: &TestPiece,
    process: Process,
    variable: V,
) -> Option<Fact> {
    let runs = || piece.runs.iter().filter(move |run| run.process == process);
    match variable {
        V::DepositThickness => {
            let own = piece.deposits.iter().filter(|deposit| deposit.process == process);
            let all: Option<Vec<_>> = own.map(|deposit| deposit.thickness).collect();
            // One process in two places of the joint: the whole of it is its deposit.
            let all = all?;
            let total: f64 = all.iter().map(|thickness| thickness.canonical()).sum();
            match all[..] {
                [] => None,
                [one] => reading(Some(one)),
                _ => reading(crate::quantity::Thickness::computed(total).ok()),
            }
        }
        V::Energy => over(runs().map(run_energy)),
        _ => {
            let facts = runs().map(|run| recorded_run(run, variable));
            over(facts)
        }
    }
}

/// One fact over several; `None` where one is missing or there is none.
fn over(facts: impl Iterator<Item = Option<Fact>>) -> Option<Fact> {
    facts.reduce(|a, b| match (a?, b?) {
        (
            Fact::Readings { low, mean, high },
            Fact::Readings { low: other_low, high: other_high, .. },
        ) => {
            let lower = other_low.compare(low)?.is_lt();
            let higher = other_high.compare(high)?.is_gt();
            Some(Fact::Readings {
                low: if lower { other_low } else { low },
                mean,
                high: if higher { other_high } else { high },
            })
        }
        (Fact::Words(mut a), Fact::Words(b)) => {
            for word in b {
                if !a.contains(&word) {
                    a.push(word);
                }
            }
            Some(Fact::Words(a))
        }
        (a, b) if a == b => Some(a),
        _ => None,
    })?
}

/// Energy as stated; else by averages, where the output was not waveform-controlled.
fn run_energy(run: &Run) -> Option<Fact> {
    let electrical = &run.electrical;
    match &electrical.energy {
        Some(RunEnergy::Arc(energy)) => measured(Some(energy)),
        Some(RunEnergy::HeatInput { value, .. }) => measured(Some(value)),
        None => {
            let (volts, amps) = (electrical.voltage.as_ref()?, electrical.current.as_ref()?);
            let (speed, waveform) = (run.travel_speed.as_ref()?, electrical.waveform?);
            let energy =
                arc_energy_from_averages(volts.value, amps.value, speed.value, waveform).ok();
            reading(energy)
        }
    }
}

/// What one run says.
pub(in crate::qualify) fn recorded_run(run: &Run, variable: V) -> Option<Fact> {
    let electrical = &run.electrical;
    match variable {
        V::Process => Some(word(&run.process.to_string())),
        V::Mechanisation => code_of(run.mechanisation),
        V::Flux => flux_word(run.flux.as_ref()?),
        V::Electrodes => electrodes_word(run.arcs.electrodes),
        V::WireSystem => wires_word(run.arcs.electrodes),
        V::CurrentType => code_of(electrical.polarity),
        V::CurrentForm => code_of(electrical.form),
        V::Characteristic => code_of(electrical.characteristic),
        V::Transfer => code_of(electrical.transfer),
        V::RunClass => code_of(run.class),
        V::LayerThickness => reading(run.thickness),
        V::GasOfClass => gas_of_class_word(run.filler.as_ref(), run.gases.shielding),
        V::Gas => run.gases.shielding.map(Fact::Gas),
        V::GasFlow => measured(run.gases.flow.as_ref()),
        V::Current => measured(electrical.current.as_ref()),
        V::Voltage => measured(electrical.voltage.as_ref()),
        V::WireFeed => measured(electrical.wire_feed.as_ref()),
        V::TravelSpeed => measured(run.travel_speed.as_ref()),
        V::Energy => run_energy(run),
        V::Bead => code_of(run.bead),
        _ => filler_fact(run.filler.as_ref()?, variable),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        quantity::Temperature,
        trade::{
            Progression,
            RunClass::{Fill, Root},
        },
    };

    fn piece(runs: &[Run]) -> TestPiece {
        TestPiece { runs: runs.to_vec(), ..TestPiece::default() }
    }

    fn run(class: RunClass) -> Run {
        Run { class: Some(class), ..Run::new(1, Process::MagSolidWire) }
    }

    #[test]
    fn a_run_without_a_direction_may_have_gone_either_way() {
        let up = Run { progression: Some(Progression::Up), ..run(Root) };
        let whole = piece(&[up.clone(), up.clone()]);
        assert_eq!(piece_fact(&whole, V::Progression), Some(word("up")));
        assert_eq!(piece_fact(&piece(&[up, run(Fill)]), V::Progression), None);
    }

    /// Runs on earlier ones have an interpass temperature; a first run without a reading was as cold as nobody knows.
    #[test]
    fn the_preheat_of_a_first_run_is_not_that_of_a_later_one() {
        let warm: Temperature = "150 °C".parse().unwrap();
        let heated = |class| Run { preheat: Some(Measured::of(warm)), ..run(class) };
        let later = |class| Run { interpass: Some(Measured::of(warm)), ..run(class) };
        let known =
            |first: Run, second: Run| piece_fact(&piece(&[first, second]), V::Preheat).is_some();
        assert!(known(heated(Root), later(Fill)));
        assert!(known(heated(Root), run(Fill)));
        assert!(known(heated(Root), later(Root)));
        assert!(!known(run(Root), heated(Fill)));
        assert!(!known(run(Root), later(Fill)));
    }
}
