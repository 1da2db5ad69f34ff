//! What a key may do follows its person, at once. From the service's own promises; no outside source.

use serde_json::json;

use crate::support::{Api, documents as doc};

#[tokio::test]
async fn a_person_who_loses_a_role_loses_it_for_every_key() {
    let api = Api::start().await;
    let shop = &api.shop;
    let person = json!({ "name": "Two roles", "roles": ["author", "reader"] });
    let made = api.post(shop.admin(), "/v1/people", &person).await.expect(201);
    let key = json!({ "label": "both", "roles": ["author", "reader"], "person": made["person"] });
    let key = api.post(shop.admin(), "/v1/keys", &key).await.expect(201);
    let secret = key["secret"].as_str().unwrap();
    api.post(secret, "/v1/stations", &doc::station()).await.expect(201);

    let path = format!("/v1/people/{}", made["person"].as_str().unwrap());
    let put = |roles| api.call(reqwest::Method::PUT, &path).key(shop.admin()).json(&roles);
    put(json!({ "name": "Two roles", "roles": ["reader"] })).send().await.expect(200);
    let another = doc::with(doc::station(), "/code", json!("ST-2"));
    api.post(secret, "/v1/stations", &another).await.problem(403, "wrong-role");
    api.get(secret, "/v1/stations").await.expect(200);

    let nobody = put(json!({ "name": "Two roles", "roles": [] })).send().await;
    nobody.problem(422, "invalid-fields");
    assert_eq!(nobody.pointers(), ["/roles"]);

    put(json!({ "name": "Two roles", "roles": ["reader"], "active": false }))
        .send()
        .await
        .expect(200);
    api.get(secret, "/v1/stations").await.problem(401, "no-key");
}

#[tokio::test]
async fn a_key_that_is_rotated_or_revoked_stops_at_once() {
    let api = Api::start().await;
    let admin = api.shop.admin();
    let asked = json!({ "label": "software", "roles": ["integrator"] });
    let made = api.post(admin, "/v1/keys", &asked).await.expect(201);
    let (id, first) = (made["key"].as_str().unwrap(), made["secret"].as_str().unwrap());
    api.get(first, "/v1/organisation").await.expect(200);

    let rotate = api.call(reqwest::Method::POST, &format!("/v1/keys/{id}/rotation")).key(admin);
    let rotated = rotate.send().await.expect(200);
    let second = rotated["secret"].as_str().unwrap();
    api.get(first, "/v1/organisation").await.problem(401, "no-key");
    api.get(second, "/v1/organisation").await.expect(200);

    let revoke =
        || api.call(reqwest::Method::POST, &format!("/v1/keys/{id}/revocation")).key(admin);
    revoke().send().await.expect(200);
    api.get(second, "/v1/organisation").await.problem(401, "no-key");
    revoke().send().await.problem(404, "not-found");
    let listed = api.get(admin, "/v1/keys").await;
    assert!(!listed.text.contains(second) && !listed.text.contains("secret"), "{}", listed.text);
}
