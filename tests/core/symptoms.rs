//! What a symptom may come from: the order, the source and the typed remedy of each cause.

use arcbounds::{
    quantity::{Range, Voltage},
    trade::{
        Cause, Coded, Confidence, Direction, Process, Remedy, SettingChange, SettingVariable,
        Symptom, Upkeep, symptom_advice,
    },
};

use super::published::q;

fn causes(symptom: Symptom, process: Process) -> Vec<Cause> {
    symptom_advice(symptom, process).unwrap()
}

/// Variable and direction of every change, upkeep by its code, in order.
fn remedies(causes: &[Cause]) -> Vec<String> {
    let all = causes.iter().flat_map(|cause| &cause.remedies);
    all.map(|remedy| match remedy {
        Remedy::Change(change) => format!("{} {}", change.direction(), change.variable()),
        Remedy::Upkeep(upkeep) => upkeep.code().to_owned(),
    })
    .collect()
}

fn printed(symptom: Symptom, process: Process, source: &str) -> Vec<String> {
    let from = causes(symptom, process).into_iter().filter(|cause| cause.source == source);
    remedies(&from.collect::<Vec<_>>())
}

/// One row per printed cause: symptom, process, source, and what the source says to change.
#[test]
fn printed_causes_lead_to_printed_remedies() {
    use Process::{MagFluxCored as Cored, MagSolidWire as Solid, SelfShieldedFluxCored as Open};
    let industry = "MIG Welding Handbook (industry handbook), p. 10-6";
    let fundamentals = "Welding Fundamentals, Goodheart-Willcox 2017, ch. 17, p. 253";
    let p70 = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 70";
    let p76 = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 76";
    let p156 = "GMAW/FCAW Handbook, Goodheart-Willcox 2018, p. 156";
    let rows: &[(Symptom, Process, &str, &[&str])] = &[
        (Symptom::Undercut, Solid, industry, &["lower voltage", "lower wire-feed"]),
        (Symptom::Undercut, Cored, p76, &["pause-at-toes"]),
        (Symptom::Porosity, Solid, fundamentals, &["lower travel-angle"]),
        (Symptom::WormTracks, Cored, p156, &["raise electrical-stick-out"]),
        (Symptom::SlagInclusion, Cored, fundamentals, &["raise travel-speed"]),
        (Symptom::LackOfFusion, Cored, fundamentals, &["lower electrical-stick-out"]),
        (
            Symptom::LackOfPenetration,
            Cored,
            p156,
            &["raise wire-feed", "lower voltage", "lower electrical-stick-out"],
        ),
        (Symptom::BurnThrough, Solid, p70, &["raise electrical-stick-out"]),
        (Symptom::BurnThrough, Solid, p156, &["lower wire-feed"]),
        (Symptom::ConvexBead, Open, fundamentals, &["lower travel-angle"]),
        (Symptom::Spatter, Open, fundamentals, &["lower travel-angle"]),
    ];
    for (symptom, process, source, expected) in rows {
        assert_eq!(printed(*symptom, *process, source), *expected, "{symptom} {process}");
    }
}

/// Common practice, no source: the first thing to check for each symptom and process.
#[test]
fn first_things_first() {
    use Process::{
        MagFluxCored as Cored, MagSolidWire as Solid, ManualMetalArc as Covered,
        SelfShieldedFluxCored as Open, SubmergedSolidWire as Submerged, TigSolidFiller as Tig,
    };
    let rows = [
        (Symptom::Undercut, Covered, "lower arc-length"),
        (Symptom::Undercut, Submerged, "lower voltage"),
        (Symptom::Porosity, Cored, "screen-draught"),
        (Symptom::Porosity, Open, "lower voltage"),
        (Symptom::Porosity, Covered, "lower arc-length"),
        (Symptom::WormTracks, Cored, "lower voltage"),
        (Symptom::SlagInclusion, Covered, "raise travel-speed"),
        (Symptom::LackOfFusion, Cored, "raise wire-feed"),
        (Symptom::LackOfFusion, Tig, "raise current"),
        (Symptom::LackOfFusion, Submerged, "raise current"),
        (Symptom::BurnThrough, Covered, "lower current"),
        (Symptom::ConvexBead, Solid, "raise voltage"),
        (Symptom::WireStubbing, Cored, "raise voltage"),
        (Symptom::BurnBack, Cored, "check-feed-path"),
        (Symptom::Spatter, Solid, "lower voltage"),
        (Symptom::ErraticArc, Solid, "check-contact-tip"),
        (Symptom::CraterCrack, Cored, "fill-crater"),
        (Symptom::HydrogenCrack, Covered, "use-dry-consumable"),
        (Symptom::HydrogenCrack, Tig, "clean-joint"),
        (Symptom::LongArc, Covered, "lower arc-length"),
        (Symptom::StickingElectrode, Covered, "raise arc-length"),
        (Symptom::TungstenInclusion, Tig, "regrind-tungsten"),
        (Symptom::GreyBead, Tig, "raise gas-flow"),
    ];
    for (symptom, process, first) in rows {
        assert_eq!(remedies(&causes(symptom, process))[0], first, "{symptom} {process}");
    }
}

