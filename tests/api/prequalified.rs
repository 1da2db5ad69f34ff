//! Procedures by the prequalified route of AWS D1.1:2020, and the signatures under its rules.
//!
//! Table 5.1: a horizontal fillet in one pass of a cored wire has at most 10 mm (3/8 in); Table 7.7: a part of 12 mm
//! asks for a leg of 5 mm; which figures are from memory stands in the pack.

use serde_json::{Value, json};

use crate::{
    behind::{etag, execute, rows, step},
    support::{Answer, Api, documents},
};

const PATH: &str = "/v1/procedures/WPS-8";
const PACK: &str = "/v1/rule-packs/aws-d1.1-2020-prequalified";

async fn shop() -> Api {
    let api = Api::start().await;
    api.shop.write(&api, "consumables", &documents::consumable()).await;
    api.shop.write(&api, "stations", &documents::station()).await;
    api
}

async fn submitted(document: &Value) -> Api {
    let api = shop().await;
    api.shop.write(&api, "procedures", document).await;
    api.shop.submit(&api, documents::PREQUALIFIED).await;
    api
}

fn changed(pointer: &str, value: Value) -> Value {
    documents::with(documents::prequalified_procedure(), pointer, value)
}

async fn approve(api: &Api, last: &str, body: &Value) -> Answer {
    let now = etag(api, PATH).await;
    step(api, api.shop.approver(), &format!("{PATH}/{last}"), &now, body).await
}

async fn review(api: &Api) -> Value {
    api.get(api.shop.reader(), &format!("{PATH}/review")).await.expect(200)
}

async fn check(api: &Api, setup: &Value) -> Value {
    api.post(api.shop.reader(), "/v1/checks", setup).await.expect(200)
}

fn support(answer: &Value) -> Value {
    let mut all = answer["findings"].as_array().unwrap().iter();
    all.find(|finding| finding["check"] == "support").unwrap().clone()
}

fn texts(value: &Value, member: &str) -> Vec<String> {
    let all = value.as_array().unwrap().iter();
    all.map(|own| own[member].as_str().unwrap().to_owned()).collect()
}

async fn sign(api: &Api, rules: &Value) -> Answer {
    let body = json!({ "rules": rules, "copy": "D1.1:2020, shelf mark W-12" });
    api.post(api.shop.approver(), &format!("{PACK}/signatures"), &body).await
}

#[tokio::test]
async fn a_prequalified_procedure_is_released_and_the_floor_is_held_to_it() {
    let api = submitted(&documents::prequalified_procedure()).await;
    let seen = review(&api).await;
    let judgement = &seen["judgement"];
    assert_eq!(seen["kind"], "prequalified");
    assert_eq!(judgement["ruling"], "qualified", "{judgement:#}");
    assert_eq!((&judgement["breaches"], &judgement["not_judged"]), (&json!([]), &json!([])));
    assert_eq!((&judgement["records"], &judgement["pieces"]), (&json!([]), &json!([])));
    let clauses = judgement["clauses"].as_array().unwrap();
    for clause in
        ["Table 5.1, single-pass fillet", "Table 7.7 (5.7 in 2015)", "Table 5.8 (3.3 in 2015)"]
    {
        assert!(clauses.contains(&json!(clause)), "{clause}: {judgement:#}");
    }
    let remembered = texts(&judgement["remembered"], "rule");
    assert!(remembered.contains(&"width-wire-horizontal".to_owned()), "{remembered:?}");
    assert!(!remembered.contains(&"fillet-wire-horizontal".to_owned()), "{remembered:?}");
    assert_eq!((&seen["release_refused"], &seen["needs_signature"]), (&json!(false), &json!(true)));

    let effects = api.get(api.shop.reader(), &format!("{PATH}/effects")).await.expect(200);
    assert_eq!(effects["needs_signature"], true);
    assert_eq!(approve(&api, "release", &json!({})).await.expect(200)["state"], "released");
    // Nobody has compared or accepted what is from memory.
    let answer = check(&api, &documents::prequalified_setup()).await;
    assert_eq!(answer["verdict"], "undetermined", "{answer:#}");
    let reason = support(&answer)["reason"].as_str().unwrap().to_owned();
    for part in ["AWS D1.1:2020, without a test", "From memory: ", "Table 5.1, layer width"] {
        assert!(reason.contains(part), "{part}: {reason}");
    }
    let statement = json!({ "statement": "Compared with our copy" });
    approve(&api, "support-signature", &statement).await.expect(200);
    let answer = check(&api, &documents::prequalified_setup()).await;
    assert_eq!(answer["verdict"], "allowed", "{answer:#}");
    let reason = support(&answer)["reason"].as_str().unwrap().to_owned();
    assert!(reason.contains("Second person accepts that"), "{reason}");
    let hot = documents::with(documents::prequalified_setup(), "/settings/current", json!("250 A"));
    assert_eq!(check(&api, &hot).await["verdict"], "not-allowed");
    let demanding = documents::with(
        documents::prequalified_setup(),
        "/job/demands",
        json!({ "impact_required": true, "hardness_required": false }),
    );
    assert_eq!(check(&api, &demanding).await["verdict"], "not-allowed");
}

