-- Batches of consumables, and what was done with their packets.

-- All kinds there are, and batches: the list as it stands is kept, whichever migrations came before.
do $$
declare
    kinds text;
begin
    select pg_get_constraintdef(oid) into strict kinds
    from pg_constraint where conname = 'record_kind_check' and conrelid = 'record'::regclass;
    alter table record drop constraint record_kind_check;
    execute 'alter table record add constraint record_kind_check '
        || replace(kinds, 'ARRAY[', 'ARRAY[''consumable-batch''::text, ');
end $$;

-- What was done with a portion of a batch, in order; append-only. People and kiosks note it.
create table consumable_batch_event (
    organisation_id uuid not null references organisation,
    code            text not null,
    sequence        integer not null,
    document        jsonb not null,
    person_id       uuid,
    key_id          uuid not null,
    noted_at        timestamptz not null default now(),
    primary key (organisation_id, code, sequence),
    constraint consumable_batch_event_person_fkey foreign key (organisation_id, person_id) references person
);

alter table consumable_batch_event enable row level security;
create policy one_organisation on consumable_batch_event
    using (organisation_id = current_organisation())
    with check (organisation_id = current_organisation());

grant select, insert on consumable_batch_event to arcbounds_app;
