//! `arcbounds verify-audit`: proves an export without a database.

use std::{
    fs::File,
    io::{self, BufRead, BufReader, Read},
    path::Path,
    process::ExitCode,
};

use serde::Deserialize;
use serde_json::Value;

use super::chain::{
    Closing, EntryLine, FORM, Fault, FaultKind, KeptHeadFound, Opening, Place, Proved, Verifier,
};
use crate::{
    config::VerifyAuditArgs,
    server::say,
    wire::{Unread, read_text},
};

/// Longest line that is read: a document has at most a mebibyte, a kept check somewhat more.
const LONGEST_LINE: u64 = 64 * 1024 * 1024;

/// Exit code for a chain with faults.
const FAULTY: u8 = 1;

/// Exit code for a file that is no export.
const UNREADABLE: u8 = 2;

/// What a file proved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outcome {
    /// What the file says it is.
    pub opening: Opening,
    /// What was proved, and what is wrong.
    pub proved: Proved,
}

/// Why a file is no export that can be read.
#[derive(Debug, thiserror::Error)]
pub enum Unreadable {
    /// The system cannot read it.
    #[error("cannot read the file")]
    Io(#[from] io::Error),
    /// Its first line is no opening.
    #[error("this is no export of an audit chain: the first line has no opening")]
    NoOpening,
    /// It has a form that this program does not know.
    #[error("the export has form {0}; this program knows form {FORM}")]
    Form(u32),
}

/// Any line but the first.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Line {
    Entry(EntryLine),
    Closing { closing: Closing },
}

/// The first line.
#[derive(Debug, Deserialize)]
struct First {
    opening: Opening,
}

/// Proves an export, whatever its length with one line of it in memory. Heads kept from before are looked for.
///
/// # Errors
/// When it cannot be read at all. Whatever else is wrong is a fault.
pub fn prove_file(mut file: impl BufRead, kept: Vec<Place>) -> Result<Outcome, Unreadable> {
    let mut text = Vec::new();
    next_line(&mut file, &mut text)?;
    let opening = read_opening(&text)?;
    let mut verifier = Verifier::after(opening.after.clone(), kept);
    let (mut number, mut closing) = (1, None);
    while next_line(&mut file, &mut text)? {
        number += 1;
        let unreadable = |detail: &str| {
            Fault::new(FaultKind::LineUnreadable, format!("line {number}: {detail}"))
        };
        match serde_json::from_slice::<Line>(&text) {
            // A reader that takes the first of two would see another entry than the one that is hashed.
            _ if matches!(read_text(&text), Err(Unread::Doubled(_))) => {
                verifier.note(unreadable("a member is given more than once"));
            }
            _ if closing.is_some() => {
                verifier.note(unreadable("it comes after the closing of the file"));
                break;
            }
            Ok(Line::Entry(line)) => verifier.entry(&line),
            Ok(Line::Closing { closing: last }) => closing = Some(last),
            Err(_) => verifier.note(unreadable("it is neither an entry nor the closing")),
        }
    }
    end(&mut verifier, &opening, closing.as_ref());
    let proved = verifier.proved(opening.is_part());
    Ok(Outcome { opening, proved })
}

/// Reads one line; false at the end of the file.
fn next_line(file: &mut impl BufRead, text: &mut Vec<u8>) -> Result<bool, Unreadable> {
    text.clear();
    file.take(LONGEST_LINE).read_until(b'\n', text)?;
    if text.len() as u64 == LONGEST_LINE {
        let long = format!("a line has more than {LONGEST_LINE} bytes");
        return Err(io::Error::new(io::ErrorKind::InvalidData, long).into());
    }
    Ok(!text.is_empty())
}

fn read_opening(text: &[u8]) -> Result<Opening, Unreadable> {
    let value: Value = serde_json::from_slice(text).map_err(|_| Unreadable::NoOpening)?;
    let form = value.pointer("/opening/form").and_then(Value::as_u64);
    match form.map(|form| u32::try_from(form).unwrap_or(u32::MAX)) {
        Some(FORM) => {}
        Some(other) => return Err(Unreadable::Form(other)),
        None => return Err(Unreadable::NoOpening),
    }
    let first: First = serde_json::from_value(value).map_err(|_| Unreadable::NoOpening)?;
    Ok(first.opening)
}

/// Holds the end of the file against what its opening and its closing say.
fn end(verifier: &mut Verifier, opening: &Opening, closing: Option<&Closing>) {
    match closing {
        None => {
            let detail = format!(
                "the file breaks off: it has no closing, and its opening says that it goes to entry {}",
                opening.last
            );
            let next = verifier.last().number + 1;
            verifier.note(Fault::new(FaultKind::ChainCutOff, detail).at(next));
            return;
        }
        Some(closing) => verifier.ends_at(&closing.last, "the closing of the file"),
    }
    if !opening.is_part() {
        verifier.ends_at(&opening.head, "the opening of the file");
    } else if verifier.last().number < opening.last {
        let end = Place { number: opening.last, hash: String::new() };
        verifier.ends_at(&end, "the opening of the file");
    }
}

/// `arcbounds verify-audit`: tells what was proved, and gives the exit code.
#[must_use]
pub fn run(args: &VerifyAuditArgs) -> ExitCode {
    let kept: Vec<_> = args.head.clone();
    let outcome = match read(&args.file, kept) {
        Ok(outcome) => outcome,
        Err(error) => {
            say(&format!("unreadable: {}", with_cause(&error)));
            return ExitCode::from(UNREADABLE);
        }
    };
    tell(&outcome);
    if outcome.proved.faults.is_empty() { ExitCode::SUCCESS } else { ExitCode::from(FAULTY) }
}

fn read(file: &Path, kept: Vec<Place>) -> Result<Outcome, Unreadable> {
    if file.as_os_str() == "-" {
        return prove_file(io::stdin().lock(), kept);
    }
    prove_file(BufReader::new(File::open(file)?), kept)
}

fn with_cause(error: &Unreadable) -> String {
    match error {
        Unreadable::Io(cause) => format!("{error}: {cause}"),
        _ => error.to_string(),
    }
}

fn tell(Outcome { opening, proved }: &Outcome) {
    for fault in &proved.faults {
        say(&fault.to_string());
    }
    if proved.more_faults > 0 {
        say(&format!("and {} more faults", proved.more_faults));
    }
    for kept in &proved.kept {
        let Place { number, hash } = &kept.place;
        say(&match kept.found {
            KeptHeadFound::Yes => format!("contains the head {number}:{hash}"),
            KeptHeadFound::No => format!("does not contain the head {number}:{hash}"),
            KeptHeadFound::OutsidePart => {
                format!("cannot say whether it contains the head {number}: it is a part")
            }
        });
    }
    let state = if proved.faults.is_empty() { "whole" } else { "faulty" };
    let part = if opening.is_part() {
        format!(
            ", a part: entries {} to {} of {}",
            opening.first, opening.last, opening.head.number
        )
    } else {
        String::new()
    };
    say(&format!(
        "{state}{part}\norganisation {}, exported {}\nentries {}, documents {}, named by their hash only {}\nhead {}:{}",
        opening.organisation,
        opening.made_at,
        proved.entries,
        proved.documents,
        proved.named_only,
        proved.last.number,
        proved.last.hash
    ));
    if proved.kept.is_empty() {
        say("Hold the head against one that was kept elsewhere: --head NUMBER:HASH");
    }
}
