-- An entry as it was sent, beside the document with the advice that was answered, which is ten times
-- as long: advice and decisions look at many entries, and at what was sent alone. Null in rows of
-- before, whose document holds it.
alter table training_session add column if not exists content bytea;
