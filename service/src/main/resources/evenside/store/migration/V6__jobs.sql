-- Bulk work that goes on after the reply. These rows are no record: they are working papers, removed
-- line by line as the lines are done, and altogether when the job expires. What the lines recorded is
-- in the tables of the record.

-- A job is there once all its lines are. lines: how many; first lines may have been done before.
create table if not exists job (
  clinic      varchar(64) not null,
  id          uuid not null,
  client      varchar(128) not null,
  scopes      varchar(400) not null,
  received_at timestamp with time zone not null,
  expires_at  timestamp with time zone not null,
  lines       integer not null,
  constraint job_key primary key (clinic, id)
);

-- A line that waits, as it was sent. case_id: erased with the case.
create table if not exists job_line (
  clinic  varchar(64) not null,
  job_id  uuid not null,
  line    integer not null,
  case_id varchar(64),
  request bytea not null,
  constraint job_line_key primary key (clinic, job_id, line)
);
create index if not exists job_line_of_case on job_line (clinic, case_id);

-- What came of a line: an HTTP status, and the line of the answer.
create table if not exists job_result (
  clinic varchar(64) not null,
  job_id uuid not null,
  line   integer not null,
  status integer not null,
  result bytea not null,
  constraint job_result_key primary key (clinic, job_id, line)
);

-- Which process works at a job, and until when it may: of several that want the same turn, the
-- primary key lets one through. A process that dies loses its job when the time is over.
create table if not exists job_turn (
  clinic   varchar(64) not null,
  job_id   uuid not null,
  turn     integer not null,
  worker   uuid not null,
  until_at timestamp with time zone not null,
  constraint job_turn_key primary key (clinic, job_id, turn)
);
