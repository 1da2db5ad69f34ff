-- Welders and operators. The record holds codes and test pieces only; the name stands in a table of its own,
-- so that it can be taken out when its purpose is over, and no hash of the audit chain contains it.

alter table record drop constraint record_kind_check;
alter table record add constraint record_kind_check
    check (kind in ('consumable', 'procedure', 'station', 'work-order', 'qualification', 'welder'));

-- What happened to a welder's qualification, in order; append-only. A person signs each.
create table welder_event (
    organisation_id uuid not null,
    code            text not null,
    sequence        integer not null,
    qualification   text not null,
    event           text not null,
    on_day          date not null,
    by_use          boolean not null,
    option          text,
    welds           date[] not null,
    reason          text not null,
    test_hash       bytea not null,
    person_id       uuid not null,
    key_id          uuid not null,
    at              timestamptz not null default now(),
    primary key (organisation_id, code, sequence),
    constraint welder_event_event_check
        check (event in ('confirmed', 'revalidated', 'range-signed', 'withdrawn')),
    constraint welder_event_person_fkey foreign key (organisation_id, person_id) references person
);

-- Who stands behind a welder's code.
create table welder_name (
    organisation_id uuid not null references organisation,
    code            text not null,
    name            text,
    retention       text not null,
    primary key (organisation_id, code)
);

do $$
declare
    guarded text;
begin
    foreach guarded in array array['welder_event', 'welder_name']
    loop
        execute format('alter table %I enable row level security', guarded);
        execute format(
            'create policy one_organisation on %I using (organisation_id = current_organisation())
             with check (organisation_id = current_organisation())', guarded);
    end loop;
end $$;

grant select, insert on welder_event, welder_name to arcbounds_app;
grant update (name, retention) on welder_name to arcbounds_app;
