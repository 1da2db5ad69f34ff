//! Mass per length and deposition efficiency of the filler: recorded where possible, else estimated
//! and said so.

use super::{Estimate, FigureInputs, Found, Note, between, deposit::named};
use crate::{
    check::record::Consumable,
    quantity::{Density, Diameter, LinearMass, LinearMassKind, Share, ShareKind, Span},
    trade::{
        cylinder_mass, designation::FillerKind, steel_density, tubular_wire_density,
        typical_deposition_efficiencies,
    },
};

const WEIGHED: Note = Note::always("mass per length of the wire: measured");
const SOLID_STEEL: Note =
    Note::always("mass per length of the wire: estimated, solid steel of 7.85 g/cm3");
const AS_PRINTED: Note = Note::always("deposition efficiency: as its maker prints");

/// Mass per length of the filler at its diameter.
pub(super) fn linear_mass(inputs: &FigureInputs<'_>) -> Found<LinearMassKind> {
    let consumable = inputs.consumable.ok_or("The consumable is not known.")?;
    let diameter = inputs.setup.filler.diameter.ok_or("The diameter is not stated.")?;
    if let Some((_, mass)) = consumable.linear_masses.iter().find(|(size, _)| *size == diameter) {
        return Ok(Estimate::with(Span::one(*mass), inputs.assumed(|| vec![WEIGHED])));
    }
    estimated(inputs, consumable, diameter)
}

/// The most that the wire can weigh per length: as it was weighed or estimated; with a core that is not known,
/// no more than solid steel. `None` where its metal is not known.
pub(super) fn heaviest(
    inputs: &FigureInputs<'_>,
    wire: &Found<LinearMassKind>,
) -> Option<LinearMass> {
    if let Ok(wire) = wire {
        return Some(wire.span.high());
    }
    let consumable = inputs.consumable?;
    let steel = steel(Some(consumable)).ok()?;
    let diameter = inputs.setup.filler.diameter?;
    let tubular = matches!(core(consumable.kind), Core::Unknown);
    tubular.then(|| cylinder_mass(diameter, steel).ok()).flatten()
}

/// From diameter and density, for unalloyed and low-alloy steel.
fn estimated(
    inputs: &FigureInputs<'_>,
    consumable: &Consumable,
    diameter: Diameter,
) -> Found<LinearMassKind> {
    steel(Some(consumable))?;
    let density = |result: Result<Density, _>| result.map_err(|e| format!("{e}"));
    let of = |low: Density, high: Density| {
        between(cylinder_mass(diameter, low), cylinder_mass(diameter, high))
    };
    match core(consumable.kind) {
        Core::Solid => {
            let steel = density(steel_density())?;
            Ok(Estimate::with(of(steel, steel)?, inputs.assumed(|| vec![SOLID_STEEL])))
        }
        Core::Filled { fill, grams } => {
            let sheath = density(steel_density())?;
            let mean = |share: f64, core: f64| {
                let (share, core) = (Share::computed(share), Density::computed(core));
                density(share.and_then(|share| tubular_wire_density(share, sheath, core?)))
            };
            let span = of(mean(fill.1, grams.0)?, mean(fill.0, grams.1)?)?;
            let note = || {
                format!(
                    "mass per length of the wire: estimated, steel sheath of 7.85 g/cm3, core {} to {} of \
                 the mass at {} to {} g/cm3 (typical values, from memory)",
                    fill.0, fill.1, grams.0, grams.1
                )
            };
            Ok(Estimate::with(span, inputs.assumed(|| vec![note().into()])))
        }
        Core::Unknown => Err("The core of the wire is not known and nobody weighed it.".into()),
        Core::Strip => Err("The mass of a strip follows from its width and thickness, which are \
                            not recorded."
            .into()),
        Core::None => Err("The filler is fed by hand, not by wire feed speed.".into()),
    }
}

