#include "speech/alignment_measure.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace panslate::testing {

namespace {

double ms(MediaTime time) {
  return static_cast<double>(time.ticks()) * 1000.0 / static_cast<double>(MediaTime::kTicksPerSecond);
}

}  // namespace

void WordErrors::add(const WordErrors& other) {
  ms.insert(ms.end(), other.ms.begin(), other.ms.end());
  missed += other.missed;
  false_words += other.false_words;
  false_takes += other.false_takes;
}

double WordErrors::quantile(double share) const {
  if (ms.empty()) return 1e9;
  auto sorted = ms;
  std::sort(sorted.begin(), sorted.end());
  return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1) + 0.5)];
}

std::string WordErrors::print(const std::string& what) const {
  char text[200];
  std::snprintf(
      text, sizeof text,
      "%-32s %4zu words: median %5.1f ms, p90 %5.1f, worst %4.0f; %zu missed, %zu false (%zu takes)\n",
      what.c_str(), ms.size(), quantile(0.5), quantile(0.9), quantile(1.0), missed, false_words, false_takes);
  return text;
}

WordErrors compare(const Narration& truth, const ScriptAlignment& found) {
  WordErrors errors;
  std::vector<bool> used(found.words.size());
  for (const auto& word : truth.words) {
    if (!word.line) continue;
    double nearest = 1000.0;
    std::size_t at = found.words.size();
    for (std::size_t i = 0; i < found.words.size(); ++i) {
      if (used[i] || found.words[i].line != *word.line || found.words[i].word != word.in_line) continue;
      const double off = std::abs(ms(found.words[i].when.begin - word.when.begin));
      if (off < nearest) nearest = off, at = i;
    }
    if (at == found.words.size()) {
      ++errors.missed;
      continue;
    }
    used[at] = true;
    if (word.time_known) errors.ms.push_back(nearest);
  }
  for (const auto& take : found.takes) {
    std::size_t wrong = 0;
    for (auto i = take.first_word; i < take.first_word + take.words; ++i) wrong += used[i] ? 0 : 1;
    errors.false_words += wrong;
    errors.false_takes += wrong == take.words ? 1 : 0;
  }
  return errors;
}

std::vector<std::string> spoken_lines(const std::string& file, std::size_t count) {
  std::vector<std::string> lines;
  for (const auto& line : read_spoken_script(std::string(PANSLATE_SOURCE_DIR) + "/tests/data/speech/" + file))
    if (lines.size() < count) lines.push_back(line.spoken());
  return lines;
}

std::vector<panslate::ScriptLine> script_of(const std::vector<std::string>& lines) {
  std::string text;
  for (const auto& line : lines) text += line + '\n';
  return read_script(text, "script.txt").value();
}

Session session_of(std::span<const std::string> lines) {
  const auto all = read_out(lines);
  Session session;
  const auto whole = [&](std::size_t line) {
    session.said.push_back(all.at(line));
    ++session.takes;
  };
  const auto broken = [&](std::size_t line, std::size_t words) {
    session.said.push_back(all.at(line));
    session.said.back().broken_off = words;
    ++session.broken;
  };
  const auto talk = [&](std::string text) { session.said.push_back({std::move(text), {}, {}, {}}); };

  for (std::size_t line = 0; line < all.size(); ++line) {
    if (line == 7) continue;  // left out
    if (line == 5 || line == 15) broken(line, 4);
    whole(line);
    if (line == 3 || line == 10) whole(line);
    if (line == 12) whole(line - 1), whole(line);
    if (line == 4) talk("oh I have to check whether the phone is ringing in the other room.");
    if (line == 9) talk("no that was rubbish let me do it again.");
    if (line == 16) {
      whole(line + 1);
      session.said.back().ad_lib = Said::Inside{3, "sorry the dog is barking outside"};
    }
  }
  talk("right, is that thing still running, I think we are done for today, can you switch it off please.");
  return session;
}

}  // namespace panslate::testing
