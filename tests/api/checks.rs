//! The check over HTTP: allowed, and what takes that away.
//!
//! Expected verdicts follow from the made-up records of `documents` and the words of the service; figures
//! and practice name their own source.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use crate::support::{Api, documents as doc, finding};

/// Asks as a reader.
async fn check(api: &Api, setup: &Value) -> Value {
    api.post(api.shop.reader(), "/v1/checks", setup).await.expect(200)
}

/// What was changed, to what, which check then speaks for whom, and a word of its remedy.
type Flip = (&'static str, Value, &'static str, &'static str, &'static str, &'static str);

/// One change of the allowed setup each; the verdict is `not-allowed`.
fn refused() -> Vec<Flip> {
    let edition = json!({ "name": "ISO 15614-1", "edition": "2004" });
    let thick =
        json!([{ "group": "1.2", "thickness": "12 mm" }, { "group": "1.2", "thickness": "25 mm" }]);
    let metal = json!([{ "group": "8.1", "thickness": "12 mm" }]);
    vec![
        ("/job/code", edition, "governing-code", "/job/code", "procedure", "2017"),
        ("/process", json!("135"), "process", "/process", "procedure", "136"),
        ("/job/joint", json!("butt"), "joint", "/job/joint", "procedure", "fillet"),
        ("/job/position", json!("4F"), "position", "/job/position", "procedure", "PB"),
        ("/job/base_metals", thick, "thickness", "/job/base_metals", "procedure", "24 mm"),
        ("/job/base_metals", metal, "base-metal", "/job/base_metals", "procedure", "group"),
        ("/filler/diameter", json!("1 mm"), "diameter", "/filler/diameter", "procedure", "1.2 mm"),
        ("/filler/spool", json!("19 kg"), "spool", "/filler/spool", "station", "18 kg"),
        ("/filler/gas", json!("C1"), "gas", "/filler/gas", "procedure", "M21"),
        ("/filler/polarity", json!("DCEN"), "polarity", "/filler/polarity", "procedure", "DCEP"),
        ("/settings/current", json!("241 A"), "current", "/settings/current", "procedure", "240 A"),
        ("/settings/voltage", json!("24.9 V"), "voltage", "/settings/voltage", "procedure", "25 V"),
        (
            "/settings/wire_feed",
            json!("360 in/min"),
            "wire-feed",
            "/settings/wire_feed",
            "procedure",
            "9 m/min",
        ),
        (
            "/settings/travel_speed",
            json!("299 mm/min"),
            "travel-speed",
            "/settings/travel_speed",
            "procedure",
            "300 mm/min",
        ),
        (
            "/settings/electrical_stick_out",
            json!("1 in"),
            "electrical-stick-out",
            "/settings/electrical_stick_out",
            "procedure",
            "23 mm",
        ),
        ("/settings/preheat", json!("10 °C"), "preheat", "/settings/preheat", "procedure", "20 °C"),
        (
            "/settings/interpass",
            json!("190 °C"),
            "interpass",
            "/settings/interpass",
            "work-order",
            "180 °C",
        ),
        (
            "/settings/gas_flow",
            json!("40 ft3/h"),
            "gas-flow",
            "/settings/gas_flow",
            "procedure",
            "18 L/min",
        ),
    ]
}

#[tokio::test]
async fn one_change_is_enough_to_lose_the_permission() {
    let api = Api::furnished().await;
    assert_eq!(check(&api, &doc::setup()).await["verdict"], "allowed");
    for (place, value, code, pointer, owner, remedy) in refused() {
        let answer = check(&api, &doc::with(doc::setup(), place, value.clone())).await;
        assert_eq!(answer["verdict"], "not-allowed", "{place} {value}");
        let all = answer["findings"].as_array().unwrap();
        let fits = |one: &&Value| {
            one["check"] == code && one["outcome"] == "outside" && one["owner"]["kind"] == owner
        };
        let found = all.iter().find(fits).unwrap_or_else(|| panic!("{place} {value}: {answer:#}"));
        assert_eq!(found["pointer"], pointer, "{found}");
        assert_eq!(found["force"], "required", "{found}");
        let text = found["remedy"].as_str().unwrap_or_default();
        assert!(text.contains(remedy), "{place} {value}: no {remedy} in {text:?}");
        for member in ["reason", "consequence"] {
            assert!(found[member].as_str().is_some_and(|text| !text.is_empty()), "{found}");
        }
    }
}

/// What is not known is never allowed.
#[tokio::test]
async fn what_is_left_out_leaves_the_verdict_open() {
    let api = Api::furnished().await;
    for (place, code) in [
        ("/settings/current", "current"),
        ("/settings/voltage", "voltage"),
        ("/settings/wire_feed", "wire-feed"),
        ("/settings/travel_speed", "travel-speed"),
        ("/settings/electrical_stick_out", "electrical-stick-out"),
        ("/settings/preheat", "preheat"),
        ("/settings/interpass", "interpass"),
        ("/settings/waveform", "waveform"),
        ("/filler/gas", "gas"),
        ("/filler/polarity", "polarity"),
        ("/job/position", "position"),
        ("/job/base_metals", "base-metal"),
        ("/job/run_class", "run-class"),
        ("/process", "process"),
        ("/filler", "diameter"),
    ] {
        let answer = check(&api, &doc::with(doc::setup(), place, Value::Null)).await;
        assert_eq!(answer["verdict"], "undetermined", "{place}");
        let all = answer["findings"].as_array().unwrap();
        let open = all.iter().find(|one| one["check"] == code && one["outcome"] == "not-given");
        let open = open.unwrap_or_else(|| panic!("{place}: {answer:#}"));
        assert!(open["remedy"].as_str().is_some_and(|text| !text.is_empty()), "{open}");
    }
}

/// A butt or a fillet joins two parts.
#[tokio::test]
async fn one_part_stated_alone_allows_and_plans_nothing() {
    let api = Api::furnished().await;
    let part = doc::setup()["job"]["base_metals"][0].clone();
    let half = doc::with(doc::setup(), "/job/base_metals", json!([part]));
    let answer = check(&api, &half).await;
    assert_eq!(answer["verdict"], "undetermined", "{answer:#}");
    let all = answer["findings"].as_array().unwrap();
    for code in ["base-metal", "thickness"] {
        let open = all.iter().find(|one| one["check"] == code && one["outcome"] == "not-given");
        let open = open.unwrap_or_else(|| panic!("{code}: {answer:#}"));
        assert_eq!(open["pointer"], "/job/base_metals");
        assert!(open["remedy"].as_str().unwrap().contains("listed twice"), "{open:#}");
    }
    let plan = json!({ "setup": half, "joint": { "fillet": { "leg": "6 mm" } }, "length": "2 m" });
    for (path, body, list) in [("/v1/windows", &half, "offers"), ("/v1/run-plans", &plan, "plans")]
    {
        let answer = api.post(api.shop.reader(), path, body).await.expect(200);
        let each = answer[list].as_array().unwrap();
        assert!(!each.is_empty(), "{path}: {answer:#}");
        for one in each {
            let obstacles = one["obstacles"].as_array().unwrap();
            let open = obstacles.iter().any(|finding| finding["check"] == "base-metal");
            assert!(open && one["fastest"].is_null(), "{path}: {one:#}");
        }
    }
}

/// What a procedure fixes for a run is asked of the setup. 220 A, 26 V and 350 mm/min are 0.98 kJ/mm of one arc; two
/// such arcs put in 1.96 kJ/mm, 11.44 kW (own arithmetic: U I 60 / v; the arcs of one pool add up, from memory).
#[tokio::test]
async fn what_a_procedure_fixes_for_a_run_is_asked_and_several_arcs_are_never_told_as_one() {
    let api = Api::furnished().await;
    let number = "WPS-5";
    let own = doc::with(doc::procedure(), "/number", json!(number));
    let own = doc::with(own, "/runs/0/electrodes", json!(2));
    let own = doc::with(own, "/runs/0/arrangement", json!("tandem"));
    let own = doc::with(own, "/runs/0/transfer", json!("spray"));
    let own = doc::with(own, "/runs/0/backing_gas", json!("I1"));
    api.shop.write(&api, "procedures", &own).await;
    api.shop.release(&api, number).await;
    let setup = doc::with(doc::setup(), "/procedure", json!(number));
    let setup = doc::with(setup, "/work_order", Value::Null);
    let setup = doc::with(setup, "/job/run_class", json!("single"));
    let outcomes = |answer: &Value, code: &str| -> Vec<(String, String)> {
        let all = answer["findings"].as_array().unwrap().iter();
        let of_check = all.filter(|one| one["check"] == code);
        let text = |value: &Value| value.as_str().unwrap().to_owned();
        of_check.map(|one| (text(&one["outcome"]), text(&one["pointer"]))).collect()
    };
    let open = check(&api, &setup).await;
    assert_eq!(open["verdict"], "undetermined", "{open:#}");
    for (code, pointer) in [
        ("transfer", "/settings/transfer"),
        ("electrodes", "/settings/electrodes"),
        ("backing-gas", "/filler/backing_gas"),
    ] {
        assert_eq!(outcomes(&open, code), [("not-given".to_owned(), pointer.to_owned())]);
    }
    assert!(outcomes(&open, "heat-input").iter().all(|(outcome, _)| outcome == "not-given"));
    let names = |answer: &Value| {
        let all = answer["figures"].as_array().unwrap().iter();
        all.map(|one| one["name"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert!(!names(&open).iter().any(|name| name.contains("heat") || name.contains("rate")));

    let stated = doc::with(setup, "/settings/transfer", json!("spray"));
    let stated = doc::with(stated, "/filler/backing_gas", json!("I1"));
    let stated = doc::with(stated, "/settings/electrodes", json!(2));
    let two = check(&api, &stated).await;
    assert_eq!(two["verdict"], "undetermined", "{two:#}");
    assert!(outcomes(&two, "heat-input").iter().all(|(outcome, _)| outcome == "not-given"));
    let powered = doc::with(stated.clone(), "/settings/arc_power", json!("11.44 kW"));
    let powered = check(&api, &powered).await;
    assert_eq!(powered["verdict"], "not-allowed", "{powered:#}");
    assert!(outcomes(&powered, "heat-input").iter().all(|(outcome, _)| outcome == "outside"));
    for (place, other, code) in [
        ("/settings/transfer", json!("short-circuit"), "transfer"),
        ("/settings/electrodes", json!(1), "electrodes"),
        ("/filler/backing_gas", json!("none"), "backing-gas"),
    ] {
        let answer = check(&api, &doc::with(stated.clone(), place, other)).await;
        assert_eq!(answer["verdict"], "not-allowed", "{place}");
        assert_eq!(outcomes(&answer, code)[0].0, "outside", "{place}");
    }
    let none = doc::with(stated, "/settings/electrodes", json!(0));
    let refused = api.post(api.shop.reader(), "/v1/checks", &none).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/settings/electrodes"]);
}

/// What a procedure fixes of how a joint is filled, by hand or by machine, is asked of the setup and kept.
#[tokio::test]
async fn how_the_joint_is_filled_is_asked_where_a_procedure_fixes_it() {
    let api = Api::furnished().await;
    let number = "WPS-6";
    let fixed = [
        ("/runs/0/mechanisation", json!("partly-mechanised")),
        ("/runs/0/current_form", json!("steady")),
        ("/deposited_thickness", json!("8 to 24 mm")),
        ("/layering", json!("single-run")),
    ];
    let own = doc::with(doc::procedure(), "/number", json!(number));
    let own = fixed.into_iter().fold(own, |own, (place, value)| doc::with(own, place, value));
    api.shop.write(&api, "procedures", &own).await;
    api.shop.release(&api, number).await;
    let setup = doc::with(doc::setup(), "/procedure", json!(number));
    let setup = doc::with(setup, "/work_order", Value::Null);
    let open = doc::with(setup, "/job/run_class", json!("single"));
    let asked = [
        (
            "/settings/mechanisation",
            json!("partly-mechanised"),
            json!("automatic"),
            "mechanisation",
        ),
        ("/settings/current_form", json!("steady"), json!("pulsed"), "current-form"),
        ("/job/deposited_thickness", json!("10 mm"), json!("25 mm"), "deposited-thickness"),
        ("/job/run_class", json!("single"), json!("fill"), "run-class"),
    ];
    let stated =
        asked.iter().fold(open, |setup, (place, right, ..)| doc::with(setup, place, right.clone()));
    assert_eq!(check(&api, &stated).await["verdict"], "allowed");
    for (place, _, other, code) in asked {
        let answer = check(&api, &doc::with(stated.clone(), place, other)).await;
        assert_eq!(answer["verdict"], "not-allowed", "{place}");
        assert_eq!(outcome_at(&answer, code, place), "outside");
        if code != "run-class" {
            let answer = check(&api, &doc::with(stated.clone(), place, Value::Null)).await;
            assert_eq!(answer["verdict"], "undetermined", "{place}");
            assert_eq!(outcome_at(&answer, code, place), "not-given");
        }
    }
}

/// The outcome of a check that has one finding, which stands at this place.
fn outcome_at<'a>(answer: &'a Value, code: &str, place: &str) -> &'a str {
    let mut of_check = answer["findings"].as_array().unwrap().iter();
    let found = of_check.find(|one| one["check"] == code).unwrap_or(&Value::Null);
    assert_eq!(found["pointer"], place, "{answer:#}");
    found["outcome"].as_str().unwrap()
}

#[tokio::test]
async fn a_procedure_that_nobody_signed_allows_nothing() {
    let api = Api::furnished().await;
    let number = "WPS-7";
    let procedure = doc::with(doc::procedure(), "/number", json!(number));
    api.shop.write(&api, "procedures", &procedure).await;
    let setup = doc::with(doc::setup(), "/procedure", json!(number));
    let setup = doc::with(setup, "/work_order", Value::Null);
    // A draft is no procedure in force.
    let answer = check(&api, &setup).await;
    assert_eq!(answer["verdict"], "not-allowed");
    let all = answer["findings"].as_array().unwrap();
    assert!(all.iter().any(|one| one["check"] == "procedure-in-force"), "{answer:#}");
    let submitted = api.shop.submit(&api, number).await;
    let path = format!("/v1/procedures/{number}/release");
    let release = api.call(reqwest::Method::POST, &path).key(api.shop.approver());
    release.if_match(submitted.etag()).json(&json!({})).send().await.expect(200);
    let answer = check(&api, &setup).await;
    assert_eq!(answer["verdict"], "undetermined");
    let support = finding(&answer, "support", "procedure");
    assert_ne!(support["outcome"], "inside", "{support}");
}

/// A welding inspection study page prints 28 V, 250 A and 12 in/min as 35.00 kJ/in, the US convention
/// (no thermal efficiency). With 0.8 (ISO/TR 17671-1, process 136) it is 28.00 kJ/in (own arithmetic).
#[tokio::test]
async fn heat_input_is_the_published_figure() {
    let api = Api::furnished().await;
    let mut setup = doc::setup();
    for (member, value) in
        [("voltage", "28 V"), ("current", "250 A"), ("travel_speed", "12 in/min")]
    {
        setup = doc::with(setup, &format!("/settings/{member}"), json!(value));
    }
    let answer = api.post(api.shop.reader(), "/v1/checks?units=us", &setup).await.expect(200);
    let figure = |name: &str| figure(&answer, name);
    for (name, value) in
        [("us-heat-input", 35.0), ("iso-arc-energy", 35.0), ("iso-heat-input", 28.0)]
    {
        assert_eq!(
            figure(name)["value"],
            json!({ "value": number(value), "unit": "kJ/in" }),
            "{name}"
        );
        for member in ["formula", "equation", "source", "validity", "confidence"] {
            assert!(figure(name)[member].as_str().is_some_and(|text| !text.is_empty()), "{name}");
        }
    }
}

/// Whole numbers come without a point.
fn number(value: f64) -> Value {
    #[expect(clippy::cast_possible_truncation, reason = "small whole numbers")]
    let whole = value as i64;
    json!(whole)
}

fn figure<'a>(answer: &'a Value, name: &str) -> &'a Value {
    let figures = answer["figures"].as_array().unwrap();
    figures.iter().find(|one| one["name"] == name).unwrap_or_else(|| panic!("{name}: {answer:#}"))
}

