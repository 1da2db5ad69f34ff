//! Joints, runs, estimates and comparisons over HTTP, against handbooks and worked examples.

use serde_json::{Value, json};

use crate::support::{
    Api, documents as doc,
    documents::with,
    figures::{Figures, ask, refused},
};

/// A capped V of 12 mm: 115.8 mm² (own arithmetic).
fn capped_vee() -> Value {
    json!({
        "vee": { "thickness": "12 mm", "gap": "3 mm", "face": "2 mm", "angle": "60 deg" },
        "cap": { "height": "2 mm", "overlap": "1 mm" },
    })
}

/// Filler-metal handbook, Calculations section, table of weights per foot of steel at 0.283 lb/in³: a fillet
/// of 1/2 in weighs 0.4245 lb/ft, a gap of 1/8 in through 1 in 0.425, a bevel of 1 in by 45 degrees 1.698, as
/// printed to three digits.
#[tokio::test]
async fn weights_of_a_handbook_table() {
    let api = Api::start().await;
    let bevel = json!({ "thickness": "1 in", "gap": "0 in", "face": "0 in", "angle": "45 deg" });
    for (joint, printed) in [
        (json!({ "fillet": { "leg": "1/2 in" } }), 0.4245),
        (json!({ "square": { "thickness": "1 in", "gap": "1/8 in" } }), 0.425),
        (json!({ "bevel": bevel }), 1.698),
    ] {
        let body = json!({ "joint": joint, "density": "0.283 lb/in3" });
        let got = Figures::us(&api, "joint", &body).await;
        got.near("mass-per-length", printed, "lb/ft", 0.003);
        assert!(got.why_absent("mass").contains("length"));
    }
}

/// TWI Job Knowledge 95: a fillet of 6 mm is half the square of its leg, 18 mm²; at 7.85 g/cm³ 141.3 g/m
/// (own arithmetic). Throat 6 / sqrt 2 = 4.243 mm, and back (own arithmetic).
#[tokio::test]
async fn a_fillet_from_its_leg_or_its_throat() {
    let api = Api::start().await;
    let body = json!({ "joint": { "fillet": { "leg": "6 mm" } }, "length": "2 m" });
    let got = Figures::of(&api, "joint", &body).await;
    got.near("cross-section", 18.0, "mm2", 1e-9);
    got.near("mass-per-length", 141.3, "g/m", 1e-9);
    got.near("mass", 0.2826, "kg", 1e-9);
    got.near("throat", 4.243, "mm", 0.000_5);
    assert!(got.assumes("cross-section", "no gap"));
    let body = json!({ "joint": { "fillet": { "throat": "4.242640687 mm" } } });
    Figures::of(&api, "joint", &body).await.near("leg", 6.0, "mm", 0.000_5);
}

