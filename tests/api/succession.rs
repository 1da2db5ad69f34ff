//! One revision after another: superseded at once or by plan, and dates that come due.

use serde_json::{Value, json};
use time::{Date, Duration, OffsetDateTime, format_description::well_known::Rfc3339};

use crate::{
    behind::etag,
    life::{PATH, check, finding, narrower, release, revise, sign, submit},
    support::{Api, documents},
};

fn in_days(days: i64) -> Date {
    OffsetDateTime::now_utc().date() + Duration::days(days)
}

/// Revision 1 released and signed; revision 2, narrower, in review and signed.
async fn with_second_in_review() -> Api {
    let api = Api::furnished().await;
    revise(&api, &narrower()).await.expect(200);
    submit(&api).await.expect(200);
    sign(&api).await.expect(200);
    api
}

fn on(day: Date) -> Value {
    documents::with(documents::setup(), "/day", json!(day.to_string()))
}

#[tokio::test]
async fn without_a_plan_the_revision_before_ends_at_once() {
    let api = with_second_in_review().await;
    assert_eq!(check(&api, &documents::setup()).await["held_to"]["revision"], 1);
    release(&api, &json!({})).await.expect(200);
    let answer = check(&api, &documents::setup()).await;
    assert_eq!(
        (&answer["held_to"]["revision"], &answer["verdict"]),
        (&json!(2), &json!("not-allowed"))
    );
    assert_eq!(finding(&answer, "current")["outcome"], "outside");
    let named = documents::with(documents::setup(), "/revision", json!(1));
    let answer = check(&api, &named).await;
    assert_eq!(answer["verdict"], "not-allowed");
    let reason = finding(&answer, "procedure-in-force")["reason"].as_str().unwrap();
    assert!(reason.contains("Revision 1"), "{reason}");
    let old = api.get(api.shop.reader(), &format!("{PATH}?revision=1")).await.expect(200);
    assert_eq!(old["state"], "superseded", "it stays readable");
    assert_eq!(old["document"]["runs"][0]["limits"]["current"]["max"], 240);
}

#[tokio::test]
async fn planned_revisions_overlap_and_dates_come_due_without_a_write() {
    let api = with_second_in_review().await;
    let (from, until) = (in_days(10), in_days(20));
    let gap =
        json!({ "effective_from": from.to_string(), "previous_until": in_days(8).to_string() });
    let refused = release(&api, &gap).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/previous_until"]);
    let plan = json!({ "effective_from": from.to_string(), "previous_until": until.to_string() });
    release(&api, &plan).await.expect(200);

    // Before the overlap, on its first and last day, and after it: revision, verdict, others tried.
    let table = [
        (in_days(0), 1, "allowed", json!([])),
        (in_days(9), 1, "allowed", json!([])),
        (from, 1, "allowed", json!([2])),
        (until, 1, "allowed", json!([2])),
        (in_days(21), 2, "not-allowed", json!([])),
    ];
    for (day, revision, verdict, others) in table {
        let answer = check(&api, &on(day)).await;
        let tried: Vec<_> = answer["candidates"]
            .as_array()
            .unwrap()
            .iter()
            .map(|c| c["revision"].clone())
            .collect();
        let seen = (&answer["held_to"]["revision"], &answer["verdict"], json!(tried));
        assert_eq!(seen, (&json!(revision), &json!(verdict), others.clone()), "{day}");
        // The list of that day has what the check was held to and tried.
        let mut expected = vec![json!(revision)];
        expected.extend(others.as_array().unwrap().iter().cloned());
        expected.sort_by_key(Value::as_i64);
        assert_eq!(in_force_on(&api, day).await, expected, "{day}");
    }
    // Each revision by its own number, outside its days.
    for (revision, day) in [(1, in_days(21)), (2, in_days(9))] {
        let answer = check(&api, &documents::with(on(day), "/revision", json!(revision))).await;
        assert_eq!(answer["verdict"], "not-allowed", "revision {revision} on {day}");
        assert_eq!(finding(&answer, "procedure-in-force")["outcome"], "outside");
    }
    // A withdrawal ends both, also the one that is in force by plan.
    let withdrawal = format!("{PATH}/withdrawal");
    api.withdraw(api.shop.approver(), &withdrawal, &etag(&api, PATH).await).await.expect(200);
    for day in [in_days(0), from, in_days(21)] {
        assert_eq!(check(&api, &on(day)).await["verdict"], "not-allowed", "{day}");
        assert!(in_force_on(&api, day).await.is_empty(), "{day}");
    }
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    assert_eq!(read["in_force"], json!([]));
}

