#include "speech/narration.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <fstream>
#include <random>
#include <stdexcept>
#include <string_view>

#include "panslate/base/text.h"

#include "speech/synthesiser.h"

namespace panslate::testing {

namespace {

MediaTime time_of(std::size_t sample) {
  return MediaTime::from_units(static_cast<std::int64_t>(sample), 1, kSampleRate).value();
}

std::vector<std::string> parted(std::string_view text) {
  auto words = split(collapse_spaces(text), ' ');
  std::erase(words, "");
  return words;
}

std::string bare(std::string_view word) {
  constexpr std::string_view kMarks = ",.;:!?\"()";
  while (!word.empty() && kMarks.find(word.front()) != std::string_view::npos) word.remove_prefix(1);
  while (!word.empty() && kMarks.find(word.back()) != std::string_view::npos) word.remove_suffix(1);
  return fold_case(word);
}

// What is spoken in one breath, with the place in the script's line of each word.
struct Breath {
  std::string text;
  std::vector<std::optional<std::size_t>> in_line;
  std::size_t kept = 0;  // words
};

Breath breath_of(const Said& said) {
  Breath breath;
  const auto words = parted(said.text);
  std::vector<std::string> spoken;
  const auto put_ad_lib = [&](std::size_t at) {
    if (!said.ad_lib || said.ad_lib->after != at) return;
    for (auto& word : parted(said.ad_lib->text)) {
      spoken.push_back(std::move(word));
      breath.in_line.emplace_back();
    }
  };
  for (std::size_t w = 0; w < words.size(); ++w) {
    put_ad_lib(w);
    spoken.push_back(words[w]);
    breath.in_line.emplace_back(said.line ? std::optional(w) : std::nullopt);
    if (said.broken_off && w + 1 == *said.broken_off) breath.kept = spoken.size();
  }
  put_ad_lib(words.size());
  if (!said.broken_off || breath.kept == 0) breath.kept = spoken.size();
  breath.text = join(spoken, " ");
  return breath;
}

// Fades the last 10 ms: a voice that stops does not click.
void fade_out(std::vector<std::int16_t>& samples) {
  const std::size_t length = std::min<std::size_t>(samples.size(), kSampleRate / 100);
  for (std::size_t i = 0; i < length; ++i) {
    auto& sample = samples[samples.size() - 1 - i];
    sample = static_cast<std::int16_t>(sample * static_cast<double>(i) / static_cast<double>(length));
  }
}

}  // namespace

std::string to_string(Voice voice) {
  constexpr std::array<std::string_view, 8> kNames{"flite kal16",        "flite rms", "flite awb",
                                                   "flite slt",          "espeak us", "espeak gb",
                                                   "espeak gb-scotland", "espeak 029"};
  std::string name(kNames[static_cast<std::size_t>(voice.speaker)]);
  if (voice.stretch == 1.0) return name;
  auto stretch = std::to_string(voice.stretch);
  stretch.erase(stretch.find_last_not_of('0') + 1);
  return name + ", " + stretch;
}

std::vector<Said> read_out(std::span<const std::string> lines) {
  std::vector<Said> said;
  for (std::size_t l = 0; l < lines.size(); ++l) said.push_back({lines[l], l, std::nullopt, std::nullopt});
  return said;
}

std::vector<std::string> words_spoken(std::string_view text) {
  auto words = parted(text);
  for (auto& word : words) word = bare(word);
  return words;
}

Narration narrate(std::span<const Said> said, Voice voice, Pauses pauses) {
  std::mt19937 random(pauses.seed);
  const auto silence = [](double seconds) {
    return static_cast<std::size_t>(std::max(0.0, seconds) * kSampleRate);
  };
  // Room for the sound of a mouth opening and closing, not for the silence synthesisers add.
  constexpr std::size_t kBefore = kSampleRate / 20;
  constexpr std::size_t kAfter = kSampleRate / 10;
  Narration narration;
  auto& samples = narration.samples;
  samples.resize(silence(pauses.at_ends), 0);
  for (std::size_t s = 0; s < said.size(); ++s) {
    const auto breath = breath_of(said[s]);
    if (breath.text.empty()) continue;
    const auto spoken = synthesise(breath.text, voice);
    const auto words = parted(breath.text);
    if (spoken.words.size() != words.size())
      throw std::runtime_error(to_string(voice) + " speaks " + std::to_string(spoken.words.size()) +
                               " words: " + breath.text);
    const auto first = spoken.words.front().begin;
    const auto last = spoken.words[breath.kept - 1].end;
    const auto from = first - std::min(first, kBefore);
    const auto to = std::min(spoken.samples.size(), breath.kept < words.size() ? last : last + kAfter);
    std::vector<std::int16_t> part(spoken.samples.begin() + static_cast<std::ptrdiff_t>(from),
                                   spoken.samples.begin() + static_cast<std::ptrdiff_t>(std::max(from, to)));
    fade_out(part);
    for (std::size_t w = 0; w < breath.kept; ++w) {
      const auto& place = spoken.words[w];
      const auto in_line = breath.in_line[w];
      const auto sample = [&](std::size_t at) { return samples.size() + std::max(at, from) - from; };
      narration.words.push_back({bare(words[w]),
                                 s,
                                 in_line ? said[s].line : std::nullopt,
                                 in_line.value_or(0),
                                 {time_of(sample(place.begin)), time_of(sample(place.end))},
                                 place.time_known});
    }
    samples.insert(samples.end(), part.begin(), part.end());
    const double spread = (static_cast<double>(random() % 2001) - 1000) / 3000;  // ± a third
    if (s + 1 < said.size()) samples.resize(samples.size() + silence(pauses.between_lines * (1 + spread)), 0);
  }
  samples.resize(samples.size() + silence(pauses.at_ends), 0);
  return narration;
}

void write_wav(const std::filesystem::path& file, const Narration& narration) {
  std::string bytes;
  const auto put = [&](std::uint32_t value, int size) {
    for (int i = 0; i < size; ++i) bytes += static_cast<char>((value >> (8 * i)) & 0xFFU);
  };
  const auto size = static_cast<std::uint32_t>(narration.samples.size() * 2);
  bytes += "RIFF";
  put(36 + size, 4);
  bytes += "WAVEfmt ";
  put(16, 4);
  put(1, 2);
  put(1, 2);
  put(kSampleRate, 4);
  put(kSampleRate * 2, 4);
  put(2, 2);
  put(16, 2);
  bytes += "data";
  put(size, 4);
  for (const auto sample : narration.samples) put(static_cast<std::uint16_t>(sample), 2);
  std::ofstream out(file, std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

}  // namespace panslate::testing
