#!/bin/sh
# What logging a clip costs against decoding it alone, against the separate commands a person would type, and again
# with nothing changed. From the top folder; needs ffmpeg, hyperfine and a release build.
#
#   sh tests/bench/log_footage.sh [CLIP…]     without clips, two of 30 s are drawn: 1080p in H.264 and HEVC
set -eu

program=$(pwd)/build/release/panslate
[ -x "$program" ] || {
  echo "log_footage.sh: build it first: . projects/build.sh; panslate_build release" >&2
  exit 2
}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

if [ $# -eq 0 ]; then
  # Moving texture with the noise of a sensor and cuts every five seconds: as hard to decode as a phone's clip.
  for codec in libx264 libx265; do
    ffmpeg -v error -f lavfi -i "testsrc2=s=1920x1080:r=30,noise=alls=12:allf=t,hue=h='90*floor(t/5)'" \
      -f lavfi -i "anoisesrc=c=pink:a=0.1:r=48000,tremolo=f=1.3:d=0.8,aformat=channel_layouts=stereo" -t 30 \
      -c:v $codec -preset veryfast -b:v 16M -pix_fmt yuv420p -c:a aac "$folder/$codec.mp4" </dev/null 2>/dev/null
  done
  set -- "$folder/libx264.mp4" "$folder/libx265.mp4"
fi

threads=$(nproc)
for clip in "$@"; do
  copy=$folder/log/$(basename "$clip")
  mkdir -p "$folder/log"
  cp "$clip" "$copy"
  echo "$(basename "$clip"), $threads threads"
  hyperfine --style none --warmup 1 --runs "${RUNS:-5}" --export-csv "$folder/times.csv" \
    -n 'ffmpeg decoding alone' "ffmpeg -v error -nostdin -threads $threads -i '$copy' -f null -" \
    -n 'separate ffmpeg commands' "ffmpeg -v error -nostdin -i '$copy' -an -vf scdet -f null -; \
      ffmpeg -v error -nostdin -i '$copy' -an -vf blackdetect -f null -; \
      ffmpeg -v error -nostdin -i '$copy' -an -vf freezedetect -f null -; \
      ffmpeg -v error -nostdin -i '$copy' -vn -af ebur128=peak=true -f null -; \
      ffmpeg -v error -nostdin -i '$copy' -vn -af silencedetect -f null -; \
      ffmpeg -v error -nostdin -y -i '$copy' -an -vf 'select=gt(scene\,0.3),scale=320:-2' -vsync vfr '$folder/still-%03d.jpg'" \
    --prepare "rm -rf '$folder/log/.panslate'" -n 'panslate log' "'$program' log '$copy' --quiet || [ \$? -eq 1 ]" >/dev/null
  "$program" log "$copy" --quiet || [ $? -eq 1 ]
  hyperfine --style none -N --ignore-failure --warmup 2 --runs 20 --export-csv "$folder/again.csv" -n 'again' "'$program' log '$copy' --quiet" >/dev/null
  awk -F, 'FNR > 1 { median[++n] = $4 }
    END {
      printf "  decoding alone %.2f s, separate commands %.2f s, log %.2f s, again %.1f ms\n", median[1], median[2], median[3], median[4] * 1000
      printf "  log is %.2f x decoding, %.2f x the separate commands; again %.0f x faster\n", median[3] / median[1], median[3] / median[2], median[3] / median[4]
    }' "$folder/times.csv" "$folder/again.csv"
done
