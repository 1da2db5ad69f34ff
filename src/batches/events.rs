//! `POST /v1/consumable-batches/{code}/events`

use axum::{extract::State, http::StatusCode, response::Response};
use serde_json::{Value, json};
use time::{Duration, OffsetDateTime};

use super::{
    BatchDocument, EventRow, KIND,
    care::{BatchCareOut, care_of},
    store,
};
use crate::{
    access::{NoteCare, Permitted},
    check::record::Portion,
    database::Change,
    http::{
        AppState, CodePath, JsonBody, Retry, Writing,
        problem::{CONFLICT, FieldError, Problem},
        responses::NoteProblems,
        retry::Begun,
    },
    quantity::{Share, Temperature},
    records::{self, plausible},
    trade::{CareAction, CareOrderError, CareStep, Coded, coded, may_follow},
    wire::{self, Code, ToWire, wire_object},
};

/// How far a clock of the shop may be ahead of this one.
const AHEAD: Duration = Duration::minutes(2);

coded! {
    /// What is done with a portion of filler.
    pub enum CareEventKind: "care event" {
        /// Its packet was opened.
        Opened = "opened",
        /// It was baked.
        Baked = "baked",
        /// It was put into a holding oven, for the first time or again.
        IntoOven = "into-oven",
        /// It was taken out of the holding oven.
        OutOfOven = "out-of-oven",
        /// It was thrown away.
        Scrapped = "scrapped",
    }
}

wire_object! {
    /// What was done with a portion of a batch: a packet, a quiver, whatever lies together.
    pub struct CareEventDocument {
        /// Code of the portion, your own; it begins with its first event.
        pub portion: Code,
        /// What was done.
        pub event: CareEventKind,
        /// When, or when a bake began; now where left out.
        pub at: Option<OffsetDateTime>,
        /// End of a bake's time at temperature.
        pub until: Option<OffsetDateTime>,
        /// Temperature of the oven: of a bake, and of the holding oven it was put into.
        pub temperature: Option<Temperature>,
        /// Relative humidity of the air it lies in then, for `opened` and `out-of-oven`.
        pub humidity: Option<Share>,
        /// Anything else worth knowing; no names.
        pub note: Option<String>,
    }
}

impl CareEventDocument {
    /// The same of an event that is to be noted now, which can neither be ahead nor say what no air is like.
    fn new_step(&self, now: OffsetDateTime) -> Result<CareStep, Problem> {
        let read = self.step(now);
        let mut faults = read.as_ref().err().cloned().unwrap_or_default();
        faults.extend(plausible::no_humidity("/humidity".to_owned(), self.humidity));
        let step =
            read.ok().filter(|_| faults.is_empty()).ok_or_else(|| Problem::fields(faults))?;
        not_ahead(&step, now)?;
        Ok(step)
    }

    /// As the core reads it, at this moment where it states none.
    ///
    /// # Errors
    /// Members that are missing, or that the event does not have.
    pub fn step(&self, now: OffsetDateTime) -> Result<CareStep, Vec<FieldError>> {
        use CareEventKind::{Baked, IntoOven, Opened, OutOfOven, Scrapped};
        let event = self.event.code();
        let mut faults = Vec::new();
        let mut held_to = |member: &str, given: bool, takes: bool, needs: bool| {
            let detail = match (given, takes, needs) {
                (false, _, true) => format!("the event \"{event}\" needs it"),
                (true, false, _) => format!("the event \"{event}\" has none"),
                _ => return,
            };
            faults.push(FieldError { pointer: format!("/{member}"), detail });
        };
        let oven = matches!(self.event, Baked | IntoOven);
        let bake = self.event == Baked;
        let air = matches!(self.event, Opened | OutOfOven);
        held_to("at", self.at.is_some(), true, bake);
        held_to("until", self.until.is_some(), bake, bake);
        held_to("temperature", self.temperature.is_some(), oven, oven);
        held_to("humidity", self.humidity.is_some(), air, false);
        let humidity = self.humidity;
        let action = match (self.event, self.until, self.temperature) {
            (Opened, ..) => Some(CareAction::Opened { humidity }),
            (OutOfOven, ..) => Some(CareAction::OutOfOven { humidity }),
            (Scrapped, ..) => Some(CareAction::Scrapped),
            (IntoOven, _, Some(temperature)) => Some(CareAction::IntoOven { temperature }),
            (Baked, Some(until), Some(temperature)) => {
                Some(CareAction::Baked { until, temperature })
            }
            (IntoOven | Baked, ..) => None,
        };
        match action {
            Some(action) if faults.is_empty() => {
                Ok(CareStep { at: self.at.unwrap_or(now), action })
            }
            _ => Err(faults),
        }
    }
}

/// Portions with their histories, in the order they began. An event that cannot be read is left out, loudly:
/// the portion then counts as it was before.
#[must_use]
pub fn portions(events: &[EventRow]) -> Vec<Portion> {
    let mut portions: Vec<Portion> = Vec::new();
    for row in events {
        let read = wire::read_stored::<CareEventDocument>(&row.document).ok();
        let step = read.and_then(|event| Some((event.step(row.noted_at).ok()?, event)));
        let Some((step, event)) = step else {
            tracing::error!(sequence = row.sequence, "stored care event cannot be read");
            continue;
        };
        let code = event.portion.as_str();
        match portions.iter_mut().find(|portion| portion.code == code) {
            Some(portion) => portion.steps.push(step),
            None => portions.push(Portion { code: code.to_owned(), steps: vec![step] }),
        }
    }
    portions
}

