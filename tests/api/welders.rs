//! Welders over HTTP: who signs, who lapses, who may weld, who reads names, and what a check says of them.
//!
//! Rules: ISO 9606-1:2012, 9.2 (a responsible person confirms every six months; secondary) and table 10 (PB
//! covers PA and PB; from memory). Days are own arithmetic.

use serde_json::{Value, json};

use crate::{
    behind::{count, etag, rows, step},
    life::finding,
    support::{Answer, Api, documents as doc},
};

const PATH: &str = "/v1/welders/W-1";

async fn with_welder() -> Api {
    let api = Api::furnished().await;
    api.shop.write(&api, "welders", &doc::welder()).await;
    api
}

async fn sign(api: &Api, key: &str, body: &Value) -> Answer {
    step(api, key, &format!("{PATH}/events"), &etag(api, PATH).await, body).await
}

async fn event(api: &Api, event: &str, on: &str) -> Answer {
    let body = json!({ "qualification": "Q1", "event": event, "on": on, "reason": "Seen" });
    sign(api, api.shop.approver(), &body).await
}

/// The setup on a day, by the welder, with all that a fillet's range asks for.
fn setup(day: &str) -> Value {
    let work = json!({
        "product": "plate", "filler_group": "FM1", "filler_type": "P", "layers": "sl",
        "mechanisation": "partly-mechanised",
    });
    let welder = json!({ "code": "W-1", "work": work });
    doc::with(doc::with(doc::setup(), "/welder", welder), "/day", json!(day))
}

async fn check(api: &Api, setup: &Value) -> Value {
    api.post(api.shop.reader(), "/v1/checks", setup).await.expect(200)
}

async fn outcome(api: &Api, day: &str) -> Value {
    finding(&check(api, &setup(day)).await, "welder")["outcome"].clone()
}

#[tokio::test]
async fn a_lapsed_welder_is_refused_and_a_signed_confirmation_prolongs() {
    let api = with_welder().await;
    // From memory until somebody compared it with the print.
    assert_eq!(outcome(&api, "2026-06-01").await, "not-given");
    event(&api, "range-signed", "2026-02-01").await.expect(200);
    let held = check(&api, &setup("2026-07-15")).await;
    assert_eq!(finding(&held, "welder")["outcome"], "inside", "{held:#}");
    let lapsed = check(&api, &setup("2026-07-16")).await;
    assert_eq!(lapsed["verdict"], "not-allowed");
    let found = finding(&lapsed, "welder");
    assert_eq!((&found["outcome"], &found["pointer"]), (&json!("outside"), &json!("/welder")));
    assert!(found["reason"].as_str().unwrap().contains("lapsed after 2026-07-15"), "{found}");
    // Use alone is nothing by this code; a signature in time is.
    let by_use = json!({
        "qualification": "Q1", "event": "confirmed", "on": "2026-07-01", "by_use": true,
        "reason": "The runs show it",
    });
    sign(&api, api.shop.approver(), &by_use).await.expect(200);
    assert_eq!(outcome(&api, "2026-07-16").await, "outside");
    event(&api, "confirmed", "2026-07-01").await.expect(200);
    assert_eq!(outcome(&api, "2026-07-16").await, "inside");
    assert_eq!(outcome(&api, "2027-01-02").await, "outside");
    let standing = api.get(api.shop.reader(), &format!("{PATH}/standing?day=2026-12-01")).await;
    let standing = standing.expect(200);
    let first = &standing["qualifications"][0];
    assert_eq!(
        (&first["standing"], &first["day"], &first["ending"], &first["range_signed"]),
        (&json!("in-force"), &json!("2027-01-01"), &json!("confirmation"), &json!(true))
    );
    let position =
        first["limits"].as_array().unwrap().iter().find(|one| one["variable"] == "position");
    assert_eq!(position.unwrap()["working"], "position PB: PA, PB");
    event(&api, "withdrawn", "2026-09-01").await.expect(200);
    assert_eq!(outcome(&api, "2026-08-31").await, "inside");
    assert_eq!(outcome(&api, "2026-09-01").await, "outside");
}

