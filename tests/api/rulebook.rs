//! The records in memory: answers without a database, own writes, other servers, age, reloads.

use std::{
    collections::BTreeMap,
    sync::Arc,
    time::{Duration, Instant},
};

use arcbounds::{
    access::Role,
    rulebook::{Rulebook, Rulebooks},
};
use serde_json::{Value, json};

use crate::{
    behind::{administer, etag, execute, key, person, settle, step},
    support::{Api, Service, documents},
};

async fn verdict(service: &Service, key: &str, setup: &Value) -> Value {
    service.post(key, "/v1/checks", setup).await.expect(200)["verdict"].clone()
}

#[tokio::test]
async fn checks_and_windows_answer_without_a_database() {
    let api = Api::furnished().await;
    let kiosk = api.shop.kiosk(&api, documents::STATION).await;
    api.state().pool.close().await;
    for key in [api.shop.reader(), &kiosk] {
        let answer = api.post(key, "/v1/checks", &documents::setup()).await.expect(200);
        assert_eq!(answer["verdict"], "allowed");
        assert_eq!(answer["rulebook"]["age"]["unit"], "s");
        let windows = api.post(key, "/v1/windows", &documents::setup()).await.expect(200);
        assert_eq!(windows["offers"].as_array().unwrap().len(), 1, "{windows:#}");
        assert_eq!(windows["stale"], false);
    }
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    api.post(api.shop.reader(), "/v1/checks", &keep).await.problem(503, "unavailable");
    api.get(api.shop.reader(), "/v1/procedures/WPS-1").await.problem(503, "unavailable");
    api.call(reqwest::Method::GET, "/health/ready").send().await.problem(503, "unavailable");
    api.call(reqwest::Method::GET, "/health/live").send().await.expect(200);
}

#[tokio::test]
async fn a_write_is_in_force_before_it_is_answered() {
    let api = Api::furnished().await;
    let (author, reader) = (api.shop.author(), api.shop.reader());
    let before = api.post(reader, "/v1/checks", &documents::setup()).await.expect(200);
    let before = before["rulebook"]["version"].as_i64().unwrap();
    let path = "/v1/stations/ST-1";
    let weak = documents::with(documents::station(), "/limits/current", json!("40 to 200 A"));
    let written = api.put(author, path, &etag(&api, path).await, &weak).await;
    written.expect(200);
    let version: i64 = written.header("rulebook-version").parse().unwrap();
    assert!(version > before, "{version} after {before}");
    let answer = api.post(reader, "/v1/checks", &documents::setup()).await.expect(200);
    assert_eq!(answer["rulebook"]["version"], version);
    assert_eq!(answer["verdict"], "not-allowed", "{answer:#}");
    // A write that changes no rule names no version.
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    let kept = api.post(reader, "/v1/checks", &keep).await;
    kept.expect(200);
    assert_eq!(kept.header("rulebook-version"), "");
}

#[tokio::test]
async fn a_second_server_sees_releases_withdrawals_and_revocations_within_a_second() {
    let api = Api::start().await;
    let other = api.replica().await;
    // Its listener may still be on its way; what it misses, the poll finds, but later.
    listening(&api, 2).await;
    api.shop.furnish(&api).await;
    let done = api.get(api.shop.reader(), "/v1/audit?limit=500").await.expect(200);
    let rules = done["items"].as_array().unwrap().iter().rfind(|e| e["changes_rules"] == true);
    let version = rules.unwrap()["number"].to_string();
    let call = other.call(reqwest::Method::POST, "/v1/checks").key(api.shop.reader());
    let call = call.header("rulebook-version", &version).json(&documents::setup());
    let answer = call.send().await.expect(200);
    assert_eq!(answer["verdict"], "allowed", "{answer:#}");

    let path = format!("/v1/procedures/{}", documents::PROCEDURE);
    let now = etag(&api, &path).await;
    api.withdraw(api.shop.approver(), &format!("{path}/withdrawal"), &now).await.expect(200);
    let reader = api.shop.reader();
    within(Duration::from_secs(1), async || {
        verdict(&other, reader, &documents::setup()).await == "not-allowed"
    })
    .await;

    let (id, secret) = key(&api, &json!({ "label": "x", "roles": ["reader"] })).await;
    within(Duration::from_secs(1), async || other.get(&secret, "/v1/stations").await.status == 200)
        .await;
    let path = format!("/v1/keys/{id}/revocation");
    api.post(api.shop.admin(), &path, &Value::Null).await.expect(200);
    within(Duration::from_secs(1), async || other.get(&secret, "/v1/stations").await.status == 401)
        .await;
}

