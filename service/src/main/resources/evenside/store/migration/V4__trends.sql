-- Numbers over time and over people, found by query: no document is read for them.

-- What a cohort is chosen by: one row per revision of a case.
create table if not exists case_facts (
  clinic       varchar(64) not null,
  case_id      varchar(64) not null,
  revision     integer not null,
  sex          varchar(16) not null,
  birth_year   integer not null,
  graft        varchar(64) not null,
  surgery_date date not null,
  constraint case_facts_key primary key (clinic, case_id, revision),
  constraint facts_of_case foreign key (clinic, case_id, revision)
    references knee_case (clinic, case_id, revision)
);

-- What a decision found, in one row. findings: a line for each, the whole set first, then each single
-- criterion: its id, its outcome, and the words "required" and "alone" (the one required criterion
-- that is not met) where they hold.
create table if not exists found (
  clinic      varchar(64) not null,
  decision_id uuid not null,
  findings    varchar(1000000) not null,
  constraint found_key primary key (clinic, decision_id),
  constraint found_by_decision foreign key (clinic, decision_id) references decision (clinic, id)
);
create index if not exists decision_newest_by_set on decision
  (clinic, case_id, criteria_set, criteria_version, as_of desc, decided_at desc, id desc);
create index if not exists decision_first_of_milestone on decision (clinic, case_id, milestone, outcome, as_of);

-- Plans that a clinician adopted.
create table if not exists plan (
  clinic     varchar(64) not null,
  id         uuid not null,
  case_id    varchar(64) not null,
  milestone  varchar(64) not null,
  adopted_at timestamp with time zone not null,
  document   bytea not null,
  constraint plan_key primary key (clinic, id)
);
create index if not exists plan_of_case on plan (clinic, case_id, adopted_at desc, id desc);
