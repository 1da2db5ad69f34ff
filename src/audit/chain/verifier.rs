//! Walks a chain line by line.

use std::collections::HashSet;

use serde::Deserialize;
use serde_json::Value;

use super::{
    fault::{Fault, FaultKind},
    line::{EntryLine, Named, Place, mention},
};
use crate::database::document_hash;

/// Most faults that are told; the others are counted.
const MOST_FAULTS: usize = 1000;

/// Where a head that was kept from before was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeptHeadFound {
    /// In the chain.
    Yes,
    /// The chain has another entry there, or ends before it.
    No,
    /// Its number lies outside of the part that was walked.
    OutsidePart,
}

/// A head that was kept from before, and where it was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptHead {
    /// The head.
    pub place: Place,
    /// Where it was found.
    pub found: KeptHeadFound,
}

/// What a walk proved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Proved {
    /// Entries walked.
    pub entries: i64,
    /// Documents whose hash was taken again.
    pub documents: i64,
    /// Documents that are named only: attachments, and settings that were changed since.
    pub named_only: i64,
    /// Number of the first entry expected.
    pub first: i64,
    /// The last entry met.
    pub last: Place,
    /// Heads kept from before.
    pub kept: Vec<KeptHead>,
    /// What is wrong.
    pub faults: Vec<Fault>,
    /// Faults beyond those that are told.
    pub more_faults: i64,
}

/// The members of an entry that the walk reads; its hash covers others besides.
#[derive(Debug, Deserialize)]
struct Read {
    number: i64,
    action: String,
    kind: String,
    subject: String,
    revision: Option<i64>,
    document: Option<String>,
    details: Option<String>,
    changes_rules: bool,
    previous: String,
}

impl Read {
    fn fault(&self, kind: FaultKind, detail: impl Into<String>) -> Fault {
        Fault::new(kind, detail).at(self.number).about(&self.kind, &self.subject, self.revision)
    }
}

/// Walks the lines of a chain, in their order.
#[derive(Debug)]
pub struct Verifier {
    proved: Proved,
    /// Documents that an entry has named.
    mentioned: HashSet<[u8; 32]>,
    /// Number of the last entry that changed the rules.
    rulebook_version: i64,
}

impl Verifier {
    /// A walk that starts after this place, which also looks for heads kept from before.
    #[must_use]
    pub fn after(place: Place, kept: Vec<Place>) -> Self {
        let found = |head: Place| {
            let at_start = head == place;
            let found = if at_start { KeptHeadFound::Yes } else { KeptHeadFound::No };
            KeptHead { place: head, found }
        };
        let proved = Proved {
            entries: 0,
            documents: 0,
            named_only: 0,
            first: place.number + 1,
            kept: kept.into_iter().map(found).collect(),
            last: place,
            faults: Vec::new(),
            more_faults: 0,
        };
        Self { proved, mentioned: HashSet::new(), rulebook_version: 0 }
    }

    /// Notes a fault that something else found.
    pub fn note(&mut self, fault: Fault) {
        if self.proved.faults.len() < MOST_FAULTS {
            self.proved.faults.push(fault);
        } else {
            self.proved.more_faults += 1;
        }
    }

    /// The last entry met.
    #[must_use]
    pub const fn last(&self) -> &Place {
        &self.proved.last
    }

    /// Number of the last entry met that changed the rules.
    #[must_use]
    pub const fn rulebook_version(&self) -> i64 {
        self.rulebook_version
    }

    /// Takes the next line.
    pub fn entry(&mut self, line: &EntryLine) {
        self.proved.entries += 1;
        let Ok(read) = Read::deserialize(&line.entry) else {
            let next = self.proved.last.number + 1;
            let detail = "the entry lacks members that every entry has";
            self.note(Fault::new(FaultKind::EntryAltered, detail).at(next));
            return;
        };
        let hash = hex::encode(document_hash(&line.entry));
        if hash != line.hash {
            let detail = format!(
                "{} of {} {}: it was written as something else; its contents have the hash {hash}, it was kept as {}",
                read.action, read.kind, read.subject, line.hash
            );
            self.note(read.fault(FaultKind::EntryAltered, detail));
        }
        for kept in &mut self.proved.kept {
            if kept.place.number == read.number {
                let same = kept.place.hash == hash;
                kept.found = if same { KeptHeadFound::Yes } else { KeptHeadFound::No };
            }
        }
        self.follow(&read, &line.hash);
        self.details(&read, line.details.as_ref());
        self.document(&read, line.document.as_ref());
    }

