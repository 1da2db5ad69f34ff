//! What of a line stands already, from an import before: it is not written again.

use std::collections::HashMap;

use serde_json::Value;

use super::{client::Client, later::Later, line::Line};

/// Revisions that the lines so far stand for. Of two lines for one record the later one means a later revision.
#[derive(Debug, Default)]
pub(super) struct Written(HashMap<String, i64>);

/// The revision that a line is about.
#[derive(Debug)]
pub(super) struct Standing {
    /// The record with the path of its kind, as `procedures/WPS-1`.
    pub(super) record: String,
    /// Revision.
    pub(super) revision: i64,
    /// State of that revision.
    state: String,
    /// It was written just now.
    pub(super) fresh: bool,
}

impl Written {
    /// Finds the revision with the line's document, or writes it.
    pub(super) async fn write(&mut self, client: &Client, line: &Line) -> Result<Standing, String> {
        let code = line.code()?;
        let record = format!("{}/{code}", line.path());
        let (revision, fresh) = match self.found(client, line, &record).await? {
            Some(there) => (there, false),
            None if line.revise => {
                let reason = line.reason.as_deref();
                (client.revise(line.path(), code, &line.document, reason).await?, true)
            }
            None => (client.add(line.path(), &line.document).await?, true),
        };
        let state = revision["state"].as_str().unwrap_or_default().to_owned();
        let standing = Standing { record, revision: number(&revision), state, fresh };
        self.0.insert(standing.record.clone(), standing.revision);
        if !fresh && standing.state == "withdrawn" {
            return Err(format!(
                "{} revision {} is withdrawn.",
                standing.record, standing.revision
            ));
        }
        Ok(standing)
    }

    /// The revision with this document, after those that earlier lines stand for. A line that revises a record of
    /// before the file means the newest one, so that it can go back to what an older one said.
    async fn found(
        &self,
        client: &Client,
        line: &Line,
        record: &str,
    ) -> Result<Option<Value>, String> {
        let (Some(newest), Some(hash)) = (client.find(record).await?, line.hash()) else {
            return Ok(None);
        };
        let last = number(&newest);
        let first = match self.0.get(record) {
            Some(earlier) => earlier + 1,
            None if line.revise => last,
            None => 1,
        };
        for revision in first..=last {
            let there = if revision == last {
                Some(newest.clone())
            } else {
                client.find(&format!("{record}?revision={revision}")).await?
            };
            if let Some(there) = there
                && there["document_hash"] == hash.as_str()
            {
                return Ok(Some(there));
            }
        }
        Ok(None)
    }
}

impl Standing {
    /// Steps of the line that are not done yet.
    pub(super) async fn left<'l>(
        &self,
        client: &Client,
        line: &'l Line,
    ) -> Result<Vec<&'l Later>, String> {
        if self.fresh || line.later.is_empty() {
            return Ok(line.later.iter().collect());
        }
        let told = |part: &str| format!("{}/{part}", self.record);
        let noted = match line.later.first() {
            Some(Later::Note(_)) => client.read(&told("care")).await?,
            Some(Later::SignRange { .. }) => client.read(&told("standing")).await?,
            _ if line.signature() == "support-signature" => client.read(&told("history")).await?,
            _ => Value::Null,
        };
        let mut skipped = Vec::new();
        for (index, step) in line.later.iter().enumerate() {
            let done = match step {
                Later::Submit => self.state != "draft",
                Later::Release(_) => !matches!(self.state.as_str(), "draft" | "in-review"),
                Later::Sign(_) => self.is_signed(&noted),
                Later::SignRange { qualification, .. } => {
                    let own = items(&noted["qualifications"]);
                    own.filter(|one| one["id"] == qualification.as_str())
                        .any(|one| one["range_signed"] == true)
                }
                Later::Note(_) => is_noted(index, line, &noted),
            };
            if done {
                skipped.push(index);
            }
        }
        let all = line.later.iter().enumerate();
        Ok(all.filter(|(index, _)| !skipped.contains(index)).map(|(_, step)| step).collect())
    }

    /// Whether the revision is signed, by the history of a procedure or the state of another record.
    fn is_signed(&self, history: &Value) -> bool {
        match history.get("revisions") {
            None => self.state != "draft",
            Some(revisions) => items(revisions)
                .any(|own| number(own) == self.revision && own.get("support_signed_by").is_some()),
        }
    }

    /// What stands when a step was refused, and how to go on.
    pub(super) fn so_far(&self, done: &[String], refused: &Later) -> String {
        let written = format!("{} revision {} is written", self.record, self.revision);
        let all = [&[written], done].concat().join(", ");
        let mut text = format!("{all}; importing the line again goes on from there.");
        if matches!(refused, Later::Release(_)) {
            text.push_str(
                " Another document takes \"revise\", after the revision in review was returned to its author.",
            );
        }
        text
    }
}

/// Whether an event of a line stands in the history of its portion: the line's events for it stand there one after
/// the other, wholly or as its newest ones. One without a moment is known only where the line makes the batch.
fn is_noted(index: usize, line: &Line, care: &Value) -> bool {
    let events = line.later.iter().enumerate().filter_map(|(at, step)| match step {
        Later::Note(event) => Some((at, event)),
        _ => None,
    });
    let Some((_, event)) = events.clone().find(|(at, _)| *at == index) else { return false };
    let portion = &event["portion"];
    let own: Vec<_> = events.filter(|(_, event)| event["portion"] == *portion).collect();
    let place = own.iter().position(|(at, _)| *at == index).unwrap_or(own.len());
    let there = items(&care["portions"]).find(|there| there["portion"] == *portion);
    let there: Vec<_> = there.into_iter().flat_map(|there| items(&there["events"])).collect();
    (0..there.len()).any(|start| {
        let tail = &there[start..];
        let both = own.len().min(tail.len());
        let alike =
            own.iter().zip(tail).all(|((_, own), noted)| alike(own, &noted["event"], line.revise));
        alike && place < both
    })
}

/// Whether an event as the line has it is the one that was noted.
fn alike(own: &Value, noted: &Value, needs_moment: bool) -> bool {
    let Some(mut own) = crate::batches::canonical_event(own) else { return false };
    if own.get("at").is_none() {
        if needs_moment {
            return false;
        }
        own["at"] = noted["at"].clone();
    }
    own == *noted
}

fn items(list: &Value) -> impl Iterator<Item = &Value> {
    list.as_array().into_iter().flatten()
}

fn number(revision: &Value) -> i64 {
    revision["revision"].as_i64().unwrap_or_default()
}
