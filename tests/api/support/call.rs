//! One request and its answer.

use std::io::Read;

use flate2::read::GzDecoder;
use reqwest::{Method, RequestBuilder, header::HeaderMap};
use serde_json::Value;

/// A request being put together.
pub struct Call(RequestBuilder);

impl Call {
    /// A request to the whole address.
    pub fn new(client: &reqwest::Client, method: Method, address: String) -> Self {
        Self(client.request(method, address))
    }

    /// With this key.
    pub fn key(self, key: &str) -> Self {
        Self(self.0.bearer_auth(key))
    }

    /// With this header.
    pub fn header(self, name: &str, value: &str) -> Self {
        Self(self.0.header(name, value))
    }

    /// Changing this version of a record.
    pub fn if_match(self, etag: &str) -> Self {
        self.header("if-match", etag)
    }

    /// With a JSON body.
    pub fn json(self, body: &Value) -> Self {
        Self(self.0.json(body))
    }

    /// With these bytes, said to be of this media type.
    pub fn bytes(self, media: &str, body: impl Into<Vec<u8>>) -> Self {
        Self(self.0.header("content-type", media).body(body.into()))
    }

    /// Sends it.
    pub async fn send(self) -> Answer {
        let response = self.0.send().await.unwrap();
        let (status, headers) = (response.status().as_u16(), response.headers().clone());
        let text = response.text().await.unwrap();
        Answer { status, headers, text }
    }

    /// The same by a client that asks for gzip and unpacks it to its end.
    pub async fn send_asking_gzip(self) -> Answer {
        let response = self.header("accept-encoding", "gzip").0.send().await.unwrap();
        let (status, headers) = (response.status().as_u16(), response.headers().clone());
        let packed = response.bytes().await.unwrap();
        let mut text = String::new();
        GzDecoder::new(packed.as_ref()).read_to_string(&mut text).unwrap();
        Answer { status, headers, text }
    }
}

/// An answer.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub headers: HeaderMap,
    pub text: String,
}

impl Answer {
    /// The body as JSON.
    pub fn json(&self) -> Value {
        serde_json::from_str(&self.text)
            .unwrap_or_else(|error| panic!("{} {}: {error}", self.status, self.text))
    }

    /// A header; empty where it is not there.
    pub fn header(&self, name: &str) -> &str {
        self.headers.get(name).map_or("", |value| value.to_str().unwrap())
    }

    /// The record's version.
    pub fn etag(&self) -> &str {
        let etag = self.header("etag");
        assert!(!etag.is_empty(), "no ETag: {self:?}");
        etag
    }

    /// The body of an answer with this status.
    #[track_caller]
    pub fn expect(&self, status: u16) -> Value {
        assert_eq!(self.status, status, "{}", self.text);
        self.json()
    }

    /// Whether this is a problem of this status and kind, in the form of RFC 9457.
    pub fn is_problem(&self, status: u16, slug: &str) -> bool {
        let Ok(body) = serde_json::from_str::<Value>(&self.text) else { return false };
        let says = |member: &str| body[member].as_str().is_some_and(|text| !text.is_empty());
        self.status == status
            && self.header("content-type") == "application/problem+json"
            && body["type"] == format!("/problems/{slug}")
            && body["status"] == status
            && says("title")
            && says("detail")
    }

    /// The body of a problem of this status and kind.
    #[track_caller]
    pub fn problem(&self, status: u16, slug: &str) -> Value {
        assert!(self.is_problem(status, slug), "not {status} {slug}: {self:?}");
        self.json()
    }

    /// Places of the fields that a problem names.
    pub fn pointers(&self) -> Vec<String> {
        let body: Value = serde_json::from_str(&self.text).unwrap_or_default();
        let errors = body["errors"].as_array().map(Vec::as_slice).unwrap_or_default();
        errors.iter().map(|error| error["pointer"].as_str().unwrap().to_owned()).collect()
    }
}
