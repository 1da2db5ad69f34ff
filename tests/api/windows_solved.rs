//! Every limit at once, over HTTP: what a job asks beyond its setup, and that the check takes every setting
//! that an answer gives.

use serde_json::{Value, json};

use crate::support::{Answer, Api, documents as doc};

/// The job with everything but the arc's settings stated. The hand is held steady, since the limits of the
/// test's procedure are narrow.
pub fn job() -> Value {
    let mut setup = doc::setup();
    let settings = setup["settings"].as_object_mut().unwrap();
    for dialled in ["current", "voltage", "wire_feed", "travel_speed", "electrical_stick_out"] {
        settings.shift_remove(dialled);
    }
    setup
}

fn steady(ask: Value) -> Value {
    let mut ask = ask;
    ask["hand_spread"] = json!({ "travel_speed": "0 %", "stick_out": "0 %" });
    doc::with(job(), "/ask", ask)
}

async fn solved(api: &Api, query: &str, body: &Value) -> Value {
    let path = format!("/v1/windows?{query}");
    let answer = api.post(api.shop.reader(), &path, body).await.expect(200);
    assert_eq!(answer["offers"].as_array().unwrap().len(), 1, "{answer:#}");
    answer["offers"][0]["solved"].clone()
}

/// The only piece of a window, and what the required limits leave.
fn required(solved: &Value) -> &Value {
    assert_eq!(solved["pieces"].as_array().unwrap().len(), 1, "{solved:#}");
    &solved["pieces"][0]["required"]
}

fn narrowed<'a>(left: &'a Value, variable: &str) -> &'a Value {
    let all = left["narrowed"].as_array().unwrap_or_else(|| panic!("{left:#}"));
    all.iter().find(|one| one["variable"] == variable).unwrap_or_else(|| panic!("{left:#}"))
}

/// Lowest and highest end of a setting.
fn ends(left: &Value, variable: &str) -> (f64, f64) {
    let narrowed = narrowed(left, variable);
    let end = |end: &str| narrowed[end]["value"]["value"].as_f64().unwrap();
    (end("lowest"), end("highest"))
}

/// Settings of an answer in the setup that was asked about, held to the check. `asked` has no `ask` any more.
async fn checked(api: &Api, asked: &Value, settings: &Value) -> Value {
    let mut setup = doc::with(asked.clone(), "/ask", Value::Null);
    for setting in settings.as_array().unwrap() {
        let pointer = setting["pointer"].as_str().unwrap();
        setup = doc::with(setup, pointer, setting["value"].clone());
    }
    api.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200)
}

/// Every setting that an answer shows: witnesses, starting point, fastest, coolest, nearest.
fn all_settings(left: &Value) -> Vec<(String, Value)> {
    let mut all = Vec::new();
    for name in ["starting_point", "fastest", "coolest", "nearest"] {
        if let Some(place) = left.get(name) {
            all.push((name.to_owned(), place["settings"].clone()));
        }
    }
    for narrowed in left["narrowed"].as_array().unwrap() {
        for end in ["lowest", "highest"] {
            let witness = &narrowed[end]["witness"];
            if witness.as_array().is_some_and(|settings| !settings.is_empty()) {
                all.push((format!("{} {end}", narrowed["variable"]), witness.clone()));
            }
        }
    }
    all
}

/// The check takes all of them; how many there were.
async fn all_pass(api: &Api, asked: &Value, query: &str) -> usize {
    let solved = solved(api, query, asked).await;
    let mut count = 0;
    for piece in solved["pieces"].as_array().unwrap() {
        for (left, verdicts) in [
            (&piece["required"], &["allowed", "allowed-with-advice"][..]),
            (&piece["advised"], &["allowed", "allowed-with-advice"]),
        ] {
            if !left.is_object() || left.get("conflict").is_some() {
                continue;
            }
            for (name, settings) in all_settings(left) {
                let answer = checked(api, asked, &settings).await;
                let verdict = answer["verdict"].as_str().unwrap();
                let refused: Vec<_> = answer["findings"]
                    .as_array()
                    .unwrap()
                    .iter()
                    .filter(|f| {
                        f["force"] == "required"
                            && !["inside", "not-applicable"]
                                .contains(&f["outcome"].as_str().unwrap())
                    })
                    .collect();
                assert!(
                    verdicts.contains(&verdict),
                    "{query} {name}: {verdict} {settings:#} {refused:#?}"
                );
                // A proposal says of itself what the check says of what is shown.
                if let Some(place) = left.get(&name) {
                    assert_eq!(place["verdict"], verdict, "{query} {name}: {settings:#}");
                }
                count += 1;
            }
        }
    }
    count
}

