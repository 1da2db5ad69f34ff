//! `POST /v1/calculations/deposition`

use super::{Sheet, endpoint::calculation};
use crate::{
    quantity::{
        Density, Diameter, Leg, LinearMass, QuantityError, Share, Span, TravelSpeed, WireFeed,
    },
    trade::{
        DEPOSITION_RATE, FILLET_AREA, HANDBOOK_MELT_RATE, MELT_RATE, RUN_AREA, RunMetal,
        SOLID_WIRE_MASS, TRAVEL_SPEED_FOR_LEG, TUBULAR_WIRE_DENSITY, WireMass, deposition_rate,
        handbook_melt_rate, leg_band, melt_rate, run_area, steel_density, travel_speed_for_leg,
        tubular_wire_density, usual_shape_factors,
    },
    wire::{Part, wire_object},
};

wire_object! {
    /// A tubular wire's core, where its mass per length is not weighed.
    pub struct CoreIn {
        /// Mass of the core in the whole mass.
        pub fill: Share,
        /// Density of the core as it is packed.
        pub density: Density,
    }
}

wire_object! {
    /// A wire and how fast it is fed.
    pub struct DepositionIn {
        /// Wire feed speed.
        pub wire_feed: WireFeed,
        /// Diameter; needed where the mass per length is not given.
        pub diameter: Option<Diameter>,
        /// Weighed mass of one metre of wire.
        pub linear_mass: Option<LinearMass>,
        /// Core of a tubular wire; a solid wire where left out.
        pub core: Option<CoreIn>,
        /// Deposition efficiency, more than 0 % and at most 100 %.
        pub efficiency: Option<Part>,
        /// Density of wire and weld metal; unalloyed steel, 7.85 g/cm3, where left out.
        pub density: Option<Density>,
        /// Travel speed, for the area of one run and its leg.
        pub travel_speed: Option<TravelSpeed>,
        /// Leg asked for, for the travel speed that gives it in one run.
        pub leg: Option<Leg>,
        /// Shape factors of the fillet, 1 for a flat face; 1.0 to 1.2 where left out.
        pub shape: Option<Span<crate::quantity::ShareKind>>,
    }
}

calculation! {
    /// Melt and deposition rate from first principles, the handbook rule beside it for solid wire, the area
    /// of one run, its leg as a band, and the travel speed for a leg.
    "/v1/calculations/deposition", calculate_deposition(DepositionIn) => fill,
    summary: "Metal of one run",
    example: {
        "wire_feed": "8.0 m/min", "diameter": "1.2 mm", "efficiency": "95 %",
        "travel_speed": "0.40 m/min", "leg": "6 mm"
    }
}

fn fill(sent: &DepositionIn, sheet: &mut Sheet) {
    let Some(density) = sent.density.or_else(|| steel_density().ok()) else { return };
    let given = WireGiven {
        linear_mass: sent.linear_mass,
        diameter: sent.diameter,
        core: sent.core.as_ref(),
    };
    let Some(wire) = wire_mass(given, density, sheet) else { return };
    sheet.one("melt-rate", melt_rate(wire, sent.wire_feed), &MELT_RATE, &[]);
    if let (None, None, Some(diameter)) = (&sent.core, sent.linear_mass, sent.diameter) {
        let rule = handbook_melt_rate(diameter, sent.wire_feed);
        let why = "13.1 stands for 0.278 lb/in3; steel of 0.2836 lb/in3 gives 13.36, 2 % more";
        sheet.one("handbook-melt-rate", rule, &HANDBOOK_MELT_RATE, &[why]);
    }
    let Some(efficiency) = sent.efficiency.map(Part::share) else {
        for name in ["deposition-rate", "run-area", "leg-of-one-run", "travel-speed-for-leg"] {
            sheet.absent(name, "the deposition efficiency is missing");
        }
        return;
    };
    sheet.one(
        "deposition-rate",
        deposition_rate(wire, sent.wire_feed, efficiency),
        &DEPOSITION_RATE,
        &[],
    );
    let metal = RunMetal { wire, feed: sent.wire_feed, efficiency, density };
    run(sent, &metal, sheet);
}

/// What is known of a wire.
#[derive(Clone, Copy)]
pub(super) struct WireGiven<'a> {
    pub(super) linear_mass: Option<LinearMass>,
    pub(super) diameter: Option<Diameter>,
    pub(super) core: Option<&'a CoreIn>,
}

/// Mass per length: as weighed, else from the diameter.
pub(super) fn wire_mass(
    given: WireGiven<'_>,
    density: Density,
    sheet: &mut Sheet,
) -> Option<LinearMass> {
    if let Some(mass) = given.linear_mass {
        return Some(mass);
    }
    let Some(diameter) = given.diameter else {
        sheet.absent("wire-mass", "give the mass of one metre of wire, or its diameter");
        return None;
    };
    let (mass, basis) = match given.core {
        None => (WireMass::solid(diameter, density), "solid wire of this diameter"),
        Some(core) => {
            let effective = tubular_wire_density(core.fill, density, core.density);
            sheet.one("wire-density", effective, &TUBULAR_WIRE_DENSITY, &[]);
            let mass = WireMass::tubular(diameter, core.fill, density, core.density);
            (mass, "tubular wire of this fill, without a void: weigh a metre where you can")
        }
    };
    let mass = mass.map(|wire| wire.mass);
    let known = mass.as_ref().ok().copied();
    sheet.one("wire-mass", mass, &SOLID_WIRE_MASS, &["estimated", basis]);
    known
}

/// Area and leg at a travel speed, and the travel speed for a leg.
fn run(sent: &DepositionIn, metal: &RunMetal, sheet: &mut Sheet) {
    let Some(shape) = sent.shape.or_else(|| usual_shape_factors().ok()) else { return };
    let factors = format!("shape factor {} to {}", shape.low().ratio(), shape.high().ratio());
    if let Some(speed) = sent.travel_speed {
        let area = run_area(metal, speed);
        let leg = area.as_ref().map_err(Clone::clone).and_then(|area| leg_band(*area, &shape));
        sheet.one("run-area", area, &RUN_AREA, &[]);
        sheet.span("leg-of-one-run", leg, &FILLET_AREA, &[&factors]);
    }
    if let Some(leg) = sent.leg {
        let at = |shape| travel_speed_for_leg(metal, leg, shape);
        let band = at(shape.high()).and_then(|slow| {
            Span::new(slow, at(shape.low())?)
                .map_err(|_| QuantityError::NotFinite { quantity: "travel speed" })
        });
        sheet.span("travel-speed-for-leg", band, &TRAVEL_SPEED_FOR_LEG, &[&factors]);
    }
}
