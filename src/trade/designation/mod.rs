//! Filler-metal designations of AWS and ISO, one file per standard.
//!
//! A designation describes all-weld-metal results under the standard's own test conditions. It
//! neither sets procedure limits nor translates into the designation of another standard: 27 J
//! against tensile strength (AWS) and 47 J against yield (ISO, system A) are different tests.
//!
//! A standard is one file with `parse`, one value of [`Standard`], its lines in `dispatch`, and its
//! shape in `shape`.

mod aws_a5_1;
mod aws_a5_18;
mod aws_a5_20;
mod aws_a5_22;
mod aws_a5_28;
mod aws_a5_29;
mod aws_a5_36;
mod aws_a5_5;
mod aws_a5_9;
mod aws_alloy;
mod aws_impact;
mod cursor;
mod dispatch;
mod facts;
mod flux_cored_usage;
mod gas_requirement;
mod iso_14341_a;
mod iso_14341_b;
mod iso_14343_a;
mod iso_14343_b;
mod iso_17632_a;
mod iso_17632_b;
mod iso_17633_a;
mod iso_17633_b;
mod iso_18276_a;
mod iso_18276_b;
mod iso_2560_a;
mod iso_2560_b;
mod iso_636_a;
mod iso_636_b;
mod iso_symbols;
mod iso_symbols_b;
mod iso_tubular_b;
mod shape;
mod stainless_alloy;
mod usability;
mod weld_metal;

pub use cursor::DesignationError;
pub use facts::{FillerKind, Impact, ImpactRequirement, PolarityRule, Standard, Strength};
pub use gas_requirement::{GasFit, GasRequirement};
pub use usability::{Agreement, Usability, VerticalRule};
pub use weld_metal::{AlloyFamily, WeldCondition};

use crate::quantity::HydrogenContent;

use self::facts::Facts;
use super::{Polarity, Process, RunClass};

/// A designation that was read, with what it states.
#[derive(Debug, Clone, PartialEq)]
pub struct Designation {
    text: String,
    standard: Standard,
    facts: Facts,
}

impl Designation {
    /// Reads a designation, with or without its standard in front: `AWS A5.20: E71T-1C`,
    /// `E71T-1C`, `EN ISO 17632-A - T 46 4 P M21 1 H5`.
    ///
    /// # Errors
    /// [`DesignationError`] says where the text stops making sense and what was expected there.
    pub fn parse(text: &str) -> Result<Self, DesignationError> {
        let (standard, facts) = dispatch::parse(text)?;
        Ok(Self { text: text.to_owned(), standard, facts })
    }

    /// The text as typed, prefix included.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The standard it was read by: the one named in front, else the one of its shape.
    #[must_use]
    pub const fn standard(&self) -> Standard {
        self.standard
    }

    /// Product form.
    #[must_use]
    pub const fn kind(&self) -> FillerKind {
        self.facts.kind
    }

    /// Strength of the weld metal in the units of the designation; ksi and MPa forms are rounded
    /// apart in the standards and are not converted here.
    #[must_use]
    pub const fn strength(&self) -> Strength {
        self.facts.strength
    }

    /// Impact requirement of the weld metal.
    #[must_use]
    pub const fn impact(&self) -> Impact {
        self.facts.impact
    }

    /// Positions the class covers; `None` where the designation does not state them.
    #[must_use]
    pub const fn usable_positions(&self) -> Option<Usability> {
        self.facts.usability
    }

    /// Gas the designation is bound to.
    #[must_use]
    pub const fn gas(&self) -> GasRequirement {
        self.facts.gas
    }

    /// Polarities the class is bound to; `None` where they are not fully stated. What is stated
    /// of the current even then is in [`Designation::polarity_rule`].
    #[must_use]
    pub const fn polarities(&self) -> Option<&'static [Polarity]> {
        match self.facts.polarity {
            PolarityRule::Stated(polarities) => Some(polarities),
            PolarityRule::AcOrDc | PolarityRule::DcOnly | PolarityRule::NotStated => None,
        }
    }

    /// What the designation says of current and polarity.
    #[must_use]
    pub const fn polarity_rule(&self) -> PolarityRule {
        self.facts.polarity
    }

    /// The same in a horizontal fillet, for which a covering of iron oxide has a rule of its own.
    #[must_use]
    pub fn polarity_rule_in_horizontal_fillet(&self) -> PolarityRule {
        self.facts.horizontal_fillet_polarity.unwrap_or(self.facts.polarity)
    }

    /// Upper limit of diffusible hydrogen; `None` where not stated.
    #[must_use]
    pub const fn hydrogen(&self) -> Option<HydrogenContent> {
        self.facts.hydrogen
    }

    /// Whether the class is for single-run welds only; `None` where not stated.
    #[must_use]
    pub const fn single_pass_only(&self) -> Option<bool> {
        self.facts.single_pass_only
    }

    /// Usability code of a flux-cored class, and `GS` of a metal-cored one; `None` for other classes.
    #[must_use]
    pub const fn usability_code(&self) -> Option<&'static str> {
        self.facts.usability_code
    }

    /// Whether the class lays runs of this kind: one for single-run welds only lays no run of several. T-13 is one for
    /// the root of pipe, under runs of another filler (AWS A5.20, annex; from memory). `None` where nothing is
    /// stated.
    #[must_use]
    pub fn lays(&self, run: RunClass) -> Option<bool> {
        let root = run == RunClass::Root && self.usability_code() == Some("13");
        self.single_pass_only().map(|single| !single || run == RunClass::Single || root)
    }

    /// Whether the covering of an AWS class is a low-hydrogen one; `None` for wires and rods, and for the
    /// classes of other standards.
    #[must_use]
    pub const fn low_hydrogen_covering(&self) -> Option<bool> {
        self.facts.low_hydrogen_covering
    }

    /// Alloy or composition symbol as typed; `None` where the class has none of its own.
    #[must_use]
    pub fn composition(&self) -> Option<&str> {
        self.facts.composition.as_deref()
    }

    /// Family of its steel; `None` where the composition is for buyer and maker to agree or the
    /// symbol is not known here.
    #[must_use]
    pub const fn family(&self) -> Option<AlloyFamily> {
        self.facts.family
    }

    /// Whether it is known to be unalloyed or low-alloy steel: neither stainless nor
    /// chromium-molybdenum.
    #[must_use]
    pub const fn is_plain_steel(&self) -> bool {
        matches!(self.facts.family, Some(AlloyFamily::Unalloyed | AlloyFamily::LowAlloy))
    }

    /// Condition in which the weld metal was tested; `None` where not stated.
    #[must_use]
    pub const fn condition(&self) -> Option<WeldCondition> {
        self.facts.condition
    }

    /// Processes it can serve.
    #[must_use]
    pub const fn processes(&self) -> &'static [Process] {
        self.facts.processes
    }

    /// What the reader should know of the values, above all which are from memory.
    #[must_use]
    pub fn notes(&self) -> Vec<&'static str> {
        self.facts.notes.clone()
    }
}

#[cfg(test)]
mod tests;
