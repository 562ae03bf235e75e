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
// Captions are seconds off at most; what is farther away is another time that it was said.
constexpr MediaTime kFarthestCue = MediaTime::from_seconds(15);

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

// Words that are not heard as they are written ("200 g") stand between those that are.
// False, and nothing done, where hardly a word is heard as it stands there.
bool put_cue_in_place(std::span<Word> words, const std::vector<const TimedWord*>& heard, TimeRange take) {
  if (words.size() > kMostWords || heard.size() > kMostWords) return false;
  std::vector<std::string> written;
  std::vector<std::string> spoken;
  written.reserve(words.size());
  spoken.reserve(heard.size());
  for (const auto& word : words) written.push_back(letters_of(word.text));
  for (const auto* word : heard) spoken.push_back(letters_of(word->text));
  const auto pairs = common_words(written, spoken);
  // "200 g": words with figures are spoken in others.
  const auto same = std::count_if(words.begin(), words.end(), [](const Word& word) {
    return std::none_of(word.text.begin(), word.text.end(), [](char c) { return c >= '0' && c <= '9'; });
  });
  if (std::ssize(pairs) * 3 < same) return false;
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
  return true;
}

bool is_same(const Amount& a, const Amount& b) {
  return a.value == b.value && a.to == b.to && a.unit == b.unit;
}

// What was listened to on one clock; `covers`: where, everywhere when it is empty.
struct Sound {
  const Listening& heard;
  WordsFrom from;
  std::span<const TimeRange> covers;

  [[nodiscard]] bool is_at(TimeRange when) const {
    return covers.empty() || std::any_of(covers.begin(), covers.end(),
                                         [&](const TimeRange& covered) { return covered.overlaps(when); });
  }
  [[nodiscard]] std::string source() const {
    return from == WordsFrom::Script ? "the script has" : "the captions have";
  }
};

class Heeding {
 public:
  Heeding(std::string_view media, std::vector<Sound> sounds, Measures measures)
      : media_(media), sounds_(std::move(sounds)), measures_(measures) {}

  void look_at(Requirement& line) const {
    if (line.said.verdict == Verdict::Match)
      look_at_match(line);
    else if (line.said.verdict == Verdict::Differs)
      look_at_difference(line);
    line.covered = CheckReport::is_covered(line);
  }

 private:
  // A match may rest on several mentions: parts that add up, or the same amount again.
  void look_at_match(Requirement& line) const {
    const auto counts = [&](const Mention& mention) { return mention.media == media_ && mention.amount; };
    const bool several = std::count_if(line.said.mentions.begin(), line.said.mentions.end(), counts) > 1;
    for (auto& mention : line.said.mentions) {
      if (!counts(mention)) continue;
      const auto there = heard_for(mention);
      if (there.sound == nullptr) continue;  // nobody listened there
      const auto* amount = there.amount;
      const auto source = there.sound->source();
      if (amount == nullptr) {
        if (is_followed(mention)) continue;
        return doubt(line, source + " it as written, but the sound at " + moment(mention.when) +
                               " does not follow: please listen");
      }
      if (amount->verdict == Heeded::AsWritten) continue;
      const bool differs = amount->verdict == Heeded::Differs;
      // "point two kilos" for 200 g; of parts none may be the whole.
      const bool fits = differs && amount->heard && is_as_written(*amount->heard, line) &&
                        (!several || is_as_written(*mention.amount, line));
      if (fits) continue;
      if (differs && !several && there.own) {
        line.said.verdict = Verdict::Differs;
        line.why =
            source + " it as written, but “" + amount->heard_text + "” is heard at " + moment(amount->when);
        if (amount->heard) mention.amount = amount->heard;
        return;
      }
      return doubt(line, source + " it as written, but " +
                             (differs ? "“" + amount->heard_text + "” is heard at " + moment(amount->when)
                                      : "the sound at " + moment(amount->when) + " does not settle it") +
                             ": please listen");
    }
  }

  // Whether the sound there was found to be what is written, as far as it was listened to.
  [[nodiscard]] bool is_followed(const Mention& mention) const {
    return std::any_of(sounds_.begin(), sounds_.end(), [&](const Sound& sound) {
      return sound.is_at(mention.when) && is_followed(mention, sound);
    });
  }

