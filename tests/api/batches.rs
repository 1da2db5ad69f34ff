//! Batches of fillers over HTTP: the whole life of a packet, and what checks make of it.
//!
//! All records are made up. Sources of figures stand beside them.

use reqwest::Method;
use serde_json::{Value, json};
use time::{Duration, OffsetDateTime, format_description::well_known::Rfc3339};

use crate::support::{Answer, Api, documents as doc, finding};

const CARE: &str = "/v1/consumable-batches/CE-1-7/care";
const EVENTS: &str = "/v1/consumable-batches/CE-1-7/events";

/// Baked before use and once again; H5 for 4 h in the air, H10 for 6 h.
fn electrode() -> Value {
    json!({
        "code": "CE-1",
        "name": "Basic covered electrode",
        "kind": "covered-electrode",
        "designations": ["AWS A5.1: E7018"],
        "diameters": ["3.2 mm"],
        "polarities": ["DCEP"],
        "care": {
            "source": "Data sheet 2, 2024",
            "hydrogen": "H5",
            "bake_before_first_use": true,
            "baking": { "temperature": "300 to 400 °C", "time": "1 to 3 h", "times": 2 },
            "holding": "100 to 150 °C",
            "exposure": [{ "longest": "4 h" }, { "longest": "6 h", "hydrogen": "H10" }],
        },
    })
}

fn procedure() -> Value {
    json!({
        "number": "WPS-E",
        "title": "Fillets with a covered electrode",
        "codes": [doc::governing_code()],
        "support": { "kind": "declared-not-judged", "statement": "Test report 18, in the archive" },
        "process": "111",
        "joints": ["fillet"],
        "positions": ["PA", "PB"],
        "base_metals": ["1"],
        "thickness": "6 to 30 mm",
        "consumables": ["CE-1"],
        "hydrogen": "H10",
        "diameters": ["3.2 mm"],
        "polarities": ["DCEP"],
        "waveform": "not-controlled",
        "runs": [{
            "classes": ["single"],
            "beads": ["stringer"],
            "limits": {
                "current": "100 to 140 A",
                "voltage": "20 to 24 V",
                "travel_speed": "100 to 200 mm/min",
                "preheat": { "min": 20, "unit": "°C" },
                "interpass": "20 to 200 °C",
                "arc_energy": "0.5 to 2 kJ/mm",
            },
        }],
    })
}

/// 22 V, 125 A and 132 mm/min are 1.25 kJ/mm, times 0.8 a heat input of 1 kJ/mm (own arithmetic).
fn setup(at: &str) -> Value {
    let part = json!({
        "group": "1.1", "thickness": "24 mm", "cet": "0.33 %",
        "preheat_category": "B", "in_category_a": true,
    });
    json!({
        "procedure": "WPS-E",
        "process": "111",
        "job": {
            "code": doc::governing_code(), "joint": "fillet", "position": "PB",
            "base_metals": [part, part], "run_class": "single",
        },
        "filler": {
            "consumable": "CE-1", "batch": "CE-1-7", "portion": "P-1",
            "diameter": "3.2 mm", "polarity": "DCEP",
        },
        "settings": {
            "waveform": "not-controlled", "bead": "stringer", "current": "125 A", "voltage": "22 V",
            "travel_speed": "132 mm/min", "preheat": "100 °C",
        },
        "at": at,
    })
}

/// Ten days ago and so many hours: the days of all moments are past.
fn moment(hours: f64) -> String {
    let start = OffsetDateTime::now_utc() - Duration::days(10);
    let start = start.replace_nanosecond(0).unwrap();
    (start + Duration::seconds_f64(hours * 3600.0)).format(&Rfc3339).unwrap()
}

/// A clock that stands still while a test runs.
struct Clock(OffsetDateTime);

impl Clock {
    fn start() -> Self {
        let start = OffsetDateTime::now_utc() - Duration::days(10);
        Self(start.replace_nanosecond(0).unwrap())
    }

    fn at(&self, hours: f64) -> String {
        (self.0 + Duration::seconds_f64(hours * 3600.0)).format(&Rfc3339).unwrap()
    }
}

