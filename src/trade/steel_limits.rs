//! What standards ask of structural steel and of the temperature between runs: greatest carbon equivalent of
//! a delivery, highest interpass temperature.
//!
//! Sources of an interpass maximum differ and are shown side by side; what the steelmaker states goes before all.

use super::{OutOfRange, coded, formula, scope::positive};
use crate::quantity::{
    CeIiw, Quantity, QuantityError, Span, Temperature, TemperatureKind, Thickness, UnitSystem,
};

formula! {
    /// Greatest carbon equivalent of a delivered plate.
    pub const GREATEST_CEV {
        name: "greatest-cev",
        equation: "by grade and nominal thickness: up to 30, 40, 150, 250, 400 mm",
        source: "EN 10025-2, Table 6, from memory; edition and thickness breaks not confirmed",
        validity: "CE(IIW) of the ladle analysis; 0.02 more with the option of 0.25 to 0.40 % Cu; 0.02 more at \
                   Si up to 0.030 % and 0.01 more at Si up to 0.25 % for silicon-controlled S275 and S355 \
                   (EN 10025-2:2004, 7.2.3 to 7.2.5, read); the limits on each element hold besides",
        confidence: Memory,
    }
}

formula! {
    /// Highest interpass temperature of AWS D1.1 for quenched and tempered steel.
    pub const INTERPASS_AWS {
        name: "interpass-maximum-aws-d1-1",
        equation: "400 °F (200 °C) up to 1 1/2 in (38 mm), 450 °F (230 °C) above",
        source: "AWS D1.1, from memory",
        validity: "quenched and tempered steel (A514, A517); preheat and interpass alike; for other prequalified \
                   steel the table gives minima and no general maximum",
        confidence: Memory,
    }
}

formula! {
    /// Highest interpass temperature of a public specification of the US Navy.
    pub const INTERPASS_US_NAVY {
        name: "interpass-maximum-us-navy",
        equation: "quenched and tempered carbon steel 300 °F, austenitic steel 350 °F",
        source: "NAVSEA S9074-AR-GIB-010/278, Table IV",
        validity: "work under that specification",
        confidence: TextRead,
    }
}

formula! {
    /// Highest interpass temperature usual with EN 1011-2.
    pub const INTERPASS_PRACTICE {
        name: "interpass-maximum-practice",
        equation: "normalised or thermomechanical structural steel 250 °C; quenched and tempered 200 to 225 °C",
        source: "practice with EN 1011-2, from memory",
        validity: "where the steelmaker states none: what the steelmaker states governs",
        confidence: Memory,
    }
}

coded! {
    /// Strength grade of EN 10025-2.
    pub enum StructuralGrade: "structural grade" {
        /// Yield strength 235 MPa.
        S235 = "S235",
        /// Yield strength 275 MPa.
        S275 = "S275",
        /// Yield strength 355 MPa.
        S355 = "S355",
        /// Yield strength 450 MPa; long products.
        S450 = "S450",
    }
}

coded! {
    /// Condition of a steel, as far as the temperature between runs goes by it.
    pub enum SteelCondition: "steel condition" {
        /// As rolled, normalised or thermomechanically rolled structural steel.
        Structural = "normalised-or-thermomechanical",
        /// Quenched and tempered.
        QuenchedAndTempered = "quenched-and-tempered",
        /// Austenitic stainless steel.
        Austenitic = "austenitic",
    }
}

/// Why there is no limit to tell.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SteelLimitError {
    /// The table does not speak of it.
    #[error("{0}")]
    NotPrinted(&'static str),
    /// A thickness that is none.
    #[error(transparent)]
    OutOfRange(#[from] Box<OutOfRange>),
    /// A number that does not fit.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
}

/// Upper ends of the thickness columns in mm.
const COLUMNS: [f64; 5] = [30.0, 40.0, 150.0, 250.0, 400.0];

const fn greatest(grade: StructuralGrade) -> &'static [f64] {
    match grade {
        StructuralGrade::S235 => &[0.35, 0.35, 0.38, 0.40, 0.40],
        StructuralGrade::S275 => &[0.40, 0.40, 0.42, 0.44, 0.44],
        StructuralGrade::S355 => &[0.45, 0.47, 0.47, 0.49, 0.49],
        StructuralGrade::S450 => &[0.47, 0.49, 0.49],
    }
}

/// Greatest carbon equivalent of a plate of this grade and nominal thickness, [`GREATEST_CEV`].
///
/// # Errors
/// [`SteelLimitError::NotPrinted`] above the last column, [`SteelLimitError::OutOfRange`] for a thickness
/// not above zero.
pub fn greatest_cev(
    grade: StructuralGrade,
    thickness: Thickness,
) -> Result<CeIiw, SteelLimitError> {
    positive(thickness)?;
    for (end, value) in COLUMNS.into_iter().zip(greatest(grade)) {
        if thickness.at_most(Thickness::computed(end)?) {
            return Ok(CeIiw::computed(*value)?);
        }
    }
    Err(SteelLimitError::NotPrinted("the table has no value for this grade and thickness"))
}

