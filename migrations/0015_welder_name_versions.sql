-- A name says which version of it is there, so that nobody writes over what they have not read.
alter table welder_name add column version integer not null default 1;
alter table welder_name alter column version drop default;

grant update (version) on welder_name to arcbounds_app;
