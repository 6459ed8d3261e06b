create table mold (
    id varchar(64) primary key,
    owner varchar(100) not null,
    status varchar(16) not null,
    stage varchar(64),
    percent integer not null,
    attempt integer not null,
    version bigint not null,
    lane varchar(16) not null,
    title varchar(400),
    part_name varchar(400),
    part_key varchar(64) not null,
    part_bytes bigint not null,
    recipe text not null,
    recipe_hash varchar(64) not null,
    engine varchar(64) not null,
    stl_key varchar(64),
    stl_bytes bigint,
    three_mf_key varchar(64),
    three_mf_bytes bigint,
    report_key varchar(64),
    report_bytes bigint,
    problem text,
    created_at timestamp(6) with time zone not null,
    started_at timestamp(6) with time zone,
    finished_at timestamp(6) with time zone,
    expires_at timestamp(6) with time zone
);
create index mold_newest on mold (owner, created_at, id);
create index mold_same on mold (owner, part_key, recipe_hash, status);
create index mold_unfinished on mold (status, lane);
create index mold_expiry on mold (expires_at);
create index mold_stl on mold (stl_key);
create index mold_three_mf on mold (three_mf_key);
create index mold_report on mold (report_key);
create index mold_part on mold (part_key);

create table idempotency_key (
    owner varchar(100) not null,
    operation varchar(100) not null,
    idempotency_key varchar(255) not null,
    fingerprint varchar(64) not null,
    result varchar(200) not null,
    expires_at timestamp(6) with time zone not null,
    primary key (owner, operation, idempotency_key)
);
create index idempotency_expiry on idempotency_key (expires_at);

-- The queues of db-scheduler, one a lane, so that large parts never stand in the way of small ones.
create table light_lane (
    task_name varchar(100) not null,
    task_instance varchar(100) not null,
    task_data bytea,
    execution_time timestamp(6) with time zone not null,
    picked boolean not null,
    picked_by varchar(100),
    last_success timestamp(6) with time zone,
    last_failure timestamp(6) with time zone,
    consecutive_failures integer,
    last_heartbeat timestamp(6) with time zone,
    version bigint not null,
    priority smallint,
    primary key (task_name, task_instance)
);
create index light_lane_due on light_lane (execution_time);
create index light_lane_heartbeat on light_lane (last_heartbeat);

create table heavy_lane (
    task_name varchar(100) not null,
    task_instance varchar(100) not null,
    task_data bytea,
    execution_time timestamp(6) with time zone not null,
    picked boolean not null,
    picked_by varchar(100),
    last_success timestamp(6) with time zone,
    last_failure timestamp(6) with time zone,
    consecutive_failures integer,
    last_heartbeat timestamp(6) with time zone,
    version bigint not null,
    priority smallint,
    primary key (task_name, task_instance)
);
create index heavy_lane_due on heavy_lane (execution_time);
create index heavy_lane_heartbeat on heavy_lane (last_heartbeat);
