-- Kept checks are found by work order, station and time. Both are columns, since the wall between organisations lets
-- no index on an expression be used: `->>` could tell of a row before the row is known to be the asker's.
alter table kept_check
    add column work_order text generated always as (setup ->> 'work_order') stored,
    add column station    text generated always as (setup ->> 'station') stored;

create index kept_check_at on kept_check (organisation_id, at desc, check_id desc);
create index kept_check_work_order on kept_check (organisation_id, work_order, at desc, check_id desc)
    where work_order is not null;
create index kept_check_station on kept_check (organisation_id, station, at desc, check_id desc)
    where station is not null;
