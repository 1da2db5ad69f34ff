//! Least filter shade for the eyes by process and current, as US federal rules print it.
//!
//! The minimum by law, not the comfortable shade: start too dark, go lighter until the weld zone is seen, never below.
//! A current on the end that two rows share gets the darker one; a current or process outside the table gets no
//! shade, and says so. The tables of other countries differ, and copies of one disagree: they are not held here.

use crate::quantity::{Current, Diameter, compare};

use super::{Process, coded};

/// Where every shade of this file is printed.
const SOURCE: &str = "29 CFR 1910.133(a)(5), filter lenses for protection against radiant energy";

coded! {
    /// What an answer about the filter shade rests on.
    pub enum ShadeBasis: "filter shade basis" {
        /// The row of the current.
        Current = "current",
        /// Covered electrode: size and current lead to the same shade.
        SizeAndCurrent = "electrode size and current",
        /// Covered electrode: size and current lead to different shades, the darker one is given.
        DarkerOfTwo = "electrode size and current disagree; darker shade given",
        /// Covered electrode of unknown size: the size may ask for a darker shade.
        SizeUnknown = "current only; the electrode size, not given, may ask for a darker shade",
        /// The current lies above the last row of the process.
        AboveTable = "current above the table",
        /// The table has no row for the process.
        NotInTable = "process not in the table",
    }
}

/// A least filter shade, or why the table gives none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ShadeAnswer {
    /// Least shade number; a darker one is always right. `None` outside the table.
    pub shade: Option<u8>,
    /// What the answer rests on.
    pub basis: ShadeBasis,
    /// Where the table is printed.
    pub source: &'static str,
}

/// The least filter shade for an arc.
///
/// Rows of the table share their ends: at such an end the darker shade is given. The table sorts
/// covered electrodes by size and current at once; where the two lead to different rows the darker
/// shade is given and the answer says so. Submerged arc and plasma MIG are not in the table.
///
/// # Source
/// 29 CFR 1910.133(a)(5).
#[must_use]
pub fn minimum_shade(
    process: Process,
    electrode: Option<Diameter>,
    current: Current,
) -> ShadeAnswer {
    let answer = |shade, basis| ShadeAnswer { shade, basis, source: SOURCE };
    let Some(rows) = rows(process) else { return answer(None, ShadeBasis::NotInTable) };
    let Some(by_current) = darkest(rows, current) else {
        return answer(None, ShadeBasis::AboveTable);
    };
    if !process.is_covered_electrode() {
        return answer(Some(by_current), ShadeBasis::Current);
    }
    match electrode.map(shade_by_size) {
        None => answer(Some(by_current), ShadeBasis::SizeUnknown),
        Some(by_size) if by_size == by_current => {
            answer(Some(by_current), ShadeBasis::SizeAndCurrent)
        }
        Some(by_size) => answer(Some(by_size.max(by_current)), ShadeBasis::DarkerOfTwo),
    }
}

/// From this many amperes, up to that many, at least this shade.
type Row = (f64, f64, u8);

const COVERED_ELECTRODE: &[Row] =
    &[(0.0, 60.0, 7), (60.0, 160.0, 8), (160.0, 250.0, 10), (250.0, 550.0, 11)];
const GAS_METAL_AND_FLUX_CORED: &[Row] =
    &[(0.0, 60.0, 7), (60.0, 160.0, 10), (160.0, 250.0, 10), (250.0, 500.0, 10)];
const GAS_TUNGSTEN: &[Row] = &[(0.0, 50.0, 8), (50.0, 150.0, 8), (150.0, 500.0, 10)];
const PLASMA: &[Row] = &[(0.0, 20.0, 6), (20.0, 100.0, 8), (100.0, 400.0, 10), (400.0, 800.0, 11)];

fn rows(process: Process) -> Option<&'static [Row]> {
    match process.aws_letters() {
        "SMAW" => Some(COVERED_ELECTRODE),
        "GMAW" | "FCAW-G" | "FCAW-S" => Some(GAS_METAL_AND_FLUX_CORED),
        "GTAW" => Some(GAS_TUNGSTEN),
        _ if process == Process::Plasma => Some(PLASMA),
        _ => None,
    }
}

/// The darkest of the rows that hold the current, ends included.
fn darkest(rows: &[Row], current: Current) -> Option<u8> {
    let amperes = current.amperes();
    let holds = |(from, to, _): &&Row| {
        compare(amperes, *from, 0.0).is_ge() && compare(amperes, *to, 0.0).is_le()
    };
    rows.iter().filter(holds).map(|(_, _, shade)| *shade).max()
}

