//! Estimates and comparisons against worked figures.

use arcbounds::{
    quantity::{Density, Kind},
    trade::{
        Cost, Costs, Currency, EqualBasis, EstimateError, EstimateOption, Fluxing, Gassing,
        JointPrices, JointWork, MOST_OPTIONS, Money, Permission, Powering, Price, PriceValidity,
        RankBy, Use, compare_options, estimate_joint, joint_costs,
    },
};
use time::{Date, macros::date};

use super::published::{assert_near, q};

const DAY: Date = date!(2026 - 03 - 02);

fn price<K: Kind>(amount: &str, per: &str) -> Price<K> {
    in_currency(amount, "EUR", per)
}

fn in_currency<K: Kind>(amount: &str, currency: &str, per: &str) -> Price<K> {
    let validity = PriceValidity::new(date!(2026 - 01 - 01), Some(date!(2026 - 12 - 31))).unwrap();
    let money = Money::new(amount.parse().unwrap(), Currency::parse(currency).unwrap());
    Price::new(money, q(per), validity).unwrap()
}

fn prices() -> JointPrices {
    JointPrices {
        labour: Some(price("42", "1 h")),
        filler: Some(price("2.90", "1 kg")),
        flux: None,
        gas: Some(price("9.00", "1 m3")),
        energy: Some(price("0.18", "1 kWh")),
    }
}

/// 27 V and 230 A are 6.21 kW.
fn flux_cored() -> JointWork {
    JointWork {
        deposition: q("3.5 kg/h"),
        efficiency: q("86 %"),
        operating_factor: q("35 %"),
        gas: Use::Amount(Gassing { flow: q("18 L/min"), beyond_arc: None }),
        flux: Use::NotUsed,
        power: Use::Amount(Powering { arc: q("6.21 kW"), source_efficiency: q("85 %") }),
    }
}

fn steel() -> Density {
    q("7.85 g/cm3")
}

#[track_caller]
fn costs_near(cost: Cost, expected: f64, tolerance: f64) {
    let Cost::Known(money) = cost else { panic!("{cost:?}") };
    let got: f64 = money.amount().to_string().parse().unwrap();
    assert!((got / expected - 1.0).abs() < tolerance, "{money} is not {expected}");
}

/// Own arithmetic on the equations of Basic Welding Filler Metal Technology, Lesson 9, 2000: at
/// 42/h, 3.5 kg/h, operating factor 0.35, wire 2.90/kg at 0.86, gas 18 L/min at 9.00/m³, 27 V and
/// 230 A at 0.85 and 0.18/kWh a kilogram of weld metal costs 34.29 + 3.372 + 2.777 + 0.3757 = 40.81.
/// Power is 0.92 %, below the 1 % that NAVEDTRA 14251A, ch. 5, states.
#[test]
fn cost_of_a_kilogram() {
    // 1 kg of steel in 1 m of joint: 127.388535 mm².
    let estimate = estimate_joint(q("127.388535 mm2"), steel(), q("1 m"), &flux_cored()).unwrap();
    assert_near("metal", estimate.total.metal, q("1 kg"), 1e-8);
    let costs = joint_costs(&estimate.total, &prices(), DAY).unwrap();
    costs_near(costs.labour, 34.29, 0.000_5);
    costs_near(costs.filler, 3.372, 0.000_5);
    costs_near(costs.gas, 2.777, 0.000_5);
    costs_near(costs.energy, 0.375_7, 0.000_5);
    assert_eq!(costs.flux, Cost::NotUsed);
    costs_near(costs.total, 40.81, 0.000_5);
    costs_near(costs.energy, 0.0092 * 40.81, 0.002);
}

/// Own arithmetic: a groove of 0.9090 kg/m costs 37.10 per metre; 12 m cost twelve times that, and
/// the figures per metre are those of one metre.
#[test]
fn cost_of_a_metre_and_of_the_joint() {
    let estimate = estimate_joint(q("115.8 mm2"), steel(), q("12 m"), &flux_cored()).unwrap();
    let per_metre = joint_costs(&estimate.per_metre, &prices(), DAY).unwrap();
    costs_near(per_metre.total, 37.10, 0.000_5);
    let all = joint_costs(&estimate.total, &prices(), DAY).unwrap();
    costs_near(all.total, 445.2, 0.000_5);
    assert_near("metal", estimate.per_metre.metal, q("0.9090 kg"), 0.000_1);
    assert_eq!(estimate.operating_factor, q("35 %"));
}

