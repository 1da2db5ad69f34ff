//! Safety cautions that go with every answer that can lead to an arc.

mod rows;

use std::{borrow::Cow, iter};

use super::{Setup, record::Consumable};
use crate::{
    quantity::{Current, Diameter},
    trade::{Coded, Process, ShadeBasis, minimum_shade},
};
use rows::{ROWS, Row, Scene};

/// One caution. Limits in the texts are those of the place named in the source; others differ.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// Stable kebab-case code.
    pub code: &'static str,
    /// What to heed.
    pub text: Cow<'static, str>,
    /// Where it is printed, or that it has no source.
    pub source: &'static str,
}

/// The cautions that apply to one setup: the one about the filter shade, and rows of the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cautions {
    /// What filter shade is needed, which is worded for the setup.
    pub eye_and_face: Caution,
    /// The others.
    pub always_alike: CautionRows,
}

/// Rows of the table of cautions; the same rows read the same in every answer.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct CautionRows(u32);

/// The cautions that apply to a setup. What is not known excludes no caution.
#[must_use]
pub fn applying(
    setup: &Setup,
    process: Option<Process>,
    consumable: Option<&Consumable>,
) -> Cautions {
    let scene = Scene { setup, process, consumable };
    let applies = |rows, (at, row): (usize, &Row)| rows | (u32::from((row.applies)(&scene)) << at);
    let rows = ROWS.iter().enumerate().fold(0, applies);
    Cautions { eye_and_face: eye_and_face(&scene), always_alike: CautionRows(rows) }
}

impl CautionRows {
    /// Those that are in both.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// Those that are in either.
    #[must_use]
    pub const fn or(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// The cautions, in the order of the table.
    pub fn iter(self) -> impl Iterator<Item = Caution> {
        let applying = move |(at, _): &(usize, &Row)| self.0 >> at & 1 == 1;
        ROWS.iter().enumerate().filter(applying).map(|(_, row)| Caution {
            code: row.code,
            text: Cow::Borrowed(row.text),
            source: row.source,
        })
    }
}

impl Cautions {
    /// All of them; when in doubt to stop is said last.
    pub fn into_list(self) -> impl Iterator<Item = Caution> {
        iter::once(self.eye_and_face).chain(self.always_alike.iter())
    }
}

/// Currents at which the rows of 29 CFR 1910.133(a)(5) end: the darkest row of every process ends
/// at one of them.
const ROW_ENDS: &[&str] = &["60 A", "160 A", "250 A", "500 A", "550 A", "800 A"];

fn eye_and_face(scene: &Scene<'_>) -> Caution {
    let current = scene.setup.settings.current.map(|given| given.span.high());
    let electrode = scene.setup.filler.diameter;
    let mut text = match (scene.process, current) {
        (None, _) => "The process is not known, so no filter shade can be named; no arc without a \
                      filter made for welding."
            .to_owned(),
        (Some(process), Some(current)) => shade_for(process, electrode, current),
        (Some(process), None) => match darkest(process, electrode) {
            Some(shade) => format!(
                "The current is not known: at least filter shade {shade}, the darkest row of the \
                 process."
            ),
            None => NOT_IN_TABLE.to_owned(),
        },
    };
    text.push_str(" Start too dark, then go lighter until the weld is seen, never below.");
    Caution { code: "eye-and-face", text: Cow::Owned(text), source: "29 CFR 1910.133(a)(5)" }
}

/// Bytes that hold what is said of a shade.
const ROOM: usize = 192;

const NOT_IN_TABLE: &str = "The table has no row for this process: eye protection for stray light and \
                            slag, and a welding filter wherever the arc can be seen.";

fn shade_for(process: Process, electrode: Option<Diameter>, current: Current) -> String {
    let answer = minimum_shade(process, electrode, current);
    match (answer.shade, answer.basis) {
        (Some(shade), basis) => {
            let mut text = String::with_capacity(ROOM);
            text.extend(["At least filter shade ", &shade.to_string(), " at "]);
            current.amount().push_to(&mut text);
            if !matches!(basis, ShadeBasis::Current | ShadeBasis::SizeAndCurrent) {
                text.extend([" (", basis.code(), ")"]);
            }
            text.push('.');
            text
        }
        (None, ShadeBasis::AboveTable) => {
            let shade = darkest(process, electrode).map_or(String::new(), |s| s.to_string());
            format!("{current} lies above the table: darker than its last shade {shade}.")
        }
        (None, _) => NOT_IN_TABLE.to_owned(),
    }
}

fn darkest(process: Process, electrode: Option<Diameter>) -> Option<u8> {
    let ends = ROW_ENDS.iter().filter_map(|text| text.parse().ok());
    ends.filter_map(|current| minimum_shade(process, electrode, current).shade).max()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        check::{BaseMetal, Given, fixture::Scene},
        quantity::Span,
        trade::Designation,
    };

    fn process(code: &str) -> Option<Process> {
        Process::from_code(code)
    }

    /// Who reads a stream knows the words by their code.
    #[test]
    fn a_code_stands_for_one_caution() {
        let mut codes: Vec<_> = ROWS.iter().map(|row| row.code).chain(["eye-and-face"]).collect();
        let all = codes.len();
        codes.sort_unstable();
        codes.dedup();
        assert_eq!(codes.len(), all);
    }

