-- Records: one head row each, and every revision as one canonical document that is only inserted.
--
-- Consumables, procedures, stations and work orders share the mechanism; what only one kind has
-- (life-cycle events, range projections) is in tables of its own.

create table record (
    organisation_id uuid not null references organisation,
    kind            text not null,
    code            text not null,
    revision        integer not null,
    edit            integer not null,
    state           text not null,
    version         integer not null,
    changed_at      timestamptz not null default now(),
    rule_version    bigint not null,
    primary key (organisation_id, kind, code),
    constraint record_kind_check check (kind in ('consumable', 'procedure', 'station', 'work-order')),
    constraint record_code_check check (code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$'),
    constraint record_state_check
        check (state in ('draft', 'in-review', 'released', 'superseded', 'withdrawn', 'current'))
);
create index record_rule_version on record (organisation_id, rule_version);

create table record_revision (
    organisation_id uuid not null,
    kind            text not null,
    code            text not null,
    revision        integer not null,
    edit            integer not null,
    document        jsonb not null,
    document_hash   bytea not null,
    reason          text,
    author_id       uuid,
    key_id          uuid not null,
    created_at      timestamptz not null default now(),
    primary key (organisation_id, kind, code, revision, edit),
    constraint record_revision_record_fkey
        foreign key (organisation_id, kind, code) references record deferrable initially deferred,
    constraint record_revision_author_fkey
        foreign key (organisation_id, author_id) references person,
    constraint record_revision_counts_check check (revision >= 1 and edit >= 1)
);
create index record_revision_document on record_revision using gin (document jsonb_path_ops);

-- What happened to a procedure revision, in order; append-only.
create table procedure_event (
    organisation_id uuid not null,
    code            text not null,
    revision        integer not null,
    sequence        integer not null,
    event           text not null,
    person_id       uuid not null,
    key_id          uuid not null,
    reason          text,
    effective_from  date,
    effective_until date,
    at              timestamptz not null default now(),
    primary key (organisation_id, code, revision, sequence),
    constraint procedure_event_event_check check
        (event in ('submitted', 'returned', 'released', 'support-signed', 'superseded', 'withdrawn')),
    constraint procedure_event_person_fkey foreign key (organisation_id, person_id) references person
);

-- The state that the events add up to; a projection, compared with them by a test.
create table procedure_standing (
    organisation_id uuid not null,
    code            text not null,
    revision        integer not null,
    state           text not null,
    events          integer not null,
    effective_from  date,
    effective_until date,
    signed_by       uuid,
    primary key (organisation_id, code, revision),
    constraint procedure_standing_state_check
        check (state in ('draft', 'in-review', 'released', 'superseded', 'withdrawn'))
);

-- Ranges of a procedure revision in canonical units; a projection of the document, for searching.
create table procedure_limit (
    organisation_id uuid not null,
    code            text not null,
    revision        integer not null,
    run_class       text not null,
    variable        text not null,
    allowed         numrange not null,
    primary key (organisation_id, code, revision, run_class, variable),
    constraint procedure_limit_allowed_check check (not isempty(allowed))
);

-- Conditions of a consumable's data; a projection that keeps two alike out of one edition.
create table consumable_condition (
    organisation_id uuid not null,
    code            text not null,
    document        text not null,
    edition         text not null,
    diameter_mm     numeric not null,
    gas             text not null,
    polarity        text not null,
    positions       text not null,
    wire_feed       numrange,
    voltage         numrange,
    stick_out       numrange,
    primary key (organisation_id, code, document, edition, diameter_mm, gas, polarity, positions)
);

-- Answers that a caller asked to keep.
create table kept_check (
    organisation_id  uuid not null references organisation,
    check_id         uuid not null,
    at               timestamptz not null,
    key_id           uuid not null,
    person_id        uuid,
    rulebook_version bigint not null,
    setup            jsonb not null,
    answer           jsonb not null,
    primary key (organisation_id, check_id)
);

do $$
declare
    guarded text;
begin
    foreach guarded in array array['record', 'record_revision', 'procedure_event', 'procedure_standing',
        'procedure_limit', 'consumable_condition', 'kept_check']
    loop
        execute format('alter table %I enable row level security', guarded);
        execute format(
            'create policy one_organisation on %I using (organisation_id = current_organisation())
             with check (organisation_id = current_organisation())', guarded);
    end loop;
end $$;

grant select, insert on record, procedure_standing to arcbounds_app;
grant update (revision, edit, state, version, changed_at, rule_version) on record to arcbounds_app;
grant update (state, events, effective_from, effective_until, signed_by) on procedure_standing
    to arcbounds_app;
grant select, insert on record_revision, procedure_event, kept_check to arcbounds_app;
grant select, insert, delete on procedure_limit, consumable_condition to arcbounds_app;
