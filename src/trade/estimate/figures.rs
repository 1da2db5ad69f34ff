//! Time, wire, flux, gas and power of a joint.

use super::EstimateError;
use crate::{
    quantity::{
        Area, Density, DepositionRate, Duration, Energy, GasFlow, GasVolume, Kind, Mass, Power,
        Quantity, QuantityError, RunLength, Share,
    },
    trade::{
        arc_time, elapsed_time, filler_bought, formula, gas_used, joint_mass, weld_metal_mass,
    },
};

formula! {
    /// Energy taken from the mains.
    pub const SUPPLY_ENERGY {
        name: "supply-energy",
        equation: "W = P * t / eta_s; P arc power in W, t arc time in s, W in J",
        source: "definition of the efficiency of a power source",
        validity: "while the arc burns; idle power is left out",
        confidence: Derived,
    }
}

formula! {
    /// Flux used.
    pub const FLUX_USED {
        name: "flux-used",
        equation: "M_flux = ratio * M_wire; ratio of flux to wire by mass",
        source: "definition of the flux-to-wire ratio",
        validity: "submerged arc; flux lost or taken up again is in the ratio",
        confidence: Derived,
    }
}

/// Something that a joint uses: how much, not at all, or not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Use<T> {
    /// This much.
    Amount(T),
    /// The process does not use it.
    NotUsed,
    /// It is used, but how much was not given.
    Unknown,
}

/// Shielding gas of the process.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gassing {
    /// Flow while the arc burns.
    pub flow: GasFlow,
    /// Time that gas flows before and after the arc, summed over the joint; `None` counts none.
    pub beyond_arc: Option<Duration>,
}

/// Flux of the process.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fluxing {
    /// Mass of flux per mass of wire.
    pub ratio: Share,
}

/// Electric power of the process.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Powering {
    /// Arc power.
    pub arc: Power,
    /// Efficiency of the power source.
    pub source_efficiency: Share,
}

/// How the joint is welded.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointWork {
    /// Metal deposited per hour of arc.
    pub deposition: DepositionRate,
    /// Share of the filler that becomes weld metal.
    pub efficiency: Share,
    /// Share of the time that the arc burns.
    pub operating_factor: Share,
    /// Shielding gas.
    pub gas: Use<Gassing>,
    /// Flux.
    pub flux: Use<Fluxing>,
    /// Electric power.
    pub power: Use<Powering>,
}

/// What a length of joint takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// Weld metal.
    pub metal: Mass,
    /// Time that the arc burns.
    pub arc: Duration,
    /// Time with all pauses.
    pub elapsed: Duration,
    /// Filler to buy.
    pub filler: Mass,
    /// Flux used.
    pub flux: Use<Mass>,
    /// Gas used.
    pub gas: Use<GasVolume>,
    /// Energy from the mains.
    pub energy: Use<Energy>,
}

/// An estimate in total and per metre, with the factor it rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointEstimate {
    /// The whole length.
    pub total: Figures,
    /// One metre.
    pub per_metre: Figures,
    /// Length of the joint.
    pub length: RunLength,
    /// The operating factor that elapsed time and labour rest on.
    pub operating_factor: Share,
}

/// Energy from the mains for an arc time, [`SUPPLY_ENERGY`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for an efficiency of zero.
pub fn supply_energy(power: &Powering, arc: Duration) -> Result<Energy, QuantityError> {
    Energy::computed(power.arc.watts() * arc.seconds() / power.source_efficiency.ratio())
}

/// Flux for a mass of wire, [`FLUX_USED`].
///
/// # Errors
/// [`QuantityError::NotFinite`] on overflow.
pub fn flux_used(wire: Mass, ratio: Share) -> Result<Mass, QuantityError> {
    Mass::computed(wire.kg() * ratio.ratio())
}

/// Estimates a joint of this cross-section and length.
///
/// # Errors
/// [`EstimateError::NotPositive`] for a joint, density or rate of nothing,
/// [`EstimateError::NotAShare`] for an efficiency or operating factor outside 0 to 1.
pub fn estimate_joint(
    section: Area,
    density: Density,
    length: RunLength,
    work: &JointWork,
) -> Result<JointEstimate, EstimateError> {
    positive("cross-section", section)?;
    positive("density", density)?;
    positive("length", length)?;
    positive("deposition rate", work.deposition)?;
    share("deposition efficiency", work.efficiency)?;
    share("operating factor", work.operating_factor)?;
    if let Use::Amount(power) = work.power {
        share("efficiency of the power source", power.source_efficiency)?;
    }
    let metal = joint_mass(weld_metal_mass(section, density)?, length)?;
    let total = figures(metal, work)?;
    let per_metre = total.scaled(1_000.0 / length.mm())?;
    Ok(JointEstimate { total, per_metre, length, operating_factor: work.operating_factor })
}

fn figures(metal: Mass, work: &JointWork) -> Result<Figures, EstimateError> {
    let arc = arc_time(metal, work.deposition)?;
    let filler = filler_bought(metal, work.efficiency)?;
    let gas = |gas: Gassing| {
        let beyond = gas.beyond_arc.map_or(0.0, Duration::seconds);
        gas_used(gas.flow, Duration::computed(arc.seconds() + beyond)?)
    };
    Ok(Figures {
        metal,
        arc,
        elapsed: elapsed_time(arc, work.operating_factor)?,
        filler,
        flux: work.flux.map(|flux| flux_used(filler, flux.ratio))?,
        gas: work.gas.map(gas)?,
        energy: work.power.map(|power| supply_energy(&power, arc))?,
    })
}

impl Figures {
    fn scaled(&self, factor: f64) -> Result<Self, QuantityError> {
        fn times<K: Kind>(one: Quantity<K>, factor: f64) -> Result<Quantity<K>, QuantityError> {
            Quantity::computed(one.canonical() * factor)
        }
        Ok(Self {
            metal: times(self.metal, factor)?,
            arc: times(self.arc, factor)?,
            elapsed: times(self.elapsed, factor)?,
            filler: times(self.filler, factor)?,
            flux: self.flux.map(|flux| times(flux, factor))?,
            gas: self.gas.map(|gas| times(gas, factor))?,
            energy: self.energy.map(|energy| times(energy, factor))?,
        })
    }
}

impl<T: Copy> Use<T> {
    /// The same use of something that follows from it.
    pub(super) fn map<U, E>(self, then: impl FnOnce(T) -> Result<U, E>) -> Result<Use<U>, E> {
        match self {
            Self::Amount(amount) => then(amount).map(Use::Amount),
            Self::NotUsed => Ok(Use::NotUsed),
            Self::Unknown => Ok(Use::Unknown),
        }
    }
}

fn positive<K: Kind>(what: &'static str, value: Quantity<K>) -> Result<(), EstimateError> {
    if value.canonical() > 0.0 { Ok(()) } else { Err(EstimateError::NotPositive { what }) }
}

fn share(what: &'static str, value: Share) -> Result<(), EstimateError> {
    if value.is_part() { Ok(()) } else { Err(EstimateError::NotAShare { what }) }
}
