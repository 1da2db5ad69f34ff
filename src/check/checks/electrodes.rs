//! `electrodes`: how many electrodes burn together, against the procedure.

use crate::check::{
    Case, Findings, Force, Outcome, Shown,
    choice_check::{Rule, Words, texts},
    registry::declare_check,
};

declare_check! {
    /// ## Checks
    /// As many electrodes burn together as the procedure fixes for this run. A procedure that fixes no number
    /// sets no limit for a submerged arc, nor where the setup states several; for one electrode of another process
    /// that is left open.
    ///
    /// ## Why
    /// The arcs of one pool add up: two of them put in twice the heat and metal that volts, amps and feed of
    /// one tell of.
    ///
    /// ## Source
    /// The procedure. Rules behind it: ISO 15614-1:2017, 8.5.1 (processes 12x) and 8.5.2.2 (13x), level 2;
    /// ASME IX QW-410.10; AWS D1.1:2015, Table 4.5, row 11 (Table 6.5 of 2020; the edition's numbering is from
    /// a secondary text).
    ///
    /// ## Not checked
    /// Spacing, angles and polarity of each of several electrodes.
    "electrodes", Electrodes => check, texts!(WORDS)
}

const WORDS: Words = Words {
    consequence: Some(
        "With another number of arcs the joint gets another multiple of the heat and the metal.",
    ),
    change: Some("Weld with the number of electrodes of the procedure:"),
    state: Some("State how many electrodes burn together, 1 for a single one."),
    record: Some("Record how many electrodes burn together."),
};

