//! Carbon equivalents against published values and own arithmetic, and what unknown elements do.

use arcbounds::{
    quantity::{Kind, MassPercent},
    trade::{
        Bounds, CarbonEquivalents, Coded, Composition, Content, ContentError, Element, Validity,
        carbon_equivalents,
    },
};
use proptest::prelude::*;

use super::published::rows;

/// A composition from text such as `C .25 Mn 1.4 Cr <.05`; elements left out are absent by analysis
/// when `rest_is_zero`, else unknown.
fn steel(text: &str, rest_is_zero: bool) -> Composition {
    let words: Vec<_> = text.split_whitespace().collect();
    let zero = Content::Is(MassPercent::computed(0.0).unwrap());
    let rest = Element::ALL.iter().filter(|_| rest_is_zero).map(|(element, _)| (*element, zero));
    let stated = words.chunks(2).map(|pair| {
        let element = Element::from_code(pair[0]).unwrap();
        let number = |text: &str| MassPercent::computed(text.parse().unwrap()).unwrap();
        let content = match pair[1].strip_prefix('<') {
            Some(ceiling) => Content::AtMost(number(ceiling)),
            None => Content::Is(number(pair[1])),
        };
        (element, content)
    });
    Composition::new(rest.chain(stated)).unwrap()
}

fn all(text: &str) -> CarbonEquivalents {
    carbon_equivalents(&steel(text, true)).unwrap()
}

#[track_caller]
fn assert_exact<K: Kind>(id: &str, got: &Bounds<K>, expected: &str) {
    if expected.is_empty() {
        return;
    }
    let expected: f64 = expected.parse().unwrap();
    let got = got.exact().unwrap().canonical();
    assert!((got - expected).abs() <= 5.1e-5, "{id}: {} {got} is not {expected}", K::INFO.name);
}

#[test]
fn carbon_equivalents_of_known_compositions() {
    let mut compared = 0;
    for [id, composition, iiw, silicon, cet, pcm, cen, origin, source] in
        rows(include_str!("data/carbon_equivalents.csv"))
    {
        assert!(!origin.is_empty() && !source.is_empty(), "{id}");
        let got = all(&composition);
        assert_exact(&id, &got.ce_iiw, &iiw);
        assert_exact(&id, &got.ce_with_silicon, &silicon);
        assert_exact(&id, &got.cet, &cet);
        assert_exact(&id, &got.pcm, &pcm);
        assert_exact(&id, &got.cen, &cen);
        compared += [iiw, silicon, cet, pcm, cen].iter().filter(|value| !value.is_empty()).count();
    }
    assert_eq!(compared, 48);
}

/// CSA Z662 (April 1999), worksheet for CE, prints 0.5077833333 for this composition with the factor
/// A at one. At 0.25 % C the factor is 0.9973 (own arithmetic), so CEN lies just below.
#[test]
fn a_printed_worksheet_bounds_cen_from_above() {
    let text = "C .25 Mn 1.28 Si .29 Cu .109 Ni .06 Cr .05 Mo .034 V .004 B .0009";
    let cen = all(text).cen.exact().unwrap().percent();
    let bracket = (0.507_783_333_3 - 0.25) * 0.997_3;
    assert!((cen - (0.25 + bracket)).abs() < 2e-5, "{cen}");
}

/// The factor of CEN, own arithmetic: with 6 % Mn the bracket is one, so CEN - C is the factor.
#[test]
fn the_factor_of_cen() {
    for (carbon, factor) in [
        ("0", 0.5041),
        ("0.05", 0.5287),
        ("0.08", 0.5840),
        ("0.10", 0.6550),
        ("0.12", 0.75),
        ("0.15", 0.8843),
        ("0.18", 0.9584),
        ("0.20", 0.9804),
        ("0.25", 0.9973),
    ] {
        let cen = all(&format!("C {carbon} Mn 6")).cen.exact().unwrap().percent();
        let carbon: f64 = carbon.parse().unwrap();
        assert!((cen - carbon - factor).abs() < 5.1e-5, "{carbon}: {cen}");
    }
}

/// Own arithmetic: C 0.16, Mn 1.40 alone are 0.3933; with Cr, Mo, V, Ni, Cu at most 0.05, 0.01,
/// 0.003, 0.05, 0.05 it is at most 0.4126.
#[test]
fn what_is_not_stated_is_unknown_and_not_zero() {
    let got = carbon_equivalents(&steel("C .16 Mn 1.40", false)).unwrap().ce_iiw;
    assert!((got.low.percent() - 0.393_3).abs() < 5e-5);
    assert_eq!(got.high, None);
    assert_eq!(got.exact(), None);
    let unknown = [Element::Cr, Element::Mo, Element::V, Element::Ni, Element::Cu];
    assert_eq!(got.unknown, unknown);

    let capped = steel("C .16 Mn 1.40 Cr <.05 Mo <.01 V <.003 Ni <.05 Cu <.05", false);
    let got = carbon_equivalents(&capped).unwrap().ce_iiw;
    assert!((got.low.percent() - 0.393_3).abs() < 5e-5);
    assert!((got.high.unwrap().percent() - 0.412_6).abs() < 5e-5);
    assert!(got.exact().is_none() && got.unknown.is_empty());
}

