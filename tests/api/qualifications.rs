//! Qualification records: entered as a draft, signed by a second person, corrected for a reason. What is
//! expected are the service's own promises; statuses are those of RFC 9110 and RFC 6585.

use arcbounds::access::Role;
use reqwest::Method;
use serde_json::{Value, json};

use crate::{
    behind::{etag, key_of, person, step},
    support::{Answer, Api, documents},
};

const PATH: &str = "/v1/qualifications/PQR-1";

/// A draft nobody has signed.
async fn drafted() -> Api {
    let api = Api::start().await;
    api.shop.write(&api, "qualifications", &documents::qualification()).await;
    api
}

async fn sign(api: &Api, key: &str) -> Answer {
    let statement = json!({ "statement": "Compared with the paper record" });
    step(api, key, &format!("{PATH}/signature"), &etag(api, PATH).await, &statement).await
}

async fn correct(api: &Api, query: &str, document: &Value) -> Answer {
    let now = etag(api, PATH).await;
    api.put(api.shop.author(), &format!("{PATH}{query}"), &now, document).await
}

#[tokio::test]
async fn a_record_comes_back_as_entered() {
    let api = drafted().await;
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    assert_eq!((&read["state"], &read["revision"]), (&json!("draft"), &json!(1)));
    let entered = documents::qualification();
    let run = "/document/pieces/0/runs/0";
    for (place, expected) in [
        ("/document/code", entered["code"].clone()),
        ("/document/level", json!("2")),
        ("/document/units", json!("metric")),
        ("/document/witnesses", entered["witnesses"].clone()),
        ("/document/signatures", entered["signatures"].clone()),
        ("/document/pieces/0/parts/0/metal/heat_number", json!("H-4711")),
        (
            "/document/pieces/0/parts/0/metal/heat_analysis/Cr",
            json!({ "at_most": { "value": 0.05, "unit": "%" } }),
        ),
        ("/document/pieces/0/joint/fit_up/root_gap", json!({ "value": 3, "unit": "mm" })),
        ("/document/pieces/0/post_heating", json!({ "done": false })),
        ("/document/pieces/0/heat_treatment", json!({ "class": "none" })),
        ("/document/pieces/0/tests/4/temperature", json!({ "value": -20, "unit": "°C" })),
    ] {
        assert_eq!(read.pointer(place), Some(&expected), "{place}");
    }
    let current = json!({ "value": 180, "unit": "A", "min": 174, "max": 187, "instrument": "A-1" });
    assert_eq!(read.pointer(&format!("{run}/electrical/current")), Some(&current));
    let gas = json!({ "Ar": "82 %", "CO2": "18 %" });
    assert_eq!(read.pointer(&format!("{run}/gases/shielding")), Some(&gas));
    // The next revision may be what was read, so that an editor can send it back.
    let again = correct(&api, "", &read["document"]).await.expect(200);
    assert_eq!(again["document_hash"], read["document_hash"]);
    assert_eq!((&again["revision"], &again["edit"]), (&json!(1), &json!(2)));
}

