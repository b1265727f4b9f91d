#!/bin/sh
# Opens grillestack with the first demo, or with the file or words given; sets up what is missing first.
# Without a display it prints the verdict and draws the window into a picture instead.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P)
# shellcheck source=resources/set_up.sh
. "$root/resources/set_up.sh"

grillestack() {
    "$venv/bin/python" -P -m grillestack "$@"
}

first_demo() {
    LC_ALL=C
    for demo in "$root"/demo_projects/*.grillestack; do
        [ -f "$demo" ] || stop "There is no demo project in $root/demo_projects: fetch grillestack again, or name a file to open."
        printf '%s\n' "$demo"
        return
    done
}

open_window() {
    status=0
    grillestack "$@" || status=$?
    # Qt ends itself by a signal when no screen answers.
    if [ "$status" -eq 134 ]; then
        say "If the window never came up, no screen answers at ${WAYLAND_DISPLAY:-${DISPLAY:-this machine}}; for an answer without one: env -u DISPLAY -u WAYLAND_DISPLAY sh '$root/resources/start.sh'"
    fi
    return "$status"
}

show_without_display() {
    name=$(basename -- "$1" .grillestack)
    picture="$root/build/$name.png"
    mkdir -p "$root/build"
    say "There is no display here, so this is the verdict on $name in words, and the window as a picture."
    # Bad news is no failure of this script, but no news is.
    status=0
    answer=$(grillestack assess "$1") || status=$?
    [ -n "$answer" ] || exit "$status"
    printf '%s\n' "$answer"
    [ "$status" -le 2 ] || exit "$status"
    QT_QPA_PLATFORM=offscreen grillestack picture "$1" --out "$picture"
    say "The window as it would look: $picture"
}

set_up ''
if has_display; then
    # Without a file the window opens the first demo as a demo: saving asks for a name instead of writing over it.
    open_window "$@"
    exit
fi
if [ $# -eq 0 ]; then
    demo=$(first_demo)
    set -- "$demo"
fi
if [ $# -eq 1 ] && [ -f "$1" ]; then
    show_without_display "$1"
else
    grillestack "$@"
fi
