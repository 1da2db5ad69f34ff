//! Arc welding processes: ISO 4063 numbers and the letters of AWS A3.0.

use super::{Coded, GasGroup, coded};

coded! {
    /// An arc welding process by its ISO 4063:2009 number.
    ///
    /// 122, 124, 126, 132, 133, 138, 142, 143, 145 and 151 are from memory, the others were read
    /// in texts that quote the standard.
    pub enum Process: "process" {
        /// 111, manual metal arc with covered electrode.
        ManualMetalArc = "111",
        /// 114, self-shielded tubular cored wire.
        SelfShieldedFluxCored = "114",
        /// 121, submerged arc with solid wire.
        SubmergedSolidWire = "121",
        /// 122, submerged arc with strip.
        SubmergedStrip = "122",
        /// 124, submerged arc with metal powder added.
        SubmergedPowderAddition = "124",
        /// 125, submerged arc with tubular cored wire.
        SubmergedCoredWire = "125",
        /// 126, submerged arc with cored strip.
        SubmergedCoredStrip = "126",
        /// 131, MIG with solid wire (inert gas).
        MigSolidWire = "131",
        /// 132, MIG with flux-cored wire (inert gas).
        MigFluxCored = "132",
        /// 133, MIG with metal-cored wire (inert gas).
        MigMetalCored = "133",
        /// 135, MAG with solid wire (active gas).
        MagSolidWire = "135",
        /// 136, MAG with flux-cored wire (active gas).
        MagFluxCored = "136",
        /// 138, MAG with metal-cored wire (active gas).
        MagMetalCored = "138",
        /// 141, TIG with solid filler.
        TigSolidFiller = "141",
        /// 142, TIG without filler.
        TigAutogenous = "142",
        /// 143, TIG with tubular cored filler.
        TigCoredFiller = "143",
        /// 145, TIG with reducing gas and solid filler.
        TigReducingGas = "145",
        /// 15, plasma arc.
        Plasma = "15",
        /// 151, plasma MIG.
        PlasmaMig = "151",
    }
}

/// What processes of one family have in common at the machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Family {
    CoveredElectrode,
    SelfShieldedWire,
    SubmergedArc,
    GasShieldedWire,
    Tig,
    Plasma,
    PlasmaWire,
}

/// Family, AWS letters and trade name of one process.
type Facts = (Family, &'static str, &'static str);

/// A text that names no process, or more than one.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum UnknownProcess {
    /// No ISO 4063 number of an arc process and no AWS letters.
    #[error("\"{given}\" is no arc welding process; give the ISO 4063 number, for example 136")]
    NotAProcess {
        /// What was given.
        given: String,
    },
    /// Letters that several ISO processes share.
    #[error("{given} may be {}; give the number", listed(candidates))]
    Ambiguous {
        /// The letters given.
        given: String,
        /// What they can mean.
        candidates: Vec<Process>,
    },
}

fn listed(candidates: &[Process]) -> String {
    let each = candidates.iter().map(|process| format!("{process} ({})", process.name()));
    each.collect::<Vec<_>>().join(" or ")
}

impl Process {
    /// Reads an ISO 4063 number, or AWS letters where they mean one process only.
    ///
    /// `FCAW-G` is read as 136: flux-cored wire under inert gas (132) is rare and goes by its
    /// number only.
    ///
    /// # Errors
    /// [`UnknownProcess::Ambiguous`] names the candidates of letters such as `GMAW`;
    /// [`UnknownProcess::NotAProcess`] for anything else.
    pub fn parse(text: &str) -> Result<Self, UnknownProcess> {
        // A number, as nearly always, has no case.
        if let Some(process) = Self::from_code(text.trim()) {
            return Ok(process);
        }
        let given = text.trim().to_ascii_uppercase();
        if given == Self::MagFluxCored.aws_letters() {
            return Ok(Self::MagFluxCored);
        }
        let candidates = Self::with_letters(&given);
        match candidates[..] {
            [] => Err(UnknownProcess::NotAProcess { given: text.trim().to_owned() }),
            [only] => Ok(only),
            _ => Err(UnknownProcess::Ambiguous { given, candidates }),
        }
    }

    /// Every process of these letters; `FCAW` covers `FCAW-G` and `FCAW-S`.
    fn with_letters(letters: &str) -> Vec<Self> {
        let means = |process: &Self| {
            let own = process.aws_letters();
            own == letters || own.split('-').next() == Some(letters)
        };
        Self::ALL.iter().map(|(process, _)| *process).filter(means).collect()
    }