#[tokio::test]
async fn bad_fields_are_named_all_at_once() {
    let api = Api::start().await;
    let piece = "/pieces/0";
    let table = [
        ("/units", json!("imperial"), "/units"),
        ("/level", json!("3"), "/level"),
        ("/welded_on", json!("4 March 2025"), "/welded_on"),
        ("/pieces", json!([]), "/pieces"),
        ("/pieces/0/runs", json!([]), "/pieces/0/runs"),
        ("/pieces/0/parts/0/thickness", json!(12), "/pieces/0/parts/0/thickness"),
        ("/pieces/0/runs/1/number", json!(1), "/pieces/0/runs/1/number"),
        ("/pieces/0/runs/1/number", json!(70000), "/pieces/0/runs/1/number"),
        ("/pieces/0/runs/0/process", json!("GMAW"), "/pieces/0/runs/0/process"),
        // ISO 6947:2019: PF is vertical up.
        ("/pieces/0/runs/0/progression", json!("down"), "/pieces/0/runs/0/progression"),
        (
            "/pieces/0/runs/0/electrical/current",
            json!({ "min": 174, "max": 187, "unit": "A" }),
            "/pieces/0/runs/0/electrical/current/value",
        ),
        (
            "/pieces/0/runs/0/electrical/heat_input",
            json!("1.04 kJ/mm"),
            "/pieces/0/runs/0/electrical/heat_input",
        ),
        (
            "/pieces/0/runs/0/electrical/thermal_efficiency",
            json!("80 %"),
            "/pieces/0/runs/0/electrical/thermal_efficiency",
        ),
        ("/pieces/0/post_heating/time", json!("2 h"), "/pieces/0/post_heating/done"),
        ("/pieces/0/tests/7/impact_energies", json!(["50 J"]), "/pieces/0/tests/7/impact_energies"),
        ("/pieces/0/tests/7/outcome", json!("fine"), "/pieces/0/tests/7/outcome"),
        ("/pieces/0/tests/4/temperature", json!("-20"), "/pieces/0/tests/4/temperature"),
    ];
    for (place, value, named) in table {
        let document = documents::with(documents::qualification(), place, value);
        let refused = api.post(api.shop.author(), "/v1/qualifications", &document).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [named], "{place}");
    }
    let mut document = documents::with(documents::qualification(), "/units", Value::Null);
    document = documents::with(document, &format!("{piece}/position"), json!("5Q"));
    document = documents::with(document, &format!("{piece}/colour"), json!("red"));
    let refused = api.post(api.shop.author(), "/v1/qualifications", &document).await;
    let mut pointers = refused.pointers();
    pointers.sort();
    assert_eq!(pointers, ["/pieces/0/colour", "/pieces/0/position", "/units"]);
    let listed = api.get(api.shop.reader(), "/v1/qualifications").await.expect(200);
    assert_eq!(listed["items"], json!([]), "nothing of it was written");
}

#[tokio::test]
async fn a_second_person_signs_and_nobody_signs_their_own() {
    let api = drafted().await;
    // One person with both roles and a key for each.
    let both = person(&api, "Does Both", &[Role::Author, Role::Approver]).await;
    let (writes, signs) =
        (key_of(&api, &both, Role::Author).await, key_of(&api, &both, Role::Approver).await);
    let document = documents::with(documents::qualification(), "/remarks", json!("Own edit"));
    api.put(&writes, PATH, &etag(&api, PATH).await, &document).await.expect(200);
    sign(&api, &signs).await.problem(409, "conflict");

    let signed = sign(&api, api.shop.approver()).await.expect(200);
    assert_eq!((&signed["state"], &signed["edit"]), (&json!("signed"), &json!(2)));
    sign(&api, api.shop.approver()).await.problem(409, "conflict");
    let path = format!("{PATH}/signatures");
    let seen = api.get(api.shop.reader(), &path).await.expect(200);
    let one = &seen["items"][0];
    assert_eq!(one["revision"], 1);
    assert_eq!(one["statement"], "Compared with the paper record");
    assert_eq!(one["document_hash"], signed["document_hash"]);
    assert!(one["name"].as_str().is_some_and(|name| !name.is_empty()), "{one}");
    let trail = api.get(api.shop.reader(), "/v1/audit?subject=PQR-1").await.expect(200);
    let actions: Vec<_> =
        trail["items"].as_array().unwrap().iter().map(|entry| entry["action"].clone()).collect();
    assert_eq!(actions, ["created", "revised", "signed"]);
    assert_eq!(trail["items"][2]["document_hash"], signed["document_hash"]);
    assert_eq!(trail["items"][2]["person"], one["person"]);
}

