-- Prints that are asked for; each copy is taken, printed or given up by itself.
create table print_job (
    id varchar(64) primary key,
    order_id varchar(64) not null,
    owner varchar(100) not null,
    mold_id varchar(64) not null references mold (id) on delete cascade,
    name varchar(400) not null,
    priority integer not null,
    quantity integer not null,
    reason varchar(1000),
    created_at timestamp(6) with time zone not null
);
create index print_job_order on print_job (owner, order_id);
create index print_job_mold on print_job (mold_id);
create index print_job_urgency on print_job (owner, priority, created_at, id);

create table lease (
    id varchar(64) primary key,
    owner varchar(100) not null,
    agent varchar(200) not null,
    status varchar(16) not null,
    material varchar(16) not null,
    plate_key varchar(64) not null,
    plate_bytes bigint not null,
    created_at timestamp(6) with time zone not null,
    expires_at timestamp(6) with time zone not null
);
create index lease_due on lease (status, expires_at);
create index lease_plate on lease (plate_key);

create table print_copy (
    job_id varchar(64) not null references print_job (id) on delete cascade,
    number integer not null,
    status varchar(16) not null,
    tries integer not null,
    lease_id varchar(64),
    x_mm double precision,
    y_mm double precision,
    quarter_turns integer,
    primary key (job_id, number)
);
create index print_copy_status on print_copy (status);
create index print_copy_lease on print_copy (lease_id);
