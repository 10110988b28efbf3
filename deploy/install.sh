# Installs what a fresh Debian machine lacks. Sourced by deploy/run.sh and tests/run.sh; defines functions and settings only.
# Nothing that is already there is upgraded, changed or removed.

export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 DOTNET_SKIP_FIRST_TIME_EXPERIENCE=1 DOTNET_GENERATE_ASPNET_CERTIFICATE=false
export DOTNET_CLI_WORKLOAD_UPDATE_NOTIFY_DISABLE=true
# No build server survives the script that started it.
export MSBUILDDISABLENODEREUSE=1 DOTNET_CLI_USE_MSBUILD_SERVER=0 UseSharedCompilation=false
export HOME="${HOME:-$(getent passwd "$(id -u)" | cut -d: -f6)}"

oldest_postgresql=15

say() { printf '%s\n' "$*"; }

complain() { printf '%s\n' "$*" >&2; }

as_root() {
  if [ "$(id -u)" = 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    complain "Installing $packages_wanted needs root: run this as root, or install sudo, or have them installed for you."
    return 1
  fi
}

is_installed() { [ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]; }

packages_wanted=
apt_is_fresh=

apt_refresh() {
  [ -z "$apt_is_fresh" ] || return 0
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 update || return 1
  apt_is_fresh=1
}

# Installs those of the named packages that are missing.
need_packages() {
  local package missing=()
  for package in "$@"; do
    is_installed "$package" || missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  packages_wanted="${missing[*]}"
  if ! command -v apt-get >/dev/null; then
    complain "This machine lacks $packages_wanted and has no apt-get: install them by hand."
    return 1
  fi
  say "Installing $packages_wanted ..."
  apt_refresh || return 1
  # apt says a lot that means nothing while it works.
  local output
  output=$(as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends --no-upgrade \
    -o DPkg::Lock::Timeout=300 -o Dpkg::Use-Pty=0 "${missing[@]}" 2>&1) || {
    complain "$output"
    complain "Installing $packages_wanted failed."
    return 1
  }
}

# The folder of the newest PostgreSQL programs that are new enough; nothing when there is none.
postgresql_programs() {
  local folder version
  {
    for folder in /usr/lib/postgresql/*/bin; do
      version=$(basename "$(dirname "$folder")")
      [ -x "$folder/initdb" ] && [ -x "$folder/pg_ctl" ] && printf '%s %s\n' "$version" "$folder"
    done
    if command -v pg_config >/dev/null && [ -x "$(pg_config --bindir)/initdb" ]; then
      printf '%s %s\n' "$(pg_config --version | sed 's/[^0-9]*\([0-9]*\).*/\1/')" "$(pg_config --bindir)"
    fi
  } | awk -v oldest="$oldest_postgresql" '$1 ~ /^[0-9]+$/ && $1 >= oldest' | sort -n | tail -n 1 | cut -d ' ' -f 2-
}

# The programs only: no cluster on 5432, nothing started. Debian's package makes a cluster unless told beforehand.
need_postgresql() {
  [ -z "$(postgresql_programs)" ] || return 0
  need_packages postgresql-common || return 1
  local package told=/etc/postgresql-common/createcluster.d/zz-nursery.conf code=0
  apt_refresh || return 1
  package=$(apt-cache search --names-only '^postgresql-[0-9]+$' | cut -d ' ' -f 1 | sort -V |
    awk -F - -v oldest="$oldest_postgresql" '$2 >= oldest { if ($2 == oldest) wanted = $0; newest = $0 } END { print wanted ? wanted : newest }')
  if [ -z "$package" ]; then
    complain "This distribution offers no PostgreSQL $oldest_postgresql or newer: install one by hand."
    return 1
  fi
  packages_wanted=$package
  as_root mkdir -p "$(dirname "$told")" || return 1
  printf 'create_main_cluster = false\n' | as_root tee "$told" >/dev/null || return 1
  if [ "$(pg_conftool /etc/postgresql-common/createcluster.conf show -bs create_main_cluster)" = off ]; then
    need_packages "$package" || code=1
  else
    complain "Installing $package would create a database cluster on port 5432, and $told did not prevent it: install $package by hand."
    code=1
  fi
  # Only this installation is spoken for; what is installed later behaves as the machine's owner expects.
  as_root rm -f "$told"
  as_root rmdir --ignore-fail-on-non-empty "$(dirname "$told")"
  [ $code = 0 ] && [ -n "$(postgresql_programs)" ]
}

# What .NET itself needs from the distribution.
need_dotnet_libraries() {
  local libraries package wanted=()
  libraries=$(/sbin/ldconfig -p)
  case $libraries in *libssl.so.3*) ;; *) wanted+=(libssl3) ;; esac
  [ -e /etc/ssl/certs/ca-certificates.crt ] || wanted+=(ca-certificates)
  [ -e /usr/share/zoneinfo/UTC ] || wanted+=(tzdata)
  case $libraries in
    *libicuuc.so*) ;;
    *)
      packages_wanted=libicu
      apt_refresh || return 1
      package=$(apt-cache search --names-only '^libicu[0-9]+$' | cut -d ' ' -f 1 | sort -V | tail -n 1)
      wanted+=("${package:-libicu72}")
      ;;
  esac
  [ ${#wanted[@]} -eq 0 ] || need_packages "${wanted[@]}"
}

# Sets $dotnet. Asked without starting .NET, which would need libraries that may be missing still.
find_dotnet_sdk() {
  local candidate
  for candidate in "$(command -v dotnet)" "${DOTNET_ROOT:-}/dotnet" "$HOME/.dotnet/dotnet" /usr/share/dotnet/dotnet /usr/lib/dotnet/dotnet; do
    if [ -x "$candidate" ] && "$candidate" --list-sdks 2>/dev/null | grep -q '^10\.0\.[1-9][0-9][0-9]'; then
      dotnet=$candidate
      return 0
    fi
  done
  complain "The .NET 10 SDK (10.0.100 or a later 10.0) was not found: install it from https://dotnet.microsoft.com/download/dotnet/10.0 and start again."
  return 3
}