/// Own arithmetic, as beside the formulas: each form once, and all that is laid beyond it.
#[tokio::test]
async fn every_form_of_joint_has_its_section() {
    let api = Api::start().await;
    let side = json!({ "depth": "11.5 mm", "angle": "60 deg" });
    let flank = json!({ "depth": "11.5 mm", "angle": "45 deg" });
    let round = |thickness: &str, radius: &str, angle: &str| {
        let (gap, face) = ("2 mm", "2 mm");
        json!({ "thickness": thickness, "gap": gap, "face": face, "radius": radius, "angle": angle })
    };
    let both = |thickness: &str, depth: &str, radius: &str, angle: &str| {
        let side = json!({ "depth": depth, "radius": radius, "angle": angle });
        json!({ "thickness": thickness, "gap": "2 mm", "near": side, "far": side })
    };
    for (joint, area) in [
        (json!({ "double_u": both("58 mm", "28 mm", "6 mm", "10 deg") }), 936.0),
        (json!({ "double_j": both("48 mm", "23 mm", "8 mm", "20 deg") }), 534.8),
        (json!({ "fillet": { "leg": "8 mm", "other_leg": "6 mm" } }), 24.0),
        (json!({ "fillet": { "leg": "6 mm", "angle": "60 deg" } }), 15.59),
        (json!({ "fillet": { "leg": "6 mm", "convex": "1 mm" } }), 23.719),
        (json!({ "fillet": { "leg": "6 mm", "convex_parabola": "1 mm" } }), 23.657),
        (json!({ "fillet": { "leg": "8 mm", "gap": "2 mm" } }), 50.0),
        (
            json!({ "vee_on_backing": { "thickness": "20 mm", "gap": "6 mm", "angle": "45 deg" } }),
            285.7,
        ),
        (
            json!({ "double_vee": {
            "thickness": "25 mm", "gap": "2 mm", "near": side, "far": side } }),
            202.7,
        ),
        (
            json!({ "double_bevel": {
            "thickness": "25 mm", "gap": "3 mm", "near": flank, "far": flank } }),
            207.2,
        ),
        (json!({ "u": round("30 mm", "6 mm", "10 deg") }), 470.0),
        (json!({ "j": round("25 mm", "8 mm", "20 deg") }), 269.4),
        (capped_vee(), 115.8),
        (with(capped_vee(), "/root", json!({ "width": "6 mm", "height": "1.5 mm" })), 121.8),
        (with(capped_vee(), "/gouge", json!({ "depth": "4 mm", "width": "9 mm" })), 139.8),
    ] {
        let got = Figures::of(&api, "joint", &json!({ "joint": joint })).await;
        got.near("cross-section", area, "mm2", 0.000_5);
    }
    let hollow = json!({ "joint": { "fillet": { "leg": "6 mm", "concave": "1 mm" } } });
    Figures::of(&api, "joint", &hollow).await.near("throat", 3.243, "mm", 0.000_5);
}

#[tokio::test]
async fn a_joint_is_one_form_and_can_be_made() {
    let api = Api::start().await;
    let body = |joint: Value| json!({ "joint": joint });
    let both =
        json!({ "fillet": { "leg": "6 mm" }, "square": { "thickness": "6 mm", "gap": "2 mm" } });
    for (joint, pointer) in [
        (json!({}), "/joint"),
        (both, "/joint"),
        (json!({ "fillet": { "angle": "90 deg" } }), "/joint/fillet"),
        (json!({ "fillet": { "leg": "6 mm", "throat": "4 mm" } }), "/joint/fillet"),
        (json!({ "square": { "thickness": "6 mm" } }), "/joint/square/gap"),
        (with(capped_vee(), "/gouge", json!({ "depth": "4 mm" })), "/joint/gouge"),
    ] {
        refused(&ask(&api, "joint", "metric", &body(joint)).await, &[pointer]);
    }
    let high = with(capped_vee(), "/vee/face", json!("13 mm"));
    let got = Figures::of(&api, "joint", &body(high)).await;
    assert!(got.why_absent("cross-section").contains("root face"));
}

/// AWS D1.1/D1.1M:2020, Table 5.1 (secondary): in the horizontal position a fillet of 10 mm is one run of wire
/// and more than one of covered electrode, whose largest single run is 8 mm.
#[tokio::test]
async fn runs_within_the_printed_limits() {
    let api = Api::start().await;
    let body = json!({
        "joint": { "fillet": { "leg": "10 mm" } }, "run_area": "50 mm2",
        "process": "111", "position": "PB",
    });
    let runs = "runs-within-prequalified-limits";
    let covered = Figures::of(&api, "run-plan", &body).await;
    covered.near("runs-by-area", 1.0, "1", 0.0);
    covered.near("largest-single-run-fillet", 8.0, "mm", 0.0);
    covered.near(runs, 2.0, "1", 0.0);
    assert!(covered.assumes(runs, "largest-single-run-fillet"));
    assert!(covered.why_absent("runs-within-own-limits").contains("no limits"));
    let wire = Figures::of(&api, "run-plan", &with(body.clone(), "/process", json!("136"))).await;
    wire.near(runs, 1.0, "1", 0.0);
    let tig = Figures::of(&api, "run-plan", &with(body.clone(), "/process", json!("141"))).await;
    assert!(tig.why_absent(runs).contains("141"));
    let nowhere = Figures::of(&api, "run-plan", &with(body, "/position", Value::Null)).await;
    assert!(nowhere.why_absent(runs).contains("position"));
}

