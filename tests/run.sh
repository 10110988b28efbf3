#!/usr/bin/env bash
# Runs every test project of Nursery.sln on a real PostgreSQL and a real Chromium.
# usage: bash tests/run.sh [--quick]     --quick leaves out browser and fault tests
# The last line is always "N passed, N failed"; exit 0 only when none failed and some passed.
set -uo pipefail

checkout=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
. "$checkout/deploy/install.sh"
cd "$checkout"

passed=0 failed=0 counted= running=
finish() {
  local code=$?
  trap - EXIT
  if [ -z "$counted" ]; then
    # Something before the tests went wrong: no result is a failure.
    passed=0 failed=1
    [ $code -ne 0 ] || code=1
  elif [ $failed -gt 0 ] || [ $passed -eq 0 ]; then
    code=1
  fi
  printf '%s passed, %s failed\n' "$passed" "$failed"
  exit $code
}
interrupted() {
  [ -z "$running" ] || kill -TERM "$running" 2>/dev/null
  counted=
  exit 130
}
trap finish EXIT
trap interrupted INT TERM HUP

quick=
case "${1:-}" in
  --quick) quick=1 ;;
  "") ;;
  *) complain "usage: bash tests/run.sh [--quick]"; exit 2 ;;
esac

minutes_since() { awk -v from="$1" -v to="$EPOCHREALTIME" 'BEGIN { printf "%.1f", (to - from) / 60 }'; }

start=$EPOCHREALTIME
find_dotnet_sdk || exit 3
need_dotnet_libraries || exit 4
need_postgresql || exit 4
need_packages fonts-dejavu-core poppler-utils zbar-tools || exit 4
if [ -z "$quick" ] && ! command -v chromium >/dev/null; then
  need_packages chromium || exit 4
fi
say "Tools: $(minutes_since "$start") min"

start=$EPOCHREALTIME
results=$checkout/TestResults
rm -rf "$results"
mkdir -p "$results" || exit 4
CI=true "$dotnet" restore Nursery.sln -v q -nodeReuse:false || { complain "Restoring the packages failed."; exit 1; }
"$dotnet" tool restore >"$results/tools.log" 2>&1 || { cat "$results/tools.log"; complain "Restoring the tools failed."; exit 1; }
"$dotnet" build Nursery.sln --no-restore -m:2 -v q -nodeReuse:false || { complain "The build failed."; exit 1; }
say "Build: $(minutes_since "$start") min"

# Reads one number of a result file's <Counters passed="3" failed="0" .../>.
counter() { sed -n 's/.*<Counters[^>]* '"$2"'="\([0-9]*\)".*/\1/p' "$1" | tail -n 1; }

run_project() {
  local project=$1 name log trx code=0 from=$EPOCHREALTIME ok bad all done remark=
  name=$(basename "$project" .csproj)
  log=$results/$name.log
  trx=$results/$name.trx
  timeout -k 30 40m "$dotnet" test "$project" --no-build --nologo --logger "trx;LogFileName=$name.trx" --results-directory "$results" \
    --blame-hang-timeout 5m --blame-hang-dump-type none ${quick:+--filter "Category!=Fault"} -nodeReuse:false >"$log" 2>&1 &
  running=$!
  wait "$running" || code=$?
  running=

  ok=0 bad=0 all=0 done=0
  if [ -e "$trx" ]; then
    ok=$(counter "$trx" passed) all=$(counter "$trx" total) done=$(counter "$trx" executed)
    bad=$(($(counter "$trx" failed) + $(counter "$trx" error) + $(counter "$trx" timeout) + $(counter "$trx" aborted)))
    [ "${all:-0}" = "${done:-0}" ] || remark=", $((all - done)) skipped"
  elif [ $code = 0 ]; then
    remark=", no tests"
  fi
  if [ "$bad" = 0 ] && [ $code != 0 ]; then
    bad=1 remark="$remark, ended with code $code"
  elif [ "$ok$bad" = 00 ] && [ -z "$quick" ] && grep -rqE --include='*.cs' --exclude-dir=bin --exclude-dir=obj '^ *\[(Fact|Theory)' "$(dirname "$project")"; then
    # Tests are written there, yet none was found: the adapter is at fault, and silence would look like success.
    bad=1 remark=", its tests were not found"
  fi
  [ "$bad" = 0 ] || tail -n 200 "$log"
  passed=$((passed + ok)) failed=$((failed + bad))
  say "$name: $ok passed, $bad failed$remark ($(minutes_since "$from") min)"
}

start=$EPOCHREALTIME
for project in $(sed -n 's/.*"\([^" ]*\.csproj\)".*/\1/p' Nursery.sln | tr '\\' '/' | sort); do
  grep -q 'Microsoft\.NET\.Test\.Sdk' "$project" || continue
  if [ -n "$quick" ] && [ "$(basename "$project")" = Nursery.Browser.Tests.csproj ]; then
    continue
  fi
  run_project "$project"
done
counted=1
say "Tests: $(minutes_since "$start") min"
