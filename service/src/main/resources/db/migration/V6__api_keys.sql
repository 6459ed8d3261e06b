-- Only hashes of the keys' secrets are kept; a secret is told once.
create table api_key (
    id varchar(32) primary key,
    secret_hash varchar(64) not null,
    owner varchar(64) not null,
    name varchar(200),
    scopes varchar(100) not null,
    requests_per_minute integer,
    max_part_bytes bigint,
    created_at timestamp(6) with time zone not null,
    expires_at timestamp(6) with time zone
);
