#!/usr/bin/env bash
# Installs what is missing, publishes the program when its sources changed, and serves until Ctrl-C.
# usage: bash deploy/run.sh [--urls http://127.0.0.1:5080] [options of the program]
set -euo pipefail

checkout=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
. "$checkout/deploy/install.sh"

urls=http://127.0.0.1:5080
others=()
while [ $# -gt 0 ]; do
  case $1 in
    --urls)
      [ $# -ge 2 ] || { complain "--urls needs an address, such as http://127.0.0.1:5080."; exit 2; }
      urls=$2
      shift 2
      ;;
    --urls=*) urls=${1#--urls=}; shift ;;
    -h | --help)
      say "bash deploy/run.sh [--urls $urls]"
      say "Data is kept in \$NURSERY_DATA (default /var/lib/nursery for root, ~/.local/share/nursery otherwise)."
      exit 0
      ;;
    *) others+=("$1"); shift ;;
  esac
done

find_dotnet_sdk || exit 3
need_dotnet_libraries
# For pictures of papers only: without them the program runs and says so.
need_packages poppler-utils || true
if [ -z "${ConnectionStrings__Nursery:-}" ]; then
  need_postgresql || exit 4
fi

if [ "$(id -u)" = 0 ]; then default_data=/var/lib/nursery; else default_data=$HOME/.local/share/nursery; fi
NURSERY_DATA=$(realpath -m "${NURSERY_DATA:-$default_data}")
export NURSERY_DATA

# Beside the sources when they are ours, else in the user's cache.
work=$checkout/.run
if ! { mkdir -p "$work/build" && [ -w "$work" ] && [ -w "$work/build" ]; } 2>/dev/null; then
  work=${XDG_CACHE_HOME:-$HOME/.cache}/nursery/$(printf '%s' "$checkout" | sha256sum | cut -c 1-16)
  mkdir -p "$work/build"
fi
app=$work/app

case $(uname -m) in
  x86_64) platform=linux-x64 ;;
  aarch64) platform=linux-arm64 ;;
  *) complain "This runs on x86-64 and arm64 machines; this one is $(uname -m)."; exit 4 ;;
esac

# Everything the published program is made of, by content: a fresh clone or a touched file changes nothing.
sources_stamp() {
  (
    cd "$checkout"
    printf '%s %s\n' "$platform" "$("$dotnet" --version)"
    find src seed-scenario global.json Directory.Build.* deploy/run.sh -type f -not -path '*/bin/*' -not -path '*/obj/*' -print0 2>/dev/null |
      LC_ALL=C sort -z | xargs -0 sha256sum
  ) | sha256sum | cut -d ' ' -f 1
}

publish() {
  local stamp
  stamp=$(sources_stamp)
  if [ "$(cat "$app/.stamp" 2>/dev/null)" = "$stamp" ]; then
    say "The published program is up to date."
    return 0
  fi
  say "Publishing Nursery for $platform (a minute or two the first time) ..."
  rm -rf "$app.new"
  if ! (cd "$checkout" && "$dotnet" publish src/Nursery.Web -c Release -r "$platform" --self-contained false \
    --artifacts-path "$work/build" -o "$app.new" -v q -nodeReuse:false) >"$work/publish.log" 2>&1; then
    tail -n 30 "$work/publish.log" >&2
    complain "Publishing failed; all of it is in $work/publish.log."
    return 1
  fi
  printf '%s\n' "$stamp" >"$app.new/.stamp"
  rm -rf "$app"
  mv "$app.new" "$app"
}

{
  flock 9
  publish 9>&- || exit 1
} 9>"$work/publish.lock"

# After an app that had to be killed: its PostgreSQL still runs. The lock tells that nobody else owns it.
stop_left_cluster() {
  local record=$NURSERY_DATA/postgres/data/postmaster.pid server programs as=()
  [ -e "$record" ] && server=$(head -n 1 "$record") && [ "$(cat "/proc/$server/comm" 2>/dev/null)" = postgres ] || return 0
  programs=/usr/lib/postgresql/$(cat "$NURSERY_DATA/postgres/data/PG_VERSION")/bin
  [ -x "$programs/pg_ctl" ] || programs=$(postgresql_programs)
  [ "$(id -u)" != 0 ] || as=(setpriv --reuid=postgres --regid=postgres --init-groups --reset-env)
  (
    flock -n 9 || exit 0
    say "Stopping the private PostgreSQL the program left running ..."
    cd "$NURSERY_DATA/postgres"
    for mode in fast immediate; do
      "${as[@]}" "$programs/pg_ctl" -D data -w -t 5 -m "$mode" stop >/dev/null 2>&1 9>&- && exit 0
    done
    complain "The private PostgreSQL in $NURSERY_DATA could not be stopped."
    exit 1
  ) 9>>"$NURSERY_DATA/lock"
}

stopping=
trap 'stopping=1' INT TERM HUP

say "Starting Nursery at $urls with its data in $NURSERY_DATA ..."
export NURSERY_SCENARIO="${NURSERY_SCENARIO:-$app/seed-scenario}"
cd "$app"
# Should this script be killed, the program is told to stop all the same.
setpriv --pdeathsig TERM "$dotnet" Nursery.Web.dll serve --urls "$urls" ${others[@]+"${others[@]}"} &
program=$!

code=0
while [ -z "$stopping" ]; do
  code=0
  wait "$program" || code=$?
  kill -0 "$program" 2>/dev/null || break
done

if [ -n "$stopping" ] && kill -TERM "$program" 2>/dev/null; then
  say "Stopping ..."
  for _ in $(seq 50); do
    kill -0 "$program" 2>/dev/null || break
    sleep 0.1
  done
  if kill -KILL "$program" 2>/dev/null; then
    complain "The program did not stop within 5 seconds and was killed."
  fi
  code=0
  wait "$program" || code=$?
fi

stop_left_cluster || true
exit "$code"