/// 29 CFR 1910.133(a)(5), gas metal and flux-cored arc welding: below 60 A at least shade 7, from 60 to
/// 500 A at least shade 10.
#[tokio::test]
async fn the_filter_shade_is_among_the_cautions() {
    let api = Api::furnished().await;
    for (current, shade) in [("50 A", "shade 7 "), ("220 A", "shade 10 "), ("400 A", "shade 10 ")] {
        let setup = doc::with(doc::setup(), "/settings/current", json!(current));
        let answer = check(&api, &setup).await;
        let cautions = answer["cautions"].as_array().unwrap();
        let eyes = cautions.iter().find(|one| one["code"] == "eye-and-face").unwrap();
        assert!(eyes["text"].as_str().unwrap().contains(shade), "{current}: {eyes}");
        assert_eq!(eyes["source"], "29 CFR 1910.133(a)(5)");
        assert!(cautions.iter().any(|one| one["code"] == "judgement"), "{cautions:?}");
    }
}

/// The allowed setup with a wire whose class is for single-pass welds.
async fn with_wire_for_one_run(api: &Api) -> Value {
    let wire = doc::with(doc::consumable(), "/code", json!("FCW-GS"));
    let wire = doc::with(wire, "/designations", json!(["AWS A5.20: E71T-GS"]));
    api.shop.write(api, "consumables", &wire).await;
    let procedure = doc::with(doc::procedure(), "/number", json!("WPS-GS"));
    let procedure = doc::with(procedure, "/consumables", json!(["FCW-GS"]));
    api.shop.write(api, "procedures", &procedure).await;
    api.shop.release(api, "WPS-GS").await;
    let setup = doc::with(doc::setup(), "/procedure", json!("WPS-GS"));
    let setup = doc::with(setup, "/work_order", Value::Null);
    doc::with(setup, "/filler/consumable", json!("FCW-GS"))
}