/// Own arithmetic: 29.75 mm² of one run, so 115.8 mm² take 4 runs; 12 mm deep with a root layer of 3 mm and
/// fill layers of 1.5 mm are 1 + 6 layers. Table 5.1: a root run of wire in PF is at most 12 mm.
#[tokio::test]
async fn runs_of_a_groove_from_wire_data() {
    let api = Api::start().await;
    let body = json!({
        "joint": capped_vee(),
        "run": {
            "wire_feed": "9.5 m/min", "linear_mass": "7.145 g/m", "efficiency": "86 %",
            "travel_speed": "0.25 m/min",
        },
        "limits": { "root_layer": "3 mm", "fill_layer": "1.5 mm" },
        "process": "136", "position": "PF",
    });
    let got = Figures::of(&api, "run-plan", &body).await;
    got.near("run-area", 29.75, "mm2", 0.000_5);
    got.near("runs-by-area", 4.0, "1", 0.0);
    got.near("runs-within-own-limits", 7.0, "1", 0.0);
    got.near("thickest-root-run", 12.0, "mm", 0.0);
    let unlimited = with(body.clone(), "/limits/fill_layer", Value::Null);
    let half = Figures::of(&api, "run-plan", &unlimited).await;
    assert!(half.why_absent("runs-within-own-limits").contains("not known"));
    let none = Figures::of(&api, "run-plan", &with(body.clone(), "/run", Value::Null)).await;
    assert!(none.why_absent("runs-by-area").contains("not known"));
    let wrong = with(body, "/run/travel_speed", json!("0.25 m"));
    refused(&ask(&api, "run-plan", "us", &wrong).await, &["/run/travel_speed"]);
}

/// Own arithmetic, runs of 29.75 mm². Double V, 25 mm, gap 2 mm, 14 and 9 mm deep under 60 degrees: near 145.16 mm² are 5
/// runs (4.88), far 64.77 mm² 3 (2.18), where 209.93 mm² from one side were 8 (7.06). Layers of 4 mm and 2 mm: near 1 +
/// (16 - 4) / 2 = 7, far 9 / 2, so 5. A gouge of 16 mm² and 3 mm makes far 80.77 mm², 3 runs and 12 / 2 = 6 layers.
#[tokio::test]
async fn runs_of_a_joint_filled_from_both_sides() {
    let api = Api::start().await;
    let side = |depth: &str| json!({ "depth": depth, "angle": "60 deg" });
    let body = json!({
        "joint": {
            "double_vee": {
                "thickness": "25 mm", "gap": "2 mm", "near": side("14 mm"), "far": side("9 mm")
            },
        },
        "run_area": "29.75 mm2",
        "limits": { "root_layer": "4 mm", "fill_layer": "2 mm" },
    });
    let (by_area, runs) = ("runs-by-area", "runs-within-own-limits");
    let got = Figures::of(&api, "run-plan", &body).await;
    got.near("near-side-section", 145.16, "mm2", 0.000_5);
    got.near("far-side-section", 64.77, "mm2", 0.000_5);
    got.near(by_area, 8.0, "1", 0.0);
    got.near(runs, 12.0, "1", 0.0);
    assert!(got.assumes(runs, "near side set by thickest-layer, far side set by thickest-layer"));
    let gouge = json!({ "depth": "3 mm", "width": "8 mm" });
    let gouged = Figures::of(&api, "run-plan", &with(body.clone(), "/joint/gouge", gouge)).await;
    gouged.near("far-side-depth", 12.0, "mm", 0.0);
    gouged.near(by_area, 8.0, "1", 0.0);
    gouged.near(runs, 13.0, "1", 0.0);
    // Runs of 36 mm²: 4.03 near and 1.80 far, so 5 + 2, though all of it is 5.83 of them.
    let shared = Figures::of(&api, "run-plan", &with(body, "/run_area", json!("36 mm2"))).await;
    shared.near(by_area, 7.0, "1", 0.0);
}

fn price(amount: &str, per: &str) -> Value {
    let (from, until) = ("2026-01-01", "2026-12-31");
    json!({
        "amount": amount, "currency": "EUR", "per": per, "valid_from": from, "valid_until": until,
    })
}