/// A symptom that a process does not have gets no advice.
#[test]
fn advice_is_given_only_where_the_symptom_can_occur() {
    let none = [
        (Symptom::WormTracks, Process::MagSolidWire),
        (Symptom::WormTracks, Process::SelfShieldedFluxCored),
        (Symptom::WireStubbing, Process::ManualMetalArc),
        (Symptom::BurnBack, Process::TigSolidFiller),
        (Symptom::SlagInclusion, Process::MagSolidWire),
        (Symptom::TungstenInclusion, Process::MagFluxCored),
        (Symptom::LongArc, Process::MagFluxCored),
        (Symptom::Undercut, Process::Plasma),
    ];
    for (symptom, process) in none {
        assert_eq!(causes(symptom, process), [], "{symptom} {process}");
    }
}

/// No remedy asks for a variable that the process does not have.
#[test]
fn remedies_fit_their_process() {
    let mut given = 0;
    for (symptom, code) in Symptom::ALL {
        let mut concerned = 0;
        for (process, number) in Process::ALL {
            let causes = causes(*symptom, *process);
            concerned += usize::from(!causes.is_empty());
            for cause in &causes {
                given += 1;
                assert!(
                    !cause.remedies.is_empty() && !cause.in_words.is_empty(),
                    "{code} {number}"
                );
                let practice = cause.source == "common practice, no source";
                assert_eq!(cause.confidence == Confidence::CommonPractice, practice);
                for remedy in &cause.remedies {
                    assert!(fits(remedy, *process), "{code} {number}: {remedy:?}");
                }
            }
        }
        assert!(concerned > 0, "{code} concerns no process");
    }
    assert!(given > 400, "{given}");
    assert!(Symptom::ALL.len() >= 15);
}

fn fits(remedy: &Remedy, process: Process) -> bool {
    match remedy {
        Remedy::Change(change) => match change.variable() {
            SettingVariable::WireFeed => process.is_constant_voltage_wire(),
            SettingVariable::Current => !process.is_constant_voltage_wire(),
            SettingVariable::Voltage | SettingVariable::ElectricalStickOut => {
                process.has_wire_feed()
            }
            SettingVariable::ArcLength => !process.has_wire_feed(),
            SettingVariable::GasFlow => process.gas_shielded(),
            _ => true,
        },
        Remedy::Upkeep(upkeep) if upkeep.instruction().is_empty() => false,
        Remedy::Upkeep(upkeep) => match upkeep {
            Upkeep::CheckContactTip | Upkeep::CheckFeedPath | Upkeep::ShortenBurnBackTime => {
                process.has_wire_feed()
            }
            Upkeep::MeasureGasAtNozzle | Upkeep::CleanNozzle | Upkeep::CheckGasHoses => {
                process.gas_shielded()
            }
            Upkeep::RegrindTungsten | Upkeep::UseLargerTungsten => process.aws_letters() == "GTAW",
            _ => true,
        },
    }
}

/// A caller cuts a remedy to the procedure: one volt less, but not below its 26.5 V.
#[test]
fn a_remedy_stays_inside_the_procedure() {
    let advice = causes(Symptom::Undercut, Process::MagFluxCored);
    let Remedy::Change(SettingChange::Voltage(change)) = &advice[0].remedies[0] else {
        panic!("{advice:?}")
    };
    assert_eq!(change.direction, Direction::Lower);
    let allowed = Range::new(Some(q("26.5 V")), Some(q("29 V"))).unwrap();
    let next = |from: &str| -> Option<Voltage> { change.within(q(from), &allowed).unwrap() };
    assert_eq!(next("28 V"), Some(q("27 V")));
    assert_eq!(next("27 V"), Some(q("26.5 V")));
    assert_eq!(next("26.5 V"), None);
}
