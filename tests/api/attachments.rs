//! Attachments of qualification records: told by their first bytes, bounded, kept with their hash. Starts of
//! files: ISO 32000-1, 7.5.2; ISO/IEC 10918-1, B.1.1.3; W3C PNG, 5.2. Hashes are from `sha256sum`.

use reqwest::Method;
use serde_json::{Value, json};

use crate::{
    behind::{etag, rows},
    support::{Answer, Api, documents},
};

const PATH: &str = "/v1/qualifications/PQR-1/attachments";

/// `printf '%%PDF-1.7\n%% a report that nobody wrote\n%%%%EOF\n' | sha256sum`
const PDF_HASH: &str = "acbe4dcbbf28b3de25e0fddc0f4695a5921513a20688afe00147b995a436bae7";

async fn attach(api: &Api, name: &str, media: &str, bytes: &[u8]) -> Answer {
    let call = api.call(Method::POST, &format!("{PATH}?name={name}")).key(api.shop.author());
    call.bytes(media, bytes).send().await
}

async fn listed(api: &Api) -> Vec<Value> {
    let all = api.get(api.shop.reader(), PATH).await.expect(200);
    all["items"].as_array().unwrap().clone()
}

#[tokio::test]
async fn a_file_comes_back_byte_for_byte_and_as_a_download() {
    let api = Api::furnished().await;
    let made = attach(&api, "Pr%C3%BCfbericht%209.pdf", "application/pdf", documents::PDF).await;
    let attached = made.expect(201);
    assert_eq!(attached["sha256"], PDF_HASH);
    assert_eq!(
        (&attached["name"], &attached["media_type"]),
        (&json!("Prüfbericht 9.pdf"), &json!("application/pdf"))
    );
    assert_eq!(attached["length"], documents::PDF.len());
    assert_eq!(listed(&api).await, std::slice::from_ref(&attached));

    let place = made.header("location").to_owned();
    let file = api.get(api.shop.reader(), &place).await;
    assert_eq!((file.status, file.text.as_bytes()), (200, documents::PDF));
    assert_eq!(file.header("content-type"), "application/pdf");
    assert_eq!(file.etag(), format!("\"{PDF_HASH}\""));
    assert_eq!(file.header("x-content-type-options"), "nosniff");
    assert_eq!(file.header("content-security-policy"), "default-src 'none'; sandbox");
    assert_eq!(
        file.header("content-disposition"),
        "attachment; filename=\"Pr_fbericht 9.pdf\"; filename*=UTF-8''Pr%C3%BCfbericht%209.pdf"
    );
    let call = api.call(Method::GET, &place).key(api.shop.reader());
    let held = call.header("if-none-match", file.etag()).send().await;
    assert_eq!((held.status, held.text.as_str()), (304, ""));

    let trail = api.get(api.shop.reader(), "/v1/audit?subject=PQR-1").await.expect(200);
    let last = trail["items"].as_array().unwrap().last().unwrap().clone();
    assert_eq!((&last["action"], &last["document_hash"]), (&json!("attached"), &json!(PDF_HASH)));
    let stored =
        rows(&api, "select encode(sha256(content), 'hex') as hash from qualification_attachment")
            .await;
    assert_eq!(stored, [json!({ "hash": PDF_HASH })]);
}

#[tokio::test]
async fn what_is_no_such_file_is_refused() {
    let api = Api::furnished().await;
    for (media, bytes) in [
        ("text/html", b"<script>".as_slice()),
        ("application/octet-stream", documents::PDF),
        ("image/svg+xml", b"<svg/>"),
        ("application/json", b"{}"),
        // Stated as something that it is not.
        ("application/pdf", documents::PNG),
        ("image/png", documents::PDF),
        ("image/jpeg", b"\xff\xd8\x00"),
        ("application/pdf", b"<html>%PDF-1.7"),
        ("application/pdf", b""),
    ] {
        let refused = attach(&api, "report.pdf", media, bytes).await;
        let problem = refused.problem(415, "media-type");
        assert!(problem["detail"].as_str().unwrap().contains("application/pdf"), "{problem}");
    }
    for name in ["a/b.pdf", "..%2Fb.pdf", ".pdf", "", "a%0Ab.pdf", "a%22b.pdf"] {
        let refused = attach(&api, name, "application/pdf", documents::PDF).await;
        refused.problem(400, "bad-parameter");
    }
    assert_eq!(listed(&api).await, Vec::<Value>::new());
}

