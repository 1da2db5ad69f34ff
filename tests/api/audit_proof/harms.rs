//! Every way to harm a chain is found and named.

use serde_json::json;

use super::{expected, export, found, harm, prove, shop, told, verify};
use crate::support::Api;

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