/// What was signed on paper may be entered later; readers see the day it is for, and the day it was entered.
#[tokio::test]
async fn an_event_that_is_entered_late_is_seen_to_be() {
    let api = with_welder().await;
    event(&api, "confirmed", "2026-03-01").await.expect(200);
    let today = time::OffsetDateTime::now_utc().date();
    let standing = api.get(api.shop.reader(), &format!("{PATH}/standing?day=2026-02-01")).await;
    let standing = standing.expect(200);
    let events = standing["qualifications"][0]["events"].as_array().unwrap();
    assert_eq!(events.len(), 1, "{standing:#}");
    assert_eq!(
        (&events[0]["event"], &events[0]["on"]),
        (&json!("confirmed"), &json!("2026-03-01"))
    );
    let entered = events[0]["entered_at"].as_str().unwrap();
    let entered =
        time::Date::parse(&entered[..10], &time::format_description::well_known::Iso8601::DATE);
    assert!((today - entered.unwrap()).whole_days().abs() <= 1, "{events:?}");
    let signed = rows(&api, "select person_id from welder_event").await;
    assert_eq!(events[0]["person"], signed[0]["person_id"]);
}

#[tokio::test]
async fn a_changed_test_takes_the_signature_of_its_range_away() {
    let api = with_welder().await;
    event(&api, "range-signed", "2026-02-01").await.expect(200);
    assert_eq!(outcome(&api, "2026-06-01").await, "inside");
    let changed = doc::with(doc::welder(), "/qualifications/0/thickness", json!("12 mm"));
    api.put(api.shop.author(), PATH, &etag(&api, PATH).await, &changed).await.expect(200);
    assert_eq!(outcome(&api, "2026-06-01").await, "not-given");
}

#[tokio::test]
async fn a_second_person_signs() {
    let api = with_welder().await;
    let people = api.get(api.shop.admin(), "/v1/people").await.expect(200);
    let named = |name: &str| {
        let all = people["items"].as_array().unwrap();
        let found = all.iter().find(|person| person["name"] == name).unwrap();
        found["person"].as_str().unwrap().to_owned()
    };
    // Who wrote the record may be an approver as well, and still cannot sign it.
    let writer = crate::behind::person(
        &api,
        "Both",
        &[arcbounds::access::Role::Author, arcbounds::access::Role::Approver],
    )
    .await;
    let author = crate::behind::key_of(&api, &writer, arcbounds::access::Role::Author).await;
    let approver = crate::behind::key_of(&api, &writer, arcbounds::access::Role::Approver).await;
    let body = json!({
        "qualification": "Q1", "event": "confirmed", "on": "2026-03-01", "reason": "Seen"
    });
    api.put(&author, PATH, &etag(&api, PATH).await, &doc::welder()).await.expect(200);
    sign(&api, &approver, &body).await.problem(409, "conflict");
    sign(&api, api.shop.author(), &body).await.problem(403, "wrong-role");
    sign(&api, api.shop.approver(), &body).await.expect(200);
    // Nor can the welder.
    let own = doc::with(doc::welder(), "/person", json!(named("Second person")));
    api.put(&author, PATH, &etag(&api, PATH).await, &own).await.expect(200);
    sign(&api, api.shop.approver(), &body).await.problem(409, "conflict");
    let signed = rows(&api, "select person_id, event from welder_event").await;
    assert_eq!(signed.len(), 1);
    assert_eq!(signed[0]["person_id"], named("Second person"));
}

/// The service's own promise: an approver wrote no part of what they sign, whoever corrected it since.
#[tokio::test]
async fn who_typed_a_qualification_does_not_sign_it_after_a_trifle_was_corrected() {
    let api = Api::furnished().await;
    let roles = [arcbounds::access::Role::Author, arcbounds::access::Role::Approver];
    let typist = crate::behind::person(&api, "Typist", &roles).await;
    let [writes, signs] = [
        crate::behind::key_of(&api, &typist, roles[0]).await,
        crate::behind::key_of(&api, &typist, roles[1]).await,
    ];
    api.post(&writes, "/v1/welders", &doc::welder()).await.expect(201);
    let corrected = doc::with(doc::welder(), "/reference", json!("stamp 1, left hand"));
    api.put(api.shop.author(), PATH, &etag(&api, PATH).await, &corrected).await.expect(200);
    for event in ["range-signed", "confirmed"] {
        let body = json!({
            "qualification": "Q1", "event": event, "on": "2026-03-01", "reason": "Seen"
        });
        let refused = sign(&api, &signs, &body).await;
        let problem = refused.problem(409, "conflict");
        let detail = problem["detail"].as_str().unwrap();
        assert!(detail.contains("in whichever revision"), "{detail}");
        sign(&api, api.shop.approver(), &body).await.expect(200);
    }
    let body = json!({ "qualification": "Q1", "event": "withdrawn", "reason": "Unsafe work" });
    sign(&api, &signs, &body).await.expect(200);
}

