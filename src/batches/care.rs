//! `GET /v1/consumable-batches/{code}/care`

use std::collections::HashMap;

use axum::{Json, extract::State};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use time::{OffsetDateTime, format_description::well_known::Rfc3339};
use utoipa::{IntoParams, ToSchema};
use uuid::Uuid;

use super::{BatchDocument, CareEventDocument, EventRow, KIND, store};
use crate::{
    access::{AnyRole, Permitted},
    check::{
        Book, care_words,
        record::{Batch, Consumable, Portion},
    },
    database::TenantTx,
    http::{AppState, CodePath, Query, problem::Problem, responses::ReadProblems},
    records,
    trade::{CareFitness, CareState, Coded},
    wire::{self, AmountOut},
};

/// Moment of a question.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub(super) struct MomentQuery {
    /// Moment, such as `2026-11-25T06:30:00Z`; now where left out.
    at: Option<String>,
}

impl MomentQuery {
    fn at(&self) -> Result<OffsetDateTime, Problem> {
        let Some(text) = &self.at else { return Ok(OffsetDateTime::now_utc()) };
        let read = OffsetDateTime::parse(text, &Rfc3339).ok();
        read.filter(|at| (2000..=9000).contains(&at.year())).ok_or_else(|| {
            Problem::parameter(
                "?at",
                "a moment is written with its offset, as 2026-11-25T06:30:00Z",
            )
        })
    }
}

/// One thing that was done with a portion.
#[derive(Debug, Serialize, ToSchema)]
pub struct CareEventOut {
    /// Place in the history of the batch.
    pub sequence: i32,
    /// What was done, as it was noted.
    #[schema(value_type = CareEventDocument)]
    pub event: Value,
    /// Person who noted it; left out for a kiosk or shop software.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub person: Option<Uuid>,
    /// Key that noted it.
    pub key: Uuid,
    /// When it was noted.
    #[serde(with = "time::serde::rfc3339")]
    pub noted_at: OffsetDateTime,
}

/// What a portion is.
#[derive(Debug, Serialize, ToSchema)]
pub struct PortionCareOut {
    /// Code of the portion.
    pub portion: String,
    /// `packed`, `in-air`, `in-oven`, `in-bake` or `gone`; left out where it cannot be judged.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub place: Option<&'static str>,
    /// `usable`, `bake`, `scrap` or `unknown`.
    #[schema(example = "usable")]
    pub fitness: &'static str,
    /// What took it its class: `exposed-too-long`, `never-baked`, `baked-too-often` and so on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loss: Option<&'static str>,
    /// Why, in one sentence.
    pub reason: String,
    /// What to do about it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub remedy: Option<String>,
    /// Highest hydrogen it still has.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hydrogen: Option<AmountOut>,
    /// Until when it keeps that, while it stays in the air.
    #[serde(with = "time::serde::rfc3339::option", skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = DateTime)]
    pub hydrogen_until: Option<OffsetDateTime>,
    /// Until when it may be used at all, while it stays in the air.
    #[serde(with = "time::serde::rfc3339::option", skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>, format = DateTime)]
    pub usable_until: Option<OffsetDateTime>,
    /// Time in the air that counts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub exposed: Option<AmountOut>,
    /// Time in the air that is left.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left: Option<AmountOut>,
    /// Bakes so far.
    pub bakes: u32,
    /// Bakes that the data still allows.
    pub bakes_left: u32,
    /// What the last bake did: `restored`, `too-cold`, `too-short` or `spoiled`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub last_bake: Option<&'static str>,
    /// What was done with it up to the moment.
    pub events: Vec<CareEventOut>,
}

/// How the portions of a batch were kept.
#[derive(Debug, Serialize, ToSchema)]
pub struct BatchCareOut {
    /// Code of the batch.
    pub batch: String,
    /// Why it was withdrawn: none of its portions is to be used then. Left out where it was not.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub withdrawn_because: Option<String>,
    /// Code of the consumable.
    pub consumable: String,
    /// Moment it is for.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
    /// Where the rules stand; left out where the consumable has none on record.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rules: Option<String>,
    /// Highest hydrogen of the fresh filler: of its class, or of the certificate where that is worse.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fresh_hydrogen: Option<AmountOut>,
    /// Portions that something was done with.
    pub portions: Vec<PortionCareOut>,
}

/// How the portions of a batch were kept
///
/// What was done with each portion, and what it is at a moment: where it lies, how long it was in the air, which
/// hydrogen class it still has and until when, whether it may be baked again, and why.
#[utoipa::path(
    get, path = "/v1/consumable-batches/{code}/care", tag = "batches",
    params(("code" = String, Path, description = "Code of the batch"), MomentQuery),
    responses((status = 200, description = "The state", body = BatchCareOut), ReadProblems),
)]
pub(super) async fn read_batch_care(
    permitted: Permitted<AnyRole>,
    State(state): State<AppState>,
    CodePath(code): CodePath,
    Query(query): Query<MomentQuery>,
) -> Result<Json<BatchCareOut>, Problem> {
    let at = query.at()?;
    let mut tx = TenantTx::begin(&state.pool, permitted.caller.actor()).await?;
    let stored = records::find(tx.connection(), KIND, &code).await?;
    let stored = stored.ok_or_else(|| Problem::not_found(KIND.name, &code))?;
    let events = store::events(tx.connection(), &code).await?;
    let batch: BatchDocument = wire::read_stored(&stored.document)?;
    let care = care_of(&permitted.caller.rulebook.book, &batch, &events, at);
    Ok(Json(match stored.withdrawn_because {
        Some(because) => care.withdrawn(because),
        None => care,
    }))
}