/// AWS A5.20: GS is for single-pass welds (Bohnart, Welding: Principles and Practices, Table 23-2).
#[tokio::test]
async fn a_wire_for_one_run_lays_no_fill() {
    let api = Api::furnished().await;
    let setup = with_wire_for_one_run(&api).await;
    let fill = check(&api, &doc::with(setup.clone(), "/job/run_class", json!("fill"))).await;
    assert_eq!(fill["verdict"], "not-allowed", "{fill:#}");
    let own = finding(&fill, "single-pass-class", "consumable");
    assert_eq!(own["outcome"], "outside", "{own}");
    assert!(own["remedy"].as_str().unwrap().ends_with("single."), "{own}");
    let single = check(&api, &doc::with(setup, "/job/run_class", json!("single"))).await;
    let own = finding(&single, "single-pass-class", "consumable");
    assert_eq!(own["outcome"], "inside", "{own}");
}

/// A joint neither starts above the maximum interpass temperature nor cools below the minimum preheat between runs
/// (AWS D1.1 and EN 1011-2, from memory).
#[tokio::test]
async fn preheat_and_interpass_temperature_limit_each_other() {
    let api = Api::furnished().await;
    let procedure = doc::with(doc::procedure(), "/number", json!("WPS-HEAT"));
    let least = json!({ "min": 60, "unit": "°C" });
    let procedure = doc::with(procedure, "/runs/0/limits/preheat", least);
    let most = json!({ "max": 150, "unit": "°C" });
    let procedure = doc::with(procedure, "/runs/0/limits/interpass", most);
    api.shop.write(&api, "procedures", &procedure).await;
    api.shop.release(&api, "WPS-HEAT").await;
    let setup = doc::with(doc::setup(), "/procedure", json!("WPS-HEAT"));
    let setup = doc::with(setup, "/work_order", Value::Null);
    let at = |preheat: &str, interpass: &str| {
        let setup = doc::with(setup.clone(), "/job/run_class", json!("fill"));
        let setup = doc::with(setup, "/settings/preheat", json!(preheat));
        doc::with(setup, "/settings/interpass", json!(interpass))
    };
    let refused = |answer: &Value, check: &str| {
        let all = answer["findings"].as_array().unwrap();
        all.iter().any(|one| one["check"] == check && one["outcome"] == "outside")
    };
    for (preheat, interpass, outside) in [
        ("60 °C", "60 °C", [false, false]),
        ("150 °C", "150 °C", [false, false]),
        ("151 °C", "150 °C", [true, false]),
        ("60 °C", "59 °C", [false, true]),
    ] {
        let answer = check(&api, &at(preheat, interpass)).await;
        let found = ["preheat", "interpass"].map(|check| refused(&answer, check));
        assert_eq!(found, outside, "{preheat} {interpass}: {:#}", answer["findings"]);
    }
}

