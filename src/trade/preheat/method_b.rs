//! Minimum preheat by EN 1011-2 Method B (CET), and its inverse.

use super::PreheatError;
use crate::{
    quantity::{Cet, HeatInput, HydrogenContent, QuantityError, Stress, Temperature, Thickness},
    trade::{
        Composition, SteelFamily, Validity, coded, composition::CET_RANGE, formula,
        rounding::up_to_step, scope::within,
    },
};

formula! {
    /// Minimum preheat by CET.
    pub const METHOD_B {
        name: "preheat-method-b",
        equation: "Tp = 697*CET + 160*tanh(d/35) + 62*HD^0.35 + (53*CET - 32)*Q - 328; CET in %, d in \
                   mm (plate thickness, not combined thickness), HD in mL/100 g, Q in kJ/mm, Tp in \
                   °C; SEW 088 has 700 and -330 for 697 and -328",
        source: "EN 1011-2:2001, C.3, equation C.8 (secondary: an engineering article of 2020 that \
                 quotes DIN EN 1011-2); SEW 088 Beiblatt 1 (Verbindungen im Stahl- und Verbundbau, p. \
                 368)",
        validity: "CET 0.20 to 0.50 %; d 10 to 90 mm; HD 1 to 20 mL/100 g; Q 0.5 to 4.0 kJ/mm; yield \
                   strength to 1000 N/mm2; composition as for CET (ranges from memory); dry joint at \
                   5 °C or more. For butt welds with residual stress at yield level: more for high \
                   restraint, stress raisers, roots of thick welds, tacks under 50 mm; less is never \
                   taken here",
        confidence: Secondary,
    }
}

formula! {
    /// Heat input at which a given preheat is enough.
    pub const HEAT_INPUT_FOR_PREHEAT {
        name: "heat-input-for-preheat-method-b",
        equation: "Q = (697*CET + 160*tanh(d/35) + 62*HD^0.35 - 328 - Tp) / (32 - 53*CET); symbols of \
                   preheat-method-b",
        source: "preheat-method-b, solved for Q",
        validity: as METHOD_B,
        confidence: Secondary,
    }
}

/// Steps in which a minimum preheat is stated, in °C.
const STEP: f64 = 5.0;
/// Valid heat input in kJ/mm.
const HEAT_INPUT: (f64, f64) = (0.5, 4.0);

coded! {
    /// Which printed set of constants is used.
    pub enum MethodBConstants: "constants of the CET method" {
        /// 697 and -328.
        En1011 = "EN 1011-2",
        /// 700 and -330.
        Sew088 = "SEW 088",
    }
}

coded! {
    /// A condition of the method that was not checked, for its value was not given.
    pub enum NotChecked: "condition not checked" {
        /// Elements within their ranges.
        Composition = "composition",
        /// Yield strength up to 1000 N/mm².
        YieldStrength = "yield-strength",
    }
}

/// Inputs of the method.
#[derive(Debug, Clone, PartialEq)]
pub struct MethodB {
    /// What the metal is.
    pub metal: SteelFamily,
    /// Carbon equivalent: see [`governing_cet`].
    pub cet: Cet,
    /// Thickness of the thicker plate.
    pub thickness: Thickness,
    /// Diffusible hydrogen; the ceiling of a class.
    pub hydrogen: HydrogenContent,
    /// Heat input, thermal efficiency counted; the lowest that may occur.
    pub heat_input: HeatInput,
    /// Composition, to check its ranges.
    pub composition: Option<Composition>,
    /// Yield strength.
    pub yield_strength: Option<Stress>,
    /// Temperature of the shop and of the unheated plate.
    pub ambient: Temperature,
    /// Set of constants.
    pub constants: MethodBConstants,
}

/// What a calculated preheat asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PreheatNeed {
    /// The calculated temperature is not above ambient: no preheat by calculation; the joint has
    /// to be dry.
    NoneCalculated,
    /// Preheat to this at least.
    AtLeast(Temperature),
}

/// Minimum preheat.
#[derive(Debug, Clone, PartialEq)]
pub struct MethodBPreheat {
    /// As calculated; may lie below ambient.
    pub calculated: Temperature,
    /// What follows, rounded up to 5 °C.
    pub need: PreheatNeed,
    /// Conditions of the method that were not checked.
    pub not_checked: Vec<NotChecked>,
}

/// Heat input at which a preheat is enough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HeatInputNeed {
    /// Any heat input of the method's range does.
    AnyInRange,
    /// This heat input or more; exact, to be rounded up where it is stated.
    AtLeast(HeatInput),
    /// None of the method's range does: preheat more.
    NoneInRange,
}

