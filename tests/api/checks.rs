//! The check over HTTP.

use serde_json::json;

use crate::support::{Api, documents};

#[tokio::test]
async fn a_sound_setup_is_allowed() {
    let api = Api::furnished().await;
    let answer = api.post(api.shop.reader(), "/v1/checks", &documents::setup()).await.expect(200);
    assert_eq!(answer["verdict"], json!("allowed"), "{answer:#}");
}