    /// Whether an entry follows the one before it.
    fn follow(&mut self, read: &Read, hash: &str) {
        let expected = self.proved.last.number + 1;
        if read.number < expected {
            let detail = format!("entry {expected} was due here");
            self.note(read.fault(FaultKind::EntryOutOfOrder, detail));
            return;
        }
        if read.number > expected {
            let detail = match read.number - 1 {
                last if last == expected => format!("entry {expected} is missing"),
                last => format!("entries {expected} to {last} are missing"),
            };
            self.note(Fault::new(FaultKind::EntryMissing, detail).at(expected));
        } else if read.previous != self.proved.last.hash {
            let detail = format!(
                "it was written after an entry {} with the hash {}; the one there now has {}",
                self.proved.last.number, read.previous, self.proved.last.hash
            );
            self.note(read.fault(FaultKind::LinkBroken, detail));
        }
        if read.changes_rules {
            self.rulebook_version = read.number;
        }
        self.proved.last = Place { number: read.number, hash: hash.to_owned() };
    }

    fn details(&mut self, read: &Read, details: Option<&Value>) {
        let fault = match (&read.details, details) {
            (None, None) => return,
            (Some(named), Some(details)) => {
                let hash = hex::encode(document_hash(details));
                if *named == hash {
                    return;
                }
                let detail = format!("the details have the hash {hash}, the entry names {named}");
                (FaultKind::DetailsAltered, detail)
            }
            (Some(named), None) => {
                (FaultKind::DetailsMissing, format!("the details {named} are not there"))
            }
            (None, Some(_)) => {
                (FaultKind::DetailsAltered, "there are details that the entry does not name".into())
            }
        };
        self.note(read.fault(fault.0, fault.1));
    }

    fn document(&mut self, read: &Read, document: Option<&Value>) {
        let what = Named::of(&read.action, &read.kind, read.document.is_some());
        let Some(named) = &read.document else {
            if document.is_some() {
                let detail = "there is a document that the entry does not name";
                self.note(read.fault(FaultKind::DocumentAltered, detail));
            }
            return;
        };
        // Each kept check is named once; the others are remembered, since later steps name them again.
        let new = what != Named::Revision
            || self.mentioned.insert(mention(&read.kind, &read.subject, read.revision, named));
        if let Some(document) = document {
            self.proved.documents += 1;
            let hash = hex::encode(document_hash(document));
            if hash != *named {
                let detail = format!("the document has the hash {hash}, the entry names {named}");
                self.note(read.fault(FaultKind::DocumentAltered, detail));
            }
        } else if matches!(what, Named::Settings | Named::Attachment) {
            self.proved.named_only += 1;
        } else if new {
            let detail = format!("the document {named} is not there");
            self.note(read.fault(FaultKind::DocumentMissing, detail));
        }
    }

    /// Ends the walk of a chain that is known to end here.
    pub fn ends_at(&mut self, known: &Place, who: &str) {
        let last = self.proved.last.clone();
        if last.number < known.number {
            let detail = format!(
                "the last entry is {}; {who} says that there are entries up to {}",
                last.number, known.number
            );
            self.note(Fault::new(FaultKind::ChainCutOff, detail).at(last.number + 1));
        } else if last != *known {
            let detail = format!(
                "{who} says {} with the hash {}; the last entry is {} with the hash {}",
                known.number, known.hash, last.number, last.hash
            );
            self.note(Fault::new(FaultKind::HeadAltered, detail).at(last.number));
        }
    }

    /// What was proved. Of a part, a head outside of it cannot be judged.
    #[must_use]
    pub fn proved(mut self, is_part: bool) -> Proved {
        let (first, last) = (self.proved.first, self.proved.last.number);
        let mut faults = Vec::new();
        for kept in &mut self.proved.kept {
            let number = kept.place.number;
            let outside = is_part && (number < first || number > last);
            match kept.found {
                KeptHeadFound::No if outside => kept.found = KeptHeadFound::OutsidePart,
                KeptHeadFound::No => faults.push(not_in_chain(&kept.place, last)),
                _ => {}
            }
        }
        for fault in faults {
            self.note(fault);
        }
        self.proved
    }
}

fn not_in_chain(kept: &Place, last: i64) -> Fault {
    let detail = if kept.number > last {
        format!("the chain ends at entry {last}: it was shortened since this head was kept")
    } else {
        format!(
            "entry {} does not have the hash {}: the chain was rewritten since this head was kept, or it is the \
             head of another chain",
            kept.number, kept.hash
        )
    };
    Fault::new(FaultKind::HeadNotInChain, detail).at(kept.number)
}
