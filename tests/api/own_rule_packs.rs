//! Rule packs that an organisation writes itself: faults by line, versions, signatures by a second person.

use arcbounds::{access::Role, qualify::packs};
use serde_json::{Value, json};

use crate::{
    behind::{etag, key_of, person, rows, step},
    support::{Answer, Api, documents},
};

const OWN: &str = "own-d11";
const PATH: &str = "/v1/own-rule-packs/own-d11";
const RULES: &str = "/v1/rule-packs/own-d11";
const PROCEDURE: &str = "/v1/procedures/WPS-8";

/// The built-in pack under a key of its own.
fn copy_of(key: &str, own: &str) -> String {
    let pack = packs().iter().find(|pack| pack.key == key).unwrap();
    pack.text().replace(&format!("key = \"{key}\""), &format!("key = \"{own}\""))
}

fn document(text: &str) -> Value {
    json!({ "code": OWN, "text": text, "note": "Our copy, compared in 2026 (invented)" })
}

/// With 9 mm in place of the 10 mm that a horizontal fillet in one pass may have.
fn stricter() -> String {
    let text = copy_of(documents::PREQUALIFIED_PACK, OWN);
    let (before, after) = text.split_once("id = \"fillet-wire-horizontal\"").unwrap();
    let after = after.replacen("max = 10 }", "max = 9 }", 1);
    format!("{before}id = \"fillet-wire-horizontal\"{after}")
}

fn procedure() -> Value {
    documents::with(documents::prequalified_procedure(), "/support/pack", json!(OWN))
}

async fn shop() -> Api {
    let api = Api::start().await;
    api.shop.write(&api, "consumables", &documents::consumable()).await;
    api.shop.write(&api, "stations", &documents::station()).await;
    api
}

async fn review(api: &Api) -> Value {
    api.get(api.shop.reader(), &format!("{PROCEDURE}/review")).await.expect(200)
}

fn texts(value: &Value, member: &str) -> Vec<String> {
    let all = value.as_array().unwrap().iter();
    all.map(|own| own[member].as_str().unwrap().to_owned()).collect()
}

async fn sign(api: &Api, key: &str, rules: &[String]) -> Answer {
    let body = json!({ "rules": rules, "copy": "D1.1:2020, shelf mark W-12" });
    api.post(key, &format!("{RULES}/signatures"), &body).await
}

async fn release(api: &Api) -> Answer {
    let now = etag(api, PROCEDURE).await;
    step(api, api.shop.approver(), &format!("{PROCEDURE}/release"), &now, &json!({})).await
}

#[tokio::test]
async fn an_own_pack_judges_as_a_built_in_one_and_its_versions_are_kept() {
    let api = shop().await;
    let author = person(&api, "Writes the pack", &[Role::Author, Role::Approver]).await;
    let writes = key_of(&api, &author, Role::Author).await;
    let made = api.post(&writes, "/v1/own-rule-packs", &document(&stricter())).await.expect(201);
    assert_eq!((&made["code"], &made["revision"]), (&json!(OWN), &json!(1)));
    let read = api.get(api.shop.reader(), RULES).await.expect(200);
    assert_eq!((&read["own_revision"], &read["code"]), (&json!(1), &json!("AWS D1.1")));
    // What it says of its own confidence counts for nothing.
    assert_eq!(read["cells_from_memory"], read["cells"]);
    let listed = api.get(api.shop.reader(), "/v1/rule-packs").await.expect(200);
    assert!(texts(&listed["items"], "key").contains(&OWN.to_owned()));

    let wide = documents::with(procedure(), "/leg", json!("6 to 9.5 mm"));
    api.shop.write(&api, "procedures", &wide).await;
    let breaches = review(&api).await["judgement"]["breaches"].clone();
    assert_eq!(
        (breaches.as_array().unwrap().len(), &breaches[0]["allowed"]),
        (1, &json!("at most 9 mm"))
    );
    let now = etag(&api, PROCEDURE).await;
    api.put(api.shop.author(), PROCEDURE, &now, &procedure()).await.expect(200);
    let seen = review(&api).await;
    assert_eq!(seen["judgement"]["ruling"], "qualified", "{seen:#}");
    let remembered = texts(&seen["judgement"]["remembered"], "rule");
    assert!(remembered.contains(&"fillet-wire-horizontal".to_owned()), "{remembered:?}");

    // Who wrote it does not sign it, with whichever key.
    let approves = key_of(&api, &author, Role::Approver).await;
    sign(&api, &approves, &remembered).await.problem(409, "conflict");
    sign(&api, api.shop.approver(), &remembered).await.expect(201);
    assert_eq!(review(&api).await["needs_signature"], false);
    api.shop.submit(&api, documents::PREQUALIFIED).await;
    release(&api).await.expect(200);
    let checked = api.post(api.shop.reader(), "/v1/checks", &documents::prequalified_setup()).await;
    assert_eq!(checked.expect(200)["verdict"], "allowed");
    let kept = review(&api).await["at_release"].clone();
    assert_eq!((&kept["pack"], &kept["pack_revision"]), (&json!(OWN), &json!(1)));

    // A next revision: the release keeps its judgement, the changed rule loses its signature.
    let text = stricter().replacen("max = 9 }", "max = 7 }", 1);
    let now = etag(&api, PATH).await;
    api.put(&writes, PATH, &now, &document(&text)).await.expect(200);
    let after = review(&api).await;
    assert_eq!(after["at_release"], kept);
    assert_eq!(texts(&after["judgement"]["breaches"], "rule"), ["fillet-wire-horizontal"]);
    let signatures = api.get(api.shop.reader(), &format!("{RULES}/signatures")).await.expect(200);
    let changed = json!(["fillet-wire-horizontal"]);
    assert_eq!(signatures["items"][0]["rules_changed_since"], changed);
    let first = api.get(api.shop.reader(), &format!("{PATH}?revision=1")).await.expect(200);
    assert_eq!(first["document"]["text"], json!(stricter()));
    let chained = rows(
        &api,
        "select action from audit_entry where subject_kind = 'rule-pack' and document_hash is not null
         order by number",
    )
    .await;
    assert_eq!(texts(&json!(chained), "action"), ["created", "revised"]);
}

