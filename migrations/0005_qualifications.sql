-- Qualification records: the record mechanism takes a fifth kind, whose revisions are signed by a second
-- person, and which has attachments.

alter table record drop constraint record_kind_check;
alter table record add constraint record_kind_check
    check (kind in ('consumable', 'procedure', 'station', 'work-order', 'qualification'));
alter table record drop constraint record_state_check;
alter table record add constraint record_state_check
    check (state in ('draft', 'in-review', 'released', 'superseded', 'withdrawn', 'current', 'signed'));

-- Who vouches that an entered revision says what the paper record says; one a revision, append-only.
create table qualification_signature (
    organisation_id uuid not null references organisation,
    code            text not null,
    revision        integer not null,
    edit            integer not null,
    document_hash   bytea not null,
    person_id       uuid not null,
    key_id          uuid not null,
    statement       text not null,
    at              timestamptz not null default now(),
    primary key (organisation_id, code, revision),
    constraint qualification_signature_person_fkey
        foreign key (organisation_id, person_id) references person
);

-- Reports and photos. The content is never changed; a withdrawn attachment stays readable.
create table qualification_attachment (
    organisation_id   uuid not null references organisation,
    code              text not null,
    attachment_id     uuid not null,
    name              text not null,
    media_type        text not null,
    length            integer not null,
    sha256            bytea not null,
    content           bytea not null,
    person_id         uuid,
    key_id            uuid not null,
    at                timestamptz not null default now(),
    withdrawn_at      timestamptz,
    withdrawn_by      uuid,
    withdrawn_because text,
    primary key (organisation_id, code, attachment_id),
    constraint qualification_attachment_person_fkey
        foreign key (organisation_id, person_id) references person,
    constraint qualification_attachment_withdrawn_fkey
        foreign key (organisation_id, withdrawn_by) references person,
    constraint qualification_attachment_media_check
        check (media_type in ('application/pdf', 'image/jpeg', 'image/png')),
    constraint qualification_attachment_length_check
        check (length = octet_length(content) and length between 1 and 10485760),
    constraint qualification_attachment_hash_check check (sha256 = sha256(content)),
    constraint qualification_attachment_withdrawn_check
        check ((withdrawn_at is null) = (withdrawn_because is null))
);
-- What is compressed already is not compressed again.
alter table qualification_attachment alter column content set storage external;

do $$
declare
    guarded text;
begin
    foreach guarded in array array['qualification_signature', 'qualification_attachment']
    loop
        execute format('alter table %I enable row level security', guarded);
        execute format(
            'create policy one_organisation on %I using (organisation_id = current_organisation())
             with check (organisation_id = current_organisation())', guarded);
    end loop;
end $$;

grant select, insert on qualification_signature, qualification_attachment to arcbounds_app;
grant update (withdrawn_at, withdrawn_by, withdrawn_because) on qualification_attachment to arcbounds_app;
