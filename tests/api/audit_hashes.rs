//! Hashes are those of the standards: canonical bytes, members, numbers and SHA-256.

use arcbounds::database::canonical_bytes;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use crate::{
    behind::{rows, superuser},
    support::Api,
};

/// RFC 8785 (June 2020), section 3.2.2: the sample object, and section 3.2.4: its canonical bytes.
#[test]
fn canonical_bytes_are_those_of_the_rfc() {
    let sample = r#"{
        "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
    }"#;
    let bytes = "
        7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72
        75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a
        5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31
        65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37
        5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30
        30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d";
    let value: Value = serde_json::from_str(sample).unwrap();
    let expected = hex::decode(bytes.split_whitespace().collect::<String>()).unwrap();
    assert_eq!(canonical_bytes(&value), expected);
}

/// RFC 8785, section 3.2.3: the sample of sorted members.
#[test]
fn members_are_sorted_as_the_rfc_sorts_them() {
    let sample = r#"{
        "\u20ac": "Euro Sign",
        "\r": "Carriage Return",
        "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "1": "One",
        "\ud83d\ude00": "Emoji: Grinning Face",
        "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis"
    }"#;
    let value: Value = serde_json::from_str(sample).unwrap();
    let text = String::from_utf8(canonical_bytes(&value)).unwrap();
    let places = [
        "Carriage Return",
        "One",
        "Control",
        "Latin Small Letter O With Diaeresis",
        "Euro Sign",
        "Emoji: Grinning Face",
        "Hebrew Letter Dalet With Dagesh",
    ]
    .map(|name| text.find(&format!("\"{name}\"")).unwrap());
    assert!(places.is_sorted(), "{text}");
}

/// RFC 8785, appendix B: numbers by their bits.
const NUMBERS: &[(u64, &str)] = &[
    (0x0000_0000_0000_0000, "0"),
    (0x8000_0000_0000_0000, "0"),
    (0x0000_0000_0000_0001, "5e-324"),
    (0x8000_0000_0000_0001, "-5e-324"),
    (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
    (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
    (0x4340_0000_0000_0000, "9007199254740992"),
    (0xc340_0000_0000_0000, "-9007199254740992"),
    (0x4430_0000_0000_0000, "295147905179352830000"),
    (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
    (0x44b5_2d02_c7e1_4af6, "1e+23"),
    (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
    (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
    (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
    (0x444b_1ae4_d6e2_ef50, "1e+21"),
    (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
    (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
    (0x41b3_de43_5555_5553, "333333333.3333332"),
    (0x41b3_de43_5555_5554, "333333333.33333325"),
    (0x41b3_de43_5555_5555, "333333333.3333333"),
    (0x41b3_de43_5555_5556, "333333333.3333334"),
    (0x41b3_de43_5555_5557, "333333333.33333343"),
    (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
    (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
];

/// Also after PostgreSQL kept them, and after a file did: else a document would seem altered.
#[tokio::test]
async fn numbers_are_written_as_the_rfc_writes_them_and_stay_so() {
    let api = Api::start().await;
    let mut connection = superuser(&api).await;
    for (bits, expected) in NUMBERS {
        let number = json!(f64::from_bits(*bits));
        assert_eq!(canonical_bytes(&number), expected.as_bytes(), "{bits:x}");
        let kept: Value = sqlx::query_scalar("select $1::jsonb")
            .bind(&number)
            .fetch_one(&mut connection)
            .await
            .unwrap();
        assert_eq!(canonical_bytes(&kept), expected.as_bytes(), "{bits:x} kept as {kept}");
        let read: Value = serde_json::from_str(expected).unwrap();
        assert_eq!(canonical_bytes(&read), expected.as_bytes(), "{bits:x} read as {read}");
    }
}

/// FIPS 180-2, appendix B.1 (for SHA-256 the same as FIPS 180-4): the one-block message "abc".
#[test]
fn hashes_are_those_of_the_standard() {
    let hash = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assert_eq!(hex::encode(Sha256::digest(b"abc")), hash);
}

/// The canonical bytes of this station are
/// `{"code":"ST-9","heaviest_spool":{"unit":"kg","value":18},"name":"Ninth"}` (members sorted, no
/// blanks, empty lists left out); their SHA-256 was taken with `sha256sum`.
#[tokio::test]
async fn the_hash_of_a_document_is_that_of_its_canonical_bytes() {
    let hash = "215f829f65e2a8323b28d9736b9a62136f293fdfd6c748ae9f2dc2b19a43bac3";
    let api = Api::start().await;
    let document = json!({ "name": "Ninth", "code": "ST-9", "heaviest_spool": "18 kg" });
    let made = api.post(api.shop.author(), "/v1/stations", &document).await.expect(201);
    assert_eq!(made["document_hash"], hash);
    let listed = api.get(api.shop.reader(), "/v1/audit?subject=ST-9").await.expect(200);
    assert_eq!(listed["items"][0]["document_hash"], hash);
    // As stored: the same bytes come from the row.
    let stored = rows(&api, "select document, document_hash from record_revision").await;
    assert_eq!(stored[0]["document_hash"], format!("\\x{hash}"));
    let canonical = r#"{"code":"ST-9","heaviest_spool":{"unit":"kg","value":18},"name":"Ninth"}"#;
    assert_eq!(canonical_bytes(&stored[0]["document"]), canonical.as_bytes());
}
