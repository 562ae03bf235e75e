#!/bin/sh
# Times whole commands with hyperfine: the check of about 1,100 and 11,000 words of captions against a 20-line recipe, and the demo's commands.
# The release build must be there (sh projects/demo.sh makes it).
set -eu
CDPATH='' cd -- "$(dirname -- "$0")/../.."
panslate=$PWD/build/release/panslate
[ -x "$panslate" ] || { echo "build the release first: sh projects/demo.sh" >&2; exit 2; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

{
  printf '# Lentil pot\n\nServes 4\n\n## Ingredients\n\n'
  amount=50
  for food in 'red lentils' carrots celery 'vegetable stock' 'olive oil' 'tomato puree' 'smoked paprika' 'ground cumin' garlic 'white onion' \
    'brown rice' 'coconut milk' 'lime juice' spinach peas 'sweet potato' 'black beans' 'sunflower seeds' parsley 'sea salt'; do
    amount=$((amount + 10))
    echo "- $amount g $food"
  done
  printf '\n## Method\n\n1. Simmer the lentils and carrots for 5 minutes.\n2. Add the rest and simmer for 20 minutes.\n'
} >"$work/recipe.md"

captions() { # WORDS
  awk -v words="$1" 'BEGIN {
    n = split("now add sixty grams of red lentils and seventy grams of carrots|let that simmer for five minutes and give it a stir please|the smell of the garlic is lovely so do not rush|a hundred grams of olive oil goes in with the celery|my kitchen is small but it has the best light today", line, "|")
    for (w = 0; w < words; w += 11) {
      s = w / 11 * 4; i++
      printf "%d\n%02d:%02d:%02d,000 --> %02d:%02d:%02d,000\n%s\n\n", i, s / 3600, s / 60 % 60, s % 60, (s + 4) / 3600, (s + 4) / 60 % 60, (s + 4) % 60, line[i % n + 1]
    }
  }'
}
captions 1100 >"$work/words-1100.srt"
captions 11000 >"$work/words-11000.srt"

hyperfine --style basic --warmup 2 --ignore-failure \
  --command-name 'check, 1,100 words (baseline)' "$panslate check --recipe $work/recipe.md --captions $work/words-1100.srt --json" \
  --command-name 'check, 11,000 words' "$panslate check --recipe $work/recipe.md --captions $work/words-11000.srt --json"
if [ -f projects/demo/footage/edit.mp4 ]; then
  hyperfine --style basic --warmup 1 --ignore-failure --command-name 'check of the demo' "$panslate check projects/demo/demo.json --json"
fi
