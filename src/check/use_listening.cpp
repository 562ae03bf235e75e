#include "panslate/check/use_listening.h"

#include <algorithm>
#include <map>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/base/timestamp.h"
#include "panslate/kitchen/compare.h"

namespace panslate {

namespace {

// Longer cues than this are no cues; comparing costs the product.
constexpr std::size_t kMostWords = 1000;

std::string letters_of(std::string_view word) {
  const auto folded = fold_accents(word);
  std::string out;
  for (std::size_t at = 0; at < folded.size();) {
    const auto [value, next] = code_point_at(folded, at);
    if (is_word_character(value)) out.append(folded, at, next - at);
    at = next;
  }
  return out;
}

// Pairs of indices, ascending in both, of the longest sequence of words that both have.
std::vector<std::pair<std::size_t, std::size_t>> common_words(const std::vector<std::string>& a,
                                                              const std::vector<std::string>& b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::uint16_t> longest((a.size() + 1) * width, 0);
  const auto at = [&](std::size_t i, std::size_t j) -> std::uint16_t& { return longest[i * width + j]; };
  for (std::size_t i = a.size(); i-- > 0;)
    for (std::size_t j = b.size(); j-- > 0;)
      at(i, j) = a[i] == b[j] && !a[i].empty() ? static_cast<std::uint16_t>(at(i + 1, j + 1) + 1)
                                               : std::max(at(i + 1, j), at(i, j + 1));
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    if (a[i] == b[j] && !a[i].empty())
      pairs.emplace_back(i++, j++);
    else if (at(i + 1, j) >= at(i, j + 1))
      ++i;
    else
      ++j;
  }
  return pairs;
}

// Words between two that are heard share the time between them.
void share(std::span<Word> words, TimeRange between) {
  if (words.empty()) return;
  between.end = std::max(between.begin, between.end);
  const auto count = static_cast<std::int64_t>(words.size());
  for (std::int64_t i = 0; i < count; ++i) {
    auto& word = words[static_cast<std::size_t>(i)];
    word.when = {between.begin + between.duration() * i / count,
                 between.begin + between.duration() * (i + 1) / count};
    word.precision = std::max(MediaTime::from_ms(50), between.duration() / 2);
  }
}

void put_cue_in_place(std::span<Word> words, const std::vector<const TimedWord*>& heard, TimeRange take) {
  if (words.size() > kMostWords || heard.size() > kMostWords) return;
  std::vector<std::string> written;
  std::vector<std::string> spoken;
  written.reserve(words.size());
  spoken.reserve(heard.size());
  for (const auto& word : words) written.push_back(letters_of(word.text));
  for (const auto* word : heard) spoken.push_back(letters_of(word->text));
  const auto pairs = common_words(written, spoken);
  if (pairs.size() * 2 < words.size()) return;
  std::size_t next = 0;
  MediaTime reached = take.begin;
  for (const auto& [at, by] : pairs) {
    share(words.subspan(next, at - next), {reached, heard[by]->when.begin});
    words[at].when = heard[by]->when;
    words[at].precision = heard[by]->precision;
    reached = heard[by]->when.end;
    next = at + 1;
  }
  share(words.subspan(next), {reached, take.end});
}

bool is_same(const Amount& a, const Amount& b) {
  return a.value == b.value && a.to == b.to && a.unit == b.unit;
}

class Heeding {
 public:
  Heeding(std::string_view media, const Listening& heard, Measures measures, std::string_view written_in)
      : media_(media), heard_(heard), measures_(measures), written_in_(written_in) {}

  void look_at(Requirement& line) const {
    if (line.said.mentions.empty()) return;
    auto& mention = line.said.mentions.front();
    if (mention.media != media_ || !mention.amount) return;
    const auto* amount = heard_for(mention);
    if (amount == nullptr || amount->verdict == Heeded::AsWritten) return;
    const auto moment = format_timestamp(amount->when.begin, TimestampStyle::Spoken, Round::Down);
    const bool fits = amount->heard && is_as_written(*amount->heard, line);
    if (amount->verdict == Heeded::Unsure) {
      if (line.said.verdict == Verdict::Match)
        doubt(line, written_in_ + " it as written, but the sound at " + moment +
                        " does not settle it: please listen");
    } else if (line.said.verdict == Verdict::Match && !fits) {
      line.said.verdict = Verdict::Differs;
      line.why = written_in_ + " it as written, but “" + amount->heard_text + "” is heard at " + moment;
      if (amount->heard) mention.amount = amount->heard;
    } else if (line.said.verdict == Verdict::Differs && fits) {
      doubt(line, written_in_ + " it otherwise, but “" + amount->heard_text + "” is heard at " + moment +
                      ": please listen");
    }
    line.covered = CheckReport::is_covered(line);
  }

