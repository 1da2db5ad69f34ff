//! Deposition efficiency: the share of the consumed electrode that becomes weld metal.

use crate::{
    quantity::{QuantityError, RunLength, Share, ShareKind, Span},
    trade::{Confidence, Process, corners::span_of, formula},
};

formula! {
    /// Efficiency of a covered electrode with its stub counted.
    pub const STUB_LOSS {
        name: "stub-loss",
        equation: "eta_total = eta * (L - stub) / L",
        source: "Basic Welding Filler Metal Technology, correspondence course, Lesson 9, 2000, Fig. 5",
        validity: "covered electrodes; eta is the efficiency of the part that is burnt",
        confidence: TextRead,
    }
}

/// One typical value, for use until a shop has its own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TypicalEfficiency {
    /// For which gas, wire type or electrode length it holds.
    pub condition: &'static str,
    /// Lowest and highest typical value.
    pub efficiency: Span<ShareKind>,
    /// Where it is printed.
    pub source: &'static str,
    /// How well it was confirmed.
    pub confidence: Confidence,
}

struct Row {
    process: Process,
    condition: &'static str,
    /// Lowest and highest, in parts of one.
    typical: (f64, f64),
    source: &'static str,
    confidence: Confidence,
}

const HANDBOOK: &str = "filler-metal handbook, Calculations section, list of average efficiencies";
const HANDBOOK_LABEL_RECALLED: &str = "filler-metal handbook, Calculations section, list of average \
                                       efficiencies; which row is which is from memory";
const COURSE: &str = "Basic Welding Filler Metal Technology, correspondence course, Lesson 9, 2000, \
                      9.2.6";

const fn row(
    process: Process,
    condition: &'static str,
    typical: (f64, f64),
    source: &'static str,
    confidence: Confidence,
) -> Row {
    Row { process, condition, typical, source, confidence }
}

const ROWS: &[Row] = {
    use Confidence::{CommonPractice, Memory, TextRead};
    use Process as P;
    const RECALLED: &str = HANDBOOK_LABEL_RECALLED;
    const STUB_12: &str = "electrode of 12 in, stub of 2 in counted";
    const STUB_14: &str = "electrode of 14 in, stub of 2 in counted";
    const STUB_18: &str = "electrode of 18 in, stub of 2 in counted";
    const ROD: &str = "rod fed, stubs not counted";
    &[
        row(P::SubmergedSolidWire, "solid wire", (0.99, 0.99), HANDBOOK, TextRead),
        row(P::MagSolidWire, "argon with 2 % oxygen", (0.98, 0.98), RECALLED, Memory),
        row(P::MagSolidWire, "argon with 25 % carbon dioxide", (0.96, 0.96), RECALLED, Memory),
        row(P::MagSolidWire, "carbon dioxide", (0.93, 0.93), RECALLED, Memory),
        row(P::MagMetalCored, "average", (0.93, 0.93), RECALLED, Memory),
        row(P::MagFluxCored, "average", (0.86, 0.86), RECALLED, Memory),
        row(P::MagFluxCored, "rutile, T-1 and T-2", (0.83, 0.88), COURSE, TextRead),
        row(P::MagFluxCored, "basic, T-5, carbon dioxide", (0.85, 0.90), COURSE, TextRead),
        row(P::MagFluxCored, "basic, T-5, 75 % argon", (0.85, 0.92), COURSE, TextRead),
        row(P::SelfShieldedFluxCored, "average", (0.78, 0.78), RECALLED, Memory),
        row(P::SelfShieldedFluxCored, "T-4", (0.81, 0.86), COURSE, TextRead),
        row(P::ManualMetalArc, STUB_12, (0.59, 0.59), HANDBOOK, TextRead),
        row(P::ManualMetalArc, STUB_14, (0.62, 0.62), HANDBOOK, TextRead),
        row(P::ManualMetalArc, STUB_18, (0.66, 0.66), HANDBOOK, TextRead),
        row(P::TigSolidFiller, ROD, (1.0, 1.0), "common practice, no source", CommonPractice),
    ]
};

/// Typical deposition efficiencies of a process; empty where none is known.
///
/// # Errors
/// None in practice; the values are constants.
pub fn typical_deposition_efficiencies(
    process: Process,
) -> Result<Vec<TypicalEfficiency>, QuantityError> {
    ROWS.iter().filter(|row| row.process == process).map(typical).collect()
}

fn typical(row: &Row) -> Result<TypicalEfficiency, QuantityError> {
    let (low, high) = row.typical;
    let efficiency = span_of(Share::computed(low), Share::computed(high))?;
    let Row { condition, source, confidence, .. } = *row;
    Ok(TypicalEfficiency { condition, efficiency, source, confidence })
}

/// Efficiency of a covered electrode with its stub counted, [`STUB_LOSS`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for an electrode of no length or a stub longer than it.
pub fn efficiency_with_stub(
    efficiency: Share,
    electrode: RunLength,
    stub: RunLength,
) -> Result<Share, QuantityError> {
    let burnt = electrode.mm() - stub.mm();
    if burnt < 0.0 {
        return Share::computed(f64::NAN);
    }
    Share::computed(efficiency.ratio() * burnt / electrode.mm())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Basic Welding Filler Metal Technology, Lesson 9, 2000, Fig. 5, to the printed tenth; the
    /// print cuts off the last digit where the value is 66.67.
    #[test]
    fn stub_loss_agrees_with_a_published_table() {
        let rows = [
            ("75 %", "14 in", "2 in", 64.3),
            ("65 %", "14 in", "2 in", 55.7),
            ("60 %", "12 in", "2 in", 50.0),
            ("80 %", "18 in", "3 in", 66.6),
        ];
        for (efficiency, electrode, stub, printed) in rows {
            let [electrode, stub] = [electrode, stub].map(|length| length.parse().unwrap());
            let total = efficiency_with_stub(efficiency.parse().unwrap(), electrode, stub).unwrap();
            assert!((total.ratio() * 100.0 - printed).abs() < 0.07, "{total} for {printed}");
        }
    }

    #[test]
    fn a_stub_longer_than_the_electrode_is_refused() {
        let [electrode, stub] = ["2 in", "3 in"].map(|length| length.parse().unwrap());
        assert!(efficiency_with_stub("75 %".parse().unwrap(), electrode, stub).is_err());
    }

    /// Basic Welding Filler Metal Technology, Lesson 9, 2000, 9.2.6: 83 to 88 % for T-1 and T-2.
    #[test]
    fn sources_of_one_process_are_shown_side_by_side() {
        let rows = typical_deposition_efficiencies(Process::MagFluxCored).unwrap();
        assert_eq!(rows.len(), 4);
        let rutile = rows.iter().find(|row| row.condition.starts_with("rutile")).unwrap();
        assert_eq!(rutile.efficiency.low(), "83 %".parse().unwrap());
        assert_eq!(rutile.efficiency.high(), "88 %".parse().unwrap());
    }

    #[test]
    fn every_row_can_be_read() {
        assert!(ROWS.iter().all(|row| typical(row).is_ok()));
        assert_eq!(ROWS.len(), 15);
    }

    #[test]
    fn nothing_is_made_up_for_other_processes() {
        assert_eq!(typical_deposition_efficiencies(Process::Plasma), Ok(vec![]));
    }
}