/// One kilogram of weld metal in one metre of joint: 127.388535 mm² as a square joint.
fn estimate() -> Value {
    json!({
        "joint": { "square": { "thickness": "127.388535 mm", "gap": "1 mm" } },
        "length": "1 m",
        "work": {
            "process": "136", "deposition_rate": "3.5 kg/h", "efficiency": "86 %",
            "operating_factor": "35 %", "gas_flow": "18 L/min", "arc_power": "6.21 kW",
            "source_efficiency": "85 %",
        },
        "material_prices": { "filler": price("2.90", "1 kg"), "gas": price("9.00", "1 m3") },
        "shared_prices": { "labour": price("42", "1 h"), "energy": price("0.18", "1 kWh") },
        "manner": "semi-automatic",
        "day": "2026-03-02",
    })
}

#[track_caller]
fn costs_near(got: &Figures, name: &str, expected: f64) {
    let value = &got.get(name)["value"];
    assert_eq!(value["currency"], "EUR", "{value}");
    let amount = value["value"].as_f64().unwrap();
    assert!((amount / expected - 1.0).abs() < 0.000_5, "{name}: {amount} is not {expected}");
}

/// Equations of Basic Welding Filler Metal Technology, Lesson 9, 2000 (numbers own arithmetic): a kilogram
/// costs 34.29 + 3.372 + 2.777 + 0.3757 = 40.81; the same course gives 45 % as usual where unknown.
#[tokio::test]
async fn cost_of_a_kilogram() {
    let api = Api::start().await;
    let got = Figures::of(&api, "joint-estimate", &estimate()).await;
    got.near("weld-metal", 1.0, "kg", 1e-4);
    for (name, expected) in [
        ("labour-cost", 34.29),
        ("filler-cost", 3.372),
        ("gas-cost", 2.777),
        ("energy-cost", 0.3757),
        ("total-cost", 40.81),
        ("total-cost-per-metre", 40.81),
    ] {
        costs_near(&got, name, expected);
    }
    assert!(got.assumes("elapsed-time", "35 %"));
    // Own arithmetic: 1 kg at 3.5 kg/h are 0.2857 h of arc, over 35 % 0.8163 h; 6.21 kW / 85 % for 0.2857 h.
    got.near("arc-time", 0.285_7, "h", 5e-4);
    got.near("elapsed-time", 0.816_3, "h", 5e-4);
    got.near("energy", 2.087, "kWh", 5e-4);
    assert!(got.assumes("labour-cost", "price 42 EUR for 1 h, from 2026-01-01"));
    assert!(got.assumes("labour-cost", "day 2026-03-02"));
    assert!(got.assumes("total-cost", "prices of 2026-03-02"));
    assert!(got.why_absent("flux-cost").contains("does not use it"));
    got.near("usual-operating-factor", 45.0, "%", 1e-9);
    let codes: Vec<_> = got.0["cautions"].as_array().unwrap().iter().map(|c| &c["code"]).collect();
    for code in ["eye-and-face", "fume", "gas-cylinders", "judgement"] {
        assert!(codes.contains(&&json!(code)), "{code}: {codes:?}");
    }
}

