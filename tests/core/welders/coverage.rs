//! What each word covers and what it does not: every pair of every map, both ways.

use arcbounds::{
    qualify::{
        record::{Mechanisation, ProductForm, Transfer},
        welder::{
            FillerGroup, FillerType, Layers, Sensing, TestPosition, ViewOfArc, WelderBacking,
            WelderJob, WelderPack,
            WelderRuling::{Outside, Within},
            WelderTest, WelderVariable,
        },
    },
    trade::{Coded, JointKind, Position, Process},
};

use super::fixture::{
    asme, aws, butt_job, butt_test, fillet_job, fillet_test, iso, pack, ruling, size, us_test,
};

/// Every code of `T` proposed after every tested one: inside where the list says so, else outside.
fn all_pairs<T: Coded>(
    pack: &WelderPack,
    variable: WelderVariable,
    lists: &[(&str, &[&str])],
    make: impl Fn(T, T) -> (WelderTest, WelderJob),
) {
    for (tested, covered) in lists {
        for (proposed, code) in T::ALL {
            let (test, job) = make(T::from_code(tested).unwrap(), *proposed);
            let expected = if covered.contains(code) { Within } else { Outside };
            let got = ruling(pack, &test, &job, variable);
            assert_eq!(got, Some(expected), "{}: {variable} {tested} for {code}", pack.key);
        }
    }
}

/// ISO 9606-1, 5.2 (from memory): 135 and 138, 121 and 125, and 141, 143 and 145 cover each other.
#[test]
fn processes_by_iso_9606_1() {
    let lists: &[(&str, &[&str])] = &[
        ("111", &["111"]),
        ("114", &["114"]),
        ("121", &["121", "125"]),
        ("125", &["121", "125"]),
        ("131", &["131"]),
        ("135", &["135", "138"]),
        ("136", &["136"]),
        ("138", &["135", "138"]),
        ("141", &["141", "143", "145"]),
        ("142", &["142"]),
        ("143", &["141", "143", "145"]),
        ("145", &["141", "143", "145"]),
        ("15", &["15"]),
    ];
    all_pairs::<Process>(iso(), WelderVariable::Process, lists, |tested, proposed| {
        (
            WelderTest { process: tested, ..fillet_test() },
            WelderJob { process: Some(proposed), ..fillet_job() },
        )
    });
}

/// ISO 9606-1, 5.2 (from memory): short-circuiting covers the other transfers, not the reverse.
#[test]
fn transfers_by_iso_9606_1() {
    let others: &[&str] = &["globular", "spray", "pulsed"];
    let lists: &[(&str, &[&str])] = &[
        ("short-circuit", &["short-circuit", "globular", "spray", "pulsed"]),
        ("globular", others),
        ("spray", others),
        ("pulsed", others),
    ];
    all_pairs::<Transfer>(iso(), WelderVariable::Transfer, lists, |tested, proposed| {
        (
            WelderTest { transfer: Some(tested), ..fillet_test() },
            WelderJob { transfer: Some(proposed), ..fillet_job() },
        )
    });
    // Where all are covered, none has to be stated.
    let test = WelderTest { transfer: Some(Transfer::ShortCircuit), ..fillet_test() };
    let job = WelderJob { transfer: None, ..fillet_job() };
    assert_eq!(ruling(iso(), &test, &job, WelderVariable::Transfer), Some(Within));
}

/// ISO 9606-1, 5.5 table 3 (from memory; FM6 for FM5 read).
#[test]
fn filler_groups_by_iso_9606_1() {
    let lists: &[(&str, &[&str])] = &[
        ("FM1", &["FM1", "FM2"]),
        ("FM2", &["FM1", "FM2"]),
        ("FM3", &["FM1", "FM2", "FM3"]),
        ("FM4", &["FM1", "FM2", "FM3", "FM4"]),
        ("FM5", &["FM5"]),
        ("FM6", &["FM5", "FM6"]),
    ];
    all_pairs::<FillerGroup>(iso(), WelderVariable::FillerGroup, lists, |tested, proposed| {
        (
            WelderTest { filler_group: Some(tested), ..fillet_test() },
            WelderJob { filler_group: Some(proposed), ..fillet_job() },
        )
    });
}

