-- How a procedure's qualification records were judged when a revision was released; append-only, one a
-- revision, since a revision is released once. Checks read it, never the records themselves.
create table procedure_support (
    organisation_id uuid not null references organisation,
    code            text not null,
    revision        integer not null,
    judgement       jsonb not null,
    at              timestamptz not null default now(),
    primary key (organisation_id, code, revision)
);
create index procedure_support_records on procedure_support using gin (judgement jsonb_path_ops);
alter table procedure_support enable row level security;
create policy one_organisation on procedure_support using (organisation_id = current_organisation())
    with check (organisation_id = current_organisation());
grant select, insert on procedure_support to arcbounds_app;