enum Core {
    Solid,
    /// Share of the core in the mass, and its density in g/cm³ as packed: lowest and highest typical
    /// values, from memory.
    Filled {
        fill: (f64, f64),
        grams: (f64, f64),
    },
    Unknown,
    Strip,
    None,
}

const fn core(kind: FillerKind) -> Core {
    match kind {
        FillerKind::SolidWire => Core::Solid,
        FillerKind::FluxCoredWire => Core::Filled { fill: (0.12, 0.25), grams: (2.5, 3.5) },
        FillerKind::SelfShieldedWire => Core::Filled { fill: (0.15, 0.25), grams: (2.5, 3.5) },
        FillerKind::MetalCoredWire => Core::Filled { fill: (0.15, 0.30), grams: (4.0, 5.0) },
        FillerKind::TubularWire => Core::Unknown,
        FillerKind::Strip => Core::Strip,
        FillerKind::CoveredElectrode | FillerKind::Rod => Core::None,
    }
}

/// Density of the weld metal: known for unalloyed steel; taken for low-alloy steel too (common
/// practice, no source).
pub(super) fn steel(consumable: Option<&Consumable>) -> Result<Density, Note> {
    if consumable.is_some_and(Consumable::is_plain_steel) {
        Ok(steel_density().map_err(|error| error.to_string())?)
    } else {
        Err("The filler is not known to be unalloyed or low-alloy steel, so its density is not known: a \
             designation of it says so (those of submerged-arc wires are not read)."
            .into())
    }
}

/// Deposition efficiency: as printed for this condition, else as the maker prints it for the wire, else
/// the span of typical values of the process.
pub(super) fn efficiency(inputs: &FigureInputs<'_>) -> Found<ShareKind> {
    let unused = match of_condition(inputs) {
        Some(Ok(printed)) => return Ok(printed),
        Some(Err(why)) => Some(why),
        None => None,
    };
    let mut found = of_wire_or_process(inputs)?;
    found.assumptions.extend(unused.filter(|_| inputs.tells_assumptions));
    Ok(found)
}

/// As printed at the operating points for this condition; `None` where it is not.
///
/// # Errors
/// Why it cannot be right, in words.
fn of_condition(inputs: &FigureInputs<'_>) -> Option<Result<Estimate<ShareKind>, Note>> {
    let (edition, condition) = inputs.data?;
    let printed = || condition.points.iter().filter_map(|point| point.efficiency);
    let (low, high) = (printed().reduce(Share::min)?, printed().reduce(Share::max)?);
    let named = named(edition);
    if high.ratio() > 1.0 {
        let why = format!("deposition efficiency of {high} in {named} not used: above 100 %");
        return Some(Err(why.into()));
    }
    let note = || format!("deposition efficiency: printed in {named} for this condition").into();
    let assumed = || inputs.assumed(|| vec![note()]);
    Some(between(Ok(low), Ok(high)).map(|span| Estimate::with(span, assumed())))
}

fn of_wire_or_process(inputs: &FigureInputs<'_>) -> Found<ShareKind> {
    if let Some(printed) = inputs.consumable.and_then(|consumable| consumable.efficiency) {
        return Ok(Estimate::with(Span::one(printed), inputs.assumed(|| vec![AS_PRINTED])));
    }
    let unknown = "No deposition efficiency is recorded, and none is typical of the process.";
    let process = inputs.process.ok_or("The process is not known.")?;
    let typical = typical_deposition_efficiencies(process).map_err(|error| error.to_string())?;
    let low = typical.iter().map(|one| one.efficiency.low()).reduce(Share::min).ok_or(unknown)?;
    let high = typical.iter().map(|one| one.efficiency.high()).reduce(Share::max).ok_or(unknown)?;
    let note = || {
        let mut sources: Vec<_> = typical.iter().map(|one| one.source).collect();
        sources.dedup();
        format!("deposition efficiency: typical of process {process} ({})", sources.join("; "))
    };
    let assumptions = inputs.assumed(|| vec![note().into()]);
    Ok(Estimate::with(between(Ok(low), Ok(high))?, assumptions))
}
