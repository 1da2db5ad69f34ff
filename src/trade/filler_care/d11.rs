//! Care of low-hydrogen covered electrodes by AWS D1.1. All figures are from memory and have to be compared
//! with the printed code.

use super::{BakingRule, CareRules, ExposureLimit};
use crate::{
    quantity::{DurationKind, Kind, Quantity, Range},
    trade::{Designation, designation::Standard},
};

/// Where the figures stand (from memory).
const SOURCE: &str = "AWS D1.1/D1.1M:2020, 7.3.2 and Table 7.1, column A (from memory)";

/// Covering digits of low-hydrogen classes.
const LOW_HYDROGEN: &[&str] = &["15", "16", "18", "28", "48", "45"];

/// What AWS D1.1 allows for an electrode of AWS A5.1 or A5.5 that it calls low-hydrogen; `None` for any other
/// filler. From memory: Table 7.1, column A, allows 4 h in the air for A5.1 and E70 of A5.5, 9 h with the
/// supplement `R` and for E7018M, 2 h for E80, 1 h for E90, half an hour above; 7.3.2 asks for a holding oven
/// of 120 °C at least, which restores what was exposed for less than that after 4 h, for a bake of 2 h at 260
/// to 430 °C (A5.1) or 1 h at 370 to 430 °C (A5.5), and allows one bake.
#[must_use]
pub fn d11_care(designation: &Designation) -> Option<CareRules> {
    let plain = match designation.standard() {
        Standard::AwsA51 => true,
        Standard::AwsA55 => false,
        _ => return None,
    };
    let class = Class::of(designation.text())?;
    let hours = match class.ksi {
        70 if class.resists_moisture || class.military && plain => "9 h",
        70 => "4 h",
        80 => "2 h",
        90 => "1 h",
        100.. => "0.5 h",
        _ => return None,
    };
    let (least, time) = if plain { ("260 °C", "2 h") } else { ("370 °C", "1 h") };
    Some(CareRules {
        source: SOURCE.to_owned(),
        hydrogen: None,
        bake_before_first_use: false,
        baking: Some(BakingRule {
            temperature: Range::new(Some(read(least)?), Some(read("430 °C")?)).ok()?,
            time: Range::at_least(read(time)?),
            times: 1,
        }),
        holding: Some(Range::at_least(read("120 °C")?)),
        holding_restores_after: Some(read("4 h")?),
        exposure: vec![ExposureLimit {
            longest: read::<DurationKind>(hours)?,
            highest_humidity: None,
            hydrogen: None,
        }],
    })
}

fn read<K: Kind>(text: &str) -> Option<Quantity<K>> {
    text.parse().ok()
}

/// What the table goes by.
struct Class {
    ksi: u32,
    military: bool,
    resists_moisture: bool,
}

impl Class {
    /// Strength in ksi, the covering and what stands behind, of a class such as `E7018-1 H4R`; `None` where the
    /// covering is not low-hydrogen.
    fn of(text: &str) -> Option<Self> {
        let class = text.get(text.rfind('E')?..)?;
        let digits: String = class
            .strip_prefix('E')?
            .trim_start()
            .chars()
            .take_while(char::is_ascii_digit)
            .collect();
        // Strength, one digit for the position, one with it for the covering.
        let (strength, covering) = digits.split_at_checked(digits.len().checked_sub(2)?)?;
        if !LOW_HYDROGEN.contains(&covering) {
            return None;
        }
        let ksi = match strength.parse().ok()? {
            49 => 70,
            55 => 80,
            62 => 90,
            69 => 100,
            76 => 110,
            83 => 120,
            ksi => ksi,
        };
        let rest = class.split_once(digits.as_str())?.1.trim_end();
        Some(Self { ksi, military: rest.starts_with('M'), resists_moisture: rest.ends_with('R') })
    }
}