/// Own arithmetic: 0.9090 kg/m at 3.503 kg/h, 86 % and operating factor 0.30 take 15.57 min of arc,
/// 51.90 min in all and 1.057 kg of wire.
#[test]
fn time_and_wire_of_a_metre() {
    let work =
        JointWork { deposition: q("3.503 kg/h"), operating_factor: q("30 %"), ..flux_cored() };
    let metre = estimate_joint(q("115.8 mm2"), steel(), q("1 m"), &work).unwrap().total;
    assert_near("arc", metre.arc, q("15.57 min"), 0.000_5);
    assert_near("elapsed", metre.elapsed, q("51.90 min"), 0.000_5);
    assert_near("wire", metre.filler, q("1.057 kg"), 0.000_5);
}

/// Own arithmetic: 180 L in 10 min of arc and 18 L in a minute of pre-flow and post-flow; flux of
/// 1.2 times 1.01 kg of wire.
#[test]
fn gas_beyond_the_arc_and_flux() {
    let work = JointWork {
        deposition: q("6 kg/h"),
        gas: Use::Amount(Gassing { flow: q("18 L/min"), beyond_arc: Some(q("60 s")) }),
        flux: Use::Amount(Fluxing { ratio: q("120 %") }),
        efficiency: q("99.009901 %"),
        ..flux_cored()
    };
    let total = estimate_joint(q("127.388535 mm2"), steel(), q("1 m"), &work).unwrap().total;
    let Use::Amount(gas) = total.gas else { panic!("{total:?}") };
    assert_near("gas", gas, q("198 L"), 1e-6);
    let Use::Amount(flux) = total.flux else { panic!("{total:?}") };
    assert_near("flux", flux, q("1.212 kg"), 1e-6);
}

fn costs(work: &JointWork, prices: &JointPrices, day: Date) -> Costs {
    let estimate = estimate_joint(q("115.8 mm2"), steel(), q("1 m"), work).unwrap();
    joint_costs(&estimate.total, prices, day).unwrap()
}

#[test]
fn what_is_unknown_is_not_zero() {
    let no_gas_price = JointPrices { gas: None, ..prices() };
    let without = costs(&flux_cored(), &no_gas_price, DAY);
    assert_eq!(without.gas, Cost::Unknown("no price for the gas"));
    assert_eq!(without.total, Cost::Unknown("no price for the gas"));
    let no_reading = JointWork { power: Use::Unknown, ..flux_cored() };
    let without = costs(&no_reading, &prices(), DAY);
    assert_eq!(without.total, Cost::Unknown("use of energy not known"));
    let self_shielded = JointWork { gas: Use::NotUsed, ..flux_cored() };
    assert!(matches!(costs(&self_shielded, &no_gas_price, DAY).total, Cost::Known(_)));
}

#[test]
fn a_price_of_another_year_is_no_price() {
    let next_year = costs(&flux_cored(), &prices(), date!(2027 - 01 - 01));
    assert_eq!(next_year.total, Cost::Unknown("the price of labour does not hold on this day"));
}

#[test]
fn two_currencies_have_no_total() {
    let mixed = JointPrices { filler: Some(in_currency("3.20", "USD", "1 kg")), ..prices() };
    let estimate = estimate_joint(q("115.8 mm2"), steel(), q("1 m"), &flux_cored()).unwrap();
    let total = joint_costs(&estimate.total, &mixed, DAY);
    assert!(matches!(total, Err(EstimateError::TwoCurrencies { .. })));
}

