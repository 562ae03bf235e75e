#!/bin/sh
# Times whole commands with hyperfine: the check of about 1,100 and 11,000 words of captions against a 20-line recipe,
# 9,000 and 90,000 words against 60 lines, a recipe of 200 lines, the same read through, and the check of the demo.
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
captions 9000 >"$work/words-9000.srt"
captions 90000 >"$work/words-90000.srt"
awk 'BEGIN {
  n = split("red lentils|carrots|celery|vegetable stock|olive oil|tomato puree|smoked paprika|ground cumin|garlic|white onion", food, "|")
  m = split("fresh|dried|tinned|smoked|pickled|frozen", form, "|")
  printf "# Sixty lines\n\nServes 4\n\n## Ingredients\n\n"
  for (i = 0; i < 60; i++) printf "- %d g %s %s\n", 50 + i, form[int(i / n) + 1], food[i % n + 1]
  printf "\n## Method\n\n"
  for (i = 1; i <= 20; i++) printf "%d. Add the %s and simmer for %d minutes.\n", i, food[i % n + 1], i + 2
}' >"$work/sixty.md"
awk 'BEGIN {
  n = split("carrots leeks celery peas parsley spinach garlic rice lentils oats", food, " ")
  printf "# Long list\n\nServes 4\n\n## Ingredients\n\n"
  for (i = 0; i < 100; i++) printf "- %d g %s, chopped\n", 20 + i, food[i % n + 1]
  printf "\n## Method\n\n"
  for (i = 1; i <= 90; i++) printf "%d. Add the %s and cook for %d minutes at 180 °C until golden.\n", i, food[i % n + 1], i % 20 + 2
}' >"$work/long.md"
printf '1\n00:00:01,000 --> 00:00:03,000\nhello and welcome\n' >"$work/hello.srt"

hyperfine --style basic --warmup 2 --ignore-failure \
  --command-name 'check, 1,100 words (baseline)' "$panslate check --recipe $work/recipe.md --captions $work/words-1100.srt --json" \
  --command-name 'check, 11,000 words' "$panslate check --recipe $work/recipe.md --captions $work/words-11000.srt --json" \
  --command-name 'reading a recipe of 200 lines' "$panslate check --recipe $work/long.md --captions $work/hello.srt --json" \
  --command-name 'reading it through' "$panslate read $work/long.md --json"
hyperfine --style basic --warmup 1 --ignore-failure \
  --command-name 'check, 9,000 words, 60 lines (baseline)' "$panslate check --recipe $work/sixty.md --captions $work/words-9000.srt --json" \
  --command-name 'check, 90,000 words, 60 lines' "$panslate check --recipe $work/sixty.md --captions $work/words-90000.srt --json"
if [ -f projects/demo/footage/edit.mp4 ]; then
  hyperfine --style basic --warmup 1 --ignore-failure --command-name 'check of the demo' "$panslate check projects/demo/demo.json --json"
fi
