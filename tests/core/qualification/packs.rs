//! The packs themselves: they load, say what they are, and a slip in one is named.

use arcbounds::{
    qualify::{Pack, WrongPack, derive, packs, record::TestLevel},
    trade::CodeEdition,
};

use super::fixture::*;

#[test]
fn every_built_in_pack_loads() {
    let texts = [
        include_str!("../../../src/qualify/packs/iso-15614-1-2017-level-2.toml"),
        include_str!("../../../src/qualify/packs/aws-d1.1-2015-tested.toml"),
        include_str!("../../../src/qualify/packs/iso-15614-1-2017-level-1.toml"),
        include_str!("../../../src/qualify/packs/asme-ix-2017.toml"),
        include_str!("../../../src/qualify/packs/aws-d1.1-2020-prequalified.toml"),
    ];
    let loaded: Vec<_> = texts.iter().map(|text| Pack::load(text).unwrap().key).collect();
    let built_in: Vec<_> = packs().iter().map(|pack| pack.key.clone()).collect();
    assert_eq!(loaded, built_in);
}

#[test]
fn a_pack_says_how_much_of_it_is_from_memory() {
    let standing = iso().standing();
    assert_eq!((standing.rules, standing.cells, standing.cells_from_memory), (ISO.0, ISO.1, ISO.2));
    assert!(standing.open.iter().any(|open| open.clause == "8.5.6"));
    assert!(standing.clauses.iter().any(|clause| clause == "8.4.7"));
    let standing = aws().standing();
    assert_eq!((standing.rules, standing.cells, standing.cells_from_memory), (AWS.0, AWS.1, AWS.2));
    assert!(standing.clauses.iter().any(|clause| clause == "Table 4.5, row 16"));
}

/// Rules, cells and cells from memory, counted in the files by a script of its own (Python, tomllib).
const ISO: (usize, usize, usize) = (51, 175, 7);
const AWS: (usize, usize, usize) = (64, 119, 76);
const ISO_LEVEL_1: (usize, usize, usize) = (35, 130, 6);
const ASME: (usize, usize, usize) = (32, 112, 41);
const PREQUALIFIED: (usize, usize, usize) = (86, 163, 50);

#[test]
fn the_other_packs_say_so_too() {
    for (key, expected) in [
        ("iso-15614-1-2017-level-1", ISO_LEVEL_1),
        ("asme-ix-2017", ASME),
        ("aws-d1.1-2020-prequalified", PREQUALIFIED),
    ] {
        let pack = packs().iter().find(|pack| pack.key == key).unwrap();
        let standing = pack.standing();
        let found = (standing.rules, standing.cells, standing.cells_from_memory);
        assert_eq!(found, expected, "{key}");
        assert_eq!(pack.summaries().len(), expected.0);
        assert!(pack.summaries().iter().all(|rule| rule.cells > 0 && !rule.clause.is_empty()));
    }
}

/// Every question can be asked before a job is judged.
#[test]
fn questions_are_listed_with_the_rules() {
    let asked = |pack: &Pack| {
        let rules = pack.summaries();
        rules.iter().filter(|rule| rule.question.is_some()).count()
    };
    assert_eq!((asked(iso()), asked(aws())), (4, 10));
}

/// A signed cell no longer rests on memory; an id that no rule has is refused.
#[test]
fn rules_checked_in_print_lift_the_mark() {
    let ids: Vec<_> = aws().summaries().iter().map(|rule| rule.id.clone()).collect();
    let ids: Vec<_> = ids.iter().map(String::as_str).collect();
    let checked = aws().clone().checked_in_print(&ids).unwrap();
    assert_eq!(checked.standing().cells_from_memory, 0);
    let record = aws_record();
    let judgement = judged(&record, &checked, &undemanding(), &repeated(&record));
    assert!(!best(&judgement).rests_on_memory);
    let mut some = ids.clone();
    some.retain(|id| *id != "travel-speed-wire");
    let partly = aws().clone().checked_in_print(&some).unwrap();
    let judgement = judged(&record, &partly, &undemanding(), &repeated(&record));
    assert!(best(&judgement).rests_on_memory);
    assert_eq!(aws().clone().checked_in_print(&["no-rule"]), Err("no-rule".to_owned()));
}