/// The one promise of the window: what it states, in the units it states it, passes the check.
#[tokio::test]
async fn the_check_takes_every_setting_that_a_window_states() {
    let api = Api::furnished().await;
    let refused = doc::with(
        doc::with(steady(json!({})), "/settings/voltage", json!("29 V")),
        "/settings/wire_feed",
        json!("6.2 m/min"),
    );
    let asked = [
        steady(json!({})),
        refused,
        doc::with(job(), "/ask", json!({})),
        steady(json!({ "deposition_rate": { "min": "2.2 kg/h" } })),
        steady(json!({ "run_area": "12 to 26 mm2" })),
        steady(
            json!({ "guards": [{ "variable": "voltage", "accuracy": { "absolute": "0.2 V" } }] }),
        ),
    ];
    for units in ["metric", "us"] {
        for body in &asked {
            let count = all_pass(&api, body, &format!("units={units}")).await;
            let shown = || format!("{} {:#}", body["ask"], body["settings"]);
            assert!(count >= 4, "only {count} settings in {units} for {}", shown());
        }
    }
}

/// A dial with steps of its own is stated on them, whatever units the caller reads; without, steps are those
/// of the caller's units: 1 in/min (common practice, no source).
#[tokio::test]
async fn settings_stand_on_the_steps_of_the_dial() {
    let api = Api::furnished().await;
    let feed = |solved: &Value| {
        let settings = required(solved)["starting_point"]["settings"].as_array().unwrap().clone();
        settings.into_iter().find(|one| one["variable"] == "wire-feed").unwrap()["value"].clone()
    };
    let body = steady(json!({}));
    let metric = feed(&solved(&api, "units=metric", &body).await);
    assert_eq!(metric["unit"], "m/min");
    let on_step = |value: &Value, step: f64| {
        let steps = value["value"].as_f64().unwrap() / step;
        (steps - steps.round()).abs() < 1e-9
    };
    assert!(on_step(&metric, 0.1), "{metric}");
    let us = feed(&solved(&api, "units=us", &body).await);
    assert_eq!(us["unit"], "in/min");
    assert!(on_step(&us, 1.0), "{us}");

    let path = "/v1/stations/ST-1";
    let stepped = doc::with(doc::station(), "/steps", json!({ "wire_feed": "0.25 m/min" }));
    let now = api.get(api.shop.author(), path).await.etag().to_owned();
    api.put(api.shop.author(), path, &now, &stepped).await.expect(200);
    let us = feed(&solved(&api, "units=us", &body).await);
    assert_eq!(us["unit"], "m/min", "the dial's own unit");
    assert!(on_step(&us, 0.25), "{us}");
    all_pass(&api, &body, "units=us").await;
}