/// ISO 9606-1, 5.6 tables 4 and 5 (from memory).
#[test]
fn filler_types_by_iso_9606_1() {
    let of = |process| {
        move |tested, proposed| {
            (
                WelderTest { process, filler_type: Some(tested), ..fillet_test() },
                WelderJob { filler_type: Some(proposed), ..fillet_job() },
            )
        }
    };
    let acid: &[&str] = &["A", "RA", "RB", "RC", "RR", "R"];
    let electrodes: &[(&str, &[&str])] = &[
        ("A", acid),
        ("RA", acid),
        ("RB", acid),
        ("RC", acid),
        ("RR", acid),
        ("R", acid),
        ("B", &["A", "RA", "RB", "RC", "RR", "R", "B"]),
        ("C", &["C"]),
    ];
    let variable = WelderVariable::FillerType;
    all_pairs::<FillerType>(iso(), variable, electrodes, of(Process::ManualMetalArc));
    let cored: &[&str] = &["R", "P", "V", "W", "Y", "Z", "nm"];
    let wires: &[(&str, &[&str])] = &[
        ("S", &["S", "M", "nm"]),
        ("M", &["S", "M", "nm"]),
        ("B", &["B", "R", "P", "V", "W", "Y", "Z", "nm"]),
        ("R", cored),
        ("P", cored),
        ("V", cored),
        ("W", cored),
        ("Y", cored),
        ("Z", cored),
        ("nm", &["nm"]),
    ];
    all_pairs::<FillerType>(iso(), variable, wires, of(Process::MagSolidWire));
}

/// ISO 9606-1, 5.8 tables 9 and 10 (from memory), with the tested position itself.
#[test]
fn positions_by_iso_9606_1() {
    let butts: &[(&str, &[&str])] = &[
        ("PA", &["PA"]),
        ("PC", &["PA", "PC"]),
        ("PE", &["PA", "PC", "PE"]),
        ("PF", &["PA", "PF"]),
        ("PH", &["PA", "PE", "PF", "PH"]),
        ("PG", &["PG"]),
        ("PJ", &["PA", "PE", "PG", "PJ"]),
        ("H-L045", &["PA", "PC", "PE", "PF", "H-L045"]),
        ("J-L045", &["PA", "PC", "PE", "PG", "J-L045"]),
    ];
    let fillets: &[(&str, &[&str])] = &[
        ("PA", &["PA"]),
        ("PB", &["PA", "PB"]),
        ("PC", &["PA", "PB", "PC"]),
        ("PD", &["PA", "PB", "PC", "PD", "PE"]),
        ("PE", &["PA", "PB", "PC", "PD", "PE"]),
        ("PF", &["PA", "PB", "PF"]),
        ("PH", &["PA", "PB", "PC", "PD", "PE", "PF", "PH"]),
        ("PG", &["PG"]),
        ("PJ", &["PA", "PB", "PD", "PE", "PG", "PJ"]),
    ];
    for (lists, test, job) in
        [(butts, butt_test(), butt_job()), (fillets, fillet_test(), fillet_job())]
    {
        for (tested, covered) in lists {
            let positions = vec![TestPosition::from_code(tested).unwrap()];
            let test = WelderTest { positions, ..test.clone() };
            for (position, code) in Position::ALL {
                let job = WelderJob { positions: vec![*position], ..job.clone() };
                let expected = if covered.contains(code) { Within } else { Outside };
                let got = ruling(iso(), &test, &job, WelderVariable::Position);
                assert_eq!(got, Some(expected), "{tested} for {code}");
            }
        }
    }
}