async fn furnished() -> Api {
    let api = Api::furnished().await;
    api.shop.write(&api, "consumables", &electrode()).await;
    api.shop.write(&api, "procedures", &procedure()).await;
    api.shop.release(&api, "WPS-E").await;
    let batch = doc::with(doc::batch(), "/code", json!("CE-1-7"));
    let batch = doc::with(batch, "/consumable", json!("CE-1"));
    api.shop.write(&api, "consumable-batches", &batch).await;
    api
}

async fn note(api: &Api, key: &str, event: &Value) -> Answer {
    api.post(key, EVENTS, event).await
}

async fn state(api: &Api, at: &str) -> Value {
    let path = format!("{CARE}?at={at}");
    api.get(api.shop.reader(), &path).await.expect(200)["portions"][0].clone()
}

/// The preheat that a finding of a method asks for.
fn preheat(answer: &Value, owner: &str) -> Value {
    let all = answer["findings"].as_array().unwrap();
    let found = all.iter().find(|one| {
        one["check"] == "preheat-hydrogen" && one["owner"]["name"].as_str().unwrap().contains(owner)
    });
    found.unwrap_or_else(|| panic!("{answer:#}")).clone()
}

async fn check(api: &Api, at: &str) -> Value {
    api.post(api.shop.reader(), "/v1/checks?detail=full", &setup(at)).await.expect(200)
}

/// A portion, and the kiosk that notes what is done with it.
struct Life {
    api: Api,
    clock: Clock,
    kiosk: String,
}

impl Life {
    async fn begin() -> Self {
        let api = furnished().await;
        let kiosk = api.shop.kiosk(&api, doc::STATION).await;
        Self { api, clock: Clock::start(), kiosk }
    }

    async fn step(&self, event: Value) {
        note(&self.api, &self.kiosk, &event).await.expect(201);
    }

    fn oven(&self, from: f64) -> Value {
        json!({ "portion": "P-1", "event": "into-oven", "at": self.clock.at(from),
            "temperature": "120 °C" })
    }

    fn bake(&self, from: f64) -> Value {
        let until = self.clock.at(from + 2.0);
        json!({ "portion": "P-1", "event": "baked", "at": self.clock.at(from), "until": until,
            "temperature": "350 °C" })
    }

    fn out(&self, at: f64) -> Value {
        json!({ "portion": "P-1", "event": "out-of-oven", "at": self.clock.at(at) })
    }

    async fn state(&self, at: f64) -> Value {
        state(&self.api, &self.clock.at(at)).await
    }

    async fn check(&self, at: f64) -> Value {
        check(&self.api, &self.clock.at(at)).await
    }
}

/// Bake, take out, wait, expire, bake again, expire again. Preheat by EN 1011-2:2001, equation C.8, for CET 0.33 %,
/// 24 mm, 1 kJ/mm: 91.6 °C with 5 mL/100 g, 121.5 °C with 10 (own arithmetic), rounded up to 95 and 125; by AWS
/// D1.1:2015, Table 3.3, over 20 mm: category B 10 °C, A 65 °C.
#[tokio::test]
async fn the_whole_life_of_a_packet() {
    let life = Life::begin().await;
    life.step(life.bake(0.0)).await;
    life.step(life.oven(2.0)).await;
    life.step(life.out(10.0)).await;
    fresh(&life).await;
    let lost = expired(&life).await;
    baked_again(&life, &lost).await;
    expired_for_good(&life).await;
}

