//! Usability codes of flux-cored wires, which AWS A5.20 prints and A5.29, A5.36, ISO 17632-B and
//! ISO 18276-B repeat.

use crate::trade::{Polarity, Process};

use super::cursor::Cursor;
use super::facts::{FillerKind, PolarityRule};
use super::usability::{ALL_DIRECTION_OPEN, ALL_DOWN, ALL_UP, FLAT_AND_HORIZONTAL, Usability};
use super::{DesignationError, GasRequirement};

const DCEP: PolarityRule = PolarityRule::Stated(&[Polarity::Dcep]);
const DCEN: PolarityRule = PolarityRule::Stated(&[Polarity::Dcen]);
const DC_EITHER: PolarityRule = PolarityRule::Stated(&[Polarity::Dcep, Polarity::Dcen]);

/// How a usability code is shielded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shielding {
    Gas,
    Own,
    Open,
}

/// Impact energy of a usability code, always 27 J (20 ft·lbf).
#[derive(Debug, Clone, Copy)]
pub(super) enum Toughness {
    /// At this many °F and, in the SI form, °C.
    At(i64, i64),
    NotRequired,
    /// Not required, from memory.
    NotRequiredFromMemory,
    AsAgreed,
}
use Toughness::{AsAgreed, At, NotRequired, NotRequiredFromMemory};

const COOL: Toughness = At(0, -20);
const COLD: Toughness = At(-20, -30);

/// What one usability code stands for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Usage {
    pub shielding: Shielding,
    pub polarity: PolarityRule,
    pub single_pass: bool,
    /// Positions with digit 0; `None` where no such class exists.
    pub flat: Option<Usability>,
    /// Positions with digit 1; `None` where no such class exists.
    pub all: Option<Usability>,
    pub toughness: Toughness,
}

/// One row: shielding, polarity, whether single pass, positions of digits 0 and 1, toughness.
const fn usage(
    shielding: Shielding,
    polarity: PolarityRule,
    single_pass: bool,
    (flat, all): (Option<Usability>, Option<Usability>),
    toughness: Toughness,
) -> Usage {
    Usage { shielding, polarity, single_pass, flat, all, toughness }
}

type Digits = (Option<Usability>, Option<Usability>);
const UP: Digits = (Some(FLAT_AND_HORIZONTAL), Some(ALL_UP));
const DOWN: Digits = (Some(FLAT_AND_HORIZONTAL), Some(ALL_DOWN));
const OPEN: Digits = (Some(FLAT_AND_HORIZONTAL), Some(ALL_DIRECTION_OPEN));
const FLAT_ONLY: Digits = (Some(FLAT_AND_HORIZONTAL), None);
const DOWN_ONLY: Digits = (None, Some(ALL_DOWN));

/// A5.20/A5.20M:2005. Shielding, polarity, passes and positions as a vocational textbook prints
/// them for every class; toughness as AWS D1.1:2020, Annex M repeats it, or from memory.
const USAGES: &[(&str, Usage)] = {
    use Shielding::{Gas, Open, Own};
    const NONE: PolarityRule = PolarityRule::NotStated;
    &[
        ("1", usage(Gas, DCEP, false, UP, COOL)),
        ("2", usage(Gas, DCEP, true, UP, NotRequiredFromMemory)),
        ("3", usage(Own, DCEP, true, FLAT_ONLY, NotRequiredFromMemory)),
        ("4", usage(Own, DCEP, false, FLAT_ONLY, NotRequired)),
        ("5", usage(Gas, DCEP, false, UP, COLD)),
        ("6", usage(Own, DCEP, false, FLAT_ONLY, COLD)),
        ("7", usage(Own, DCEN, false, UP, NotRequired)),
        ("8", usage(Own, DCEN, false, UP, COLD)),
        ("9", usage(Gas, DCEP, false, UP, COLD)),
        ("10", usage(Own, DCEN, true, FLAT_ONLY, NotRequiredFromMemory)),
        ("11", usage(Own, DCEN, false, DOWN, NotRequiredFromMemory)),
        ("12", usage(Gas, DCEP, false, UP, COLD)),
        ("13", usage(Own, DCEN, true, DOWN_ONLY, NotRequiredFromMemory)),
        ("14", usage(Own, DCEN, true, DOWN_ONLY, NotRequiredFromMemory)),
        ("G", usage(Open, NONE, false, OPEN, AsAgreed)),
        ("GS", usage(Open, NONE, true, OPEN, NotRequiredFromMemory)),
    ]
};

