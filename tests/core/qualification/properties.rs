//! Properties: a range contains its record; more thickness never qualifies less at the upper end; nothing panics.

use arcbounds::{
    qualify::{
        Ruling, Standing,
        record::{Deposit, Layering, Measured, Outcome, Part, Record, RunEnergy},
    },
    quantity::{ArcEnergy, Quantity, Temperature, Thickness},
    trade::{Coded, Position, Process},
};
use proptest::prelude::*;

use super::fixture::*;

fn varied(
    t: f64,
    s: f64,
    energies: (f64, f64),
    heat: (f64, f64),
    position: usize,
    single: bool,
) -> Record {
    let mut record = iso_record();
    let piece = &mut record.pieces[0];
    let (t, s): (Thickness, Thickness) =
        (Quantity::computed(t).unwrap(), Quantity::computed(s.min(t)).unwrap());
    for part in &mut piece.parts {
        part.thickness = Some(t);
    }
    piece.position = Some(Position::ALL[position].0);
    piece.layering = Some(if single { Layering::SingleRun } else { Layering::MultiRun });
    piece.deposits = vec![Deposit { process: Process::MagSolidWire, thickness: Some(s) }];
    piece.runs[0].electrical.energy =
        Some(RunEnergy::Arc(Measured::of(ArcEnergy::computed(energies.0).unwrap())));
    let mut second = piece.runs[0].clone();
    second.number = 2;
    second.electrical.energy =
        Some(RunEnergy::Arc(Measured::of(ArcEnergy::computed(energies.1).unwrap())));
    piece.runs.push(second);
    for run in &mut piece.runs {
        run.preheat = Some(Measured::of(Temperature::computed(heat.0).unwrap()));
        run.interpass = Some(Measured::of(Temperature::computed(heat.1).unwrap()));
    }
    record
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// The one exception: above 40 mm Table 7 gives nothing for single-run welds.
    #[test]
    fn a_range_contains_its_record(
        t in 0.5_f64..300.0,
        s in 0.5_f64..300.0,
        energies in (0.2_f64..4.0, 0.2_f64..4.0),
        heat in (0.0_f64..300.0, 0.0_f64..400.0),
        position in 0..Position::ALL.len(),
        single in any::<bool>(),
    ) {
        let record = varied(t, s, energies, heat, position, single);
        let judgement = judged(&record, iso(), &demanding(), &repeated(&record));
        let expected = if single && t > 40.0 { Ruling::NotJudged } else { Ruling::Qualified };
        prop_assert_eq!(judgement.ruling, expected, "{:?}", complaints(&judgement));
    }

    #[test]
    fn bands_contain_what_was_recorded(
        amps in 50.0_f64..500.0,
        volts in 14.0_f64..40.0,
        feed in 1.0_f64..20.0,
        travel in 50.0_f64..1000.0,
        flow in 8.0_f64..30.0,
        impact in any::<bool>(),
    ) {
        let mut record = aws_record();
        let run = &mut record.pieces[0].runs[0];
        run.electrical.current = Some(Measured::of(Quantity::computed(amps).unwrap()));
        run.electrical.voltage = Some(Measured::of(Quantity::computed(volts).unwrap()));
        run.electrical.wire_feed = Some(Measured::of(Quantity::computed(feed).unwrap()));
        run.travel_speed = Some(Measured::of(Quantity::computed(travel).unwrap()));
        run.gases.flow = Some(Measured::of(Quantity::computed(flow).unwrap()));
        let job = if impact { demanding() } else { undemanding() };
        let judgement = judged(&record, aws(), &job, &repeated(&record));
        prop_assert_eq!(judgement.ruling, Ruling::Qualified, "{:?}", complaints(&judgement));
    }

    /// A thicker multi-run test never has a lower upper end, nor a lower lower end.
    #[test]
    fn multi_run_thickness_rises_with_the_test(a in 0.5_f64..300.0, b in 0.5_f64..300.0) {
        let of = |t: f64| {
            let record = varied(t, t, (1.0, 1.0), (20.0, 100.0), 5, false);
            ends(&limit(&record, iso(), &demanding(), "parent-thickness-multi-run"))
        };
        let (thin, thick) = (of(a.min(b)), of(a.max(b)));
        prop_assert!(thin.1 <= thick.1);
        prop_assert!(thin.0 <= thick.0);
    }

    /// Facts taken away at random never turn into a pass that the whole record does not give.
    #[test]
    fn less_known_is_never_better(
        taken in proptest::collection::vec(0..8_usize, 0..5),
        thickness in 1.0_f64..60.0,
    ) {
        let whole = iso_record();
        let mut proposal = repeated(&whole);
        for part in &mut proposal.parts {
            let value = Thickness::computed(thickness).unwrap();
            part.thickness = Some(arcbounds::quantity::Range::new(Some(value), Some(value)).unwrap());
        }
        let full = judged(&whole, iso(), &demanding(), &proposal).ruling;
        let mut record = whole;
        let piece = &mut record.pieces[0];
        for take in &taken {
            match take {
                0 => piece.parts[0] = Part::default(),
                1 => piece.joint.sides = None,
                2 => piece.position = None,
                3 => piece.layering = None,
                4 => piece.runs[0].filler = None,
                5 => piece.runs[0].electrical.energy = None,
                6 => piece.heat_treatment = None,
                _ => piece.tests.iter_mut().for_each(|test| test.outcome = Outcome::NotJudged),
            }
        }
        let less = judged(&record, iso(), &demanding(), &proposal);
        if taken.is_empty() {
            prop_assert_eq!(less.ruling, full);
        } else {
            prop_assert_ne!(less.ruling, Ruling::Qualified);
        }
    }
}

/// Where the code itself does not let a range contain its record: positions that the pack does not know.
#[test]
fn the_orbital_position_is_not_known_to_the_us_pack() {
    let mut record = aws_record();
    record.pieces[0].position = Some(Position::Pk);
    let judgement = judged(&record, aws(), &undemanding(), &repeated(&record));
    assert!(matches!(standing(&judgement, "position"), Standing::NotJudged(_)));
    assert_eq!(Position::Pk.code(), "PK");
}