  [[nodiscard]] static bool is_followed(const Mention& mention, const Sound& sound) {
    const auto& heard = sound.heard;
    if (std::any_of(heard.amounts.begin(), heard.amounts.end(),
                    [&](const ListenedAmount& amount) { return amount.when.overlaps(mention.when); }))
      return true;  // all of them as written: the check reads the words otherwise
    if (sound.from == WordsFrom::Script) return false;
    if (heard.status != ListenStatus::Aligned) return true;
    return std::any_of(heard.lines.begin(), heard.lines.end(), [&](const SpokenLine& line) {
      return std::any_of(line.takes.begin(), line.takes.end(), [&](const SpokenTake& take) {
        return take.chosen && take.complete && take.when.overlaps(mention.when);
      });
    });
  }

  void look_at_difference(Requirement& line) const {
    if (line.said.mentions.empty()) return;
    const auto& mention = line.said.mentions.front();
    if (mention.media != media_ || !mention.amount) return;
    const auto there = heard_for(mention);
    const auto* amount = there.amount;
    if (amount != nullptr && amount->verdict == Heeded::Differs && amount->heard &&
        is_as_written(*amount->heard, line))
      doubt(line, there.sound->source() + " it otherwise, but “" + amount->heard_text + "” is heard at " +
                      moment(amount->when) + ": please listen");
  }

  static void doubt(Requirement& line, std::string why) {
    line.said.verdict = Verdict::Unsure;
    line.why = std::move(why);
  }

  static std::string moment(TimeRange when) {
    return format_timestamp(when.begin, TimestampStyle::Spoken, Round::Down);
  }

  [[nodiscard]] bool is_as_written(const Amount& amount, const Requirement& line) const {
    return std::any_of(line.amounts.begin(), line.amounts.end(), [&](const Amount& written) {
      const auto sameness = compare(amount, written, measures_, line.name).sameness;
      return sameness == Sameness::Same || sameness == Sameness::SameLoosely;
    });
  }

  struct HeardThere {
    const Sound* sound = nullptr;  ///< none: nobody listened there
    const ListenedAmount* amount = nullptr;
    bool own = false;  ///< the amount is the mention's, not one of words that are cut otherwise
  };

  // What was heard where a mention is: of the amounts that it has, or its other forms ("200 g (1 cup)"), the
  // one that fits the sound worst. Where the words are cut otherwise ("two hundred" | "grams of oats")
  // another amount may be all there is.
  [[nodiscard]] HeardThere heard_for(const Mention& mention) const {
    HeardThere own;
    HeardThere other;
    for (const auto& sound : sounds_) {
      if (!sound.is_at(mention.when)) continue;
      if (other.sound == nullptr) other.sound = &sound;
      for (const auto& amount : sound.heard.amounts) {
        if (!amount.when.overlaps(mention.when)) continue;
        const bool same =
            is_same(amount.script, *mention.amount) ||
            std::any_of(mention.alternates.begin(), mention.alternates.end(),
                        [&](const Amount& alternate) { return is_same(amount.script, alternate); });
        auto& worst = same ? own : other;
        if (worst.amount == nullptr || badness(*worst.amount) < badness(amount))
          worst = {&sound, &amount, same};
      }
    }
    if (own.amount != nullptr) return own;
    if (other.amount != nullptr && other.amount->verdict == Heeded::AsWritten) other.amount = nullptr;
    return other;
  }

  static int badness(const ListenedAmount& amount) {
    return amount.verdict == Heeded::AsWritten ? 0 : amount.verdict == Heeded::Unsure ? 1 : 2;
  }

  std::string_view media_;
  std::vector<Sound> sounds_;
  Measures measures_;
};

}  // namespace

namespace {

// Words of each line, by the line's number.
std::map<int, std::vector<const TimedWord*>> words_by_line(const Listening& heard) {
  std::map<int, std::vector<const TimedWord*>> words;
  for (const auto& word : heard.words) words[word.line].push_back(&word);
  return words;
}

std::vector<const TimedWord*> words_of_take(const std::vector<const TimedWord*>& line, TimeRange take) {
  std::vector<const TimedWord*> words;
  for (const auto* word : line)
    if (take.contains(word->when.begin)) words.push_back(word);
  return words;
}

MediaTime apart(TimeRange a, TimeRange b) {
  return a.begin < b.begin ? b.begin - a.begin : a.begin - b.begin;
}

}  // namespace

