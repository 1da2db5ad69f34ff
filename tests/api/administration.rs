//! People and settings change from the version that was read, and nobody locks the organisation out of itself.

use arcbounds::access::Role;
use reqwest::Method;
use serde_json::{Value, json};

use crate::{
    behind::{administer, count, key, key_of, person},
    support::{Answer, Api, documents},
};

/// A person of this name: its path.
async fn path_of(api: &Api, name: &str) -> String {
    let people = api.get(api.shop.admin(), "/v1/people").await.expect(200);
    let items = people["items"].as_array().unwrap();
    let found = items.iter().find(|person| person["name"] == name).unwrap();
    format!("/v1/people/{}", found["person"].as_str().unwrap())
}

/// RFC 6585, section 3 (428) and RFC 9110, sections 13.1.1 and 15.5.13 (412).
#[tokio::test]
async fn a_change_of_people_or_settings_names_the_version_it_starts_from() {
    let api = Api::start().await;
    let admin = api.shop.admin();
    let person = format!("/v1/people/{}", person(&api, "Somebody", &[Role::Reader]).await);
    let renamed = json!({ "name": "Somebody else", "roles": ["reader"] });
    let settings = api.get(admin, "/v1/organisation").await.expect(200)["settings"].clone();
    let us = documents::with(settings, "/units", json!("us"));
    for (path, body) in [(person.as_str(), &renamed), ("/v1/organisation", &us)] {
        let read = api.get(admin, path).await;
        assert_eq!((read.status, read.etag()), (200, "\"v1\""), "{path}");
        let call = api.call(Method::PUT, path).key(admin).json(body);
        call.send().await.problem(428, "version-required");
        // It would match whatever somebody else wrote.
        api.put(admin, path, "*", body).await.problem(428, "version-required");
        for stale in ["\"v0\"", "\"v2\"", "W/\"v1\""] {
            api.put(admin, path, stale, body).await.problem(412, "stale-version");
        }
        let changed = api.put(admin, path, "\"v1\"", body).await;
        assert_eq!((changed.status, changed.etag()), (200, "\"v2\""), "{path}");
        // Somebody who read before finds it changed.
        api.put(admin, path, "\"v1\"", body).await.problem(412, "stale-version");
        let read = api.get(admin, path).await;
        assert_eq!(read.etag(), "\"v2\"", "{path}");
    }
    assert_eq!(api.get(admin, &person).await.expect(200)["name"], "Somebody else");
    assert_eq!(api.get(admin, "/v1/organisation").await.expect(200)["settings"]["units"], "us");
}

#[tokio::test]
async fn of_two_changes_of_the_settings_at_once_one_is_stale() {
    let api = Api::start().await;
    let admin = api.shop.admin();
    let read = api.get(admin, "/v1/organisation").await;
    let settings = |minutes: u32| {
        let span = json!(format!("{minutes} min"));
        documents::with(read.json()["settings"].clone(), "/stale_after", span)
    };
    let (one, two) = (settings(5), settings(6));
    let (one, two) = tokio::join!(
        api.put(admin, "/v1/organisation", read.etag(), &one),
        api.put(admin, "/v1/organisation", read.etag(), &two)
    );
    let mut statuses = [one.status, two.status];
    statuses.sort_unstable();
    assert_eq!(statuses, [200, 412], "{one:?} {two:?}");
}

async fn revoke(api: &Api, id: &str) -> Answer {
    let path = format!("/v1/keys/{id}/revocation");
    api.post(api.shop.admin(), &path, &Value::Null).await
}

/// Id of the founder's key.
async fn founders_key(api: &Api) -> String {
    let keys = api.get(api.shop.admin(), "/v1/keys").await.expect(200);
    let items = keys["items"].as_array().unwrap();
    let found = items.iter().find(|key| key["label"] == "first administrator").unwrap();
    found["key"].as_str().unwrap().to_owned()
}