/// A server that lost its notices catches up by the poll, every two seconds, and by listening again.
#[tokio::test]
async fn a_lost_notice_is_found_by_the_poll() {
    let api = Api::furnished().await;
    let other = api.replica().await;
    listening(&api, 2).await;
    execute(
        &api,
        "select pg_terminate_backend(pid) from pg_stat_activity
         where datname = current_database() and query ilike '%listen%' and pid <> pg_backend_pid()",
    )
    .await;
    let (_, secret) = key(&api, &json!({ "label": "x", "roles": ["reader"] })).await;
    within(Duration::from_secs(6), async || other.get(&secret, "/v1/stations").await.status == 200)
        .await;
}

/// Waits until so many servers listen for notices.
async fn listening(api: &Api, servers: i64) {
    let query = "select count(*) from pg_stat_activity
                 where datname = current_database() and query ilike 'listen%'";
    within(Duration::from_secs(5), async || crate::behind::count(api, query).await >= servers)
        .await;
}

#[track_caller]
fn within<F: AsyncFn() -> bool>(limit: Duration, holds: F) -> impl Future<Output = ()> {
    let place = std::panic::Location::caller();
    async move {
        let start = Instant::now();
        while !holds().await {
            assert!(start.elapsed() < limit, "not within {limit:?}, asked at {place}");
            tokio::time::sleep(Duration::from_millis(10)).await;
        }
    }
}

#[tokio::test]
async fn a_version_that_does_not_come_is_waited_for_and_then_refused() {
    let api = Api::furnished().await;
    let ask = async |path: &str, version: &str| {
        let call = api.call(reqwest::Method::POST, path).key(api.shop.reader());
        call.header("rulebook-version", version).json(&documents::setup()).send().await
    };
    for path in ["/v1/checks", "/v1/windows"] {
        let start = Instant::now();
        let refused = ask(path, "999999").await;
        refused.problem(503, "unavailable");
        assert_eq!(refused.header("retry-after"), "1");
        let waited = start.elapsed();
        assert!((1.0..3.0).contains(&waited.as_secs_f64()), "{waited:?}");
        ask(path, "newest").await.problem(400, "bad-parameter");
        ask(path, "0").await.expect(200);
    }
}

/// Past `stale_after` nothing is allowed; what is refused stays refused.
#[tokio::test]
async fn records_that_nobody_confirms_grow_old_and_allow_nothing() {
    let api = Api::furnished().await;
    settle(&api, "/stale_after", json!("1 s")).await;
    let ask =
        async |setup: &Value| api.post(api.shop.reader(), "/v1/checks", setup).await.expect(200);
    let young = ask(&documents::setup()).await;
    assert_eq!(young["verdict"], "allowed");
    assert_eq!(young["rulebook"]["stale_after"], json!({ "value": 1, "unit": "s" }));
    api.state().pool.close().await;
    tokio::time::sleep(Duration::from_millis(1300)).await;
    let old = ask(&documents::setup()).await;
    let age = |answer: &Value| answer["rulebook"]["age"]["value"].as_f64().unwrap();
    assert!(age(&old) > 1.0 && age(&old) > age(&young), "{old:#}");
    assert_eq!(old["verdict"], "undetermined");
    let finding = &old["findings"][0];
    assert_eq!(finding["check"], "rulebook-age");
    assert_eq!((&finding["outcome"], &finding["force"]), (&json!("not-given"), &json!("required")));
    let outside = documents::with(documents::setup(), "/settings/current", json!("260 A"));
    assert_eq!(ask(&outside).await["verdict"], "not-allowed");
    let windows = api.post(api.shop.reader(), "/v1/windows", &documents::setup()).await.expect(200);
    assert_eq!(windows["stale"], true);
}

