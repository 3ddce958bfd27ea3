# SPDX-License-Identifier: GPL-3.0-or-later
# Shared by examples/run and tests/run; to be sourced, not run.

say() { printf '\n== %s\n' "$*"; }

# Installs the Debian packages named on the command line that are not there yet.
need_packages() {
    local missing=() package sudo=()
    for package in "$@"; do
        [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null || true)" = installed ] ||
            missing+=("$package")
    done
    [ ${#missing[@]} -eq 0 ] && return 0
    if [ "$(id -u)" -ne 0 ]; then
        if ! command -v sudo >/dev/null; then
            echo "These Debian packages are missing, and only root can install them:" >&2
            echo "  apt-get install ${missing[*]}" >&2
            exit 1
        fi
        sudo=(sudo)
    fi
    say "installing: ${missing[*]}"
    "${sudo[@]}" apt-get update -q
    "${sudo[@]}" env DEBIAN_FRONTEND=noninteractive \
        apt-get install -q -y --no-install-recommends "${missing[@]}"
}

# Sets a build folder up once; later only looks again at what is installed. A folder that was left
# half set up, or copied from elsewhere, is made anew.
#   set_up FOLDER [meson options]
set_up() {
    local folder=$1 log
    shift
    mkdir -p "$folder"
    log=$folder/set-up.log
    if [ -f "$folder/build.ninja" ] &&
        meson introspect --buildsystem-files "$folder" 2>/dev/null | grep -qF "\"$PWD/meson.build\""; then
        meson setup --reconfigure "$folder" "$@" >"$log" 2>&1
    else
        rm -rf "$folder/meson-private" "$folder/meson-info" "$folder/build.ninja"
        meson setup "$folder" "$@" >"$log" 2>&1
    fi || {
        cat "$log"
        return 1
    }
}
