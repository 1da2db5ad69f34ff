//! One revision after another: superseded at once or by plan, and dates that come due.

use serde_json::{Value, json};
use time::{Date, Duration, OffsetDateTime};

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
        assert_eq!(seen, (&json!(revision), &json!(verdict), others), "{day}");
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
    }
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
