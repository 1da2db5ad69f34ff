//! The chain is proved whole or its faults are named, by the endpoint in the database and by the program on an
//! export of the same chain. What is expected follows from what was done to it; there is no outside source.

use std::io::Cursor;

use arcbounds::{
    access::Role,
    audit::{Outcome, Place, prove_file},
};
use serde_json::{Value, json};
use sqlx::{AssertSqlSafe, Connection, PgConnection};

use crate::{
    behind::{administer, etag, key, person, step},
    support::{Answer, Api, Shop, documents},
};

/// What the endpoint says of the chain.
async fn verify(api: &Api, shop: &Shop) -> Value {
    api.post(shop.reader(), "/v1/audit/verify", &json!({})).await.expect(200)
}

/// An export as it comes.
pub async fn export(api: &Api, shop: &Shop) -> String {
    let answer = api.get(shop.reader(), "/v1/audit/export").await;
    assert_eq!(answer.status, 200, "{answer:?}");
    answer.text
}

fn prove(text: &str, kept: Vec<Place>) -> Outcome {
    prove_file(Cursor::new(text.as_bytes().to_vec()), kept).unwrap()
}

/// Faults with their entries, as the endpoint gives them; without those that are beside the chain.
fn told(verified: &Value) -> Vec<(String, Option<i64>)> {
    let faults = verified["faults"].as_array().unwrap();
    assert_eq!(verified["whole"], faults.is_empty());
    let one =
        |fault: &Value| (fault["fault"].as_str().unwrap().to_owned(), fault["entry"].as_i64());
    faults.iter().map(one).collect()
}

fn found(outcome: &Outcome) -> Vec<(String, Option<i64>)> {
    outcome.proved.faults.iter().map(|fault| (fault.what.to_owned(), fault.entry)).collect()
}

fn expected(faults: &[(&str, i64)]) -> Vec<(String, Option<i64>)> {
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

/// One way to harm a chain, and the faults that have to be told of it.
struct Case {
    name: &'static str,
    harm: &'static [&'static str],
    /// By the endpoint; entry 0 where the fault lies beside the chain.
    endpoint: &'static [(&'static str, i64)],
    /// By the program on an export.
    export: &'static [(&'static str, i64)],
}

