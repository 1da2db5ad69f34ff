//! What a designation can state.

use rust_decimal::Decimal;

use crate::quantity::{HydrogenContent, Quantity, Range, Stress, StressKind, Temperature};
use crate::trade::{Polarity, Process, coded};

use super::weld_metal::{AlloyFamily, WeldCondition};
use super::{Agreement, GasRequirement, Usability};

coded! {
    /// A standard of filler metals.
    pub enum Standard: "filler standard" {
        /// Carbon-steel covered electrodes.
        AwsA51 = "AWS A5.1",
        /// Low-alloy covered electrodes.
        AwsA55 = "AWS A5.5",
        /// Bare stainless wires, rods and strips.
        AwsA59 = "AWS A5.9",
        /// Carbon-steel solid and composite wires and rods for gas-shielded arcs.
        AwsA518 = "AWS A5.18",
        /// Carbon-steel flux-cored wires.
        AwsA520 = "AWS A5.20",
        /// Stainless flux-cored wires and rods.
        AwsA522 = "AWS A5.22",
        /// Low-alloy solid and composite wires and rods for gas-shielded arcs.
        AwsA528 = "AWS A5.28",
        /// Low-alloy flux-cored wires.
        AwsA529 = "AWS A5.29",
        /// Flux-cored and metal-cored wires of carbon and low-alloy steel, free combination.
        AwsA536 = "AWS A5.36",
        /// Wires and rods for TIG, by yield strength and 47 J.
        Iso636A = "ISO 636-A",
        /// Wires and rods for TIG, by tensile strength and 27 J.
        Iso636B = "ISO 636-B",
        /// Covered electrodes, by yield strength and 47 J.
        Iso2560A = "ISO 2560-A",
        /// Covered electrodes, by tensile strength and 27 J.
        Iso2560B = "ISO 2560-B",
        /// Solid wires for gas-shielded arcs, by yield strength and 47 J.
        Iso14341A = "ISO 14341-A",
        /// Solid wires for gas-shielded arcs, by tensile strength and 27 J.
        Iso14341B = "ISO 14341-B",
        /// Stainless wires, rods and strips, by nominal composition.
        Iso14343A = "ISO 14343-A",
        /// Stainless wires, rods and strips, by alloy type.
        Iso14343B = "ISO 14343-B",
        /// Tubular wires, by yield strength and 47 J.
        Iso17632A = "ISO 17632-A",
        /// Tubular wires, by tensile strength and 27 J.
        Iso17632B = "ISO 17632-B",
        /// Stainless tubular wires and rods, by nominal composition.
        Iso17633A = "ISO 17633-A",
        /// Stainless tubular wires and rods, by alloy type.
        Iso17633B = "ISO 17633-B",
        /// High-strength tubular wires, by yield strength and 47 J.
        Iso18276A = "ISO 18276-A",
        /// High-strength tubular wires, by tensile strength and 27 J.
        Iso18276B = "ISO 18276-B",
    }
}

coded! {
    /// Product form of a filler.
    pub enum FillerKind: "filler kind" {
        /// Solid wire; in cut lengths also a rod.
        SolidWire = "solid-wire",
        /// Flux-cored wire for use with gas.
        FluxCoredWire = "flux-cored-wire",
        /// Flux-cored wire that needs no gas.
        SelfShieldedWire = "self-shielded-flux-cored-wire",
        /// Metal-cored wire.
        MetalCoredWire = "metal-cored-wire",
        /// Tubular wire whose core or shielding the designation leaves open.
        TubularWire = "tubular-wire",
        /// Covered electrode.
        CoveredElectrode = "covered-electrode",
        /// Rod fed by hand.
        Rod = "rod",
        /// Strip, for cladding.
        Strip = "strip",
    }
}

impl FillerKind {
    /// Processes that a filler of this form can be burnt or fed in, by their ISO 4063 names (2009, from memory): the
    /// electrode of 111 is a covered one, 114 needs no gas, 121 to 126 take what the number says.
    #[must_use]
    pub const fn processes(self) -> &'static [Process] {
        use Process::{
            MagFluxCored, MagMetalCored, MagSolidWire, ManualMetalArc, MigFluxCored, MigMetalCored,
            MigSolidWire, Plasma, PlasmaMig, SelfShieldedFluxCored, SubmergedCoredStrip,
            SubmergedCoredWire, SubmergedPowderAddition, SubmergedSolidWire, SubmergedStrip,
            TigCoredFiller, TigReducingGas, TigSolidFiller,
        };
        match self {
            Self::CoveredElectrode => &[ManualMetalArc],
            Self::SolidWire => &[
                SubmergedSolidWire,
                SubmergedPowderAddition,
                MigSolidWire,
                MagSolidWire,
                TigSolidFiller,
                TigReducingGas,
                Plasma,
                PlasmaMig,
            ],
            Self::FluxCoredWire => {
                &[MigFluxCored, MagFluxCored, SubmergedCoredWire, TigCoredFiller]
            }
            Self::SelfShieldedWire => &[SelfShieldedFluxCored],
            Self::MetalCoredWire => &[
                MigMetalCored,
                MagMetalCored,
                SubmergedCoredWire,
                SubmergedPowderAddition,
                TigCoredFiller,
            ],
            Self::TubularWire => &[
                SelfShieldedFluxCored,
                SubmergedCoredWire,
                SubmergedPowderAddition,
                MigFluxCored,
                MigMetalCored,
                MagFluxCored,
                MagMetalCored,
                TigCoredFiller,
            ],
            Self::Rod => &[TigSolidFiller, TigCoredFiller, TigReducingGas, Plasma],
            Self::Strip => &[SubmergedStrip, SubmergedCoredStrip],
        }
    }
}

