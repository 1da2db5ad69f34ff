//! One boundary is one boundary, whichever unit it is typed in: every kind, every pair of its units.
//!
//! The factors here are written out again from their definitions, so that a wrong factor in the
//! crate shows. Exact definitions: inch 25.4 mm, foot 304.8 mm, pound 0.453 592 37 kg, standard
//! gravity 9.806 65 m/s², °F by 5/9 and 32.

use std::{cmp::Ordering, str::FromStr};

use arcbounds::quantity::*;
use rust_decimal::Decimal;

/// Unit, numerator and denominator of the factor to the first unit of its list, and offset.
type Factor = (&'static str, &'static str, &'static str, &'static str);

const fn exact(unit: &'static str, factor: &'static str) -> Factor {
    (unit, factor, "1", "0")
}

const LENGTH: &[Factor] = &[
    exact("mm", "1"),
    exact("cm", "10"),
    exact("m", "1000"),
    exact("in", "25.4"),
    exact("ft", "304.8"),
];
const ANGLE: &[Factor] = &[exact("deg", "1")];
const ENERGY_PER_LENGTH: &[Factor] = &[
    exact("kJ/mm", "1"),
    exact("J/mm", "0.001"),
    exact("kJ/cm", "0.1"),
    ("kJ/in", "1", "25.4", "0"),
    ("J/in", "1", "25400", "0"),
];

