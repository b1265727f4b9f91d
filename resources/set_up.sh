# shellcheck shell=sh disable=SC2154 # `root` comes from the script that reads this
# Read by start.sh and check.sh, which first set `root` to the folder of the checkout: brings the machine and the private
# environment `.venv` to where grillestack runs. May be interrupted at any moment; the next run finishes the work.

venv=$root/.venv

# "library:Debian package" for a program without a screen, then what a window on X11 or Wayland needs besides.
drawing_libraries='libGL.so.1:libgl1 libEGL.so.1:libegl1 libxkbcommon.so.0:libxkbcommon0 libdbus-1.so.3:libdbus-1-3
    libfontconfig.so.1:libfontconfig1 libglib-2.0.so.0:libglib2.0-0 libX11.so.6:libx11-6'
window_libraries='libxcb-cursor.so.0:libxcb-cursor0 libxcb-icccm.so.4:libxcb-icccm4 libxcb-image.so.0:libxcb-image0
    libxcb-keysyms.so.1:libxcb-keysyms1 libxcb-randr.so.0:libxcb-randr0 libxcb-render-util.so.0:libxcb-render-util0
    libxcb-shape.so.0:libxcb-shape0 libxcb-shm.so.0:libxcb-shm0 libxcb-sync.so.1:libxcb-sync1
    libxcb-xfixes.so.0:libxcb-xfixes0 libxcb-xkb.so.1:libxcb-xkb1 libxkbcommon-x11.so.0:libxkbcommon-x11-0
    libX11-xcb.so.1:libx11-xcb1 libwayland-client.so.0:libwayland-client0 libwayland-cursor.so.0:libwayland-cursor0'

# What the caller's shell adds to every Python has no place in a private environment.
unset PYTHONHOME PYTHONPATH PIP_TARGET PIP_PREFIX
PIP_USER=0 PIP_DISABLE_PIP_VERSION_CHECK=1
export PIP_USER PIP_DISABLE_PIP_VERSION_CHECK

say() {
    printf '%s\n' "$*" >&2
}

stop() {
    say "$*"
    exit 1
}

has_display() {
    [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ] || [ "$(uname -s)" = Darwin ]
}

# Make everything ready; the argument is empty to run grillestack, or "dev" to test it as well.
set_up() {
    ensure_libraries
    is_ready "$1" && return
    one_at_a_time
    if ! is_ready "$1"; then
        ensure_environment
        fill_environment "$1"
    fi
    exec 9<&-
}

ensure_libraries() {
    [ "$(uname -s)" = Linux ] || return 0
    wanted=$drawing_libraries
    if has_display; then wanted="$wanted $window_libraries"; fi
    present=$(PATH="$PATH:/usr/sbin:/sbin" ldconfig -p 2>/dev/null) || return 0
    missing='' packages=''
    for pair in $wanted; do
        case $present in
            *"	${pair%%:*} ("*) ;;
            *) missing="$missing ${pair%%:*}" packages="$packages ${pair#*:}" ;;
        esac
    done
    [ -n "$missing" ] || return 0
    # shellcheck disable=SC2086 # package names are words
    may_install && install_packages $packages && return
    if command -v apt-get >/dev/null; then
        say "Some system packages are missing and could not be installed from here; if the window stays away, run: apt-get install$packages"
    else
        say "Some system libraries are missing; if the window stays away, install the packages that bring:$missing"
    fi
}

may_install() {
    command -v apt-get >/dev/null || return 1
    if [ "$(id -u)" -eq 0 ]; then
        as_root=''
    elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
        as_root='sudo -n'
    else
        return 1
    fi
}

install_packages() {
    say "Installing system packages: $*."
    # Old lists may still do, so a failed update alone is no reason to stop.
    apt_get update || true
    apt_get install --yes --no-install-recommends "$@" && return
    mend_packages
    apt_get install --yes --no-install-recommends "$@" && return
    # One name that this release does not know must not keep the others away.
    refused=''
    for package in "$@"; do
        apt_get install --yes --no-install-recommends "$package" || refused="$refused $package"
    done
    [ -z "$refused" ] && return
    say "apt-get could not install:$refused. Its last words were:"
    say "$(printf '%s\n' "$apt_said" | tail -n 3)"
    return 1
}

