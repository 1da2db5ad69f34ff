//! Facts of a record and of a proposal in one form, so that one evaluator serves every rule.

mod proposal;
mod record;

pub(super) use proposal::{proposed_joint, proposed_parts, proposed_process, proposed_run};
pub(super) use record::{piece_fact, processes_of, recorded_parts, recorded_process, recorded_run};

use super::record::{
    Backing, Filler, Flux, Joint, PNumber, Penetration, RootRemoval, Sides, WeldKind,
};
use crate::{
    quantity::{Amount, AmountRange, Kind, Quantity, Stress},
    trade::{Coded, Designation, Gas, GasFit, GasGroup, MetalGroup, Process, RunClass},
};

/// One fact. `None` in place of a fact means that nobody says.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Fact {
    /// Recorded readings: lowest, stated, highest.
    Readings {
        low: Amount,
        mean: Amount,
        high: Amount,
    },
    /// A proposed range; an open end is unlimited.
    Range(AmountRange),
    /// Codes.
    Words(Vec<String>),
    Gas(Gas),
    Metals(Vec<Side>),
}

/// The metal of one part, as far as group rules need it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Side {
    pub group: Option<MetalGroup>,
    pub specified_yield: Option<Stress>,
}

fn word(code: &str) -> Fact {
    Fact::Words(vec![code.to_owned()])
}

fn code_of<T: Coded>(value: Option<T>) -> Option<Fact> {
    value.map(|value| word(value.code()))
}

fn reading<K: Kind>(value: Option<Quantity<K>>) -> Option<Fact> {
    value.map(|value| {
        let amount = value.amount();
        Fact::Readings { low: amount, mean: amount, high: amount }
    })
}

/// `butt-full`, `tee-butt-partial`, `fillet`. A branch is welded through unless it says otherwise.
pub(super) fn weld_word(joint: &Joint) -> Option<Fact> {
    let weld = joint.weld?;
    match weld {
        WeldKind::Butt | WeldKind::TeeButt => {
            let penetration: Penetration = joint.penetration?;
            Some(word(&format!("{weld}-{penetration}")))
        }
        _ => Some(word(weld.code())),
    }
}

/// Sides, backing and root removal in one word; `None` where they are not known together.
pub(super) fn sides_word(joint: &Joint) -> Option<Fact> {
    let code = match (joint.sides?, joint.backing, joint.root_removal) {
        (Sides::One, Some(Backing::None), _) => "one-side-no-backing",
        (Sides::One, Some(_), _) => "one-side-backing",
        (Sides::One, None, _) | (Sides::Both, _, None) => return None,
        (Sides::Both, _, Some(RootRemoval::None)) => "both-sides-no-removal",
        (Sides::Both, _, Some(RootRemoval::Mechanical)) => "both-sides-mechanical-removal",
        (Sides::Both, _, Some(RootRemoval::Thermal)) => "both-sides-thermal-removal",
    };
    Some(word(code))
}

/// The designation without prefix differences in spacing and without its hydrogen symbol, which has an
/// order of its own.
fn designation_word(filler: &Filler) -> Option<Fact> {
    let text = match &filler.designation {
        Some(designation) => designation.text(),
        None => filler.designation_text.as_deref()?,
    };
    let is_hydrogen =
        |part: &str| part.strip_prefix('H').is_some_and(|n| n.chars().all(|c| c.is_ascii_digit()));
    let upper = text.to_ascii_uppercase();
    let parts = upper.split([' ', '-']).filter(|part| !part.is_empty());
    let kept: Vec<_> = parts.filter(|part| part.len() < 2 || !is_hydrogen(part)).collect();
    Some(word(&kept.join(" ")))
}

fn hydrogen_word(filler: &Filler) -> Option<Fact> {
    use crate::trade::HydrogenClass;
    if let Some(class) = filler.hydrogen {
        return Some(word(class.code()));
    }
    // A class without a hydrogen symbol promises none: the highest rank.
    let Some(limit) = filler.designation.as_ref()?.hydrogen() else {
        return Some(word("not-stated"));
    };
    let matches = |class: &HydrogenClass| class.ceiling().is_ok_and(|ceiling| ceiling == limit);
    code_of(HydrogenClass::ALL.iter().map(|(class, _)| *class).find(matches))
}

fn low_hydrogen_word(filler: &Filler) -> Option<Fact> {
    let low = filler.designation.as_ref()?.low_hydrogen_covering()?;
    Some(word(if low { "yes" } else { "no" }))
}

/// Whether the gas is the one of the filler's class. What the class leaves open, and a gas of the right group
/// that is not the mixture of the class, is unknown: the maker may have shown it.
fn gas_of_class_word(filler: Option<&Filler>, gas: Option<Gas>) -> Option<Fact> {
    match filler?.designation.as_ref()?.gas().admits(&gas?) {
        GasFit::Fits => Some(word("fits")),
        GasFit::DoesNotFit => Some(word("does-not-fit")),
        GasFit::OutsideTestMixture | GasFit::Unknown => None,
    }
}

