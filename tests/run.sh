#!/bin/sh
# Sets the machine up, builds with the tests and passes them all.
#
#   sh tests/run.sh [PRESET] [CTEST ARGUMENTS…]
#
#   PRESET  dev (GCC, debug; the default) or asan (Clang, ASan and UBSan)
#
# A build that goes well says nothing; one that does not shows its last lines.
set -eu
CDPATH='' cd -- "$(dirname -- "$0")/.."

preset=dev
case ${1-} in
  dev | asan)
    preset=$1
    shift
    ;;
esac

groups=tests
[ "$preset" = dev ] || groups='tests checks'
sh projects/setup.sh $groups
. projects/build.sh
panslate_build "$preset"
log=build/$preset/test.log
echo "Testing ($preset) ..."
if ! ctest --preset "$preset" --parallel "$(nproc)" --no-tests=error "$@" >"$log" 2>&1 </dev/null; then
  grep -vE '^ *([0-9]+/[0-9]+ Test .* Passed|Start [0-9]+:)' "$log" >&2
  echo "Tests failed; all of their output is in $log" >&2
  exit 1
fi
sed -n '/% tests passed/,$p' "$log"