#[tokio::test]
async fn each_breach_refuses_the_release_with_its_clause() {
    let wide = changed("/leg", json!("4 to 10.5 mm"));
    let wide = documents::with(wide, "/runs/0/limits/voltage", json!("24 to 28 V"));
    let api = submitted(&wide).await;
    let refused = approve(&api, "release", &json!({})).await;
    let problem = refused.problem(409, "not-supported");
    let pointers = refused.pointers();
    assert_eq!(pointers, ["/leg", "/leg", "/runs/0/limits/voltage"], "{problem:#}");
    let detail = |at: usize| problem["errors"][at]["detail"].as_str().unwrap().to_owned();
    for (at, part) in [
        (0, "Table 5.1, single-pass fillet"),
        (0, "at most 10 mm"),
        (1, "Table 7.7"),
        (1, "at least 5 mm"),
        (2, "row 16"),
        (2, "within -7 % and +7 % of one value"),
    ] {
        assert!(detail(at).contains(part), "{part}: {}", detail(at));
    }
    assert!(rows(&api, "select code from procedure_support").await.is_empty());
    // On both edges it is released.
    let reason = json!({ "reason": "Wider than the table" });
    approve(&api, "return", &reason).await.expect(200);
    let edge = changed("/leg", json!("5 to 10 mm"));
    api.put(api.shop.author(), PATH, &etag(&api, PATH).await, &edge).await.expect(200);
    api.shop.submit(&api, documents::PREQUALIFIED).await;
    approve(&api, "release", &json!({})).await.expect(200);
}

#[tokio::test]
async fn banned_transfer_and_process_are_refused_and_missing_facts_are_not_judged() {
    let api = shop().await;
    api.shop.write(&api, "procedures", &documents::prequalified_procedure()).await;
    let breaches = |document: Value| {
        let api = &api;
        async move {
            api.put(api.shop.author(), PATH, &etag(api, PATH).await, &document).await.expect(200);
            let seen = review(api).await["judgement"].clone();
            (texts(&seen["breaches"], "rule"), texts(&seen["not_judged"], "rule"))
        }
    };
    let argon = json!({ "groups": ["I1"] });
    let tig = documents::with(changed("/process", json!("141")), "/gas", argon);
    assert!(breaches(tig).await.0.contains(&"process".to_owned()));
    let solid = documents::with(
        changed("/process", json!("135")),
        "/runs/0/transfer",
        json!("short-circuit"),
    );
    assert!(breaches(solid).await.0.contains(&"transfer".to_owned()));
    for (pointer, rule) in [
        ("/runs/0/characteristic", "constant-voltage"),
        ("/runs/0/run_width", "width-wire-horizontal"),
        ("/runs/0/limits/gas_flow", "gas-flow-stated"),
        ("/parent_metal/d11_group", "base-metal-group"),
        ("/heat_treatment", "heat-treatment"),
        ("/leg", "smallest-fillet"),
        ("/thickness", "preheat-b"),
        ("/support/job/stated/1", "joint-detail"),
    ] {
        let mut document = documents::prequalified_procedure();
        if pointer.ends_with("/1") {
            document["support"]["job"]["stated"].as_array_mut().unwrap().remove(1);
        } else {
            document = documents::with(document, pointer, Value::Null);
        }
        let (outside, open) = breaches(document).await;
        assert_eq!(outside, Vec::<String>::new(), "{pointer}");
        assert!(open.contains(&rule.to_owned()), "{pointer}: {open:?}");
    }
}