/// Runs a function for every kind with its factors.
macro_rules! every_kind {
    ($run:ident) => {
        $run::<CurrentKind>(&[exact("A", "1")]);
        $run::<VoltageKind>(&[exact("V", "1")]);
        $run::<TravelSpeedKind>(&[
            exact("mm/min", "1"),
            exact("mm/s", "60"),
            exact("cm/min", "10"),
            exact("m/min", "1000"),
            exact("in/min", "25.4"),
        ]);
        $run::<WireFeedKind>(&[
            exact("m/min", "1"),
            exact("cm/min", "0.01"),
            exact("mm/min", "0.001"),
            exact("mm/s", "0.06"),
            exact("in/min", "0.0254"),
        ]);
        $run::<ElectricalStickOutKind>(LENGTH);
        $run::<VisibleStickOutKind>(LENGTH);
        $run::<TipRecessKind>(LENGTH);
        $run::<DiameterKind>(LENGTH);
        $run::<OutsideDiameterKind>(LENGTH);
        $run::<ThicknessKind>(LENGTH);
        $run::<WeaveWidthKind>(LENGTH);
        $run::<LegKind>(LENGTH);
        $run::<RunLengthKind>(LENGTH);
        $run::<TravelAngleKind>(ANGLE);
        $run::<WorkAngleKind>(ANGLE);
        $run::<TemperatureKind>(&[
            exact("°C", "1"),
            ("°F", "5", "9", "32"),
            ("K", "1", "1", "273.15"),
        ]);
        $run::<ArcEnergyKind>(ENERGY_PER_LENGTH);
        $run::<HeatInputKind>(ENERGY_PER_LENGTH);
        $run::<PowerKind>(&[exact("W", "1"), exact("kW", "1000")]);
        $run::<EnergyKind>(&[
            exact("J", "1"),
            exact("kJ", "1000"),
            exact("MJ", "1000000"),
            exact("kWh", "3600000"),
        ]);
        $run::<DurationKind>(&[exact("s", "1"), exact("min", "60"), exact("h", "3600")]);
        // Cubic foot: 12³ cubic inches of 2.54³ cm³ each, 28.316846592 L.
        $run::<GasFlowKind>(&[exact("L/min", "1"), ("ft3/h", "28.316846592", "60", "0")]);
        $run::<GasVolumeKind>(&[
            exact("L", "1"),
            exact("m3", "1000"),
            exact("ft3", "28.316846592"),
        ]);
        $run::<MassKind>(&[exact("kg", "1"), exact("g", "0.001"), exact("lb", "0.45359237")]);
        $run::<LinearMassKind>(&[
            exact("g/m", "1"),
            exact("kg/m", "1000"),
            ("lb/ft", "453.59237", "0.3048", "0"),
        ]);
        $run::<DepositionRateKind>(&[
            exact("kg/h", "1"),
            exact("g/min", "0.06"),
            exact("lb/h", "0.45359237"),
        ]);
        $run::<AreaKind>(&[exact("mm2", "1"), exact("cm2", "100"), exact("in2", "645.16")]);
        $run::<DensityKind>(&[
            exact("g/cm3", "1"),
            exact("kg/m3", "0.001"),
            ("lb/in3", "453.59237", "16.387064", "0"),
        ]);
        // Pound-force 0.45359237 kg * 9.80665 m/s² = 4.4482216152605 N, over 645.16 mm².
        $run::<StressKind>(&[
            exact("MPa", "1"),
            ("ksi", "4448.2216152605", "645.16", "0"),
            ("psi", "4.4482216152605", "645.16", "0"),
        ]);
        $run::<ShareKind>(&[exact("1", "1"), exact("%", "0.01")]);
        $run::<HydrogenContentKind>(&[exact("mL/100g", "1")]);
        $run::<MassPercentKind>(&[exact("%", "1"), exact("ppm", "0.0001")]);
        $run::<CeIiwKind>(&[exact("%", "1")]);
        $run::<CeSiliconKind>(&[exact("%", "1")]);
        $run::<CetKind>(&[exact("%", "1")]);
        $run::<PcmKind>(&[exact("%", "1")]);
        $run::<CenKind>(&[exact("%", "1")]);
        $run::<CombinedThicknessKind>(LENGTH);
        $run::<CableLengthKind>(&[exact("m", "1"), exact("mm", "0.001"), exact("ft", "0.3048")]);
        $run::<ElectrodeLengthKind>(LENGTH);
        $run::<WeldDistanceKind>(LENGTH);
        $run::<CoolingRateKind>(&[exact("°C/s", "1"), ("°F/s", "5", "9", "0")]);
        $run::<TemperatureDifferenceKind>(&[exact("K", "1"), ("°F", "5", "9", "0")]);
        $run::<ThermalConductivityKind>(&[exact("W/(mm·K)", "1"), exact("W/(m·K)", "0.001")]);
        $run::<VolumetricHeatKind>(&[exact("J/(mm3·K)", "1"), exact("MJ/(m3·K)", "0.001")]);
        $run::<SusceptibilityIndexKind>(&[exact("1", "1")]);
        $run::<RootGapKind>(LENGTH);
        $run::<RootFaceKind>(LENGTH);
        $run::<RootRadiusKind>(LENGTH);
        $run::<PreparationDepthKind>(LENGTH);
        $run::<ReinforcementKind>(LENGTH);
        $run::<FaceWidthKind>(LENGTH);
        $run::<EdgeOverlapKind>(LENGTH);
        $run::<ThroatKind>(LENGTH);
        $run::<LayerThicknessKind>(LENGTH);
        $run::<ArcLengthKind>(LENGTH);
        $run::<IncludedAngleKind>(ANGLE);
        $run::<BevelAngleKind>(ANGLE);
        $run::<JointAngleKind>(ANGLE);
        $run::<ArcMeltingKind>(&[exact("mm/(s.A)", "1"), ("in/(min.A)", "25.4", "60", "0")]);
        $run::<ResistanceMeltingKind>(&[exact("s-1.A-2", "1"), ("min-1.A-2", "1", "60", "0")]);
        $run::<SpecificMeltRateKind>(&[exact("g/(A.h)", "1"), exact("lb/(A.h)", "453.59237")]);
        $run::<MeltingEnergyKind>(&[exact("J/mm3", "1"), ("J/in3", "1", "16387.064", "0")]);
    };
}

fn decimal(text: &str) -> Decimal {
    Decimal::from_str(text).unwrap()
}

/// A number in one unit as the number in another, by exact decimals to 28 digits.
fn converted(number: Decimal, from: &Factor, to: &Factor) -> Decimal {
    let canonical = (number - decimal(from.3)) * decimal(from.1) / decimal(from.2);
    canonical * decimal(to.2) / decimal(to.1) + decimal(to.3)
}

/// Limits that people type in this unit: four significant digits, spread over the plausible span.
fn typed_limits<K: Kind>(unit: &Factor, canonical: &Factor) -> Vec<Decimal> {
    let (low, high) = K::INFO.span;
    let at = |share: f64| {
        if low > 0.0 { low * (high / low).powf(share) } else { low + (high - low) * share }
    };
    let canonicals = [0.07, 0.25, 0.5, 0.75, 0.93].map(at);
    let exact = canonicals.map(|value| Decimal::from_f64_retain(value).unwrap());
    exact.map(|value| converted(value, canonical, unit).round_sf(4).unwrap()).to_vec()
}