/// An event as it is kept; `None` where it cannot be read.
#[must_use]
pub fn canonical_event(event: &Value) -> Option<Value> {
    wire::read::<CareEventDocument>(event).ok().map(|event| event.to_wire())
}

/// What is wrong with events that are to be noted one after the other, each at its place in the list. What was noted
/// before them, where there can be anything, the service alone knows.
#[must_use]
pub fn faults_of_events(
    events: &[Value],
    more_before: bool,
    now: OffsetDateTime,
) -> Vec<FieldError> {
    let mut portions: Vec<(Code, Vec<CareStep>)> = Vec::new();
    let mut faults = Vec::new();
    for (index, event) in events.iter().enumerate() {
        let read = wire::read::<CareEventDocument>(event)
            .and_then(|event| Ok((event.new_step(now)?, event.portion)));
        let followed = read.and_then(|(step, portion)| {
            let own = portions.iter().position(|(code, _)| *code == portion);
            let own = own.unwrap_or_else(|| {
                portions.push((portion, Vec::new()));
                portions.len() - 1
            });
            let steps = &mut portions[own].1;
            if !more_before {
                follows(steps, &step)?;
            }
            steps.push(step);
            Ok(())
        });
        if let Err(problem) = followed {
            faults.extend(problem.under(&format!("/{index}")).errors().iter().cloned());
        }
    }
    faults
}

/// Note what was done with a portion
///
/// Adds to the history of a portion of a batch: its packet was opened, it was baked, put into the holding oven,
/// taken out, scrapped. Events come in the order they happen; nothing is changed or taken back. The answer says
/// what the portions of the batch are now.
#[utoipa::path(
    post, path = "/v1/consumable-batches/{code}/events", tag = "batches",
    request_body = CareEventDocument,
    params(
        ("code" = String, Path, description = "Code of the batch"),
        ("Idempotency-Key" = Option<String>, Header, description = "For a safe retry"),
    ),
    responses(
        (status = 201, description = "Noted; `Rulebook-Version` says from which one on checks know it",
            headers(
                ("Rulebook-Version" = i64, description = "First rulebook that knows it; sent where checks need it"),
            ),
            body = BatchCareOut),
        NoteProblems,
    ),
)]
pub(super) async fn note_care_event(
    permitted: Permitted<NoteCare>,
    State(state): State<AppState>,
    retry: Retry,
    CodePath(code): CodePath,
    JsonBody(body): JsonBody,
) -> Result<Response, Problem> {
    let mut sent: CareEventDocument = wire::read(&body)?;
    let now = OffsetDateTime::now_utc();
    let step = sent.new_step(now)?;
    sent.at = Some(step.at);
    let route = format!("POST /v1/consumable-batches/{code}/events");
    let mut writing = match Writing::begin(&state, &permitted.caller, &route, &retry, &body).await?
    {
        Begun::Fresh(writing) => writing,
        Begun::Replay(response) => return Ok(response),
    };
    let tx = writing.tx();
    let head = records::lock(tx.connection(), KIND, &code).await?;
    let head = head.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    if head.state == "withdrawn" {
        return Err(Problem::new(&CONFLICT, "The batch is withdrawn."));
    }
    let earlier = store::events(tx.connection(), &code).await?;
    fits(&earlier, &sent, &step)?;
    let document = sent.to_wire();
    let sequence = earlier.last().map_or(1, |last| last.sequence + 1);
    let actor = tx.actor();
    store::write_event(tx.connection(), actor, &code, sequence, &document).await?;
    // The record's version counts this too, so that a copy of it is known to be old.
    let at = (head.revision, head.edit);
    records::move_head(tx.connection(), KIND, &code, at, &head.state).await?;
    tx.note(Change {
        action: sent.event.code(),
        kind: KIND.column,
        subject: code.clone(),
        revision: Some(head.revision),
        // The row of the event is told in the entry's details.
        document_hash: None,
        changes_rules: true,
    });
    let events = store::events(tx.connection(), &code).await?;
    let stored = records::find(tx.connection(), KIND, &code).await?;
    let stored = stored.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let batch: BatchDocument = wire::read_stored(&stored.document)?;
    let answer = care_of(&permitted.caller.rulebook.book, &batch, &events, now.max(step.end()));
    writing.finish(&state, StatusCode::CREATED, &[], json!(answer)).await
}

/// What is noted has happened.
fn not_ahead(step: &CareStep, now: OffsetDateTime) -> Result<(), Problem> {
    if step.at > now + AHEAD {
        return Err(Problem::field(
            "/at",
            "what is noted has happened; this moment is still to come",
        ));
    }
    if step.end() > now + AHEAD {
        return Err(Problem::field("/until", "a bake is noted when it is over"));
    }
    Ok(())
}

/// Whether the event can follow what was noted of its portion.
fn fits(earlier: &[EventRow], sent: &CareEventDocument, step: &CareStep) -> Result<(), Problem> {
    let portions = portions(earlier);
    let own = portions.iter().find(|portion| portion.code == sent.portion.as_str());
    let steps = own.map(|portion| portion.steps.as_slice()).unwrap_or_default();
    follows(steps, step)
}

fn follows(earlier: &[CareStep], step: &CareStep) -> Result<(), Problem> {
    may_follow(earlier, step).map_err(|error| {
        let pointer = match error {
            CareOrderError::TooEarly => "/at",
            CareOrderError::NoTime => "/until",
            _ => "/event",
        };
        Problem::field(pointer, error.to_string())
    })
}