/// EN 1011-2:2001, C.3, from memory: CET for C 0.05 to 0.32, Mn 0.5 to 1.9 and so on.
#[test]
fn validity_stands_beside_the_number() {
    let typical = "C .16 Si .35 Mn 1.40 Cr .05 Mo .01 V .003 Ni .05 Cu .05 Nb .02";
    assert_eq!(all(typical).cet_validity, Validity::Inside);
    let Validity::Outside(limits) = all("C .40 Mn .40 Si .30").cet_validity else {
        panic!("0.40 % C and 0.40 % Mn are outside")
    };
    let elements: Vec<_> = limits.iter().map(|limit| limit.element).collect();
    assert_eq!(elements, [Element::C, Element::Mn]);
    assert_eq!(limits[0].valid.amounts().to_string(), "0.05 % to 0.32 %");

    let partly = carbon_equivalents(&steel("C .16 Mn <1.6 Si <.55", false)).unwrap();
    let Validity::Unknown(elements) = partly.cet_validity else { panic!("most is not known") };
    assert!(elements.contains(&Element::Mn), "at most 1.6 % may be below 0.5 %");
    assert!(!elements.contains(&Element::Si) && !elements.contains(&Element::C));

    // API 5L: Pcm up to 0.12 % C. Yurioka 1983: CEN for steels of 0.02 to 0.26 % C.
    assert_eq!(all("C .12 Mn 1.5").pcm_validity, Validity::Inside);
    assert!(matches!(all("C .121 Mn 1.5").pcm_validity, Validity::Outside(_)));
    assert!(matches!(all("C .27 Mn 1.5").cen_validity, Validity::Outside(_)));
}

/// 1.4301 by EN 10088-1 (from memory: 17.5 to 19.5 % Cr, 8 to 10.5 % Ni) and a steel with 9 % Ni (`X8Ni9`, EN 10028-4):
/// EN 10027-1 names steels X from 5 % of one alloying element on (from memory), so neither is a low-alloy one.
#[test]
fn no_carbon_equivalent_is_for_a_high_alloy_steel() {
    for (text, outside) in [
        ("C .03 Si .5 Mn 1.5 Cr 18 Ni 9", [Element::Ni, Element::Cr].as_slice()),
        ("C .06 Si .25 Mn .6 Ni 9", &[Element::Ni]),
    ] {
        let all = all(text);
        for validity in [all.ce_iiw_validity, all.cet_validity, all.pcm_validity, all.cen_validity]
        {
            let Validity::Outside(limits) = validity else { panic!("{text}: {validity:?}") };
            let elements: Vec<_> = limits.iter().map(|limit| limit.element).collect();
            assert!(
                outside.iter().all(|element| elements.contains(element)),
                "{text}: {elements:?}"
            );
        }
    }
    let stainless = carbon_equivalents(&steel("C .03 Cr 18 Ni 9", false)).unwrap();
    assert!(matches!(stainless.pcm_validity, Validity::Outside(_)), "the rest is not stated");
    let bare = carbon_equivalents(&steel("C .10", false)).unwrap();
    assert!(matches!(bare.pcm_validity, Validity::Unknown(_)), "{bare:?}");
    assert!(matches!(bare.cen_validity, Validity::Unknown(_)), "{bare:?}");
}

#[test]
fn contents_no_steel_has_are_refused() {
    let content = |percent| Content::Is(MassPercent::computed(percent).unwrap());
    let negative = Composition::new([(Element::C, content(-0.1))]);
    assert!(matches!(negative, Err(ContentError::Impossible { .. })));
    let too_much = Composition::new([(Element::Cr, content(60.0)), (Element::Ni, content(50.0))]);
    assert_eq!(too_much, Err(ContentError::TooMuch));
}

proptest! {
    /// More of an element never lowers an equivalent, and a ceiling bounds the value itself.
    #[test]
    fn a_ceiling_bounds_what_lies_below_it(
        carbon in 0.0_f64..0.5, others in prop::array::uniform10(0.0_f64..2.0), share in 0.0_f64..=1.0
    ) {
        let percent = |value| MassPercent::computed(value).unwrap();
        let of = |make: fn(MassPercent) -> Content, factor: f64| {
            let values = std::iter::once(carbon).chain(others);
            let contents = Element::ALL.iter().zip(values);
            let contents = contents.map(|((element, _), value)| (*element, make(percent(value * factor))));
            carbon_equivalents(&Composition::new(contents).unwrap()).unwrap()
        };
        let (ceiling, actual) = (of(Content::AtMost, 1.0), of(Content::Is, share));
        prop_assert!(actual.ce_iiw.low.at_most(ceiling.ce_iiw.high.unwrap()));
        prop_assert!(actual.ce_with_silicon.low.at_most(ceiling.ce_with_silicon.high.unwrap()));
        prop_assert!(actual.cet.low.at_most(ceiling.cet.high.unwrap()));
        prop_assert!(actual.pcm.low.at_most(ceiling.pcm.high.unwrap()));
        prop_assert!(actual.cen.low.at_most(ceiling.cen.high.unwrap()));
        prop_assert!(actual.cen.exact().unwrap().percent().is_finite());
    }
}
