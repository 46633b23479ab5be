-- The keys of the programs that call for a clinic. Of a secret only its SHA-256 is kept: it has 256
-- random bits, so nobody finds it from that. Rows are inserted and never changed.

-- number counts the keys of one client, so that of two issued at once one fails.
create table if not exists client_key (
  id            varchar(16) not null check (length(id) = 16),
  clinic        varchar(64) not null,
  client        varchar(64) not null,
  number        integer not null check (number >= 1),
  secret_sha256 varchar(64) not null check (length(secret_sha256) = 64),
  scopes        varchar(400) not null,
  issued_at     timestamp with time zone not null,
  expires_at    timestamp with time zone not null,
  constraint client_key_key primary key (id),
  constraint client_key_number unique (clinic, client, number)
);

create table if not exists client_key_revocation (
  id         varchar(16) not null,
  revoked_at timestamp with time zone not null,
  constraint client_key_revocation_key primary key (id),
  constraint revocation_of_key foreign key (id) references client_key (id)
);

-- One row for each day (UTC) on which a key was used.
create table if not exists client_key_use (
  id      varchar(16) not null,
  used_on date not null,
  constraint client_key_use_key primary key (id, used_on),
  constraint use_of_key foreign key (id) references client_key (id)
);
