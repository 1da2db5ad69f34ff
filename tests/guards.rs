//! The fence around the pure core: no I/O, no clock, no web, no database, and no arrow that points outwards. SQL stays
//! where it is looked for.

#![expect(clippy::unwrap_used, reason = "helpers of tests fail the test")]

use std::{
    fs,
    path::{Path, PathBuf},
};

/// Folders of the core, each with the modules of this crate that it may use.
const CORE: &[(&str, &[&str])] = &[
    ("quantity", &["quantity"]),
    ("trade", &["quantity", "trade"]),
    ("qualify", &["quantity", "trade", "qualify"]),
    ("check", &["quantity", "trade", "qualify", "check"]),
    ("window", &["quantity", "trade", "check", "window"]),
];

/// Files with SQL that are no `store.rs`: the database's own, and queries that a concept of its own consists of.
const SQL: &[&str] = &[
    "audit/beside.rs",
    "audit/find.rs",
    "database/audit.rs",
    "database/private/roles.rs",
    "database/tenant.rs",
];

/// Words that no code of the core may contain.
const FORBIDDEN: &[&str] = &[
    "axum",
    "sqlx",
    "tokio",
    "serde_json",
    "utoipa",
    "SystemTime",
    "Instant",
    "now_utc",
    "std::fs",
    "std::net",
    "std::env",
    "async",
];

#[test]
fn the_core_has_no_shell_in_it() {
    for (folder, may_use) in CORE {
        let files = rust_files(&source().join(folder));
        assert!(files.len() > 10, "only {} files found in {folder}", files.len());
        for file in files {
            let text = fs::read_to_string(&file).unwrap();
            assert_eq!(offences(&text), Vec::<String>::new(), "{}", file.display());
            let beyond: Vec<_> =
                used(&text).into_iter().filter(|name| !may_use.contains(&name.as_str())).collect();
            assert_eq!(beyond, Vec::<String>::new(), "{}", file.display());
        }
    }
}

#[test]
fn sql_stands_in_stores() {
    let asks = |file: &Path| {
        let code = without_comments(&fs::read_to_string(file).unwrap());
        ["query", "query_as", "query_scalar"]
            .iter()
            .any(|name| code.contains(&format!("sqlx::{name}(")))
    };
    let found: Vec<_> = rust_files(&source()).into_iter().filter(|file| asks(file)).collect();
    assert!(found.len() > SQL.len() + 5, "only {} files with SQL found", found.len());
    let mut elsewhere: Vec<_> = found
        .iter()
        .filter(|file| !file.ends_with("store.rs"))
        .map(|file| file.strip_prefix(source()).unwrap().to_str().unwrap())
        .collect();
    elsewhere.sort_unstable();
    assert_eq!(elsewhere, SQL);
}

fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Modules of this crate that a text uses: what follows `crate::`, alone or in braces.
fn used(text: &str) -> Vec<String> {
    let code = without_comments(text);
    let mut names = Vec::new();
    for after in code.split("crate::").skip(1) {
        let Some(group) = after.strip_prefix('{') else {
            names.push(first_name(after));
            continue;
        };
        let (mut depth, mut starts) = (0, true);
        for (at, c) in group.char_indices() {
            match c {
                '}' if depth == 0 => break,
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 0 => starts = true,
                c if c.is_alphabetic() && starts => {
                    names.push(first_name(&group[at..]));
                    starts = false;
                }
                _ => {}
            }
        }
    }
    // What the crate itself gives is no module: its macros and types are named by who makes them.
    names.retain(|name| name.starts_with(char::is_lowercase));
    names
}

fn first_name(text: &str) -> String {
    text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

/// Lines of code with a forbidden word.
fn offences(text: &str) -> Vec<String> {
    let code = without_comments(text);
    // `use std::{fs, path::Path};` hides a path behind a brace.
    let grouped = code.split("use std::{").skip(1).filter_map(|rest| rest.split(';').next());
    let hidden = grouped.filter(|group| ["fs", "net", "env"].iter().any(|word| has(group, word)));
    let hidden = hidden.map(|group| format!("use std::{{{group}"));
    let plain = code.lines().filter(|line| FORBIDDEN.iter().any(|word| has(line, word)));
    plain.map(str::to_owned).chain(hidden).collect()
}

/// Whether a line has the word, not as a part of a longer one.
fn has(line: &str, word: &str) -> bool {
    let is_part = |c: char| c.is_alphanumeric() || c == '_';
    line.match_indices(word).any(|(at, _)| {
        let (before, after) = (&line[..at], &line[at + word.len()..]);
        !before.ends_with(is_part) && !after.starts_with(is_part)
    })
}

/// The text without line comments; `//` inside a string counts as a comment too, which can only
/// hide the rest of that line.
fn without_comments(text: &str) -> String {
    let lines = text.lines().map(|line| line.split_once("//").map_or(line, |(code, _)| code));
    lines.collect::<Vec<_>>().join("\n")
}

fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries
        .flat_map(|path| {
            if path.is_dir() {
                rust_files(&path)
            } else {
                Vec::from_iter((path.extension().is_some_and(|end| end == "rs")).then_some(path))
            }
        })
        .collect()
}

#[test]
fn the_fence_sees_what_it_should() {
    for code in [
        "use axum::Router;",
        "    let now = std::time::Instant::now();",
        "use std::time::{Duration, SystemTime};",
        "let value: serde_json::Value = x; // a comment",
        "use std::{collections::HashMap, env};",
        "use std::{\n    fs,\n    path::Path,\n};",
        "let path = std::env::var(\"X\");",
        "pub async fn run() {}",
    ] {
        assert!(!offences(code).is_empty(), "{code}");
    }
    for code in
        ["/// tokio is not for here", "let instantaneous = 1; // axum", "use std::{fmt, cmp};"]
    {
        assert!(offences(code).is_empty(), "{code}");
    }
}

#[test]
fn the_fence_sees_what_a_text_uses() {
    let code = "use crate::{\n    check::{Book, wire::Node},\n    http,\n};\nfn a(_: crate::wire::Ready) {} // crate::audit";
    assert_eq!(used(code), ["check", "http", "wire"]);
}
