//! What a code means by its words for heat.

use crate::trade::coded;

coded! {
    /// What an energy per length of run counts.
    pub enum HeatBasis: "heat basis" {
        /// Electrical energy, no efficiency: `ArcEnergy`.
        ArcEnergy = "arc-energy",
        /// Electrical energy times the thermal efficiency factor: `HeatInput`.
        HeatInput = "heat-input",
    }
}

coded! {
    /// Whose words are used for energy per length of run.
    ///
    /// ISO 15614-1:2017, 8.4.7 admits the first two, and the record has to say which (secondary: a
    /// text that quotes the clause). The third is the wording of most US codes.
    pub enum HeatConvention: "heat convention" {
        /// Arc energy as in ISO/TR 18491.
        IsoArcEnergy = "iso-arc-energy",
        /// Heat input with factor `k`, as in EN 1011-1 and ISO/TR 17671-1.
        IsoHeatInput = "iso-heat-input",
        /// Heat input of US codes, which is arc energy.
        UsHeatInput = "us-heat-input",
    }
}

coded! {
    /// Whether the power source shapes the waveform of the arc.
    pub enum Waveform: "waveform" {
        /// Plain direct current or sine wave: averages tell the power.
        NotControlled = "not-controlled",
        /// Pulsed or otherwise shaped: only measured energy or power counts.
        Controlled = "controlled",
    }
}

impl HeatConvention {
    /// What a figure under this convention counts.
    #[must_use]
    pub const fn basis(self) -> HeatBasis {
        match self {
            Self::IsoArcEnergy | Self::UsHeatInput => HeatBasis::ArcEnergy,
            Self::IsoHeatInput => HeatBasis::HeatInput,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ASME BPVC IX QW-409.1 has no efficiency factor (text read in NAVSEA
    /// S9074-AQ-GIB-010/248 Rev 1, 4-4.1.13.2, which prints the same formulae).
    #[test]
    fn us_heat_input_counts_arc_energy() {
        assert_eq!(HeatConvention::UsHeatInput.basis(), HeatBasis::ArcEnergy);
        assert_eq!(HeatConvention::IsoHeatInput.basis(), HeatBasis::HeatInput);
    }
}