#[tokio::test]
async fn the_catalogue_explains_every_check_that_speaks() {
    let api = Api::furnished().await;
    let listed = api.get(api.shop.reader(), "/v1/checks/catalogue").await.expect(200);
    let items = listed["items"].as_array().unwrap();
    let known: BTreeSet<_> = items.iter().map(|item| item["code"].as_str().unwrap()).collect();
    assert_eq!(known.len(), items.len(), "codes are unique");
    for item in items {
        assert!(item["explanation"].as_str().unwrap().contains("Source"), "{item}");
        assert!(item["pointer"].as_str().unwrap().starts_with('/'), "{item}");
    }
    // One that limits power and the leg, and leaves the volts open.
    let odd = doc::with(doc::procedure(), "/number", json!("WPS-ODD"));
    let odd = doc::with(odd, "/runs/0/limits/arc_power", json!("5 to 6.5 kW"));
    let odd = doc::with(odd, "/runs/0/limits/voltage", Value::Null);
    let odd = doc::with(odd, "/leg", json!("5 to 8 mm"));
    api.shop.write(&api, "procedures", &odd).await;
    api.shop.release(&api, "WPS-ODD").await;
    let by_odd = doc::with(doc::setup(), "/procedure", json!("WPS-ODD"));
    let for_one_run = with_wire_for_one_run(&api).await;
    // 0.9806 kJ/mm follows from the settings.
    let disagreeing = doc::with(doc::setup(), "/settings/arc_energy", json!("2 kJ/mm"));
    let mut spoken = BTreeSet::new();
    let with_leg = doc::with(doc::setup(), "/job/leg", json!("6 mm"));
    // What a procedure may fix for a run, and this one leaves open.
    let open = [
        ("/settings/transfer", json!("spray")),
        ("/settings/mechanisation", json!("manual")),
        ("/settings/current_form", json!("steady")),
        ("/settings/electrodes", json!(1)),
        ("/job/deposited_thickness", json!("8 mm")),
        ("/job/base_metals/0/form", json!("pipe")),
        ("/job/base_metals/0/outside_diameter", json!("168.3 mm")),
        ("/filler/backing_gas", json!("none")),
        ("/filler/flux", json!({ "designation": "S A AB 1" })),
    ];
    let open =
        open.into_iter().fold(doc::setup(), |open, (place, value)| doc::with(open, place, value));
    let mut setups =
        vec![doc::setup(), json!({}), by_odd, disagreeing, with_leg, for_one_run, open];
    setups.extend(
        refused().into_iter().map(|(place, value, ..)| doc::with(doc::setup(), place, value)),
    );
    for setup in setups {
        let answer = check(&api, &setup).await;
        for one in answer["findings"].as_array().unwrap() {
            spoken.insert(one["check"].as_str().unwrap().to_owned());
        }
    }
    let unknown: Vec<_> = spoken.iter().filter(|code| !known.contains(code.as_str())).collect();
    assert_eq!(unknown, Vec::<&String>::new());
    let silent: Vec<_> = known.iter().filter(|code| !spoken.contains(**code)).collect();
    assert_eq!(silent, Vec::<&&str>::new());
}

