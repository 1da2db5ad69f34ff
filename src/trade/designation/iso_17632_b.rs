//! ISO 17632-B, tubular wires by tensile strength and 27 J: `T 49 4 T5-1 C A U H5`.

use super::cursor::Cursor;
use super::facts::Facts;
use super::{DesignationError, iso_symbols_b as iso_b, iso_tubular_b};

/// As all tubular wires of the B systems, in the ordinary strengths.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    iso_tubular_b::parse(cursor, iso_b::STRENGTHS)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    const UP: &str = "PA PB PC PD PE PF PH H-L045 up";

    /// From memory; usability codes as AWS A5.20.
    #[test]
    fn designations_are_decoded() {
        for (text, expected, alloyed) in [
            (
                "T 49 4 T5-1 C A U H5",
                format!("flux-cored-wire; 490 MPa up; -; 27 J at -40 °C; {UP}; CO2; DCEP DCEN; 5 mL/100g; multiple; 136"),
                "-; unalloyed; as-welded",
            ),
            (
                "T 55 4 T1-1 M21 A-N2 H5",
                format!("flux-cored-wire; 550 MPa up; -; 27 J at -40 °C; {UP}; M21; DCEP; 5 mL/100g; multiple; 136"),
                "N2; low-alloy; as-welded",
            ),
            (
                "T 49 2 T1-0 C1 A",
                "flux-cored-wire; 490 MPa up; -; 27 J at -20 °C; PA PB PC none; C1; DCEP; -; multiple; 136".to_owned(),
                "-; unalloyed; as-welded",
            ),
            (
                "T 49 3 T8-1 N A H10",
                format!("self-shielded-flux-cored-wire; 490 MPa up; -; 27 J at -30 °C; {UP}; no gas; DCEN; 10 mL/100g; multiple; 114"),
                "-; unalloyed; as-welded",
            ),
            (
                "T 49 4 T15-0 M21 A H5",
                "metal-cored-wire; 490 MPa up; -; 27 J at -40 °C; PA PB PC none; M21; DC; 5 mL/100g; multiple; 138".to_owned(),
                "-; unalloyed; as-welded",
            ),
        ] {
            assert_eq!(read(text), expected, "{text}");
            assert_eq!(alloy(text), alloyed, "{text}");
            assert!(notes(text).iter().any(|note| note.contains("from memory")), "{text}");
        }
        assert!(notes("T 49 4 T5-1 C A U H5").iter().any(|note| note.starts_with("U: 47 J")));
    }

    #[test]
    fn refusals_say_where() {
        refused("T 49 4 P M21 1", 7, "P", "T and the usability code");
        refused("T 49 4 T16-1 M21 A", 9, "6-1", "hyphen before the position digit");
        refused("T 49 4 T1-2 M21 A", 10, "2", "position digit");
        refused("T 49 4 T8-1 C1 A", 12, "C1", "T8 shields itself");
        refused("T 49 4 T1-1 NO A", 12, "NO", "a shielding gas");
        refused("T 49 4 T1-1 M21", 15, "end of text", "condition of the weld metal");
        refused("T 49 1 T1-1 M21 A", 5, "1", "impact symbol");
        refused("T 49 4 T4-1 N A", 10, "1", "0, the only position digit");
        refused("T 49 4 T1-1 M21 A H4", 18, "H4", "H5");
    }
}
