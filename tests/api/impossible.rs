//! What no shop can have is refused where it is written, at its field; what was written before still loads.
//!
//! That a part is not more than the whole, and that nothing is done before its day, needs no source.

use serde_json::{Value, json};
use time::{Duration, OffsetDateTime};

use crate::{
    behind::{execute, step},
    life::{check, finding},
    support::{Api, documents as doc},
};

/// Path, document, where the value is put, the value, and a word of the refusal.
type Case = (&'static str, Value, &'static str, Value, &'static str);

/// Parts, amounts and names that cannot be.
fn shares_and_names() -> Vec<Case> {
    let share = "more than 0 % and at most 100 %";
    let (consumable, station, order) = (doc::consumable(), doc::station(), doc::work_order());
    let instrument = |code: &str| json!({ "code": code, "measures": "voltage" });
    let consumable_with = |at, value: &str, word| -> Case {
        ("consumables", doc::consumable(), at, json!(value), word)
    };
    vec![
        consumable_with("/efficiency", "150 %", share),
        consumable_with("/efficiency", "0 %", share),
        consumable_with("/data/0/conditions/0/points/1/efficiency", "0 %", share),
        consumable_with("/data/0/conditions/0/points/1/efficiency", "100.1 %", share),
        ("consumables", consumable.clone(), "/spools/0", json!("0 kg"), "more than nothing"),
        ("stations", station.clone(), "/rated/1/duty", json!("160 %"), share),
        ("stations", station.clone(), "/gun/duty", json!("0 %"), share),
        ("stations", station, "/heaviest_spool", json!("0 lb"), "more than nothing"),
        (
            "stations",
            doc::with(
                doc::station(),
                "/instruments",
                json!([instrument("V-1"), instrument("A-1"), {}]),
            ),
            "/instruments/2",
            instrument("V-1"),
            "\"V-1\" stands further up",
        ),
        (
            "work-orders",
            order.clone(),
            "/welds",
            json!([{ "id": "W1" }, { "id": "W1" }]),
            "\"W1\" stands",
        ),
        ("procedures", doc::procedure(), "/runs/0/thermal_efficiency", json!("120 %"), share),
    ]
}

/// Days that cannot be, and limits that no metal keeps.
fn days_and_temperatures() -> Vec<Case> {
    let later = (OffsetDateTime::now_utc().date() + Duration::days(3)).to_string();
    vec![
        ("qualifications", doc::qualification(), "/welded_on", json!(later), "still to come"),
        (
            "qualifications",
            doc::qualification(),
            "/welded_on",
            json!("-0001-01-01"),
            "from 1900 on",
        ),
        ("qualifications", doc::qualification(), "/welded_on", json!("0999-12-31"), "from 1900 on"),
        // The next run is laid on metal of at least the preheat: ISO 13916:2017 defines both temperatures as those
        // right before a run (clause 3, from memory).
        (
            "procedures",
            doc::with(
                doc::procedure(),
                "/runs/0/limits/preheat",
                json!({ "min": 200, "unit": "°C" }),
            ),
            "/runs/0/limits/interpass",
            json!({ "max": 100, "unit": "°C" }),
            "preheated to at least 200 °C is never at most 100 °C",
        ),
        // ISO 6947:2019: PF is vertical up, PG vertical down.
        (
            "procedures",
            doc::with(doc::procedure(), "/positions", json!(["PA", "PF"])),
            "/runs/0/progression",
            json!("down"),
            "PF is welded up",
        ),
        // ISO 4063:2009 (from memory): 136 is by active gas, 114 by none.
        (
            "procedures",
            doc::procedure(),
            "/gas/groups/0",
            json!("I1"),
            "with an inert one it is 131",
        ),
        (
            "procedures",
            doc::with(doc::procedure(), "/process", json!("114")),
            "/gas/groups/0",
            json!("C1"),
            "it welds without shielding gas",
        ),
        (
            "work-orders",
            doc::with(doc::work_order(), "/limits/preheat", json!("400 to 450 °F")),
            "/limits/interpass",
            json!({ "max": 180, "unit": "°C" }),
            "preheated to at least 400 °F",
        ),
    ]
}

/// Groups of two codes that have no metal in common. AWS D1.1 lists structural steels (2015, 1.2 and Table 3.1), P-No. 8
/// of ASME IX (QW/QB-422) is austenitic stainless steel; ISO/TR 15608: 1.2 is S355, 8.1 austenitic stainless steel, 22
/// non-heat-treatable aluminium alloys. All from memory.
fn metals() -> Vec<Case> {
    let procedure = |groups: &[&str]| {
        let own = doc::with(doc::procedure(), "/base_metals", json!(groups));
        doc::with(own, "/parent_metal", json!({ "p_number": { "number": "25" } }))
    };
    let stainless = doc::with(doc::qualification(), "/pieces/0/parts/1/metal/group", json!("8.1"));
    let numbered = doc::with(
        doc::qualification(),
        "/pieces/0/parts/0/metal/p_number",
        json!({ "number": "1" }),
    );
    vec![
        (
            "procedures",
            procedure(&["22", "23.1"]),
            "/parent_metal/d11_group",
            json!("II"),
            "no metal of group 22 or 23.1",
        ),
        (
            "procedures",
            procedure(&["22"]),
            "/parent_metal/p_number/number",
            json!("8"),
            "P-Number 8 of ASME IX",
        ),
        (
            "qualifications",
            stainless,
            "/pieces/0/parts/1/metal/d11_group",
            json!("I"),
            "no metal of group 8.1",
        ),
        (
            "qualifications",
            numbered,
            "/pieces/0/parts/0/metal/p_number/number",
            json!("8"),
            "no metal of group 1.2",
        ),
    ]
}

/// Where the refusal points, where that is not the value itself.
fn pointer_of(at: &str) -> String {
    match at {
        "/instruments/2" => "/instruments/2/code".to_owned(),
        "/welds" => "/welds/1/id".to_owned(),
        _ => at.to_owned(),
    }
}

/// EN 1011-1:2009, Table 1: 0.8 for process 136. A limit on heat input by 0.7 would allow a seventh more arc energy
/// than one by 0.8 (own arithmetic), and no check computes by it.
#[tokio::test]
async fn a_limit_on_heat_input_is_by_the_factor_that_checks_compute_with() {
    let api = Api::furnished().await;
    let write = async |number: &str, limit: &str, factor: &str| {
        let own = doc::with(doc::procedure(), "/number", json!(number));
        let own = doc::with(own, "/runs/0/limits/heat_input", Value::Null);
        let own = doc::with(own, &format!("/runs/0/limits/{limit}"), json!("0.5 to 1.5 kJ/mm"));
        let own = doc::with(own, "/runs/0/thermal_efficiency", json!(factor));
        api.post(api.shop.author(), "/v1/procedures", &own).await
    };
    write("WPS-K1", "heat_input", "80 %").await.expect(201);
    write("WPS-K2", "arc_energy", "70 %").await.expect(201);
    let refused = write("WPS-K3", "heat_input", "70 %").await;
    let problem = refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/runs/0/thermal_efficiency"]);
    assert!(problem.to_string().contains("with 0.8"), "{problem}");
}

/// EN 1011-1:2009, Table 1, lists TIG as 141 and submerged arc as 121 only.
#[tokio::test]
async fn a_process_without_a_thermal_efficiency_has_no_limit_on_heat_input() {
    let api = Api::furnished().await;
    for process in ["142", "122"] {
        let own = doc::with(doc::procedure(), "/process", json!(process));
        let own = doc::with(own, "/runs/0/limits/heat_input", json!("0.5 to 1.5 kJ/mm"));
        let refused = api.post(api.shop.author(), "/v1/procedures", &own).await;
        let problem = refused.problem(422, "invalid-fields");
        assert!(refused.pointers().contains(&"/runs/0/limits/heat_input".to_owned()), "{problem}");
        assert!(problem.to_string().contains("limit the arc energy"), "{problem}");
    }
}

#[tokio::test]
async fn what_cannot_be_is_refused_at_its_field() {
    let api = Api::furnished().await;
    for (path, document, at, value, word) in
        shares_and_names().into_iter().chain(days_and_temperatures()).chain(metals())
    {
        let spoilt = doc::with(document, at, value.clone());
        let answer = api.post(api.shop.author(), &format!("/v1/{path}"), &spoilt).await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), [pointer_of(at)], "{at}: {value}");
        let errors = answer.json()["errors"].clone();
        assert!(errors[0]["detail"].as_str().unwrap().contains(word), "{at}: {errors}");
    }
    // The edge belongs to what can be: a wire of 100 %, a machine for 100 % of the time, preheat up to the interpass
    // maximum, tests of today.
    let today = OffsetDateTime::now_utc().date().to_string();
    let preheat = json!({ "min": 200, "unit": "°C" });
    for (path, document, at, value) in [
        (
            "consumables",
            doc::with(doc::consumable(), "/code", json!("FCW-9")),
            "/efficiency",
            json!("100 %"),
        ),
        (
            "stations",
            doc::with(doc::station(), "/code", json!("ST-9")),
            "/rated/0/duty",
            json!("100 %"),
        ),
        (
            "procedures",
            doc::with(doc::procedure(), "/number", json!("WPS-9")),
            "/runs/0/limits/preheat",
            preheat,
        ),
        (
            "qualifications",
            doc::with(doc::qualification(), "/number", json!("PQR-9")),
            "/welded_on",
            json!(today),
        ),
    ] {
        let document = doc::with(document, at, value);
        api.post(api.shop.author(), &format!("/v1/{path}"), &document).await.expect(201);
    }
}