/// The service's own promise: an approver wrote no part of what they sign. Who corrects a trifle in a next revision did
/// not write the rest of it.
#[tokio::test]
async fn who_typed_a_record_does_not_sign_what_another_corrected() {
    let api = Api::start().await;
    let typist = person(&api, "Typist", &[Role::Author, Role::Approver]).await;
    let (writes, signs) =
        (key_of(&api, &typist, Role::Author).await, key_of(&api, &typist, Role::Approver).await);
    api.post(&writes, "/v1/qualifications", &documents::qualification()).await.expect(201);
    sign(&api, &signs).await.problem(409, "conflict");
    sign(&api, api.shop.approver()).await.expect(200);
    let corrected = documents::with(documents::qualification(), "/remarks", json!("Typing error"));
    let draft = correct(&api, "?reason=Typing%20error", &corrected).await.expect(200);
    assert_eq!(draft["revision"], 2);
    let refused = sign(&api, &signs).await;
    let problem = refused.problem(409, "conflict");
    let detail = problem["detail"].as_str().unwrap();
    assert!(detail.contains("in whichever revision"), "{detail}");
    sign(&api, api.shop.approver()).await.expect(200);
}

#[tokio::test]
async fn a_key_without_a_person_does_not_sign() {
    let api = drafted().await;
    let body = json!({ "label": "machine", "roles": ["approver"] });
    let made = api.post(api.shop.admin(), "/v1/keys", &body).await.expect(201);
    sign(&api, made["secret"].as_str().unwrap()).await.problem(403, "wrong-role");
    assert_eq!(api.get(api.shop.reader(), PATH).await.expect(200)["state"], "draft");
}

#[tokio::test]
async fn after_signing_a_correction_says_why_and_is_signed_again() {
    let api = drafted().await;
    sign(&api, api.shop.approver()).await.expect(200);
    let corrected = documents::with(
        documents::qualification(),
        "/pieces/0/runs/0/travel_speed",
        json!("210 mm/min"),
    );
    for query in ["", "?reason=", "?reason=%20"] {
        let refused = correct(&api, query, &corrected).await;
        refused.problem(400, "bad-parameter");
        assert_eq!(refused.pointers(), ["?reason"], "{query}");
    }
    let reason = "?reason=Travel%20speed%20was%20misread";
    let draft = correct(&api, reason, &corrected).await.expect(200);
    assert_eq!((&draft["revision"], &draft["state"]), (&json!(2), &json!("draft")));
    assert_eq!(draft["reason"], "Travel speed was misread");
    let first = format!("{PATH}?revision=1");
    let state =
        async |path: &str| api.get(api.shop.reader(), path).await.expect(200)["state"].clone();
    assert_eq!(state(&first).await, "signed", "it holds until the correction is signed");
    assert_eq!(state(PATH).await, "draft");
    // A draft is changed without a reason.
    correct(&api, "", &corrected).await.expect(200);
    sign(&api, api.shop.approver()).await.expect(200);
    assert_eq!((state(&first).await, state(PATH).await), (json!("superseded"), json!("signed")));
    let old = api.get(api.shop.reader(), &first).await.expect(200);
    let speed = old.pointer("/document/pieces/0/runs/0/travel_speed").unwrap();
    assert_eq!(speed, &json!({ "value": 200, "unit": "mm/min" }), "what was signed stays readable");
    let signatures = api.get(api.shop.reader(), &format!("{PATH}/signatures")).await.expect(200);
    let revisions: Vec<_> =
        signatures["items"].as_array().unwrap().iter().map(|one| one["revision"].clone()).collect();
    assert_eq!(revisions, [1, 2]);

    api.withdraw(api.shop.approver(), &format!("{PATH}/withdrawal"), &etag(&api, PATH).await)
        .await
        .expect(200);
    assert_eq!((state(&first).await, state(PATH).await), (json!("withdrawn"), json!("withdrawn")));
    correct(&api, reason, &corrected).await.problem(409, "conflict");
}