/// Stored before it was refused: aluminium (group 22 of ISO/TR 15608) is in no group of AWS D1.1 (2020, 1.3 and Table 5.3,
/// from memory), so which metal is meant is not known.
#[tokio::test]
async fn a_stored_group_of_another_metal_is_not_judged() {
    let api = shop().await;
    api.shop.write(&api, "procedures", &documents::prequalified_procedure()).await;
    execute(
        &api,
        "update record_revision set document = jsonb_set(document, '{base_metals}', '[\"22\"]') where code = 'WPS-8'",
    )
    .await;
    let judgement = &review(&api).await["judgement"];
    assert_eq!(judgement["ruling"], "not-judged", "{judgement:#}");
    let open = texts(&judgement["not_judged"], "rule");
    assert!(open.contains(&"base-metal-group".to_owned()), "{open:?}");
}

#[tokio::test]
async fn a_prequalified_support_that_does_not_hang_together_is_refused_when_written() {
    let api = Api::furnished().await;
    let support = |own: Value| changed("/support", own);
    let pack = documents::PREQUALIFIED_PACK;
    let cases = [
        (changed("/support/columns", Value::Null), "/support/columns"),
        (changed("/support/pack", Value::Null), "/support/pack"),
        (changed("/support/pack", json!(documents::RULE_PACK)), "/support/pack"),
        (changed("/support/pack", json!("aws-d1.1-2015-tested")), "/support/pack"),
        (changed("/support/records", json!(["PQR-1"])), "/support/records"),
        (changed("/codes/0/edition", json!("2015")), "/support/pack"),
        (changed("/support/job/stated/0/rule", json!("no-rule")), "/support/job/stated/0/rule"),
        (
            support(json!({ "kind": "qualification-records", "records": ["PQR-1"], "pack": pack })),
            "/support/pack",
        ),
        (
            support(json!({ "kind": "declared-not-judged", "statement": "x", "columns": "us" })),
            "/support/columns",
        ),
    ];
    for (document, pointer) in cases {
        let refused = api.post(api.shop.author(), "/v1/procedures", &document).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [pointer], "{refused:?}");
    }
    // Records are not judged by fixed limits.
    let question = documents::with(documents::support_question(), "/pack", json!(pack));
    let refused = api.post(api.shop.reader(), "/v1/qualifications/support", &question).await;
    refused.problem(422, "invalid-fields");
    assert_eq!(refused.pointers(), ["/pack"]);
}

#[tokio::test]
async fn signed_rules_no_longer_rest_on_memory() {
    let api = submitted(&documents::prequalified_procedure()).await;
    let before = api.get(api.shop.reader(), PACK).await.expect(200);
    let remembered = review(&api).await["judgement"]["remembered"].clone();
    let rules = texts(&remembered, "rule");
    let signed = sign(&api, &json!(rules)).await.expect(201);
    assert_eq!(signed["copy"], "D1.1:2020, shelf mark W-12");
    assert_eq!(signed["rules"].as_array().unwrap().len(), rules.len());
    let after = api.get(api.shop.reader(), PACK).await.expect(200);
    let cells = |pack: &Value| pack["cells_from_memory"].as_u64().unwrap();
    assert!(cells(&after) < cells(&before), "{} {}", cells(&after), cells(&before));
    assert!(after["share_from_memory"].as_f64() < before["share_from_memory"].as_f64());
    let confidence = |pack: &Value, id: &str| {
        let all = pack["all_rules"].as_array().unwrap().iter();
        all.clone().find(|rule| rule["id"] == id).unwrap()["confidence"].clone()
    };
    assert_eq!(confidence(&before, "width-wire-horizontal"), "memory");
    assert_eq!(confidence(&after, "width-wire-horizontal"), "print-checked");
    assert_eq!(confidence(&after, "width-wire-flat"), "memory");
    // Another organisation has signed nothing.
    let other = api.get(api.stranger.reader(), PACK).await.expect(200);
    assert_eq!(cells(&other), cells(&before));
    let listed = api.get(api.stranger.reader(), &format!("{PACK}/signatures")).await.expect(200);
    assert_eq!(listed["items"], json!([]));

    let seen = review(&api).await;
    assert_eq!(
        (&seen["needs_signature"], &seen["judgement"]["remembered"]),
        (&json!(false), &json!([]))
    );
    assert_eq!(seen["judgement"]["signed_rules"].as_array().unwrap().len(), rules.len());
    approve(&api, "release", &json!({})).await.expect(200);
    let answer = check(&api, &documents::prequalified_setup()).await;
    assert_eq!(answer["verdict"], "allowed", "{answer:#}");
    let kept = review(&api).await["at_release"].clone();
    assert_eq!(kept["signed_rules"].as_array().unwrap().len(), rules.len());
    assert_eq!(kept["pack_hash"].as_str().unwrap().len(), 64);

    // Taken back: the review judges anew, the release keeps its judgement.
    let id = signed["signature"].as_str().unwrap();
    let path = format!("{PACK}/signatures/{id}/withdrawal");
    let reason = json!({ "reason": "The copy was of another printing" });
    api.post(api.shop.author(), &path, &reason).await.problem(403, "wrong-role");
    api.post(api.stranger.approver(), &path, &reason).await.problem(404, "not-found");
    let taken = api.post(api.shop.approver(), &path, &reason).await.expect(200);
    assert_eq!(taken["withdrawn_because"], reason["reason"]);
    api.post(api.shop.approver(), &path, &reason).await.problem(409, "conflict");
    assert_eq!(cells(&api.get(api.shop.reader(), PACK).await.expect(200)), cells(&before));
    assert_eq!(review(&api).await["judgement"]["remembered"], remembered);
    assert_eq!(check(&api, &documents::prequalified_setup()).await["verdict"], "allowed");
    let listed = api.get(api.shop.reader(), &format!("{PACK}/signatures")).await.expect(200);
    assert_eq!(listed["items"][0]["withdrawn_because"], reason["reason"]);
    let audit = api.get(api.shop.reader(), "/v1/audit?limit=500").await.expect(200);
    let actions = texts(&audit["items"], "action");
    for action in ["rules-signed", "rule-signature-withdrawn"] {
        assert_eq!(actions.iter().filter(|own| *own == action).count(), 1, "{actions:?}");
    }
}

