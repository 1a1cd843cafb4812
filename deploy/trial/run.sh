#!/usr/bin/env bash
# Three instances, one PostgreSQL, one haproxy on this machine: a steady load while instances are killed and restarted in turn, then the
# log is verified. Needs the .NET SDK, and haproxy and postgresql from Debian. Everything it starts, it ends. Usage: deploy/trial/run.sh [SECONDS]
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-240}
port=5433
work=$(mktemp -d)
binaries=$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -1)
# PostgreSQL does not run as root.
as_postgres() { if [ "$(id -u)" = 0 ]; then su postgres -s /bin/bash -c "$1"; else bash -c "$1"; fi; }
finish() {
    as_postgres "$binaries/pg_ctl -D $work/data -m immediate stop" >/dev/null 2>&1 || true
    rm -rf "$work"
}
trap finish EXIT

[ "$(id -u)" = 0 ] && chown postgres "$work"
as_postgres "$binaries/initdb -A trust -D $work/data" >/dev/null
as_postgres "$binaries/pg_ctl -w -D $work/data -l $work/postgres.log -o '-p $port -k $work -c listen_addresses=127.0.0.1' start" >/dev/null
as_postgres "$binaries/createdb -h 127.0.0.1 -p $port foamrules"
dotnet publish src/FoamRules.Cli -c Release -o "$work/foamrules" --nologo -v quiet
dotnet run -c Release --project tests/FoamRules.Trial -- instances "$work/foamrules" "Host=127.0.0.1;Port=$port;Username=$(as_postgres whoami);Database=foamrules" "$seconds"