#[tokio::test]
async fn a_kept_check_is_read_back_as_it_was_asked_and_answered() {
    let api = Api::furnished().await;
    let measured = json!({ "value": 220, "unit": "A", "origin": "measured", "accuracy": { "absolute": "5 A" } });
    let setup = doc::with(doc::setup(), "/keep", json!(true));
    let setup = doc::with(setup, "/settings/current", measured.clone());
    let setup = doc::with(setup, "/settings/electrical_stick_out", json!("3/4 in"));
    let answer = check(&api, &setup).await;
    let id = answer["check_id"].as_str().unwrap();
    // What changes afterwards does not change what was answered.
    let station = api.get(api.shop.reader(), "/v1/stations/ST-1").await;
    let path = "/v1/stations/ST-1/withdrawal";
    api.withdraw(api.shop.approver(), path, station.etag()).await.expect(200);
    let kept = api.get(api.shop.reader(), &format!("/v1/checks/{id}")).await.expect(200);
    assert_eq!(kept["check_id"], id);
    assert_eq!(kept["answer"], answer);
    assert_eq!(kept["rulebook_version"], answer["rulebook"]["version"]);
    let stick_out = &kept["setup"]["settings"]["electrical_stick_out"];
    assert_eq!(*stick_out, json!({ "value": 0.75, "unit": "in" }));
    assert_eq!(kept["setup"]["settings"]["current"], measured);
    assert_eq!(kept["setup"]["job"]["position"], "PB");
    // It can be asked again as it was kept; not asked to keep, it is not kept.
    let again = doc::with(kept["setup"].clone(), "/station", Value::Null);
    let again = doc::with(again, "/keep", json!(false));
    assert_eq!(check(&api, &again).await.get("check_id"), None);
}

