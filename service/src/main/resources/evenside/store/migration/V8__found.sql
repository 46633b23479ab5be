-- What a decision found, in one row: a row for each criterion was a third of the rows of a decision,
-- and a cohort read as many times the rows. findings: a line for each, the whole set first, then each
-- single criterion: its id, its outcome, and the words "required" and "alone" where they hold.
create table if not exists found (
  clinic      varchar(64) not null,
  decision_id uuid not null,
  findings    varchar(1000000) not null,
  constraint found_key primary key (clinic, decision_id),
  constraint found_by_decision foreign key (clinic, decision_id) references decision (clinic, id)
);
insert into found (clinic, decision_id, findings)
  select clinic, decision_id, string_agg(
    criterion || ' ' || outcome || case when required then ' required' else '' end
      || case when alone then ' alone' else '' end, chr(10) order by ordinal)
  from finding group by clinic, decision_id;
drop table finding;
