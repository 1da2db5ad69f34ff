//! The service's API, as an import uses it.

use std::fmt::Write;

use reqwest::{Method, RequestBuilder, Response, StatusCode, header};
use serde_json::Value;

use super::{Failure, Keys, later::range_signed};

/// On whose behalf a request is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Who {
    /// Who writes.
    Author,
    /// Who releases and signs.
    Approver,
}

/// A client with both keys.
#[derive(Debug)]
pub(super) struct Client {
    http: reqwest::Client,
    address: String,
    keys: Keys,
}

impl Client {
    pub(super) fn new(address: &str, keys: &Keys) -> Result<Self, Failure> {
        let client = super::http_client(std::time::Duration::from_secs(30))?;
        let address = address.trim_end_matches('/').to_owned();
        Ok(Self { http: client, address, keys: keys.clone() })
    }

    /// Makes a record, or adds something to one; the answer's body.
    pub(super) async fn add(&self, path: &str, document: &Value) -> Result<Value, String> {
        let request = self.request(Method::POST, &format!("/v1/{path}"), Who::Author)?;
        body(sent(request.json(document)).await?).await
    }

    /// What stands at a path, as the author reads it.
    pub(super) async fn read(&self, path: &str) -> Result<Value, String> {
        body(sent(self.request(Method::GET, &format!("/v1/{path}"), Who::Author)?).await?).await
    }

    /// The same; `None` where there is nothing.
    pub(super) async fn find(&self, path: &str) -> Result<Option<Value>, String> {
        let request = self.request(Method::GET, &format!("/v1/{path}"), Who::Author)?;
        let response = answered(request).await?;
        if response.status() == StatusCode::NOT_FOUND {
            return Ok(None);
        }
        body(accepted(response).await?).await.map(Some)
    }

    /// Whether there is a key to release and sign with.
    pub(super) const fn has_approver(&self) -> bool {
        self.keys.approver.is_some()
    }

    /// Writes the next revision of a record.
    pub(super) async fn revise(
        &self,
        path: &str,
        code: &str,
        document: &Value,
        reason: Option<&str>,
    ) -> Result<Value, String> {
        let place = format!("/v1/{path}/{code}");
        let tag = self.etag(&place).await?;
        let query = reason.map(|reason| query("reason", reason)).unwrap_or_default();
        let request = self.request(Method::PUT, &format!("{place}{query}"), Who::Author)?;
        body(sent(request.header(header::IF_MATCH, tag).json(document)).await?).await
    }

    /// Takes a step in a record's life; the record with the path of its kind, as `procedures/WPS-1`.
    pub(super) async fn step(
        &self,
        record: &str,
        step: &str,
        body: Option<&Value>,
        who: Who,
    ) -> Result<(), String> {
        let tag = self.etag(&format!("/v1/{record}")).await?;
        let place = format!("/v1/{record}/{step}");
        let mut request = self.request(Method::POST, &place, who)?.header(header::IF_MATCH, tag);
        if let Some(body) = body {
            request = request.json(body);
        }
        sent(request).await.map(drop)
    }

    /// Signs that the range of a welder's qualification agrees with the printed code.
    pub(super) async fn sign_range(
        &self,
        code: &str,
        qualification: &str,
        statement: &Value,
    ) -> Result<(), String> {
        let place = format!("/v1/welders/{code}");
        let tag = self.etag(&place).await?;
        let request = self.request(Method::POST, &format!("{place}/events"), Who::Approver)?;
        let body = range_signed(qualification, statement);
        sent(request.header(header::IF_MATCH, tag).json(&body)).await.map(drop)
    }

    async fn etag(&self, place: &str) -> Result<String, String> {
        let response = sent(self.request(Method::GET, place, Who::Author)?).await?;
        let tag = response.headers().get(header::ETAG).and_then(|tag| tag.to_str().ok());
        tag.map(str::to_owned).ok_or_else(|| format!("{place} has no ETag"))
    }

    fn request(&self, method: Method, place: &str, who: Who) -> Result<RequestBuilder, String> {
        let key = match who {
            Who::Author => &self.keys.author,
            Who::Approver => {
                self.keys.approver.as_ref().ok_or("this line needs the approver's key")?
            }
        };
        Ok(self.http.request(method, format!("{}{place}", self.address)).bearer_auth(key))
    }
}

/// A query of one parameter, percent-encoded (RFC 3986, 2.1).
fn query(name: &str, value: &str) -> String {
    let mut encoded = format!("?{name}=");
    for byte in value.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~".contains(&byte) {
            encoded.push(char::from(byte));
        } else {
            let _ = write!(encoded, "%{byte:02X}");
        }
    }
    encoded
}

async fn body(response: Response) -> Result<Value, String> {
    response.json().await.map_err(|error| format!("the answer cannot be read: {error}"))
}

/// Sends a request; a problem becomes its text with every field error.
async fn sent(request: RequestBuilder) -> Result<Response, String> {
    accepted(answered(request).await?).await
}

async fn answered(request: RequestBuilder) -> Result<Response, String> {
    request.send().await.map_err(|error| format!("the service does not answer: {error}"))
}

async fn accepted(response: Response) -> Result<Response, String> {
    if response.status().is_success() {
        return Ok(response);
    }
    let status = response.status();
    let problem: Value = response.json().await.unwrap_or_default();
    let mut text = format!("{status}: {}", problem["detail"].as_str().unwrap_or("no detail"));
    for error in problem["errors"].as_array().into_iter().flatten() {
        let part = |name: &str| error[name].as_str().unwrap_or_default().to_owned();
        text = format!("{text} {}: {}.", part("pointer"), part("detail"));
    }
    Err(text)
}