# An installation that was cut off blocks every later one until it is finished.
mend_packages() {
    # shellcheck disable=SC2016 # dpkg-query fills these in
    half_unpacked=$(dpkg-query -W -f '${db:Status-Eflag} ${Package}\n' | sed -n 's/^reinstreq //p')
    # shellcheck disable=SC2086 # package names are words
    [ -z "$half_unpacked" ] || apt_get install --reinstall --yes $half_unpacked || true
    # shellcheck disable=SC2086 # nothing, or two words
    $as_root env DEBIAN_FRONTEND=noninteractive dpkg --configure -a </dev/null >/dev/null 2>&1 || true
    apt_get install --fix-broken --yes || true
}

apt_get() {
    # shellcheck disable=SC2086 # nothing, or two words
    apt_said=$($as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=120 "$@" </dev/null 2>&1)
}

# The stamp names the dependencies and the folder: a moved checkout has stale paths in its environment.
stamp() {
    printf '%s %s\n' "$(cksum <"$root/pyproject.toml")" "$root"
}

is_ready() {
    [ ! -e "$venv/unfinished" ] || return 1
    now=$(stamp)
    is_stamped dev "$now" || { [ -z "$1" ] && is_stamped '' "$now"; } || return 1
    # A Python that was upgraded underneath no longer finds what was installed for the old one.
    "$venv/bin/python" -P -c 'import grillestack' 2>/dev/null
}

is_stamped() {
    [ -r "$venv/ready$1" ] && [ "$(cat "$venv/ready$1")" = "$2" ]
}

# The lock is on a file that is there anyway, and the system drops it however the holder ends.
one_at_a_time() {
    exec 9<"$root/pyproject.toml"
    command -v flock >/dev/null || return 0
    flock -n 9 && return
    say "Another set-up is at work in this folder; waiting for it."
    flock 9 || true
}

ensure_environment() {
    if [ -e "$venv/unfinished" ]; then
        say "An earlier set-up did not finish; starting it afresh."
        rm -rf -- "$venv"
    elif [ -e "$venv/pyvenv.cfg" ] && ! has_pip; then
        say "The environment in .venv belongs to a Python that is gone; making a new one."
        rm -rf -- "$venv"
    fi
    [ ! -x "$venv/bin/python" ] || return 0
    ensure_python
    say "Making a private Python environment in $venv."
    mkdir -p "$venv" || stop "The folder $root cannot be written to: copy grillestack to a folder of your own and run this again."
    : >"$venv/unfinished"
    "$python" -m venv "$venv" || stop "$python could not make an environment in $venv; see its message above."
}

has_pip() {
    "$venv/bin/python" -c 'import pip' 2>/dev/null || "$venv/bin/python" -m ensurepip >/dev/null 2>&1
}

ensure_python() {
    find_python && return
    if may_install; then
        install_packages python3 python3-venv && find_python && return
        # Where the release's own Python is too old, it may offer a newer one beside it.
        apt-cache show python3.11-venv >/dev/null 2>&1 && install_packages python3.11 python3.11-venv && find_python && return
    fi
    stop "grillestack needs Python 3.11 or newer that can make environments: install it (on Debian and Ubuntu the packages python3 and python3-venv) and run this again."
}

find_python() {
    for python in python3.11 python3.12 python3.13 python3; do
        "$python" -c 'import ensurepip, sys, venv; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1 && return
    done
    return 1
}

fill_environment() {
    fresh=yes
    [ -e "$venv/unfinished" ] || fresh=''
    : >"$venv/unfinished"
    say "Fetching the Python libraries; the first time this takes a few minutes."
    if ! "$venv/bin/python" -m pip install --quiet --editable "$root${1:+[$1]}" </dev/null >&2; then
        # pip undoes what it could not finish, so an environment that worked before still does.
        [ -n "$fresh" ] || rm -f -- "$venv/unfinished"
        stop "The Python libraries could not be installed, see above: check the internet connection and run the same command again."
    fi
    stamp >"$venv/ready$1"
    rm -f -- "$venv/unfinished"
}
