//! Sheets of whole documents.

use std::collections::HashMap;

use proptest::prelude::*;
use serde_json::{Value, json};
use time::OffsetDateTime;

use super::{compose, gather::Gathered, say::Say, sketch};
use crate::{
    organisation::Letterhead,
    procedures::{ProcedureDocument, store::StandingRow},
    quantity::UnitSystem,
    records::Stored,
    sheet::{self, Drawing, Paper, Shape, Tone, visible},
    wire,
};

fn document() -> Value {
    json!({
        "number": "WPS-7", "title": "Butts", "manufacturer": "Shop",
        "codes": [{ "name": "ISO 15614-1", "edition": "2017" }],
        "support": { "kind": "declared-not-judged", "statement": "Report" },
        "process": "136", "joints": ["butt"], "positions": ["PA", "PF"], "base_metals": ["1.2"],
        "thickness": "8 to 20 mm",
        "parent_metal": { "designations": ["S355J2"], "forms": ["plate"] },
        "joint_design": {
            "weld": "butt", "groove": "single-v", "sides": "one", "backing": "permanent",
            "preparation": "Machined", "assembly": "Tacked",
            "fit_up": { "groove_angle": "60 deg", "root_gap": "4 mm", "root_face": "2 mm" },
        },
        "execution": { "tolerances": "x", "cleaning": "x", "sketch": "x", "run_sequence": "x" },
        "consumables": ["FCW-1"], "consumable_handling": "x", "diameters": ["1.2 mm"],
        "gas": { "groups": ["M21"] }, "polarities": ["DCEP"], "waveform": "not-controlled",
        "runs": [{ "classes": ["root"], "programme": "x", "limits": { "current": "150 to 190 A" } }],
        "note": "x",
    })
}

fn read(document: &Value) -> ProcedureDocument {
    wire::read(document).unwrap()
}

fn gathered(document: ProcedureDocument, state: &str) -> Gathered {
    let stored = Stored {
        code: "WPS-7".into(),
        revision: 3,
        edit: 1,
        state: state.into(),
        version: 1,
        document: Value::Null,
        document_hash: vec![7; 32],
        reason: None,
        author_id: None,
        created_at: OffsetDateTime::UNIX_EPOCH,
        effective_from: None,
        effective_until: None,
        in_force: None,
        withdrawn_because: None,
    };
    let standing = StandingRow {
        revision: 3,
        state: state.into(),
        events: 0,
        effective_from: None,
        effective_until: None,
        signed_by: None,
    };
    Gathered {
        letterhead: Letterhead { name: "Shop".into(), address: None },
        stored,
        document,
        standing,
        edits: Vec::new(),
        events: Vec::new(),
        people: HashMap::new(),
        consumables: Vec::new(),
        judged: None,
        changed: Vec::new(),
        released: None,
    }
}

/// Texts that people or machines might put into a field.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<String>(),
        "\\PC{1,200}",
        "[ -~]{1,80}",
        "[A-Za-z0-9]{100,400}",
        Just("</td><script>alert(1)</script>".to_owned()),
        Just("a\r\nb\tc\u{7}\u{202e}evil\u{200b}".to_owned()),
        Just("ضوء 溶接 👩‍🏭 e\u{301} ≤ 2 mm² · 60°".to_owned()),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Every text of a document stands on the page as it is, and the same lines are in the PDF.
    #[test]
    fn any_document_renders(texts in prop::collection::vec(text(), 11), us: bool) {
        let mut own = read(&document());
        let mut next = texts.iter().cloned();
        let mut text = || next.next().unwrap();
        own.title = text();
        own.manufacturer = Some(text());
        own.note = Some(text());
        own.consumable_handling = Some(text());
        own.support.statement = Some(text());
        own.runs[0].programme = Some(text());
        own.codes[0].name = text();
        let execution = own.execution.as_mut().unwrap();
        execution.tolerances = Some(text());
        execution.cleaning = Some(text());
        execution.run_sequence = Some(text());
        own.parent_metal.as_mut().unwrap().designations = vec![text()];
        let (units, paper) =
            if us { (UnitSystem::Us, Paper::Letter) } else { (UnitSystem::Metric, Paper::A4) };
        let sheet = compose::sheet(&gathered(own, "draft"), units, paper);
        sheet::nothing_leaves_the_page(&sheet);
        let words = sheet::words_of(&sheet::html(&sheet));
        let bare = |text: &str| text.replace([' ', '\n'], "");
        let drawn = bare(&sheet::lines_drawn(&sheet).concat());
        for text in &texts {
            prop_assert!(words.contains(&visible(text)), "{text:?}");
            let ascii = text.is_ascii() && text.len() < 300;
            prop_assert!(!ascii || drawn.contains(&bare(&visible(text))), "{text:?}");
        }
        prop_assert!(sheet::pdf(&sheet).unwrap().ends_with(b"%%EOF"));
    }
}

/// Limits that are not among those of a check's variables stand on the sheet as well.
#[test]
fn limits_beside_the_variables_are_printed() {
    let mut own = document();
    own["hydrogen"] = json!("H5");
    let run = &mut own["runs"][0];
    for (name, limit) in [
        ("layer_thickness", "2 to 4 mm"),
        ("run_width", "5 to 14 mm"),
        ("nozzle", "16 to 19 mm"),
        ("run_out_length", "150 to 250 mm"),
        ("stand_off", "6 to 9 mm"),
        ("plasma_flow", "1 to 3 L/min"),
    ] {
        run[name] = json!(limit);
    }
    let sheet = compose::sheet(&gathered(read(&own), "draft"), UnitSystem::Metric, Paper::A4);
    let words = sheet::words_of(&sheet::html(&sheet));
    for limit in [
        "2 to 4 mm",
        "5 to 14 mm",
        "16 to 19 mm",
        "150 to 250 mm",
        "6 to 9 mm",
        "1 to 3 L/min",
        "H5",
    ] {
        assert!(words.contains(limit), "{limit}");
    }
}