#[tokio::test]
async fn what_is_signed_is_named_exactly_and_by_a_person() {
    let api = shop().await;
    let path = format!("{PACK}/signatures");
    let body = |rules: Value, copy: &str| json!({ "rules": rules, "copy": copy });
    for (sent, pointers) in [
        (body(json!([]), "x"), vec!["/rules"]),
        (body(json!(["process"]), " "), vec!["/copy"]),
        (body(json!(["no-rule", "process", "process"]), "x"), vec!["/rules/0", "/rules/2"]),
    ] {
        let refused = api.post(api.shop.approver(), &path, &sent).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), pointers, "{refused:?}");
    }
    let good = body(json!(["process"]), "x");
    for key in [api.shop.author(), api.shop.reader(), api.shop.admin()] {
        api.post(key, &path, &good).await.problem(403, "wrong-role");
    }
    let nobody = json!({ "label": "unattended", "roles": ["approver"] });
    let key = api.post(api.shop.admin(), "/v1/keys", &nobody).await;
    if key.status == 201 {
        let secret = key.expect(201)["secret"].as_str().unwrap().to_owned();
        api.post(&secret, &path, &good).await.problem(403, "wrong-role");
    } else {
        key.problem(422, "invalid-fields");
    }
    let missing = api.post(api.shop.approver(), "/v1/rule-packs/none/signatures", &good).await;
    missing.problem(404, "not-found");
    let signed = api.post(api.shop.approver(), &path, &good).await.expect(201);
    assert_eq!(signed["name"], "Second person");
    let listed = api.get(api.shop.reader(), &path).await.expect(200);
    assert_eq!(listed["items"], json!([signed]));
}

/// A rule that is written otherwise today loses its signature, and says so.
#[tokio::test]
async fn a_signature_is_about_the_rule_as_it_is_written() {
    let api = shop().await;
    let before = api.get(api.shop.reader(), PACK).await.expect(200)["cells_from_memory"].clone();
    sign(&api, &json!(["width-wire-flat", "width-wire-vertical"])).await.expect(201);
    let signed = api.get(api.shop.reader(), PACK).await.expect(200)["cells_from_memory"].clone();
    assert_eq!(signed.as_u64().unwrap() + 2, before.as_u64().unwrap());
    execute(&api, "update signed_rule set rule_hash = '\\x00' where rule = 'width-wire-flat'")
        .await;
    let now = api.get(api.shop.reader(), PACK).await.expect(200)["cells_from_memory"].clone();
    assert_eq!(now.as_u64().unwrap() + 1, before.as_u64().unwrap());
    let listed = api.get(api.shop.reader(), &format!("{PACK}/signatures")).await.expect(200);
    assert_eq!(listed["items"][0]["rules"], json!(["width-wire-vertical"]));
    assert_eq!(listed["items"][0]["rules_changed_since"], json!(["width-wire-flat"]));
}
