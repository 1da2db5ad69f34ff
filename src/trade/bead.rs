//! Size of one run from the mass balance: wire in, cross-section out.
//!
//! Areas are filler areas: parent metal melted by penetration is not counted.
//!
//! The metal that the wire brings in a minute spreads over the length travelled in it ([`RUN_AREA`]). Of a fillet that
//! area is half the square of the leg times a factor for its face ([`FILLET_AREA`]), so a leg is a band: flat at one end,
//! convex at the other. It goes with the root of feed over speed: 10 % faster is 4.7 % less leg.
//!
//! Worked: 1.2 mm solid, 8 m/min, 95 %, 400 mm/min: 21.49 mm², a leg of 5.984 to 6.556 mm.

use super::{corners::span_of, formula};
use crate::quantity::{
    Area, Density, DepositionRate, Leg, LegKind, LinearMass, Mass, QuantityError, RunLength, Share,
    ShareKind, Span, TravelSpeed, WireFeed,
};

formula! {
    /// Cross-section of the metal one run deposits.
    pub const RUN_AREA {
        name: "run-area",
        equation: "A = 1000 * eta * m' * w / (rho * v); m' in g/m, w in m/min, rho in g/cm3, \
                   v in mm/min, A in mm2",
        source: "mass balance of one run",
        validity: "steady run; spatter and stubs are in eta; penetration into parent metal left out",
        confidence: Derived,
    }
}

formula! {
    /// Area of an equal-leg fillet with its shape factor.
    pub const FILLET_AREA {
        name: "fillet-area",
        equation: "A = kappa * z^2 / 2; z in mm, A in mm2",
        source: "kappa 1: TWI Job Knowledge 95, Calculating weld volume and weight (half the square of \
                 the leg); kappa above 1: common practice, no source",
        validity: "equal legs, square joint without gap, one run; kappa 1.0 for a flat face, about 1.1 \
                   usual, up to 1.2 convex",
        confidence: CommonPractice,
    }
}

formula! {
    /// Travel speed at which one run has a given leg.
    pub const TRAVEL_SPEED_FOR_LEG {
        name: "travel-speed-for-leg",
        equation: "v = 2000 * eta * m' * w / (rho * kappa * z^2); units as in run-area",
        source: "run-area and fillet-area, solved for v",
        validity: "as for run-area and fillet-area",
        confidence: Derived,
    }
}

/// What one run is made of: how much wire is fed, and how much of it becomes weld metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunMetal {
    /// Mass per length of the wire.
    pub wire: LinearMass,
    /// Wire feed speed.
    pub feed: WireFeed,
    /// Deposition efficiency.
    pub efficiency: Share,
    /// Density of the weld metal.
    pub density: Density,
}

impl RunMetal {
    /// Deposited volume per minute, in mm³.
    fn volume_per_minute(&self) -> f64 {
        let grams = self.wire.g_per_m() * self.feed.m_per_min() * self.efficiency.ratio();
        volume(grams, self.density)
    }
}

/// Volume of so many grams, in mm³.
fn volume(grams: f64, density: Density) -> f64 {
    grams / density.g_per_cm3() * 1_000.0
}

/// Cross-section of one run, [`RUN_AREA`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a travel speed or density of zero.
pub fn run_area(metal: &RunMetal, speed: TravelSpeed) -> Result<Area, QuantityError> {
    Area::computed(metal.volume_per_minute() / speed.mm_per_min())
}

/// Cross-section of one run with a known deposition rate, [`RUN_AREA`] with `eta * m' * w` known as a whole.
///
/// # Errors
/// [`QuantityError::NotFinite`] for a travel speed or density of zero.
pub fn run_area_at(
    rate: DepositionRate,
    density: Density,
    speed: TravelSpeed,
) -> Result<Area, QuantityError> {
    let grams_per_minute = rate.kg_per_h() * 1_000.0 / 60.0;
    Area::computed(volume(grams_per_minute, density) / speed.mm_per_min())
}

/// Area of an equal-leg fillet, [`FILLET_AREA`].
///
/// # Errors
/// [`QuantityError::NotFinite`] on overflow.
pub fn fillet_area(leg: Leg, shape: Share) -> Result<Area, QuantityError> {
    Area::computed(shape.ratio() * leg.mm().powi(2) / 2.0)
}

/// Leg of an equal-leg fillet of this area, as a band over the given span of shape factors: the
/// most convex face has the smallest leg. The inverse of [`FILLET_AREA`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a shape factor of zero or a negative area.
pub fn leg_band(area: Area, shape: &Span<ShareKind>) -> Result<Span<LegKind>, QuantityError> {
    span_of(leg(area, shape.high()), leg(area, shape.low()))
}

fn leg(area: Area, shape: Share) -> Result<Leg, QuantityError> {
    Leg::computed((2.0 * area.mm2() / shape.ratio()).sqrt())
}

/// Shape factors of usual one-run fillets, flat to convex: 1.0 to 1.2 (common practice, no source).
///
/// # Errors
/// None in practice; the values are constants.
pub fn usual_shape_factors() -> Result<Span<ShareKind>, QuantityError> {
    span_of(Share::computed(1.0), Share::computed(1.2))
}