/// Own arithmetic: with 1.0 V of error either way, 25 to 27 V leave 26 V; a 2 % error of the travel speed
/// leaves 300/0.98 = 306.1 to 400/1.02 = 392.2 mm/min at most.
#[tokio::test]
async fn the_error_of_an_instrument_is_kept_inside() {
    let api = Api::furnished().await;
    let guard = json!([{ "variable": "voltage", "accuracy": { "absolute": "0.9 V" } }]);
    let left = solved(&api, "units=metric", &steady(json!({ "guards": guard }))).await;
    let (low, high) = ends(required(&left), "voltage");
    assert!(low >= 25.9 && high <= 26.1, "{low} to {high}");
    let guard = json!([{ "variable": "travel-speed", "accuracy": { "of_reading": "2 %" } }]);
    let left = solved(&api, "units=metric", &steady(json!({ "guards": guard }))).await;
    let (low, high) = ends(required(&left), "travel-speed");
    assert!(low >= 306.1 && high <= 392.2, "{low} to {high}");

    // An instrument of the station; out of calibration its accuracy is not known.
    let instrument = json!([{
        "code": "V-1", "measures": "voltage", "accuracy": { "absolute": "0.9 V" },
        "calibration_due": "2099-12-31"
    }]);
    let path = "/v1/stations/ST-1";
    let station = doc::with(doc::station(), "/instruments", instrument);
    let now = api.get(api.shop.author(), path).await.etag().to_owned();
    api.put(api.shop.author(), path, &now, &station).await.expect(200);
    let named = steady(json!({ "guards": [{ "variable": "voltage", "instrument": "V-1" }] }));
    let left = solved(&api, "units=metric", &named).await;
    let (low, high) = ends(required(&left), "voltage");
    assert!(low >= 25.9 && high <= 26.1, "{low} to {high}");
    let late = doc::with(named, "/day", json!("2100-01-01"));
    let refused = api.post(api.shop.reader(), "/v1/windows", &late).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/ask/guards/0/instrument"]);
    let expected = "instrument V-1 of station ST-1 is out of calibration: it held until 2099-12-31, and the setup \
                    is for 2100-01-01";
    assert_eq!(detail(&refused), expected);

    let guard = json!([{ "variable": "voltage", "accuracy": { "absolute": "-1 V" } }]);
    let refused =
        api.post(api.shop.reader(), "/v1/windows", &steady(json!({ "guards": guard }))).await;
    assert_eq!(refused.pointers(), ["/ask/guards/0/accuracy"]);
    assert_eq!(detail(&refused), "absolute: \"-1 V\" is negative; a right form is \"2.5 V\"");
}

/// What the first error of a refusal says.
fn detail(refused: &Answer) -> String {
    let problem = refused.problem(422, "invalid-fields");
    problem["errors"][0]["detail"].as_str().unwrap().to_owned()
}

/// EN 1011-2, Annex D, thick plate: t = (6700 - 5 T0) Q [1/(500-T0) - 1/(800-T0)] F3. Own arithmetic at
/// T0 = 120 °C, F3 0.67, d 40 mm: 6100 (1/380 - 1/680) 0.67 = 4.745 s for each kJ/mm, so a time of at least
/// 4 s leaves 0.843 kJ/mm or more.
#[tokio::test]
async fn a_cooling_time_bounds_the_heat_input() {
    let api = Api::furnished().await;
    let cooling = json!({
        "metal": "low-alloy-ferritic", "cooling_time": { "min": "4 s" },
        "lowest_temperature": "120 °C", "highest_temperature": "120 °C", "thickness": "40 mm",
        "shape_factors": { "two_dimensional": "67 %", "three_dimensional": "67 %" }
    });
    let open = solved(&api, "units=metric", &steady(json!({}))).await;
    let held = solved(&api, "units=metric", &steady(json!({ "cooling": cooling }))).await;
    let piece = &held["pieces"][0];
    let least = piece["heat_input"]["min"].as_f64().unwrap();
    assert!((0.8429..0.8440).contains(&least), "{piece:#}");
    assert!(ends(required(&held), "travel-speed").1 < ends(required(&open), "travel-speed").1);
    let named = piece["limits"].as_array().unwrap().iter();
    let named: Vec<_> = named.map(|one| one["limit"].as_str().unwrap()).collect();
    assert!(named.iter().any(|limit| limit.contains("heat input for cooling time")), "{named:?}");

    let too_slow = doc::with(
        steady(json!({ "cooling": cooling })),
        "/ask/cooling/cooling_time",
        json!({ "min": "40 s" }),
    );
    let held = solved(&api, "units=metric", &too_slow).await;
    let conflict = &held["pieces"][0]["required"]["conflict"];
    assert!(conflict["words"].as_str().unwrap().contains("cooling time"), "{held:#}");
    assert!(conflict["limits"].as_array().unwrap().len() >= 2, "{conflict:#}");
    // Own arithmetic: so much heat makes 40 mm a thin plate, t = (4300 - 4.3 T0) 1e5 Q²/d² [1/(500-T0)² -
    // 1/(800-T0)²] F2 = 3784e5 / 1600 * 4.7626e-6 * 0.67 Q² = 0.7547 Q²: 7.280 kJ/mm for 40 s, 184.9 kJ/in.
    let held = solved(&api, "units=us", &too_slow).await;
    let conflict = &held["pieces"][0]["required"]["conflict"];
    let words = conflict["words"].as_str().unwrap();
    let start = "heat input for cooling time at least 184.9 kJ/in (the job)";
    let after = words.split(start).nth(1).unwrap_or_else(|| panic!("{words}"));
    assert!(after.starts_with(", where ") && !words.contains("kJ/mm"), "{words}");
    let listed = conflict["limits"].as_array().unwrap().iter();
    let listed: Vec<_> = listed.map(|one| one["limit"].as_str().unwrap()).collect();
    assert!(listed.iter().any(|limit| limit.starts_with(start)), "{listed:?}");
}

