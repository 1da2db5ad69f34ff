//! Rule packs over HTTP: each says how much of its code it covers, and how well.

use serde_json::Value;

use crate::support::{Api, documents};

#[tokio::test]
async fn each_pack_says_what_it_covers_and_what_was_only_remembered() {
    let api = Api::start().await;
    let listed = api.get(api.shop.reader(), "/v1/rule-packs").await.expect(200);
    let packs = listed["items"].as_array().unwrap();
    let find = |code: &str| {
        packs
            .iter()
            .find(|pack| pack["code"] == code)
            .unwrap_or_else(|| panic!("{code}: {listed:#}"))
    };
    assert_eq!(find("ISO 15614-1")["key"], documents::RULE_PACK);
    assert_eq!(find("AWS D1.1")["edition"], "2015");
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
