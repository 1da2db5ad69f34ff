//! SQL of the condition projection. The document is the truth; these rows are made from it.

use sqlx::PgConnection;
use uuid::Uuid;

use super::{ConsumableDocument, document::ConditionDocument};
use crate::{
    database::{decimal, numrange},
    wire::Limits,
};

/// Replaces the conditions of a consumable.
pub(super) async fn write_conditions(
    db: &mut PgConnection,
    organisation: Uuid,
    document: &ConsumableDocument,
) -> sqlx::Result<()> {
    let code = document.code.as_str();
    sqlx::query("delete from consumable_condition where organisation_id = $1 and code = $2")
        .bind(organisation)
        .bind(code)
        .execute(&mut *db)
        .await?;
    for data in &document.data {
        for condition in &data.conditions {
            let edition = (data.document.as_str(), data.edition.as_str());
            write_one(db, organisation, code, edition, condition).await?;
        }
    }
    Ok(())
}

async fn write_one(
    db: &mut PgConnection,
    organisation: Uuid,
    code: &str,
    (document, edition): (&str, &str),
    condition: &ConditionDocument,
) -> sqlx::Result<()> {
    let limits = condition.limits.as_ref().map(Limits::compile).unwrap_or_default();
    sqlx::query(
        "insert into consumable_condition (organisation_id, code, document, edition, diameter_mm, gas,
             polarity, positions, wire_feed, voltage, stick_out)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
    )
    .bind(organisation)
    .bind(code)
    .bind(document)
    .bind(edition)
    .bind(decimal(condition.diameter))
    .bind(condition.gas.map(|gas| gas.to_string()).unwrap_or_default())
    .bind(condition.polarity.to_string())
    .bind(condition.position_key())
    .bind(limits.wire_feed.as_ref().map(numrange))
    .bind(limits.voltage.as_ref().map(numrange))
    .bind(limits.stick_out.as_ref().map(numrange))
    .execute(db)
    .await?;
    Ok(())
}
