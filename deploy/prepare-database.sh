#!/bin/bash
# Prepares a database of yours for Nursery: the app's role, btree_gist and a schema for the job queue. Running it again changes nothing
# but the password. Connects as psql does (PGHOST, PGDATABASE, PGUSER ...), as a role that may create roles.
# usage: NURSERY_APP_PASSWORD=... bash deploy/prepare-database.sh
set -eu

: "${NURSERY_APP_PASSWORD:?set NURSERY_APP_PASSWORD to the password the program shall use}"

# POSTGRES_USER and POSTGRES_DB are set where the official PostgreSQL image runs this by itself.
psql -X -q -v ON_ERROR_STOP=1 ${POSTGRES_USER:+-U "$POSTGRES_USER"} ${POSTGRES_DB:+-d "$POSTGRES_DB"} <<'SQL'
\getenv password NURSERY_APP_PASSWORD
SET client_min_messages = warning;
SELECT 'CREATE ROLE nursery_app' WHERE NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'nursery_app') \gexec
ALTER ROLE nursery_app LOGIN PASSWORD :'password';
-- Giving somebody a schema takes belonging to them, superusers apart.
SELECT 'GRANT nursery_app TO CURRENT_USER' WHERE current_setting('is_superuser') = 'off' \gexec
CREATE EXTENSION IF NOT EXISTS btree_gist;
SELECT 'CREATE SCHEMA hangfire AUTHORIZATION nursery_app' WHERE NOT EXISTS (SELECT FROM pg_namespace WHERE nspname = 'hangfire') \gexec
SQL