/// ISO 9606-1, 9.3 (from memory): the option is chosen when the certificate is issued.
#[tokio::test]
async fn tested_welds_prolong_only_a_certificate_of_their_option() {
    let api = Api::furnished().await;
    let body = json!({
        "qualification": "Q1", "event": "revalidated", "on": "2026-03-01", "option": "b",
        "welds": ["2026-02-01", "2026-02-02"], "reason": "Seen",
    });
    // The term of two years ends on 2026-03-15.
    let tested = doc::with(doc::welder(), "/qualifications/0/welded_on", json!("2024-03-15"));
    for (code, issued, says) in [
        ("W-2", json!("a"), Some("issued with option \"a\"")),
        ("W-3", Value::Null, Some("does not say which option")),
        ("W-4", json!("b"), None),
    ] {
        let welder = doc::with(tested.clone(), "/code", json!(code));
        let welder = doc::with(welder, "/qualifications/0/revalidation", issued);
        api.shop.write(&api, "welders", &welder).await;
        let path = format!("/v1/welders/{code}");
        let tag = etag(&api, &path).await;
        let answer = step(&api, api.shop.approver(), &format!("{path}/events"), &tag, &body).await;
        let Some(says) = says else {
            answer.expect(200);
            continue;
        };
        let problem = answer.problem(422, "invalid-fields");
        assert_eq!(answer.pointers(), ["/option"]);
        let detail = problem["errors"][0]["detail"].as_str().unwrap();
        assert!(detail.contains(says), "{detail}");
    }
}

/// ISO 9606-1:2012, 9.3 b (from memory): two welds made during the last six months of the validity period.
#[tokio::test]
async fn welds_of_another_time_and_one_told_twice_are_refused_each_at_its_place() {
    let api = Api::furnished().await;
    let welder = doc::with(doc::welder(), "/qualifications/0/welded_on", json!("2024-03-15"));
    let welder = doc::with(welder, "/qualifications/0/revalidation", json!("b"));
    api.shop.write(&api, "welders", &welder).await;
    let ask = async |on: &str, welds: &[&str]| {
        let body = json!({
            "qualification": "Q1", "event": "revalidated", "on": on, "option": "b", "welds": welds,
            "reason": "Seen",
        });
        sign(&api, api.shop.approver(), &body).await
    };
    for (on, welds, at, says) in [
        (
            "2024-08-15",
            ["2024-03-13", "2024-03-14"],
            &["/welds/0", "/welds/1"][..],
            "revalidates nothing",
        ),
        (
            "2024-08-15",
            ["2024-08-01", "2024-08-02"],
            &["/welds/0", "/welds/1"],
            "2025-09-15 to 2026-03-15",
        ),
        ("2026-03-01", ["2026-02-01", "2026-02-01"], &["/welds/1"], "two days"),
        ("2026-03-01", ["2026-02-01", "2026-03-02"], &["/welds/1"], "tested by 2026-03-01"),
    ] {
        let refused = ask(on, &welds).await;
        let problem = refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), at, "{on}");
        let detail = problem["errors"][0]["detail"].as_str().unwrap();
        assert!(detail.contains(says), "{detail}");
    }
    assert_eq!(count(&api, "select count(*) from welder_event").await, 0);
    for day in ["2024-09-01", "2025-03-01", "2025-09-01", "2026-02-01"] {
        event(&api, "confirmed", day).await.expect(200);
    }
    ask("2026-03-01", &["2025-09-15", "2026-02-01"]).await.expect(200);
    // The next term ends on 2028-03-01: the same welds are of none of its months.
    let refused = ask("2026-03-02", &["2025-09-15", "2026-02-01"]).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/welds/0", "/welds/1"]);
}

