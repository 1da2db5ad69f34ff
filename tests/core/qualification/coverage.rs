//! Every edge of what one choice covers, in both directions: a table of all pairs, so that a cell that covers too
//! much fails as well as one that covers too little.

use std::collections::BTreeSet;

use arcbounds::{
    qualify::{
        Allowed, Pack, Standing,
        record::{
            Backing, CurrentForm, GrooveKind, Joint, Mechanisation, Penetration, ProductForm,
            Record, RootRemoval, Sides, Transfer, WeldKind,
        },
    },
    trade::{BeadPattern, Coded, Polarity, Position, Process},
};

use super::fixture::*;

fn words(record: &Record, pack: &Pack, rule: &str) -> BTreeSet<String> {
    let limit = limit(record, pack, &demanding(), rule);
    let Allowed::Words(words) = limit.allowed else { panic!("{}", limit.working) };
    words.into_iter().collect()
}

fn set(words: &[&str]) -> BTreeSet<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

fn groups(record: &mut Record, a: &str, b: &str) {
    for (part, group) in record.pieces[0].parts.iter_mut().zip([a, b]) {
        part.metal.group = Some(group.parse().unwrap());
    }
}

/// ISO 15614-1:2017, Table 5, as read. `?` marks what was hard to read.
const TABLE_5: &str = "
1-1: 1-1
2-1: 1-1 2-1
2-2: 1-1 2-1 2-2
3-1: 1-1 2-1 3-1
3-2: 1-1 2-1 2-2 3-1 3-2
3-3: 1-1 2-1 2-2 3-1 3-2 3-3
4-1: 4-1
4-2: 4-1 4-2
4-3: 4-1 4-2 4-3
4-4: 4-1 4-2 4-3 4-4
5-1: 5-1
5-2: 5-2
5-3: 5-3
5-4: 5-4
5-5: 5-1 5-2 5-5
6-1: 6-1
6-2: 6-1 6-2
6-3: 6-1 6-2 6-3
6-4: 6-1 6-2 6-3 6-4
6-5: 6-1 6-2 6-3 6-4 6-5
6-6: 6-1 6-2 6-3 6-4 6-5 6-6
7-1: 7-1
7-2: 7-1 7-2
7-3: 7-1 7-2 7-3
7-4: 7-4
7-5: 7-5
7-6: 7-5 7-6
7-7: 7-7
8-1: 8-1
8-2: 8-1 8-2
8-3: 8-1 8-2 8-3
8-4: 8-4
8-5: 8-1 8-2 8-4 8-5 8-6?
8-6: 8-1 8-2 8-4 8-5 8-6
8-7: 8-7
8-8: 8-8
9-1: 9-1
9-2: 9-1 9-2
9-3: 9-1 9-2 9-3
9-4: 9-4
9-5: 9-5
9-6: 9-6
9-7: 9-7
9-8: 9-8
9-9: 9-9
10-1: 10-1
10-2: 10-1 10-2
10-3: 10-1 10-2 10-3
10-4: 10-4
10-5: 10-1 10-2 10-3? 10-4 10-5 10-6?
10-6: 10-1 10-2 10-4 10-6
10-7: 10-7
10-8: 10-8
10-9: 10-9
10-10: 10-10
11-1: 1-1 11-1
11-2: 11-1 11-2
11-3: 11-1 11-2 11-3
11-4: 11-4
11-5: 11-5
11-6: 11-6
11-7: 11-7
11-8: 11-8
11-9: 11-9
11-10: 11-10
11-11: 1-1 11-1 11-11
";

