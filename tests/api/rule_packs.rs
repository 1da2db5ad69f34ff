//! Rule packs over HTTP: each says how much of its code it covers, and how well.

use serde_json::{Value, json};

use crate::support::{Api, documents};

#[tokio::test]
async fn each_pack_says_what_it_covers_and_what_was_only_remembered() {
    let api = Api::start().await;
    let listed = api.get(api.shop.reader(), "/v1/rule-packs").await.expect(200);
    let packs = listed["items"].as_array().unwrap();
    let find = |key: &str| {
        let found = packs.iter().find(|pack| pack["key"] == key);
        found.unwrap_or_else(|| panic!("{key}: {listed:#}"))
    };
    let own = find(documents::RULE_PACK);
    assert_eq!((&own["code"], &own["level"]), (&json!("ISO 15614-1"), &json!("2")));
    assert_eq!(find("aws-d1.1-2015-tested")["edition"], "2015");
    for pack in packs {
        let number = |member: &str| pack[member].as_u64().unwrap();
        assert!(number("rules") > 10 && number("cells") >= number("rules"), "{pack:#}");
        let share = pack["share_from_memory"].as_f64().unwrap();
        let counted = f64::from(u32::try_from(number("cells_from_memory")).unwrap())
            / f64::from(u32::try_from(number("cells")).unwrap());
        assert!((share - counted).abs() < 0.001, "{pack:#}");
        for list in ["units", "sources", "clauses_covered", "clauses_not_covered"] {
            assert!(pack[list].as_array().is_some_and(|list| !list.is_empty()), "{list}: {pack:#}");
        }
        let path = format!("/v1/rule-packs/{}", pack["key"].as_str().unwrap());
        let read = api.get(api.shop.reader(), &path).await.expect(200);
        let rules = read["all_rules"].as_array().unwrap();
        assert_eq!(u64::try_from(rules.len()).unwrap(), number("rules"));
        let text = read["text"].as_str().unwrap();
        for rule in rules {
            for member in ["id", "clause", "variable", "class", "confidence", "per", "kind"] {
                assert!(rule[member].as_str().is_some_and(|text| !text.is_empty()), "{rule}");
            }
            assert!(text.contains(rule["clause"].as_str().unwrap()), "{rule}");
            assert_eq!(
                rule["kind"] == "stated",
                rule.get("question").is_some_and(Value::is_string)
            );
        }
    }
}

#[tokio::test]
async fn the_format_of_packs_can_be_read() {
    let api = Api::start().await;
    let format = api.get(api.shop.reader(), "/v1/rule-packs/format").await;
    assert_eq!(
        (format.status, format.header("content-type")),
        (200, "text/markdown; charset=utf-8")
    );
    let path = format!("/v1/rule-packs/{}", documents::RULE_PACK);
    let pack = api.get(api.shop.reader(), &path).await.expect(200);
    for rule in pack["all_rules"].as_array().unwrap() {
        let kind = rule["kind"].as_str().unwrap();
        assert!(format.text.contains(kind), "{kind} is not described");
    }
    api.get(api.shop.reader(), "/v1/rule-packs/no-such").await.problem(404, "not-found");
}