#[test]
fn a_sheet_that_nobody_may_weld_by_says_so_in_both_forms() {
    for (state, says) in [
        ("draft", Some("Draft, not released: do not weld by this sheet")),
        ("in-review", Some("In review, not released: do not weld by this sheet")),
        ("superseded", Some("Superseded: do not weld by this sheet")),
        ("withdrawn", Some("Withdrawn: do not weld by this sheet")),
        ("released", None),
    ] {
        let sheet =
            compose::sheet(&gathered(read(&document()), state), UnitSystem::Metric, Paper::A4);
        let words = sheet::words_of(&sheet::html(&sheet));
        let drawn = sheet::lines_drawn(&sheet).join("\n");
        for form in [&words, &drawn] {
            assert_eq!(form.contains("do not weld"), says.is_some(), "{state}");
            assert!(form.contains(says.unwrap_or("released")), "{state}");
        }
    }
}

fn drawn(document: &Value) -> Result<Drawing, String> {
    sketch::sketch(&read(document), &Say::new(UnitSystem::Metric))
}

fn parts(drawing: &Drawing, tone: Tone) -> Vec<Vec<(f64, f64)>> {
    let path = |shape: &Shape| match shape {
        Shape::Path(points, own) if *own == tone => Some(points.clone()),
        _ => None,
    };
    drawing.shapes.iter().filter_map(path).collect()
}

fn near(one: f64, other: f64) {
    assert!((one - other).abs() < 1e-9, "{one} is not {other}");
}

/// Own arithmetic: 20 mm thick with a root face of 2 mm leaves 18 mm of depth; at 30 degrees a side the edge runs
/// back by 18/√3 = 10.3923 mm. The gap is 4 mm.
#[test]
fn a_single_v_is_drawn_to_scale() {
    let drawing = drawn(&document()).unwrap();
    let plates = parts(&drawing, Tone::Part);
    let [left, right] = &plates[..] else { panic!("{plates:?}") };
    near(right[2].0 - left[2].0, 4.0);
    near(left[2].0 - left[1].0, 18.0 / 3.0_f64.sqrt());
    near(right[1].0 - right[2].0, 18.0 / 3.0_f64.sqrt());
    near(left[2].1 - left[1].1, 18.0);
    near(left[3].1 - left[2].1, 2.0);
    near(left[4].1 - left[0].1, 20.0);
    assert!(drawing.caption.contains("Preparation to scale for 20 mm: single V"));
    assert_eq!(parts(&drawing, Tone::Weld).len(), 1, "the backing");
}

/// Own arithmetic: a throat of 5 mm at a right angle has legs of 5·√2 = 7.0711 mm.
#[test]
fn a_fillet_is_drawn_by_its_leg_or_throat() {
    let mut fillet = document();
    fillet["joints"] = json!(["fillet"]);
    fillet["joint_design"] = json!({ "weld": "fillet", "sides": "both" });
    assert_eq!(drawn(&fillet).unwrap_err(), "neither leg nor throat is stated");
    fillet["throat"] = json!("5 to 7 mm");
    let drawing = drawn(&fillet).unwrap();
    let welds = parts(&drawing, Tone::Weld);
    assert_eq!(welds.len(), 2);
    near(welds[0][1].0 - welds[0][0].0, 5.0 * 2.0_f64.sqrt());
    near(welds[0][0].1 - welds[0][2].1, 5.0 * 2.0_f64.sqrt());
    assert!(drawing.caption.contains("no angle is stated"), "{}", drawing.caption);
    fillet["leg"] = json!({ "min": 8, "unit": "mm" });
    fillet["joint_design"]["fit_up"] = json!({ "joint_angle": "90 deg" });
    let drawing = drawn(&fillet).unwrap();
    near(parts(&drawing, Tone::Weld)[0][1].0 - parts(&drawing, Tone::Weld)[0][0].0, 8.0);
    // Converted sizes have long names; they still stand on the page.
    fillet["leg"] = json!("5/16 to 1/2 in");
    let own = gathered(read(&fillet), "draft");
    sheet::nothing_leaves_the_page(&compose::sheet(&own, UnitSystem::Metric, Paper::A4));
    fillet["joint_design"]["fit_up"] = json!({ "joint_angle": "70 deg" });
    assert!(drawn(&fillet).is_err());
}

/// What a drawing would show and nobody stated is not drawn.
#[test]
fn nothing_is_drawn_that_is_not_stated() {
    for (pointer, reason) in [
        ("/thickness", "no thickness is stated"),
        ("/joint_design/groove", "no shape of the groove is stated"),
        ("/joint_design/fit_up", "no fit-up is stated"),
        ("/joint_design/fit_up/root_gap", "no root gap is stated"),
        ("/joint_design/fit_up/root_face", "no root face is stated"),
        ("/joint_design/fit_up/groove_angle", "no groove angle is stated"),
    ] {
        let mut less = document();
        *less.pointer_mut(pointer).unwrap() = Value::Null;
        assert_eq!(drawn(&less).unwrap_err(), reason, "{pointer}");
    }
    let mut double = document();
    double["joint_design"]["groove"] = json!("double-v");
    assert_eq!(drawn(&double).unwrap_err(), "its sizes do not settle a double V groove");
}