#[test]
fn work_that_makes_no_joint_is_refused() {
    let refused = |work: JointWork| estimate_joint(q("20 mm2"), steel(), q("1 m"), &work).is_err();
    assert!(!refused(flux_cored()));
    assert!(refused(JointWork { operating_factor: q("0 %"), ..flux_cored() }));
    assert!(refused(JointWork { operating_factor: q("101 %"), ..flux_cored() }));
    assert!(refused(JointWork { efficiency: q("120 %"), ..flux_cored() }));
    let no_area = arcbounds::quantity::Area::computed(0.0).unwrap();
    assert!(estimate_joint(no_area, steel(), q("1 m"), &flux_cored()).is_err());
}

fn basis() -> EqualBasis {
    EqualBasis {
        section: q("115.8 mm2"),
        density: steel(),
        length: q("10 m"),
        day: DAY,
        labour: Some(price("42", "1 h")),
        energy: Some(price("0.18", "1 kWh")),
    }
}

fn option(name: &str, work: &JointWork) -> EstimateOption {
    EstimateOption {
        name: name.to_owned(),
        work: *work,
        prices: prices(),
        permission: Permission::Allowed,
    }
}

fn slow() -> JointWork {
    JointWork { deposition: q("1.5 kg/h"), operating_factor: q("30 %"), ..flux_cored() }
}

/// The faster process is cheaper at one labour rate, whatever its gas costs.
#[test]
fn options_are_ranked_on_one_basis() {
    let options = [option("slow", &slow()), option("fast", &flux_cored()), option("same", &slow())];
    for by in [RankBy::Cost, RankBy::ElapsedTime, RankBy::ArcTime] {
        let ranked = compare_options(&basis(), &options, by).unwrap().ranked;
        let places: Vec<_> = ranked.iter().map(|o| (o.place, o.name.as_str())).collect();
        assert_eq!(places, [(1, "fast"), (2, "slow"), (2, "same")], "{by}");
        assert_eq!(ranked[1].estimate.operating_factor, q("30 %"));
    }
    let by_filler = compare_options(&basis(), &options, RankBy::Filler).unwrap().ranked;
    assert!(by_filler.iter().all(|option| option.place == 1), "all have one efficiency");
}

#[test]
fn options_that_are_not_allowed_are_named_but_not_ranked() {
    let reason = "position PF is not qualified".to_owned();
    let refused = EstimateOption {
        permission: Permission::NotAllowed(reason.clone()),
        ..option("refused", &flux_cored())
    };
    let unpriced = EstimateOption {
        prices: JointPrices { filler: None, ..prices() },
        ..option("unpriced", &flux_cored())
    };
    let options = [refused, unpriced, option("slow", &slow())];
    let comparison = compare_options(&basis(), &options, RankBy::Cost).unwrap();
    let ranked: Vec<_> = comparison.ranked.iter().map(|option| option.name.as_str()).collect();
    assert_eq!(ranked, ["slow"]);
    let [refused, unpriced] = &comparison.unranked[..] else { panic!("{comparison:?}") };
    assert_eq!((refused.reason.as_str(), refused.estimate), (reason.as_str(), None));
    assert_eq!(unpriced.reason, "no price for the filler");
    assert!(unpriced.estimate.is_some());
    let by_time = compare_options(&basis(), &options, RankBy::ElapsedTime).unwrap();
    assert_eq!(by_time.ranked.len(), 2, "time needs no price");
}

#[test]
fn ten_options_and_no_more() {
    let mut options = vec![option("one", &slow()); MOST_OPTIONS];
    assert_eq!(compare_options(&basis(), &options, RankBy::Cost).unwrap().ranked.len(), 10);
    options.push(option("eleventh", &slow()));
    let error = compare_options(&basis(), &options, RankBy::Cost);
    assert_eq!(error, Err(EstimateError::TooManyOptions { given: 11, most: 10 }));
}

#[test]
fn costs_in_two_currencies_are_not_ranked_against_each_other() {
    let euro = option("euro", &flux_cored());
    let dollar = EstimateOption {
        prices: JointPrices {
            filler: Some(in_currency("3.2", "USD", "1 kg")),
            gas: Some(in_currency("9", "USD", "1 m3")),
            ..prices()
        },
        ..option("dollar", &flux_cored())
    };
    let error = compare_options(&basis(), &[euro, dollar], RankBy::Cost);
    assert!(matches!(error, Err(EstimateError::TwoCurrencies { .. })));
}