/// Travel speed at which one run has this leg, [`TRAVEL_SPEED_FOR_LEG`].
///
/// # Errors
/// [`QuantityError::NotFinite`] for a leg, shape factor or density of zero.
pub fn travel_speed_for_leg(
    metal: &RunMetal,
    leg: Leg,
    shape: Share,
) -> Result<TravelSpeed, QuantityError> {
    let area = fillet_area(leg, shape)?;
    TravelSpeed::computed(metal.volume_per_minute() / area.mm2())
}

/// Mass of weld metal per length of joint: area times density.
///
/// # Errors
/// [`QuantityError::NotFinite`] on overflow.
pub fn weld_metal_mass(area: Area, density: Density) -> Result<LinearMass, QuantityError> {
    LinearMass::computed(area.mm2() * density.g_per_cm3())
}

/// Mass of weld metal in a joint of this length.
///
/// # Errors
/// [`QuantityError::NotFinite`] on overflow.
pub fn joint_mass(metal: LinearMass, length: RunLength) -> Result<Mass, QuantityError> {
    Mass::computed(metal.g_per_m() * length.mm() / 1.0e6)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::{cylinder_mass, steel_density};

    fn metal(wire: LinearMass, feed: &str, efficiency: &str) -> RunMetal {
        RunMetal {
            wire,
            feed: feed.parse().unwrap(),
            efficiency: efficiency.parse().unwrap(),
            density: steel_density().unwrap(),
        }
    }

    fn solid(diameter: &str) -> LinearMass {
        cylinder_mass(diameter.parse().unwrap(), steel_density().unwrap()).unwrap()
    }

    fn flux_cored() -> LinearMass {
        "7.145 g/m".parse().unwrap()
    }

    /// Own arithmetic; kappa 1.0 and 1.15.
    #[test]
    fn area_and_leg_of_usual_settings() {
        let rows = [
            (metal(solid("1.2 mm"), "8 m/min", "95 %"), "0.4 m/min", "21.49", "6.113", "6.556"),
            (metal(solid("1.2 mm"), "8 m/min", "95 %"), "0.3 m/min", "28.65", "7.059", "7.57"),
            (metal(flux_cored(), "9.5 m/min", "86 %"), "0.35 m/min", "21.25", "6.079", "6.519"),
            (metal(flux_cored(), "9.5 m/min", "86 %"), "0.2 m/min", "37.18", "8.041", "8.623"),
            (metal(solid("1.6 mm"), "5 m/min", "95 %"), "0.35 m/min", "27.29", "6.889", "7.387"),
        ];
        let shape = Span::new("100 %".parse().unwrap(), "115 %".parse().unwrap()).unwrap();
        for (metal, speed, area, smallest, largest) in rows {
            let run = run_area(&metal, speed.parse().unwrap()).unwrap();
            assert_eq!(run.to_string(), format!("{area} mm2"));
            let band = leg_band(run, &shape).unwrap();
            assert_eq!(band.low().to_string(), format!("{smallest} mm"));
            assert_eq!(band.high().to_string(), format!("{largest} mm"));
        }
    }

    /// Own arithmetic: 4.048 kg/h are 67.47 g/min, of 7.85 g/cm³ 8594 mm³; over 400 mm 21.49 mm².
    #[test]
    fn area_of_a_known_rate() {
        let (rate, speed) = ("4.048 kg/h".parse().unwrap(), "0.4 m/min".parse().unwrap());
        let run = run_area_at(rate, steel_density().unwrap(), speed).unwrap();
        assert_eq!(run.to_string(), "21.49 mm2");
    }

    /// Own arithmetic at kappa 1.10: 375.6, 211.3 and 434.1 mm/min.
    #[test]
    fn the_speed_for_a_leg() {
        let cored = metal(flux_cored(), "9.5 m/min", "86 %");
        let solid = metal(solid("1.2 mm"), "8 m/min", "95 %");
        let rows = [(cored, "6 mm", "375.6"), (cored, "8 mm", "211.3"), (solid, "6 mm", "434.1")];
        for (metal, leg, speed) in rows {
            let shape = "110 %".parse().unwrap();
            let needed = travel_speed_for_leg(&metal, leg.parse().unwrap(), shape).unwrap();
            assert_eq!(needed.to_string(), format!("{speed} mm/min"));
        }
    }

    /// 115.8 mm² of steel weigh 909.0 g/m (own arithmetic), so 2 m weigh 1.818 kg.
    #[test]
    fn metal_of_a_joint() {
        let per_length = weld_metal_mass("115.8 mm2".parse().unwrap(), steel_density().unwrap());
        assert_eq!(per_length.clone().unwrap().to_string(), "909 g/m");
        let mass = joint_mass(per_length.unwrap(), "2 m".parse().unwrap()).unwrap();
        assert_eq!(mass.to_string(), "1.818 kg");
    }

    #[test]
    fn impossible_shapes_and_speeds_are_refused() {
        let area: Area = "20 mm2".parse().unwrap();
        assert!(leg_band(area, &Span::one(Share::computed(0.0).unwrap())).is_err());
        let metal = metal(flux_cored(), "9.5 m/min", "86 %");
        assert!(run_area(&metal, TravelSpeed::computed(0.0).unwrap()).is_err());
        let no_leg = Leg::computed(0.0).unwrap();
        assert!(travel_speed_for_leg(&metal, no_leg, "110 %".parse().unwrap()).is_err());
    }
}