#[tokio::test]
async fn of_two_editors_the_second_is_told() {
    let api = drafted().await;
    let seen = etag(&api, PATH).await;
    let one = documents::with(documents::qualification(), "/place", json!("Bay 2"));
    let other = documents::with(documents::qualification(), "/place", json!("Bay 3"));
    api.put(api.shop.author(), PATH, &seen, &one).await.expect(200);
    api.put(api.shop.author(), PATH, &seen, &other).await.problem(412, "stale-version");
    let statement = json!({ "statement": "Compared with the paper record" });
    let path = format!("{PATH}/signature");
    step(&api, api.shop.approver(), &path, &seen, &statement).await.problem(412, "stale-version");
    let read = api.get(api.shop.reader(), PATH).await.expect(200);
    assert_eq!(read["document"]["place"], "Bay 2");
    let now = etag(&api, PATH).await;
    let (a, b) = tokio::join!(
        api.put(api.shop.author(), PATH, &now, &one),
        api.put(api.shop.author(), PATH, &now, &other),
    );
    let mut statuses = [a.status, b.status];
    statuses.sort_unstable();
    assert_eq!(statuses, [200, 412], "at once, too");
}

#[tokio::test]
async fn a_retry_gives_the_same_answer_and_writes_once() {
    let api = Api::start().await;
    let send = async |key: &str, document: &Value| {
        let call = api.call(Method::POST, "/v1/qualifications").key(api.shop.author());
        call.header("idempotency-key", key).json(document).send().await
    };
    let document = documents::qualification();
    let first = send("a", &document).await;
    let again = send("a", &document).await;
    assert_eq!((first.expect(201), first.etag()), (again.expect(201), again.etag()));
    let other = documents::with(document.clone(), "/place", json!("Bay 9"));
    send("a", &other).await.problem(422, "retry-key-reused");
    send("b", &document).await.problem(409, "conflict");
    let now = etag(&api, PATH).await;
    let sign = async || {
        let call = api.call(Method::POST, &format!("{PATH}/signature")).key(api.shop.approver());
        let body = json!({ "statement": "Seen" });
        call.if_match(&now).header("idempotency-key", "s").json(&body).send().await
    };
    assert_eq!(sign().await.expect(200), sign().await.expect(200));
    let trail = api.get(api.shop.reader(), "/v1/audit?subject=PQR-1").await.expect(200);
    assert_eq!(trail["items"].as_array().unwrap().len(), 2, "{trail:#}");
}

/// Such a record is no rule of a check: nothing that was allowed changes with it.
#[tokio::test]
async fn the_rulebook_does_not_move() {
    let api = Api::furnished().await;
    let version = async || {
        let answer =
            api.post(api.shop.reader(), "/v1/checks", &documents::setup()).await.expect(200);
        (answer["rulebook"]["version"].clone(), answer["verdict"].clone())
    };
    let before = version().await;
    let second = documents::with(documents::qualification(), "/number", json!("WPS-1"));
    api.shop.write(&api, "qualifications", &second).await;
    assert_eq!(version().await, before);
    // A service that starts now reads the same rules, though the record has a procedure's number.
    let replica = api.replica().await;
    let answer =
        replica.post(api.shop.reader(), "/v1/checks", &documents::setup()).await.expect(200);
    assert_eq!((answer["rulebook"]["version"].clone(), answer["verdict"].clone()), before);
    assert_eq!(answer["held_to"]["procedure"], "WPS-1");
}

#[tokio::test]
async fn a_list_is_a_table_too() {
    let api = Api::furnished().await;
    let call = api.call(Method::GET, "/v1/qualifications").key(api.shop.reader());
    let csv = call.header("accept", "text/csv").send().await;
    let lines: Vec<_> = csv.text.lines().collect();
    assert_eq!(
        lines,
        [
            "code,revision,state,governing code,edition,level,welded on,manufacturer",
            "PQR-1,1,signed,ISO 15614-1,2017+A1:2019,2,2025-03-04,Shop under test",
        ]
    );
}