void put_in_place(Transcript& captions, const Listening& heard) {
  const auto spoken = words_by_line(heard);
  std::map<int, const SpokenLine*> lines;
  for (const auto& line : heard.lines) lines[line.number] = &line;
  const std::span words(captions.words);
  for (std::size_t begin = 0; begin < words.size();) {
    auto end = begin + 1;
    while (end < words.size() && words[end].cue == words[begin].cue) ++end;
    auto& cue = captions.cues[words[begin].cue];
    const auto part = words.subspan(begin, end - begin);
    begin = end;
    const auto line = lines.find(static_cast<int>(part.front().cue) + 1);
    if (line == lines.end() || !spoken.contains(line->first)) continue;
    // Captions were made from what is heard about there: of several takes it is the nearest.
    const SpokenTake* nearest = nullptr;
    for (const auto& take : line->second->takes)
      if (take.complete &&
          (nearest == nullptr || apart(take.when, cue.when) < apart(nearest->when, cue.when)))
        nearest = &take;
    if (nearest == nullptr || kFarthestCue < apart(nearest->when, cue.when)) continue;
    if (put_cue_in_place(part, words_of_take(spoken.at(line->first), nearest->when), nearest->when))
      cue.when = nearest->when;
  }
}

Transcript captions_of(const Listening& heard) {
  Transcript captions;
  captions.file = heard.file;
  captions.format = CaptionFormat::WebVtt;
  captions.draft = heard.draft;
  const auto words = words_by_line(heard);
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
    const auto part = std::span(captions.words).subspan(first);
    const auto spoken = words.find(line->number);
    if (spoken == words.end() || !put_cue_in_place(part, words_of_take(spoken->second, when), when))
      share(part, when);
    captions.cues.push_back(std::move(cue));
  }
  return captions;
}

void heed_sound(CheckReport& report, std::string_view media, const Listening& heard, Measures measures,
                WordsFrom from) {
  const Heeding heeding(media, {{heard, from, {}}}, measures);
  for (auto& line : report.requirements) heeding.look_at(line);
}

void heed_sound(CheckReport& report, std::string_view edit, std::span<const HeardInEdit> heard,
                Measures measures) {
  std::vector<Sound> sounds;
  for (const auto& clip : heard)
    if (!clip.covers.empty()) sounds.push_back({clip.listening, clip.from, clip.covers});
  if (sounds.empty()) return;
  const Heeding heeding(edit, std::move(sounds), measures);
  for (auto& line : report.requirements) heeding.look_at(line);
}

HeardInEdit heard_in_edit(const Listening& heard, WordsFrom from, const EditMap& map, std::size_t media) {
  // Ends of takes are found to some hundredths of a second; nothing is cut off by that.
  constexpr MediaTime kEdge = MediaTime::from_ms(200);
  HeardInEdit out;
  out.from = from;
  out.listening.status = heard.status;
  for (const auto& stretch : map.stretches()) {
    if (stretch.media != media) continue;
    out.covers.push_back(stretch.in_edit(stretch.clip));
    for (const auto& line : heard.lines)
      for (const auto& take : line.takes) {
        if (!stretch.clip.overlaps(take.when)) continue;
        SpokenLine moved{line.number, line.text, {take}};
        moved.takes[0].when = stretch.in_edit(take.when);
        moved.takes[0].complete = take.complete && stretch.clip.begin <= take.when.begin + kEdge &&
                                  take.when.end <= stretch.clip.end + kEdge;
        out.listening.lines.push_back(std::move(moved));
      }
    for (const auto& amount : heard.amounts) {
      if (!stretch.clip.overlaps(amount.when)) continue;
      out.listening.amounts.push_back(amount);
      out.listening.amounts.back().when = stretch.in_edit(amount.when);
    }
  }
  return out;
}

}  // namespace panslate