/// EN 1011-2, Annex D: d 12 mm, T0 75 °C, F3 0.67, F2 0.45, at most 2.0 s holds up to 0.485 kJ/mm on thick
/// plate, and from the transition at 0.614 to 0.665 kJ/mm on thin plate (own arithmetic). Of the two pieces the
/// procedure's 0.6 kJ/mm or more leaves the second only.
#[tokio::test]
async fn a_cooling_time_in_two_pieces_is_answered_piece_by_piece() {
    let api = Api::furnished().await;
    let cooling = json!({
        "metal": "low-alloy-ferritic", "cooling_time": { "max": "2.0 s" },
        "lowest_temperature": "75 °C", "highest_temperature": "75 °C", "thickness": "12 mm",
        "shape_factors": { "two_dimensional": "45 %", "three_dimensional": "67 %" }
    });
    let body = steady(json!({ "cooling": cooling }));
    let solved = solved(&api, "units=metric", &body).await;
    let pieces = solved["pieces"].as_array().unwrap();
    assert_eq!(pieces.len(), 2, "{solved:#}");
    let end = |piece: &Value, end: &str| piece["heat_input"][end].as_f64().unwrap();
    // Rounded inward to four digits.
    assert!((0.4840..=0.4850).contains(&end(&pieces[0], "max")), "{:#}", pieces[0]);
    assert!((0.6135..=0.6145).contains(&end(&pieces[1], "min")), "{:#}", pieces[1]);
    assert!((0.6645..=0.6655).contains(&end(&pieces[1], "max")), "{:#}", pieces[1]);
    let conflict = pieces[0]["required"]["conflict"]["words"].as_str().unwrap();
    assert!(conflict.contains("heat input for cooling time"), "{conflict}");
    assert!(pieces[1]["required"]["starting_point"].is_object(), "{:#}", pieces[1]);
    assert!(all_pass(&api, &body, "units=us").await >= 4);
}

/// A dial of 5 m/min has no step between 7 and 9.
#[tokio::test]
async fn a_window_without_a_step_of_the_dial_says_so() {
    let api = Api::furnished().await;
    let path = "/v1/stations/ST-1";
    let coarse = doc::with(doc::station(), "/steps", json!({ "wire_feed": "5 m/min" }));
    let now = api.get(api.shop.author(), path).await.etag().to_owned();
    api.put(api.shop.author(), path, &now, &coarse).await.expect(200);
    let left = solved(&api, "units=metric", &steady(json!({}))).await;
    let left = required(&left);
    assert_eq!(narrowed(left, "wire-feed")["emptied_by_rounding"], true, "{left:#}");
    assert_eq!(narrowed(left, "voltage")["emptied_by_rounding"], false);
    assert!(left["no_nearest"].as_str().unwrap().contains("no settable step fits"), "{left:#}");
    assert_eq!(left.get("starting_point"), None, "nothing that cannot be dialled is proposed");
}

/// EN 1011-2 C.3: what a preheat lacks, the heat input has to bring, or the preheat goes up.
#[tokio::test]
async fn a_preheat_and_a_heat_input_are_traded() {
    let api = Api::furnished().await;
    let plan = |preheat: &str| {
        json!({ "preheat": {
            "metal": "1.2", "cet": "0.33 %", "thickness": "25 mm", "hydrogen": "5 mL/100g",
            "ambient": "20 °C", "preheat": preheat
        } })
    };
    // Own arithmetic: 697*0.33 + 160 tanh(25/35) + 62*5^0.35 - 328 = 109.1 °C without heat, less
    // (32 - 53*0.33) = 14.51 °C for each kJ/mm: 97 °C does from 0.83 kJ/mm on.
    let held = solved(&api, "units=metric", &steady(plan("97 °C"))).await;
    let trade = &held["preheat_trade"];
    assert_eq!(trade["heat_input"], "at-least", "{trade}");
    let least = trade["least_heat_input"]["value"].as_f64().unwrap();
    assert!((0.80..0.87).contains(&least), "{trade}");
    assert!(trade["least_heat_input_of_the_window"]["value"].as_f64().unwrap() < least, "{trade}");
    assert_eq!(trade["preheat_for_all_of_the_window"]["value"], 105, "{trade}");
    let warm = solved(&api, "units=metric", &steady(plan("110 °C"))).await;
    assert_eq!(warm["preheat_trade"]["heat_input"], "any-in-range", "{warm:#}");
    let cold = solved(&api, "units=metric", &steady(plan("20 °C"))).await;
    assert_eq!(cold["preheat_trade"]["heat_input"], "none-in-range");
    let conflict = &required(&cold)["conflict"]["words"];
    assert!(conflict.as_str().unwrap().contains("preheat more"), "{cold:#}");
}