/// Keeps the check of the usual setup, of one with too much current, of one without a station, and of one without a
/// work order; their ids.
async fn four_kept(api: &Api) -> Vec<String> {
    let mut ids = Vec::new();
    for (at, value) in [
        ("/keep", json!(true)),
        ("/settings/current", json!("300 A")),
        ("/station", Value::Null),
        ("/work_order", Value::Null),
    ] {
        let setup = doc::with(doc::with(doc::setup(), "/keep", json!(true)), at, value);
        let answer = check(api, &setup).await;
        ids.push(answer["check_id"].as_str().unwrap().to_owned());
    }
    ids
}

/// Ids of the kept checks that a query lists.
async fn listed(api: &Api, key: &str, query: &str) -> Vec<String> {
    let list = api.get(key, &format!("/v1/checks?{query}")).await.expect(200);
    let items = list["items"].as_array().unwrap().iter();
    items.map(|one| one["check_id"].as_str().unwrap().to_owned()).collect()
}

/// Whoever lost the id finds the evidence by work order, station or day, the newest first.
#[tokio::test]
async fn kept_checks_are_found_by_work_order_station_and_day() {
    let api = Api::furnished().await;
    let ids = four_kept(&api).await;
    let not_kept = check(&api, &doc::setup()).await;
    assert_eq!(not_kept.get("check_id"), None);
    let reader = api.shop.reader();
    let all = api.get(reader, "/v1/checks").await.expect(200)["items"].clone();
    let day = |one: &Value| one["at"].as_str().unwrap()[..10].to_owned();
    let (first, last) = (day(&all[3]), day(&all[0]));
    for (query, which) in [
        (String::new(), &[3, 2, 1, 0][..]),
        ("work_order=J-100".to_owned(), &[2, 1, 0]),
        ("station=ST-1".to_owned(), &[3, 1, 0]),
        ("work_order=J-100&station=ST-1".to_owned(), &[1, 0]),
        (format!("from={first}&until={last}"), &[3, 2, 1, 0]),
        (format!("station=ST-1&from={first}"), &[3, 1, 0]),
        ("from=2999-01-01".to_owned(), &[]),
        ("until=2020-01-01".to_owned(), &[]),
        ("work_order=J-101".to_owned(), &[]),
    ] {
        let expected: Vec<_> = which.iter().map(|one| ids[*one].clone()).collect();
        assert_eq!(listed(&api, reader, &query).await, expected, "{query}");
    }
    // What a line tells is what the evidence says.
    let told = &all[2];
    let whole = api.get(reader, &format!("/v1/checks/{}", ids[1])).await.expect(200);
    assert_eq!((&told["verdict"], &told["at"]), (&json!("not-allowed"), &whole["at"]));
    assert_eq!(told["procedure"], whole["answer"]["held_to"]["procedure"]);
    assert_eq!(told["revision"], whole["answer"]["held_to"]["revision"]);
    assert_eq!((&told["work_order"], &told["station"]), (&json!("J-100"), &json!(doc::STATION)));
    assert!(told["key"].is_string(), "{told}");
}