/// Strength of the weld metal; `None` where the class states none or this crate knows none.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Strength {
    /// Tensile strength.
    pub tensile: Option<Range<StressKind>>,
    /// Yield strength.
    pub yield_strength: Option<Range<StressKind>>,
}

/// Energy that the mean of an impact test must reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ImpactRequirement {
    /// Energy in J. AWS classes print 20 ft·lbf and 50 ft·lbf for 27 J and 67 J.
    pub energy_joules: u16,
    /// Test temperature.
    pub temperature: Temperature,
}

/// What a class says about impact energy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Impact {
    /// An energy at a temperature.
    Required(ImpactRequirement),
    /// The class has no impact requirement.
    NotRequired,
    /// Buyer and maker agree on it.
    AsAgreed,
    /// The designation does not speak of it.
    NotStated,
}

/// What a class says about current and polarity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PolarityRule {
    /// These, and no others.
    Stated(&'static [Polarity]),
    /// Alternating and direct current; the pole is for the maker to say.
    AcOrDc,
    /// Direct current; the pole is for the maker to say.
    DcOnly,
    /// Not stated.
    NotStated,
}

impl PolarityRule {
    /// Whether a polarity agrees with the rule.
    #[must_use]
    pub fn admits(self, polarity: Polarity) -> Agreement {
        match self {
            Self::Stated(stated) if stated.contains(&polarity) => Agreement::Agrees,
            Self::Stated(_) => Agreement::Differs,
            Self::AcOrDc if polarity == Polarity::Ac => Agreement::Agrees,
            Self::DcOnly if polarity == Polarity::Ac => Agreement::Differs,
            Self::AcOrDc | Self::DcOnly | Self::NotStated => Agreement::Unknown,
        }
    }
}

/// All that was read; the parsers fill it in.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Facts {
    pub kind: FillerKind,
    pub strength: Strength,
    pub impact: Impact,
    pub usability: Option<Usability>,
    pub gas: GasRequirement,
    pub polarity: PolarityRule,
    /// In a horizontal fillet, where the class states it apart.
    pub horizontal_fillet_polarity: Option<PolarityRule>,
    pub hydrogen: Option<HydrogenContent>,
    pub single_pass_only: Option<bool>,
    pub usability_code: Option<&'static str>,
    pub low_hydrogen_covering: Option<bool>,
    pub composition: Option<String>,
    pub family: Option<AlloyFamily>,
    pub condition: Option<WeldCondition>,
    pub processes: &'static [Process],
    pub notes: Vec<&'static str>,
}

impl Facts {
    /// A filler of which nothing but its form and use is stated.
    pub const fn unstated(kind: FillerKind, processes: &'static [Process]) -> Self {
        Self {
            kind,
            strength: Strength { tensile: None, yield_strength: None },
            impact: Impact::NotStated,
            usability: None,
            gas: GasRequirement::NotStated,
            polarity: PolarityRule::NotStated,
            horizontal_fillet_polarity: None,
            hydrogen: None,
            single_pass_only: None,
            usability_code: None,
            low_hydrogen_covering: None,
            composition: None,
            family: None,
            condition: None,
            processes,
            notes: Vec::new(),
        }
    }
}

/// Units of a designation: AWS prints ksi and °F, or MPa and °C in the form with `M`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum System {
    Us,
    Si,
}

impl System {
    const fn stress_unit(self) -> &'static str {
        match self {
            Self::Us => "ksi",
            Self::Si => "MPa",
        }
    }

    /// A stress as printed.
    pub fn stress(self, number: i64) -> Option<Stress> {
        Quantity::entered(Decimal::from(number), self.stress_unit()).ok()
    }

    /// A stress that must be reached.
    pub fn at_least(self, number: i64) -> Option<Range<StressKind>> {
        self.stress(number).map(Range::at_least)
    }

    /// A stress between two.
    pub fn between(self, low: i64, high: i64) -> Option<Range<StressKind>> {
        Range::new(self.stress(low), self.stress(high)).ok()
    }

    /// The impact requirement at the temperature printed for this system.
    pub fn impact(self, joules: u16, (fahrenheit, celsius): (i64, i64)) -> Impact {
        let temperature = match self {
            Self::Us => Quantity::entered(Decimal::from(fahrenheit), "°F"),
            Self::Si => Quantity::entered(Decimal::from(celsius), "°C"),
        };
        let required = |temperature| ImpactRequirement { energy_joules: joules, temperature };
        temperature.map_or(Impact::NotStated, |temperature| Impact::Required(required(temperature)))
    }
}

/// A hydrogen limit in mL per 100 g.
pub(super) fn hydrogen(limit: i64) -> Option<HydrogenContent> {
    Quantity::entered(Decimal::from(limit), "mL/100g").ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::Polarity::{Ac, Dcen, Dcep};

    #[test]
    fn what_is_not_stated_of_the_current_stays_unknown() {
        use Agreement::{Agrees, Differs, Unknown};
        for (rule, expected) in [
            (PolarityRule::Stated(&[Dcep]), [Differs, Agrees, Differs]),
            (PolarityRule::Stated(&[Ac, Dcep]), [Agrees, Agrees, Differs]),
            (PolarityRule::AcOrDc, [Agrees, Unknown, Unknown]),
            (PolarityRule::DcOnly, [Differs, Unknown, Unknown]),
            (PolarityRule::NotStated, [Unknown, Unknown, Unknown]),
        ] {
            assert_eq!([Ac, Dcep, Dcen].map(|polarity| rule.admits(polarity)), expected);
        }
    }
}
