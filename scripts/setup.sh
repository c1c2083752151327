# Sourced by ./demo, ./test and ./bench from the top of the checkout: makes .venv and installs what the job needs.
#
#   set_up runtime     what people use            set_up dev     the same, and what the tests need
#
# Everything installed is pinned and checked by hash, the build backend included. A stamp in .venv makes later runs skip
# all of it. What happens is told on stderr, so that stdout stays the job's own. Exit 3: this machine lacks something, and
# the line above says what and how to get it.

export PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_NO_INPUT=1 PIP_PROGRESS_BAR=off

NEEDED_KB=2000000

say() { printf '%s\n' "$*" >&2; }

stop() {
    say "$@"
    exit 3
}

set_up() {
    local what=$1 began=$SECONDS stamp
    stamp=$(stamp_of "$what") || stop "Neither sha256sum nor shasum is on the path; one of them is needed to tell whether the set-up is current."
    if [ "$(cat ".venv/stamp-$what" 2>/dev/null)" = "$stamp" ] && .venv/bin/python -c '' 2>/dev/null; then
        return 0
    fi
    check_machine
    make_venv
    if [ "$what" = runtime ]; then
        say "Installing what Pellicle needs into .venv: about 196 MB to fetch, 730 MB on disk, first run only."
    else
        say "Installing what Pellicle and its tests need into .venv: about 316 MB to fetch, 1200 MB on disk, first run only."
    fi
    : >.venv/install.log
    install --require-hashes --only-binary :all: -r requirements/build.txt
    install --require-hashes --only-binary :all: -r requirements/runtime.txt
    if [ "$what" = dev ]; then
        # two oracles of the tests come as source (phreeqpython around a ready library); their build backend is in build.txt
        install --require-hashes --no-build-isolation --only-binary :all: --no-binary phreeqpython,psychrolib -r requirements/dev.txt
    fi
    install --no-deps --no-index --no-build-isolation --editable .
    printf '%s' "$stamp" >".venv/stamp-$what"
    stamp_of runtime >.venv/stamp-runtime  # which dev holds as well
    say "Installed in $(minutes $((SECONDS - began))); $(fetched) MB were fetched. Later runs skip this."
}

# The tests of the pages need a browser; without one they are skipped, and fail where CI is set.
add_browser() {
    command -v chromium >/dev/null 2>&1 || command -v chromium-browser >/dev/null 2>&1 || command -v google-chrome >/dev/null 2>&1 && return 0
    if [ "$(id -u)" != 0 ] || ! command -v apt-get >/dev/null 2>&1; then
        say "No Chromium on the path: the browser tests will be skipped. On Debian: sudo apt-get install chromium"
        return 0
    fi
    say "Installing chromium, which the browser tests need, with apt-get."
    { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -qq --yes --no-install-recommends chromium; } >&2 || say "chromium could not be installed."
}

# The kernel is compiled once per version and kept on disk, so that nobody waits for it later.
warm_up() {
    .venv/bin/python -c 'import sys; from pellicle.run.cache import is_warm; sys.exit(not is_warm())' && return 0
    say "Preparing the calculation, once for this version: about half a minute."
    .venv/bin/python -c 'from pellicle.run.warm import warm; warm()'
}

# What a set-up was made from, and where.
stamp_of() {
    local files=(pyproject.toml scripts/setup.sh requirements/build.txt requirements/runtime.txt)
    [ "$1" = runtime ] || files+=(requirements/dev.txt)
    local sum
    sum=$(cat "${files[@]}" | checksum) || return 1
    printf '%s %s' "$sum" "$PWD"
}

