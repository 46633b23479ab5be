-- One script for H2 and PostgreSQL. Rows are inserted and never changed or removed: a correction is
-- a new row. Documents are the bytes as received or served, so they are bytea and never a JSON
-- type, which would reorder members. Every key starts with the clinic.
--
-- Every list has an index that gives its order: a page reads as many rows as it shows, however many
-- there are. A search by several members at once walks one index and passes over what does not fit.

create table if not exists knee_case (
  clinic      varchar(64) not null,
  case_id     varchar(64) not null,
  revision    integer not null check (revision >= 1),
  received_at timestamp with time zone not null,
  sha256      varchar(64) not null check (length(sha256) = 64),
  document    bytea not null,
  constraint knee_case_key primary key (clinic, case_id, revision)
);

create table if not exists battery (
  clinic         varchar(64) not null,
  id             uuid not null,
  case_id        varchar(64) not null,
  record_id      varchar(64),
  content_sha256 varchar(64) not null check (length(content_sha256) = 64),
  performed_at   timestamp with time zone not null,
  received_at    timestamp with time zone not null,
  document       bytea not null,
  constraint battery_key primary key (clinic, id),
  constraint battery_record_id unique (clinic, record_id)
);
create index if not exists battery_of_case on battery (clinic, case_id, performed_at desc, id desc);

-- What a battery can be evidence for: one row per measure, aspect and way of testing, with the
-- number where there is one; numbers of one measure and aspect are comparable where the way is equal.
create table if not exists evidence_index (
  clinic       varchar(64) not null,
  battery_id   uuid not null,
  ordinal      integer not null,
  case_id      varchar(64) not null,
  measure      varchar(64) not null,
  aspect       varchar(64) not null,
  mode         varchar(64),
  speed        double precision,
  angle        double precision,
  context      varchar(64),
  performed_at timestamp with time zone not null,
  amount       double precision,
  unit         varchar(32),
  way          varchar(2000),
  performed_on date,
  constraint evidence_index_key primary key (clinic, battery_id, ordinal),
  constraint evidence_of_battery foreign key (clinic, battery_id) references battery (clinic, id)
);
create index if not exists evidence_newest
  on evidence_index (clinic, case_id, measure, performed_at desc, battery_id desc);

create table if not exists decision (
  clinic           varchar(64) not null,
  id               uuid not null,
  case_id          varchar(64) not null,
  criteria_set     varchar(64) not null,
  criteria_version varchar(16) not null,
  criteria_sha256  varchar(64) not null check (length(criteria_sha256) = 64),
  milestone        varchar(64) not null,
  outcome          varchar(64) not null,
  as_of            date not null,
  decided_at       timestamp with time zone not null,
  document         bytea not null,
  inputs           bytea not null,
  constraint decision_key primary key (clinic, id)
);
create index if not exists decision_newest       on decision (clinic, decided_at desc, id desc);
create index if not exists decision_of_case      on decision (clinic, case_id, decided_at desc, id desc);
create index if not exists decision_by_set       on decision (clinic, criteria_set, decided_at desc, id desc);
create index if not exists decision_by_milestone on decision (clinic, milestone, decided_at desc, id desc);
create index if not exists decision_by_outcome   on decision (clinic, outcome, decided_at desc, id desc);

-- Requests already answered. The primary key is what lets only one of many equal requests through.
create table if not exists idempotency (
  clinic          varchar(64) not null,
  idempotency_key varchar(255) not null,
  fingerprint     varchar(64) not null,
  kind            varchar(64) not null,
  record_id       varchar(64) not null,
  created_at      timestamp with time zone not null,
  constraint idempotency_once primary key (clinic, idempotency_key)
);

-- A clinic's own criteria sets; the published ones are files.
create table if not exists criteria_set (
  clinic       varchar(64) not null,
  id           varchar(64) not null,
  version      varchar(16) not null,
  sha256       varchar(64) not null check (length(sha256) = 64),
  document     bytea not null,
  published_at timestamp with time zone not null,
  constraint criteria_set_key primary key (clinic, id, version)
);
