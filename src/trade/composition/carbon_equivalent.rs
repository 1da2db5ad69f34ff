//! Carbon equivalents, each with its formula.

use super::{
    Bounds, Composition, Element,
    Element::{B, C, Cr, Cu, Mn, Mo, Nb, Ni, Si, V},
    Validity, validity,
};
use crate::{
    quantity::{
        CeIiwKind, CeSiliconKind, CenKind, CetKind, Kind, PcmKind, Quantity, QuantityError,
    },
    trade::formula,
};

formula! {
    /// Carbon equivalent of the IIW.
    pub const CARBON_EQUIVALENT_IIW {
        name: "ce-iiw",
        equation: "CE = C + Mn/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15; mass percent",
        source: "EN 1011-2:2001, C.2; EN 10025-1:2004, 7.2.3 (as CEV); API 5L",
        validity: "unalloyed and low-alloy ferritic steel; best above some 0.12 % C (API 5L takes Pcm \
                   below); for EN 1011-2 Method A C 0.05 to 0.25, Si to 0.8, Mn to 1.7, Cr to 0.9, Cu \
                   to 1.0, Ni to 2.5, Mo to 0.75, V to 0.20 % (from memory)",
        confidence: Secondary,
    }
}

formula! {
    /// Carbon equivalent with silicon.
    pub const CARBON_EQUIVALENT_WITH_SILICON {
        name: "ce-with-silicon",
        equation: "CE = C + (Mn + Si)/6 + (Cr + Mo + V)/5 + (Ni + Cu)/15; mass percent",
        source: "AWS D1.1, annex on preheat, hardness control of the heat-affected zone (secondary: \
                 TWI technical FAQ)",
        validity: "as ce-iiw",
        confidence: Secondary,
    }
}

formula! {
    /// Carbon equivalent CET.
    pub const CARBON_EQUIVALENT_CET {
        name: "cet",
        equation: "CET = C + (Mn + Mo)/10 + (Cr + Cu)/20 + Ni/40; mass percent",
        source: "EN 1011-2:2001, C.3 (secondary: a technical note for plate)",
        validity: "C 0.05 to 0.32, Si to 0.8, Mn 0.5 to 1.9, Cr to 1.5, Cu to 0.7, Mo to 0.75, Nb to \
                   0.06, Ni to 2.5, Ti to 0.12, V to 0.18, B to 0.005 % (from memory)",
        confidence: Secondary,
    }
}

formula! {
    /// Carbon equivalent Pcm.
    pub const CARBON_EQUIVALENT_PCM {
        name: "pcm",
        equation: "Pcm = C + Si/30 + (Mn + Cu + Cr)/20 + Ni/60 + Mo/15 + V/10 + 5*B; mass percent",
        source: "Ito and Bessyo 1968; API 5L; AWS D1.1",
        validity: "unalloyed and low-alloy ferritic steel, C to some 0.12 % (API 5L; AWS D1.1 uses it in general \
                   for hydrogen control), Mn to 1.85 % (API 5L, from memory); Si to 0.60, Cu to 0.50, Ni \
                   and Cr to 1.20, Mo to 0.70, V to 0.12, B to 0.005 % (Ito and Bessyo, from memory)",
        confidence: Secondary,
    }
}

formula! {
    /// Carbon equivalent CEN.
    pub const CARBON_EQUIVALENT_CEN {
        name: "cen",
        equation: "CEN = C + A*[Si/24 + Mn/6 + Cu/15 + Ni/20 + (Cr + Mo + Nb + V)/5 + 5*B], A = 0.75 + \
                   0.25*tanh[20*(C - 0.12)]; mass percent",
        source: "Yurioka et al., Welding Journal 62(6), 1983 (abstract)",
        validity: "steels of 0.02 to 0.26 % C were tested; unalloyed and low-alloy ferritic steel: Mn, Ni, Cr \
                   and Mo to 5 % each (EN 10027-1, from memory)",
        confidence: Secondary,
    }
}

/// Weight of each element in a sum.
type Weights = &'static [(Element, f64)];

const IIW: Weights = &[
    (C, 1.0),
    (Mn, 1.0 / 6.0),
    (Cr, 0.2),
    (Mo, 0.2),
    (V, 0.2),
    (Ni, 1.0 / 15.0),
    (Cu, 1.0 / 15.0),
];
const WITH_SILICON: Weights = &[
    (C, 1.0),
    (Mn, 1.0 / 6.0),
    (Si, 1.0 / 6.0),
    (Cr, 0.2),
    (Mo, 0.2),
    (V, 0.2),
    (Ni, 1.0 / 15.0),
    (Cu, 1.0 / 15.0),
];
const CET: Weights = &[(C, 1.0), (Mn, 0.1), (Mo, 0.1), (Cr, 0.05), (Cu, 0.05), (Ni, 0.025)];
const PCM: Weights = &[
    (C, 1.0),
    (Si, 1.0 / 30.0),
    (Mn, 0.05),
    (Cu, 0.05),
    (Cr, 0.05),
    (Ni, 1.0 / 60.0),
    (Mo, 1.0 / 15.0),
    (V, 0.1),
    (B, 5.0),
];
/// The bracket of CEN; carbon stands before it.
const CEN_BRACKET: Weights = &[
    (Si, 1.0 / 24.0),
    (Mn, 1.0 / 6.0),
    (Cu, 1.0 / 15.0),
    (Ni, 0.05),
    (Cr, 0.2),
    (Mo, 0.2),
    (Nb, 0.2),
    (V, 0.2),
    (B, 5.0),
];