/// Each tested pair against each of the 66 pairs, in either order of the parts. All parts have the same yield
/// strength and sub-group, so that only the matrix speaks.
#[test]
fn every_pair_of_groups_covers_what_table_5_says() {
    let all: Vec<_> = (1..=11).flat_map(|a: u8| (1..=a).map(move |b| (a, b))).collect();
    let rows: Vec<_> = TABLE_5.lines().filter_map(|line| line.split_once(": ")).collect();
    assert_eq!(rows.len(), all.len());
    for (tested, covered) in rows {
        let covered: BTreeSet<_> = covered.split(' ').map(|c| c.trim_end_matches('?')).collect();
        let (a, b) = tested.split_once('-').unwrap();
        let mut record = iso_record();
        groups(&mut record, &format!("{a}.1"), &format!("{b}.1"));
        let range = derived(&record, iso(), &undemanding());
        for (a, b) in &all {
            for (first, second) in [(a, b), (b, a)] {
                let mut proposal = repeated(&record);
                proposal.parts[0].group = Some(format!("{first}.1").parse().unwrap());
                proposal.parts[1].group = Some(format!("{second}.1").parse().unwrap());
                let judgement = arcbounds::qualify::judge(&proposal, std::slice::from_ref(&range));
                let inside = covered.contains(format!("{a}-{b}").as_str());
                let expected = if inside { Standing::Inside } else { Standing::Outside };
                let found = standing(&judgement, "base-metals");
                assert_eq!(found, expected, "{tested} against {first}-{second}");
            }
        }
    }
}

#[test]
fn a_cell_that_was_hard_to_read_rests_on_memory() {
    use arcbounds::trade::Confidence;
    for (tested, proposed, expected) in [
        (("8.1", "5.1"), ("8.1", "6.1"), Confidence::Memory),
        (("8.1", "5.1"), ("8.1", "4.1"), Confidence::TextRead),
        (("10.1", "5.1"), ("3.1", "10.1"), Confidence::Memory),
        (("10.1", "5.1"), ("10.1", "6.1"), Confidence::Memory),
    ] {
        let mut record = iso_record();
        groups(&mut record, tested.0, tested.1);
        let mut proposal = repeated(&record);
        proposal.parts[0].group = Some(proposed.0.parse().unwrap());
        proposal.parts[1].group = Some(proposed.1.parse().unwrap());
        let judgement = judged(&record, iso(), &undemanding(), &proposal);
        assert_eq!(finding(&judgement, "base-metals").confidence, expected, "{proposed:?}");
    }
}

/// Table 5, notes a to c: yield strength, lower sub-groups, same sub-group.
#[test]
fn the_notes_of_table_5_hold_for_each_part() {
    // tested group and yield strength, proposed group and yield strength
    for (tested, given, expected) in [
        (("1.2", "355 MPa"), ("1.2", "355 MPa"), true),
        (("1.2", "355 MPa"), ("1.1", "235 MPa"), true),
        (("1.1", "275 MPa"), ("1.2", "355 MPa"), false),
        (("1.2", "355 MPa"), ("1.2", "355.1 MPa"), false),
        (("2.1", "460 MPa"), ("2.2", "460 MPa"), true),
        (("3.1", "690 MPa"), ("3.2", "890 MPa"), false),
        (("5.2", "300 MPa"), ("5.1", "900 MPa"), true),
        (("5.2", "300 MPa"), ("5.2", "300 MPa"), true),
        (("5.2", "300 MPa"), ("5.3", "300 MPa"), false),
        (("8.1", "200 MPa"), ("8.2", "200 MPa"), false),
        (("8.2", "200 MPa"), ("8.1", "200 MPa"), true),
        (("7.1", "200 MPa"), ("7.1", "900 MPa"), true),
        (("7.2", "200 MPa"), ("7.1", "200 MPa"), false),
        (("10.1", "450 MPa"), ("10.2", "450 MPa"), false),
        (("10.2", "450 MPa"), ("10.1", "450 MPa"), false),
    ] {
        let mut record = iso_record();
        groups(&mut record, tested.0, tested.0);
        for part in &mut record.pieces[0].parts {
            part.metal.specified_yield = Some(q(tested.1));
        }
        let mut proposal = repeated(&record);
        for part in &mut proposal.parts {
            part.group = Some(given.0.parse().unwrap());
            part.specified_yield = Some(q(given.1));
        }
        let judgement = judged(&record, iso(), &undemanding(), &proposal);
        let expected = if expected { Standing::Inside } else { Standing::Outside };
        assert_eq!(standing(&judgement, "base-metals"), expected, "{tested:?} {given:?}");
    }
}

