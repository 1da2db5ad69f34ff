//! The chain is proved whole or its faults are named, by the endpoint in the database and by the program on an
//! export of the same chain. What is expected follows from what was done to it; there is no outside source.

mod covered;
mod exports;
mod files;
mod harms;
mod heads;

use std::io::Cursor;

use arcbounds::audit::{Outcome, Place, prove_file};
use serde_json::{Value, json};
use sqlx::{AssertSqlSafe, Connection, PgConnection};

use crate::support::{Answer, Api, Shop, documents};

/// What the endpoint says of the chain.
pub async fn verify(api: &Api, shop: &Shop) -> Value {
    api.post(shop.reader(), "/v1/audit/verify", &json!({})).await.expect(200)
}

/// An export as it comes.
pub async fn export(api: &Api, shop: &Shop) -> String {
    let answer = api.get(shop.reader(), "/v1/audit/export").await;
    assert_eq!(answer.status, 200, "{answer:?}");
    answer.text
}

pub fn prove(text: &str, kept: Vec<Place>) -> Outcome {
    prove_file(Cursor::new(text.as_bytes().to_vec()), kept).unwrap()
}

/// Faults with their entries, as the endpoint gives them; without those that are beside the chain.
pub fn told(verified: &Value) -> Vec<(String, Option<i64>)> {
    let faults = verified["faults"].as_array().unwrap();
    assert_eq!(verified["whole"], faults.is_empty());
    let one =
        |fault: &Value| (fault["fault"].as_str().unwrap().to_owned(), fault["entry"].as_i64());
    faults.iter().map(one).collect()
}

pub fn found(outcome: &Outcome) -> Vec<(String, Option<i64>)> {
    outcome.proved.faults.iter().map(|fault| (fault.what.to_owned(), fault.entry)).collect()
}

pub fn expected(faults: &[(&str, i64)]) -> Vec<(String, Option<i64>)> {
    let entry = |number: i64| (number > 0).then_some(number);
    faults.iter().map(|(fault, number)| ((*fault).to_owned(), entry(*number))).collect()
}

/// Statements as a superuser, one after the other.
pub async fn harm(api: &Api, shop: &Shop, statements: &[&str]) {
    let mut connection = PgConnection::connect(&api.superuser_url()).await.unwrap();
    for statement in statements {
        let own = format!("organisation_id = '{}'", shop.organisation);
        let statement = statement.replace("{own}", &own);
        let done = sqlx::query(AssertSqlSafe(statement.clone())).execute(&mut connection).await;
        let rows = done.unwrap_or_else(|error| panic!("{statement}: {error}")).rows_affected();
        assert!(rows > 0 || statement.starts_with("alter"), "nothing was harmed: {statement}");
    }
}

/// A shop with the 21 entries that the cases count on.
pub async fn shop(api: &Api) -> Shop {
    let shop = api.found("Shop of one case").await;
    shop.furnish(api).await;
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    api.post(shop.reader(), "/v1/checks", &keep).await.expect(200);
    shop.attach(api, documents::QUALIFICATION, "photo.png", ("image/png", documents::PNG)).await;
    shop
}

/// Head of a chain as the endpoint tells it.
pub async fn head(api: &Api, shop: &Shop) -> Value {
    verify(api, shop).await["head"].clone()
}

pub async fn verify_against(api: &Api, shop: &Shop, head: &Value) -> Value {
    let body = json!({ "head": head });
    api.post(shop.reader(), "/v1/audit/verify", &body).await.expect(200)
}

/// Lines of an export as JSON.
pub fn lines(text: &str) -> Vec<Value> {
    text.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// A part of the chain of the shop.
pub async fn part(api: &Api, query: &str) -> Answer {
    api.get(api.shop.reader(), &format!("/v1/audit/export?{query}")).await
}
