-- Report pages, models and pictures, made when they are first asked for. They belong to the mold's files, not to one
-- posting of them: molds with the same files share them.
create table look_file (
    stl_key varchar(64) not null,
    report_key varchar(64) not null,
    name varchar(100) not null,
    media_type varchar(100) not null,
    blob_key varchar(64) not null,
    blob_bytes bigint not null,
    primary key (stl_key, report_key, name)
);
create index look_blob on look_file (blob_key);