/// Three hours out of the oven.
async fn fresh(life: &Life) {
    let fresh = life.state(13.0).await;
    assert_eq!((&fresh["place"], &fresh["fitness"]), (&json!("in-air"), &json!("usable")));
    assert_eq!(fresh["hydrogen"], json!({ "value": 5, "unit": "mL/100g" }));
    assert_eq!(fresh["exposed"], json!({ "value": 10800, "unit": "s" }));
    assert_eq!(fresh["left"], json!({ "value": 10800, "unit": "s" }));
    assert_eq!((&fresh["bakes"], &fresh["bakes_left"]), (&json!(1), &json!(1)));
    assert_eq!(fresh["hydrogen_until"], life.clock.at(14.0));
    assert_eq!(fresh["usable_until"], life.clock.at(16.0));
    assert_eq!(fresh["events"].as_array().unwrap().len(), 3);
    let answer = life.check(13.0).await;
    assert_eq!(finding(&answer, "filler-care", "consumable")["outcome"], "inside", "{answer:#}");
    assert_ne!(answer["verdict"], "not-allowed", "{answer:#}");
    assert_eq!(preheat(&answer, "EN 1011-2")["allowed"]["min"], 95);
    assert_eq!(preheat(&answer, "AWS D1.1")["allowed"]["min"], 10);
}

/// After five hours a class worse, so that the preheat of 100 °C is not enough any more; after seven expired.
async fn expired(life: &Life) -> Value {
    let answer = life.check(15.0).await;
    assert_eq!(finding(&answer, "filler-care", "consumable")["outcome"], "inside");
    let by_cet = preheat(&answer, "EN 1011-2");
    assert_eq!((&by_cet["outcome"], &by_cet["allowed"]["min"]), (&json!("outside"), &json!(125)));
    assert_eq!(by_cet["force"], "advised");

    let answer = life.check(17.0).await;
    assert_eq!(answer["verdict"], "not-allowed");
    let found = finding(&answer, "filler-care", "consumable");
    assert_eq!(
        (&found["outcome"], &found["pointer"]),
        (&json!("outside"), &json!("/filler/batch"))
    );
    assert!(found["remedy"].as_str().unwrap().starts_with("Bake the portion"), "{found:#}");
    assert!(found["reason"].as_str().unwrap().contains("7 h"), "{found:#}");
    assert_eq!(preheat(&answer, "AWS D1.1")["allowed"]["min"], 65);
    assert_eq!(preheat(&answer, "EN 1011-2")["outcome"], "not-given");
    let lost = life.state(17.0).await;
    assert_eq!((&lost["fitness"], &lost["loss"]), (&json!("bake"), &json!("exposed-too-long")));
    lost
}

/// Baked again, by another hand; the past stays as it was.
async fn baked_again(life: &Life, lost: &Value) {
    note(&life.api, life.api.shop.author(), &life.bake(18.0)).await.expect(201);
    life.step(life.oven(20.0)).await;
    life.step(life.out(21.0)).await;
    let answer = life.check(22.0).await;
    assert_eq!(finding(&answer, "filler-care", "consumable")["outcome"], "inside");
    assert_eq!(preheat(&answer, "EN 1011-2")["allowed"]["min"], 95);
    assert_eq!(life.state(17.0).await, *lost);
}

/// For the second time: no bake is left, and one more spoils it.
async fn expired_for_good(life: &Life) {
    let answer = life.check(28.0).await;
    assert_eq!(answer["verdict"], "not-allowed");
    let found = finding(&answer, "filler-care", "consumable");
    assert!(found["remedy"].as_str().unwrap().starts_with("Scrap"), "{found:#}");
    life.step(life.bake(29.0)).await;
    let spoiled = life.state(31.0).await;
    assert_eq!(
        (&spoiled["fitness"], &spoiled["loss"]),
        (&json!("scrap"), &json!("baked-too-often"))
    );
    life.step(json!({ "portion": "P-1", "event": "scrapped", "at": life.clock.at(32.0) })).await;
    let refused = note(&life.api, &life.kiosk, &life.oven(33.0)).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/event"]);
}

