-- A mold that is carried over from a congruent part's, in the same suit.
create table likeness (
    mold_id varchar(64) primary key references mold (id) on delete cascade,
    like_mold varchar(64) not null,
    part_key varchar(64) not null,
    part_file varchar(400),
    part_title varchar(400) not null,
    map text not null,
    deviation_mm double precision not null
);
create index likeness_mold on likeness (like_mold);
create index likeness_part on likeness (part_key);

create table batch (
    id varchar(64) primary key,
    owner varchar(100) not null,
    title varchar(400),
    sorted boolean not null,
    attempt integer not null,
    created_at timestamp(6) with time zone not null,
    expires_at timestamp(6) with time zone
);
create index batch_newest on batch (owner, created_at, id);
create index batch_expiry on batch (expires_at);

create table batch_part (
    batch_id varchar(64) not null references batch (id) on delete cascade,
    position integer not null,
    name varchar(400) not null,
    file varchar(1000),
    mirror_of varchar(400),
    quantity integer not null,
    recipe text not null,
    part_key varchar(64),
    part_bytes bigint,
    mold_id varchar(64),
    like_name varchar(400),
    like_mirrored boolean,
    like_deviation_mm double precision,
    note varchar(1000),
    primary key (batch_id, position)
);
create index batch_part_key on batch_part (part_key);
create index batch_part_mold on batch_part (mold_id);
