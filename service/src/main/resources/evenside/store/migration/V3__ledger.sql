-- The ledger of each clinic, and what goes with a decision after it was made. Rows are inserted and
-- never changed. Only an erasure removes rows, those of documents, salts and search columns; never
-- one of a ledger.

-- A clinic's ledgers: 1, and one more each time a compromised one is frozen and continued. The row
-- is what an append locks, so that one goes after the other.
create table if not exists ledger (
  clinic     varchar(64) not null,
  number     integer not null check (number >= 1),
  origin     varchar(255) not null,
  started_at timestamp with time zone not null,
  constraint ledger_key primary key (clinic, number),
  constraint ledger_origin unique (origin)
);

-- nodes: the hashes of the subtrees that this entry completes, 32 bytes each, its own first. So the
-- node of level l and index i is in the row of entry (i+1)*2^l-1, and an append inserts one row.
create table if not exists ledger_entry (
  clinic      varchar(64) not null,
  ledger      integer not null,
  entry_index bigint not null check (entry_index >= 0),
  entry       bytea not null,
  nodes       bytea not null,
  entry_id    uuid not null,
  refers_to   uuid,
  constraint ledger_entry_key primary key (clinic, ledger, entry_index),
  constraint ledger_entry_of foreign key (clinic, ledger) references ledger (clinic, number)
);
create index if not exists ledger_entry_by_id        on ledger_entry (clinic, entry_id);
create index if not exists ledger_entry_by_reference on ledger_entry (clinic, refers_to, entry_index);

create table if not exists ledger_checkpoint (
  clinic    varchar(64) not null,
  ledger    integer not null,
  tree_size bigint not null,
  note      varchar(4000) not null,
  constraint ledger_checkpoint_key primary key (clinic, ledger, tree_size)
);

-- Verifier-key lines; each signs from the checkpoint of that size on, and stays published for ever.
create table if not exists ledger_verifier (
  clinic    varchar(64) not null,
  ledger    integer not null,
  from_size bigint not null,
  line      varchar(400) not null,
  constraint ledger_verifier_key primary key (clinic, ledger, from_size)
);

-- Without its salt a commitment says nothing of a document, so these go with the documents.
create table if not exists ledger_salt (
  clinic        varchar(64) not null,
  entry_id      uuid not null,
  document_salt bytea not null,
  inputs_salt   bytea,
  constraint ledger_salt_key primary key (clinic, entry_id)
);

-- Every criteria set that a decision of the clinic was made by, so that proof does not depend on
-- what a later version of the program publishes.
create table if not exists ledger_criteria (
  clinic   varchar(64) not null,
  sha256   varchar(64) not null check (length(sha256) = 64),
  document bytea not null,
  constraint ledger_criteria_key primary key (clinic, sha256)
);

create table if not exists case_subject (
  clinic   varchar(64) not null,
  case_id  varchar(64) not null,
  revision integer not null,
  subject  varchar(64) not null,
  constraint case_subject_key primary key (clinic, case_id, revision)
);
create index if not exists case_subject_search on case_subject (clinic, subject, case_id);

create table if not exists decision_battery (
  clinic      varchar(64) not null,
  battery_id  uuid not null,
  decision_id uuid not null,
  constraint decision_battery_key primary key (clinic, battery_id, decision_id)
);

-- statement: cleared, not-cleared or deferred. differs: whether it says other than the outcome.
create table if not exists determination (
  clinic        varchar(64) not null,
  id            uuid not null,
  decision_id   uuid not null,
  case_id       varchar(64) not null,
  statement     varchar(16) not null,
  clinician     varchar(64) not null,
  differs       boolean not null,
  determined_at timestamp with time zone not null,
  document      bytea not null,
  constraint determination_key primary key (clinic, id)
);
create index if not exists determination_of_decision
  on determination (clinic, decision_id, determined_at desc, id desc);
create index if not exists determination_by_clinician on determination (clinic, clinician, decision_id);
create index if not exists determination_differing    on determination (clinic, differs, decision_id);

-- A battery that takes the place of another. A battery is replaced once; its successor may be too.
create table if not exists correction (
  clinic       varchar(64) not null,
  battery_id   uuid not null,
  replaces     uuid not null,
  corrected_at timestamp with time zone not null,
  constraint correction_key primary key (clinic, battery_id),
  constraint correction_once unique (clinic, replaces)
);

-- What was erased and why; nothing of whom.
create table if not exists erasure (
  clinic    varchar(64) not null,
  id        uuid not null,
  erased_at timestamp with time zone not null,
  document  bytea not null,
  constraint erasure_key primary key (clinic, id)
);
create index if not exists erasure_newest on erasure (clinic, erased_at desc, id desc);

-- Who read which decision. Kept when the decision is erased: it names no patient.
create table if not exists access_trail (
  clinic      varchar(64) not null,
  id          uuid not null,
  read_at     timestamp with time zone not null,
  reader      varchar(128) not null,
  action      varchar(32) not null,
  decision_id uuid not null,
  constraint access_trail_key primary key (clinic, id)
);
create index if not exists access_newest      on access_trail (clinic, read_at desc, id desc);
create index if not exists access_of_decision on access_trail (clinic, decision_id, read_at desc, id desc);
