//! Rule packs that an organisation writes itself: its checked copy of a code, or what a contract adds.
//!
//! What such a pack says of its own confidence counts for nothing: every cell is remembered until an approver who did
//! not write it signs the rule.

use serde::Deserialize;
use serde_json::{Value, json};
use sqlx::PgConnection;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use uuid::Uuid;

use crate::{
    access::{Approve, WriteData},
    http::{
        AppState,
        problem::{FieldError, Problem},
    },
    qualify::{Pack, packs},
    records::{self, Column, Kind, RecordDocument, RecordFilter, record_endpoints},
    wire::{self, Code, LongText, wire_object},
};

/// The kind of record.
pub const KIND: Kind = Kind { column: "rule-pack", name: "rule pack", path: "own-rule-packs" };

const COLUMNS: &[Column] = &[("note", "/note")];

wire_object! {
    /// A rule pack of the organisation.
    pub struct OwnRulePackDocument {
        /// Its key, the same as in the text; none of the built-in ones.
        pub code: Code,
        /// The pack as TOML, as `GET /v1/rule-packs/format` describes it.
        pub text: LongText,
        /// Where it comes from, or why it differs from the built-in one.
        pub note: Option<String>,
    }
}

/// Which own packs to list.
#[derive(Debug, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OwnRulePackFilter {
    /// Only those with this note.
    note: Option<String>,
}

impl RecordFilter for OwnRulePackFilter {
    fn contained(&self) -> Result<Vec<Value>, Problem> {
        let note = self.note.as_ref();
        Ok(vec![note.map_or_else(|| json!({}), |note| json!({ "note": note }))])
    }
}

impl RecordDocument for OwnRulePackDocument {
    const KIND: Kind = KIND;
    /// Judgements are kept with releases; a pack by itself changes no check.
    const CHANGES_RULES: bool = false;

    fn code(&self) -> &str {
        self.code.as_str()
    }

    fn faults(&self) -> Vec<FieldError> {
        let fault = |pointer: &str, detail: String| FieldError { pointer: pointer.into(), detail };
        let code = self.code.as_str();
        if packs().iter().any(|pack| pack.key == code) {
            return vec![fault(
                "/code",
                format!("{code} is a built-in pack; take a key of your own"),
            )];
        }
        match Pack::load(self.text.as_str()) {
            Ok(pack) if pack.key != code => {
                let detail =
                    format!("key: the text says \"{}\"; it has to be \"{code}\"", pack.key);
                vec![fault("/text", detail)]
            }
            Ok(_) => Vec::new(),
            Err(slips) => slips.iter().map(|slip| fault("/text", slip.to_string())).collect(),
        }
    }

    async fn project(&self, _: &mut PgConnection, _: Uuid, _: i32) -> sqlx::Result<()> {
        Ok(())
    }
}

/// An own pack as it is kept.
#[derive(Debug, Clone)]
pub(super) struct OwnPack {
    /// The rules, every cell remembered.
    pub pack: Pack,
    /// Revision of the record.
    pub revision: i32,
    /// Whether it was taken out of use.
    pub is_withdrawn: bool,
}

/// The own pack with this key.
///
/// # Errors
/// A failing database, or a stored pack that cannot be read.
pub(super) async fn find(db: &mut PgConnection, key: &str) -> Result<Option<OwnPack>, Problem> {
    let Some(stored) = records::find(db, KIND, key).await? else { return Ok(None) };
    let unreadable = || Problem::internal("a stored rule pack");
    let document: OwnRulePackDocument =
        wire::read_stored(&stored.document).map_err(|_| unreadable())?;
    let pack = Pack::load(document.text.as_str()).map_err(|_| unreadable())?.unconfirmed();
    let is_withdrawn = stored.state == "withdrawn";
    Ok(Some(OwnPack { pack, revision: stored.revision, is_withdrawn }))
}

record_endpoints! {
    tag: "rule-packs",
    one: "rule pack of the organisation",
    many: "rule packs of the organisation",
    document: OwnRulePackDocument,
    filter: OwnRulePackFilter,
    columns: COLUMNS,
    write: WriteData,
    retire: Approve,
    paths: "/v1/own-rule-packs", "/v1/own-rule-packs/{code}", "/v1/own-rule-packs/{code}/withdrawal",
    operations: list_own_rule_packs, create_own_rule_pack, read_own_rule_pack, revise_own_rule_pack,
        withdraw_own_rule_pack,
}

/// Routes of own packs.
pub(super) fn router() -> OpenApiRouter<AppState> {
    record_routes()
}