/// The poll confirms the version, so an age does not grow while the database is there.
#[tokio::test]
async fn the_poll_keeps_records_young() {
    let api = Api::furnished().await;
    settle(&api, "/stale_after", json!("4 s")).await;
    let end = Instant::now() + Duration::from_secs(6);
    while Instant::now() < end {
        assert_eq!(verdict(&api, api.shop.reader(), &documents::setup()).await, "allowed");
        tokio::time::sleep(Duration::from_millis(200)).await;
    }
}

/// Settings that cannot be read are not replaced by defaults, which may be more lenient: the rulebook
/// stays as it is and grows old. Another organisation is confirmed all the same.
#[tokio::test]
async fn one_unreadable_organisation_ages_alone() {
    let api = Api::furnished().await;
    settle(&api, "/decision_rule", json!("guarded-acceptance")).await;
    let rulebooks = &api.state().rulebooks;
    let (own, other) = (api.shop.organisation, api.stranger.organisation);
    let before = rulebooks.of(other).unwrap().version;
    execute(
        &api,
        &format!("update organisation set settings = '{{}}' where organisation_id = '{own}';"),
    )
    .await;
    execute(&api, "update audit_head set rulebook_version = rulebook_version + 1").await;
    tokio::time::sleep(Duration::from_millis(100)).await;
    assert!(rulebooks.poll().await.is_err());
    let (held, confirmed) = (rulebooks.of(own).unwrap(), rulebooks.of(other).unwrap());
    assert_eq!(held.settings.decision_rule.to_string(), "guarded-acceptance");
    assert!(rulebooks.age(&held) > rulebooks.age(&confirmed));
    assert_eq!(confirmed.version, before + 1, "the other organisation is read");
    // A server that starts now serves the others.
    let started = Rulebooks::load(api.state().pool.clone()).await.unwrap();
    assert!(started.of(own).is_none());
    assert_eq!(started.of(other).unwrap().version, before + 1);
}

/// A rulebook in an order that does not depend on how it was read.
fn laid_out(rulebook: &Rulebook) -> BTreeMap<String, String> {
    let book = &rulebook.book;
    let mut all = BTreeMap::new();
    for (code, record) in &book.consumables {
        all.insert(format!("consumable {code}"), format!("{record:?}"));
    }
    for (code, record) in &book.stations {
        all.insert(format!("station {code}"), format!("{record:?}"));
    }
    for (code, record) in &book.batches {
        all.insert(format!("batch {code}"), format!("{record:?}"));
    }
    for (code, record) in &book.work_orders {
        all.insert(format!("work order {code}"), format!("{record:?}"));
    }
    for (code, state) in &book.states {
        all.insert(format!("state {code}"), state.to_string());
    }
    for procedure in book.procedures.all() {
        let name = format!("procedure {} {}", procedure.number, procedure.revision);
        all.insert(name, format!("{procedure:?}"));
    }
    all.insert("settings".to_owned(), format!("{:?} {:?}", book.settings, rulebook.settings));
    all.insert("version".to_owned(), rulebook.version.to_string());
    all
}