/// What is not known is not allowed; what does not exist is refused.
#[tokio::test]
async fn a_batch_is_named_known_and_opened() {
    let api = furnished().await;
    let now = moment(0.0);
    let ask = async |pointer: &str, value: Value| {
        let setup = doc::with(setup(&now), pointer, value);
        api.post(api.shop.reader(), "/v1/checks?detail=full", &setup).await
    };
    for (pointer, value) in [("/filler/batch", Value::Null), ("/filler/portion", Value::Null)] {
        let body = if pointer == "/filler/batch" {
            doc::with(setup(&now), "/filler/portion", Value::Null)
        } else {
            setup(&now)
        };
        let body = doc::with(body, pointer, value);
        let answer = api.post(api.shop.reader(), "/v1/checks?detail=full", &body).await.expect(200);
        assert_eq!(answer["verdict"], "undetermined", "{pointer}");
        assert_eq!(finding(&answer, "filler-care", "consumable")["outcome"], "not-given");
    }
    let unknown = ask("/filler/batch", json!("B-404")).await;
    unknown.problem(422, "invalid-fields");
    assert_eq!(unknown.pointers(), ["/filler/batch"]);
    let alone = ask("/filler/batch", Value::Null).await;
    alone.problem(422, "invalid-fields");
    assert_eq!(alone.pointers(), ["/filler/portion"]);
    let other_day = ask("/day", json!("2020-01-01")).await;
    other_day.problem(422, "invalid-fields");
    assert_eq!(other_day.pointers(), ["/at"]);
    let no_moment = ask("/at", json!("yesterday")).await;
    no_moment.problem(422, "invalid-fields");
    assert_eq!(no_moment.pointers(), ["/at"]);
    // The procedure's wire needs no care: nothing is asked.
    let plain = api.post(api.shop.reader(), "/v1/checks", &doc::setup()).await.expect(200);
    assert_eq!(plain["verdict"], "allowed");
}

/// Every fault of an event is named, with its place; only what has happened is noted, in its order.
#[tokio::test]
async fn events_are_refused_with_their_reason() {
    let api = furnished().await;
    let clock = Clock::start();
    let author = api.shop.author();
    let event = |kind: &str| json!({ "portion": "P-1", "event": kind, "at": clock.at(0.0) });
    let far = (OffsetDateTime::now_utc() + Duration::days(1)).format(&Rfc3339).unwrap();
    let cases = [
        (doc::with(event("opened"), "/event", json!("sniffed")), vec!["/event"]),
        (doc::with(event("opened"), "/temperature", json!("120 °C")), vec!["/temperature"]),
        (doc::with(event("opened"), "/humidity", json!("60 A")), vec!["/humidity"]),
        (event("baked"), vec!["/until", "/temperature"]),
        (event("into-oven"), vec!["/temperature"]),
        (event("out-of-oven"), vec!["/event"]),
        (doc::with(event("opened"), "/at", json!(far)), vec!["/at"]),
        (doc::with(event("opened"), "/portion", Value::Null), vec!["/portion"]),
        (doc::with(event("opened"), "/colour", json!(1)), vec!["/colour"]),
    ];
    for (body, pointers) in cases {
        let answer = note(&api, author, &body).await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), pointers, "{body}");
    }
    note(&api, author, &event("opened")).await.expect(201);
    let before = doc::with(event("into-oven"), "/temperature", json!("120 °C"));
    let before = doc::with(before, "/at", json!(clock.at(-1.0)));
    let early = note(&api, author, &before).await;
    early.problem(422, "invalid-fields");
    assert_eq!(early.pointers(), ["/at"]);
    note(&api, api.shop.reader(), &event("scrapped")).await.problem(403, "wrong-role");
    let etag = api.get(author, "/v1/consumable-batches/CE-1-7").await.etag().to_owned();
    let withdrawal = "/v1/consumable-batches/CE-1-7/withdrawal";
    api.withdraw(api.shop.approver(), withdrawal, &etag).await.expect(200);
    note(&api, author, &event("scrapped")).await.problem(409, "conflict");
    let care = api.get(api.shop.reader(), CARE).await.expect(200);
    assert!(care["withdrawn_because"].is_string(), "{care:#}");
    let portion = &care["portions"][0];
    assert_eq!(portion["fitness"], "unknown", "{portion:#}");
    assert!(portion["reason"].as_str().unwrap().contains("withdrawn"), "{portion:#}");
    assert_eq!(portion["usable_until"], Value::Null);
    let gone = api.post(api.shop.reader(), "/v1/checks", &setup(&moment(0.0))).await;
    gone.problem(422, "invalid-fields");
    assert_eq!(gone.pointers(), ["/filler/batch"]);
}

