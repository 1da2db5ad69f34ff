//! What stands behind the revision: its support, who wrote and released it, and its place in the audit chain.

use time::{OffsetDateTime, UtcOffset, macros::format_description};

use super::{
    gather::Gathered,
    say::{self, Part},
};
use crate::{
    procedures::{JudgedAtRelease, SupportKind, support::RecordJudgedBy},
    sheet::{Section, Table},
};

/// What qualifies the procedure, and how it was judged.
pub(super) fn support(gathered: &Gathered) -> Section {
    let own = &gathered.document.support;
    let mut part = Part::new("Support", Some("ISO 15609-1:2019, 4.2"));
    part.also("Kind", Some(say::words(own.kind)));
    part.fact("Way of qualification", own.route.map(say::words));
    part.also("Declaration", own.statement.clone());
    match &gathered.judged {
        Some(judged) => judgement(&mut part, judged),
        None if own.kind == SupportKind::Records => {
            part.also("Records", say::listed(own.records.iter().map(ToString::to_string)));
            part.also(
                "Judgement",
                Some("none yet: the records are judged at the release".to_owned()),
            );
        }
        None => {}
    }
    let signer = gathered.standing.signed_by.map(|person| gathered.name(person));
    let unsigned = if gathered.needs_signature() { "nobody yet" } else { "not needed" };
    part.also("Support signed by", Some(signer.unwrap_or_else(|| unsigned.to_owned())));
    part.end()
}

fn judgement(part: &mut Part, judged: &JudgedAtRelease) {
    let record = |own: &RecordJudgedBy| {
        format!("{} revision {}, document {}", own.record, own.revision, own.document_hash)
    };
    part.also("Rules", Some(judged.rules.clone()));
    part.also("Ruling at the release", Some(judged.ruling.replace('-', " ")));
    part.also("Records", Some(lines(judged.records.iter().map(record))));
    part.also("Test pieces", say::listed(judged.pieces.clone()));
    part.also("Inside these clauses", say::listed(judged.clauses.clone()));
    if !judged.not_judged.is_empty() {
        let open = judged.not_judged.iter().map(|one| format!("{}: {}", one.clause, one.missing));
        part.also("Not judged", Some(lines(open)));
    }
    if judged.rests_on_memory {
        let words = "a clause was only remembered; compare it with the printed code";
        part.also("Rests on memory", Some(words.to_owned()));
    }
}

fn lines(texts: impl Iterator<Item = String>) -> String {
    texts.collect::<Vec<_>>().join("\n")
}

/// Who wrote, reviewed, released and signed, and when.
pub(super) fn approvals(gathered: &Gathered) -> Section {
    let mut table =
        Table::new(&[("Step", 16), ("Who", 24), ("As", 12), ("When (UTC)", 18), ("Words", 34)]);
    let mut steps = Vec::new();
    for edit in &gathered.edits {
        let step =
            if edit.edit == 1 { "written".to_owned() } else { format!("edit {}", edit.edit) };
        steps.push((edit.created_at, step, edit.author_id, "author", edit.reason.clone()));
    }
    for event in &gathered.events {
        let role = if event.event == "submitted" { "author" } else { "approver" };
        let step = event.event.replace('-', " ");
        steps.push((event.at, step, Some(event.person_id), role, event.reason.clone()));
    }
    steps.sort_by_key(|step| step.0);
    for (at, step, person, role, words) in steps {
        let who = person.map(|person| gathered.name(person)).unwrap_or_default();
        table.row(&[&step, &who, role, &moment(at), &words.unwrap_or_default()]);
    }
    let mut section = Section::new("Written and approved", None);
    section.table(table);
    section
}

/// The document's hash and its release in the audit chain.
pub(super) fn chain(gathered: &Gathered) -> Section {
    let mut section = Section::new("This sheet", None);
    section.fact("Document (SHA-256)", &hex::encode(&gathered.stored.document_hash));
    match &gathered.released {
        Some(entry) => {
            let entry = format!(
                "entry {}, {}, hash {}",
                entry.number,
                moment(entry.at),
                hex::encode(&entry.hash)
            );
            section.fact("Release in the audit chain", &entry);
        }
        None => section.fact("Release in the audit chain", "none: it was never released"),
    }
    let (held, _) = super::compose::code_text(gathered);
    section.fact("The code above holds", &held);
    section.words(
        "This sheet shows the revision as it stood when it was printed. A paper does not learn of a withdrawal: \
         ask the record before welding. The signed document counts, not the paper.",
    );
    section
}

/// A moment in UTC, to the minute.
pub(super) fn moment(at: OffsetDateTime) -> String {
    let format = format_description!("[year]-[month]-[day] [hour]:[minute]");
    at.to_offset(UtcOffset::UTC).format(format).unwrap_or_default()
}
