//! What lies beside the chain in the database, held against it: the rows that entries tell of, what no entry
//! tells of, where records stand, and everything that knows how far the chain goes.

use sqlx::{FromRow, PgConnection};

use super::chain::{Fault, FaultKind};

/// Most rows that one question gives.
const MOST: i64 = 1000;

#[derive(Debug, FromRow)]
struct Found {
    entry: Option<i64>,
    kind: String,
    subject: String,
    revision: Option<i64>,
    what: String,
}

impl Found {
    fn fault(self, kind: FaultKind) -> Fault {
        let fault = Fault::new(kind, self.what).about(self.kind, self.subject, self.revision);
        match self.entry {
            Some(entry) => fault.at(entry),
            None => fault,
        }
    }
}

/// Every fault beside the chain.
///
/// # Errors
/// When the database fails.
pub(super) async fn faults(db: &mut PgConnection) -> sqlx::Result<Vec<Fault>> {
    let mut faults = told_rows(db).await?;
    for (kind, statement) in [
        (FaultKind::DocumentNotInChain, UNNAMED_DOCUMENTS),
        (FaultKind::DocumentMissing, MISSING_ATTACHMENTS),
        (FaultKind::DocumentAltered, ALTERED_ATTACHMENTS),
        (FaultKind::StandingAltered, ALTERED_STANDINGS),
        (FaultKind::StandingAltered, ALTERED_HEADS),
    ] {
        let found: Vec<Found> = sqlx::query_as(statement).bind(MOST).fetch_all(&mut *db).await?;
        faults.extend(found.into_iter().map(|found| found.fault(kind)));
    }
    Ok(faults)
}

/// The highest number of an entry that anything else in the database knows: a stamped record or a kept
/// check.
///
/// # Errors
/// When the database fails.
pub(super) async fn known_number(db: &mut PgConnection) -> sqlx::Result<i64> {
    sqlx::query_scalar(
        "select greatest((select max(rule_version) from record),
                         (select max(rulebook_version) from kept_check), 0)",
    )
    .fetch_one(db)
    .await
}

/// Rows that entries tell of, against those that are there. People and keys change in place, so that only what
/// their last entry tells is there still. What was written before entries told of rows is told by none: a row
/// as old as such an entry of its subject, give or take what two clocks differ by, is no fault.
async fn told_rows(db: &mut PgConnection) -> sqlx::Result<Vec<Fault>> {
    #[derive(FromRow)]
    struct Row {
        is_told: bool,
        #[sqlx(flatten)]
        found: Found,
    }
    let rows: Vec<Row> = sqlx::query_as(TOLD_ROWS).bind(MOST).fetch_all(db).await?;
    let fault = |row: Row| {
        let kind = if row.is_told { FaultKind::RowAltered } else { FaultKind::RowNotInChain };
        row.found.fault(kind)
    };
    Ok(rows.into_iter().map(fault).collect())
}

const TOLD_ROWS: &str = "
    with told as (
        select e.number, e.subject_kind as kind, e.subject, s.source, r.told,
            row_number() over (
                partition by e.subject_kind, e.subject, s.source order by e.number desc) as age
        from audit_entry e,
            jsonb_each(case jsonb_typeof(e.details) when 'object' then e.details end) as s (source, rows),
            jsonb_array_elements(case jsonb_typeof(s.rows) when 'array' then s.rows end) as r (told)
    ), last_told as (
        select distinct number, kind, subject, source, told from told
        where source not in ('person', 'key') or age = 1
    )
    select t.number is not null as is_told, t.number as entry,
        coalesce(t.kind, c.kind) as kind, coalesce(t.subject, c.subject) as subject,
        substring(coalesce(t.told, c.told) ->> 'revision' from '^[0-9]{1,9}$')::bigint as revision,
        case when t.number is not null
            then 'no ' || t.source || ' says any more what the entry tells: ' || left(t.told::text, 300)
            else 'no entry tells of this ' || c.source || ': ' || left(c.told::text, 300)
        end as what
    from last_told t
    full join (select * from covered_row) c
        on (c.source, c.kind, c.subject, c.told) = (t.source, t.kind, t.subject, t.told)
    where c.source is null
       or (t.number is null and c.source not in ('revision', 'attachment') and not exists (
            select 1 from audit_entry e
            where e.subject_kind = c.kind and e.subject = c.subject and e.format = 1
              and coalesce(c.told ->> 'at', '') <= told_at(e.at + interval '1 hour')))
    order by 2, 3, 4 limit $1";