impl BatchCareOut {
    /// The same of a batch that was withdrawn: how its portions were kept stays, and none is usable.
    fn withdrawn(mut self, because: String) -> Self {
        for portion in self.portions.iter_mut().filter(|one| one.fitness != "scrap") {
            portion.fitness = "unknown";
            portion.reason = format!("The batch was withdrawn: {because}");
            portion.remedy =
                Some("Put it aside until somebody says what becomes of it.".to_owned());
            (portion.usable_until, portion.left) = (None, None);
            (portion.hydrogen, portion.hydrogen_until) = (None, None);
        }
        self.withdrawn_because = Some(because);
        self
    }
}

/// How the portions of a batch were kept, by the rules of its consumable.
pub(super) fn care_of(
    book: &Book,
    document: &BatchDocument,
    events: &[EventRow],
    at: OffsetDateTime,
) -> BatchCareOut {
    let batch = document.compile(document.code.as_str(), events);
    let consumable = book.consumables.get(&batch.consumable).map(AsRef::as_ref);
    let fresh = batch.fresh_hydrogen(consumable.and_then(Consumable::fresh_hydrogen));
    let begun = |portion: &&Portion| portion.steps.first().is_some_and(|first| first.at <= at);
    let portions = batch.portions.iter().filter(begun);
    let mut noted = noted_of_each(events, at);
    BatchCareOut {
        batch: batch.code.clone(),
        withdrawn_because: None,
        consumable: batch.consumable.clone(),
        at,
        rules: consumable.and_then(|known| known.care.as_ref()).map(|care| care.source.clone()),
        fresh_hydrogen: fresh.map(|content| AmountOut::new(content.amount(), None)),
        portions: portions
            .map(|it| {
                let events = noted.remove(it.code.as_str()).unwrap_or_default();
                portion(&batch, consumable, it, (events, at))
            })
            .collect(),
    }
}

fn portion(
    batch: &Batch,
    consumable: Option<&Consumable>,
    portion: &Portion,
    (events, at): (Vec<CareEventOut>, OffsetDateTime),
) -> PortionCareOut {
    let rules = consumable.and_then(|known| known.care.as_ref());
    let fresh = consumable.and_then(Consumable::fresh_hydrogen);
    let state = rules.map(|rules| batch.state(rules, fresh, &portion.steps, at));
    match state {
        Some(state) => judged(batch, portion, &state, events),
        None => PortionCareOut {
            portion: portion.code.clone(),
            place: None,
            fitness: "unknown",
            loss: None,
            reason: "The consumable has no care rules on record, or is withdrawn.".to_owned(),
            remedy: Some("Record in the consumable how it is kept dry.".to_owned()),
            hydrogen: None,
            hydrogen_until: None,
            usable_until: None,
            exposed: None,
            left: None,
            bakes: 0,
            bakes_left: 0,
            last_bake: None,
            events,
        },
    }
}

fn judged(
    batch: &Batch,
    portion: &Portion,
    state: &CareState,
    events: Vec<CareEventOut>,
) -> PortionCareOut {
    let (fitness, loss) = match state.fitness {
        CareFitness::Usable => ("usable", None),
        CareFitness::Bake(loss) => ("bake", Some(loss.code())),
        CareFitness::Scrap(loss) => ("scrap", Some(loss.code())),
        CareFitness::HumidityUnknown => ("unknown", None),
    };
    let (reason, remedy) = care_words(batch, portion, state);
    PortionCareOut {
        portion: portion.code.clone(),
        place: Some(state.place.code()),
        fitness,
        loss,
        reason,
        remedy,
        hydrogen: state.hydrogen.map(|content| AmountOut::new(content.amount(), None)),
        hydrogen_until: state.hydrogen_until,
        usable_until: state.usable_until,
        exposed: Some(AmountOut::new(state.exposed.amount(), None)),
        left: state.left.map(|left| AmountOut::new(left.amount(), None)),
        bakes: state.bakes,
        bakes_left: state.bakes_left,
        last_bake: state.last_bake.map(Coded::code),
        events,
    }
}

/// What was noted of each portion up to a moment.
fn noted_of_each(events: &[EventRow], at: OffsetDateTime) -> HashMap<String, Vec<CareEventOut>> {
    let mut noted: HashMap<String, Vec<CareEventOut>> = HashMap::new();
    for row in events {
        let Ok(event) = wire::read_stored::<CareEventDocument>(&row.document) else { continue };
        if event.at.unwrap_or(row.noted_at) <= at {
            noted.entry(event.portion.as_str().to_owned()).or_default().push(CareEventOut {
                sequence: row.sequence,
                event: row.document.clone(),
                person: row.person_id,
                key: row.key_id,
                noted_at: row.noted_at,
            });
        }
    }
    noted
}