/// The same request twice is one event; the chain has each with its hash.
#[tokio::test]
async fn an_event_is_noted_once_and_stands_in_the_chain() {
    let api = furnished().await;
    let body = json!({ "portion": "P-1", "event": "opened", "humidity": "55 %" });
    for _ in 0..2 {
        let call = api.call(Method::POST, EVENTS).key(api.shop.author());
        let answer = call.header("idempotency-key", "once").json(&body).send().await;
        let noted = answer.expect(201);
        assert_eq!(noted["portions"][0]["events"].as_array().unwrap().len(), 1);
        assert!(!answer.header("rulebook-version").is_empty());
    }
    let chain = api.get(api.shop.admin(), "/v1/audit?subject=CE-1-7&limit=500").await.expect(200);
    let entries = chain["items"].as_array().unwrap();
    let noted: Vec<_> = entries.iter().filter(|entry| entry["action"] == "opened").collect();
    assert_eq!(noted.len(), 1, "{chain:#}");
    assert_eq!(noted[0]["kind"], "consumable-batch");
    assert!(noted[0]["details_hash"].is_string() && noted[0]["person"].is_string());
    // A check knows it at once, without its moment: now.
    let setup = doc::with(setup(""), "/at", Value::Null);
    let answer = api.post(api.shop.reader(), "/v1/checks?detail=full", &setup).await.expect(200);
    let found = finding(&answer, "filler-care", "consumable");
    assert!(found["reason"].as_str().unwrap().contains("before the first use"), "{found:#}");
}

/// A check that is kept says by which moment it was judged.
#[tokio::test]
async fn the_evidence_has_its_moment() {
    let api = furnished().await;
    let setup = doc::with(doc::with(setup(""), "/at", Value::Null), "/keep", json!(true));
    let answer = api.post(api.shop.reader(), "/v1/checks", &setup).await.expect(200);
    let path = format!("/v1/checks/{}", answer["check_id"].as_str().unwrap());
    let kept = api.get(api.shop.reader(), &path).await.expect(200);
    assert!(kept["setup"]["at"].is_string(), "{kept:#}");
}

#[tokio::test]
async fn rules_of_care_and_certificates_are_read_with_their_faults() {
    let api = Api::furnished().await;
    for (pointer, value, place) in [
        ("/care/exposure", json!([]), "/care/exposure"),
        ("/care/exposure/0/longest", json!(4), "/care/exposure/0/longest"),
        ("/care/baking", Value::Null, "/care/baking"),
        ("/care/hydrogen", json!("H7"), "/care/hydrogen"),
    ] {
        let body = doc::with(electrode(), pointer, value);
        let answer = api.post(api.shop.author(), "/v1/consumables", &body).await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), [place]);
    }
    let restores = doc::with(electrode(), "/care/holding_restores_after", json!("4 h"));
    let restores = doc::with(restores, "/care/holding", Value::Null);
    let answer = api.post(api.shop.author(), "/v1/consumables", &restores).await;
    assert_eq!(answer.pointers(), ["/care/holding"]);
    for (pointer, value, place) in [
        ("/certificate/sha256", json!("abc"), "/certificate/sha256"),
        ("/certificate/hydrogen", json!("4 %"), "/certificate/hydrogen"),
        ("/consumable", json!("FCW-404"), "/consumable"),
    ] {
        let body = doc::with(doc::batch(), pointer, value);
        let answer = api.post(api.shop.author(), "/v1/consumable-batches", &body).await;
        answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), [place]);
    }
    // Certificates without anything else are kept as they were sent.
    let made = api.post(api.shop.author(), "/v1/consumable-batches", &doc::batch()).await;
    made.expect(201);
    let list =
        api.get(api.shop.reader(), "/v1/consumable-batches?consumable=FCW-1").await.expect(200);
    assert_eq!(list["items"].as_array().unwrap().len(), 1);
    let none = api.get(api.shop.reader(), "/v1/consumable-batches?lot=none").await.expect(200);
    assert_eq!(none["items"], json!([]));
}
