//! What findings say is what the registry says they can say.

use super::probe::PROBES;
use crate::check::{
    ALL, Finding, Outcome,
    fixture::{Scene, interval, set},
    remedy::in_words,
};

/// The complete job with one variable at every place, and other ways to fail.
fn failing_scenes() -> Vec<Scene> {
    let mut scenes = Vec::new();
    for probe in PROBES {
        for value in probe.values {
            let (text, error) = (probe.text(value), probe.text(probe.error));
            scenes.push(Scene::allowed().with(|s| (probe.measure)(s, &text, &error)));
        }
        scenes.push(Scene::allowed().with(|s| (probe.set)(s, None)));
        scenes.push(Scene::allowed().with(|s| (probe.limit)(s, "", "")));
    }
    scenes.push(Scene::allowed().with(|s| s.setup.settings.arc_energy = Some(set("2 kJ/mm"))));
    scenes.push(Scene::allowed().with(|s| s.station.as_mut().unwrap().diameters.truncate(1)));
    scenes.push(Scene::allowed().with(|s| s.setup.filler.spool = Some("20 kg".parse().unwrap())));
    scenes
}

fn is_own_remedy(finding: &Finding, texts: &[&str]) -> bool {
    let Some(remedy) = &finding.remedy else { return true };
    let of_instrument = ["State the accuracy of the instrument", "Keep the "];
    let names_variable = remedy.contains(&in_words(finding.variable));
    texts.iter().any(|text| remedy.starts_with(text))
        || names_variable && of_instrument.iter().any(|text| remedy.starts_with(text))
}

#[test]
fn every_consequence_and_remedy_is_one_of_the_checks_own() {
    let mut seen = 0;
    for scene in failing_scenes() {
        for finding in scene.findings() {
            let check = ALL.iter().find(|check| check.code == finding.check).unwrap();
            let own = finding.consequence.is_none_or(|text| check.texts.contains(&text));
            assert!(own, "{}: {:?}", check.code, finding.consequence);
            assert!(is_own_remedy(&finding, check.texts), "{}: {:?}", check.code, finding.remedy);
            seen += usize::from(finding.remedy.is_some());
        }
    }
    assert!(seen > 100, "{seen}");
}

#[test]
fn whoever_is_refused_hears_what_to_change_and_what_happens_otherwise() {
    for scene in failing_scenes() {
        for finding in scene.findings() {
            use Outcome::{EdgeInside, EdgeOutside, NoLimit, NotGiven, Outside};
            match finding.outcome {
                EdgeInside | EdgeOutside | Outside => {
                    assert!(
                        finding.remedy.is_some() && finding.consequence.is_some(),
                        "{finding:?}"
                    );
                }
                NotGiven | NoLimit => assert!(finding.remedy.is_some(), "{finding:?}"),
                _ => {}
            }
            assert!(finding.reason.ends_with('.'), "{}", finding.reason);
        }
    }
}

#[test]
fn below_and_above_a_limit_have_their_own_consequence_and_the_remedy_names_the_end() {
    for probe in PROBES {
        let at = |value: f64| {
            let scene = Scene::allowed().with(|s| (probe.set)(s, Some(&probe.text(value))));
            probe.only(&scene)
        };
        let (below, above) = (at(probe.values[0]), at(probe.values[6]));
        assert_ne!(below.consequence, above.consequence, "{}", probe.check);
        let names = |finding: &Finding, end: f64| {
            finding.remedy.as_ref().is_some_and(|remedy| remedy.contains(&probe.text(end)))
        };
        assert!(names(&below, probe.ends.0), "{:?}", below.remedy);
        assert!(names(&above, probe.ends.1), "{:?}", above.remedy);
    }
}

/// The procedure of the complete job allows 200 to 240 A.
#[test]
fn a_reason_says_which_variable_which_side_and_whose_limit() {
    let reason = |current| {
        let scene = Scene::allowed().with(|s| s.setup.settings.current = current);
        scene.of("current").remove(0).reason
    };
    let limit = "the limit of 200 A to 240 A set by procedure WPS-1 revision 1";
    assert_eq!(reason(Some(set("220 A"))), format!("220 A is inside {limit}."));
    assert_eq!(reason(Some(set("250 A"))), format!("250 A is above {limit}."));
    assert_eq!(reason(Some(set("190 A"))), format!("190 A is below {limit}."));
    let both = reason(Some(interval("190 A", "250 A")));
    assert_eq!(both, format!("190 A to 250 A is partly outside {limit}."));
    assert_eq!(
        reason(None),
        "The setup does not state the current; procedure WPS-1 revision 1 sets 200 A to 240 A."
    );
}

#[test]
fn a_reason_on_a_choice_says_which_variable_is_missing() {
    let scene = Scene::allowed().with(|s| s.setup.job.run_class = None);
    let reason = scene.of("run-class").remove(0).reason;
    assert!(reason.starts_with("The setup does not state the run class; "), "{reason}");
}