/// All carbon equivalents of one composition side by side, each with its validity.
#[derive(Debug, Clone, PartialEq)]
pub struct CarbonEquivalents {
    /// [`CARBON_EQUIVALENT_IIW`].
    pub ce_iiw: Bounds<CeIiwKind>,
    /// Whether the composition is in the range for CE of EN 1011-2 Method A.
    pub ce_iiw_validity: Validity,
    /// [`CARBON_EQUIVALENT_WITH_SILICON`]; validity as that of `ce_iiw`.
    pub ce_with_silicon: Bounds<CeSiliconKind>,
    /// [`CARBON_EQUIVALENT_CET`].
    pub cet: Bounds<CetKind>,
    /// Whether the composition is in the range for CET.
    pub cet_validity: Validity,
    /// [`CARBON_EQUIVALENT_PCM`].
    pub pcm: Bounds<PcmKind>,
    /// Whether the composition is in the range for Pcm.
    pub pcm_validity: Validity,
    /// [`CARBON_EQUIVALENT_CEN`].
    pub cen: Bounds<CenKind>,
    /// Whether the composition is in the range for CEN.
    pub cen_validity: Validity,
}

/// All carbon equivalents of a composition. Validity stands beside the number and does not change
/// it: product standards cap CE for steels outside the ranges too.
///
/// # Errors
/// [`QuantityError::NotFinite`], which no composition can cause.
pub fn carbon_equivalents(steel: &Composition) -> Result<CarbonEquivalents, QuantityError> {
    Ok(CarbonEquivalents {
        ce_iiw: ce_iiw(steel)?,
        ce_iiw_validity: validity::CE_METHOD_A.judge(steel),
        ce_with_silicon: ce_with_silicon(steel)?,
        cet: cet(steel)?,
        cet_validity: validity::CET.judge(steel),
        pcm: pcm(steel)?,
        pcm_validity: validity::PCM.judge(steel),
        cen: cen(steel)?,
        cen_validity: validity::CEN.judge(steel),
    })
}

/// Carbon equivalent, [`CARBON_EQUIVALENT_IIW`].
///
/// # Errors
/// As [`carbon_equivalents`].
pub fn ce_iiw(steel: &Composition) -> Result<Bounds<CeIiwKind>, QuantityError> {
    weighted(steel, IIW)
}

/// Carbon equivalent, [`CARBON_EQUIVALENT_WITH_SILICON`].
///
/// # Errors
/// As [`carbon_equivalents`].
pub fn ce_with_silicon(steel: &Composition) -> Result<Bounds<CeSiliconKind>, QuantityError> {
    weighted(steel, WITH_SILICON)
}

/// Carbon equivalent, [`CARBON_EQUIVALENT_CET`].
///
/// # Errors
/// As [`carbon_equivalents`].
pub fn cet(steel: &Composition) -> Result<Bounds<CetKind>, QuantityError> {
    weighted(steel, CET)
}

/// Carbon equivalent, [`CARBON_EQUIVALENT_PCM`].
///
/// # Errors
/// As [`carbon_equivalents`].
pub fn pcm(steel: &Composition) -> Result<Bounds<PcmKind>, QuantityError> {
    weighted(steel, PCM)
}

/// Carbon equivalent, [`CARBON_EQUIVALENT_CEN`]. It rises with every element, so its bounds are
/// those of the contents.
///
/// # Errors
/// As [`carbon_equivalents`].
pub fn cen(steel: &Composition) -> Result<Bounds<CenKind>, QuantityError> {
    let carbon = sums(steel, &[(C, 1.0)]);
    let bracket = sums(steel, CEN_BRACKET);
    let value = |carbon: f64, bracket: f64| {
        let factor = 0.75 + 0.25 * (20.0 * (carbon - 0.12)).tanh();
        carbon + factor * bracket
    };
    bounds(Sums {
        low: value(carbon.low, bracket.low),
        high: value(carbon.high, bracket.high),
        unknown: carbon.unknown.into_iter().chain(bracket.unknown).collect(),
    })
}

/// Bounds of a weighted sum; `high` counts unknown elements as absent and is no bound with any.
struct Sums {
    low: f64,
    high: f64,
    unknown: Vec<Element>,
}

fn sums(steel: &Composition, weights: Weights) -> Sums {
    let mut sums = Sums { low: 0.0, high: 0.0, unknown: Vec::new() };
    for (element, weight) in weights {
        match steel.get(*element) {
            Some(content) => {
                sums.low += weight * content.lowest_percent();
                sums.high += weight * content.highest().percent();
            }
            None => sums.unknown.push(*element),
        }
    }
    sums
}

fn weighted<K: Kind>(steel: &Composition, weights: Weights) -> Result<Bounds<K>, QuantityError> {
    bounds(sums(steel, weights))
}

fn bounds<K: Kind>(sums: Sums) -> Result<Bounds<K>, QuantityError> {
    let high = sums.unknown.is_empty().then(|| Quantity::computed(sums.high)).transpose()?;
    Ok(Bounds { low: Quantity::computed(sums.low)?, high, unknown: sums.unknown })
}
