//! Time, wire and gas that a joint takes.
//!
//! Metal over deposition rate is arc time ([`ARC_TIME`]); arc time over the operating factor is elapsed time
//! ([`ELAPSED_TIME`]). The operating factor is the share of the time that the arc burns. It decides most of what
//! a joint costs, so it is always stated; [`usual_operating_factor`] gives what a handbook takes "if unknown",
//! and records of manual work are often lower.
//!
//! Worked: 0.9090 kg per metre at 3.503 kg/h are 15.57 min of arc, and at a factor of 30 % 51.90 min.

use super::{coded, corners::span_of, formula};
use crate::quantity::{
    DepositionRate, Duration, GasFlow, GasVolume, Mass, QuantityError, RunLength, Share, ShareKind,
    Span, TravelSpeed,
};

formula! {
    /// Arc time for a mass of weld metal.
    pub const ARC_TIME {
        name: "arc-time",
        equation: "t = 3600 * M / DR; M in kg, DR in kg/h, t in s",
        source: "definition of deposition rate",
        validity: "the arc burns all the time",
        confidence: Derived,
    }
}

formula! {
    /// Arc time for a run of a given length.
    pub const RUN_TIME {
        name: "run-time",
        equation: "t = 60 * L / v; L in mm, v in mm/min, t in s",
        source: "definition of speed",
        validity: "one run; the arc burns all the time",
        confidence: Derived,
    }
}

formula! {
    /// Elapsed time with all pauses.
    pub const ELAPSED_TIME {
        name: "elapsed-time",
        equation: "T = t / OF; OF is the share of the time that the arc burns",
        source: "definition of operating factor",
        validity: "as good as the operating factor, which differs widely between jobs",
        confidence: Derived,
    }
}

formula! {
    /// Filler metal to buy.
    pub const FILLER_BOUGHT {
        name: "filler-bought",
        equation: "M_bought = M / eta",
        source: "definition of deposition efficiency",
        validity: "ends left on spools are not counted",
        confidence: Derived,
    }
}

formula! {
    /// Shielding gas used.
    pub const GAS_USED {
        name: "gas-used",
        equation: "V = q * t / 60; q in L/min, t in s, V in L",
        source: "definition of flow",
        validity: "gas flows only while the arc burns; pre-flow, post-flow and leaks are not counted",
        confidence: Derived,
    }
}

coded! {
    /// How the gun or electrode is led, as far as it sets the usual operating factor.
    pub enum Manner: "manner of welding" {
        /// Covered electrode led by hand.
        CoveredElectrode = "covered-electrode",
        /// Wire fed by machine, gun led by hand.
        SemiAutomatic = "semi-automatic",
        /// Wire fed and gun led by machine.
        Automatic = "automatic",
    }
}

/// Arc time for a mass of weld metal, [`ARC_TIME`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a rate of zero.
pub fn arc_time(metal: Mass, rate: DepositionRate) -> Result<Duration, QuantityError> {
    Duration::computed(3_600.0 * metal.kg() / rate.kg_per_h())
}

/// Arc time for one run, [`RUN_TIME`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a speed of zero.
pub fn run_time(length: RunLength, speed: TravelSpeed) -> Result<Duration, QuantityError> {
    Duration::computed(60.0 * length.mm() / speed.mm_per_min())
}

/// Elapsed time, [`ELAPSED_TIME`].
///
/// # Errors
/// [`QuantityError::Implausible`] for an operating factor outside 0 to 1,
/// [`QuantityError::NotFinite`] for one of zero.
pub fn elapsed_time(arc: Duration, operating_factor: Share) -> Result<Duration, QuantityError> {
    let factor = operating_factor.ratio();
    if !(0.0..=1.0).contains(&factor) {
        return Err(QuantityError::Implausible {
            quantity: "operating factor",
            low: 0.0,
            high: 1.0,
            unit: "1",
        });
    }
    Duration::computed(arc.seconds() / factor)
}