    fn codes(setup: &Setup, code: &str) -> Vec<&'static str> {
        applying(setup, process(code), None).into_list().map(|caution| caution.code).collect()
    }

    fn shade(code: &str, current: Option<&str>) -> String {
        let mut setup = Setup::default();
        setup.settings.current = current.map(|text| Given::set(Span::one(text.parse().unwrap())));
        applying(&setup, process(code), None).eye_and_face.text.into_owned()
    }

    /// 29 CFR 1910.133(a)(5): flux-cored arc welding, 160 to 250 A: 10; below 60 A: 7.
    #[test]
    fn the_shade_follows_process_and_current() {
        assert!(shade("136", Some("240 A")).starts_with("At least filter shade 10 at 240 A."));
        assert!(shade("136", Some("59 A")).starts_with("At least filter shade 7 at 59 A."));
    }

    /// 29 CFR 1910.133(a)(5): darkest rows 11 for covered electrodes, 10 for gas metal, flux-cored
    /// and gas tungsten arcs, 11 for plasma.
    #[test]
    fn an_unknown_current_asks_for_the_darkest_row_and_says_so() {
        for (code, expected) in [("111", 11), ("135", 10), ("114", 10), ("141", 10), ("15", 11)] {
            let text = shade(code, None);
            assert!(text.contains("The current is not known"), "{text}");
            assert!(text.contains(&format!("filter shade {expected},")), "{code}: {text}");
        }
    }

    #[test]
    fn outside_the_table_no_shade_is_made_up() {
        assert!(shade("121", Some("600 A")).starts_with("The table has no row"));
        assert!(shade("121", None).starts_with("The table has no row"));
        assert!(shade("136", Some("600 A")).contains("lies above the table"));
    }

    #[test]
    fn nothing_known_means_every_caution() {
        let all: Vec<_> = applying(&Setup::default(), None, None).into_list().collect();
        assert_eq!(all.len(), ROWS.len() + 1);
        assert!(all.iter().all(|caution| !caution.source.is_empty()));
        assert_eq!(all.last().unwrap().code, "judgement");
    }

    #[test]
    fn gas_is_a_matter_of_processes_with_gas() {
        let setup = Setup::default();
        assert!(codes(&setup, "136").contains(&"gas-cylinders"));
        assert!(!codes(&setup, "114").contains(&"gas-cylinders"));
    }

    /// 29 CFR 1910.252(c)(5)-(11) and (a)(3) make no difference between processes; tungsten burns no other arc than
    /// that of TIG and plasma (ISO 4063).
    #[test]
    fn coatings_hollow_parts_and_solvents_are_said_always_and_tungsten_where_it_may_be() {
        let setup = Setup::default();
        for code in ["111", "114", "121", "135", "136", "141", "15"] {
            for always in ["coated-metal", "closed-vessels", "solvent-vapour"] {
                assert!(codes(&setup, code).contains(&always), "{code} {always}");
            }
        }
        for (code, tungsten, ozone) in [
            ("141", true, true),
            ("15", true, true),
            ("131", false, true),
            ("136", false, false),
            ("111", false, false),
        ] {
            assert_eq!(codes(&setup, code).contains(&"thoriated-tungsten"), tungsten, "{code}");
            assert_eq!(codes(&setup, code).contains(&"ozone"), ozone, "{code}");
        }
    }

    #[test]
    fn hydrogen_is_no_matter_of_austenitic_steel_and_chromium_is() {
        let mut setup = Setup::default();
        let part = |text: &str| BaseMetal { group: text.parse().ok(), ..BaseMetal::UNKNOWN };
        setup.job.base_metals = vec![part("8.1"), part("8.1")];
        assert!(!codes(&setup, "136").contains(&"hydrogen-cracking"));
        assert!(codes(&setup, "136").contains(&"chromium-and-nickel"));
        setup.job.base_metals = vec![part("1.2"), part("8.1")];
        assert!(codes(&setup, "136").contains(&"hydrogen-cracking"));
        setup.job.base_metals = vec![part("8.1")];
        assert!(codes(&setup, "136").contains(&"hydrogen-cracking"), "nobody knows the other part");
    }

    /// AWS A5.9, A5.22, ISO 14343 and 17633 are standards of stainless fillers; B3 to B9 hold 2 to
    /// 10 % chromium (one-page guides to A5.5 and A5.28). A filler of agreed composition (G, Z) is
    /// unknown.
    #[test]
    fn chromium_is_a_matter_of_stainless_and_unknown_fillers() {
        let shows = |designations: &[&str]| {
            let mut consumable = Scene::allowed().consumable.unwrap();
            consumable.designations =
                designations.iter().map(|text| Designation::parse(text).unwrap()).collect();
            let all = applying(&Setup::default(), process("136"), Some(&consumable));
            all.into_list().any(|caution| caution.code == "chromium-and-nickel")
        };
        for stainless in
            ["ER308L", "E308LT1-1", "G 19 12 3 L Si", "SS316L", "T 19 9 L P M21 1", "TS316L-F M 0"]
        {
            assert!(shows(&[stainless]), "{stainless}");
            assert!(shows(&["E71T-1C", stainless]), "{stainless}");
        }
        for unknown in ["E81T1-B3C", "E9018-B9", "E8018-G", "T 46 4 Z P M21", "E81T1-X9C"] {
            assert!(shows(&[unknown]), "{unknown}");
        }
        for plain in [
            "E71T-1C",
            "E7018-1 H4R",
            "ER70S-6",
            "ER80S-D2",
            "E81T1-Ni1C",
            "E71T1-C1A0-CS1",
            "T 46 3 1Ni B M 1 H5",
            "T 69 4 Mn2NiMo P M21 2 H5",
            "G 49A 3 C1 S6",
        ] {
            assert!(!shows(&[plain]), "{plain}");
        }
        assert!(shows(&[]));
    }
}