fn strength(filler: &Filler) -> Option<Stress> {
    let strength = filler.designation.as_ref()?.strength();
    let lowest = |range: Option<crate::quantity::Range<_>>| range.and_then(|range| range.min());
    lowest(strength.tensile).or_else(|| lowest(strength.yield_strength))
}

/// Compositions of AWS D1.1:2020, Table 5.6, from memory.
const WEATHERING: &[&str] =
    &["B2L", "C1", "C1L", "C2", "C2L", "C3", "W1", "W2", "K2", "Ni1", "Ni2", "Ni3"];

/// Whether the filler is an 80 ksi class (540 to 590 MPa lie between the classes) of a composition for bare weathering
/// steel; unknown where buyer and maker agree on it.
fn weathering_word(filler: &Filler) -> Option<Fact> {
    let mpa = strength(filler)?.mpa();
    if !(540.0..=590.0).contains(&mpa) {
        return Some(word("no"));
    }
    match filler.designation.as_ref()?.composition()? {
        "G" => None,
        symbol => Some(word(if WEATHERING.contains(&symbol) { "80-ksi" } else { "no" })),
    }
}

/// Maker and trade name; `None` unless both are known.
fn maker_word(maker: Option<&String>, trade_name: Option<&String>) -> Option<Fact> {
    Some(word(&format!("{} {}", maker?.trim(), trade_name?.trim()).to_lowercase()))
}

fn flux_word(flux: &Flux) -> Option<Fact> {
    let (maker, name) = (flux.maker.as_ref()?, flux.trade_name.as_ref()?);
    Some(word(&format!("{} {} {}", flux.designation.as_ref()?, maker, name).to_lowercase()))
}

/// The group of a gas, `none` where there is none.
fn gas_word(gas: Option<Gas>) -> Option<Fact> {
    Some(word(gas?.group().map_or("none", GasGroup::code)))
}

/// Whether the back of a run is open, or may be: nobody says what the run does.
fn may_have_open_back(class: Option<RunClass>) -> bool {
    class.is_none_or(RunClass::has_open_back)
}

/// Runs that a gas behind the root is there for; all of them where each lies on others.
fn with_open_back<R>(runs: &[R], class: impl Fn(&R) -> Option<RunClass>) -> Vec<&R> {
    let open: Vec<_> = runs.iter().filter(|run| may_have_open_back(class(run))).collect();
    if open.is_empty() { runs.iter().collect() } else { open }
}

/// P-Numbers of the parts, sorted; `None` where one is missing.
fn p_numbers(parts: Option<Vec<PNumber>>) -> Option<Fact> {
    paired(parts?.into_iter().map(|part| part.number).collect())
}

/// P-Numbers with their group numbers, sorted; `None` where one is missing.
fn p_groups(parts: Option<Vec<PNumber>>) -> Option<Fact> {
    let one = |part: PNumber| Some(format!("{}/{}", part.number, part.group?));
    paired(parts?.into_iter().map(one).collect::<Option<_>>()?)
}

fn paired(mut codes: Vec<String>) -> Option<Fact> {
    codes.sort();
    (!codes.is_empty()).then(|| word(&codes.join("-")))
}

fn electrodes_word(electrodes: Option<u8>) -> Option<Fact> {
    Some(word(&electrodes?.to_string()))
}

fn wires_word(electrodes: Option<u8>) -> Option<Fact> {
    Some(word(if electrodes? == 1 { "single" } else { "multiple" }))
}

/// `141+135`: each process once, in the order of welding.
fn sequence_word(processes: &[Process]) -> Option<Fact> {
    let codes: Vec<_> = processes.iter().map(|process| process.code()).collect();
    if codes.is_empty() { None } else { Some(word(&codes.join("+"))) }
}

/// What filler and form say; shared by runs of a record and of a proposal.
fn filler_fact(filler: &Filler, variable: super::QualifiedVariable) -> Option<Fact> {
    use super::QualifiedVariable as V;
    match variable {
        V::FillerDesignation => designation_word(filler),
        V::FillerStandard => code_of(filler.designation.as_ref().map(Designation::standard)),
        V::FillerUsability => {
            Some(word(filler.designation.as_ref()?.usability_code().unwrap_or("none")))
        }
        V::FillerWeathering => weathering_word(filler),
        V::FillerForm => {
            code_of(filler.kind.or_else(|| filler.designation.as_ref().map(Designation::kind)))
        }
        V::FillerHydrogen => hydrogen_word(filler),
        V::LowHydrogen => low_hydrogen_word(filler),
        V::FillerStrength => reading(strength(filler)),
        V::FillerMaker => maker_word(filler.maker.as_ref(), filler.trade_name.as_ref()),
        V::FNumber => Some(word(filler.f_number.as_ref()?)),
        V::ANumber => Some(word(filler.a_number.as_ref()?)),
        V::FillerDiameter => reading(filler.diameter),
        _ => None,
    }
}
