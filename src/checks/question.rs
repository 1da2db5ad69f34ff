//! What checks and windows share: reading the setup, resolving what it names, the rulebook's age.

use rust_decimal::Decimal;
use serde::Deserialize;
use time::{Date, OffsetDateTime};
use utoipa::IntoParams;

use super::{SetupIn, answer_out::Detail, pointers::pointer, rulebook_out::RulebookOut};
use crate::{
    access::{Caller, Role},
    check::{Setup, Variable, unknown_references},
    http::{
        AppState,
        problem::{FieldError, Problem, UNAVAILABLE},
        retry::WantedRulebook,
    },
    quantity::UnitSystem,
    rulebook::{Rulebook, Rulebooks},
    trade::Coded,
    wire::{self, AmountOut, Errors, Node, Units},
};

/// Longest wait for a rulebook version the caller asks for.
const PATIENCE: std::time::Duration = std::time::Duration::from_secs(1);

/// How a question is to be answered.
#[derive(Debug, Default, Deserialize, IntoParams)]
#[serde(deny_unknown_fields)]
#[into_params(parameter_in = Query)]
pub struct QuestionQuery {
    /// `metric` or `us`; the organisation's choice where left out.
    pub units: Option<String>,
    /// `summary` or `full`; a summary for stations, everything for others where left out.
    pub detail: Option<String>,
}

impl QuestionQuery {
    /// Units of the answer.
    ///
    /// # Errors
    /// A name that is no system of units.
    pub fn units(&self, rulebook: &Rulebook) -> Result<Units, Problem> {
        match self.units.as_deref() {
            None => Ok(Some(rulebook.settings.units)),
            Some(name) => UnitSystem::from_code(name)
                .map(Some)
                .ok_or_else(|| Problem::parameter("?units", "units are \"metric\" or \"us\"")),
        }
    }

    /// How much of the answer is sent to this caller: a kiosk gets a summary where it asks for nothing.
    ///
    /// # Errors
    /// A name that is no detail.
    pub fn detail(&self, caller: &Caller) -> Result<Detail, Problem> {
        match self.detail.as_deref() {
            Some("summary") => Ok(Detail::Summary),
            None if is_kiosk(caller) => Ok(Detail::Summary),
            Some("full") | None => Ok(Detail::Full),
            Some(_) => Err(Problem::parameter("?detail", "a detail is \"summary\" or \"full\"")),
        }
    }
}

/// A question that was read and resolved. Handlers hold it while they wait, and what a handler holds is moved
/// with it several times: both forms of the setup are some kilobytes and stand in boxes.
#[derive(Debug)]
pub struct Question {
    /// The setup.
    pub setup: Box<Setup>,
    /// As it was sent, for the evidence.
    pub sent: Box<SetupIn>,
    /// Day it is judged for.
    pub day: Date,
    /// Rulebook it is held to.
    pub rulebook: std::sync::Arc<Rulebook>,
}

impl Question {
    /// Reads a setup and resolves what it names, from memory.
    ///
    /// # Errors
    /// Field errors, records that do not exist, a rulebook version that does not arrive in time.
    pub async fn read(
        state: &AppState,
        caller: &Caller,
        wanted: WantedRulebook,
        body: &Node<'_>,
    ) -> Result<Self, Problem> {
        let rulebook = Self::rulebook(state, caller, wanted).await?;
        Self::resolve(caller, rulebook, body)
    }

    /// Reads a setup and resolves what it names in this rulebook, for an answer that is not kept.
    ///
    /// # Errors
    /// Field errors, records that do not exist.
    pub fn resolve(
        caller: &Caller,
        rulebook: std::sync::Arc<Rulebook>,
        body: &Node<'_>,
    ) -> Result<Self, Problem> {
        Self::of(caller, rulebook, wire::read_node(body)?)
    }

    /// Resolves what a setup names that was read already, for an answer that is not kept.
    ///
    /// # Errors
    /// Where it is to be kept; field errors of what a field means beside another, records that do not exist.
    pub fn of(
        caller: &Caller,
        rulebook: std::sync::Arc<Rulebook>,
        sent: Box<SetupIn>,
    ) -> Result<Self, Problem> {
        Self::refuse_to_keep(&sent)?;
        let question = Self::of_check(caller, rulebook, sent)?;
        let unknown = unknown_references(&question.rulebook.book, &question.setup);
        if unknown.is_empty() { Ok(question) } else { Err(unknown_records(unknown)) }
    }