/// Who accepted one judgement did not accept what an author made of the rules afterwards.
#[tokio::test]
async fn a_signature_under_review_holds_for_the_judgement_that_was_seen() {
    let api = shop().await;
    api.shop.write(&api, "own-rule-packs", &document(&stricter())).await;
    api.shop.write(&api, "procedures", &procedure()).await;
    api.shop.submit(&api, documents::PREQUALIFIED).await;
    let accept = async || {
        let now = etag(&api, PROCEDURE).await;
        let statement = json!({ "statement": "I accept what is remembered" });
        let path = format!("{PROCEDURE}/support-signature");
        step(&api, api.shop.approver(), &path, &now, &statement).await.expect(200);
    };
    accept().await;
    let looser = stricter().replacen("max = 12 }", "max = 120 }", 1);
    assert_ne!(looser, stricter());
    let now = etag(&api, PATH).await;
    api.put(api.shop.author(), PATH, &now, &document(&looser)).await.expect(200);
    let refused = release(&api).await;
    let detail = refused.problem(409, "conflict")["detail"].clone();
    assert!(detail.as_str().unwrap().contains("changed since the support was signed"), "{detail}");
    accept().await;
    release(&api).await.expect(200);
    let checked = api.post(api.shop.reader(), "/v1/checks", &documents::prequalified_setup()).await;
    assert_eq!(checked.expect(200)["verdict"], "allowed");
}

#[tokio::test]
async fn a_pack_out_of_use_supports_no_release() {
    let api = shop().await;
    api.shop.write(&api, "own-rule-packs", &document(&stricter())).await;
    api.shop.write(&api, "procedures", &procedure()).await;
    api.shop.submit(&api, documents::PREQUALIFIED).await;
    let now = etag(&api, PATH).await;
    api.withdraw(api.shop.approver(), &format!("{PATH}/withdrawal"), &now).await.expect(200);
    let refused = release(&api).await;
    refused.problem(409, "not-supported");
    assert_eq!(refused.pointers(), ["/support/pack"]);
    let read = api.get(api.shop.reader(), RULES).await.expect(200);
    assert_eq!(read["is_withdrawn"], true);
    let listed = api.get(api.shop.reader(), "/v1/rule-packs").await.expect(200);
    assert!(!texts(&listed["items"], "key").contains(&OWN.to_owned()));
}

