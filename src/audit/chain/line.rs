//! The lines of an export: an opening, one line for each entry, a closing.

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use utoipa::ToSchema;

use crate::database::canonical_bytes;

/// Version of this form.
pub const FORM: u32 = 1;

/// A place in the chain: the number of an entry and its hash in hexadecimal. Before the first entry stands
/// number zero with 64 zeros.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Place {
    /// Number of the entry.
    pub number: i64,
    /// Its hash.
    pub hash: String,
}

impl Place {
    /// Where every chain starts.
    #[must_use]
    pub fn start() -> Self {
        Self { number: 0, hash: "0".repeat(64) }
    }
}

/// The first line: what the file is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Opening {
    /// Version of the form of the file.
    pub form: u32,
    /// Id of the organisation.
    pub organisation: String,
    /// When the export was made (RFC 3339).
    pub made_at: String,
    /// Number of the first entry in it.
    pub first: i64,
    /// Number of the last entry in it.
    pub last: i64,
    /// What lies before the first entry.
    pub after: Place,
    /// The last entry of the chain then.
    pub head: Place,
}

impl Opening {
    /// Whether the file is a part of the chain.
    #[must_use]
    pub const fn is_part(&self) -> bool {
        self.first != 1 || self.last != self.head.number
    }
}

/// The line of one entry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct EntryLine {
    /// The object whose RFC 8785 bytes are hashed.
    #[schema(value_type = Object)]
    pub entry: Value,
    /// SHA-256 of those bytes, in hexadecimal.
    pub hash: String,
    /// What the hash in the entry's `details` is taken over: what was written beside the document.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<Object>)]
    pub details: Option<Value>,
    /// What the hash in the entry's `document` is taken over, where the entry is the first in the file to name
    /// it. The bytes of attachments are not in the file, nor are settings that were changed since.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<Object>)]
    pub document: Option<Value>,
}

/// The last line: where the file ends.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Closing {
    /// How many entries it has.
    pub entries: i64,
    /// The last of them.
    pub last: Place,
}

/// What an entry's document is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// Nothing.
    Nothing,
    /// A revision of a record.
    Revision,
    /// Setup and answer of a kept check.
    Check,
    /// Settings of the organisation, of which the newest are kept.
    Settings,
    /// The bytes of an attachment.
    Attachment,
}

impl Named {
    /// By action and kind of an entry.
    #[must_use]
    pub fn of(action: &str, kind: &str, has_document: bool) -> Self {
        match (action, kind) {
            _ if !has_document => Self::Nothing,
            ("attached" | "attachment-withdrawn", _) => Self::Attachment,
            (_, "check") => Self::Check,
            (_, "organisation") => Self::Settings,
            _ => Self::Revision,
        }
    }
}

/// What identifies a named revision within a file: the first line that names it carries its document.
#[must_use]
pub fn mention(kind: &str, subject: &str, revision: Option<i64>, document: &str) -> [u8; 32] {
    let name = json!([kind, subject, revision, document]);
    Sha256::digest(canonical_bytes(&name)).into()
}