check_machine() {
    case $(uname -m) in
        x86_64 | amd64 | aarch64 | arm64) ;;
        *) stop "This machine is a $(uname -m). Pellicle's libraries come ready-made for x86_64 and aarch64 only; use such a machine." ;;
    esac
    local free_kb
    free_kb=$(df -Pk . | awk 'NR == 2 { print $4 + 0 }') || free_kb=
    if [ -n "$free_kb" ] && [ "$free_kb" -lt "$NEEDED_KB" ]; then
        stop "Only $((free_kb / 1000)) MB are free on the disk of $PWD; setting up needs $((NEEDED_KB / 1000)) MB. Free some, or move the folder to a larger disk."
    fi
}

# Sets $python to one that is new enough and not too new; $PYTHON, when set, is the only one tried.
find_python() {
    local candidate seen=
    for candidate in ${PYTHON:-python3 python3.11 python3.12 python3.13 python}; do
        command -v "$candidate" >/dev/null 2>&1 || continue
        if in_range "$candidate"; then
            python=$candidate
            return
        fi
        seen="$seen $candidate ($("$candidate" -V 2>&1 | awk '{ print $2 }'))"
    done
    stop "Pellicle needs Python 3.11, 3.12 or 3.13; found:${seen:- none}. On Debian or Ubuntu: sudo apt-get install python3 python3-venv"
}

in_range() { "$1" -c 'import sys; sys.exit(not (3, 11) <= sys.version_info[:2] < (3, 14))' 2>/dev/null; }

make_venv() {
    if [ -x .venv/bin/python ] && in_range .venv/bin/python && .venv/bin/python -m pip --version >/dev/null 2>&1; then
        # one that was made in another place still points there
        case $(cat .venv/stamp-* 2>/dev/null) in
            '' | *" $PWD"*) return 0 ;;
        esac
    fi
    find_python
    "$python" -c 'import ensurepip, venv' 2>/dev/null || add_venv_support
    say "Making the virtual environment .venv with $("$python" -V 2>&1)."
    "$python" -m venv --clear .venv || stop "\`$python -m venv .venv\` failed; its own words stand above."
}

# Debian keeps venv and pip's bootstrap in a package of their own.
add_venv_support() {
    local version package
    version=$("$python" -c 'import sys; print("%d.%d" % sys.version_info[:2])')
    package=python$version-venv
    if ! command -v apt-get >/dev/null 2>&1; then
        stop "$python ($version) lacks venv and ensurepip. Install your system's package for them (often named $package), then run this again."
    fi
    if [ "$(id -u)" != 0 ]; then
        stop "$python ($version) lacks venv and ensurepip. Run this, then try again: sudo apt-get update && sudo apt-get install --yes $package"
    fi
    say "Installing $package, which $python lacks, with apt-get."
    { apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -qq --yes "$package"; } >&2 || true
    "$python" -c 'import ensurepip, venv' 2>/dev/null \
        || stop "$python ($version) still lacks venv and ensurepip after: apt-get update && apt-get install --yes $package"
}

# pip's words go to a log; of them only what is being fetched is shown.
install() {
    if ! .venv/bin/python -m pip install "$@" 2>&1 | tee -a .venv/install.log \
        | awk '/^ *Downloading / { print "  fetching " $2 " " $3 " " $4; fflush() }' >&2; then
        tail -n 5 .venv/install.log >&2
        stop "Installing failed: pip's last words stand above, all of them in .venv/install.log. Is the network (or the proxy: HTTPS_PROXY) up? Running this again goes on where it stopped."
    fi
}

fetched() {
    awk '/^ *Downloading / { gsub(/[()]/, ""); n = $3; if ($4 ~ /^[kK]/) n /= 1000; else if ($4 ~ /^[bB]/) n /= 1000000; s += n } END { printf "%.0f", s }' .venv/install.log
}

minutes() {
    if [ "$1" -lt 90 ]; then printf '%d s' "$1"; else awk -v s="$1" 'BEGIN { printf "%.1f min", s / 60 }'; fi
}

checksum() {
    if command -v sha256sum >/dev/null 2>&1; then sha256sum; else shasum -a 256; fi | awk '{ print $1 }'
}
