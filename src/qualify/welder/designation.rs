//! The designation of a welder's qualification, as certificates print it.

use super::{WelderTest, WelderVariable};
use crate::{
    qualify::{Missing, Whose, record::ProductForm},
    quantity::{Amount, Kind, ThicknessKind, UnitSystem},
    trade::{Coded, JointKind},
};

/// The designation by ISO 9606-1, clause 11: `ISO 9606-1 135 P FW FM1 S t10 PB ml`. The order of the fields
/// is from memory.
///
/// # Errors
/// The fact that the record does not state.
pub fn designation(test: &WelderTest) -> Result<String, Missing> {
    let missing = |variable: WelderVariable| Missing::new(Whose::Record, variable.to_string());
    let weld = test.weld.ok_or_else(|| missing(WelderVariable::Weld))?;
    let product = match test.product.ok_or_else(|| missing(WelderVariable::Product))? {
        ProductForm::Pipe | ProductForm::HollowSection => "T",
        _ => "P",
    };
    let (sign, size_of) = match weld {
        JointKind::Butt => ("s", WelderVariable::Deposit),
        JointKind::Fillet => ("t", WelderVariable::Thickness),
    };
    let mut parts = vec![
        "ISO 9606-1".to_owned(),
        test.process.code().to_owned(),
        product.to_owned(),
        match weld {
            JointKind::Butt => "BW",
            JointKind::Fillet => "FW",
        }
        .to_owned(),
        code(test.filler_group, missing(WelderVariable::FillerGroup))?,
        code(test.filler_type, missing(WelderVariable::FillerType))?,
        format!("{sign}{}", millimetres(test.size(size_of).ok_or_else(|| missing(size_of))?)),
    ];
    if product == "T" {
        let diameter = test.size(WelderVariable::OutsideDiameter);
        let diameter = diameter.ok_or_else(|| missing(WelderVariable::OutsideDiameter))?;
        parts.push(format!("D{}", millimetres(diameter)));
    }
    let positions = test.words(WelderVariable::Position);
    if positions.is_empty() {
        return Err(missing(WelderVariable::Position));
    }
    parts.push(positions.join("/"));
    parts.push(match weld {
        JointKind::Butt => code(test.backing, missing(WelderVariable::Backing))?.replace('-', " "),
        JointKind::Fillet => code(test.layers, missing(WelderVariable::Layers))?,
    });
    Ok(parts.join(" "))
}

fn code<T: Coded>(value: Option<T>, missing: Missing) -> Result<String, Missing> {
    value.map(|value| value.code().to_owned()).ok_or(missing)
}

fn millimetres(amount: Amount) -> String {
    let unit = ThicknessKind::INFO.answer_unit(UnitSystem::Metric);
    amount.written_in(unit, crate::quantity::Rounding::Nearest).normalize().to_string()
}
