//! Current above which a solid wire sprays.

use super::{
    Advice, AdvisedRange,
    row::is_one_of,
    size::{W08, W09, W12, W14, W16},
};
use crate::{
    quantity::{Diameter, Range},
    trade::{Confidence, coded},
};

coded! {
    /// Wire metal and gas of the published spray transition currents.
    pub enum SprayMetal: "wire metal and gas" {
        /// Unalloyed steel in 98 % argon, 2 % oxygen.
        Steel98Argon2Oxygen = "steel-98ar-2o2",
        /// Stainless steel in 99 % argon, 1 % oxygen.
        Stainless99Argon1Oxygen = "stainless-99ar-1o2",
        /// Aluminium in argon.
        AluminiumArgon = "aluminium-ar",
        /// Deoxidised copper in argon.
        CopperArgon = "deoxidised-copper-ar",
        /// Silicon bronze in argon.
        SiliconBronzeArgon = "silicon-bronze-ar",
    }
}

/// Metal and gas, size class, lowest spray current.
type Row = (SprayMetal, &'static [&'static str], &'static str);

const SOURCE: &str = "MIG Welding Handbook (industry handbook), Table 1-2";
const STATEMENT: &str = "Below this current the drops are globular. More carbon dioxide raises it; \
                         above about 15 % carbon dioxide a steel wire has no clear transition.";

const ROWS: &[Row] = &[
    (SprayMetal::Steel98Argon2Oxygen, W08, "150 A"),
    (SprayMetal::Steel98Argon2Oxygen, W09, "165 A"),
    (SprayMetal::Steel98Argon2Oxygen, W12, "220 A"),
    (SprayMetal::Steel98Argon2Oxygen, W14, "240 A"),
    (SprayMetal::Steel98Argon2Oxygen, W16, "275 A"),
    (SprayMetal::Stainless99Argon1Oxygen, W09, "170 A"),
    (SprayMetal::Stainless99Argon1Oxygen, W12, "225 A"),
    (SprayMetal::Stainless99Argon1Oxygen, W16, "285 A"),
    (SprayMetal::AluminiumArgon, W08, "95 A"),
    (SprayMetal::AluminiumArgon, W12, "135 A"),
    (SprayMetal::AluminiumArgon, W16, "180 A"),
    (SprayMetal::CopperArgon, W09, "180 A"),
    (SprayMetal::CopperArgon, W12, "210 A"),
    (SprayMetal::CopperArgon, W16, "310 A"),
    (SprayMetal::SiliconBronzeArgon, W09, "165 A"),
    (SprayMetal::SiliconBronzeArgon, W12, "205 A"),
    (SprayMetal::SiliconBronzeArgon, W16, "270 A"),
];

/// Lowest current of the spray arc; `None` for a size the table does not list.
///
/// The table is in inch sizes; a metric size gets the value of its size class.
#[must_use]
pub fn spray_transition(metal: SprayMetal, diameter: Diameter) -> Option<Advice> {
    let mut rows = ROWS.iter().filter(|(of, ..)| *of == metal);
    let (_, _, current) = rows.find(|(_, sizes, _)| is_one_of(diameter, sizes))?;
    Some(Advice {
        range: AdvisedRange::Current(Range::at_least(current.parse().ok()?)),
        statement: STATEMENT,
        source: SOURCE,
        confidence: Confidence::TextRead,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// MIG Welding Handbook (industry handbook), Table 1-2.
    #[test]
    fn published_transition_currents() {
        let printed = [
            (SprayMetal::Steel98Argon2Oxygen, "0.030 in", "at least 150 A"),
            (SprayMetal::Steel98Argon2Oxygen, "0.035 in", "at least 165 A"),
            (SprayMetal::Steel98Argon2Oxygen, "0.045 in", "at least 220 A"),
            (SprayMetal::Steel98Argon2Oxygen, "0.052 in", "at least 240 A"),
            (SprayMetal::Steel98Argon2Oxygen, "0.062 in", "at least 275 A"),
            (SprayMetal::Stainless99Argon1Oxygen, "0.035 in", "at least 170 A"),
            (SprayMetal::Stainless99Argon1Oxygen, "0.045 in", "at least 225 A"),
            (SprayMetal::Stainless99Argon1Oxygen, "0.062 in", "at least 285 A"),
            (SprayMetal::AluminiumArgon, "0.030 in", "at least 95 A"),
            (SprayMetal::AluminiumArgon, "0.046 in", "at least 135 A"),
            (SprayMetal::AluminiumArgon, "0.062 in", "at least 180 A"),
            (SprayMetal::CopperArgon, "0.035 in", "at least 180 A"),
            (SprayMetal::CopperArgon, "0.045 in", "at least 210 A"),
            (SprayMetal::CopperArgon, "0.062 in", "at least 310 A"),
            (SprayMetal::SiliconBronzeArgon, "0.035 in", "at least 165 A"),
            (SprayMetal::SiliconBronzeArgon, "0.045 in", "at least 205 A"),
            (SprayMetal::SiliconBronzeArgon, "0.062 in", "at least 270 A"),
        ];
        for (metal, size, current) in printed {
            let advice = spray_transition(metal, size.parse().unwrap()).unwrap();
            let AdvisedRange::Current(range) = advice.range else { panic!("{advice:?}") };
            assert_eq!(range.amounts().to_string(), current, "{metal} {size}");
        }
    }

    #[test]
    fn a_size_outside_the_table_has_no_transition() {
        let size = "2.4 mm".parse().unwrap();
        assert_eq!(spray_transition(SprayMetal::Steel98Argon2Oxygen, size), None);
    }
}
