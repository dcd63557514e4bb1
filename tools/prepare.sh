# Sourced by the other tools: installs what is missing, then configures and builds.
# After it, $root is the project's folder and the working folder.

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
cd "$root"

say() { printf '%s\n' "$*" >&2; }

# The names in tools/packages.txt that dpkg does not know as installed, one a line.
missing_packages() {
  local wanted installed
  wanted=$(sed -e 's/#.*//' -e 's/[[:space:]]//g' -e '/^$/d' tools/packages.txt | LC_ALL=C sort -u)
  # shellcheck disable=SC2086  # one word a package
  installed=$(dpkg-query -W -f '${db:Status-Status} ${Package}\n' $wanted 2>/dev/null |
    sed -n 's/^installed //p' | LC_ALL=C sort -u) || true
  LC_ALL=C comm -23 <(printf '%s\n' "$wanted") <(printf '%s\n' "$installed")
}

install_packages() {
  if ! command -v dpkg-query >/dev/null; then
    say "This is no Debian system: the packages of tools/packages.txt have to be there already."
    return 0
  fi
  local missing as_root=()
  missing=$(missing_packages)
  [[ -n $missing ]] || return 0
  say "Installing:" $missing
  if [[ $(id -u) -ne 0 ]]; then
    if ! command -v sudo >/dev/null; then
      say "Installing needs root, and sudo is not here. As root, please run:"
      say "  apt-get install --no-install-recommends" $missing
      return 1
    fi
    as_root=(sudo)
  fi
  # shellcheck disable=SC2086
  if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -q </dev/null >&2 ||
    ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
      apt-get install -q -y --no-install-recommends $missing </dev/null >&2; then
    say "apt could not install what dogear needs: see its message above."
    say "Is there a network, and does /etc/apt name a Debian 12 mirror? Then run this again."
    return 1
  fi
}

# configure PRESET: does nothing where that was done before, in this very folder.
configure() {
  local folder=build/$1
  if [[ -f $folder/build.ninja ]] &&
    grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$folder/CMakeCache.txt"; then
    return 0
  fi
  cmake --preset "$1" --fresh >&2
}

# build PRESET [TARGET...]
build() {
  local preset=$1
  shift
  ninja -C "build/$preset" "$@" >&2
}