/// Entries of a furnished shop: 1 founded, 2 to 10 people and keys, 11 consumable created, 12 to 15 procedure
/// created, submitted, released, signed, 16 station, 17 work order, 18 and 19 qualification record created and
/// signed; then 20 a kept check, 21 an attachment.
const CASES: &[Case] = &[
    Case {
        name: "an entry is altered",
        harm: &["update audit_entry set action = 'revised' where number = 16 and {own}"],
        endpoint: &[("entry-altered", 16)],
        export: &[("entry-altered", 16)],
    },
    Case {
        name: "the time of an entry is altered",
        harm: &["update audit_entry set at = at - interval '1 day' where number = 15 and {own}"],
        endpoint: &[("entry-altered", 15)],
        export: &[("entry-altered", 15)],
    },
    Case {
        name: "who did it is altered",
        harm: &["update audit_entry set person_id = gen_random_uuid() where number = 14 and {own}"],
        endpoint: &[("entry-altered", 14)],
        export: &[("entry-altered", 14)],
    },
    Case {
        name: "an entry gets another hash",
        harm: &["update audit_entry set hash = sha256(hash) where number = 16 and {own}"],
        endpoint: &[("entry-altered", 16), ("link-broken", 17)],
        export: &[("entry-altered", 16), ("link-broken", 17)],
    },
    Case {
        name: "a middle entry is deleted",
        harm: &["delete from audit_entry where number = 13 and {own}"],
        endpoint: &[("entry-missing", 13), ("row-not-in-chain", 0)],
        export: &[("entry-missing", 13)],
    },
    Case {
        name: "the last entries are cut off, the head stays",
        harm: &["delete from audit_entry where number > 17 and {own}"],
        endpoint: &[
            ("chain-cut-off", 18),
            ("row-not-in-chain", 0),
            ("document-not-in-chain", 0),
            ("document-not-in-chain", 0),
            ("document-not-in-chain", 0),
        ],
        export: &[("chain-cut-off", 18)],
    },
    Case {
        name: "rule changes are cut off, and the head is set back",
        harm: &[
            "delete from audit_entry where number > 13 and {own}",
            "update audit_head h set number = 13, rulebook_version = 13, hash = e.hash
             from audit_entry e where e.organisation_id = h.organisation_id and e.number = 13 and h.{own}",
        ],
        endpoint: &[
            ("chain-cut-off", 14),
            ("row-not-in-chain", 0),
            ("row-not-in-chain", 0),
            ("row-not-in-chain", 0),
            ("document-not-in-chain", 0),
            ("document-not-in-chain", 0),
            ("document-not-in-chain", 0),
            ("document-not-in-chain", 0),
            ("document-not-in-chain", 0),
        ],
        // A shortened file that was made whole again is whole; a kept head shows it, see below.
        export: &[],
    },
    Case {
        name: "two entries are swapped",
        harm: &[
            "update audit_entry set number = -1 where number = 16 and {own}",
            "update audit_entry set number = 16 where number = 17 and {own}",
            "update audit_entry set number = 17 where number = -1 and {own}",
        ],
        endpoint: &[
            ("entry-altered", 16),
            ("link-broken", 16),
            ("entry-altered", 17),
            ("link-broken", 17),
            ("link-broken", 18),
        ],
        export: &[
            ("entry-altered", 16),
            ("link-broken", 16),
            ("entry-altered", 17),
            ("link-broken", 17),
            ("link-broken", 18),
        ],
    },
    Case {
        name: "the head has another hash",
        harm: &["update audit_head set hash = sha256(hash) where {own}"],
        endpoint: &[("head-altered", 21)],
        export: &[("head-altered", 21)],
    },
    Case {
        name: "the head names another version of the rules",
        harm: &["update audit_head set rulebook_version = 11 where {own}"],
        endpoint: &[("head-altered", 0)],
        export: &[],
    },
    Case {
        name: "a released document is altered",
        harm: &["update record_revision set document = jsonb_set(document, '{title}', '\"Another\"')
                 where code = 'WPS-1' and {own}"],
        endpoint: &[("document-altered", 12)],
        export: &[("document-altered", 12)],
    },
    Case {
        name: "a document and its kept hash are altered",
        harm: &[
            "update record_revision set document = '{}', document_hash = sha256('{}')
             where code = 'ST-1' and {own}",
        ],
        endpoint: &[("document-altered", 16), ("row-altered", 16), ("document-not-in-chain", 0)],
        export: &[("document-altered", 16)],
    },
    Case {
        name: "a document is deleted",
        harm: &["delete from record_revision where code = 'J-100' and {own}"],
        endpoint: &[("document-missing", 17), ("row-altered", 17), ("standing-altered", 0)],
        export: &[("document-missing", 17)],
    },
    Case {
        name: "the settings are altered",
        harm: &["update organisation set settings = jsonb_set(settings, '{units}', '\"us\"') where {own}"],
        endpoint: &[("document-altered", 1)],
        export: &[("document-altered", 1)],
    },
    Case {
        name: "the answer of a kept check is altered",
        harm: &["update kept_check set answer = jsonb_set(answer, '{verdict}', '\"not-allowed\"') where {own}"],
        endpoint: &[("document-altered", 20)],
        export: &[("document-altered", 20)],
    },
    Case {
        name: "a kept check is deleted",
        harm: &["delete from kept_check where {own}"],
        endpoint: &[("document-missing", 20)],
        export: &[("document-missing", 20)],
    },
    Case {
        name: "the details of an entry are altered",
        harm: &["update audit_entry set details =
                     jsonb_set(details, '{procedure-event,0,reason}', '\"Not seen\"')
                 where number = 15 and {own}"],
        endpoint: &[("details-altered", 15), ("row-altered", 15), ("row-not-in-chain", 0)],
        export: &[("details-altered", 15)],
    },
    Case {
        name: "the details of an entry are taken out",
        harm: &["update audit_entry set details = null where number = 15 and {own}"],
        endpoint: &[("details-missing", 15), ("row-not-in-chain", 0)],
        export: &[("details-missing", 15)],
    },
    // Rows beside the documents: the entry tells what was written, so that an export of it is whole.
    Case {
        name: "what a signer vouched for is altered",
        harm: &["update procedure_event set reason = 'All seen' where event = 'support-signed' and {own}"],
        endpoint: &[("row-altered", 15), ("row-not-in-chain", 0)],
        export: &[],
    },
    Case {
        name: "the day from which a revision is in force is altered",
        harm: &["update procedure_event set effective_from = '2020-01-01' where event = 'released' and {own}"],
        endpoint: &[("row-altered", 14), ("row-not-in-chain", 0)],
        export: &[],
    },
    Case {
        name: "a step is slipped in",
        harm: &["insert into procedure_event (organisation_id, code, revision, sequence, event, person_id, key_id)
                 select organisation_id, code, revision, 4, 'support-signed', person_id, key_id
                 from procedure_event where sequence = 3 and {own}"],
        endpoint: &[("row-not-in-chain", 0), ("standing-altered", 0)],
        export: &[],
    },
    Case {
        name: "a standing is altered",
        harm: &["update procedure_standing set effective_until = '2040-01-01' where {own}"],
        endpoint: &[("standing-altered", 0)],
        export: &[],
    },
    Case {
        name: "a record is put out of use by hand",
        harm: &["update record set state = 'withdrawn' where code = 'ST-1' and {own}"],
        endpoint: &[("standing-altered", 0)],
        export: &[],
    },
    Case {
        name: "a signature of a qualification record is altered",
        harm: &["update qualification_signature set statement = 'Compared twice' where {own}"],
        endpoint: &[("row-altered", 19), ("row-not-in-chain", 0)],
        export: &[],
    },
    Case {
        name: "a signature of a qualification record is deleted",
        harm: &["delete from qualification_signature where {own}"],
        endpoint: &[("row-altered", 19), ("standing-altered", 0)],
        export: &[],
    },
    Case {
        name: "an attachment is exchanged",
        harm: &["update qualification_attachment
                 set content = '\\x00', sha256 = sha256('\\x00'), length = 1 where {own}"],
        endpoint: &[("row-altered", 21), ("document-not-in-chain", 0)],
        export: &[],
    },
    Case {
        name: "somebody gets a role by hand",
        harm: &["update person set roles = '{approver,author}' where 'author' = any(roles) and {own}"],
        endpoint: &[("row-altered", 4), ("row-not-in-chain", 0)],
        export: &[],
    },
    Case {
        name: "a key is made by hand",
        harm: &["insert into api_key (organisation_id, key_id, label, roles, secret_hash)
                 select organisation_id, gen_random_uuid(), 'x', '{admin}', sha256(organisation_id::text::bytea)
                 from organisation where {own}"],
        endpoint: &[("row-not-in-chain", 0)],
        export: &[],
    },
];

/// A shop with the 21 entries that the cases count on.
async fn shop(api: &Api) -> Shop {
    let shop = api.found("Shop of one case").await;
    shop.furnish(api).await;
    let keep = documents::with(documents::setup(), "/keep", json!(true));
    api.post(shop.reader(), "/v1/checks", &keep).await.expect(200);
    shop.attach(api, documents::QUALIFICATION, "photo.png", ("image/png", documents::PNG)).await;
    shop
}

#[tokio::test]
async fn every_harm_is_found_and_named_in_the_database_and_in_an_export() {
    let api = Api::start().await;
    let mut wrong = Vec::new();
    for case in CASES {
        let shop = shop(&api).await;
        assert_eq!(told(&verify(&api, &shop).await), []);
        let before = export(&api, &shop).await;
        assert_eq!(found(&prove(&before, Vec::new())), []);
        harm(&api, &shop, case.harm).await;
        let verified = verify(&api, &shop).await;
        if told(&verified) != expected(case.endpoint) {
            wrong.push(format!("{}: the endpoint says {:#}", case.name, verified["faults"]));
        }
        let outcome = prove(&export(&api, &shop).await, Vec::new());
        if found(&outcome) != expected(case.export) {
            wrong.push(format!("{}: of an export {:#?}", case.name, outcome.proved.faults));
        }
        // What was exported before shows nothing of it.
        assert_eq!(found(&prove(&before, Vec::new())), []);
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // The others were left alone.
    assert_eq!(told(&verify(&api, &api.shop).await), []);
}

#[tokio::test]
async fn a_fault_says_which_record_it_is_about() {
    let api = Api::start().await;
    let shop = shop(&api).await;
    let alter = "update record_revision set document = '{}' where code = 'WPS-1' and {own}";
    harm(&api, &shop, &[alter]).await;
    let verified = verify(&api, &shop).await;
    let fault = &verified["faults"][0];
    assert_eq!(fault["fault"], "document-altered");
    assert_eq!((&fault["kind"], &fault["subject"]), (&json!("procedure"), &json!("WPS-1")));
    assert_eq!((&fault["revision"], &fault["entry"]), (&json!(1), &json!(12)));
    let line = prove(&export(&api, &shop).await, Vec::new()).proved.faults[0].to_string();
    assert!(line.starts_with("entry 12: document-altered, procedure WPS-1 revision 1: "), "{line}");
}

/// Head of a chain as the endpoint tells it.
async fn head(api: &Api, shop: &Shop) -> Value {
    verify(api, shop).await["head"].clone()
}

async fn verify_against(api: &Api, shop: &Shop, head: &Value) -> Value {
    let body = json!({ "head": head });
    api.post(shop.reader(), "/v1/audit/verify", &body).await.expect(200)
}

/// The chain shortened by whoever may write everything, so that it fits together again: only a head that was
/// kept elsewhere shows it.
#[tokio::test]
async fn a_kept_head_shows_a_chain_that_was_shortened() {
    let api = Api::start().await;
    let shop = api.found("Shop with a kept head").await;
    let early = head(&api, &shop).await;
    api.shop.write(&api, "stations", &documents::station()).await;
    shop.write(&api, "stations", &documents::station()).await;
    let late = head(&api, &shop).await;
    assert_eq!(late["number"], early["number"].as_i64().unwrap() + 1);
    for kept in [&early, &late] {
        assert_eq!(verify_against(&api, &shop, kept).await["contains_head"], true);
    }
    harm(
        &api,
        &shop,
        &[
            "delete from audit_entry e using audit_head h
             where h.organisation_id = e.organisation_id and h.number = e.number and e.{own}",
            "delete from record_revision where {own}",
            "delete from record where {own}",
            "update audit_head h set number = e.number, hash = e.hash, rulebook_version = (
                 select max(number) from audit_entry r where r.organisation_id = e.organisation_id
                    and r.changes_rules)
             from audit_entry e
             where e.organisation_id = h.organisation_id and e.number = h.number - 1 and h.{own}",
        ],
    )
    .await;
    assert_eq!(told(&verify(&api, &shop).await), [], "it fits together");
    assert_eq!(verify_against(&api, &shop, &early).await["contains_head"], true);
    let shortened = verify_against(&api, &shop, &late).await;
    assert_eq!(shortened["contains_head"], false);
    let number = late["number"].as_i64().unwrap();
    assert_eq!(told(&shortened), expected(&[("head-not-in-chain", number)]));
    let place: Place = serde_json::from_value(late).unwrap();
    let outcome = prove(&export(&api, &shop).await, vec![place]);
    assert_eq!(found(&outcome), expected(&[("head-not-in-chain", number)]));
}

#[tokio::test]
async fn a_head_of_another_chain_is_not_in_this_one() {
    let api = Api::furnished().await;
    let foreign = head(&api, &api.stranger).await;
    let answer = verify_against(&api, &api.shop, &foreign).await;
    assert_eq!(answer["contains_head"], false);
    assert_eq!(told(&answer)[0].0, "head-not-in-chain");
    let own = head(&api, &api.shop).await;
    let upper =
        json!({ "number": own["number"], "hash": own["hash"].as_str().unwrap().to_uppercase() });
    assert_eq!(verify_against(&api, &api.shop, &upper).await["contains_head"], true);
    for (body, pointer) in [
        (json!({ "head": { "number": 1, "hash": "00" } }), "/head/hash"),
        (json!({ "head": { "number": 1, "hash": "x".repeat(64) } }), "/head/hash"),
        (json!({ "head": { "number": -1, "hash": own["hash"] } }), "/head/number"),
        (json!({ "head": { "number": 1 } }), "/head/hash"),
        (json!({ "number": 1 }), "/number"),
    ] {
        let refused = api.post(api.shop.reader(), "/v1/audit/verify", &body).await;
        refused.problem(422, "invalid-fields");
        assert_eq!(refused.pointers(), [pointer], "{body}");
    }
}

/// Lines of an export as JSON.
fn lines(text: &str) -> Vec<Value> {
    text.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

#[tokio::test]
async fn an_export_has_everything_that_the_hashes_cover() {
    let api = Api::start().await;
    let shop = shop(&api).await;
    let answer = api.get(shop.reader(), "/v1/audit/export").await;
    assert_eq!(answer.header("content-type"), "application/x-ndjson");
    assert!(answer.header("content-disposition").contains("audit-1-21.ndjson"), "{answer:?}");
    let lines = lines(&answer.text);
    let opening = &lines[0]["opening"];
    assert_eq!(opening["organisation"], shop.organisation.to_string());
    assert_eq!((&opening["first"], &opening["last"]), (&json!(1), &json!(21)));
    assert_eq!(opening["after"], json!({ "number": 0, "hash": "0".repeat(64) }));
    assert_eq!(opening["head"], head(&api, &shop).await);
    let closing = &lines.last().unwrap()["closing"];
    assert_eq!((&closing["entries"], &closing["last"]), (&json!(21), &opening["head"]));
    // Released and signed name the document that created shows.
    let created = &lines[12];
    assert_eq!(created["document"]["number"], "WPS-1");
    assert_eq!(lines[14]["entry"]["document"], created["entry"]["document"]);
    assert_eq!(lines[14].get("document"), None);
    let signed = &lines[15]["details"]["procedure-event"][0];
    assert_eq!(
        (&signed["event"], &signed["reason"]),
        (&json!("support-signed"), &json!("Test report seen"))
    );
    let vouched = &lines[19]["details"]["qualification-signature"][0];
    assert_eq!(vouched["statement"], "Compared with the paper record");
    assert_eq!(lines[20]["document"]["answer"]["verdict"], "allowed");
    assert_eq!(lines[21]["details"]["attachment"][0]["name"], "photo.png");
    // A kept check stays as it was answered, which was with the signer's name; nothing else has names.
    let others: Vec<_> = answer.text.lines().filter(|line| !line.contains("\"kept\"")).collect();
    assert_eq!(others.len(), lines.len() - 1);
    for name in ["Writer", "Second person", "Administrator"] {
        assert!(others.iter().all(|line| !line.contains(name)), "{name} stands in the export");
    }
    let outcome = prove(&answer.text, Vec::new());
    let proved = outcome.proved;
    // Six documents of records and settings, one kept check; an attachment is named only.
    assert_eq!((proved.entries, proved.documents, proved.named_only), (21, 7, 1));
}

/// The bytes of an entry stand in the line as they were hashed, for anybody with a tool of their own.
#[tokio::test]
async fn a_line_holds_the_bytes_that_were_hashed() {
    use sha2::{Digest, Sha256};

    let api = Api::furnished().await;
    let text = export(&api, &api.shop).await;
    let mut entries = 0;
    for line in text.lines().filter(|line| line.contains("\"entry\":")) {
        let (_, from) = line.split_once("\"entry\":").unwrap();
        let (entry, rest) = from.split_once(",\"hash\":\"").unwrap();
        assert_eq!(hex::encode(Sha256::digest(entry)), rest[..64], "{line}");
        entries += 1;
    }
    assert_eq!(entries, 19);
}

async fn part(api: &Api, query: &str) -> Answer {
    api.get(api.shop.reader(), &format!("/v1/audit/export?{query}")).await
}

#[tokio::test]
async fn a_part_says_so_and_is_proved_as_a_part() {
    let api = Api::furnished().await;
    let kept: Vec<Place> = [head(&api, &api.stranger).await, head(&api, &api.shop).await]
        .map(|head| serde_json::from_value(head).unwrap())
        .into();
    for (query, first, last, is_part) in [
        ("from=13", 13, 19, true),
        ("to=14", 1, 14, true),
        ("from=14&to=15", 14, 15, true),
        ("from=19&to=19", 19, 19, true),
        ("from=1&to=19", 1, 19, false),
        ("to=9999", 1, 19, false),
    ] {
        let text = part(&api, query).await.text;
        let outcome = prove(&text, Vec::new());
        assert_eq!(found(&outcome), [], "{query}");
        assert_eq!(outcome.proved.entries, last - first + 1, "{query}");
        let opening = &outcome.opening;
        assert_eq!((opening.first, opening.last), (first, last), "{query}");
        assert_eq!(opening.is_part(), is_part, "{query}");
        // A head beyond the part is neither there nor missing.
        let outcome = prove(&text, kept[1..].to_vec());
        let in_it = last == 19;
        assert_eq!(found(&outcome), [], "{query}");
        let found = format!("{:?}", outcome.proved.kept[0].found);
        assert_eq!(found, if in_it { "Yes" } else { "OutsidePart" }, "{query}");
    }
    // A part whose first line of entries was taken out, which showed the document that the next one names.
    let text = part(&api, "from=14").await.text;
    let mut lines: Vec<_> = text.lines().collect();
    lines.remove(1);
    let faults = expected(&[("entry-missing", 14), ("document-missing", 15)]);
    assert_eq!(found(&prove(&lines.join("\n"), Vec::new())), faults);
    for (query, pointer) in [
        ("from=0", "?from"),
        ("from=20", "?from"),
        ("from=3&to=2", "?to"),
        ("from=x", "?"),
        ("form=1", "?"),
    ] {
        let refused = part(&api, query).await;
        refused.problem(400, "bad-parameter");
        assert_eq!(refused.pointers(), [pointer], "{query}");
    }
}

/// The file itself tampered with, by somebody without the database.
#[tokio::test]
async fn a_file_that_was_tampered_with_is_not_whole() {
    let api = Api::furnished().await;
    let text = export(&api, &api.shop).await;
    let whole: Vec<&str> = text.lines().collect();
    let with = |edit: &dyn Fn(&mut Vec<String>)| {
        let mut lines: Vec<String> = whole.iter().map(|line| (*line).to_owned()).collect();
        edit(&mut lines);
        found(&prove(&(lines.join("\n") + "\n"), Vec::new()))
    };
    let swap = |from: &'static str, to: &'static str| {
        move |lines: &mut Vec<String>| {
            let line = lines.iter_mut().find(|line| line.contains(from)).unwrap();
            *line = line.replacen(from, to, 1);
        }
    };
    assert_eq!(with(&|_| ()), []);
    for (edit, faults) in [
        (
            &swap("\"action\":\"released\"", "\"action\":\"returned\"")
                as &dyn Fn(&mut Vec<String>),
            &[("entry-altered", 14)][..],
        ),
        (&swap("First station", "Second station"), &[("document-altered", 16)]),
        (&swap("Test report seen", "Nothing was seen"), &[("details-altered", 15)]),
        (&|lines| drop(lines.remove(14)), &[("entry-missing", 14)]),
        (&|lines| lines.swap(14, 15), &[("entry-missing", 14), ("entry-out-of-order", 14)]),
        (&|lines| lines.insert(15, lines[14].clone()), &[("entry-out-of-order", 14)]),
        (&|lines| lines.truncate(10), &[("chain-cut-off", 10)]),
        (&|lines| drop(lines.drain(18..20)), &[("chain-cut-off", 18), ("chain-cut-off", 18)]),
        (&|lines| lines[5] = "no JSON".to_owned(), &[("line-unreadable", 0), ("entry-missing", 5)]),
        (&|lines| lines.push(lines[19].clone()), &[("line-unreadable", 0)]),
        (
            &|lines| lines[12] = lines[12].replacen("\"document\":{", "\"other\":{", 1),
            &[("document-missing", 12)],
        ),
    ] {
        assert_eq!(with(edit), expected(faults));
    }
}

/// What happened before entries told of rows is proved as it was written then; what comes after is covered.
#[tokio::test]
async fn entries_of_the_first_format_still_verify() {
    let api = Api::start().await;
    let shop = api.found("Shop of old").await;
    shop.furnish(&api).await;
    rewrite_in_the_first_format(&api, &shop).await;
    assert_eq!(told(&verify(&api, &shop).await), []);
    let text = export(&api, &shop).await;
    assert_eq!(lines(&text)[14]["entry"].get("format"), None);
    assert_eq!(found(&prove(&text, Vec::new())), []);
    // The next step is told.
    let path = format!("/v1/procedures/{}", documents::PROCEDURE);
    let now = api.get(shop.reader(), &path).await;
    api.act(shop.approver(), &format!("{path}/withdrawal"), now.etag()).await.expect(200);
    assert_eq!(told(&verify(&api, &shop).await), []);
    let last = lines(&export(&api, &shop).await)[20].clone();
    assert_eq!(last["entry"]["format"], 2);
    assert_eq!(last["details"]["procedure-event"][0]["event"], "withdrawn");
    harm(
        &api,
        &shop,
        &["update record_revision set document = '{}' where code = 'WPS-1' and {own}"],
    )
    .await;
    assert_eq!(told(&verify(&api, &shop).await), expected(&[("document-altered", 12)]));
}

/// Writes every entry again as it would have been written before entries had details, by the description of
/// that format.
async fn rewrite_in_the_first_format(api: &Api, shop: &Shop) {
    use sha2::{Digest, Sha256};

    let mut connection = PgConnection::connect(&api.superuser_url()).await.unwrap();
    let mut previous = "0".repeat(64);
    for line in lines(&export(api, shop).await) {
        let Some(entry) = line.get("entry") else { continue };
        let mut entry = entry.clone();
        let members = entry.as_object_mut().unwrap();
        members.remove("format");
        members.remove("details");
        members.insert("previous".to_owned(), json!(previous));
        let hash = Sha256::digest(arcbounds::database::canonical_bytes(&entry));
        sqlx::query(
            "update audit_entry set format = 1, details = null, details_hash = null,
                 previous_hash = decode($3, 'hex'), hash = $4
             where organisation_id = $1 and number = $2",
        )
        .bind(shop.organisation)
        .bind(entry["number"].as_i64())
        .bind(&previous)
        .bind(hash.as_slice())
        .execute(&mut connection)
        .await
        .unwrap();
        previous = hex::encode(hash);
    }
    sqlx::query("update audit_head set hash = decode($2, 'hex') where organisation_id = $1")
        .bind(shop.organisation)
        .bind(previous)
        .execute(&mut connection)
        .await
        .unwrap();
}

/// The judgement that a release kept: the floor is held to it.
#[tokio::test]
async fn a_kept_judgement_is_covered() {
    let api = Api::furnished().await;
    api.shop.write(&api, "consumables", &documents::tested_consumable()).await;
    api.shop.write(&api, "procedures", &documents::supported_procedure()).await;
    api.shop.release(&api, documents::SUPPORTED).await;
    assert_eq!(told(&verify(&api, &api.shop).await), []);
    let lines = lines(&export(&api, &api.shop).await);
    let released = lines.iter().find(|line| {
        line["entry"]["action"] == "released" && line["entry"]["subject"] == documents::SUPPORTED
    });
    let released = released.unwrap();
    let kept = &released["details"]["release-judgement"][0]["judgement"];
    assert_eq!(kept["ruling"], "qualified");
    let number = released["entry"]["number"].as_i64().unwrap();
    harm(
        &api,
        &api.shop,
        &["update procedure_support set judgement = jsonb_set(judgement, '{not_judged}', '[]'),
               at = at + interval '1 second' where {own}"],
    )
    .await;
    let faults = expected(&[("row-altered", number), ("row-not-in-chain", 0)]);
    assert_eq!(told(&verify(&api, &api.shop).await), faults);
    harm(&api, &api.shop, &["delete from procedure_support where {own}"]).await;
    assert_eq!(told(&verify(&api, &api.shop).await), expected(&[("row-altered", number)]));
}

/// Everything that people do to welders, attachments and keys leaves a chain that is whole.
#[tokio::test]
async fn a_chain_with_every_kind_of_row_is_whole() {
    let api = Api::furnished().await;
    let (author, approver) = (api.shop.author(), api.shop.approver());
    api.shop.write(&api, "welders", &documents::welder()).await;
    let path = "/v1/welders/W-1";
    let signed = json!({ "qualification": "Q1", "event": "range-signed", "reason": "Compared" });
    let now = etag(&api, path).await;
    step(&api, approver, &format!("{path}/events"), &now, &signed).await.expect(200);
    let name = json!({ "name": "Somebody", "retention": "five years" });
    let call = api.call(reqwest::Method::PUT, &format!("{path}/name")).key(author);
    call.json(&name).send().await.expect(200);
    let photo = ("image/png", documents::PNG);
    let photo = api.shop.attach(&api, documents::QUALIFICATION, "photo.png", photo).await;
    let path = format!("/v1/qualifications/{}/attachments/{photo}", documents::QUALIFICATION);
    let because = json!({ "reason": "Of another test" });
    api.post(author, &format!("{path}/withdrawal"), &because).await.expect(200);
    let who = person(&api, "Somebody", &[Role::Reader]).await;
    let (key, _) = key(&api, &json!({ "label": "x", "roles": ["reader"], "person": who })).await;
    for last in ["rotation", "revocation"] {
        let path = format!("/v1/keys/{key}/{last}");
        api.post(api.shop.admin(), &path, &Value::Null).await.expect(200);
    }
    let changed = json!({ "name": "Somebody", "roles": ["author"], "active": false });
    administer(&api, &format!("/v1/people/{who}"), &changed).await.expect(200);
    let settings = api.get(api.shop.admin(), "/v1/organisation").await.expect(200);
    let settings = documents::with(settings["settings"].clone(), "/units", json!("us"));
    administer(&api, "/v1/organisation", &settings).await.expect(200);
    let procedure = "/v1/procedures/WPS-1";
    let reason = format!("{procedure}?reason=Wider%20voltage");
    let edited = documents::with(documents::procedure(), "/note", json!("Edited"));
    for document in [documents::procedure(), edited, documents::procedure()] {
        api.put(author, &reason, &etag(&api, procedure).await, &document).await.expect(200);
    }
    api.shop.release(&api, documents::PROCEDURE).await;
    for path in [procedure, "/v1/qualifications/PQR-1", "/v1/stations/ST-1"] {
        let now = etag(&api, path).await;
        api.act(approver, &format!("{path}/withdrawal"), &now).await.expect(200);
    }
    assert_eq!(told(&verify(&api, &api.shop).await), []);
    let text = export(&api, &api.shop).await;
    assert_eq!(found(&prove(&text, Vec::new())), []);
    let lines = lines(&text);
    let detail =
        |pointer: &str| lines.iter().filter(|line| line.pointer(pointer).is_some()).count();
    for (pointer, count) in [
        ("/details/welder-event/0/test", 1),
        ("/details/attachment-withdrawal/0/reason", 1),
        // The founder, three members with a name, and the one above when added and when changed.
        ("/details/person/0/roles", 6),
        ("/details/key/0/revoked_at", 1),
    ] {
        assert_eq!(detail(pointer), count, "{pointer}");
    }
    let reasons = lines.iter().filter(|l| l["details"]["revision"][0]["reason"] == "Wider voltage");
    assert_eq!(reasons.count(), 3);
    // What was superseded and what was withdrawn stand in the entry of the step that did it.
    let events = |action: &str, entry: usize| {
        let of = |line: &&Value| {
            line["entry"]["action"] == action && line["entry"]["kind"] == "procedure"
        };
        let found = lines.iter().filter(of).nth(entry).unwrap();
        let events = found["details"]["procedure-event"].as_array().unwrap().iter();
        events.map(|e| e["event"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let mut both = events("released", 1);
    both.sort_unstable();
    assert_eq!(both, ["released", "superseded"]);
    assert_eq!(events("withdrawn", 0), ["withdrawn", "withdrawn"]);
}

/// An export is of one moment, whatever is written meanwhile.
#[tokio::test]
async fn exports_are_whole_while_others_write() {
    let api = Api::furnished().await;
    let writes = async {
        for number in 0..60 {
            let code = json!(format!("ST-1{number}"));
            let station = documents::with(documents::station(), "/code", code);
            api.shop.write(&api, "stations", &station).await;
        }
    };
    let exports = async {
        let mut lengths = Vec::new();
        for _ in 0..10 {
            let outcome = prove(&export(&api, &api.shop).await, Vec::new());
            assert_eq!(found(&outcome), []);
            lengths.push(outcome.proved.entries);
            assert_eq!(told(&verify(&api, &api.shop).await), []);
        }
        lengths
    };
    let ((), lengths) = tokio::join!(writes, exports);
    assert!(lengths.is_sorted() && lengths.first() < lengths.last(), "{lengths:?}");
}

/// A reader who takes nothing holds one of the two walks; what waits longer than it may is told to come again.
#[tokio::test]
async fn a_third_walk_at_once_waits_and_is_refused() {
    let api = Api::furnished().await;
    let held = std::sync::Arc::clone(&api.state().walks);
    let both = held.acquire_many(2).await.unwrap();
    let refused = api.get(api.shop.reader(), "/v1/audit/export").await;
    refused.problem(503, "unavailable");
    assert_eq!(refused.header("retry-after"), "30");
    drop(both);
    assert_eq!(told(&verify(&api, &api.shop).await), []);
}

/// What the program says of a file, and its exit code.
fn program(arguments: &[&str], input: &str) -> (i32, String) {
    use std::io::Write;

    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_arcbounds"));
    command.arg("verify-audit").args(arguments);
    command.stdin(std::process::Stdio::piped()).stdout(std::process::Stdio::piped());
    let mut child = command.stderr(std::process::Stdio::null()).spawn().unwrap();
    // A program that ends early does not read on.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    let output = child.wait_with_output().unwrap();
    (output.status.code().unwrap(), String::from_utf8(output.stdout).unwrap())
}

#[tokio::test]
async fn the_program_proves_a_file_without_a_database() {
    let api = Api::furnished().await;
    let text = export(&api, &api.shop).await;
    let head = head(&api, &api.shop).await;
    let kept = format!("{}:{}", head["number"], head["hash"].as_str().unwrap());
    let (code, said) = program(&["-"], &text);
    assert_eq!(code, 0, "{said}");
    assert!(said.starts_with("whole\n") && said.contains(&format!("head {kept}")), "{said}");
    let (code, said) = program(&["-", "--head", &kept], &text);
    assert_eq!(code, 0, "{said}");
    assert!(said.contains(&format!("contains the head {kept}")), "{said}");

    let file = std::env::temp_dir().join(format!("arcbounds-{}.ndjson", uuid::Uuid::now_v7()));
    std::fs::write(&file, text.replacen("First station", "Second station", 1)).unwrap();
    let (code, said) = program(&[file.to_str().unwrap(), "--head", &kept], "");
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("entry 16: document-altered, station ST-1 revision 1: "), "{said}");
    assert!(said.contains("faulty\n"), "{said}");
    std::fs::remove_file(&file).unwrap();

    let foreign = format!("3:{}", "ab".repeat(32));
    let (code, said) = program(&["-", "--head", &foreign], &text);
    assert_eq!(code, 1, "{said}");
    assert!(said.contains("does not contain the head 3:"), "{said}");
    let part = part(&api, "from=14").await.text;
    let (code, said) = program(&["-"], &part);
    assert_eq!(code, 0, "{said}");
    assert!(said.contains("whole, a part: entries 14 to 19 of 19"), "{said}");

    let newer = text.replacen("\"form\":1", "\"form\":2", 1);
    for unreadable in ["", "{}", "no JSON\n", &newer, text.split_once('\n').unwrap().1] {
        let (code, said) = program(&["-"], unreadable);
        assert_eq!(code, 2, "{said}");
        assert!(said.starts_with("unreadable: "), "{said}");
    }
    let (code, said) = program(&["/nowhere/at/all"], "");
    assert_eq!((code, said.starts_with("unreadable: cannot read the file: ")), (2, true), "{said}");
    assert_eq!(program(&["-", "--head", "17"], &text).0, 2);
}