/// ISO 9606-1, 5.9 tables 11 and 12, 5.3 and 5.4 (from memory).
#[test]
fn details_by_iso_9606_1() {
    let backings: &[(&str, &[&str])] = &[
        ("ss-nb", &["ss-nb", "ss-mb", "bs", "ss-gb", "ss-fb"]),
        ("ss-mb", &["ss-mb", "bs"]),
        ("bs", &["ss-mb", "bs"]),
        ("ss-gb", &["ss-mb", "bs", "ss-gb"]),
        ("ss-fb", &["ss-mb", "bs", "ss-fb"]),
        ("ci", &["ss-mb", "bs", "ci"]),
    ];
    all_pairs::<WelderBacking>(iso(), WelderVariable::Backing, backings, |tested, proposed| {
        (
            WelderTest { backing: Some(tested), ..butt_test() },
            WelderJob { backing: Some(proposed), ..butt_job() },
        )
    });
    let layers: &[(&str, &[&str])] = &[("sl", &["sl"]), ("ml", &["sl", "ml"])];
    all_pairs::<Layers>(iso(), WelderVariable::Layers, layers, |tested, proposed| {
        (
            WelderTest { layers: Some(tested), ..fillet_test() },
            WelderJob { layers: Some(proposed), ..fillet_job() },
        )
    });
    let welds: &[(&str, &[&str])] = &[("butt", &["butt"]), ("fillet", &["fillet"])];
    all_pairs::<JointKind>(iso(), WelderVariable::Weld, welds, |tested, proposed| {
        (
            WelderTest { weld: Some(tested), ..butt_test() },
            WelderJob { weld: Some(proposed), ..butt_job() },
        )
    });
    let product = |diameter: &str, form| {
        let test = WelderTest {
            product: Some(ProductForm::Pipe),
            outside_diameter: size(diameter),
            ..butt_test()
        };
        let job = WelderJob { product: Some(form), ..butt_job() };
        ruling(iso(), &test, &job, WelderVariable::Product)
    };
    assert_eq!(product("25 mm", ProductForm::Plate), Some(Outside));
    assert_eq!(product("25.1 mm", ProductForm::Plate), Some(Within));
    assert_eq!(product("25 mm", ProductForm::Pipe), Some(Within));
}

/// US letters of a job: each by the ISO position that it means for the kind of weld.
fn by_letters(
    pack: &WelderPack,
    tested: &[TestPosition],
    test: &WelderTest,
    job: &WelderJob,
) -> String {
    let flat_to_overhead = match job.weld {
        Some(JointKind::Butt) => [Position::Pa, Position::Pc, Position::Pf, Position::Pe],
        _ => [Position::Pa, Position::Pb, Position::Pf, Position::Pd],
    };
    let test = WelderTest { positions: tested.to_vec(), ..test.clone() };
    let covered = flat_to_overhead.into_iter().zip(["F", "H", "V", "O"]).filter(|(position, _)| {
        let job = WelderJob { positions: vec![*position], ..job.clone() };
        ruling(pack, &test, &job, WelderVariable::Position) == Some(Within)
    });
    covered.map(|(_, letter)| letter).collect()
}

/// ASME IX QW-461.9 (secondary; pipe rows from memory), AWS D1.1:2020 table 6.10 (read). The trap between
/// them: 3G covers H by AWS, and not in grooves by ASME.
#[test]
fn us_positions_by_letters() {
    use TestPosition::{F1, F2, F3, F4, G1, G2, G3, G4, G5, G6};
    let groove = us_test(G1);
    let fillet = WelderTest { weld: Some(JointKind::Fillet), ..groove.clone() };
    let (butt, corner) = (butt_job(), fillet_job());
    let pipe = WelderJob {
        product: Some(ProductForm::Pipe),
        outside_diameter: size("610 mm"),
        ..butt_job()
    };
    let larger = WelderJob { outside_diameter: size("611 mm"), ..pipe.clone() };
    // Test, grooves in plate, grooves in pipe up to 610 mm, fillets.
    for (tested, plate, small, fillets) in [
        (&[G1][..], "F", "F", "F"),
        (&[G2], "FH", "FH", "FH"),
        (&[G3], "FV", "F", "FHV"),
        (&[G4], "FO", "F", "FHO"),
        (&[G3, G4], "FVO", "F", "FHVO"),
        (&[G4, G3, G2], "FHVO", "FH", "FHVO"),
        (&[G5], "FVO", "FVO", "FHVO"),
        (&[G6], "FHVO", "FHVO", "FHVO"),
        (&[G2, G5], "FHVO", "FHVO", "FHVO"),
    ] {
        assert_eq!(by_letters(asme(), tested, &groove, &butt), plate, "{tested:?}");
        assert_eq!(by_letters(asme(), tested, &groove, &larger), plate, "{tested:?}");
        assert_eq!(by_letters(asme(), tested, &groove, &pipe), small, "{tested:?}");
        assert_eq!(by_letters(asme(), tested, &groove, &corner), fillets, "{tested:?}");
    }
    for (tested, plate, fillets) in [
        (&[G1][..], "F", "FH"),
        (&[G2], "FH", "FH"),
        (&[G3], "FHV", "FHV"),
        (&[G4], "FO", "FHO"),
        (&[G3, G4], "FHVO", "FHVO"),
    ] {
        assert_eq!(by_letters(aws(), tested, &groove, &butt), plate, "{tested:?}");
        assert_eq!(by_letters(aws(), tested, &groove, &corner), fillets, "{tested:?}");
    }
    for (tested, fillets) in
        [(&[F1][..], "F"), (&[F2], "FH"), (&[F3], "FHV"), (&[F4], "FHO"), (&[F3, F4], "FHVO")]
    {
        assert_eq!(by_letters(aws(), tested, &fillet, &corner), fillets, "{tested:?}");
        assert_eq!(by_letters(asme(), tested, &fillet, &corner), fillets, "{tested:?}");
    }
    let outside = |pack| ruling(pack, &fillet, &butt, WelderVariable::Weld);
    assert_eq!((outside(aws()), outside(asme())), (Some(Outside), Some(Outside)));
}

