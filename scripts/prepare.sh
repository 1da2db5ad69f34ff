# Read in by scripts/demo and scripts/test: goes to the repository and makes sure that what they
# need is on this machine. Messages go to standard error; standard output is the program's.

say() {
    printf 'arcbounds: %s\n' "$*" >&2
}

# Whether the service will find initdb and postgres; a folder named by hand it checks itself.
has_postgresql() {
    [ -z "${ARCBOUNDS_PG_BINDIR:-}" ] || return 0
    if command -v initdb >/dev/null && command -v postgres >/dev/null; then
        return 0
    fi
    for program in /usr/lib/postgresql/*/bin/postgres /usr/pgsql-*/bin/postgres \
        /usr/libexec/postgresql*/postgres /usr/local/pgsql/bin/postgres \
        /opt/homebrew/opt/postgresql@*/bin/postgres /usr/local/opt/postgresql@*/bin/postgres \
        /opt/homebrew/bin/postgres; do
        [ ! -x "$program" ] || return 0
    done
    return 1
}

apt_install() {
    DEBIAN_FRONTEND=noninteractive apt-get install -y -qq -o Dpkg::Use-Pty=0 \
        --no-install-recommends "$@" </dev/null >&2
}

install_postgresql() {
    if [ "$(id -u)" -ne 0 ] || ! command -v apt-get >/dev/null; then
        say "PostgreSQL's server programs are missing: install them (Debian, Ubuntu: sudo apt-get install postgresql; Fedora: sudo dnf install postgresql-server postgresql-contrib) and start this again"
        exit 1
    fi
    # The package would make and start a cluster of its own, which nobody here asks for.
    settings=/etc/postgresql-common/createcluster.d/arcbounds.conf
    say "writing $settings, so that the package makes and starts no database cluster"
    mkdir -p "${settings%/*}"
    echo 'create_main_cluster = false' >"$settings"
    say "installing the distribution's package postgresql"
    if ! apt_install postgresql; then
        say "fetching the package lists, then trying again"
        apt-get update -qq </dev/null >&2
        apt_install postgresql
    fi
}

CDPATH= cd -- "$(dirname "$0")/.."
has_postgresql || install_postgresql
if ! command -v cargo >/dev/null; then
    # Where the Rust installer puts it; a shell that reads no profile does not know.
    PATH="${HOME:-/root}/.cargo/bin:$PATH"
fi