/// Where a pack says how well it was confirmed, nobody else has confirmed it.
#[test]
fn an_unconfirmed_pack_is_from_memory_throughout() {
    for pack in packs() {
        let standing = pack.clone().unconfirmed().standing();
        assert_eq!(standing.cells_from_memory, standing.cells, "{}", pack.key);
        let rules: Vec<_> = pack.summaries().into_iter().map(|rule| rule.id).collect();
        let ids: Vec<_> = rules.iter().map(String::as_str).collect();
        let signed = pack.clone().unconfirmed().checked_in_print(&ids).unwrap();
        assert_eq!(signed.standing().cells_from_memory, 0, "{}", pack.key);
    }
}

/// Every slip at once, each with its line; of an id that is there twice the second place.
#[test]
fn slips_are_named_by_line() {
    let more = "[[rule]]\nid = \"r\"\nclause = \"2\"\nvariable = \"volts\"\nconfidence = \"memory\"\nper = \"run\"\n\
                limit = \"same\"\n[[rule]]\nid = \"process\"\nclause = \"3\"\nvariable = \"process\"\n\
                confidence = \"memory\"\nper = \"test-piece\"\nlimit = \"same\"\n";
    let text = format!("{HEAD}{more}").replace("edition = \"1\"", "edition = \" \"");
    let slips = Pack::load(&text).unwrap_err();
    let found: Vec<_> = slips.iter().map(|slip| (slip.line, slip.field.as_str())).collect();
    // The head begins with an empty line: edition stands on line 5, the rules on 9, 16 and 23.
    assert_eq!(found, [(Some(5), "edition"), (Some(19), "variable"), (Some(24), "id")]);
    assert!(slips[1].to_string().starts_with("line 19: rule r, variable: "), "{}", slips[1]);
}

const HEAD: &str = r#"
key = "x"
title = "x"
code = "X"
edition = "1"
systems = ["metric"]
processes = ["135"]
sources = ["x"]
[[rule]]
id = "process"
clause = "1"
variable = "process"
confidence = "memory"
per = "test-piece"
limit = "same"
"#;

fn refused(rule: &str) -> (Option<String>, String, String) {
    let error = Pack::load(&format!("{HEAD}\n[[rule]]\n{rule}")).unwrap_err().remove(0);
    (error.rule, error.field, error.problem)
}

#[test]
fn a_slip_is_named_by_rule_and_field() {
    let rule = |variable: &str, per: &str, limit: &str| {
        format!(
            "id = \"r\"\nclause = \"2\"\nvariable = \"{variable}\"\nconfidence = \"memory\"\n\
             per = \"{per}\"\nlimit = {limit}"
        )
    };
    assert!(Pack::load(HEAD).is_ok());
    let table = |rows: &str| format!("{{ table = {{ by = \"t\", metric = [{rows}] }} }}");
    for (text, field, problem) in [
        (rule("volts", "run", "\"same\""), "variable", "is no variable"),
        (rule("voltage", "pass", "\"same\""), "per", "is no reach of a rule"),
        (rule("voltage", "test-piece", "{ percent = { plus = 1 } }"), "per", "not known per"),
        (rule("voltage", "run", "\"same\""), "limit", "does not fit voltage"),
        (rule("voltage", "run", "{ percent = { plus = -1 } }"), "limit", "zero or above"),
        (rule("preheat", "test-piece", "{ shift = { us = { minus = 1 } } }"), "limit", "metric"),
        (
            rule(
                "preheat",
                "test-piece",
                "{ shift = { metric = { minus = 1 }, us = { minus = 1 } } }",
            ),
            "limit",
            "leave out: us",
        ),
        (
            rule("parent-thickness", "test-piece", &table("{ up-to = 3, max = \"2 q\" }")),
            "limit",
            "none of t, s, a",
        ),
        (
            rule(
                "parent-thickness",
                "test-piece",
                &table("{ up-to = 3, max = \"2 t\" }, { from = 3, max = \"3 t\" }"),
            ),
            "limit",
            "overlap",
        ),
        (
            rule("parent-thickness", "test-piece", &table("{ from = 3, above = 3, max = \"t\" }")),
            "limit",
            "open or closed",
        ),
        (rule("weld", "test-piece", "{ coverage = { covers = {} } }"), "limit", "covers nothing"),
        (rule("position", "test-piece", "\"same\"").replace("\"2\"", "\"\""), "clause", "empty"),
    ] {
        let (rule, found, why) = refused(&text);
        assert_eq!((rule.as_deref(), found.as_str()), (Some("r"), field), "{text}");
        assert!(why.contains(problem), "{why}");
    }
    let twice = HEAD.split_once("[[rule]]").unwrap().1;
    assert_eq!(refused(twice).0.as_deref(), Some("process"));
    // An unknown field is refused by the format itself, with its place.
    let (_, field, why) = refused(&rule("voltage", "run", "\"same\"").replace("clause", "claus"));
    assert!(field == "file" && why.contains("claus"), "{why}");
}