/// Highest interpass temperature by AWS D1.1, [`INTERPASS_AWS`], in the columns the code is applied in.
///
/// # Errors
/// [`SteelLimitError::NotPrinted`] for any but quenched and tempered steel, [`SteelLimitError::OutOfRange`]
/// for a thickness not above zero.
pub fn interpass_by_aws(
    condition: SteelCondition,
    thickness: Thickness,
    columns: UnitSystem,
) -> Result<Temperature, SteelLimitError> {
    positive(thickness)?;
    if condition != SteelCondition::QuenchedAndTempered {
        return Err(SteelLimitError::NotPrinted(
            "the code prints a maximum for quenched and tempered steel only",
        ));
    }
    let (end, thin, thick) = match columns {
        UnitSystem::Metric => ("38 mm", "200 °C", "230 °C"),
        UnitSystem::Us => ("1.5 in", "400 °F", "450 °F"),
    };
    let highest = if thickness.at_most(end.parse()?) { thin } else { thick };
    Ok(highest.parse()?)
}

/// Highest interpass temperature by [`INTERPASS_US_NAVY`].
///
/// # Errors
/// [`SteelLimitError::NotPrinted`] for structural steel.
pub fn interpass_by_us_navy(condition: SteelCondition) -> Result<Temperature, SteelLimitError> {
    let fahrenheit = match condition {
        SteelCondition::QuenchedAndTempered => 300,
        SteelCondition::Austenitic => 350,
        SteelCondition::Structural => {
            return Err(SteelLimitError::NotPrinted("the table names no such steel"));
        }
    };
    Ok(Quantity::entered(fahrenheit.into(), "°F")?)
}

/// Highest interpass temperature by [`INTERPASS_PRACTICE`]; a span where practice differs.
///
/// # Errors
/// [`SteelLimitError::NotPrinted`] for austenitic steel.
pub fn interpass_by_practice(
    condition: SteelCondition,
) -> Result<Span<TemperatureKind>, SteelLimitError> {
    match condition {
        SteelCondition::Structural => Ok(Span::one("250 °C".parse()?)),
        SteelCondition::QuenchedAndTempered => {
            super::corners::span_of("200 °C".parse(), "225 °C".parse()).map_err(Into::into)
        }
        SteelCondition::Austenitic => {
            Err(SteelLimitError::NotPrinted("EN 1011-2 is for ferritic steel"))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// EN 10025-2, Table 6, from memory.
    #[test]
    fn carbon_equivalents_by_grade_and_thickness() {
        use StructuralGrade::{S235, S275, S355, S450};
        for (grade, thickness, expected) in [
            (S235, "30 mm", "0.35 %"),
            (S235, "40 mm", "0.35 %"),
            (S235, "40.1 mm", "0.38 %"),
            (S235, "200 mm", "0.4 %"),
            (S275, "12 mm", "0.4 %"),
            (S275, "150 mm", "0.42 %"),
            (S275, "151 mm", "0.44 %"),
            (S355, "30 mm", "0.45 %"),
            (S355, "30.1 mm", "0.47 %"),
            (S355, "400 mm", "0.49 %"),
            (S450, "25 mm", "0.47 %"),
            (S450, "150 mm", "0.49 %"),
        ] {
            let got = greatest_cev(grade, thickness.parse().unwrap()).unwrap();
            assert_eq!(got, expected.parse().unwrap(), "{grade} {thickness}");
        }
        for (grade, thickness) in [(S235, "401 mm"), (S450, "151 mm")] {
            let none = greatest_cev(grade, thickness.parse().unwrap());
            assert!(matches!(none, Err(SteelLimitError::NotPrinted(_))), "{grade} {thickness}");
        }
        assert!(greatest_cev(S235, Thickness::computed(0.0).unwrap()).is_err());
    }

    /// NAVSEA S9074-AR-GIB-010/278, Table IV (read): 300 and 350 °F. The others from memory.
    #[test]
    fn interpass_temperatures_by_source() {
        use SteelCondition::{Austenitic, QuenchedAndTempered, Structural};
        let navy = |condition| interpass_by_us_navy(condition).unwrap();
        assert_eq!(navy(QuenchedAndTempered), "300 °F".parse().unwrap());
        assert_eq!(navy(Austenitic), "350 °F".parse().unwrap());
        assert!(interpass_by_us_navy(Structural).is_err());
        for (thickness, columns, expected) in [
            ("38 mm", UnitSystem::Metric, "200 °C"),
            ("38.1 mm", UnitSystem::Metric, "230 °C"),
            ("38.1 mm", UnitSystem::Us, "400 °F"),
            ("1.51 in", UnitSystem::Us, "450 °F"),
        ] {
            let got = interpass_by_aws(QuenchedAndTempered, thickness.parse().unwrap(), columns);
            assert_eq!(got, Ok(expected.parse().unwrap()), "{thickness}");
        }
        let plate = "20 mm".parse().unwrap();
        assert!(interpass_by_aws(Structural, plate, UnitSystem::Metric).is_err());
        let structural = interpass_by_practice(Structural).unwrap();
        assert_eq!(structural.single(), Some("250 °C".parse().unwrap()));
        let tempered = interpass_by_practice(QuenchedAndTempered).unwrap();
        assert_eq!(tempered.amounts().to_string(), "200 °C to 225 °C");
        assert!(interpass_by_practice(Austenitic).is_err());
    }
}