/// A dissimilar joint: each part has its own tested partner, in either order.
#[test]
fn parts_of_a_dissimilar_joint_are_laid_beside_the_tested_ones() {
    let mut record = iso_record();
    groups(&mut record, "2.1", "1.1");
    record.pieces[0].parts[0].metal.specified_yield = Some(q("460 MPa"));
    record.pieces[0].parts[1].metal.specified_yield = Some(q("235 MPa"));
    let place = |a: &str, b: &str| {
        let mut proposal = repeated(&record);
        for (part, strength) in proposal.parts.iter_mut().zip([a, b]) {
            part.group = Some("1.2".parse().unwrap());
            part.specified_yield = Some(q(strength));
        }
        standing(&judged(&record, iso(), &undemanding(), &proposal), "base-metals")
    };
    assert_eq!(place("355 MPa", "235 MPa"), Standing::Inside);
    assert_eq!(place("235 MPa", "355 MPa"), Standing::Inside);
    assert_eq!(place("355 MPa", "355 MPa"), Standing::Outside);
}

fn joint(sides: Sides, backing: Backing, removal: RootRemoval) -> Joint {
    Joint {
        sides: Some(sides),
        backing: Some(backing),
        root_removal: Some(removal),
        ..iso_record().pieces[0].joint.clone()
    }
}

