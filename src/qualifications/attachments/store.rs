//! SQL of attachments. No rules here.

use sqlx::{FromRow, PgConnection};
use time::OffsetDateTime;
use uuid::Uuid;

use crate::database::Actor;

/// What is known of an attachment, without its content.
#[derive(Debug, Clone, FromRow)]
pub(super) struct AttachmentRow {
    pub attachment_id: Uuid,
    pub name: String,
    pub media_type: String,
    pub length: i32,
    pub sha256: Vec<u8>,
    pub person_id: Option<Uuid>,
    pub at: OffsetDateTime,
    pub withdrawn_at: Option<OffsetDateTime>,
    pub withdrawn_by: Option<Uuid>,
    pub withdrawn_because: Option<String>,
}

macro_rules! attachment_columns {
    () => {
        "select attachment_id, name, media_type, length, sha256, person_id, at,
                withdrawn_at, withdrawn_by, withdrawn_because
         from qualification_attachment "
    };
}

/// An attachment to be written.
#[derive(Debug, Clone, Copy)]
pub(super) struct NewAttachment<'a> {
    pub code: &'a str,
    pub id: Uuid,
    pub name: &'a str,
    pub media_type: &'a str,
    pub sha256: &'a [u8],
    pub content: &'a [u8],
}

/// Writes an attachment.
pub(super) async fn insert(
    db: &mut PgConnection,
    actor: Actor,
    new: NewAttachment<'_>,
) -> sqlx::Result<()> {
    sqlx::query(
        "insert into qualification_attachment (organisation_id, code, attachment_id, name, media_type,
             length, sha256, content, person_id, key_id)
         values ($1, $2, $3, $4, $5, octet_length($7), $6, $7, $8, $9)",
    )
    .bind(actor.organisation)
    .bind(new.code)
    .bind(new.id)
    .bind(new.name)
    .bind(new.media_type)
    .bind(new.sha256)
    .bind(new.content)
    .bind(actor.person)
    .bind(actor.key.unwrap_or_default())
    .execute(db)
    .await?;
    Ok(())
}

/// Attachments of a record in the order they came.
pub(super) async fn all(db: &mut PgConnection, code: &str) -> sqlx::Result<Vec<AttachmentRow>> {
    sqlx::query_as(concat!(attachment_columns!(), "where code = $1 order by at, attachment_id"))
        .bind(code)
        .fetch_all(db)
        .await
}

/// One attachment.
pub(super) async fn find(
    db: &mut PgConnection,
    code: &str,
    id: Uuid,
) -> sqlx::Result<Option<AttachmentRow>> {
    sqlx::query_as(concat!(attachment_columns!(), "where code = $1 and attachment_id = $2"))
        .bind(code)
        .bind(id)
        .fetch_optional(db)
        .await
}

/// Its bytes.
pub(super) async fn content(db: &mut PgConnection, code: &str, id: Uuid) -> sqlx::Result<Vec<u8>> {
    sqlx::query_scalar(
        "select content from qualification_attachment where code = $1 and attachment_id = $2",
    )
    .bind(code)
    .bind(id)
    .fetch_one(db)
    .await
}

/// Marks an attachment as withdrawn.
pub(super) async fn withdraw(
    db: &mut PgConnection,
    actor: Actor,
    (code, id): (&str, Uuid),
    reason: &str,
) -> sqlx::Result<()> {
    sqlx::query(
        "update qualification_attachment
         set withdrawn_at = now(), withdrawn_by = $3, withdrawn_because = $4
         where code = $1 and attachment_id = $2",
    )
    .bind(code)
    .bind(id)
    .bind(actor.person)
    .bind(reason)
    .execute(db)
    .await?;
    Ok(())
}