/// Volts at most what the source has left at a current: 40 V less 60 mohm times the amps (own arithmetic:
/// 40 V over 666.7 A) leave 25.6 V at 240 A and 28 V at 200 A.
#[tokio::test]
async fn an_output_line_bounds_the_volts() {
    let api = Api::furnished().await;
    let line = json!({ "open_circuit": "40 V", "short_circuit": "666.7 A", "from": "150 A", "to": "300 A" });
    let left = solved(&api, "units=metric", &steady(json!({ "output_line": line }))).await;
    let piece = &left["pieces"][0];
    let limits = piece["limits"].as_array().unwrap();
    let chords: Vec<_> = limits.iter().filter(|one| one["kind"] == "inner-linearised").collect();
    assert!(
        chords.iter().any(|one| one["holder"] == "the station ST-1" || one["holder"].is_string())
    );
    assert!(chords.iter().all(|one| one["gap"]["value"].is_number()), "{chords:#?}");
    for (name, settings) in all_settings(required(&left)) {
        let of = |variable: &str, end: &str| {
            let all = settings.as_array().unwrap();
            let value = &all.iter().find(|one| one["variable"] == variable).unwrap()["value"];
            value.get(end).or_else(|| value.get("value")).and_then(Value::as_f64).unwrap()
        };
        let (volts, amps) = (of("voltage", "max"), of("current", "max"));
        assert!(volts <= 40.0 * (1.0 - amps / 666.7) + 1e-3, "{name}: {volts} V at {amps} A");
    }
}

/// Own arithmetic: 1 kJ/mm of heat input over 0.8 is 1.25 kJ/mm of arc energy, at 300 mm/min 6250 W, which
/// at 27 V is 231.48 A; a chosen interval holds for each of its values, so its higher end counts.
#[tokio::test]
async fn an_interval_is_kept_as_one_and_a_choice_narrows_the_rest() {
    let api = Api::furnished().await;
    let stated = doc::with(steady(json!({})), "/settings/voltage", json!("26.5 to 27 V"));
    let stated = doc::with(stated, "/settings/travel_speed", json!("300 mm/min"));
    // Stated alone narrows nothing.
    let free = solved(&api, "units=metric", &stated).await;
    assert_eq!(ends(required(&free), "current"), (200.0, 240.0));
    let query = "units=metric&chosen=voltage,travel-speed";
    let chosen = solved(&api, query, &stated).await;
    assert_eq!(ends(required(&chosen), "current"), (200.0, 231.0));
    all_pass(&api, &stated, query).await;
}

#[tokio::test]
async fn what_is_nearest_keeps_what_can_stay_and_coolest_warns() {
    let api = Api::furnished().await;
    let stated = steady(json!({}));
    let mut refused = stated.clone();
    for (name, value) in [
        ("voltage", "29 V"),
        ("wire_feed", "8 m/min"),
        ("travel_speed", "350 mm/min"),
        ("electrical_stick_out", "20 mm"),
    ] {
        refused["settings"][name] = json!(value);
    }
    let left = solved(&api, "units=metric", &refused).await;
    let left = required(&left);
    let nearest = left["nearest"]["settings"].as_array().unwrap();
    let of = |variable: &str| {
        nearest.iter().find(|one| one["variable"] == variable).unwrap()["value"].clone()
    };
    assert_eq!(of("voltage"), json!({ "value": 27, "unit": "V" }), "{nearest:#?}");
    assert_eq!(of("wire-feed")["unit"], "m/min");
    assert!(left["caution"].as_str().unwrap().contains("lack of fusion"));
    assert!(left["margin"]["value"].as_f64().unwrap() > 0.0);
    assert!(left["greatest_drift"]["value"].as_f64().unwrap() > 0.0);
    let speed = |place: &str| {
        let settings = left[place]["settings"].as_array().unwrap().iter();
        let found = settings.clone().find(|one| one["variable"] == "travel-speed").unwrap();
        found["value"]["value"].as_f64().unwrap()
    };
    assert!(speed("fastest") >= speed("starting_point"), "{left:#}");
}