/// Where leaving a list out means all, an empty one means nothing that anybody wants to say.
#[tokio::test]
async fn an_empty_list_is_not_taken_for_all() {
    let api = Api::furnished().await;
    let sheet = doc::with(doc::consumable(), "/code", json!("FCW-9"));
    let order = doc::with(doc::work_order(), "/number", json!("J-9"));
    for (path, document, at) in [
        ("work-orders", order, "/accepted_procedures"),
        ("consumables", sheet, "/data/0/conditions/0/positions"),
        ("qualifications/support", doc::support_question(), "/records"),
    ] {
        let path = format!("/v1/{path}");
        let send = async |value: Value| {
            let document = doc::with(document.clone(), at, value);
            api.post(api.shop.author(), &path, &document).await
        };
        let refused = send(json!([])).await;
        let problem = refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [at]);
        let detail = problem["errors"][0]["detail"].as_str().unwrap();
        assert!(detail.starts_with("name at least one, or leave it out"), "{detail}");
        let taken = send(Value::Null).await.status;
        assert!(matches!(taken, 200 | 201), "{path}: {taken}");
    }
}

/// An order with an empty list says of no procedure that it is accepted.
#[tokio::test]
async fn an_order_that_stands_with_an_empty_list_accepts_nothing() {
    let api = Api::furnished().await;
    let order = doc::with(doc::work_order(), "/number", json!("J-9"));
    api.shop.write(&api, "work-orders", &order).await;
    let setup = doc::with(doc::setup(), "/work_order", json!("J-9"));
    assert_eq!(check(&api, &setup).await["verdict"], "allowed");
    let change =
        "update record_revision set document = jsonb_set(document, '{accepted_procedures}', '[]')
                  where code = 'J-9'";
    execute(&api, change).await;
    let replica = api.replica().await;
    let answer = replica.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
    assert_eq!(finding(&answer, "work-order-acceptance")["outcome"], "outside", "{answer:#}");
}