#[tokio::test]
async fn ten_mebibytes_are_taken_and_one_byte_more_is_not() {
    let api = Api::furnished().await;
    let mut bytes = documents::PDF.to_vec();
    bytes.resize(10 * 1024 * 1024 + 1, b' ');
    let refused = attach(&api, "large.pdf", "application/pdf", &bytes).await;
    let problem = refused.problem(413, "too-large");
    assert!(problem["detail"].as_str().unwrap().contains("10 MiB"), "{problem}");
    assert_eq!(listed(&api).await, Vec::<Value>::new());
    bytes.pop();
    let attached = attach(&api, "large.pdf", "application/pdf", &bytes).await.expect(201);
    assert_eq!(attached["length"], 10_485_760);
}

#[tokio::test]
async fn a_withdrawn_attachment_is_marked_and_stays_readable() {
    let api = Api::furnished().await;
    let pdf = ("application/pdf", documents::PDF);
    let id = api.shop.attach(&api, "PQR-1", "report.pdf", pdf).await;
    // The same file again is a mistake.
    attach(&api, "copy.pdf", "application/pdf", documents::PDF).await.problem(409, "conflict");
    let path = format!("{PATH}/{id}/withdrawal");
    let reason = json!({ "reason": "Report of another test" });
    let withdrawn = api.post(api.shop.author(), &path, &reason).await.expect(200);
    assert_eq!(withdrawn["withdrawn"]["reason"], "Report of another test");
    assert!(withdrawn["withdrawn"]["by"].is_string(), "{withdrawn}");
    api.post(api.shop.author(), &path, &reason).await.problem(409, "conflict");
    assert_eq!(listed(&api).await, [withdrawn]);
    let file = api.get(api.shop.reader(), &format!("{PATH}/{id}")).await;
    assert_eq!((file.status, file.text.as_bytes()), (200, documents::PDF));
    // Withdrawn by mistake, it can be attached anew.
    api.shop.attach(&api, "PQR-1", "report.pdf", pdf).await;
    let trail = api.get(api.shop.reader(), "/v1/audit?subject=PQR-1").await.expect(200);
    let actions: Vec<_> =
        trail["items"].as_array().unwrap().iter().map(|entry| entry["action"].clone()).collect();
    assert_eq!(actions, ["created", "signed", "attached", "attachment-withdrawn", "attached"]);

    let record = "/v1/qualifications/PQR-1";
    let now = etag(&api, record).await;
    api.withdraw(api.shop.approver(), &format!("{record}/withdrawal"), &now).await.expect(200);
    attach(&api, "late.png", "image/png", documents::PNG).await.problem(409, "conflict");
    assert_eq!(listed(&api).await.len(), 2);
}

#[tokio::test]
async fn a_retry_attaches_once_and_strangers_see_nothing() {
    let api = Api::furnished().await;
    let send = async |name: &str, bytes: &[u8]| {
        let call = api.call(Method::POST, &format!("{PATH}?name={name}")).key(api.shop.author());
        call.header("idempotency-key", "k").bytes("application/pdf", bytes).send().await
    };
    let first = send("report.pdf", documents::PDF).await;
    let again = send("report.pdf", documents::PDF).await;
    assert_eq!(
        (first.expect(201), first.header("location")),
        (again.expect(201), again.header("location"))
    );
    send("other.pdf", documents::PDF).await.problem(422, "retry-key-reused");
    send("report.pdf", b"%PDF-1.4 another").await.problem(422, "retry-key-reused");
    assert_eq!(listed(&api).await.len(), 1);

    let place = first.header("location").to_owned();
    let stranger = &api.stranger;
    api.get(stranger.reader(), PATH).await.problem(404, "not-found");
    api.get(stranger.reader(), &place).await.problem(404, "not-found");
    let reason = json!({ "reason": "x" });
    let path = format!("{place}/withdrawal");
    api.post(stranger.author(), &path, &reason).await.problem(404, "not-found");
    // Nor with a record of the same number.
    stranger.write(&api, "qualifications", &documents::qualification()).await;
    api.get(stranger.reader(), &place).await.problem(404, "not-found");
    assert_eq!(api.get(stranger.reader(), PATH).await.expect(200)["items"], json!([]));
    for nothing in ["x", "00000000-0000-0000-0000-000000000000"] {
        api.get(api.shop.reader(), &format!("{PATH}/{nothing}")).await.problem(404, "not-found");
    }
}