/// A summary has the same ends and proposals, without what a kiosk does not show; a station gets it unasked.
#[tokio::test]
async fn a_summary_leaves_out_witnesses_and_the_list_of_limits() {
    let api = Api::furnished().await;
    let full = solved(&api, "detail=full", &job()).await;
    assert_eq!(full, solved(&api, "units=metric", &job()).await);
    let mut shortened = full.clone();
    let piece = shortened["pieces"][0].as_object_mut().unwrap();
    assert!(!piece.shift_remove("limits").unwrap().as_array().unwrap().is_empty());
    for region in ["required", "advised"] {
        for narrowed in piece[region]["narrowed"].as_array_mut().unwrap() {
            for end in ["lowest", "highest"] {
                assert!(narrowed[end].as_object_mut().unwrap().shift_remove("witness").is_some());
            }
        }
    }
    assert_eq!(solved(&api, "detail=summary", &job()).await, shortened);
    let kiosk = api.shop.kiosk(&api, doc::STATION).await;
    let own = api.post(&kiosk, "/v1/windows", &job()).await.expect(200);
    assert_eq!(own["offers"][0]["solved"], shortened);
    api.post(api.shop.reader(), "/v1/windows?detail=short", &job())
        .await
        .problem(400, "bad-parameter");
}

#[tokio::test]
async fn what_is_asked_wrongly_is_named() {
    let api = Api::furnished().await;
    let ask = json!({
        "cooling": { "metal": "1.2", "cooling_time": "5 to 20 s", "lowest_temperature": "200 °C",
            "highest_temperature": "100 °C", "thickness": "20 mm", "shape": "run-on-plate" },
        "preheat": { "metal": "1.2", "thickness": "20 mm", "hydrogen": "H5", "ambient": "20 °C",
            "preheat": "100 °C" },
        "guards": [{ "variable": "temperature", "accuracy": { "of_reading": "1 %" } },
            { "variable": "voltage" },
            { "variable": "voltage", "accuracy": { "absolute": "1 A" } }],
        "hand_spread": { "travel_speed": "80 %" },
        "output_line": { "open_circuit": "40 V", "short_circuit": "300 A", "from": "400 A", "to": "500 A" }
    });
    let body = doc::with(job(), "/ask", ask);
    let refused = api.post(api.shop.reader(), "/v1/windows", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(
        refused.pointers(),
        [
            "/ask/cooling/lowest_temperature",
            "/ask/preheat/cet",
            "/ask/guards/0/variable",
            "/ask/guards/1",
            "/ask/guards/2/accuracy",
            "/ask/hand_spread/travel_speed",
            "/ask/output_line"
        ]
    );
    // Errors of both parts at once.
    let body = doc::with(job(), "/ask", json!({ "run_area": 24 }));
    let body = doc::with(body, "/settings/voltage", json!(26));
    let refused = api.post(api.shop.reader(), "/v1/windows", &body).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/ask/run_area", "/settings/voltage"]);
}

/// What was read of a run takes no place beside a travel speed that is proposed.
#[tokio::test]
async fn what_the_settings_take_the_place_of_is_noted() {
    let api = Api::furnished().await;
    let read = doc::with(steady(json!({})), "/settings/run_length", json!("300 mm"));
    let read = doc::with(read, "/settings/arc_time", json!("60 s"));
    let read = doc::with(read, "/settings/heat_input", json!("1 kJ/mm"));
    let window = solved(&api, "units=metric&detail=summary", &read).await;
    let notes = window["notes"].to_string();
    assert!(notes.contains("run length, arc time and heat input:"), "{notes}");
    let none = solved(&api, "units=metric", &steady(json!({}))).await;
    assert!(!none["notes"].to_string().contains("take the place"), "{none:#}");
}
