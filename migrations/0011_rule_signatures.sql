-- Rules of a pack that a person compared with the organisation's own copy of the code. A signature holds for the
-- rule as it is written today: it names the hash of its text. Append-only; a withdrawal is a row of its own.

create table rule_signature (
    organisation_id uuid not null references organisation,
    signature_id    uuid not null,
    pack            text not null,
    copy            text not null,
    statement       text,
    person_id       uuid not null,
    key_id          uuid not null,
    at              timestamptz not null default now(),
    primary key (organisation_id, signature_id),
    constraint rule_signature_copy_check check (copy <> ''),
    constraint rule_signature_person_fkey foreign key (organisation_id, person_id) references person
);
create index rule_signature_pack on rule_signature (organisation_id, pack);

create table signed_rule (
    organisation_id uuid not null references organisation,
    signature_id    uuid not null,
    rule            text not null,
    rule_hash       bytea not null,
    primary key (organisation_id, signature_id, rule),
    constraint signed_rule_signature_fkey
        foreign key (organisation_id, signature_id) references rule_signature
);

create table rule_signature_withdrawal (
    organisation_id uuid not null references organisation,
    signature_id    uuid not null,
    reason          text not null,
    person_id       uuid not null,
    key_id          uuid not null,
    at              timestamptz not null default now(),
    primary key (organisation_id, signature_id),
    constraint rule_signature_withdrawal_signature_fkey
        foreign key (organisation_id, signature_id) references rule_signature,
    constraint rule_signature_withdrawal_person_fkey
        foreign key (organisation_id, person_id) references person
);

do $$
declare
    guarded text;
begin
    foreach guarded in array array['rule_signature', 'signed_rule', 'rule_signature_withdrawal']
    loop
        execute format('alter table %I enable row level security', guarded);
        execute format(
            'create policy one_organisation on %I using (organisation_id = current_organisation())
             with check (organisation_id = current_organisation())', guarded);
    end loop;
end $$;

grant select, insert on rule_signature, signed_rule, rule_signature_withdrawal to arcbounds_app;