const UNNAMED_DOCUMENTS: &str = "
    select null::bigint as entry, v.kind, v.code as subject, v.revision::bigint as revision,
        'no entry names edit ' || v.edit || ' of this revision, which has the hash '
            || encode(v.document_hash, 'hex') as what
    from record_revision v
    where not exists (
        select 1 from audit_entry e
        where (e.subject_kind, e.subject, e.revision, e.document_hash)
            = (v.kind, v.code, v.revision, v.document_hash))
union all
    select null, 'check', k.check_id::text, null, 'no entry names this kept check'
    from kept_check k
    where not exists (
        select 1 from audit_entry e where e.subject_kind = 'check' and e.subject = k.check_id::text)
union all
    select null, 'qualification', a.code, null,
        'no entry names attachment ' || a.attachment_id || ', which has the hash ' || encode(a.sha256, 'hex')
    from qualification_attachment a
    where not exists (
        select 1 from audit_entry e
        where (e.subject_kind, e.subject, e.action, e.document_hash)
            = ('qualification', a.code, 'attached', a.sha256))
    limit $1";

const MISSING_ATTACHMENTS: &str = "
    select e.number as entry, e.subject_kind as kind, e.subject, e.revision::bigint as revision,
        'the attachment with the hash ' || encode(e.document_hash, 'hex') || ' is not there' as what
    from audit_entry e
    where e.action = 'attached' and e.format = 1 and not exists (
        select 1 from qualification_attachment a
        where (a.code, a.sha256) = (e.subject, e.document_hash))
    order by e.number limit $1";

const ALTERED_ATTACHMENTS: &str = "
    select null::bigint as entry, 'qualification' as kind, code as subject, null::bigint as revision,
        'the bytes of attachment ' || attachment_id || ' have the hash ' || encode(sha256(content), 'hex')
            || ', not ' || encode(sha256, 'hex') as what
    from qualification_attachment
    where sha256 <> sha256(content) or length <> octet_length(content) limit $1";

const ALTERED_STANDINGS: &str = "
    with last as (
        select code, revision, max(sequence) as events,
            (array_agg(event order by sequence desc) filter (where event <> 'support-signed'))[1] as event,
            (array_agg(effective_from order by sequence desc))[1] as effective_from,
            (array_agg(effective_until order by sequence desc))[1] as effective_until,
            (array_agg(case event when 'support-signed' then person_id end order by sequence desc)
                filter (where event in ('support-signed', 'returned')))[1] as signed_by
        from procedure_event group by code, revision
    )
    select null::bigint as entry, 'procedure' as kind, coalesce(s.code, l.code) as subject,
        coalesce(s.revision, l.revision)::bigint as revision,
        'its standing (' || coalesce(s.state, 'none') || ') is not what its events add up to ('
            || coalesce(l.event, 'none') || ')' as what
    from procedure_standing s
    full join last l on (l.code, l.revision) = (s.code, s.revision)
    where s.code is null
       or (s.state, s.events, s.effective_from, s.effective_until, s.signed_by) is distinct from
          (case coalesce(l.event, 'returned') when 'submitted' then 'in-review' when 'returned' then 'draft'
                else l.event end,
           coalesce(l.events, 0), l.effective_from, l.effective_until, l.signed_by)
    limit $1";

/// A record is withdrawn where an entry says so, which names no document; a step about a welder's
/// qualification has the same name, and names one.
const ALTERED_HEADS: &str = "
    with stands as (
        select r.kind, r.code, r.revision, r.edit, r.state, n.revision as newest, n.edit as newest_edit,
            exists (select 1 from audit_entry e
                    where (e.subject_kind, e.subject, e.action) = (r.kind, r.code, 'withdrawn')
                      and e.document_hash is null) as withdrawn,
            case r.kind
                when 'procedure' then (select s.state from procedure_standing s
                    where (s.code, s.revision) = (r.code, r.revision))
                when 'qualification' then case when exists (select 1 from qualification_signature g
                    where (g.code, g.revision) = (r.code, r.revision)) then 'signed' else 'draft' end
                else 'current'
            end as state_by_rows
        from record r
        left join lateral (
            select v.revision, v.edit from record_revision v
            where (v.kind, v.code) = (r.kind, r.code)
            order by v.revision desc, v.edit desc limit 1
        ) n on true
    )
    select null::bigint as entry, kind, code as subject, revision::bigint as revision,
        'the record stands at revision ' || revision || ' edit ' || edit || ' (' || state
            || '); by its revisions and entries it is revision ' || coalesce(newest::text, 'none') || ' edit '
            || coalesce(newest_edit::text, 'none') || ' ('
            || coalesce(case when withdrawn then 'withdrawn' else state_by_rows end, 'none') || ')' as what
    from stands
    where (revision, edit) is distinct from (newest, newest_edit)
       or state is distinct from case when withdrawn then 'withdrawn' else state_by_rows end
    order by kind, code limit $1";
