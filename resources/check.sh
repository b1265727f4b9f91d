#!/bin/sh
# Runs all tests, or those the words given choose (for example: -m nightly, or tests/geometry); sets up what is missing first.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd -P)
# shellcheck source=resources/set_up.sh
. "$root/resources/set_up.sh"

set_up dev
cd -- "$root"
QT_QPA_PLATFORM=offscreen
export QT_QPA_PLATFORM
exec "$venv/bin/python" -P -m pytest "$@"
