-- The audit chain covers what lies beside the documents: reasons, dates, signatures, judgements, roles.
--
-- Whatever a transaction writes about a subject into one of the tables below is told in the details of the
-- subject's entry, and the entry's hash covers the hash of the details: what a person wrote as a reason can
-- be taken out of the details later, and the chain still holds. Entries that are there already keep their
-- hash (format 1); new ones have format 2. A server that was not updated yet goes on writing format 1.

alter table audit_entry
    add column format smallint not null default 1,
    add column details jsonb,
    add column details_hash bytea;
alter table audit_entry add constraint audit_entry_format_check check (format in (1, 2));

-- How a row is told. What is told of a table here is told for ever: entries are compared with it. A table
-- that is to be covered besides is one more branch.
create function told_at(moment timestamptz) returns text
    language sql stable parallel safe
    return to_char(moment at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"');

create view covered_row with (security_invoker = true) as
    select organisation_id, 'revision' as source, kind, code as subject, xmin as written_by,
        jsonb_strip_nulls(jsonb_build_object(
            'revision', revision, 'edit', edit, 'document', encode(document_hash, 'hex'),
            'reason', reason, 'person', author_id, 'key', key_id, 'at', told_at(created_at))) as told
    from record_revision
union all
    select organisation_id, 'procedure-event', 'procedure', code, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'revision', revision, 'sequence', sequence, 'event', event, 'reason', reason,
            'effective_from', effective_from, 'effective_until', effective_until,
            'person', person_id, 'key', key_id, 'at', told_at(at)))
    from procedure_event
union all
    select organisation_id, 'release-judgement', 'procedure', code, xmin,
        jsonb_build_object('revision', revision, 'judgement', judgement, 'at', told_at(at))
    from procedure_support
union all
    select organisation_id, 'qualification-signature', 'qualification', code, xmin,
        jsonb_build_object(
            'revision', revision, 'edit', edit, 'document', encode(document_hash, 'hex'),
            'statement', statement, 'person', person_id, 'key', key_id, 'at', told_at(at))
    from qualification_signature
union all
    select organisation_id, 'attachment', 'qualification', code, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'attachment', attachment_id, 'name', name, 'media_type', media_type, 'length', length,
            'sha256', encode(sha256, 'hex'), 'person', person_id, 'key', key_id, 'at', told_at(at)))
    from qualification_attachment
union all
    select organisation_id, 'attachment-withdrawal', 'qualification', code, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'attachment', attachment_id, 'reason', withdrawn_because, 'person', withdrawn_by,
            'at', told_at(withdrawn_at)))
    from qualification_attachment where withdrawn_at is not null
union all
    select organisation_id, 'welder-event', 'welder', code, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'sequence', sequence, 'qualification', qualification, 'event', event, 'on', on_day,
            'by_use', by_use, 'option', option, 'welds', to_jsonb(welds), 'reason', reason,
            'test', encode(test_hash, 'hex'), 'person', person_id, 'key', key_id, 'at', told_at(at)))
    from welder_event
union all
    -- People without their names.
    select organisation_id, 'person', 'person', person_id::text, xmin,
        jsonb_build_object('roles', to_jsonb(roles), 'active', active, 'version', version)
    from person
union all
    select organisation_id, 'key', 'key', key_id::text, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'roles', to_jsonb(roles), 'person', person_id, 'station', station,
            'expires_at', told_at(expires_at), 'revoked_at', told_at(revoked_at)))
    from api_key;

grant select on covered_row to arcbounds_app;

-- A change of the settings names the version it starts from, as one of a record does.
alter table organisation add column version integer not null default 1;
grant update (version) on organisation to arcbounds_app;
