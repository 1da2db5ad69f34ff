-- A signature on the support of a procedure under review holds for the judgement that its signer saw.
--
-- A server that was not updated yet goes on writing signatures without it; the release asks to sign those again.

alter table procedure_event add column judged bytea;
alter table procedure_event add constraint procedure_event_judged_check check (octet_length(judged) = 32);
comment on column procedure_event.judged is
    'SHA-256 of the canonical bytes of the judgement a signature under review was given for.';