#[tokio::test]
async fn what_makes_no_sense_is_refused_where_it_stands() {
    let api = with_welder().await;
    let base = json!({
        "qualification": "Q1", "event": "confirmed", "on": "2026-03-01", "reason": "Seen"
    });
    for (pointer, value, at) in [
        ("/qualification", json!("Q9"), "/qualification"),
        ("/on", json!("2999-01-01"), "/on"),
        ("/on", json!("2026-01-14"), "/on"),
        ("/welds", json!(["2026-02-01"]), "/option"),
    ] {
        let refused =
            sign(&api, api.shop.approver(), &doc::with(base.clone(), pointer, value)).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [at]);
    }
    for (option, at) in [("a", "/option"), ("b", "/welds"), ("c", "/option"), ("z", "/option")] {
        let body = json!({
            "qualification": "Q1", "event": "revalidated", "on": "2026-03-01", "option": option,
            "welds": ["2026-02-01"], "reason": "Seen",
        });
        let refused = sign(&api, api.shop.approver(), &body).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [at], "{option}");
    }
    assert_eq!(count(&api, "select count(*) from welder_event").await, 0);
    let mut twice = doc::with(doc::welder(), "/code", json!("W-2"));
    let first = twice["qualifications"][0].clone();
    twice["qualifications"].as_array_mut().unwrap().push(first);
    twice = doc::with(twice, "/qualifications/0/pack", json!("nothing"));
    twice = doc::with(twice, "/qualifications/1/revalidation", json!("z"));
    let refused = api.post(api.shop.author(), "/v1/welders", &twice).await;
    refused.problem(422, "invalid-fields");
    let mut pointers = refused.pointers();
    pointers.sort();
    let expected =
        ["/qualifications/0/pack", "/qualifications/1/id", "/qualifications/1/revalidation"];
    assert_eq!(pointers, expected);
    // A setup that names nobody of ours.
    let unknown = doc::with(setup("2026-03-01"), "/welder/code", json!("W-404"));
    let refused = api.post(api.shop.reader(), "/v1/checks", &unknown).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/welder"]);
}

