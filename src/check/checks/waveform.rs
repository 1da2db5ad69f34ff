//! `waveform`: output of the power source against the procedure and the station.

use crate::check::{
    Authority, Case, Findings, Force,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// The output, waveform-controlled or not, is the one the procedure was qualified with, and one
    /// the station can give.
    ///
    /// ## Why
    /// With a controlled waveform volts times amps is not the arc's power, so heat input limits of one
    /// kind of output cannot be read for the other.
    ///
    /// ## Source
    /// ISO/TR 18491 for the measurement; the records of procedure and station.
    ///
    /// ## Not checked
    /// Which programme of the source is loaded.
    "waveform", Waveform => check, texts!(PROCEDURE, STATION)
}

const PROCEDURE: Words = Words {
    consequence: Some(
        "Transfer and heat differ between the two kinds of output, even at the same meter readings.",
    ),
    change: Some("Switch the source to the output of the procedure:"),
    state: Some("State whether the output is waveform-controlled."),
    record: Some("Record with which output the procedure was qualified."),
};

const STATION: Words = Words {
    consequence: Some(
        "The source cannot give this output, so the sheet is meant for another station.",
    ),
    change: Some("Move to a station with this output; this one gives"),
    state: Some("State the output, so that it can be held against the station."),
    ..Words::NONE
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    let stated = case.setup.settings.waveform;
    let rule = |source, words| Rule { check: &CHECK, source, force: Force::Required, words };
    let procedure = rule(case.procedure_source(), &PROCEDURE);
    if !findings.has_settled(CHECK.variable) {
        procedure.one_of(findings, stated, case.procedure.waveform.as_slice());
    }
    if let Some(station) = case.station.filter(|station| !station.waveforms.is_empty()) {
        let rule = rule(Authority::Station(station).into(), &STATION);
        rule.one_of(findings, stated, &station.waveforms);
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{Outcome, Outcome::*, fixture::Scene},
        trade::Waveform,
    };

    fn outcomes(change: impl FnOnce(&mut Scene)) -> Vec<Outcome> {
        Scene::allowed().with(change).outcomes("waveform")
    }

    #[test]
    fn every_outcome() {
        assert_eq!(outcomes(|_| ()), [Inside, Inside]);
        let controlled = Some(Waveform::Controlled);
        assert_eq!(outcomes(|s| s.setup.settings.waveform = controlled), [Outside, Outside]);
        assert_eq!(outcomes(|s| s.procedure.waveform = controlled), [Outside, Inside]);
        assert_eq!(outcomes(|s| s.setup.settings.waveform = None), [NotGiven, NotGiven]);
        assert_eq!(outcomes(|s| s.procedure.waveform = None), [NoLimit, Inside]);
        assert_eq!(outcomes(|s| s.station.as_mut().unwrap().waveforms.clear()), [Inside]);
    }
}
