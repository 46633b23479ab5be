-- The training record. Rows are inserted and never changed or removed: an entry that completes
-- another names it and leaves it as it is.

create table if not exists training_session (
  clinic         varchar(64) not null,
  id             uuid not null,
  case_id        varchar(64) not null,
  record_id      varchar(64),
  content_sha256 varchar(64) not null check (length(content_sha256) = 64),
  performed_at   timestamp with time zone not null,
  received_at    timestamp with time zone not null,
  -- True if it may call for a stop, or is a clearance: looked at however old it is.
  flagged        boolean not null,
  document       bytea not null,
  -- The entry as it was sent. Advice and decisions look at many entries and at this alone; the
  -- document holds the advice of its day too, which is ten times as long.
  content        bytea not null,
  constraint training_session_key primary key (clinic, id),
  constraint training_session_record_id unique (clinic, record_id)
);
create index if not exists training_session_of_case
  on training_session (clinic, case_id, performed_at desc, id desc);
create index if not exists training_session_flagged
  on training_session (clinic, case_id, flagged, performed_at desc, id desc);