/// ASME IX QW-402.4, QW-405.3, QW-433 (from memory).
#[test]
fn backing_progression_and_f_number_by_asme_ix() {
    let backing = |tested, proposed| {
        let test = WelderTest { backing: Some(tested), ..us_test(TestPosition::G3) };
        let job = WelderJob { backing: Some(proposed), ..butt_job() };
        ruling(asme(), &test, &job, WelderVariable::Backing)
    };
    let (open, strip) = (WelderBacking::OneSideNone, WelderBacking::OneSideMaterial);
    assert_eq!((backing(open, strip), backing(strip, open)), (Some(Within), Some(Outside)));
    let down = WelderJob { positions: vec![Position::Pg], ..butt_job() };
    for pack in [asme(), aws()] {
        let test = us_test(TestPosition::G3);
        let way = |job| ruling(pack, &test, job, WelderVariable::Progression);
        assert_eq!((way(&butt_job()), way(&down)), (Some(Within), Some(Outside)));
    }
    let number = |tested, proposed, backing| {
        let test = WelderTest {
            process: Process::ManualMetalArc,
            f_number: Some(tested),
            ..us_test(TestPosition::G3)
        };
        let job = WelderJob { f_number: Some(proposed), backing: Some(backing), ..butt_job() };
        ruling(asme(), &test, &job, WelderVariable::FNumber)
    };
    assert_eq!(number(4, 3, strip), Some(Within));
    assert_eq!(number(4, 3, open), Some(Outside));
    assert_eq!(number(3, 4, strip), Some(Outside));
    assert_eq!(number(4, 4, open), Some(Within));
}

/// ISO 14732, 4.2 (from memory).
#[test]
fn operators_by_iso_14732() {
    let test = WelderTest {
        mechanisation: Some(Mechanisation::Automatic),
        welding_unit: Some("portal 1".to_owned()),
        sensing: Some(Sensing::With),
        view: Some(ViewOfArc::Direct),
        layers: Some(Layers::Single),
        ..fillet_test()
    };
    let job = WelderJob {
        mechanisation: Some(Mechanisation::Automatic),
        welding_unit: Some("portal 1".to_owned()),
        sensing: Some(Sensing::With),
        ..fillet_job()
    };
    let pack = pack("iso-14732-2013");
    let judged = |test: &WelderTest, job: &WelderJob| pack.range(test).judge(job).ruling();
    assert_eq!(judged(&test, &job), Within);
    let without = WelderJob { sensing: Some(Sensing::Without), ..job.clone() };
    assert_eq!(judged(&test, &without), Outside);
    let learnt = WelderTest { sensing: Some(Sensing::Without), ..test.clone() };
    assert_eq!((judged(&learnt, &job), judged(&learnt, &without)), (Within, Within));
    let several = WelderJob { layers: Some(Layers::Multi), ..job.clone() };
    assert_eq!(judged(&test, &several), Outside);
    let other = WelderJob { welding_unit: Some("robot 7".to_owned()), ..job.clone() };
    assert_eq!(judged(&test, &other), Outside);
    let mechanised = WelderJob { mechanisation: Some(Mechanisation::Fully), ..job };
    assert_eq!(judged(&test, &mechanised), Outside);
}
