//! The README's fenced blocks: requests marked `sh tour`, each with the `json status=…` behind it.

use std::{fs, path::Path};

/// A request of the README with the answer it promises.
#[derive(Debug)]
pub struct Stop {
    /// Line of the README the request starts at.
    pub line: usize,
    /// The shell command.
    pub command: String,
    /// Status promised.
    pub status: u16,
    /// `ETag` promised, where it is.
    pub etag: Option<String>,
    /// Members promised; several for an answer of several lines.
    pub answers: Vec<serde_json::Value>,
}

struct Block {
    line: usize,
    info: String,
    text: String,
}

/// The README.
pub fn readme() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).unwrap()
}

/// Every stop of the tour, in order.
pub fn stops(text: &str) -> Vec<Stop> {
    let blocks = blocks(text);
    let mut stops = Vec::new();
    for (index, block) in blocks.iter().enumerate() {
        if block.info != "sh tour" {
            continue;
        }
        let answer = blocks.get(index + 1);
        let answer = answer.filter(|answer| answer.info.starts_with("json status="));
        let answer =
            answer.unwrap_or_else(|| panic!("README line {}: no answer follows", block.line));
        let given = |name: &str| {
            let mut words = answer.info.split_whitespace();
            words.find_map(|word| word.strip_prefix(name)).map(str::to_owned)
        };
        let answers: Vec<_> = serde_json::Deserializer::from_str(&answer.text)
            .into_iter()
            .collect::<Result<_, _>>()
            .unwrap_or_else(|error| panic!("README line {}: {error}", answer.line));
        stops.push(Stop {
            line: block.line,
            command: block.text.clone(),
            status: given("status=").unwrap().parse().unwrap(),
            etag: given("etag="),
            answers,
        });
    }
    stops
}

fn blocks(text: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut open: Option<Block> = None;
    for (index, line) in text.lines().enumerate() {
        match (line.strip_prefix("```"), &mut open) {
            (Some(info), None) => {
                let info = info.trim().to_owned();
                open = Some(Block { line: index + 1, info, text: String::new() });
            }
            (Some(_), Some(_)) => blocks.extend(open.take()),
            (None, Some(block)) => {
                block.text.push_str(line);
                block.text.push('\n');
            }
            (None, None) => {}
        }
    }
    assert!(open.is_none(), "a block of the README is not closed");
    blocks
}

#[test]
fn a_request_goes_with_the_answer_behind_it() {
    let text = "```sh\nother\n```\n```sh tour\ncurl x\n```\ntext\n```json status=412 etag=v4\n{\"a\": 1}\n{}\n```\n";
    let stops = stops(text);
    let [stop] = &stops[..] else { panic!("{stops:?}") };
    assert_eq!((stop.line, stop.command.as_str(), stop.status), (4, "curl x\n", 412));
    assert_eq!(stop.etag.as_deref(), Some("v4"));
    assert_eq!(stop.answers.len(), 2);
}

/// Where a link of the README points to exists.
#[test]
fn every_file_the_readme_links_to_exists() {
    let text = readme();
    let targets: Vec<_> =
        text.split("](").skip(1).map(|rest| rest.split(')').next().unwrap()).collect();
    assert!(targets.len() > 5, "{targets:?}");
    for target in targets {
        assert!(Path::new(env!("CARGO_MANIFEST_DIR")).join(target).exists(), "{target}");
    }
}