#[tokio::test]
async fn the_last_administrator_stays() {
    let api = Api::start().await;
    let path = path_of(&api, "Administrator").await;
    let own = founders_key(&api).await;
    let entries = "select count(*) from audit_entry";
    let before = count(&api, entries).await;
    let refused = async || {
        for body in [
            json!({ "name": "Administrator", "roles": ["reader"] }),
            json!({ "name": "Administrator", "roles": ["admin"], "active": false }),
        ] {
            let problem = administer(&api, &path, &body).await.problem(409, "last-administrator");
            assert!(
                problem["detail"].as_str().unwrap().contains("last administrator"),
                "{problem}"
            );
        }
        revoke(&api, &own).await.problem(409, "last-administrator");
    };
    refused().await;
    // A new name and a second role lock nobody out.
    let both = json!({ "name": "Administrator", "roles": ["admin", "reader"] });
    administer(&api, &path, &both).await.expect(200);
    // None of these could administer: a person without a key, a key that has expired, one that was revoked, one
    // whose person is not active.
    let second = person(&api, "Second", &[Role::Admin]).await;
    refused().await;
    let expired = json!({ "label": "x", "roles": ["admin"], "expires": "2020-01-01" });
    key(&api, &expired).await;
    let (revoked, _) = key(&api, &json!({ "label": "x", "roles": ["admin"] })).await;
    revoke(&api, &revoked).await.expect(200);
    let third = person(&api, "Third", &[Role::Admin]).await;
    key_of(&api, &third, Role::Admin).await;
    let inactive = json!({ "name": "Third", "roles": ["admin"], "active": false });
    administer(&api, &format!("/v1/people/{third}"), &inactive).await.expect(200);
    refused().await;
    // With a second one who can, the first may go.
    let key = key_of(&api, &second, Role::Admin).await;
    revoke(&api, &own).await.expect(200);
    let second = format!("/v1/people/{second}");
    let now = api.get(&key, &second).await;
    let step_down = json!({ "name": "Second", "roles": ["reader"] });
    api.put(&key, &second, now.etag(), &step_down).await.problem(409, "last-administrator");
    // Refused changes left no entry: a new name, two people, three keys made, two revoked, one inactive, and the
    // keys of the second and the third person.
    assert_eq!(count(&api, entries).await, before + 10);
}

#[tokio::test]
async fn of_two_administrators_who_go_at_once_one_stays() {
    let api = Api::start().await;
    let other = person(&api, "Other", &[Role::Admin]).await;
    let key = key_of(&api, &other, Role::Admin).await;
    let paths = [path_of(&api, "Administrator").await, format!("/v1/people/{other}")];
    let own = [api.get(api.shop.admin(), &paths[0]).await, api.get(&key, &paths[1]).await];
    let reader = |name: &str| json!({ "name": name, "roles": ["reader"] });
    let (one, two) = (reader("Administrator"), reader("Other"));
    let (one, two) = tokio::join!(
        api.put(api.shop.admin(), &paths[0], own[0].etag(), &one),
        api.put(&key, &paths[1], own[1].etag(), &two)
    );
    let mut statuses = [one.status, two.status];
    statuses.sort_unstable();
    assert_eq!(statuses, [200, 409], "{one:?} {two:?}");
}

/// RFC 9110, 10.2.2 and 8.8.3: what was made says where it is, and which version.
#[tokio::test]
async fn a_person_that_was_added_is_found_where_the_answer_says() {
    let api = Api::start().await;
    let body = json!({ "name": "Somebody", "roles": ["reader"] });
    let added = api.post(api.shop.admin(), "/v1/people", &body).await;
    let person = added.expect(201);
    let place = added.header("location");
    let read = api.get(api.shop.admin(), place).await;
    assert_eq!((read.expect(200), read.etag()), (person, added.etag()));
    api.put(api.shop.admin(), place, added.etag(), &body).await.expect(200);
}
