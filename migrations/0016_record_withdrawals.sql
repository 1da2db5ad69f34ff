-- Why a record was taken out of use, and by whom; append-only. Records that were withdrawn before have no row.

create table record_withdrawal (
    organisation_id uuid not null references organisation,
    kind            text not null,
    code            text not null,
    reason          text not null,
    person_id       uuid,
    key_id          uuid not null,
    at              timestamptz not null default now(),
    primary key (organisation_id, kind, code),
    constraint record_withdrawal_record_fkey
        foreign key (organisation_id, kind, code) references record,
    constraint record_withdrawal_person_fkey foreign key (organisation_id, person_id) references person
);

alter table record_withdrawal enable row level security;
create policy one_organisation on record_withdrawal
    using (organisation_id = current_organisation())
    with check (organisation_id = current_organisation());

grant select, insert on record_withdrawal to arcbounds_app;

create or replace view covered_row with (security_invoker = true) as
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
    from api_key
union all
    select organisation_id, 'batch-event', 'consumable-batch', code, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'sequence', sequence, 'event', document, 'person', person_id, 'key', key_id,
            'at', told_at(noted_at)))
    from consumable_batch_event
union all
    select organisation_id, 'rule-signature', 'rule-signature', pack, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'signature', signature_id, 'copy', copy, 'statement', statement, 'person', person_id,
            'key', key_id, 'at', told_at(at)))
    from rule_signature
union all
    select r.organisation_id, 'signed-rule', 'rule-signature', s.pack, r.xmin,
        jsonb_build_object(
            'signature', r.signature_id, 'rule', r.rule, 'hash', encode(r.rule_hash, 'hex'))
    from signed_rule r join rule_signature s using (organisation_id, signature_id)
union all
    select w.organisation_id, 'rule-signature-withdrawal', 'rule-signature', s.pack, w.xmin,
        jsonb_build_object(
            'signature', w.signature_id, 'reason', w.reason, 'person', w.person_id, 'key', w.key_id,
            'at', told_at(w.at))
    from rule_signature_withdrawal w join rule_signature s using (organisation_id, signature_id)
union all
    select organisation_id, 'withdrawal', kind, code, xmin,
        jsonb_strip_nulls(jsonb_build_object(
            'reason', reason, 'person', person_id, 'key', key_id, 'at', told_at(at)))
    from record_withdrawal;