    /// AWS A3.0 letters; several processes can share them.
    #[must_use]
    pub const fn aws_letters(self) -> &'static str {
        self.facts().1
    }

    /// Trade name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.facts().2
    }

    /// Whether a gas from outside shields the arc.
    #[must_use]
    pub const fn gas_shielded(self) -> bool {
        matches!(
            self.facts().0,
            Family::GasShieldedWire | Family::Tig | Family::Plasma | Family::PlasmaWire
        )
    }

    /// Whether feed and volts are set and the current follows: 114 and 131 to 138. Submerged arc
    /// is run both ways and is not counted (common practice, no source).
    #[must_use]
    pub const fn is_constant_voltage_wire(self) -> bool {
        matches!(self.facts().0, Family::SelfShieldedWire | Family::GasShieldedWire)
    }

    /// Whether the arc burns from an electrode that a feeder drives. Filler fed beside a TIG or
    /// plasma arc does not carry the arc and is not counted.
    #[must_use]
    pub const fn has_wire_feed(self) -> bool {
        !matches!(self.facts().0, Family::CoveredElectrode | Family::Tig | Family::Plasma)
    }

    /// Whether a length of fed electrode between contact tip and arc carries the current.
    #[must_use]
    pub const fn has_stick_out(self) -> bool {
        self.has_wire_feed()
    }

    /// Whether the electrode is a covered one, changed by hand.
    #[must_use]
    pub const fn is_covered_electrode(self) -> bool {
        matches!(self.facts().0, Family::CoveredElectrode)
    }

    /// Whether the arc burns from a tungsten electrode: TIG and plasma.
    #[must_use]
    pub const fn has_tungsten(self) -> bool {
        matches!(self.facts().0, Family::Tig | Family::Plasma | Family::PlasmaWire)
    }

    /// Whether the arc burns under loose flux.
    #[must_use]
    pub const fn is_submerged(self) -> bool {
        matches!(self.facts().0, Family::SubmergedArc)
    }

    /// Why a shielding gas of this group is none of this process, by the names that ISO 4063:2009 gives them (from
    /// memory); `None` where nothing is to be said. Plasma takes oxidising gas around its own.
    #[must_use]
    pub fn refuses_gas(self, group: GasGroup) -> Option<&'static str> {
        let group = group.main_group();
        let oxidises = group.starts_with(['M', 'C', 'O']);
        match self {
            _ if !self.gas_shielded() => Some("it welds without shielding gas"),
            Self::MigSolidWire | Self::MigFluxCored | Self::MigMetalCored if oxidises => Some(
                "it is welding with inert gas; with an active one it is 135 (solid wire), 136 (flux-cored) or 138 \
                 (metal-cored)",
            ),
            Self::MagSolidWire | Self::MagFluxCored | Self::MagMetalCored if group == "I" => Some(
                "it is welding with active gas; with an inert one it is 131 (solid wire), 132 (flux-cored) or 133 \
                 (metal-cored)",
            ),
            _ if oxidises && matches!(self.facts().0, Family::Tig) => {
                Some("its tungsten burns in an oxidising gas")
            }
            _ => None,
        }
    }

    /// Names: ISO 4063:2009; letters: AWS A3.0, as fabricators commonly pair them.
    const fn facts(self) -> Facts {
        use Family::{
            CoveredElectrode, GasShieldedWire, Plasma, PlasmaWire, SelfShieldedWire, SubmergedArc,
            Tig,
        };
        match self {
            Self::ManualMetalArc => (CoveredElectrode, "SMAW", "manual metal arc"),
            Self::SelfShieldedFluxCored => {
                (SelfShieldedWire, "FCAW-S", "self-shielded tubular cored arc")
            }
            Self::SubmergedSolidWire => (SubmergedArc, "SAW", "submerged arc, solid wire"),
            Self::SubmergedStrip => (SubmergedArc, "SAW", "submerged arc, strip"),
            Self::SubmergedPowderAddition => {
                (SubmergedArc, "SAW", "submerged arc, metal powder added")
            }
            Self::SubmergedCoredWire => (SubmergedArc, "SAW", "submerged arc, tubular cored wire"),
            Self::SubmergedCoredStrip => (SubmergedArc, "SAW", "submerged arc, cored strip"),
            Self::MigSolidWire => (GasShieldedWire, "GMAW", "MIG, solid wire"),
            Self::MigFluxCored => (GasShieldedWire, "FCAW-G", "MIG, flux-cored wire"),
            Self::MigMetalCored => (GasShieldedWire, "GMAW", "MIG, metal-cored wire"),
            Self::MagSolidWire => (GasShieldedWire, "GMAW", "MAG, solid wire"),
            Self::MagFluxCored => (GasShieldedWire, "FCAW-G", "MAG, flux-cored wire"),
            Self::MagMetalCored => (GasShieldedWire, "GMAW", "MAG, metal-cored wire"),
            Self::TigSolidFiller => (Tig, "GTAW", "TIG, solid filler"),
            Self::TigAutogenous => (Tig, "GTAW", "TIG without filler"),
            Self::TigCoredFiller => (Tig, "GTAW", "TIG, tubular cored filler"),
            Self::TigReducingGas => (Tig, "GTAW", "TIG, reducing gas, solid filler"),
            Self::Plasma => (Plasma, "PAW", "plasma arc"),
            Self::PlasmaMig => (PlasmaWire, "PAW", "plasma MIG"),
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// ISO 4063:2009 numbers beside AWS letters, as texts that quote both pair them; rows marked
    /// "from memory" in the doc comment of [`Process`] are so here too.
    const PAIRS: &[(&str, &str)] = &[
        ("111", "SMAW"),
        ("114", "FCAW-S"),
        ("121", "SAW"),
        ("122", "SAW"),
        ("124", "SAW"),
        ("125", "SAW"),
        ("126", "SAW"),
        ("131", "GMAW"),
        ("132", "FCAW-G"),
        ("133", "GMAW"),
        ("135", "GMAW"),
        ("136", "FCAW-G"),
        ("138", "GMAW"),
        ("141", "GTAW"),
        ("142", "GTAW"),
        ("143", "GTAW"),
        ("145", "GTAW"),
        ("15", "PAW"),
        ("151", "PAW"),
    ];

    #[test]
    fn numbers_and_letters_belong_together() {
        assert_eq!(PAIRS.len(), Process::ALL.len());
        for (number, letters) in PAIRS {
            assert_eq!(Process::parse(number).unwrap().aws_letters(), *letters, "{number}");
        }
    }

    #[test]
    fn letters_of_one_process_are_read() {
        assert_eq!(Process::parse("SMAW").unwrap(), Process::ManualMetalArc);
        assert_eq!(Process::parse("FCAW-S").unwrap(), Process::SelfShieldedFluxCored);
        assert_eq!(Process::parse(" fcaw-g ").unwrap(), Process::MagFluxCored);
    }

    #[test]
    fn letters_of_several_processes_are_refused_with_all_of_them() {
        for (letters, numbers) in [
            ("GMAW", &["131", "133", "135", "138"][..]),
            ("FCAW", &["114", "132", "136"]),
            ("SAW", &["121", "122", "124", "125", "126"]),
            ("GTAW", &["141", "142", "143", "145"]),
            ("PAW", &["15", "151"]),
        ] {
            let error = Process::parse(letters).unwrap_err();
            for number in numbers {
                assert!(error.to_string().contains(&format!("{number} (")), "{error}");
            }
            let UnknownProcess::Ambiguous { candidates, .. } = error else {
                panic!("{letters} is ambiguous")
            };
            assert_eq!(candidates.len(), numbers.len(), "{letters}");
        }
    }

    #[test]
    fn other_processes_and_nonsense_are_refused() {
        for text in ["", "311", "14", "GMAW-X", "S", "-", "FCAW-"] {
            let error = Process::parse(text).unwrap_err();
            assert!(matches!(error, UnknownProcess::NotAProcess { .. }), "{text}");
        }
    }

    /// Common practice, no source.
    #[test]
    fn what_the_welder_sets_follows_from_the_process() {
        let having = |has: fn(Process) -> bool| {
            let all = Process::ALL.iter();
            all.filter(|(process, _)| has(*process)).map(|(_, code)| *code).collect::<Vec<_>>()
        };
        let wires = ["114", "131", "132", "133", "135", "136", "138"];
        assert_eq!(having(Process::is_constant_voltage_wire), wires);
        assert_eq!(having(Process::is_covered_electrode), ["111"]);
        let open = ["111", "114", "121", "122", "124", "125", "126"];
        assert_eq!(having(|process| !process.gas_shielded()), open);
        let no_feed = ["111", "141", "142", "143", "145", "15"];
        assert_eq!(having(|process| !process.has_wire_feed()), no_feed);
        assert_eq!(having(|process| !process.has_stick_out()), no_feed);
        assert_eq!(having(Process::is_submerged), ["121", "122", "124", "125", "126"]);
    }

    /// ISO 4063:2009 (from memory): 131 to 133 with inert gas, 135 to 138 with active gas, 145 with reducing gas.
    #[test]
    fn a_gas_that_the_name_of_the_process_excludes_is_refused() {
        for (process, group, is_refused) in [
            (Process::MigSolidWire, GasGroup::M21, true),
            (Process::MigSolidWire, GasGroup::I1, false),
            (Process::MigMetalCored, GasGroup::C1, true),
            (Process::MigSolidWire, GasGroup::N2, false),
            (Process::MagSolidWire, GasGroup::I1, true),
            (Process::MagSolidWire, GasGroup::M13, false),
            (Process::MagFluxCored, GasGroup::C1, false),
            (Process::MagMetalCored, GasGroup::Z, false),
            (Process::TigSolidFiller, GasGroup::C1, true),
            (Process::TigSolidFiller, GasGroup::M12, true),
            (Process::TigSolidFiller, GasGroup::R1, false),
            (Process::TigReducingGas, GasGroup::R1, false),
            (Process::Plasma, GasGroup::M20, false),
            (Process::SelfShieldedFluxCored, GasGroup::C1, true),
            (Process::ManualMetalArc, GasGroup::I1, true),
        ] {
            let why = process.refuses_gas(group);
            assert_eq!(why.is_some(), is_refused, "{process} {group}: {why:?}");
        }
    }

    proptest! {
        #[test]
        fn no_text_upsets_the_parser(text in "\\PC*") {
            let _ = Process::parse(&text);
        }
    }
}
