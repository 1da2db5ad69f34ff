//! `arcbounds import`: records from a file, one JSON object a line, through the service's own API.
//!
//! # The form
//! Each line is one object; empty lines and lines that start with `#` are passed over.
//!
//! | member | meaning |
//! |---|---|
//! | `record` | `consumable`, `consumable-batch`, `procedure`, `qualification`, `station`, `welder` or `work-order` |
//! | `document` | the document, as the API takes it |
//! | `revise` | `true`: the record exists, and this is its next revision |
//! | `release` | procedures only: submit the revision and release it; an object as the API takes it, `{}` for at once |
//! | `sign` | procedures and qualification records: sign it with this statement; welders: sign the range of each qualification |
//! | `events` | batches only: what was done with their portions, each as the API takes it; now where no moment is stated |
//! | `reason` | with `revise`: why, which a signed qualification record needs |
//!
//! A bad line is refused with its number and reason; the others are loaded all the same.

mod client;
mod line;
mod outgoing;

use std::{error::Error, io::Read};

pub(crate) use outgoing::client as http_client;

use self::{client::Client, line::Line};
use crate::{config::ImportArgs, server::say};

type Failure = Box<dyn Error + Send + Sync>;

/// Keys of the two people an import acts for.
#[derive(Debug, Clone)]
pub struct Keys {
    /// Who writes.
    pub author: String,
    /// Who releases and signs.
    pub approver: Option<String>,
}

/// A line that was not loaded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// Number of the line, counted from 1.
    pub number: usize,
    /// Why.
    pub reason: String,
}

/// What became of an import.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Report {
    /// Lines loaded.
    pub loaded: usize,
    /// Lines refused.
    pub refused: Vec<Refused>,
}

/// Loads lines through the service at this address.
///
/// # Errors
/// When the client cannot be made. A service that does not answer refuses the lines.
pub async fn load<'a>(
    address: &str,
    keys: &Keys,
    lines: impl Iterator<Item = &'a str>,
) -> Result<Report, Failure> {
    let client = Client::new(address, keys)?;
    let mut report = Report::default();
    for (index, text) in lines.enumerate() {
        let text = text.trim();
        if text.is_empty() || text.starts_with('#') {
            continue;
        }
        match load_line(&client, text).await {
            Ok(()) => report.loaded += 1,
            Err(reason) => report.refused.push(Refused { number: index + 1, reason }),
        }
    }
    Ok(report)
}

async fn load_line(client: &Client, text: &str) -> Result<(), String> {
    let line = Line::read(text)?;
    let code = line.code()?.to_owned();
    if line.revise {
        let reason = line.reason.as_deref();
        client.revise(line.path(), &code, &line.document, reason).await?;
    } else {
        client.create(line.path(), &line.document).await?;
    }
    let record = format!("{}/{code}", line.path());
    for event in &line.events {
        client.add(&format!("{record}/events"), event).await?;
    }
    if let Some(release) = &line.release {
        client.step(&record, "submission", None, client::Who::Author).await?;
        client.step(&record, "release", Some(release), client::Who::Approver).await?;
    }
    if let (Some(statement), Some(ids)) = (&line.sign, line.qualifications()) {
        for id in ids {
            client.sign_range(&code, id, statement).await?;
        }
    } else if let Some(statement) = &line.sign {
        let body = serde_json::json!({ "statement": statement });
        client.step(&record, line.signature(), Some(&body), client::Who::Approver).await?;
    }
    Ok(())
}

/// `arcbounds import`
///
/// # Errors
/// When the file cannot be read, or any line was refused.
pub async fn run(args: &ImportArgs) -> Result<(), Failure> {
    let text = if args.file.as_os_str() == "-" {
        let mut text = String::new();
        std::io::stdin().read_to_string(&mut text)?;
        text
    } else {
        std::fs::read_to_string(&args.file)
            .map_err(|error| format!("cannot read {}: {error}", args.file.display()))?
    };
    let keys = Keys { author: args.author_key.clone(), approver: args.approver_key.clone() };
    let report = load(&args.address, &keys, text.lines()).await?;
    say(&format!("Loaded {} lines, refused {}.", report.loaded, report.refused.len()));
    for line in &report.refused {
        say(&format!("line {}: {}", line.number, line.reason));
    }
    if report.refused.is_empty() { Ok(()) } else { Err("some lines were refused".into()) }
}