/// Filler metal to buy for a mass of weld metal, [`FILLER_BOUGHT`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for an efficiency of zero.
pub fn filler_bought(metal: Mass, efficiency: Share) -> Result<Mass, QuantityError> {
    Mass::computed(metal.kg() / efficiency.ratio())
}

/// Shielding gas used in an arc time, [`GAS_USED`].
///
/// # Errors
/// [`QuantityError::NotFinite`] on overflow.
pub fn gas_used(flow: GasFlow, arc: Duration) -> Result<GasVolume, QuantityError> {
    GasVolume::computed(flow.l_per_min() * arc.seconds() / 60.0)
}

/// Usual operating factor where none was recorded: covered electrode 30 %, semi-automatic 45 %,
/// automatic 60 to 80 % (filler-metal handbook, Calculations section, and Basic Welding Filler
/// Metal Technology, Lesson 9, 2000: "if unknown"). Records of manual work are often 10 to 25 %
/// (common practice, no source): a recorded factor goes first.
///
/// # Errors
/// None in practice; the values are constants.
pub fn usual_operating_factor(manner: Manner) -> Result<Span<ShareKind>, QuantityError> {
    let (low, high) = match manner {
        Manner::CoveredElectrode => (0.30, 0.30),
        Manner::SemiAutomatic => (0.45, 0.45),
        Manner::Automatic => (0.60, 0.80),
    };
    span_of(Share::computed(low), Share::computed(high))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Own arithmetic: 0.9090 kg at 3.503 kg/h are 15.57 min of arc, 51.90 min at 30 %, and
    /// 1.057 kg of wire at 86 %.
    #[test]
    fn one_metre_of_a_groove() {
        let metal = "0.909 kg".parse().unwrap();
        let arc = arc_time(metal, "3.503 kg/h".parse().unwrap()).unwrap();
        assert!((arc.seconds() / 60.0 - 15.57).abs() < 0.005, "{arc}");
        let elapsed = elapsed_time(arc, "30 %".parse().unwrap()).unwrap();
        assert!((elapsed.seconds() / 60.0 - 51.90).abs() < 0.005, "{elapsed}");
        let wire = filler_bought(metal, "86 %".parse().unwrap()).unwrap();
        assert_eq!(wire.to_string(), "1.057 kg");
    }

    /// Own arithmetic: 18 L/min for 10 min are 180 L; 35 ft³/h for one hour are 35 ft³.
    #[test]
    fn gas_flows_while_the_arc_burns() {
        let used = gas_used("18 L/min".parse().unwrap(), "10 min".parse().unwrap()).unwrap();
        assert_eq!(used, "180 L".parse().unwrap());
        let used = gas_used("35 ft3/h".parse().unwrap(), "1 h".parse().unwrap()).unwrap();
        assert_eq!(used, "35 ft3".parse().unwrap());
    }

    /// 600 mm at 300 mm/min are 2 min (own arithmetic).
    #[test]
    fn one_run() {
        let time = run_time("600 mm".parse().unwrap(), "300 mm/min".parse().unwrap()).unwrap();
        assert_eq!(time, "2 min".parse().unwrap());
    }

    #[test]
    fn usual_factors_are_those_of_the_handbook() {
        let shown = |manner| {
            let span = usual_operating_factor(manner).unwrap();
            (span.low().to_string(), span.high().to_string())
        };
        assert_eq!(shown(Manner::CoveredElectrode), ("30 %".into(), "30 %".into()));
        assert_eq!(shown(Manner::SemiAutomatic), ("45 %".into(), "45 %".into()));
        assert_eq!(shown(Manner::Automatic), ("60 %".into(), "80 %".into()));
    }

    #[test]
    fn no_rate_no_time() {
        let none = DepositionRate::computed(0.0).unwrap();
        assert!(arc_time("1 kg".parse().unwrap(), none).is_err());
        let arc = "10 min".parse().unwrap();
        assert!(elapsed_time(arc, Share::computed(0.0).unwrap()).is_err());
        assert!(elapsed_time(arc, "120 %".parse().unwrap()).is_err());
    }
}