impl MethodB {
    /// All of the sum that does not depend on heat input, in °C.
    fn without_heat(&self) -> f64 {
        let (per_cet, constant) = match self.constants {
            MethodBConstants::En1011 => (697.0, -328.0),
            MethodBConstants::Sew088 => (700.0, -330.0),
        };
        per_cet * self.cet.percent()
            + 160.0 * (self.thickness.mm() / 35.0).tanh()
            + 62.0 * self.hydrogen.ml_per_100g().powf(0.35)
            + constant
    }

    /// What a kJ/mm adds, in °C; below zero in all of the range.
    fn per_heat(&self) -> f64 {
        53.0 * self.cet.percent() - 32.0
    }

    /// Refuses inputs outside the method's validity, heat input left aside; lists what could not be
    /// checked.
    pub(super) fn checked(&self) -> Result<Vec<NotChecked>, PreheatError> {
        self.metal.low_alloy_only()?;
        within(self.cet, 0.20, 0.50)?;
        within(self.thickness, 10.0, 90.0)?;
        within(self.hydrogen, 1.0, 20.0)?;
        within(self.ambient, 5.0, 60.0)?;
        let mut not_checked = Vec::new();
        match self.composition.as_ref().map(|steel| CET_RANGE.judge(steel)) {
            Some(Validity::Outside(limits)) => return Err(PreheatError::Composition(limits)),
            Some(Validity::Inside) => {}
            Some(Validity::Unknown(_)) | None => not_checked.push(NotChecked::Composition),
        }
        match self.yield_strength {
            Some(strength) => within(strength, 0.0, 1_000.0)?,
            None => not_checked.push(NotChecked::YieldStrength),
        }
        Ok(not_checked)
    }

    /// Heat inputs that the method is valid for, both ends included.
    ///
    /// # Errors
    /// None in practice; the ends are constants.
    pub fn heat_inputs() -> Result<(HeatInput, HeatInput), QuantityError> {
        Ok((HeatInput::computed(HEAT_INPUT.0)?, HeatInput::computed(HEAT_INPUT.1)?))
    }

    /// Refuses a heat input outside the method's validity.
    pub(super) fn heat_input_checked(&self) -> Result<(), PreheatError> {
        Ok(within(self.heat_input, HEAT_INPUT.0, HEAT_INPUT.1)?)
    }
}

/// Minimum preheat, [`METHOD_B`].
///
/// | symbol | input or result | unit |
/// |---|---|---|
/// | `CET` | `cet` | % |
/// | `d` | `thickness` | mm |
/// | `HD` | `hydrogen` | mL/100 g |
/// | `Q` | `heat_input` | kJ/mm |
/// | `Tp` | `calculated` | °C |
///
/// # Errors
/// [`PreheatError`] names the input outside the method's validity.
pub fn method_b_preheat(case: &MethodB) -> Result<MethodBPreheat, PreheatError> {
    let not_checked = case.checked()?;
    case.heat_input_checked()?;
    let celsius = case.without_heat() + case.per_heat() * case.heat_input.kj_per_mm();
    let calculated = Temperature::computed(celsius)?;
    let need = if calculated.at_most(case.ambient) {
        PreheatNeed::NoneCalculated
    } else {
        PreheatNeed::AtLeast(Temperature::computed(up_to_step(celsius, STEP))?)
    };
    Ok(MethodBPreheat { calculated, need, not_checked })
}

/// Heat input at which a preheat is enough, [`HEAT_INPUT_FOR_PREHEAT`]. The heat input of the case is
/// not used.
///
/// # Errors
/// As [`method_b_preheat`].
pub fn heat_input_for_preheat(
    case: &MethodB,
    preheat: Temperature,
) -> Result<HeatInputNeed, PreheatError> {
    case.checked()?;
    let needed = (case.without_heat() - preheat.celsius()) / -case.per_heat();
    let needed = HeatInput::computed(needed)?;
    let (least, most) = MethodB::heat_inputs()?;
    Ok(if needed.at_most(least) {
        HeatInputNeed::AnyInRange
    } else if needed.at_most(most) {
        HeatInputNeed::AtLeast(needed)
    } else {
        HeatInputNeed::NoneInRange
    })
}

/// The CET that governs: that of the parent metal, or that of the weld metal plus 0.03 % where
/// higher (EN 1011-2:2001, C.3; from memory).
///
/// # Errors
/// [`QuantityError::NotFinite`] on overflow.
pub fn governing_cet(parent: Cet, weld_metal: Cet) -> Result<Cet, QuantityError> {
    Ok(parent.max(Cet::computed(weld_metal.percent() + 0.03)?))
}
