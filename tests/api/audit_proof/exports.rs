//! What an export holds, whole or in part.

use arcbounds::audit::Place;
use reqwest::Method;
use serde_json::json;

use super::{expected, export, found, head, lines, part, prove, shop, told, verify};
use crate::support::{Api, documents};

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

#[tokio::test]
async fn an_export_is_whole_for_a_client_that_asks_for_gzip() {
    let api = Api::furnished().await;
    let plain = export(&api, &api.shop).await;
    let call = api.call(Method::GET, "/v1/audit/export").key(api.shop.reader());
    let packed = call.send_asking_gzip().await;
    assert_eq!((packed.status, packed.header("content-encoding")), (200, "gzip"));
    // The first line says when each was made.
    let behind = |text: &str| text.split_once('\n').map(|(_, rest)| rest.to_owned());
    assert_eq!(behind(&packed.text), behind(&plain));
    assert!(lines(&packed.text).last().unwrap().get("closing").is_some());
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
        ("from=x", "?from"),
        ("form=1", "?form"),
    ] {
        let refused = part(&api, query).await;
        refused.problem(400, "bad-parameter");
        assert_eq!(refused.pointers(), [pointer], "{query}");
    }
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