/// The five ways, each as a joint.
fn ways() -> [(&'static str, Joint); 5] {
    use Sides::{Both, One};
    [
        ("one-side-no-backing", joint(One, Backing::None, RootRemoval::None)),
        ("one-side-backing", joint(One, Backing::Permanent, RootRemoval::None)),
        ("both-sides-no-removal", joint(Both, Backing::Weld, RootRemoval::None)),
        ("both-sides-mechanical-removal", joint(Both, Backing::Weld, RootRemoval::Mechanical)),
        ("both-sides-thermal-removal", joint(Both, Backing::Weld, RootRemoval::Thermal)),
    ]
}

/// ISO 15614-1:2017, 8.4.3, and AWS D1.1:2015, Table 4.5 row 34.
#[test]
fn sides_backing_and_gouging() {
    let (open, backed) = ("one-side-no-backing", "one-side-backing");
    let (plain, ground) = ("both-sides-no-removal", "both-sides-mechanical-removal");
    let gouged = "both-sides-thermal-removal";
    let iso_rows = [
        set(&[open, backed, plain, ground]),
        set(&[backed, plain, ground]),
        set(&[backed, plain, ground]),
        set(&[backed, ground]),
        set(&[backed, gouged]),
    ];
    let aws_rows = [
        set(&[open, backed, plain, ground, gouged]),
        set(&[backed]),
        set(&[plain, ground, gouged]),
        set(&[ground, gouged]),
        set(&[ground, gouged]),
    ];
    for (index, (name, joint)) in ways().into_iter().enumerate() {
        let mut record = iso_record();
        record.pieces[0].joint = joint.clone();
        assert_eq!(words(&record, iso(), "sides"), iso_rows[index], "{name}");
        let mut record = aws_record();
        record.pieces[0].joint = joint;
        assert_eq!(words(&record, aws(), "backing"), aws_rows[index], "{name}");
    }
}

/// The words of the joints are those the maps speak of, and a proposal is held to them.
#[test]
fn a_proposed_joint_is_judged_by_the_same_words() {
    for (tested, tested_joint) in ways() {
        let mut record = iso_record();
        record.pieces[0].joint = tested_joint;
        let covered = words(&record, iso(), "sides");
        for (name, joint) in ways() {
            let mut proposal = repeated(&record);
            proposal.joint = joint;
            let judgement = judged(&record, iso(), &demanding(), &proposal);
            let inside = standing(&judgement, "sides") == Standing::Inside;
            assert_eq!(inside, covered.contains(name), "{tested} {name}");
        }
    }
}

/// ISO 15614-1:2017, 8.4.3.
#[test]
fn kinds_of_weld() {
    use Penetration::{Full, Partial};
    use WeldKind::{Branch, Butt, Buttering, Fillet, TeeButt};
    let rows: &[(WeldKind, Penetration, &[&str], &[&str])] = &[
        (
            Butt,
            Full,
            &["butt-full", "butt-partial", "fillet"],
            &["butt-full", "butt-partial", "fillet", "branch"],
        ),
        (Butt, Partial, &["butt-partial"], &["butt-partial"]),
        (
            TeeButt,
            Full,
            &["tee-butt-full", "tee-butt-partial", "fillet"],
            &["tee-butt-full", "tee-butt-partial", "fillet"],
        ),
        (TeeButt, Partial, &["tee-butt-partial"], &["tee-butt-partial"]),
        (Branch, Full, &["branch"], &["branch"]),
        (Fillet, Full, &["fillet"], &["fillet"]),
        (Buttering, Full, &["buttering"], &["buttering"]),
    ];
    for (weld, penetration, plate, pipe) in rows {
        let mut record = iso_record();
        record.pieces[0].joint.weld = Some(*weld);
        record.pieces[0].joint.penetration = Some(*penetration);
        assert_eq!(words(&record, iso(), "weld-plate"), set(plate), "{weld} {penetration}");
        for part in &mut record.pieces[0].parts {
            part.form = Some(ProductForm::Pipe);
        }
        assert_eq!(words(&record, iso(), "weld-pipe"), set(pipe), "{weld} {penetration}");
    }
}

/// AWS D1.1:2015, Table 4.1 (from memory): 1G F; 2G F, H; 3G V; 4G OH; 5G F, V, OH; 6G all.
#[test]
fn us_positions() {
    let rows = [
        (Position::Pa, set(&["PA"])),
        (Position::Pb, set(&["PA", "PB"])),
        (Position::Pc, set(&["PA", "PB", "PC"])),
        (Position::Pd, set(&["PD"])),
        (Position::Pe, set(&["PD", "PE"])),
        (Position::Pf, set(&["PF"])),
        (Position::Pg, set(&["PG"])),
        (Position::Ph, set(&["PA", "PD", "PE", "PF", "PH"])),
        (Position::Pj, set(&["PA", "PD", "PE", "PG", "PJ"])),
        (Position::HL045, set(&["PA", "PB", "PC", "PD", "PE", "PF", "PH", "H-L045"])),
        (Position::JL045, set(&["PA", "PB", "PC", "PD", "PE", "PG", "PJ", "J-L045"])),
    ];
    for (position, covered) in rows {
        let mut record = aws_record();
        record.pieces[0].position = Some(position);
        assert_eq!(words(&record, aws(), "position"), covered, "{position}");
    }
    let mut orbital = aws_record();
    orbital.pieces[0].position = Some(Position::Pk);
    let unknown = limit(&orbital, aws(), &demanding(), "position");
    assert!(matches!(unknown.allowed, Allowed::Unknown(_)), "{}", unknown.working);
}

/// Table 4.6 (row 6 from a secondary text): a test in 3G up serves all positions for impact; none else serves
/// vertical up.
#[test]
fn vertical_up_serves_every_position_for_impact() {
    for (position, _) in Position::ALL.iter().filter(|(position, _)| *position != Position::Pk) {
        let mut record = aws_record();
        record.pieces[0].position = Some(*position);
        let covered = words(&record, aws(), "impact-position");
        let up = matches!(position, Position::Pf | Position::Ph | Position::HL045);
        for tested in ["PF", "PH", "H-L045"] {
            assert_eq!(covered.contains(tested), up, "{position}");
        }
        for tested in ["PA", "PB", "PC", "PD", "PE", "PG", "PJ", "J-L045"] {
            assert!(covered.contains(tested), "{position}");
        }
    }
}

/// AWS D1.1:2015, Table 4.5 rows 31 and 32.
#[test]
fn grooves() {
    for (groove, _) in GrooveKind::ALL {
        let mut record = aws_record();
        record.pieces[0].joint.groove = Some(*groove);
        let limit = limit(&record, aws(), &demanding(), "groove-complete");
        if matches!(groove, GrooveKind::FlareV | GrooveKind::FlareBevel) {
            assert!(matches!(limit.allowed, Allowed::Unknown(_)));
            continue;
        }
        let covered = words(&record, aws(), "groove-complete");
        assert!(covered.contains(groove.code()));
        let square = *groove == GrooveKind::Square;
        assert_eq!(covered.contains("square"), square, "{groove}");
        assert_eq!(covered.contains("single-v"), !square, "{groove}");
    }
}

/// ISO 15614-1:2017, 8.5.2.3 as amended in 2019; AWS D1.1:2015, Table 4.5 row 14.
#[test]
fn transfer_modes() {
    for (transfer, _) in Transfer::ALL {
        let mut record = iso_record();
        record.pieces[0].runs[0].electrical.transfer = Some(*transfer);
        let expected = match transfer {
            Transfer::ShortCircuit => set(&["short-circuit"]),
            _ => set(&["globular", "spray", "pulsed"]),
        };
        assert_eq!(words(&record, iso(), "transfer"), expected, "{transfer}");
        let mut record = aws_record();
        record.pieces[0].runs[0].process = Process::MagSolidWire;
        record.pieces[0].runs[0].electrical.transfer = Some(*transfer);
        assert_eq!(words(&record, aws(), "transfer"), set(&[transfer.code()]), "{transfer}");
    }
}

/// ISO 15614-1:2017, 8.4.6: covered electrodes on AC cover both polarities unless impact tests are required.
#[test]
fn current_and_polarity() {
    for (polarity, _) in Polarity::ALL {
        let mut record = iso_record();
        record.pieces[0].runs[0].process = Process::ManualMetalArc;
        record.pieces[0].deposits[0].process = Process::ManualMetalArc;
        record.pieces[0].runs[0].electrical.polarity = Some(*polarity);
        let rule = "current-type-covered-electrode-impact";
        assert_eq!(words(&record, iso(), rule), set(&[polarity.code()]));
        let free = limit(&record, iso(), &undemanding(), "current-type-covered-electrode");
        let expected = match polarity {
            Polarity::Ac => "AC, DCEP, DCEN",
            other => other.code(),
        };
        assert_eq!(free.allowed.to_string(), expected);
        let wire = aws_record();
        assert_eq!(words(&wire, aws(), "current-type"), set(&["DCEP"]));
    }
}

/// What is fixed as tested: the recorded value and no other.
#[test]
fn what_is_as_tested_covers_itself_only() {
    let record = iso_record();
    for (value, code) in Mechanisation::ALL {
        let mut proposal = repeated(&record);
        proposal.runs[0].mechanisation = Some(*value);
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        let inside = standing(&judgement, "mechanisation") == Standing::Inside;
        assert_eq!(inside, *code == "partly-mechanised");
    }
    let mut record = iso_record();
    record.pieces[0].deposits[0].process = Process::TigSolidFiller;
    record.pieces[0].runs[0].process = Process::TigSolidFiller;
    for (value, code) in CurrentForm::ALL {
        let mut proposal = repeated(&record);
        proposal.runs[0].form = Some(*value);
        let judgement = judged(&record, iso(), &demanding(), &proposal);
        let inside = standing(&judgement, "current-form") == Standing::Inside;
        assert_eq!(inside, *code == "steady");
    }
}

/// ISO 15614-1:2017, 8.4.4: the same or lower hydrogen. A class without a symbol promises nothing.
#[test]
fn hydrogen_may_fall_not_rise() {
    let classes = ["H5", "H10", "H15", ""];
    for (at, tested) in classes.iter().enumerate() {
        for (to, given) in classes.iter().enumerate() {
            let named = |class: &str| format!("ISO 17632-A - T 46 4 P M21 1 {class}");
            let mut record = iso_record();
            record.pieces[0].deposits[0].process = Process::MagFluxCored;
            record.pieces[0].runs[0].process = Process::MagFluxCored;
            record.pieces[0].runs[0].filler = Some(filler(named(tested).trim(), "1.2 mm"));
            let mut proposal = repeated(&record);
            proposal.runs[0].filler = Some(filler(named(given).trim(), "1.2 mm"));
            let judgement = judged(&record, iso(), &demanding(), &proposal);
            let inside = standing(&judgement, "filler-hydrogen") == Standing::Inside;
            assert_eq!(inside, to <= at, "{tested} {given}");
            assert_eq!(standing(&judgement, "filler-designation"), Standing::Inside);
        }
    }
}

/// ISO 15614-1:2017, 8.5.6, groups 1 to 6 and 8.
#[test]
fn backing_gas() {
    let at = |group: &str, gas_text: Option<&str>| {
        let mut record = iso_record();
        record.pieces[0].deposits[0].process = Process::TigSolidFiller;
        record.pieces[0].runs[0].process = Process::TigSolidFiller;
        groups(&mut record, group, group);
        record.pieces[0].runs[0].gases.backing =
            gas_text.map_or(Some(arcbounds::trade::Gas::None), gas);
        record
    };
    let low = |text| words(&at("1.2", text), iso(), "backing-gas");
    assert_eq!(low(None), set(&["none", "I1", "I2", "I3", "N1", "N2", "N3"]));
    assert_eq!(low(Some("I1")), set(&["I1", "I2", "I3"]));
    assert_eq!(low(Some("N2")), set(&["N1", "N2", "N3"]));
    let austenitic = |text| words(&at("8.1", text), iso(), "backing-gas-austenitic");
    assert_eq!(austenitic(Some("R1")), set(&["R1", "R2"]));
    assert_eq!(austenitic(Some("I3")), set(&["I1", "I2", "I3"]));
    assert_eq!(words(&at("10.1", Some("N2")), iso(), "backing-gas-fixed"), set(&["N2"]));
}

/// AWS D1.1:2015, Table 4.6 row 11: from stringer to weave in vertical positions.
#[test]
fn a_stringer_does_not_cover_a_weave() {
    for (tested, expected) in [
        (BeadPattern::Stringer, set(&["stringer"])),
        (BeadPattern::Weave, set(&["stringer", "weave"])),
    ] {
        let mut record = aws_record();
        record.pieces[0].runs[0].bead = Some(tested);
        assert_eq!(words(&record, aws(), "impact-bead"), expected);
    }
}

/// AWS D1.1:2015, Table 4.8, groups I and II (from memory).
#[test]
fn us_groups() {
    use arcbounds::qualify::record::D11Group::{I, II};
    for (pair, expected) in [
        ([I, I], set(&["I-I"])),
        ([II, I], set(&["I-I", "I-II"])),
        ([II, II], set(&["I-I", "I-II", "II-II"])),
    ] {
        let mut record = aws_record();
        for (part, group) in record.pieces[0].parts.iter_mut().zip(pair) {
            part.metal.d11_group = Some(group);
        }
        assert_eq!(words(&record, aws(), "base-metal-groups"), expected, "{pair:?}");
    }
}
