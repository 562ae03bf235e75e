#!/bin/sh
# Installs the Debian packages that panslate needs and that are missing here. Says what it will install; silent when
# nothing is missing. Safe to run again.
#
#   sh projects/setup.sh [build] [tests] [checks] [bench]
#
#   build   the compiler, CMake and the libraries (always)
#   tests   what the tests need besides
#   checks  Clang with its sanitizers, clang-format and clang-tidy
#   bench   what the measurements need
set -eu

build='g++ cmake ninja-build pkg-config libavformat-dev libavcodec-dev libavfilter-dev libavutil-dev libswscale-dev
  libswresample-dev libebur128-dev libicu-dev libfmt-dev nlohmann-json3-dev libcli11-dev libexpected-dev libvalijson-dev
  libkainjow-mustache-dev libgumbo-dev libstemmer-dev nettle-dev flite1-dev libpocketsphinx-dev libsphinxbase-dev
  pocketsphinx-en-us wbritish-small wamerican-small fonts-dejavu-core libcpp-httplib-dev'
tests='libgtest-dev libgmock-dev ffmpeg units tidy pocketsphinx-testdata libespeak-ng-dev'
checks='clang-14 libclang-rt-14-dev clang-format-14 clang-tidy-14'
bench='libbenchmark-dev hyperfine libespeak-ng-dev'

wanted=$build
for group in "$@"; do
  case $group in
    build) ;;
    tests) wanted="$wanted $tests" ;;
    checks) wanted="$wanted $checks" ;;
    bench) wanted="$wanted $bench" ;;
    *)
      echo "setup.sh: there is no group '$group'; the groups are build, tests, checks and bench" >&2
      exit 2
      ;;
  esac
done

if ! command -v dpkg-query >/dev/null 2>&1 || ! command -v apt-get >/dev/null 2>&1; then
  echo "setup.sh: this needs Debian 12 (or a relative with apt-get). On another system install the likes of:" >&2
  echo "  $(echo $wanted)" >&2
  exit 1
fi

missing=
for package in $wanted; do
  state=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) || state=
  [ "$state" = installed ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

if [ "$(id -u)" -eq 0 ]; then
  as_root='env'
elif command -v sudo >/dev/null 2>&1; then
  as_root='sudo env'
else
  echo "setup.sh: packages are missing, and installing them needs root or sudo. As root, run:" >&2
  echo "  apt-get update && apt-get install --no-install-recommends$missing" >&2
  exit 1
fi

echo "Installing the missing Debian packages:$missing"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
# A package source that does not answer need not matter: whether the installation works decides.
$as_root apt-get update -qq >"$log" 2>&1 </dev/null || true
if ! $as_root DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing \
  >>"$log" 2>&1 </dev/null; then
  tail -n 30 "$log" >&2
  echo "setup.sh: the packages could not be installed; the lines above say why" >&2
  exit 1
fi
