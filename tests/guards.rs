//! The fence around the pure core: no I/O, no clock, no web, no database.

#![expect(clippy::unwrap_used, reason = "helpers of tests fail the test")]

use std::{
    fs,
    path::{Path, PathBuf},
};

/// Folders of the core, those that exist.
const CORE: &[&str] = &["quantity", "trade", "qualify", "window", "check"];

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
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let folders = CORE.iter().map(|folder| source.join(folder)).filter(|folder| folder.exists());
    let files: Vec<_> = folders.flat_map(|folder| rust_files(&folder)).collect();
    assert!(files.len() > 40, "only {} files found", files.len());
    for file in files {
        let text = fs::read_to_string(&file).unwrap();
        assert_eq!(offences(&text), Vec::<String>::new(), "{}", file.display());
    }
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
