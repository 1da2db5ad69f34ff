-- A rulebook reads what changed since its version; kept checks write entries that are no rule changes, and
-- there can be many of them.
create index audit_entry_rules on audit_entry (organisation_id, number) where changes_rules;