#[tokio::test]
async fn kept_checks_come_in_pages_and_to_their_organisation_alone() {
    let api = Api::furnished().await;
    let ids = four_kept(&api).await;
    let reader = api.shop.reader();
    let page = api.get(reader, "/v1/checks?work_order=J-100&limit=2").await;
    let next = page.expect(200)["next"].as_str().unwrap().to_owned();
    let query = format!("work_order=J-100&limit=2&cursor={next}");
    let target = format!("</v1/checks?{query}>; rel=\"next\"");
    assert_eq!(page.headers["link"].to_str().unwrap(), target);
    assert_eq!(listed(&api, reader, &query).await, ids[..1]);
    let second = api.get(reader, &format!("/v1/checks?{query}")).await.expect(200);
    assert_eq!(second.get("next"), None);

    let stranger = api.stranger.reader();
    assert!(listed(&api, stranger, "").await.is_empty());
    for (key, query, pointer) in [
        (stranger, format!("cursor={}", ids[1]), "?cursor"),
        (reader, "cursor=x".to_owned(), "?cursor"),
        (reader, "until=2026-02-30".to_owned(), "?until"),
        (reader, "from=2026-02-02&until=2026-02-01".to_owned(), "?until"),
        (reader, "limit=201".to_owned(), "?limit"),
        (reader, "weld=7".to_owned(), "?weld"),
    ] {
        let answer = api.get(key, &format!("/v1/checks?{query}")).await;
        answer.problem(400, "bad-parameter");
        assert_eq!(answer.pointers(), [pointer], "{query}");
    }
}

/// Evidence names the station and the day that were taken for granted, and how each figure was come by, which the
/// kiosk's summary does not tell.
#[tokio::test]
async fn a_kept_check_of_a_kiosk_names_its_station_and_holds_the_whole_answer() {
    let api = Api::furnished().await;
    let kiosk = api.shop.kiosk(&api, doc::STATION).await;
    let setup = doc::with(doc::setup(), "/station", Value::Null);
    let setup = doc::with(setup, "/keep", json!(true));
    let answer = api.post(&kiosk, "/v1/checks", &setup).await.expect(200);
    let path = format!("/v1/checks/{}", answer["check_id"].as_str().unwrap());
    let kept = api.get(api.shop.reader(), &path).await.expect(200);
    assert_eq!(kept["setup"]["station"], doc::STATION);
    assert_eq!(kept["setup"]["day"].as_str().unwrap().len(), "2026-11-25".len());
    let members = |value: &Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    let brief = figure(&answer, "us-heat-input");
    assert_eq!(members(brief), ["name", "value", "confidence"]);
    assert_eq!(members(&answer["cautions"][1]), ["code", "text"]);
    let (whole, source) = (&kept["answer"], &kept["answer"]["cautions"][1]["source"]);
    let full = figure(whole, "us-heat-input");
    assert_eq!(full["value"], brief["value"]);
    for member in ["formula", "equation", "source", "validity"] {
        assert!(full[member].is_string(), "{full}");
    }
    assert!(full["assumptions"].is_array() && source.is_string(), "{whole}");
    for member in ["verdict", "check_id", "held_to", "rulebook"] {
        assert_eq!(whole[member], answer[member], "{member}");
    }
    let told = answer["findings"].as_array().unwrap().len();
    assert!(whole["findings"].as_array().unwrap().len() > told, "{whole}");
}

#[tokio::test]
async fn a_kiosk_speaks_for_its_own_station_and_hears_what_matters() {
    let api = Api::furnished().await;
    let another = doc::with(doc::station(), "/code", json!("ST-2"));
    api.shop.write(&api, "stations", &another).await;
    let kiosk = api.shop.kiosk(&api, doc::STATION).await;
    let unnamed = doc::with(doc::setup(), "/station", Value::Null);
    let answer = api.post(&kiosk, "/v1/checks", &unnamed).await.expect(200);
    assert_eq!(answer["verdict"], "allowed");
    assert_eq!(answer["findings"], json!([]), "nothing needs anything");
    assert!(!answer["cautions"].as_array().unwrap().is_empty());
    let full = api.post(&kiosk, "/v1/checks?detail=full", &unnamed).await.expect(200);
    assert_eq!(finding(&full, "spool", "station")["outcome"], "inside");

    let hot = doc::with(unnamed, "/settings/current", json!("250 A"));
    let answer = api.post(&kiosk, "/v1/checks", &hot).await.expect(200);
    let findings = answer["findings"].as_array().unwrap();
    assert!(findings.iter().all(|one| one["outcome"] != "inside"), "{answer:#}");
    assert!(findings.iter().any(|one| one["check"] == "current"), "{answer:#}");

    let foreign = doc::with(doc::setup(), "/station", json!("ST-2"));
    let answer = api.post(&kiosk, "/v1/checks", &foreign).await;
    answer.problem(422, "invalid-fields");
    assert_eq!(answer.pointers(), ["/station"]);
}

