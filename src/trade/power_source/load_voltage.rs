//! Conventional load voltage: the voltage at which a power source is rated.

use super::PowerSourceError;
use crate::{
    quantity::{Current, Voltage},
    trade::{Process, coded, formula, scope::positive},
};

formula! {
    /// Conventional load voltage.
    pub const LOAD_VOLTAGE {
        name: "conventional-load-voltage",
        equation: "U2 = 20 + 0.04*I2 covered electrode, submerged arc; 10 + 0.04*I2 TIG; 14 + 0.05*I2 \
                   MIG, MAG, cored wire; 25 + 0.04*I2 plasma; all flat above 600 A; plasma cutting 80 + \
                   0.4*I2 to 165 A, then 130 + 0.1*I2; plasma gouging 100 + 0.4*I2 to 300 A, then 220; \
                   I2 in A, U2 in V",
        source: "IEC 60974-1, 11.2; from memory",
        validity: "a test load for rating plates, no arc voltage: it says what a power source can, not \
                   what a weld needs, and never enters a heat input",
        confidence: Memory,
    }
}

coded! {
    /// Load lines of the rating.
    pub enum LoadFamily: "load line" {
        /// Covered electrode.
        CoveredElectrode = "covered-electrode",
        /// Submerged arc.
        SubmergedArc = "submerged-arc",
        /// TIG.
        Tig = "tig",
        /// MIG, MAG and cored wire, self-shielded wire too.
        Wire = "wire",
        /// Plasma welding.
        PlasmaWelding = "plasma-welding",
        /// Plasma cutting.
        PlasmaCutting = "plasma-cutting",
        /// Plasma gouging.
        PlasmaGouging = "plasma-gouging",
    }
}

/// Load line of a process; `None` where none is known (plasma MIG).
#[must_use]
pub const fn load_family(process: Process) -> Option<LoadFamily> {
    Some(match process {
        Process::ManualMetalArc => LoadFamily::CoveredElectrode,
        Process::SubmergedSolidWire
        | Process::SubmergedStrip
        | Process::SubmergedPowderAddition
        | Process::SubmergedCoredWire
        | Process::SubmergedCoredStrip => LoadFamily::SubmergedArc,
        Process::SelfShieldedFluxCored
        | Process::MigSolidWire
        | Process::MigFluxCored
        | Process::MigMetalCored
        | Process::MagSolidWire
        | Process::MagFluxCored
        | Process::MagMetalCored => LoadFamily::Wire,
        Process::TigSolidFiller
        | Process::TigAutogenous
        | Process::TigCoredFiller
        | Process::TigReducingGas => LoadFamily::Tig,
        Process::Plasma => LoadFamily::PlasmaWelding,
        Process::PlasmaMig => return None,
    })
}

/// Conventional load voltage at a current, [`LOAD_VOLTAGE`].
///
/// # Errors
/// [`PowerSourceError::OutOfRange`] for a current not above zero.
pub fn conventional_load_voltage(
    family: LoadFamily,
    current: Current,
) -> Result<Voltage, PowerSourceError> {
    positive(current)?;
    let amperes = current.amperes();
    let flat_above = |base: f64, slope: f64, most: f64| base + slope * amperes.min(most);
    let volts = match family {
        LoadFamily::CoveredElectrode | LoadFamily::SubmergedArc => flat_above(20.0, 0.04, 600.0),
        LoadFamily::Tig => flat_above(10.0, 0.04, 600.0),
        LoadFamily::Wire => flat_above(14.0, 0.05, 600.0),
        LoadFamily::PlasmaWelding => flat_above(25.0, 0.04, 600.0),
        LoadFamily::PlasmaCutting if current.at_most(Current::computed(165.0)?) => {
            80.0 + 0.4 * amperes
        }
        LoadFamily::PlasmaCutting => 130.0 + 0.1 * amperes,
        LoadFamily::PlasmaGouging => flat_above(100.0, 0.4, 300.0),
    };
    Ok(Voltage::computed(volts)?)
}
