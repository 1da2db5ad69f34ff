//! One fillet test, one butt test, and jobs that they cover.

use arcbounds::{
    qualify::{
        record::{Mechanisation, ProductForm, Transfer},
        welder::{
            FillerGroup, FillerType, Layers, TestPosition, WelderBacking, WelderJob, WelderPack,
            WelderRuling, WelderTest, WelderVariable, welder_pack,
        },
    },
    quantity::{Kind, Quantity, UnitSystem},
    trade::{JointKind, Position, Process},
};
use time::macros::date;

pub fn pack(key: &str) -> &'static WelderPack {
    welder_pack(key).unwrap_or_else(|| panic!("no pack {key}"))
}

pub fn iso() -> &'static WelderPack {
    pack("iso-9606-1-2012")
}

pub fn asme() -> &'static WelderPack {
    pack("asme-ix-2017-performance")
}

pub fn aws() -> &'static WelderPack {
    pack("aws-d1.1-2020-performance")
}

pub fn size<K: Kind>(text: &str) -> Option<Quantity<K>> {
    let read = text.parse();
    assert!(read.is_ok(), "{text}");
    read.ok()
}

/// `ISO 9606-1 135 P FW FM1 S t10 PB ml`.
pub fn fillet_test() -> WelderTest {
    WelderTest {
        welded_on: date!(2025 - 01 - 15),
        system: UnitSystem::Metric,
        process: Process::MagSolidWire,
        mechanisation: Some(Mechanisation::Partly),
        transfer: Some(Transfer::Spray),
        product: Some(ProductForm::Plate),
        weld: Some(JointKind::Fillet),
        filler_group: Some(FillerGroup::Fm1),
        filler_type: Some(FillerType::S),
        f_number: Some(6),
        deposit: None,
        thickness: size("10 mm"),
        outside_diameter: None,
        positions: vec![TestPosition::Pb],
        progression: None,
        backing: None,
        layers: Some(Layers::Multi),
        layer_count: Some(3),
        welding_unit: None,
        sensing: None,
        view: None,
    }
}

pub fn fillet_job() -> WelderJob {
    WelderJob {
        process: Some(Process::MagSolidWire),
        mechanisation: Some(Mechanisation::Partly),
        transfer: Some(Transfer::Spray),
        product: Some(ProductForm::Plate),
        weld: Some(JointKind::Fillet),
        filler_group: Some(FillerGroup::Fm1),
        filler_type: Some(FillerType::S),
        f_number: Some(6),
        thicknesses: size("8 mm").into_iter().chain(size("12 mm")).collect(),
        positions: vec![Position::Pb],
        layers: Some(Layers::Single),
        ..WelderJob::default()
    }
}

pub fn butt_test() -> WelderTest {
    WelderTest {
        weld: Some(JointKind::Butt),
        deposit: size("8 mm"),
        positions: vec![TestPosition::Pf],
        backing: Some(WelderBacking::OneSideNone),
        ..fillet_test()
    }
}

pub fn butt_job() -> WelderJob {
    WelderJob {
        weld: Some(JointKind::Butt),
        deposit: size("8 mm"),
        positions: vec![Position::Pf],
        backing: Some(WelderBacking::OneSideNone),
        ..fillet_job()
    }
}

/// The same under a code that counts by US positions.
pub fn us_test(position: TestPosition) -> WelderTest {
    WelderTest {
        positions: vec![position],
        progression: Some(arcbounds::trade::Progression::Up),
        ..butt_test()
    }
}

/// Rulings of a pack about one variable, for one test and one job; those of all its limits.
pub fn rulings(
    pack: &WelderPack,
    test: &WelderTest,
    job: &WelderJob,
    variable: WelderVariable,
) -> Vec<WelderRuling> {
    let judged = pack.range(test).judge(job);
    let of = judged.findings.into_iter().filter(|finding| finding.variable == variable);
    of.map(|finding| finding.ruling).collect()
}

/// The worst of them.
pub fn ruling(
    pack: &WelderPack,
    test: &WelderTest,
    job: &WelderJob,
    variable: WelderVariable,
) -> Option<WelderRuling> {
    rulings(pack, test, job, variable).into_iter().max()
}