/// One thirty-second of an inch in millimetres, exact.
const THIRTY_SECOND: f64 = 25.4 / 32.0;

/// Under 3/32 in, 3/32 to 5/32 in, 5/32 to 8/32 in, over 8/32 in; 5/32 in takes the darker row.
fn shade_by_size(electrode: Diameter) -> u8 {
    let versus = |thirty_seconds: f64| compare(electrode.mm(), thirty_seconds * THIRTY_SECOND, 0.0);
    if versus(8.0).is_gt() {
        11
    } else if versus(5.0).is_ge() {
        10
    } else if versus(3.0).is_ge() {
        8
    } else {
        7
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::Coded;

    fn shade(process: &str, size: Option<&str>, current: &str) -> (Option<u8>, ShadeBasis) {
        let process = Process::from_code(process).unwrap();
        let size = size.map(|size| size.parse().unwrap());
        let answer = minimum_shade(process, size, current.parse().unwrap());
        assert_eq!(answer.source.split(',').next(), Some("29 CFR 1910.133(a)(5)"));
        (answer.shade, answer.basis)
    }

    /// 29 CFR 1910.133(a)(5), every row of the covered electrode, size and current in one row.
    #[test]
    fn covered_electrode_row_by_row() {
        for (size, current, expected) in [
            ("5/64 in", "59 A", 7),
            ("3/32 in", "61 A", 8),
            ("1/8 in", "120 A", 8),
            ("3.2 mm", "159 A", 8),
            ("5/32 in", "161 A", 10),
            ("3/16 in", "220 A", 10),
            ("1/4 in", "249 A", 10),
            ("5/16 in", "251 A", 11),
            ("8 mm", "550 A", 11),
        ] {
            let expected = (Some(expected), ShadeBasis::SizeAndCurrent);
            assert_eq!(shade("111", Some(size), current), expected, "{size} {current}");
        }
    }

    /// 29 CFR 1910.133(a)(5): GMAW and FCAW, GTAW, PAW; at shared ends the darker shade, which
    /// the table leaves open.
    #[test]
    fn wires_tig_and_plasma_row_by_row() {
        for (processes, current, expected) in [
            (&["114", "131", "132", "133", "135", "136", "138"][..], "59 A", 7),
            (&["114", "131", "132", "133", "135", "136", "138"], "60 A", 10),
            (&["114", "136", "135"], "100 A", 10),
            (&["114", "136", "135"], "200 A", 10),
            (&["114", "136", "135"], "500 A", 10),
            (&["141", "142", "143", "145"], "49 A", 8),
            (&["141", "142", "143", "145"], "50 A", 8),
            (&["141", "142", "143", "145"], "149 A", 8),
            (&["141"], "150 A", 10),
            (&["141"], "500 A", 10),
            (&["15"], "19 A", 6),
            (&["15"], "20 A", 8),
            (&["15"], "99 A", 8),
            (&["15"], "100 A", 10),
            (&["15"], "399 A", 10),
            (&["15"], "400 A", 11),
            (&["15"], "800 A", 11),
        ] {
            for process in processes {
                let expected = (Some(expected), ShadeBasis::Current);
                assert_eq!(shade(process, None, current), expected, "{process} {current}");
            }
        }
    }

    #[test]
    fn shared_ends_of_current_take_the_darker_shade() {
        for (current, expected) in [("60 A", 8), ("160 A", 10), ("250 A", 11)] {
            let expected = (Some(expected), ShadeBasis::SizeUnknown);
            assert_eq!(shade("111", None, current), expected, "{current}");
        }
    }

    #[test]
    fn size_and_current_that_disagree_give_the_darker_shade_and_say_so() {
        for (size, current, expected) in [
            ("1/8 in", "200 A", 10),
            ("3/16 in", "150 A", 10),
            ("2 mm", "60 A", 8),
            ("4 mm", "90 A", 10),
        ] {
            let expected = (Some(expected), ShadeBasis::DarkerOfTwo);
            assert_eq!(shade("111", Some(size), current), expected, "{size} {current}");
        }
    }

    #[test]
    fn outside_the_table_there_is_no_shade() {
        for (process, current) in
            [("111", "551 A"), ("136", "501 A"), ("141", "501 A"), ("15", "801 A")]
        {
            assert_eq!(shade(process, None, current), (None, ShadeBasis::AboveTable), "{process}");
        }
        for process in ["121", "122", "124", "125", "126", "151"] {
            assert_eq!(shade(process, None, "300 A"), (None, ShadeBasis::NotInTable), "{process}");
        }
    }
}
