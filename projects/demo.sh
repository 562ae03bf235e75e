#!/bin/sh
# The whole main job on the demo project, from a fresh machine: installs what is missing, builds a release, makes the
# demo footage and checks the film against its written recipe. Safe to run again.
set -eu
CDPATH='' cd -- "$(dirname -- "$0")/.."

sh projects/setup.sh
. projects/build.sh
panslate_build release panslate render_demo

demo=projects/demo
out=$demo/out
panslate=build/release/panslate

# Status 1 is the answer "something needs attention", which this demo is made for.
run() {
  status=0
  "$panslate" "$@" || status=$?
  [ "$status" -le 1 ] || exit "$status"
}

build/release/samples/render_demo "$demo"
echo
run check "$demo/demo.json" --out "$out"
echo
run plan "$demo/demo.json" --out "$out" --overwrite --quiet
run overlay "$demo/demo.json" --out "$out" --overwrite --quiet

echo "Where to look:"
for file in "$out"/*; do
  [ ! -f "$file" ] || echo "  $file"
done
echo "  $demo/footage/edit.mp4 is the film; $demo/README.md says what is wrong with it on purpose"
