// Reading captions costs time in proportion to their words: those of one video, ten times as many, and far
// more.
#include <cstdint>
#include <string>
#include <string_view>

#include <benchmark/benchmark.h>

#include "panslate/base/media_time.h"
#include "panslate/base/timestamp.h"
#include "panslate/speech/transcript.h"

namespace {

using panslate::MediaTime;
using panslate::TimestampStyle;

std::string times(std::int64_t cue, TimestampStyle style) {
  const auto begin = MediaTime::from_ms(cue * 3000);
  return panslate::format_timestamp(begin, style) + " --> " +
         panslate::format_timestamp(begin + MediaTime::from_ms(2900), style) + "\n";
}

/// Nine words, different in each cue.
std::string line_of(std::int64_t cue) {
  return "then we add " + std::to_string(cue % 400) + " grams of corn &amp; stir";
}

std::string subrip(std::int64_t words) {
  std::string out;
  for (std::int64_t cue = 0; cue < words / 9; ++cue)
    out += std::to_string(cue + 1) + "\n" + times(cue, TimestampStyle::Comma) + line_of(cue) + "\n\n";
  return out;
}

std::string webvtt(std::int64_t words) {
  std::string out = "WEBVTT\n\n";
  for (std::int64_t cue = 0; cue < words / 9; ++cue)
    out += times(cue, TimestampStyle::Clock) + "<v Ines>" + line_of(cue) + "</v>\n\n";
  return out;
}

std::string rolling(std::int64_t words) {
  std::string out;
  for (std::int64_t cue = 0; cue < words / 9; ++cue)
    out +=
        times(cue, TimestampStyle::Comma) + (cue == 0 ? "" : line_of(cue - 1) + "\n") + line_of(cue) + "\n\n";
  return out;
}

std::string marked(std::int64_t words) {
  std::string out;
  for (std::int64_t cue = 0; cue < words / 9; ++cue)
    out += "[" + panslate::format_timestamp(MediaTime::from_ms(cue * 3000), TimestampStyle::Spoken) + "] " +
           line_of(cue) + "\n";
  return out;
}

void read(benchmark::State& state, std::string (*make)(std::int64_t)) {
  const auto text = make(state.range(0));
  std::size_t words = 0;
  for (auto _ : state) {
    const auto transcript = panslate::read_captions(text, "talk");
    if (!transcript) {
      state.SkipWithError("the captions could not be read");
      return;
    }
    words = transcript->words.size();
    benchmark::DoNotOptimize(words);
  }
  state.counters["words"] = static_cast<double>(words);
}

BENCHMARK_CAPTURE(read, subrip, subrip)->Arg(1'100)->Arg(11'000)->Arg(90'000)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(read, webvtt, webvtt)->Arg(1'100)->Arg(11'000)->Arg(90'000)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(read, rolling, rolling)
    ->Arg(1'100)
    ->Arg(11'000)
    ->Arg(90'000)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(read, marked, marked)->Arg(1'100)->Arg(11'000)->Arg(90'000)->Unit(benchmark::kMillisecond);

}  // namespace