    /// Takes only a setup that is not to be kept.
    ///
    /// # Errors
    /// At `/keep`, where it is.
    pub(super) fn refuse_to_keep(sent: &SetupIn) -> Result<(), Problem> {
        let why = "nothing is kept here; POST /v1/checks keeps a setup with its answer";
        if sent.keep == Some(true) { Err(Problem::field("/keep", why)) } else { Ok(()) }
    }

    /// The question of a setup that was read already, for a check: it may be kept, and whether the records that it
    /// names exist, is seen when it is judged.
    ///
    /// # Errors
    /// Field errors of what a field means beside another.
    pub(super) fn of_check(
        caller: &Caller,
        rulebook: std::sync::Arc<Rulebook>,
        sent: Box<SetupIn>,
    ) -> Result<Self, Problem> {
        let now = OffsetDateTime::now_utc();
        let today = rulebook.settings.day_of(now);
        // Whatever offset it is written with, a moment lies on one day of the organisation.
        let day_of_moment = sent.at.map(|at| rulebook.settings.day_of(at));
        let day = sent.day.or(day_of_moment).unwrap_or(today);
        if let Some(other) = day_of_moment.filter(|of_moment| *of_moment != day) {
            let why = format!(
                "this moment is on {other} where the organisation says, in UTC where it says nothing, and not on the \
                 day stated"
            );
            return Err(Problem::field("/at", why));
        }
        let named = sent.station.as_ref().map(|code| code.as_str().to_owned());
        let code = station_of(caller, named)?;
        let station = code.as_ref().and_then(|code| rulebook.book.stations.get(code));
        let mut errors = Errors::default();
        let setup = sent.setup((code.clone(), station.map(AsRef::as_ref)), day, &mut errors);
        errors.finish()?;
        let mut setup =
            setup.ok_or_else(|| Problem::internal("a setup was read without value or error"))?;
        setup.at = setup.at.or((day == today).then_some(now));
        Ok(Self { setup, sent, day, rulebook })
    }

    /// The caller's rulebook, at the version that the request asks for.
    ///
    /// # Errors
    /// A version that does not arrive in time.
    pub async fn rulebook(
        state: &AppState,
        caller: &Caller,
        wanted: WantedRulebook,
    ) -> Result<std::sync::Arc<Rulebook>, Problem> {
        let Some(version) = wanted.0 else { return Ok(std::sync::Arc::clone(&caller.rulebook)) };
        let organisation = caller.holder.organisation;
        state.rulebooks.at_least(organisation, version, PATIENCE).await.ok_or_else(|| {
            let detail = format!("Rulebook version {version} has not arrived yet.");
            Problem::new(&UNAVAILABLE, detail).retry_after(1)
        })
    }

    /// Version and age of the rulebook, and whether it is too old to allow anything.
    #[must_use]
    pub fn rulebook_now(&self, rulebooks: &Rulebooks) -> (RulebookOut, bool) {
        let (age, limit) = (rulebooks.age(&self.rulebook), self.rulebook.settings.stale_after);
        // To a tenth of a second.
        let tenths = age.whole_seconds().saturating_mul(10)
            + i64::from((age.subsec_milliseconds() + 50) / 100);
        let out = RulebookOut {
            version: self.rulebook.version,
            decision_rule: self.rulebook.settings.decision_rule.code(),
            guard_factor: self.rulebook.book.settings.guard_factor.ratio(),
            age: AmountOut { value: Decimal::new(tenths, 1).into(), unit: "s" },
            stale_after: AmountOut::new(limit.amount(), None),
        };
        (out, age.as_seconds_f64() > limit.seconds())
    }
}

/// A kiosk's key speaks for its own station only.
fn station_of(caller: &Caller, named: Option<String>) -> Result<Option<String>, Problem> {
    match (&caller.holder.station, named) {
        (Some(own), Some(named)) if *own != named => Err(Problem::field(
            "/station",
            format!("this key is bound to station \"{own}\"; leave the field out or name that one"),
        )),
        (Some(own), _) => Ok(Some(own.clone())),
        (None, named) => Ok(named),
    }
}

/// The problem of a setup that names records which do not exist.
pub(super) fn unknown_records(named: Vec<(Variable, String)>) -> Problem {
    let error = |(variable, name): (Variable, String)| FieldError {
        pointer: pointer(variable).to_owned(),
        detail: format!("there is no {} \"{name}\" in force", variable.code()),
    };
    Problem::fields(named.into_iter().map(error).collect())
}

fn is_kiosk(caller: &Caller) -> bool {
    caller.holder.roles == [Role::Station]
}