/// The list of a day and the record itself name what checks are held to, whatever is being written.
#[tokio::test]
async fn what_is_in_force_is_listed_beside_a_draft() {
    let api = with_second_in_review().await;
    let (from, until) = (in_days(10), in_days(20));
    let plan = json!({ "effective_from": from.to_string(), "previous_until": until.to_string() });
    release(&api, &plan).await.expect(200);
    let days = json!([
        {"revision": 1, "effective_from": null, "effective_until": until.to_string()},
        {"revision": 2, "effective_from": from.to_string(), "effective_until": null},
    ]);
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    assert_eq!(days_of(&read["in_force"]), days);
    // A draft of the next revision hides nothing of it.
    let next = documents::with(documents::procedure(), "/title", json!("The next"));
    api.put(api.shop.author(), PATH, &etag(&api, PATH).await, &next).await.expect(200);
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    assert_eq!((&read["revision"], &read["state"]), (&json!(3), &json!("draft")));
    assert_eq!(days_of(&read["in_force"]), days);
    assert_eq!(in_force_on(&api, from).await, [json!(1), json!(2)]);
    assert_eq!(in_force_on(&api, in_days(21)).await, [json!(2)]);
    let path = format!("/v1/procedures?in_force_on={from}");
    let both = api.get(api.shop.reader(), &path).await.expect(200)["items"].clone();
    assert_eq!(days_of(&both), days);
    assert_eq!(both[0]["document"]["runs"][0]["limits"]["current"]["max"], 240);
    let call = api.call(reqwest::Method::GET, &path).key(api.shop.reader());
    let csv = call.header("accept", "text/csv").send().await.text;
    let mut lines = csv.lines();
    assert!(
        lines.next().unwrap().starts_with("code,revision,state,in force from,in force until,title")
    );
    assert!(lines.next().unwrap().starts_with(&format!("WPS-1,1,superseded,,{until},")), "{csv}");
    assert!(lines.next().unwrap().starts_with(&format!("WPS-1,2,released,{from},,")), "{csv}");
}

/// Clocks of UTC-12 and UTC+14 are 26 hours apart: whichever day it is in the west, a later one has begun in the east.
#[tokio::test]
async fn a_last_day_is_over_where_the_organisation_is() {
    let api = with_second_in_review().await;
    let admin = api.shop.admin();
    let move_to = async |zone: &str| {
        let read = api.get(admin, "/v1/organisation").await;
        let settings = documents::with(read.json()["settings"].clone(), "/time_zone", json!(zone));
        api.put(admin, "/v1/organisation", read.etag(), &settings).await.expect(200);
    };
    move_to("Etc/GMT+12").await;
    let west = (OffsetDateTime::now_utc() - Duration::hours(12)).date();
    let next = west.next_day().unwrap();
    release(&api, &json!({ "effective_from": next.to_string() })).await.expect(200);
    let in_force = async || {
        let read = api.get(api.shop.reader(), PATH).await.expect(200)["in_force"].clone();
        read.as_array().unwrap().iter().map(|one| one["revision"].clone()).collect::<Vec<_>>()
    };
    assert_eq!(in_force().await, [json!(1), json!(2)]);
    move_to("Pacific/Kiritimati").await;
    assert_eq!(in_force().await, [json!(2)]);
}

/// Revisions listed for a day, one on each page.
async fn in_force_on(api: &Api, day: Date) -> Vec<Value> {
    let mut path = format!("/v1/procedures?in_force_on={day}&limit=1");
    let mut revisions = Vec::new();
    loop {
        let page = api.get(api.shop.reader(), &path).await.expect(200);
        let items = page["items"].as_array().unwrap().clone();
        revisions.extend(items.into_iter().map(|item| item["revision"].clone()));
        let Some(next) = page["next"].as_str() else { return revisions };
        path = format!("/v1/procedures?in_force_on={day}&limit=1&cursor={next}");
    }
}

