-- Organisations, people and keys, the audit chain, and the wall between organisations.
--
-- Every primary key starts with organisation_id, and row-level security shows a connection only the
-- rows of the organisation set in its transaction. A transaction-local setting reads '' afterwards,
-- hence nullif. The server connects as arcbounds_app, which owns nothing.

create function current_organisation() returns uuid
    language sql stable parallel safe
    return nullif(current_setting('arcbounds.organisation', true), '')::uuid;

create table organisation (
    organisation_id uuid primary key,
    name            text not null,
    settings        jsonb not null,
    created_at      timestamptz not null default now(),
    constraint organisation_name_check check (name <> '')
);

-- Names stay here; the audit chain knows people by id only, so that a name can be removed.
create table person (
    organisation_id uuid not null references organisation,
    person_id       uuid not null,
    name            text not null,
    roles           text[] not null,
    active          boolean not null default true,
    version         integer not null default 1,
    created_at      timestamptz not null default now(),
    primary key (organisation_id, person_id),
    constraint person_name_check check (name <> '')
);

-- A key acts for a person, for a station, or for shop software (neither). Only its hash is kept.
create table api_key (
    organisation_id uuid not null references organisation,
    key_id          uuid not null,
    label           text not null,
    roles           text[] not null,
    person_id       uuid,
    station         text,
    secret_hash     bytea not null,
    created_at      timestamptz not null default now(),
    expires_at      timestamptz,
    revoked_at      timestamptz,
    last_used_at    timestamptz,
    primary key (organisation_id, key_id),
    constraint api_key_secret_hash_key unique (secret_hash),
    constraint api_key_person_fkey foreign key (organisation_id, person_id) references person,
    constraint api_key_one_holder_check check (person_id is null or station is null)
);

-- One chain per organisation: the head row is locked last in a transaction, so numbers have no gap.
create table audit_head (
    organisation_id  uuid primary key references organisation,
    number           bigint not null default 0,
    hash             bytea not null default decode(repeat('00', 32), 'hex'),
    rulebook_version bigint not null default 0
);

create table audit_entry (
    organisation_id uuid not null references organisation,
    number          bigint not null,
    at              timestamptz not null,
    person_id       uuid,
    key_id          uuid,
    action          text not null,
    subject_kind    text not null,
    subject         text not null,
    revision        integer,
    document_hash   bytea,
    changes_rules   boolean not null,
    previous_hash   bytea not null,
    hash            bytea not null,
    primary key (organisation_id, number)
);
create index audit_entry_subject on audit_entry (organisation_id, subject, number);

-- Answers of writing requests, for safe retries; kept for a day.
create table retry (
    organisation_id uuid not null references organisation,
    key_id          uuid not null,
    route           text not null,
    retry_key       text not null,
    fingerprint     bytea not null,
    status          integer not null,
    headers         jsonb not null,
    body            bytea not null,
    created_at      timestamptz not null default now(),
    primary key (organisation_id, key_id, route, retry_key)
);
create index retry_created_at on retry (created_at);

do $$
declare
    guarded text;
begin
    foreach guarded in array array['organisation', 'person', 'api_key', 'audit_head', 'audit_entry', 'retry']
    loop
        execute format('alter table %I enable row level security', guarded);
        execute format(
            'create policy one_organisation on %I using (organisation_id = current_organisation())
             with check (organisation_id = current_organisation())', guarded);
    end loop;
end $$;

-- No wider than the service needs: what identifies a row, and whom a key stands for, cannot be changed.
grant select, insert on organisation, person, api_key, audit_head, audit_entry to arcbounds_app;
grant update (settings) on organisation to arcbounds_app;
grant update (name, roles, active, version) on person to arcbounds_app;
grant update (secret_hash, revoked_at, last_used_at) on api_key to arcbounds_app;
grant update (number, hash, rulebook_version) on audit_head to arcbounds_app;
grant select, insert, delete on retry to arcbounds_app;

-- The service owns nothing. Before PostgreSQL 15 anybody may make tables in this schema.
revoke create on schema public from public;

-- The rulebook loader has to see which organisations exist and how far each has come; nothing more.
create function organisation_versions()
    returns table (organisation_id uuid, rulebook_version bigint)
    language sql stable security definer set search_path = pg_catalog, pg_temp
as $$
    select h.organisation_id, h.rulebook_version from public.audit_head h
$$;
revoke all on function organisation_versions() from public;
grant execute on function organisation_versions() to arcbounds_app;