/// Today is not known to the test, so that the tests were welded relative to it.
#[tokio::test]
async fn who_lapses_within_thirty_sixty_and_ninety_days() {
    let api = Api::furnished().await;
    let today = time::OffsetDateTime::now_utc().date();
    // Six months are 181 to 184 days: 170 days ago leaves 11 to 14, 140 days ago 41 to 44, 110 days ago 71
    // to 74 (own arithmetic).
    for (code, days) in [("W-1", 170), ("W-2", 140), ("W-3", 110), ("W-4", 1), ("W-5", 400)] {
        let welded = today - time::Duration::days(days);
        let new = doc::with(doc::welder(), "/code", json!(code));
        let new = doc::with(new, "/qualifications/0/welded_on", json!(welded.to_string()));
        api.shop.write(&api, "welders", &new).await;
    }
    let soon = async |days: &str| {
        let path = format!("/v1/welders?lapses_within={days}");
        let listed = api.get(api.shop.reader(), &path).await.expect(200);
        let items = listed["items"].as_array().unwrap();
        items.iter().map(|item| item["code"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(soon("30").await, ["W-1"]);
    assert_eq!(soon("60").await, ["W-1", "W-2"]);
    assert_eq!(soon("90").await, ["W-1", "W-2", "W-3"]);
    assert_eq!(soon("60&limit=1").await, ["W-1"]);
    let refused = api.get(api.shop.reader(), "/v1/welders?lapses_within=0").await;
    refused.problem(400, "bad-parameter");
    let none = api.get(api.stranger.reader(), "/v1/welders?lapses_within=90").await.expect(200);
    assert_eq!(none["items"], json!([]));
}

#[tokio::test]
async fn who_may_weld_a_job() {
    let api = with_welder().await;
    event(&api, "range-signed", "2026-02-01").await.expect(200);
    let other = doc::with(doc::welder(), "/code", json!("W-2"));
    let other = doc::with(other, "/qualifications/0/positions", json!(["PA"]));
    api.shop.write(&api, "welders", &other).await;
    let none = json!({ "code": "W-0", "qualifications": [] });
    api.shop.write(&api, "welders", &none).await;
    let job = json!({
        "day": "2026-03-01", "process": "136", "joint": "fillet", "position": "PB",
        "thicknesses": ["8 mm", "12 mm"],
        "work": {
            "product": "plate", "filler_group": "FM1", "filler_type": "P", "layers": "sl",
            "mechanisation": "partly-mechanised",
        },
    });
    let found = api.post(api.shop.reader(), "/v1/welder-search", &job).await.expect(200);
    let told: Vec<_> = found["welders"].as_array().unwrap().iter().collect();
    let codes: Vec<_> = told.iter().map(|one| (&one["welder"], &one["ruling"])).collect();
    assert_eq!(
        codes,
        [
            (&json!("W-1"), &json!("within")),
            (&json!("W-0"), &json!("outside")),
            (&json!("W-2"), &json!("outside")),
        ]
    );
    assert_eq!((&told[0]["until"], &told[0]["against"]), (&json!("2026-07-15"), &json!([])));
    let against = told[2]["against"].to_string();
    assert!(against.contains("PB is not in PA"), "{against}");
    // A welder's test says nothing about a machine (ISO 9606-1, clause 1, from memory).
    let by_machine = doc::with(job.clone(), "/work/mechanisation", json!("automatic"));
    let found = api.post(api.shop.reader(), "/v1/welder-search", &by_machine).await.expect(200);
    let ruled: Vec<_> = found["welders"].as_array().unwrap().iter().map(|w| &w["ruling"]).collect();
    assert_eq!(ruled, ["outside"; 3]);
    let unstated = doc::with(job.clone(), "/work/mechanisation", Value::Null);
    let found = api.post(api.shop.reader(), "/v1/welder-search", &unstated).await.expect(200);
    assert_eq!(found["welders"][0]["ruling"], "not-judged");
    let open = doc::with(job, "/work", Value::Null);
    let found = api.post(api.shop.reader(), "/v1/welder-search", &open).await.expect(200);
    assert_eq!(found["welders"][0]["ruling"], "not-judged");
    let foreign = api.post(api.stranger.reader(), "/v1/welder-search", &open).await.expect(200);
    assert_eq!(foreign["welders"], json!([]));
}

#[tokio::test]
async fn names_stand_apart_and_go_when_their_purpose_is_over() {
    let api = with_welder().await;
    let path = format!("{PATH}/name");
    let put = async |body: Value| {
        let now = api.get(api.shop.approver(), &path).await.etag().to_owned();
        let call = api.call(reqwest::Method::PUT, &path).key(api.shop.author());
        call.if_match(&now).json(&body).send().await
    };
    let name = "Somebody Invented";
    put(json!({ "name": name, "retention": "five years after the last weld" })).await.expect(200);
    let read = api.get(api.shop.approver(), &path).await;
    assert_eq!(read.expect(200)["name"], name);
    let other = json!({ "name": "Somebody Else", "retention": "one year" });
    let call = || api.call(reqwest::Method::PUT, &path).key(api.shop.author()).json(&other);
    call().send().await.problem(428, "version-required");
    // Of a name that was changed since, nobody writes over what they have not read.
    call().if_match(read.etag()).send().await.expect(200);
    call().if_match(read.etag()).send().await.problem(412, "stale-version");
    put(json!({ "name": name, "retention": "five years after the last weld" })).await.expect(200);
    api.get(api.shop.reader(), &path).await.problem(403, "wrong-role");
    api.get(api.stranger.author(), &path).await.problem(404, "not-found");
    for seen in [PATH, "/v1/welders", "/v1/audit?limit=500", "/v1/welders/W-1/standing"] {
        let answer = api.get(api.shop.admin(), seen).await;
        answer.expect(200);
        assert!(!answer.text.contains(name), "{seen}");
    }
    put(json!({ "retention": "taken out: the purpose is over" })).await.expect(200);
    let read = api.get(api.shop.approver(), &path).await.expect(200);
    assert_eq!(read.get("name"), None);
    let left = format!("select count(*) from welder_name where name = '{name}'");
    assert_eq!(count(&api, &left).await, 0);
}

#[tokio::test]
async fn a_foreign_organisation_sees_and_changes_nothing() {
    let api = with_welder().await;
    let now = etag(&api, PATH).await;
    api.get(api.stranger.reader(), PATH).await.problem(404, "not-found");
    api.get(api.stranger.reader(), &format!("{PATH}/standing")).await.problem(404, "not-found");
    let body = json!({ "qualification": "Q1", "event": "confirmed", "reason": "x" });
    let events = format!("{PATH}/events");
    step(&api, api.stranger.approver(), &events, &now, &body).await.problem(404, "not-found");
    let refused = api.post(api.stranger.reader(), "/v1/checks", &setup("2026-03-01")).await;
    refused.problem(422, "invalid-fields");
    assert!(refused.pointers().contains(&"/welder".to_owned()), "{:?}", refused.pointers());
    assert_eq!(etag(&api, PATH).await, now);
}
