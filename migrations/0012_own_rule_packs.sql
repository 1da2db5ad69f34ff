-- Rule packs that an organisation writes itself are records: revisions, one hash, one audit chain. The list of kinds
-- keeps every kind that it has.
do $$
declare
    kinds text;
begin
    select pg_get_constraintdef(oid) into strict kinds
    from pg_constraint where conname = 'record_kind_check' and conrelid = 'record'::regclass;
    alter table record drop constraint record_kind_check;
    execute 'alter table record add constraint record_kind_check '
        || replace(kinds, 'ARRAY[', 'ARRAY[''rule-pack''::text, ');
end $$;