/// Revisions with their days.
fn days_of(list: &Value) -> Value {
    let part = |one: &Value, name: &str| one.get(name).cloned().unwrap_or_default();
    let names = ["revision", "effective_from", "effective_until"];
    let all = list.as_array().unwrap().iter();
    all.map(|one| {
        names
            .map(|name| (name, part(one, name)))
            .into_iter()
            .collect::<std::collections::BTreeMap<_, _>>()
    })
    .map(|days| json!(days))
    .collect()
}

/// Without a stated end the revision before lasts until the day before the new one.
#[tokio::test]
async fn a_later_start_leaves_no_day_without_a_revision() {
    let api = with_second_in_review().await;
    release(&api, &json!({ "effective_from": in_days(10).to_string() })).await.expect(200);
    for (day, revision) in [(in_days(9), 1), (in_days(10), 2)] {
        let answer = check(&api, &on(day)).await;
        assert_eq!(answer["held_to"]["revision"], revision, "{day}");
        assert_eq!(answer["candidates"], json!([]), "{day}");
    }
}

/// A release ends all that is in force: also a revision that the one before it lets run on.
#[tokio::test]
async fn a_release_at_once_ends_what_an_earlier_plan_let_run_on() {
    let api = with_second_in_review().await;
    let plan = json!({ "effective_from": in_days(10).to_string(), "previous_until": in_days(40).to_string() });
    release(&api, &plan).await.expect(200);
    third_in_review(&api).await;
    let answer = release(&api, &json!({ "reason": "Cracks" })).await.expect(200);
    assert_eq!(answer["effects"]["replaces"], json!([1, 2]));
    for day in [in_days(0), in_days(20), in_days(41)] {
        assert_eq!(in_force_on(&api, day).await, [json!(3)], "{day}");
        assert_eq!(check(&api, &on(day)).await["held_to"]["revision"], 3, "{day}");
    }
    let named = documents::with(on(in_days(0)), "/revision", json!(1));
    assert_eq!(check(&api, &named).await["verdict"], "not-allowed");
    let history = api.get(api.shop.reader(), &format!("{PATH}/history")).await.expect(200);
    for revision in history["revisions"].as_array().unwrap().iter().take(2) {
        assert_eq!(
            (&revision["state"], &revision["effective_until"]),
            (&json!("superseded"), &Value::Null),
            "{revision:#}"
        );
        let events = revision["events"].as_array().unwrap();
        assert_eq!(events.last().unwrap()["event"], "superseded");
    }
}

/// By a later plan each ends on its day, or on its own where that is earlier.
#[tokio::test]
async fn a_planned_release_leaves_earlier_days_as_they_are() {
    // Last day of the first revision, then of both: the first one's last day, and which are ended.
    for (own, planned, last, replaces) in
        [(20, 30, 20, json!([2])), (30, 30, 30, json!([2])), (40, 30, 30, json!([1, 2]))]
    {
        let api = with_second_in_review().await;
        let plan = json!({ "effective_from": in_days(10).to_string(), "previous_until": in_days(own).to_string() });
        release(&api, &plan).await.expect(200);
        third_in_review(&api).await;
        let plan = json!({
            "effective_from": in_days(25).to_string(), "previous_until": in_days(planned).to_string(),
        });
        let answer = release(&api, &plan).await.expect(200);
        assert_eq!(answer["effects"]["replaces"], replaces, "{own}");
        let days = json!([
            {"revision": 1, "effective_from": null, "effective_until": in_days(last).to_string()},
            {"revision": 2, "effective_from": in_days(10).to_string(), "effective_until": in_days(planned).to_string()},
            {"revision": 3, "effective_from": in_days(25).to_string(), "effective_until": null},
        ]);
        let read = api.get(api.shop.reader(), PATH).await.expect(200);
        assert_eq!(days_of(&read["in_force"]), days, "{own}");
    }
}