#[tokio::test]
async fn without_a_procedure_all_that_cover_the_job_are_tried() {
    let api = Api::furnished().await;
    // Two more that cover the job with other limits, and two that nearly cover it.
    let limits = "/runs/0/limits/current";
    let others = [
        ("WPS-LOW", limits, json!("150 to 200 A")),
        ("WPS-THIN", "/thickness", json!("2 to 5 mm")),
        ("WPS-UP", "/positions", json!(["PF"])),
        ("WPS-BUTT", "/joints", json!(["butt"])),
    ];
    for (number, pointer, value) in others {
        let procedure = doc::with(doc::procedure(), "/number", json!(number));
        let procedure = doc::with(procedure, pointer, value);
        api.shop.write(&api, "procedures", &procedure).await;
        api.shop.release(&api, number).await;
    }
    let unnamed = doc::with(doc::setup(), "/procedure", Value::Null);
    let unnamed = doc::with(unnamed, "/work_order", Value::Null);
    let answer = check(&api, &unnamed).await;
    assert_eq!(answer["verdict"], "allowed");
    assert_eq!(answer["held_to"]["procedure"], doc::PROCEDURE);
    let candidates = answer["candidates"].as_array().unwrap();
    let told: Vec<_> = candidates
        .iter()
        .map(|one| (one["procedure"].as_str().unwrap(), one["breaches"].as_u64().unwrap()))
        .collect();
    // Both parts are too thick for the second.
    assert_eq!(told, [("WPS-LOW", 1), ("WPS-THIN", 2)]);
    assert!(candidates.iter().all(|one| one["verdict"] == "not-allowed"), "{candidates:?}");
    let near: Vec<_> = answer["near_misses"].as_array().unwrap().iter().collect();
    let missed = |number: &str| {
        let one = near.iter().find(|one| one["procedure"] == number);
        one.unwrap_or_else(|| panic!("{number}: {near:?}"))["checks"].clone()
    };
    assert_eq!(missed("WPS-UP"), json!(["position"]));
    assert_eq!(missed("WPS-BUTT"), json!(["joint"]));

    // A fully stated job that nothing covers is not allowed; one without its code is open.
    let overhead = doc::with(unnamed.clone(), "/job/position", json!("PD"));
    let answer = check(&api, &overhead).await;
    assert_eq!(answer["verdict"], "not-allowed");
    finding(&answer, "no-procedure-covers", "service");
    let codeless = doc::with(unnamed, "/job/code", Value::Null);
    assert_eq!(check(&api, &codeless).await["verdict"], "undetermined");
}

#[tokio::test]
async fn a_check_can_ask_for_the_rulebook_a_write_led_to() {
    let api = Api::furnished().await;
    let another = doc::with(doc::station(), "/code", json!("ST-2"));
    let written = api.shop.write(&api, "stations", &another).await;
    let version = written.header("rulebook-version").to_owned();
    let ask = |version: String| {
        let call = api.call(reqwest::Method::POST, "/v1/checks").key(api.shop.reader());
        call.header("rulebook-version", &version).json(&doc::setup()).send()
    };
    let answer = ask(version.clone()).await.expect(200);
    assert!(answer["rulebook"]["version"].as_i64().unwrap() >= version.parse().unwrap());
    let late = ask("999999".to_owned()).await;
    late.problem(503, "unavailable");
    assert_eq!(late.header("retry-after"), "1");
    let bad = ask("newest".to_owned()).await;
    bad.problem(400, "bad-parameter");
    assert_eq!(bad.pointers(), ["Rulebook-Version"]);
}

/// Only a check keeps what it is asked to keep; elsewhere nobody may believe that evidence was kept.
#[tokio::test]
async fn what_keeps_nothing_refuses_to_be_asked_to() {
    let api = Api::furnished().await;
    let setup = |keep: bool| doc::with(doc::setup(), "/keep", json!(keep));
    let plan = |keep: bool| {
        let setup =
            doc::with(doc::with(setup(keep), "/job/joint", Value::Null), "/settings", json!({}));
        json!({ "setup": setup, "joint": { "fillet": { "leg": "5 mm" } }, "length": "2 m" })
    };
    let advice = |keep: bool| json!({ "symptom": "porosity", "setup": setup(keep) });
    for (path, at, refused, taken) in [
        ("/v1/windows", "/keep", setup(true), setup(false)),
        ("/v1/run-plans", "/setup/keep", plan(true), plan(false)),
        ("/v1/advice", "/setup/keep", advice(true), advice(false)),
    ] {
        let answer = api.post(api.shop.reader(), path, &refused).await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), [at], "{path}");
        api.post(api.shop.reader(), path, &taken).await.expect(200);
    }
}