/// A printed table has one current at one wire feed; another voltage there may be a second line of it.
#[tokio::test]
async fn a_table_with_two_currents_at_one_feed_is_refused() {
    let api = Api::start().await;
    let point = |feed: &str, current: &str| json!({ "wire_feed": feed, "current": current, "voltage": "25 V" });
    let with = |points: Value| doc::with(doc::consumable(), "/data/0/conditions/0/points", points);
    let two = with(json!([
        point("6 m/min", "180 A"),
        point("8 m/min", "220 A"),
        point("6000 mm/min", "190 A")
    ]));
    let answer = api.post(api.shop.author(), "/v1/consumables", &two).await;
    answer.problem(422, "invalid-fields");
    assert_eq!(answer.pointers(), ["/data/0/conditions/0/points/2/current"]);
    let alike = with(json!([point("6 m/min", "180 A"), point("6 m/min", "180 A")]));
    api.post(api.shop.author(), "/v1/consumables", &alike).await.expect(201);
}

/// Relative humidity ends at saturated air.
#[tokio::test]
async fn no_air_is_damper_than_saturated() {
    let api = Api::furnished().await;
    api.shop.write(&api, "consumable-batches", &doc::batch()).await;
    let path = format!("/v1/consumable-batches/{}/events", doc::batch()["code"].as_str().unwrap());
    let opened =
        |humidity: &str| json!({ "portion": "P-1", "event": "opened", "humidity": humidity });
    let answer = api.post(api.shop.author(), &path, &opened("155 %")).await;
    answer.problem(422, "invalid-fields");
    assert_eq!(answer.pointers(), ["/humidity"]);
    api.post(api.shop.author(), &path, &opened("100 %")).await.expect(201);
}