#[test]
fn a_pack_that_lets_any_process_pass_is_refused() {
    let error =
        Pack::load(&HEAD.replace("\"process\"\nconf", "\"groove\"\nconf")).unwrap_err().remove(0);
    assert!(error.problem.contains("process"), "{error}");
}

/// The page that describes the format names every code a pack can use.
#[test]
fn the_format_page_is_complete() {
    use arcbounds::{
        qualify::{
            Allow, CountedFrom, PACK_FORMAT, PackRoute, Per, QualifiedVariable, SizeOf, Symbol,
            VariableClass,
        },
        trade::{Coded, Confidence},
    };
    fn codes<T: Coded>() -> Vec<&'static str> {
        T::ALL.iter().map(|(_, code)| *code).collect()
    }
    let all = [
        codes::<QualifiedVariable>(),
        codes::<VariableClass>(),
        codes::<Confidence>(),
        codes::<Per>(),
        codes::<CountedFrom>(),
        codes::<Allow>(),
        codes::<Symbol>(),
        codes::<PackRoute>(),
        codes::<SizeOf>(),
    ];
    for code in all.into_iter().flatten() {
        assert!(PACK_FORMAT.contains(&format!("`{code}`")), "{code}");
    }
    // Every kind of limit and every condition that the built-in packs use.
    for text in [
        include_str!("../../../src/qualify/packs/iso-15614-1-2017-level-2.toml"),
        include_str!("../../../src/qualify/packs/aws-d1.1-2015-tested.toml"),
        include_str!("../../../src/qualify/packs/asme-ix-2017.toml"),
        include_str!("../../../src/qualify/packs/aws-d1.1-2020-prequalified.toml"),
    ] {
        let words = text.split(|c: char| !(c.is_ascii_lowercase() || c == '-'));
        let fields = ["percent", "shift", "table", "fixed", "same-class", "ordered", "member-of"];
        let fields =
            fields.into_iter().chain(["coverage", "metal-pairs", "gas-window", "positions"]);
        let fields = fields.chain([
            "by-size",
            "spread",
            "tested",
            "stated",
            "run-thicker-than",
            "and-below",
            "for-weld",
        ]);
        let known: Vec<_> = fields.collect();
        for word in words.filter(|word| known.contains(word)) {
            assert!(PACK_FORMAT.contains(&format!("`{word}`")), "{word}");
        }
    }
}

/// A record keeps the rules of its own edition.
#[test]
fn a_record_is_judged_by_its_own_edition_only() {
    let mut old = iso_record();
    old.code.edition = "2004".to_owned();
    let refused = derive(&old, iso(), &demanding()).unwrap_err();
    let expected = CodeEdition { name: "ISO 15614-1".into(), edition: "2004".into() };
    assert!(matches!(refused, WrongPack::Edition { made_by, .. } if made_by == expected));
    assert!(derive(&aws_record(), iso(), &demanding()).is_err());
    assert!(derive(&iso_record(), aws(), &demanding()).is_err());
}

/// A test of level 1 does not serve level 2.
#[test]
fn level_one_does_not_serve_level_two() {
    for level in [Some(TestLevel::Level1), None] {
        let mut record = iso_record();
        record.level = level;
        let refused = derive(&record, iso(), &demanding()).unwrap_err();
        assert!(matches!(refused, WrongPack::Level { .. }), "{refused}");
    }
}