/// A value that lies further than the limit by one part in a million, up or down; a limit of zero
/// is left by a millionth of the canonical unit.
fn shifted<K: Kind>(limit: Decimal, unit: &Factor, canonical: &Factor, sign: i64) -> Decimal {
    let value = converted(limit, unit, canonical);
    let floor = Decimal::from_f64_retain(K::INFO.tolerance_floor).unwrap();
    let magnitude = if value.is_zero() { Decimal::ONE } else { value.abs() }.max(floor);
    converted(value + magnitude * Decimal::new(sign, 6), canonical, unit)
}

fn pairs_agree<K: Kind>(factors: &[Factor]) {
    let canonical = &factors[0];
    let mut compared = 0;
    for typed in factors {
        for limit in typed_limits::<K>(typed, canonical) {
            let boundary = Quantity::<K>::entered(limit, typed.0).unwrap();
            for other in factors {
                let at = |number| Quantity::<K>::entered(number, other.0).unwrap();
                let same = at(converted(limit, typed, other));
                let below = at(converted(shifted::<K>(limit, typed, canonical, -1), typed, other));
                let above = at(converted(shifted::<K>(limit, typed, canonical, 1), typed, other));
                let context = format!("{}: {limit} {} as {}", K::INFO.name, typed.0, other.0);
                assert_eq!(same, boundary, "{context}");
                assert_eq!(below.compare(boundary), Ordering::Less, "{context}");
                assert_eq!(above.compare(boundary), Ordering::Greater, "{context}");
                falls_on_the_right_side(boundary, below, same, above, &context);
                compared += 1;
            }
        }
    }
    assert_eq!(compared, factors.len() * factors.len() * 5, "{}", K::INFO.name);
}

fn falls_on_the_right_side<K: Kind>(
    limit: Quantity<K>,
    below: Quantity<K>,
    same: Quantity<K>,
    above: Quantity<K>,
    context: &str,
) {
    let (up_to, from) = (Range::at_most(limit), Range::at_least(limit));
    let inside = |range: &Range<K>, value| range.contains(&Span::one(value));
    assert!(inside(&up_to, same) && inside(&from, same), "{context}");
    assert!(inside(&up_to, below) && !inside(&from, below), "{context}");
    assert!(!inside(&up_to, above) && inside(&from, above), "{context}");
}

#[test]
fn every_pair_of_units_of_every_kind_agrees_on_a_boundary() {
    every_kind!(pairs_agree);
}

fn units_are_all_here<K: Kind>(factors: &[Factor]) {
    let listed: Vec<_> = factors.iter().map(|factor| factor.0).collect();
    let known: Vec<_> = K::INFO.units.iter().map(|unit| unit.symbol).collect();
    assert_eq!(listed, known, "{}", K::INFO.name);
}

#[test]
fn no_unit_of_any_kind_is_left_out() {
    every_kind!(units_are_all_here);
}

fn units_are_read_as_text<K: Kind>(_: &[Factor]) {
    let middle = f64::midpoint(K::INFO.span.0, K::INFO.span.1);
    // A bare ratio has no form as text: a number without unit is refused on purpose.
    for unit in K::INFO.units.iter().filter(|unit| unit.symbol != "1") {
        let number = Decimal::from_f64_retain(unit.number(middle)).unwrap().round_sf(4).unwrap();
        let entered = Quantity::<K>::entered(number, unit.symbol).unwrap();
        for name in unit.also.iter().chain([&unit.symbol]) {
            let text = format!("{number} {name}");
            assert_eq!(text.parse::<Quantity<K>>(), Ok(entered), "{text}");
        }
    }
}

#[test]
fn every_unit_is_read_as_text_by_all_its_names() {
    every_kind!(units_are_read_as_text);
}

