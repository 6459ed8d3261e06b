create table webhook (
    id varchar(64) primary key,
    owner varchar(100) not null,
    url varchar(2000) not null,
    types varchar(1000) not null,
    -- Signing needs the secret itself; a hash would not do.
    secret varchar(200) not null,
    enabled boolean not null,
    created_at timestamp(6) with time zone not null
);
create index webhook_owner on webhook (owner);

create table event (
    id varchar(64) primary key,
    sequence bigint generated always as identity,
    type varchar(100) not null,
    subject varchar(200) not null,
    data text not null,
    created_at timestamp(6) with time zone not null
);
create index event_age on event (created_at);

create table delivery (
    webhook_id varchar(64) not null references webhook (id) on delete cascade,
    event_id varchar(64) not null references event (id) on delete cascade,
    subject varchar(200) not null,
    sequence bigint not null,
    status varchar(16) not null,
    attempts integer not null,
    next_at timestamp(6) with time zone not null,
    claimed_until timestamp(6) with time zone,
    error varchar(500),
    primary key (webhook_id, event_id)
);
create index delivery_due on delivery (status, next_at);
create index delivery_order on delivery (webhook_id, subject, status, sequence);

-- Set when the event that says so is written, so that it is written once.
alter table batch add column finished boolean default false not null;
