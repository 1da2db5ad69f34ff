//! How a joint is welded and what it costs, as sent: shared by estimate and comparison.

use time::Date;

use super::{
    Sheet,
    deposition::{CoreIn, WireGiven, wire_mass},
    joint::WELD_METAL,
};
use crate::{
    quantity::{
        Density, DepositionRate, Diameter, Duration, DurationKind, EnergyKind, GasFlow,
        GasVolumeKind, Kind, LinearMass, MassKind, Power, Quantity, Share, WireFeed,
    },
    trade::{
        ARC_TIME, Cost, Costs, DEPOSITION_RATE, ELAPSED_TIME, FILLER_BOUGHT, FLUX_USED, Figures,
        Fluxing, Formula, GAS_USED, Gassing, JOINT_COST, JointEstimate, JointPrices, JointWork,
        Powering, Price, Process, SUPPLY_ENERGY, Use, deposition_rate, joint_costs,
    },
    wire::{Part, PriceIn, wire_object},
};

wire_object! {
    /// A wire and how fast it is fed, for the deposition rate.
    pub struct FedWireIn {
        /// Wire feed speed.
        pub wire_feed: WireFeed,
        /// Diameter; needed where the mass per length is not given.
        pub diameter: Option<Diameter>,
        /// Weighed mass of one metre of wire.
        pub linear_mass: Option<LinearMass>,
        /// Core of a tubular wire; a solid wire where left out.
        pub core: Option<CoreIn>,
    }
}

wire_object! {
    /// How a joint is welded.
    pub struct WorkIn {
        /// Process: what it does not use costs nothing.
        pub process: Process,
        /// Metal deposited per hour of arc; or give the wire.
        pub deposition_rate: Option<DepositionRate>,
        /// The wire, in place of the deposition rate.
        pub wire: Option<FedWireIn>,
        /// Deposition efficiency, more than 0 % and at most 100 %.
        pub efficiency: Part,
        /// Operating factor: share of the time that the arc burns, more than 0 % and at most 100 %. Always
        /// stated: elapsed time and labour rest on it.
        pub operating_factor: Part,
        /// Flow of the shielding gas.
        pub gas_flow: Option<GasFlow>,
        /// Time that gas flows before and after the arc, summed over the joint; none counted where left
        /// out.
        pub gas_beyond_arc: Option<Duration>,
        /// Mass of flux per mass of wire, submerged arc.
        pub flux_ratio: Option<Share>,
        /// Mean arc power; volts times amps only where the output is not waveform-controlled.
        pub arc_power: Option<Power>,
        /// Efficiency of the power source, more than 0 % and at most 100 %.
        pub source_efficiency: Option<Part>,
    }
}

wire_object! {
    /// Prices of what is bought for one way of welding.
    pub struct MaterialPricesIn {
        /// Filler metal.
        pub filler: Option<PriceIn<MassKind>>,
        /// Flux.
        pub flux: Option<PriceIn<MassKind>>,
        /// Shielding gas.
        pub gas: Option<PriceIn<GasVolumeKind>>,
    }
}

wire_object! {
    /// Prices that do not depend on the way of welding.
    pub struct SharedPricesIn {
        /// Labour and overhead.
        pub labour: Option<PriceIn<DurationKind>>,
        /// Electric energy.
        pub energy: Option<PriceIn<EnergyKind>>,
    }
}

/// Prices as the formulas take them.
pub(super) fn prices(
    material: Option<&MaterialPricesIn>,
    shared: Option<&SharedPricesIn>,
) -> JointPrices {
    JointPrices {
        labour: shared.and_then(|prices| prices.labour).map(|price| price.price),
        filler: material.and_then(|prices| prices.filler).map(|price| price.price),
        flux: material.and_then(|prices| prices.flux).map(|price| price.price),
        gas: material.and_then(|prices| prices.gas).map(|price| price.price),
        energy: shared.and_then(|prices| prices.energy).map(|price| price.price),
    }
}

impl WorkIn {
    /// As the formulas take it; `None` where the deposition rate is not known, which the sheet then says.
    pub(super) fn work(&self, density: Density, sheet: &mut Sheet) -> Option<JointWork> {
        Some(JointWork {
            deposition: self.deposition(density, sheet)?,
            efficiency: self.efficiency.share(),
            operating_factor: self.operating_factor.share(),
            gas: match self.gas_flow {
                _ if !self.process.gas_shielded() => Use::NotUsed,
                Some(flow) => Use::Amount(Gassing { flow, beyond_arc: self.gas_beyond_arc }),
                None => Use::Unknown,
            },
            flux: match self.flux_ratio {
                _ if !self.process.is_submerged() => Use::NotUsed,
                Some(ratio) => Use::Amount(Fluxing { ratio }),
                None => Use::Unknown,
            },
            power: match (self.arc_power, self.source_efficiency) {
                (Some(arc), Some(source)) => {
                    Use::Amount(Powering { arc, source_efficiency: source.share() })
                }
                _ => Use::Unknown,
            },
        })
    }

