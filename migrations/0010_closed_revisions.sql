-- What was released, signed or put in force is closed: no row is slipped in beside the service's own steps.
--
-- A revision is written as the next one of its record, or as the next edit of its draft; the ranges of a
-- procedure change while it is a draft; its judgement is kept while it is under review, by its release.

create function revision_is_next() returns trigger
    language plpgsql set search_path = pg_catalog, public, pg_temp
as $$
declare
    head record;
begin
    select r.revision, r.edit, r.state into head from record r
    where (r.organisation_id, r.kind, r.code) = (new.organisation_id, new.kind, new.code);
    if (new.revision, new.edit) = (head.revision + 1, 1) and head.state not in ('draft', 'in-review')
        or (new.revision, new.edit) = (head.revision, head.edit + 1) and head.state = 'draft'
        or (head.revision, head.edit, new.revision, new.edit) = (1, 1, 1, 1) then
        return new;
    end if;
    raise exception 'revision % edit % does not follow', new.revision, new.edit
        using errcode = 'integrity_constraint_violation';
end $$;
create trigger revision_is_next before insert on record_revision
    for each row execute function revision_is_next();

create function standing_is() returns trigger
    language plpgsql set search_path = pg_catalog, public, pg_temp
as $$
declare
    own record;
begin
    if tg_op = 'DELETE' then own := old; else own := new; end if;
    if exists (
        select 1 from procedure_standing s
        where (s.organisation_id, s.code, s.revision) = (own.organisation_id, own.code, own.revision)
          and s.state = tg_argv[0]) then
        return own;
    end if;
    raise exception '% revision % is not %', own.code, own.revision, tg_argv[0]
        using errcode = 'integrity_constraint_violation';
end $$;
create trigger limits_of_a_draft before insert or delete on procedure_limit
    for each row execute function standing_is('draft');
create trigger judgement_under_review before insert on procedure_support
    for each row execute function standing_is('in-review');