/// Records are read as they stand: a check that rested on one before an update of the service rests on it still.
#[tokio::test]
async fn what_was_written_before_still_loads() {
    let api = Api::furnished().await;
    let due = json!([{ "code": "V-1", "measures": "voltage", "calibration_due": "2027-01-01" }]);
    let old = doc::with(doc::with(doc::station(), "/instruments", due), "/code", json!("ST-8"));
    api.shop.write(&api, "stations", &old).await;
    for (place, value) in
        [("{instruments,0,calibration_due}", "\"-0001-01-01\""), ("{gun,duty,value}", "160")]
    {
        let change = format!(
            "update record_revision set document = jsonb_set(document, '{place}', '{value}') where code = 'ST-8'"
        );
        execute(&api, &change).await;
    }
    let replica = api.replica().await;
    let setup = doc::with(doc::setup(), "/station", json!("ST-8"));
    let answer = replica.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
    assert_eq!(answer["verdict"], "allowed", "{answer:#}");
    let read = replica.get(api.shop.reader(), "/v1/stations/ST-8").await.expect(200);
    assert_eq!(read["document"]["instruments"][0]["calibration_due"], "-0001-01-01");
}

/// Review, effects and release name the limits without which the check allows nothing: the same ones.
#[tokio::test]
async fn a_procedure_that_can_allow_nothing_says_so_before_its_release() {
    let api = Api::furnished().await;
    let path = "/v1/procedures/WPS-8";
    let open = doc::with(doc::procedure(), "/number", json!("WPS-8"));
    let open = doc::with(open, "/runs/0/limits/electrical_stick_out", Value::Null);
    let open = doc::with(open, "/runs/0/limits/gas_flow", Value::Null);
    api.shop.write(&api, "procedures", &open).await;
    let missing = |answer: &Value| -> Vec<Value> {
        let listed = answer["missing_limits"].as_array().unwrap().iter();
        listed.map(|one| json!([one["pointer"], one["run_classes"], one["one_of"]])).collect()
    };
    let runs = json!(["fill", "cap", "single"]);
    let expected = [
        json!(["/runs/0/limits", runs, ["electrical-stick-out"]]),
        json!(["/runs/0/limits", runs, ["gas-flow"]]),
    ];
    let review = api.get(api.shop.reader(), &format!("{path}/review")).await.expect(200);
    assert_eq!(missing(&review), expected);
    let reason = review["missing_limits"][0]["reason"].as_str().unwrap();
    assert!(reason.contains("electrical stick-out") && reason.contains("undetermined"), "{reason}");
    let effects = api.get(api.shop.reader(), &format!("{path}/effects")).await.expect(200);
    assert_eq!(missing(&effects), expected);

    let etag = async || api.get(api.shop.reader(), path).await.etag().to_owned();
    api.act(api.shop.author(), &format!("{path}/submission"), &etag().await).await.expect(200);
    let approver = api.shop.approver();
    let released =
        step(&api, approver, &format!("{path}/release"), &etag().await, &json!({})).await;
    assert_eq!(missing(&released.expect(200)["effects"]), expected);
    let seen = json!({ "statement": "Test report seen" });
    let signing = format!("{path}/support-signature");
    step(&api, approver, &signing, &etag().await, &seen).await.expect(200);
    let setup = doc::with(doc::setup(), "/procedure", json!("WPS-8"));
    let answer = check(&api, &doc::with(setup, "/work_order", Value::Null)).await;
    assert_eq!(answer["verdict"], "undetermined", "{answer:#}");
    assert_eq!(finding(&answer, "no-limit")["outcome"], "no-limit");
    let told = answer["findings"].as_array().unwrap().iter();
    assert_eq!(told.filter(|finding| finding["outcome"] == "no-limit").count(), expected.len());

    // One that has them all, and one that calls up data which has the stick-out.
    let review = api.get(api.shop.reader(), "/v1/procedures/WPS-1/review").await.expect(200);
    assert!(missing(&review).is_empty(), "{review:#}");
    let called_up =
        doc::with(doc::with(open, "/number", json!("WPS-7")), "/calls_up_data", json!(true));
    api.shop.write(&api, "procedures", &called_up).await;
    let review = api.get(api.shop.reader(), "/v1/procedures/WPS-7/review").await.expect(200);
    assert_eq!(missing(&review), expected[1..]);
}