 private:
  static void doubt(Requirement& line, std::string why) {
    line.said.verdict = Verdict::Unsure;
    line.why = std::move(why);
  }

  [[nodiscard]] bool is_as_written(const Amount& amount, const Requirement& line) const {
    return std::any_of(line.amounts.begin(), line.amounts.end(), [&](const Amount& written) {
      const auto sameness = compare(amount, written, measures_, line.name).sameness;
      return sameness == Sameness::Same || sameness == Sameness::SameLoosely;
    });
  }

  [[nodiscard]] const ListenedAmount* heard_for(const Mention& mention) const {
    for (const auto& amount : heard_.amounts) {
      if (!amount.when.overlaps(mention.when)) continue;
      if (is_same(amount.script, *mention.amount)) return &amount;
      for (const auto& alternate : mention.alternates)
        if (is_same(amount.script, alternate)) return &amount;
    }
    return nullptr;
  }

  std::string_view media_;
  const Listening& heard_;
  Measures measures_;
  std::string written_in_;
};

}  // namespace

void put_in_place(Transcript& captions, const Listening& heard) {
  std::map<int, const SpokenTake*> takes;
  for (const auto& line : heard.lines)
    for (const auto& take : line.takes)
      if (take.chosen && take.complete) takes[line.number] = &take;
  std::map<int, std::vector<const TimedWord*>> spoken;
  for (const auto& word : heard.words) {
    const auto take = takes.find(word.line);
    if (take != takes.end() && take->second->when.contains(word.when.begin))
      spoken[word.line].push_back(&word);
  }
  const std::span words(captions.words);
  for (std::size_t begin = 0; begin < words.size();) {
    auto end = begin + 1;
    while (end < words.size() && words[end].cue == words[begin].cue) ++end;
    const int line = static_cast<int>(words[begin].cue) + 1;
    if (const auto found = spoken.find(line); found != spoken.end())
      put_cue_in_place(words.subspan(begin, end - begin), found->second, takes.at(line)->when);
    begin = end;
  }
}

Transcript captions_of(const Listening& heard) {
  Transcript captions;
  captions.file = heard.file;
  captions.format = CaptionFormat::WebVtt;
  captions.draft = heard.draft;
  struct SpokenCue {
    const SpokenLine* line;
    TimeRange when;
  };
  std::vector<SpokenCue> cues;
  for (const auto& line : heard.lines)
    for (const auto& take : line.takes)
      if (take.chosen && take.complete) cues.push_back({&line, take.when});
  std::stable_sort(cues.begin(), cues.end(),
                   [](const SpokenCue& a, const SpokenCue& b) { return a.when.begin < b.when.begin; });
  for (const auto& [line, when] : cues) {
    Cue cue;
    cue.id = "line " + std::to_string(line->number);
    cue.when = when;
    cue.text = line->text;
    cue.line = line->number;
    const auto first = captions.words.size();
    // As they are written: "200 g" stays, and gets its time from the words around it.
    for (auto& word : split(line->text, ' ')) {
      if (letters_of(word).empty()) continue;
      Word one;
      one.text = std::move(word);
      one.cue = static_cast<std::uint32_t>(captions.cues.size());
      captions.words.push_back(std::move(one));
    }
    std::vector<const TimedWord*> spoken;
    for (const auto& word : heard.words)
      if (word.line == line->number && when.contains(word.when.begin)) spoken.push_back(&word);
    const auto words = std::span(captions.words).subspan(first);
    share(words, when);
    put_cue_in_place(words, spoken, when);
    captions.cues.push_back(std::move(cue));
  }
  return captions;
}

void heed_sound(CheckReport& report, std::string_view media, const Listening& heard, Measures measures,
                std::string_view written_in) {
  const Heeding heeding(media, heard, measures, written_in);
  for (auto& line : report.requirements) heeding.look_at(line);
}

Listening amounts_in_edit(const Listening& heard, const EditMap& map, std::size_t media) {
  Listening out;
  for (const auto& stretch : map.stretches()) {
    if (stretch.media != media) continue;
    for (const auto& amount : heard.amounts) {
      if (!stretch.clip.overlaps(amount.when)) continue;
      out.amounts.push_back(amount);
      const auto begin = std::max(amount.when.begin, stretch.clip.begin);
      const auto end = std::min(amount.when.end, stretch.clip.end);
      out.amounts.back().when = {stretch.at + (begin - stretch.clip.begin),
                                 stretch.at + (end - stretch.clip.begin)};
    }
  }
  return out;
}

}  // namespace panslate