/// Codes that A5.36 adds, from memory: 15 metal-cored on direct current, 16 metal-cored and 17
/// flux-cored on alternating current.
const LATER: &[(&str, Usage)] = {
    use Shielding::{Gas, Open};
    const AC: PolarityRule = PolarityRule::Stated(&[Polarity::Ac]);
    &[
        ("15", usage(Gas, PolarityRule::DcOnly, false, OPEN, AsAgreed)),
        ("16", usage(Gas, AC, false, OPEN, AsAgreed)),
        ("17", usage(Open, AC, false, OPEN, AsAgreed)),
    ]
};

/// A code as read, with its row.
#[derive(Debug, Clone, Copy)]
pub(super) struct CodedUsage {
    pub code: &'static str,
    pub usage: Usage,
}

/// Reads one of the given codes.
pub(super) fn read(
    cursor: &mut Cursor<'_>,
    codes: &[&str],
) -> Result<CodedUsage, DesignationError> {
    let rows: Vec<_> = USAGES
        .iter()
        .chain(LATER)
        .filter(|(code, _)| codes.contains(code))
        .map(|(code, usage)| (*code, CodedUsage { code, usage: *usage }))
        .collect();
    cursor.need(&rows, "the usability code")
}

impl CodedUsage {
    /// Positions with digit 1 (all) or 0; an error at the place of the digit where the class does
    /// not exist.
    pub fn positions(
        self,
        all: bool,
        at_position: &Cursor<'_>,
    ) -> Result<Usability, DesignationError> {
        let found = if all { self.usage.all } else { self.usage.flat };
        let other = if all { "0" } else { "1" };
        let expected = || format!("{other}, the only position digit of T{}", self.code);
        found.ok_or_else(|| at_position.wrong(expected()))
    }

    /// Polarity; T5 in all positions also runs on DCEN.
    pub fn polarity(self, all: bool) -> PolarityRule {
        if (self.code, all) == ("5", true) { DC_EITHER } else { self.usage.polarity }
    }

    /// Refuses a gas for a code that shields itself, and none for one that needs gas.
    pub fn check_gas(
        self,
        gas: GasRequirement,
        at_gas: &Cursor<'_>,
    ) -> Result<(), DesignationError> {
        match (self.usage.shielding, gas) {
            (Shielding::Own, gas) if gas != GasRequirement::SelfShielded => {
                Err(at_gas
                    .wrong(format!("no gas letter or group, as T{} shields itself", self.code)))
            }
            (Shielding::Gas, GasRequirement::SelfShielded) => {
                Err(at_gas.wrong(format!("a shielding gas, as T{} needs one", self.code)))
            }
            _ => Ok(()),
        }
    }

    /// Product form and processes.
    pub fn kind(self, gas: GasRequirement) -> (FillerKind, &'static [Process]) {
        let inert = gas.is_inert();
        let metal = matches!(self.code, "15" | "16");
        match (self.usage.shielding, gas) {
            (Shielding::Own, _) | (Shielding::Open, GasRequirement::SelfShielded) => {
                (FillerKind::SelfShieldedWire, &[Process::SelfShieldedFluxCored])
            }
            (Shielding::Open, GasRequirement::NotStated) => {
                (FillerKind::TubularWire, &[Process::SelfShieldedFluxCored, Process::MagFluxCored])
            }
            _ if metal && inert => (FillerKind::MetalCoredWire, &[Process::MigMetalCored]),
            _ if metal => (FillerKind::MetalCoredWire, &[Process::MagMetalCored]),
            _ if inert => (FillerKind::FluxCoredWire, &[Process::MigFluxCored]),
            _ => (FillerKind::FluxCoredWire, &[Process::MagFluxCored]),
        }
    }
}
