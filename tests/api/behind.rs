//! Behind the service: rows as a superuser sees them, and people with keys as an administrator makes them.

use arcbounds::access::Role;
use reqwest::Method;
use serde_json::{Value, json};
use sqlx::{AssertSqlSafe, Connection, PgConnection};

use crate::support::{Answer, Api, Service, documents};

/// A superuser's connection to the database of the service.
pub async fn superuser(api: &Api) -> PgConnection {
    PgConnection::connect(&api.superuser_url()).await.unwrap()
}

/// Rows of a query, each as one JSON object.
pub async fn rows(api: &Api, query: &str) -> Vec<Value> {
    let wrapped = format!("select to_jsonb(found) from ({query}) found");
    let mut connection = superuser(api).await;
    sqlx::query_scalar(AssertSqlSafe(wrapped)).fetch_all(&mut connection).await.unwrap()
}

/// The one number that a query gives.
pub async fn count(api: &Api, query: &str) -> i64 {
    let mut connection = superuser(api).await;
    sqlx::query_scalar(AssertSqlSafe(query)).fetch_one(&mut connection).await.unwrap()
}

/// Runs a statement as a superuser.
pub async fn execute(api: &Api, statement: &str) {
    let mut connection = superuser(api).await;
    sqlx::query(AssertSqlSafe(statement)).execute(&mut connection).await.unwrap();
}

/// Adds a person and gives the id.
pub async fn person(api: &Api, name: &str, roles: &[Role]) -> String {
    let roles: Vec<_> = roles.iter().map(ToString::to_string).collect();
    let body = json!({ "name": name, "roles": roles });
    let added = api.post(api.shop.admin(), "/v1/people", &body).await.expect(201);
    added["person"].as_str().unwrap().to_owned()
}

/// Makes a key as asked for; gives its id and its secret.
pub async fn key(api: &Api, body: &Value) -> (String, String) {
    let made = api.post(api.shop.admin(), "/v1/keys", body).await.expect(201);
    let text = |member: &str| made[member].as_str().unwrap().to_owned();
    (text("key"), text("secret"))
}

/// Makes a key of a person with one role; gives its secret.
pub async fn key_of(api: &Api, person: &str, role: Role) -> String {
    let body = json!({ "label": "test", "roles": [role.to_string()], "person": person });
    key(api, &body).await.1
}

/// Takes a step with a body.
pub async fn step(service: &Service, key: &str, path: &str, etag: &str, body: &Value) -> Answer {
    service.call(Method::POST, path).key(key).if_match(etag).json(body).send().await
}

/// Changes a person or the settings as an administrator, from the version that stands.
pub async fn administer(api: &Api, path: &str, body: &Value) -> Answer {
    let found = api.get(api.shop.admin(), path).await;
    found.expect(200);
    api.put(api.shop.admin(), path, found.etag(), body).await
}

/// Changes one of the organisation's settings.
pub async fn settle(api: &Api, pointer: &str, value: Value) {
    let settings = api.get(api.shop.admin(), "/v1/organisation").await.expect(200);
    let settings = documents::with(settings["settings"].clone(), pointer, value);
    administer(api, "/v1/organisation", &settings).await.expect(200);
}

/// ETag of a record as it stands.
pub async fn etag(api: &Api, path: &str) -> String {
    let found = api.get(api.shop.reader(), path).await;
    found.expect(200);
    found.etag().to_owned()
}