fn check(case: &Case<'_>, findings: &mut Findings) {
    if findings.has_settled(CHECK.variable) {
        return;
    }
    let stated = case.setup.settings.electrodes;
    let source = case.procedure_source();
    let rule = Rule { check: &CHECK, source, force: Force::Required, words: &WORDS };
    let submerged = case.procedure.process.is_submerged();
    let unlimited = |findings: &mut Findings, why: &str| {
        rule.of_owner(findings, Outcome::NoLimit, || Shown::words(stated), why);
    };
    match (case.run.electrodes, stated) {
        (None, Some(2..)) => {
            let why = "Several electrodes burn together, and no number of them is set";
            unlimited(findings, why);
        }
        (None, _) if submerged => {
            let why =
                "A submerged arc may burn from several electrodes, and no number of them is set";
            unlimited(findings, why);
        }
        (fixed, stated) => {
            rule.kept(
                findings,
                stated,
                fixed,
                "The number of electrodes is left open for this run",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        check::{
            Outcome,
            Outcome::*,
            Verdict,
            fixture::{Scene, measured, quantity, range, set},
        },
        trade::Process,
    };

    fn scene(fixed: Option<u8>, stated: Option<u8>) -> Scene {
        Scene::allowed().with(|s| {
            s.procedure.runs[0].electrodes = fixed;
            s.setup.settings.electrodes = stated;
        })
    }

    fn outcomes(fixed: Option<u8>, stated: Option<u8>) -> Vec<Outcome> {
        scene(fixed, stated).outcomes("electrodes")
    }

    #[test]
    fn the_number_of_the_procedure_has_to_be_stated_and_kept() {
        assert_eq!(outcomes(Some(1), Some(1)), [Inside]);
        assert_eq!(outcomes(Some(2), Some(2)), [Inside]);
        assert_eq!(outcomes(Some(2), Some(1)), [Outside]);
        assert_eq!(outcomes(Some(1), Some(2)), [Outside]);
        assert_eq!(outcomes(Some(2), None), [NotGiven]);
        assert_eq!(scene(Some(2), None).verdict(), Verdict::Undetermined);
        assert_eq!(scene(Some(1), Some(1)).verdict(), Verdict::Allowed);
    }

    #[test]
    fn without_a_number_several_are_not_permitted_and_a_submerged_arc_is_open() {
        assert_eq!(outcomes(None, None), []);
        assert_eq!(outcomes(None, Some(1)), [NotApplicable]);
        assert_eq!(outcomes(None, Some(2)), [NoLimit]);
        let submerged = |stated| {
            let scene = scene(None, stated);
            let scene = scene.with(|s| s.procedure.process = Process::SubmergedSolidWire);
            scene.outcomes("electrodes")
        };
        assert_eq!(submerged(None), [NoLimit]);
        assert_eq!(submerged(Some(1)), [NoLimit]);
        assert_eq!(submerged(Some(2)), [NoLimit]);
    }

    /// One arc of 700 A, 32 V and 600 mm/min: 2.24 kJ/mm; two of them 4.48 kJ/mm (own arithmetic: U I 60 / v;
    /// k = 1.0 for process 121, EN 1011-1:2009, Table 1; the arcs of one pool add up, from memory).
    fn tandem(stated: Option<u8>) -> Scene {
        scene(Some(2), stated).with(|s| {
            s.procedure.process = Process::SubmergedSolidWire;
            s.setup.process = Some(Process::SubmergedSolidWire);
            let mut limits = s.limits();
            limits.current = Some(range("600 A", "750 A"));
            limits.voltage = Some(range("30 V", "34 V"));
            limits.travel_speed = Some(range("500 mm/min", "700 mm/min"));
            limits.heat_input = Some(range("", "2.5 kJ/mm"));
            (limits.arc_energy, limits.arc_power) = (None, None);
            drop(limits);
            s.setup.settings.current = Some(set("700 A"));
            s.setup.settings.voltage = Some(set("32 V"));
            s.setup.settings.travel_speed = Some(set("600 mm/min"));
        })
    }

    #[test]
    fn volts_and_amps_of_one_arc_are_never_the_heat_of_two() {
        for stated in [None, Some(2)] {
            let scene = tandem(stated);
            assert_eq!(scene.outcomes("heat-input"), [NotGiven], "{stated:?}");
            scene.in_case(|case| {
                for name in [
                    "iso-heat-input",
                    "iso-arc-energy",
                    "us-heat-input",
                    "deposition-rate",
                    "melt-rate",
                    "run-area",
                ] {
                    let figures = case.figures();
                    let why = figures.absent.iter().find(|absent| absent.name == name);
                    let why = why.unwrap_or_else(|| panic!("{name} {stated:?}")).reason.to_string();
                    assert!(why.contains("electrodes"), "{name}: {why}");
                }
            });
        }
        let one = scene(None, Some(1)).with(|s| s.limits().heat_input = Some(range("", "1 kJ/mm")));
        assert_eq!(one.outcomes("heat-input"), [Inside, Inside]);
    }

    /// 44.8 kW at 600 mm/min are 4.48 kJ/mm (own arithmetic).
    #[test]
    fn the_power_of_all_arcs_is_taken_where_the_setup_says_how_many_burn() {
        let all =
            |stated| tandem(stated).with(|s| s.setup.settings.arc_power = Some(set("44.8 kW")));
        assert_eq!(all(Some(2)).outcomes("heat-input"), [Outside]);
        let wide = all(Some(2)).with(|s| s.limits().heat_input = Some(range("", "4.5 kJ/mm")));
        assert_eq!(wide.outcomes("heat-input"), [Inside]);
        wide.in_case(|case| {
            let figure = case.figures().get("iso-heat-input").unwrap();
            assert!(
                figure.assumptions.iter().any(|note| note.contains("of all electrodes together"))
            );
        });
        // What nobody measured, and is less than the arcs come to by volts and amps, is not all there is: here that of one.
        let one = wide.with(|s| s.setup.settings.arc_power = Some(set("22.4 kW")));
        let low = one.in_case(|case| case.readings.arc_power.unwrap().span);
        assert_eq!(low.low(), quantity("22.4 kW"));
        assert_eq!(low.high(), quantity("44.8 kW"));
        assert_eq!(one.outcomes("heat-input"), [Inside]);
        let tight = one.with(|s| s.limits().heat_input = Some(range("", "3 kJ/mm")));
        assert_eq!(tight.outcomes("heat-input"), [Outside]);
        // While nobody says how many, it may be that of one.
        assert_eq!(all(None).outcomes("heat-input"), [NotGiven]);
        let limited = |s: &mut Scene| s.limits().arc_power = Some(range("20 kW", "50 kW"));
        assert_eq!(all(Some(2)).with(limited).outcomes("arc-power"), [Inside]);
        assert_eq!(all(None).with(limited).outcomes("arc-power"), [NotGiven]);
        let read = all(Some(2)).with(|s| {
            s.setup.settings.arc_power = Some(measured("44.8 kW", "1 kW"));
            s.limits().heat_input = Some(range("", "4.5 kJ/mm"));
        });
        assert_eq!(read.outcomes("heat-input"), [EdgeInside]);
    }
}
