//! ISO 18276-B, high-strength tubular wires by tensile strength and 27 J.

use super::cursor::Cursor;
use super::facts::Facts;
use super::{DesignationError, iso_symbols_b as iso_b, iso_tubular_b};

/// As all tubular wires of the B systems (from memory), in the high strengths.
pub(super) fn parse(cursor: &mut Cursor<'_>) -> Result<Facts, DesignationError> {
    iso_tubular_b::parse(cursor, iso_b::HIGH_STRENGTHS)
}

#[cfg(test)]
mod tests {
    use crate::trade::designation::tests::{alloy, notes, read, refused};

    /// From memory: strength symbols, and that the form is the one of ISO 17632-B.
    #[test]
    fn designations_are_decoded() {
        let text = "T 69 4 T1-1 M21 A-N3M2 H5";
        assert_eq!(
            read(text),
            "flux-cored-wire; 690 MPa up; -; 27 J at -40 °C; PA PB PC PD PE PF PH H-L045 up; M21; \
             DCEP; 5 mL/100g; multiple; 136"
        );
        assert_eq!(alloy(text), "N3M2; low-alloy; as-welded");
        assert!(notes(text).iter().any(|note| note.contains("from memory")));
        for (symbol, mpa) in [("59", 590), ("62", 620), ("76", 760), ("78", 780), ("83", 830)] {
            let text = format!("T {symbol} 2 T15-0 M21 P-G");
            assert!(read(&text).contains(&format!("; {mpa} MPa up; -; ")), "{text}");
            assert_eq!(alloy(&text), "G; -; post-weld-heat-treated");
        }
    }

    #[test]
    fn refusals_say_where() {
        refused("ISO 18276-B T 49 4 T1-1 M21 A", 14, "49", "strength symbol");
        refused("T 69 4 T1-1 M21 A-", 18, "end of text", "alloy symbol");
        refused("T 69 4 T1-1 M21 A H4", 18, "H4", "H5");
    }
}