#[tokio::test]
async fn what_has_no_price_is_no_zero() {
    let api = Api::start().await;
    let unpriced = with(estimate(), "/material_prices/gas", Value::Null);
    let got = Figures::of(&api, "joint-estimate", &unpriced).await;
    assert_eq!(got.why_absent("gas-cost"), "no price for the gas");
    assert_eq!(got.why_absent("total-cost"), "no price for the gas");
    costs_near(&got, "labour-cost", 34.29);
    let later = with(estimate(), "/day", json!("2027-01-01"));
    let got = Figures::of(&api, "joint-estimate", &later).await;
    assert!(got.why_absent("total-cost").contains("does not hold on this day"));
    let why = got.why_absent("labour-cost");
    assert!(why.contains("day 2027-01-01") && why.contains("to 2026-12-31"), "{why}");
    let unknown = with(estimate(), "/work/arc_power", Value::Null);
    let got = Figures::of(&api, "joint-estimate", &unknown).await;
    assert!(got.why_absent("energy").contains("arc power"));
    let dollars = with(estimate(), "/material_prices/gas/currency", json!("USD"));
    let got = Figures::of(&api, "joint-estimate", &dollars).await;
    assert!(got.why_absent("total-cost").contains("one currency"));
    // What is used does not hang on what it costs.
    assert!(got.assumes("weld-metal", "density of unalloyed steel"));
    let got = Figures::of(&api, "joint-estimate", &estimate()).await;
    assert!(got.assumes("weld-metal", "density of unalloyed steel, 7.85 g/cm3"));
    let aluminium = with(estimate(), "/base_metals", json!(["21", "1.2"]));
    let got = Figures::of(&api, "joint-estimate", &aluminium).await;
    assert_eq!(
        got.why_absent("estimate"),
        "group 21 is no steel; state the density of the weld metal"
    );
    let stated = with(aluminium, "/density", json!("2.7 g/cm3"));
    let got = Figures::of(&api, "joint-estimate", &stated).await;
    assert!(got.assumes("weld-metal", "density as given"));
    let no_rate = with(estimate(), "/work/deposition_rate", Value::Null);
    let got = Figures::of(&api, "joint-estimate", &no_rate).await;
    assert!(got.why_absent("deposition-rate").contains("give the deposition rate"));
}

#[tokio::test]
async fn an_estimate_needs_its_operating_factor_and_sound_prices() {
    let api = Api::start().await;
    for (pointer, value) in [
        ("/work/operating_factor", Value::Null),
        ("/work/operating_factor", json!("0 %")),
        ("/work/operating_factor", json!("135 %")),
        ("/work/efficiency", json!("135 %")),
        ("/work/source_efficiency", json!("0 %")),
        ("/length", Value::Null),
        ("/material_prices/filler/currency", json!("EURO")),
        ("/shared_prices/labour/per", json!("1 kg")),
        ("/shared_prices/labour/amount", json!("much")),
    ] {
        let body = with(estimate(), pointer, value);
        refused(&ask(&api, "joint-estimate", "metric", &body).await, &[pointer]);
    }
}

/// An option with the setup of the released procedure, or with a change of it.
fn option(name: &str, rate: &str, setup: &Value) -> Value {
    json!({
        "name": name,
        "work": {
            "process": "136", "deposition_rate": rate, "efficiency": "86 %",
            "operating_factor": "35 %", "gas_flow": "18 L/min",
        },
        "setup": setup,
    })
}

fn comparison(options: &[Value]) -> Value {
    json!({
        "joint": { "fillet": { "leg": "6 mm" } }, "length": "10 m", "position": "PB",
        "rank_by": "arc-time", "options": options,
    })
}

fn names(list: &Value) -> Vec<&str> {
    list.as_array().unwrap().iter().map(|option| option["name"].as_str().unwrap()).collect()
}

/// The rule is own choice: what is not allowed, or not known to be, has no place. Own arithmetic: 18 mm² over
/// 10 m are 1.413 kg, 24.22 min at 3.5 kg/h and 56.52 min at 1.5 kg/h.
#[tokio::test]
async fn only_what_is_allowed_is_ranked() {
    let api = Api::furnished().await;
    let changed = |pointer: &str, value: Value| with(doc::setup(), pointer, value);
    let body = comparison(&[
        option("slow", "1.5 kg/h", &doc::setup()),
        option("fast", "3.5 kg/h", &changed("/job/position", Value::Null)),
        option("too hot", "5 kg/h", &changed("/settings/current", json!("260 A"))),
        option("not stated", "6 kg/h", &changed("/settings/gas_flow", Value::Null)),
        option("not asked", "1 kg/h", &Value::Null),
    ]);
    let answer = ask(&api, "comparison", "metric", &body).await.expect(200);
    assert_eq!(names(&answer["ranked"]), ["fast", "slow", "not asked"], "{answer:#}");
    assert_eq!(names(&answer["unranked"]), ["too hot", "not stated"]);
    let verdict = |list: &str, index: usize| &answer[list][index]["verdict"];
    assert_eq!(verdict("ranked", 0), "allowed");
    assert_eq!(verdict("ranked", 2), "not-judged");
    assert_eq!(verdict("unranked", 0), "not-allowed");
    assert_eq!(verdict("unranked", 1), "undetermined");
    let reason = |index: usize| answer["unranked"][index]["reason"].as_str().unwrap();
    assert!(reason(0).contains("260 A is above the limit of 200 A to 240 A"), "{}", reason(0));
    assert!(reason(1).contains("14 L/min to 18 L/min"), "{}", reason(1));
    assert_eq!(answer["unranked"][0]["figures"], json!([]));
    for (index, minutes) in [(0, 24.22), (1, 56.52)] {
        let figures = answer["ranked"][index]["figures"].as_array().unwrap();
        let time = figures.iter().find(|figure| figure["name"] == "arc-time").unwrap();
        let time = &time["value"];
        assert_eq!(time["unit"], "h", "{time}");
        let hours = time["value"].as_f64().unwrap();
        assert!((hours * 60.0 / minutes - 1.0).abs() < 0.001, "{time}");
    }
}

