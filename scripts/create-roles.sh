#!/bin/sh
# Makes the two roles and the database of arcbounds on a PostgreSQL of your own, as its superuser:
# the same as the private PostgreSQL of the demo has, but with passwords. Needs psql, the usual PG*
# variables if the server is not the local one, ARCBOUNDS_OWNER_PASSWORD and ARCBOUNDS_APP_PASSWORD.
set -eu
: "${ARCBOUNDS_OWNER_PASSWORD:?set it}" "${ARCBOUNDS_APP_PASSWORD:?set it}"

# psql reads the passwords from the environment, so that no process list shows them.
psql --no-psqlrc --quiet --set=ON_ERROR_STOP=1 --username="${POSTGRES_USER:-postgres}" --dbname=postgres <<'SQL'
\set owner_password `printf %s "$ARCBOUNDS_OWNER_PASSWORD"`
\set app_password `printf %s "$ARCBOUNDS_APP_PASSWORD"`
create role arcbounds_owner login nosuperuser nobypassrls nocreatedb nocreaterole noreplication
    password :'owner_password';
create role arcbounds_app login nosuperuser nobypassrls nocreatedb nocreaterole noreplication
    password :'app_password';
create database arcbounds owner arcbounds_owner;
revoke all on database arcbounds from public;
grant connect on database arcbounds to arcbounds_app;
SQL