    fn deposition(&self, density: Density, sheet: &mut Sheet) -> Option<DepositionRate> {
        let name = "deposition-rate";
        let Some(wire) = &self.wire else {
            if self.deposition_rate.is_none() {
                sheet.absent(name, "give the deposition rate, or the wire");
            }
            return self.deposition_rate;
        };
        if self.deposition_rate.is_some() {
            sheet.absent(name, "give the deposition rate or the wire, not both");
            return None;
        }
        let given = WireGiven {
            linear_mass: wire.linear_mass,
            diameter: wire.diameter,
            core: wire.core.as_ref(),
        };
        let mass = wire_mass(given, density, sheet)?;
        let rate = deposition_rate(mass, wire.wire_feed, self.efficiency.share());
        let known = rate.as_ref().ok().copied();
        sheet.one(name, rate, &DEPOSITION_RATE, &[]);
        known
    }
}

/// Puts an estimate and its costs on the sheet: of the whole, and of one metre.
pub(super) fn show(
    estimate: &JointEstimate,
    (prices, day): (&JointPrices, Date),
    density: &str,
    sheet: &mut Sheet,
) {
    let factor = format!("operating factor {}", estimate.operating_factor);
    let assumed = (density, factor.as_str());
    // What is used does not hang on what it costs.
    for (figures, of, time) in
        [(&estimate.total, "", "h"), (&estimate.per_metre, "-per-metre", "min")]
    {
        show_figures(figures, (of, time), assumed, sheet);
        match joint_costs(figures, prices, day) {
            Ok(costs) => show_costs(&costs, (prices, day), of, sheet),
            Err(error) => sheet.absent(&format!("total-cost{of}"), error),
        }
    }
}

fn show_figures(
    figures: &Figures,
    (of, time): (&str, &str),
    (density, factor): (&str, &str),
    sheet: &mut Sheet,
) {
    let name = |what: &str| format!("{what}{of}");
    let ok = |duration| Ok::<_, &str>(duration);
    sheet.one::<_, &str>(&name("weld-metal"), Ok(figures.metal), &WELD_METAL, &[density]);
    sheet.one_in(&name("arc-time"), ok(figures.arc), time, &ARC_TIME, &[]);
    sheet.one_in(&name("elapsed-time"), ok(figures.elapsed), time, &ELAPSED_TIME, &[factor]);
    sheet.one::<_, &str>(&name("filler"), Ok(figures.filler), &FILLER_BOUGHT, &[]);
    used(&name("flux"), figures.flux, &FLUX_USED, "the flux-to-wire ratio is not given", sheet);
    used(&name("gas"), figures.gas, &GAS_USED, "the gas flow is not given", sheet);
    let reason = "the arc power or the efficiency of the power source is not given";
    let energy = amount(figures.energy, reason);
    sheet.one_in(&name("energy"), energy, "kWh", &SUPPLY_ENERGY, &[]);
}

fn used<K: Kind>(
    name: &str,
    amount: Use<Quantity<K>>,
    formula: &Formula,
    unknown: &str,
    sheet: &mut Sheet,
) {
    sheet.one(name, self::amount(amount, unknown), formula, &[]);
}

/// What is used, or why there is no figure of it.
fn amount<K: Kind>(amount: Use<Quantity<K>>, unknown: &str) -> Result<Quantity<K>, &str> {
    match amount {
        Use::Amount(amount) => Ok(amount),
        Use::NotUsed => Err("the process does not use it"),
        Use::Unknown => Err(unknown),
    }
}

/// Costs, each with the price it rests on and the day.
fn show_costs(costs: &Costs, (prices, day): (&JointPrices, Date), of: &str, sheet: &mut Sheet) {
    let parts = [
        ("labour-cost", costs.labour, said(prices.labour.as_ref(), day)),
        ("filler-cost", costs.filler, said(prices.filler.as_ref(), day)),
        ("flux-cost", costs.flux, said(prices.flux.as_ref(), day)),
        ("gas-cost", costs.gas, said(prices.gas.as_ref(), day)),
        ("energy-cost", costs.energy, said(prices.energy.as_ref(), day)),
        ("total-cost", costs.total, Some(format!("prices of {day}"))),
    ];
    for (what, cost, said) in parts {
        let name = format!("{what}{of}");
        match (cost, &said) {
            (Cost::Unknown(reason), Some(said)) if what != "total-cost" => {
                sheet.absent(&name, format!("{reason}; {said}"));
            }
            _ => sheet.cost(
                &name,
                cost,
                &JOINT_COST,
                &said.iter().map(String::as_str).collect::<Vec<_>>(),
            ),
        }
    }
}

/// A price and the day it is asked for.
fn said<K: Kind>(price: Option<&Price<K>>, day: Date) -> Option<String> {
    price.map(|price| format!("price {price}; day {day}"))
}