#[tokio::test]
async fn an_option_without_the_figure_to_rank_by_says_so() {
    let api = Api::furnished().await;
    let mut unpriced = option("unpriced", "3.5 kg/h", &Value::Null);
    let mut unknown = option("unknown", "3.5 kg/h", &Value::Null);
    unknown["work"]["deposition_rate"] = Value::Null;
    unpriced["material_prices"] = Value::Null;
    let body = with(comparison(&[unpriced, unknown]), "/rank_by", json!("cost"));
    let answer = ask(&api, "comparison", "metric", &body).await.expect(200);
    assert_eq!(names(&answer["unranked"]), ["unpriced", "unknown"]);
    assert_eq!(answer["unranked"][0]["reason"], "no price for labour");
    let reason = answer["unranked"][1]["reason"].as_str().unwrap();
    assert!(reason.contains("deposition rate"), "{reason}");
}

#[tokio::test]
async fn options_stand_on_one_basis() {
    let api = Api::furnished().await;
    let fair = option("fair", "3.5 kg/h", &doc::setup());
    let other = |pointer: &str, value: Value| {
        option("other", "3.5 kg/h", &with(doc::setup(), pointer, value))
    };
    for (pointer, value) in [
        ("/job/position", json!("PA")),
        ("/job/joint", json!("butt")),
        ("/job/weld_length", json!("9 m")),
        ("/job/leg", json!("8 mm")),
        ("/process", json!("135")),
        ("/station", json!("ST-404")),
        ("/settings/current", json!(220)),
    ] {
        let body = comparison(&[fair.clone(), other(pointer, value)]);
        let at = format!("/options/1/setup{pointer}");
        refused(&ask(&api, "comparison", "metric", &body).await, &[&at]);
    }
    let aluminium = other("/job/base_metals", json!([{ "group": "22" }, { "group": "22" }]));
    let body = comparison(&[fair.clone(), aluminium.clone()]);
    refused(&ask(&api, "comparison", "metric", &body).await, &["/density"]);
    let body = with(comparison(&[aluminium, fair.clone()]), "/density", json!("2.7 g/cm3"));
    ask(&api, "comparison", "metric", &body).await.expect(200);
    let body = comparison(std::slice::from_ref(&fair));
    refused(&ask(&api, "comparison", "metric", &body).await, &["/options"]);
    let eleven: Vec<_> = (0..11).map(|n| option(&n.to_string(), "1 kg/h", &Value::Null)).collect();
    refused(&ask(&api, "comparison", "metric", &comparison(&eleven)).await, &["/options"]);
    let mut tireless = fair.clone();
    tireless["work"]["operating_factor"] = json!("135 %");
    let body = comparison(&[fair.clone(), tireless]);
    let at = "/options/1/work/operating_factor";
    refused(&ask(&api, "comparison", "metric", &body).await, &[at]);
    let body = comparison(&[fair.clone(), fair]);
    refused(&ask(&api, "comparison", "metric", &body).await, &["/options/1/name"]);
}
