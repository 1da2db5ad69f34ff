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
//! A bad line is refused with its number and reason; the others are loaded all the same. What can be known to be
//! wrong is known before the line's first write. Where the service refuses a later step, the reason says what was
//! written; importing the same line again goes on from there, and what stands already is not written again.

mod client;
mod later;
mod line;
mod outgoing;
mod resume;

use std::{error::Error, fmt, io::Read};

pub(crate) use outgoing::client as http_client;

use self::{
    client::{Client, Who},
    later::Later,
    line::Line,
    resume::{Standing, Written},
};
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
    /// Lines whose record stands already as they say.
    pub there_already: usize,
    /// Lines refused.
    pub refused: Vec<Refused>,
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { loaded, there_already, refused } = self;
        write!(f, "Loaded {loaded} lines, ")?;
        if *there_already > 0 {
            write!(f, "{there_already} were there already, ")?;
        }
        write!(f, "refused {}.", refused.len())
    }
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
    let mut written = Written::default();
    for (index, text) in lines.enumerate() {
        let text = text.trim();
        if text.is_empty() || text.starts_with('#') {
            continue;
        }
        match load_line(&client, &mut written, text).await {
            Ok(true) => report.loaded += 1,
            Ok(false) => report.there_already += 1,
            Err(reason) => report.refused.push(Refused { number: index + 1, reason }),
        }
    }
    Ok(report)
}

/// Whether anything had to be written.
async fn load_line(client: &Client, written: &mut Written, text: &str) -> Result<bool, String> {
    let line = Line::read(text)?;
    if line.later.iter().any(Later::takes_approver) && !client.has_approver() {
        return Err("this line needs the approver's key. Nothing was written.".to_owned());
    }
    let standing = written.write(client, &line).await?;
    let left = standing.left(client, &line).await?;
    let mut done = Vec::new();
    for step in &left {
        if let Err(reason) = take(client, &line, &standing, step).await {
            return Err(format!("{reason} {}", standing.so_far(&done, step)));
        }
        done.push(step.done());
    }
    Ok(standing.fresh || !done.is_empty())
}

async fn take(client: &Client, line: &Line, at: &Standing, step: &Later) -> Result<(), String> {
    let record = &at.record;
    match step {
        Later::Note(event) => client.add(&format!("{record}/events"), event).await.map(drop),
        Later::Submit => client.step(record, "submission", None, Who::Author).await,
        Later::Release(release) => {
            client.step(record, "release", Some(release), Who::Approver).await
        }
        Later::Sign(statement) => {
            let mut body = serde_json::json!({ "statement": statement });
            if line.signature() == "support-signature" {
                body["revision"] = at.revision.into();
            }
            client.step(record, line.signature(), Some(&body), Who::Approver).await
        }
        Later::SignRange { qualification, statement } => {
            client.sign_range(line.code()?, qualification, statement).await
        }
    }
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
    say(&report.to_string());
    for line in &report.refused {
        say(&format!("line {}: {}", line.number, line.reason));
    }
    if report.refused.is_empty() { Ok(()) } else { Err("some lines were refused".into()) }
}