#[test]
#[expect(clippy::too_many_lines, reason = "one line for each kind")]
fn no_kind_is_left_out() {
    let mut listed = Vec::new();
    macro_rules! note {
        ($($kind:ty),+) => { $(listed.push(<$kind as Kind>::INFO.name);)+ };
    }
    note!(
        CurrentKind,
        VoltageKind,
        TravelSpeedKind,
        WireFeedKind,
        ElectricalStickOutKind,
        VisibleStickOutKind,
        TipRecessKind,
        DiameterKind,
        OutsideDiameterKind,
        ThicknessKind,
        WeaveWidthKind,
        LegKind,
        RunLengthKind,
        TravelAngleKind,
        WorkAngleKind,
        TemperatureKind,
        ArcEnergyKind,
        HeatInputKind,
        PowerKind,
        EnergyKind,
        DurationKind,
        GasFlowKind,
        GasVolumeKind,
        MassKind,
        LinearMassKind,
        DepositionRateKind,
        AreaKind,
        DensityKind,
        StressKind,
        ShareKind,
        HydrogenContentKind,
        MassPercentKind,
        CeIiwKind,
        CeSiliconKind,
        CetKind,
        PcmKind,
        CenKind,
        CombinedThicknessKind,
        CableLengthKind,
        ElectrodeLengthKind,
        WeldDistanceKind,
        CoolingRateKind,
        TemperatureDifferenceKind,
        ThermalConductivityKind,
        VolumetricHeatKind,
        SusceptibilityIndexKind,
        RootGapKind,
        RootFaceKind,
        RootRadiusKind,
        PreparationDepthKind,
        ReinforcementKind,
        FaceWidthKind,
        EdgeOverlapKind,
        ThroatKind,
        LayerThicknessKind,
        ArcLengthKind,
        IncludedAngleKind,
        BevelAngleKind,
        JointAngleKind,
        ArcMeltingKind,
        ResistanceMeltingKind,
        SpecificMeltRateKind,
        MeltingEnergyKind
    );
    let known: Vec<_> = ALL_KINDS.iter().map(|kind| kind.name).collect();
    assert_eq!(listed, known);
}

/// NIST SP 811, 2008, B.8, seven digits as printed (secondary: read in texts that quote it): pound
/// 4.535 924 E-01 kg, cubic foot 2.831 685 E-02 m³, cubic foot per minute 4.719 474 E-01 L/s, psi
/// 6.894 757 E+03 Pa, lb/in³ 2.767 990 E+04 kg/m³.
#[test]
fn factors_agree_with_the_printed_ones() {
    fn agree<K: Kind>(typed: &str, printed: &str) {
        let [typed, printed] = [typed, printed].map(|text| text.parse::<Quantity<K>>().unwrap());
        let ratio = typed.canonical() / printed.canonical();
        assert!((ratio - 1.0).abs() < 3e-7, "{typed} is not {printed}");
    }
    agree::<MassKind>("1 lb", "0.4535924 kg");
    agree::<GasVolumeKind>("1 ft3", "0.02831685 m3");
    agree::<GasFlowKind>("60 ft3/h", "28.316844 L/min");
    agree::<StressKind>("1000 psi", "6.894757 MPa");
    agree::<StressKind>("1 ksi", "6.894757 MPa");
    agree::<DensityKind>("0.1 lb/in3", "2767.990 kg/m3");
}

/// The pairs the trade meets every day: 3 in/min is 76.2 mm/min, 3/4 in is 19.05 mm, 350 in/min is
/// 8.89 m/min, 35 kJ/in is 35/25.4 kJ/mm, 250 °F is 121.111... °C, 32 °F is 0 °C (inch 25.4 mm, °F
/// by 5/9 and 32).
#[test]
fn everyday_boundaries_are_the_same_either_way() {
    fn same<K: Kind>(one: &str, other: &str) {
        let [one, other] = [one, other].map(|text| text.parse::<Quantity<K>>().unwrap());
        assert_eq!(one, other);
    }
    same::<TravelSpeedKind>("3 in/min", "76.2 mm/min");
    same::<TravelSpeedKind>("3 in/min", "1.27 mm/s");
    same::<ElectricalStickOutKind>("3/4 in", "19.05 mm");
    same::<WireFeedKind>("350 in/min", "8.89 m/min");
    same::<ArcEnergyKind>("35 kJ/in", "1.377952755905511811 kJ/mm");
    same::<HeatInputKind>("25400 J/in", "1 kJ/mm");
    same::<TemperatureKind>("250 °F", "121.1111111111111 °C");
    same::<TemperatureKind>("32 °F", "0 °C");
}