/// What a release says of kept checks is what checks of their days answer then; without a plan it is foreseen as if it
/// were at once.
#[tokio::test]
async fn a_planned_release_judges_each_kept_check_by_the_days_of_its_plan() {
    let api = with_second_in_review().await;
    let days = [in_days(0), in_days(15), in_days(30)];
    for day in days {
        let kept = documents::with(on(day), "/keep", json!(true));
        assert_eq!(check(&api, &kept).await["verdict"], "allowed", "{day}");
    }
    let foreseen = api.get(api.shop.reader(), &format!("{PATH}/effects")).await.expect(200);
    assert_eq!(foreseen["checks"].as_array().unwrap().len(), 3, "{foreseen:#}");
    assert_eq!((foreseen.get("effective_from"), &foreseen["state"]), (None, &json!("in-review")));
    let plan = json!({
        "effective_from": in_days(10).to_string(), "previous_until": in_days(20).to_string(),
    });
    let answer = release(&api, &plan).await.expect(200);
    let effects = &answer["effects"];
    assert_eq!((&answer["state"], &effects["state"]), (&json!("released"), &json!("released")));
    for member in ["effective_from", "previous_until"] {
        assert_eq!(effects[member], plan[member]);
    }
    assert_eq!(effects["checks_judged"], 3);
    let changed = effects["checks"].as_array().unwrap();
    assert_eq!(changed.len(), 1, "the first revision allows the other days: {effects:#}");
    assert_eq!(changed[0]["after"], "not-allowed");
    let reasons = changed[0]["reasons"].to_string();
    assert!(!reasons.contains("not released"), "{reasons}");
    for (day, verdict) in days.into_iter().zip(["allowed", "allowed", "not-allowed"]) {
        assert_eq!(check(&api, &on(day)).await["verdict"], verdict, "{day}");
    }
}

/// A revision that a later one ends before its first day has no day left, and is listed nowhere.
#[tokio::test]
async fn what_is_ended_before_it_begins_is_never_in_force() {
    let api = with_second_in_review().await;
    release(&api, &json!({ "effective_from": in_days(40).to_string() })).await.expect(200);
    third_in_review(&api).await;
    release(&api, &json!({ "effective_from": in_days(20).to_string() })).await.expect(200);
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    let days = json!([
        {"revision": 1, "effective_from": null, "effective_until": in_days(19).to_string()},
        {"revision": 3, "effective_from": in_days(20).to_string(), "effective_until": null},
    ]);
    assert_eq!(days_of(&read["in_force"]), days, "{read:#}");
    assert_eq!(in_force_on(&api, in_days(41)).await, [json!(3)]);
}

/// A moment in UTC is on the organisation's day, whatever its offset: 14 hours east of UTC and 12 west of it no day is
/// the same.
#[tokio::test]
async fn a_moment_is_on_the_day_of_the_organisation() {
    let api = with_second_in_review().await;
    let admin = api.shop.admin();
    for (zone, hours) in [("Etc/GMT+12", -12), ("Pacific/Kiritimati", 14)] {
        let read = api.get(admin, "/v1/organisation").await;
        let settings = documents::with(read.json()["settings"].clone(), "/time_zone", json!(zone));
        api.put(admin, "/v1/organisation", read.etag(), &settings).await.expect(200);
        // Noon in UTC is midnight in the west, and in the east it is tomorrow.
        let moment = OffsetDateTime::now_utc().date().with_hms(12, 30, 0).unwrap().assume_utc();
        let there = (moment + Duration::hours(hours)).date();
        let at = moment.format(&Rfc3339).unwrap();
        let asked = |day: Option<Date>| {
            let setup = documents::with(on(there), "/at", json!(at));
            documents::with(setup, "/day", json!(day.map(|day| day.to_string())))
        };
        let kept = documents::with(asked(None), "/keep", json!(true));
        let answer = api.post(api.shop.reader(), "/v1/checks", &kept).await.expect(200);
        let id = answer["check_id"].as_str().unwrap();
        let read = api.get(api.shop.reader(), &format!("/v1/checks/{id}")).await.expect(200);
        assert_eq!(read["setup"]["day"], there.to_string(), "{zone}");
        // What was kept can be asked again.
        let again = documents::with(read["setup"].clone(), "/keep", json!(false));
        api.post(api.shop.reader(), "/v1/checks", &again).await.expect(200);
        let other = asked(there.previous_day());
        let refused = api.post(api.shop.reader(), "/v1/checks", &other).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), ["/at"]);
    }
}

/// A third revision, in review and signed.
async fn third_in_review(api: &Api) {
    let third = documents::with(narrower(), "/title", json!("The third"));
    revise(api, &third).await.expect(200);
    submit(api).await.expect(200);
    sign(api).await.expect(200);
}