#[tokio::test]
async fn a_reload_of_what_changed_equals_a_full_load() {
    let api = Api::furnished().await;
    let (author, approver) = (api.shop.author(), api.shop.approver());
    let same = async |after: &str| {
        let full = Rulebooks::load(api.state().pool.clone()).await.unwrap();
        let (full, held) =
            (full.of(api.shop.organisation), api.state().rulebooks.of(api.shop.organisation));
        assert_eq!(laid_out(&held.unwrap()), laid_out(&full.unwrap()), "after {after}");
    };
    same("furnishing").await;
    let path = "/v1/procedures/WPS-1";
    let narrow =
        documents::with(documents::procedure(), "/runs/0/limits/current", json!("205 to 215 A"));
    api.put(author, path, &etag(&api, path).await, &narrow).await.expect(200);
    same("a new draft").await;
    let now = etag(&api, path).await;
    api.act(author, &format!("{path}/submission"), &now).await.expect(200);
    same("a submission").await;
    let until = time::OffsetDateTime::now_utc().date() + time::Duration::days(9);
    let plan = json!({ "previous_until": until.to_string() });
    let now = etag(&api, path).await;
    step(&api, approver, &format!("{path}/release"), &now, &plan).await.expect(200);
    same("a release with overlap").await;

    // The signer is renamed: the name stands in the answers of checks.
    let people = api.get(api.shop.admin(), "/v1/people").await.expect(200);
    let people = people["items"].as_array().unwrap();
    let signer = people.iter().find(|p| p["name"] == "Second person").unwrap();
    let renamed = json!({ "name": "A pseudonym", "roles": signer["roles"] });
    let path = format!("/v1/people/{}", signer["person"].as_str().unwrap());
    administer(&api, &path, &renamed).await.expect(200);
    same("a new name").await;
    let answer = api
        .post(
            api.shop.reader(),
            "/v1/checks",
            &documents::with(documents::setup(), "/revision", json!(1)),
        )
        .await;
    assert!(answer.text.contains("A pseudonym"), "{}", answer.text);
    assert!(!answer.text.contains("Second person"), "{}", answer.text);

    let other = documents::with(documents::station(), "/code", json!("ST-2"));
    api.shop.write(&api, "stations", &other).await;
    for path in ["/v1/stations/ST-1", "/v1/consumables/FCW-1", "/v1/procedures/WPS-1"] {
        let now = etag(&api, path).await;
        api.withdraw(approver, &format!("{path}/withdrawal"), &now).await.expect(200);
        same(path).await;
    }
    settle(&api, "/units", json!("us")).await;
    person(&api, "Somebody", &[Role::Reader]).await;
    same("everything").await;
}

/// What did not change is not read, compiled or copied again: the next book holds the very same records.
#[tokio::test]
async fn a_reload_shares_every_record_that_did_not_change() {
    let api = Api::furnished().await;
    let (author, approver) = (api.shop.author(), api.shop.approver());
    let second = documents::with(documents::procedure(), "/number", json!("WPS-2"));
    api.shop.write(&api, "procedures", &second).await;
    api.shop.release(&api, "WPS-2").await.expect(200);
    let held = || api.state().rulebooks.of(api.shop.organisation).unwrap();
    let first =
        |book: &Rulebook, number: &str| Arc::clone(&book.book.procedures.revisions(number)[0]);
    let before = held();
    let path = "/v1/procedures/WPS-2";
    let withdrawn = etag(&api, path).await;
    api.withdraw(approver, &format!("{path}/withdrawal"), &withdrawn).await.expect(200);
    let weak = documents::with(documents::station(), "/limits/current", json!("40 to 200 A"));
    api.put(author, "/v1/stations/ST-1", &etag(&api, "/v1/stations/ST-1").await, &weak)
        .await
        .expect(200);
    let after = held();
    assert!(after.version > before.version);
    assert_eq!(before.book.procedures.revisions("WPS-2").len(), 1, "the older book stays");
    assert!(after.book.procedures.revisions("WPS-2").is_empty());
    assert!(Arc::ptr_eq(&first(&before, "WPS-1"), &first(&after, "WPS-1")));
    let (old, new) = (&before.book, &after.book);
    assert!(Arc::ptr_eq(&old.consumables["FCW-1"], &new.consumables["FCW-1"]));
    assert!(!Arc::ptr_eq(&old.stations["ST-1"], &new.stations["ST-1"]));
    let holder = api.state().rulebooks.clone();
    holder.refresh(api.shop.organisation).await.unwrap();
    assert!(Arc::ptr_eq(&after, &held()), "nothing changed, nothing is made anew");
}

/// The version is stated with what it holds: read in one moment, while others write.
#[tokio::test]
async fn a_version_names_what_the_book_holds() {
    let api = Api::start().await;
    let reading = Arc::clone(&api.state().rulebooks);
    let organisation = api.shop.organisation;
    let pool = api.state().pool.clone();
    let writer = async {
        for index in 0..40 {
            let document =
                documents::with(documents::station(), "/code", json!(format!("ST-{index}")));
            api.shop.write(&api, "stations", &document).await;
        }
    };
    let base = reading.of(organisation).unwrap().version;
    let reader = async {
        let mut seen = 0;
        while seen < 40 {
            let full = Rulebooks::load(pool.clone()).await.unwrap().of(organisation).unwrap();
            let stations = i64::try_from(full.book.stations.size()).unwrap();
            assert_eq!(full.version - base, stations, "each version is one more station");
            seen = stations;
        }
    };
    tokio::join!(writer, reader);
}