/// The author sees every slip at once, each with its line.
#[tokio::test]
async fn each_fault_of_a_text_is_named_by_line() {
    let api = shop().await;
    let own = |code: &str, text: &str| json!({ "code": code, "text": text });
    let ask = async |document: &Value| {
        let refused = api.post(api.shop.author(), "/v1/own-rule-packs", document).await;
        let problem = refused.problem(422, "invalid-fields");
        (refused.pointers(), texts(&problem["errors"], "detail"))
    };
    let text = "key = \"own-d11\"\ntitle = \"x\"\ncode = \"X\"\nedition = \"1\"\nsystems = [\"metric\"]\n\
         processes = [\"135\"]\nsources = [\"x\"]\n[[rule]]\nid = \"a\"\nclause = \"1\"\nvariable = \"process\"\n\
         confidence = \"memory\"\nper = \"test-piece\"\nlimit = \"same\"\n[[rule]]\nid = \"b\"\nclause = \"2\"\n\
         variable = \"volts\"\nconfidence = \"memory\"\nper = \"run\"\nlimit = \"same\"\n[[rule]]\nid = \"a\"\n\
         clause = \"3\"\nvariable = \"voltage\"\nconfidence = \"memory\"\nper = \"run\"\n\
         limit = { percent = { plus = -1 } }\n";
    let (pointers, details) = ask(&own(OWN, text)).await;
    assert_eq!(pointers, ["/text", "/text"]);
    assert!(
        details[0].starts_with("line 18: rule b, variable: \"volts\" is no variable"),
        "{details:?}"
    );
    assert!(details[0].contains("known are process, "), "{details:?}");
    assert_eq!(details[1], "line 23: rule a, id: is there twice");
    let sound = text.replace("volts", "transfer").replacen(
        "id = \"a\"\nclause = \"3\"",
        "id = \"c\"\nclause = \"3\"",
        1,
    );
    let (_, details) = ask(&own(OWN, &sound)).await;
    assert_eq!(details, ["line 28: rule c, limit: -1 is not zero or above"]);
    let sound = sound.replace("plus = -1", "plus = 1");
    let (_, details) = ask(&own("other", &sound)).await;
    assert_eq!(details, ["key: the text says \"own-d11\"; it has to be \"other\""]);
    let (_, details) = ask(&own(OWN, &sound.replace("clause = \"2\"", "claus = \"2\""))).await;
    assert!(details[0].starts_with("line ") && details[0].contains("claus"), "{details:?}");
    let (_, details) = ask(&own(OWN, "key = ")).await;
    assert!(details[0].starts_with("line 1: file: "), "{details:?}");
    let built_in = documents::PREQUALIFIED_PACK;
    let (pointers, _) = ask(&own(built_in, &copy_of(built_in, built_in))).await;
    assert_eq!(pointers, ["/code"]);
    let long = format!("# {}\n{sound}", "x".repeat(256 * 1024));
    let (_, details) = ask(&own(OWN, &long)).await;
    assert_eq!(details, ["this text has at most 262144 bytes and no NUL"]);
    api.shop.write(&api, "own-rule-packs", &own(OWN, &sound)).await;
}

#[tokio::test]
async fn own_packs_are_the_organisations_own() {
    let api = shop().await;
    api.shop.write(&api, "own-rule-packs", &document(&stricter())).await;
    api.get(api.stranger.reader(), RULES).await.problem(404, "not-found");
    api.get(api.stranger.reader(), PATH).await.problem(404, "not-found");
    sign(&api, api.stranger.approver(), &["process".to_owned()]).await.problem(404, "not-found");
    api.stranger.write(&api, "consumables", &documents::consumable()).await;
    let refused = api.post(api.stranger.author(), "/v1/procedures", &procedure()).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/support/pack"]);
    // A procedure of another code than the own pack is told so by its review.
    let other = documents::with(procedure(), "/codes/0/edition", json!("2015"));
    api.shop.write(&api, "procedures", &other).await;
    let unusable = review(&api).await["judgement"]["unusable"].clone();
    assert_eq!(unusable[0]["pointer"], "/support/pack", "{unusable:#}");
    assert_eq!(review(&api).await["release_refused"], true);
}

/// Records are judged by an own pack of their code and edition as well.
#[tokio::test]
async fn records_can_be_judged_by_an_own_pack() {
    let api = Api::furnished().await;
    let key = "own-iso";
    let text = copy_of(documents::RULE_PACK, key);
    let own = json!({ "code": key, "text": text });
    api.shop.write(&api, "own-rule-packs", &own).await;
    let path = format!("/v1/qualifications/{}/range", documents::QUALIFICATION);
    let body = json!({ "pack": key });
    let range = api.post(api.shop.reader(), &path, &body).await.expect(200);
    assert_eq!(range["pack"]["key"], key, "{range:#}");
    let question = documents::with(documents::support_question(), "/pack", json!(key));
    let answer = api.post(api.shop.reader(), "/v1/qualifications/support", &question).await;
    assert_eq!(answer.expect(200)["pack"]["key"], key);
    let refused = api.post(api.stranger.reader(), "/v1/qualifications/support", &question).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/pack"]);
}

/// A part that nobody is named for counts as the signer's, as everywhere else; so does one of an earlier revision.
#[tokio::test]
async fn an_own_pack_of_a_key_that_stands_for_nobody_is_signed_by_nobody() {
    let api = shop().await;
    let body = json!({ "label": "software", "roles": ["author"] });
    let (_, software) = crate::behind::key(&api, &body).await;
    api.post(&software, "/v1/own-rule-packs", &document(&stricter())).await.expect(201);
    let rules = ["fillet-wire-horizontal".to_owned()];
    let refused = async || {
        let answer = sign(&api, api.shop.approver(), &rules).await;
        let detail = answer.problem(409, "conflict")["detail"].as_str().unwrap().to_owned();
        assert!(detail.contains("no author is named"), "{detail}");
    };
    refused().await;
    let again = documents::with(document(&stricter()), "/note", json!("Read again"));
    api.put(api.shop.author(), PATH, &etag(&api, PATH).await, &again).await.expect(200);
    refused().await;
}
