-- Rule packs that an organisation writes itself are records: revisions, one hash, one audit chain.
alter table record drop constraint record_kind_check;
alter table record add constraint record_kind_check
    check (kind in ('consumable', 'procedure', 'station', 'work-order', 'qualification', 'welder', 'rule-pack'));
