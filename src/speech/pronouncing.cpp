#include "panslate/speech/pronouncing.h"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "panslate/base/text.h"
#include "panslate/speech/pronunciation.h"

#include "embedded/food_words.h"
#include "speech/phones.h"

namespace panslate {

namespace {

constexpr std::size_t kMostWays = 8;
constexpr std::size_t kLongestWord = 60;
constexpr std::size_t kLargestOwnWords = 1'000'000;  // bytes
constexpr std::size_t kMostSyllables = 12;

// The word of a dictionary's line: "either(2) AY DH ER" is another way to say "either".
std::string_view word_of(std::string_view line) {
  const auto word = line.substr(0, line.find(' '));
  return word.substr(0, word.find('('));
}

std::string_view line_at(std::string_view text, std::size_t begin) {
  return text.substr(begin, text.find('\n', begin) - begin);
}

void add_way(std::vector<std::string>& ways, std::string way) {
  if (!way.empty() && ways.size() < kMostWays && std::find(ways.begin(), ways.end(), way) == ways.end())
    ways.push_back(std::move(way));
}

// Letters a to z and apostrophes, as the dictionary has its words.
std::string plain(std::string_view word) {
  std::string out;
  for (const char c : fold_accents(word.substr(0, 4 * kLongestWord))) {
    if ((c >= 'a' && c <= 'z') || c == '\'') out += c;
    if (out.size() == kLongestWord) break;
  }
  return out;
}

std::string straight_apostrophes(std::string_view word) {
  std::string out(word.substr(0, 4 * kLongestWord));
  constexpr std::string_view kRaised = "\u2019";
  for (auto at = out.find(kRaised); at != std::string::npos; at = out.find(kRaised, at))
    out.replace(at, kRaised.size(), "'");
  return out;
}

std::unordered_map<std::string, std::vector<std::string>> food_words() {
  std::unordered_map<std::string, std::vector<std::string>> words;
  for (const auto& line : split_lines(embedded::food_words)) {
    if (line.text.empty() || line.text.front() == '#') continue;
    const auto fields = split(line.text, '\t');
    if (fields.size() >= 2 && are_phones(fields[1])) add_way(words[plain(fields[0])], fields[1]);
  }
  return words;
}

}  // namespace

Result<PronouncingDictionary> PronouncingDictionary::open(const std::filesystem::path& model) {
  const auto file = model / "cmudict-en-us.dict";
  std::ifstream in(file, std::ios::binary);
  if (!in)
    return fail(ErrorCode::NotFound, "the dictionary of how English sounds is not there: " + file.string(),
                std::nullopt, "install Debian's package pocketsphinx-en-us");
  PronouncingDictionary made;
  made.dictionary_.assign(std::istreambuf_iterator<char>(in), {});
  const std::string_view text = made.dictionary_;
  for (std::size_t at = 0; at < text.size(); at = std::min(text.find('\n', at), text.size() - 1) + 1)
    made.lines_.push_back(static_cast<std::uint32_t>(at));
  // Nearly in order as it comes; ways of one word stay in theirs.
  const auto before = [text](std::uint32_t a, std::uint32_t b) {
    return word_of(line_at(text, a)) < word_of(line_at(text, b));
  };
  if (!std::is_sorted(made.lines_.begin(), made.lines_.end(), before))
    std::stable_sort(made.lines_.begin(), made.lines_.end(), before);
  made.food_ = food_words();
  return made;
}

PronouncingDictionary::Ways PronouncingDictionary::listed(const std::string& word) const {
  Ways ways;
  const std::string_view text = dictionary_;
  auto at = std::lower_bound(lines_.begin(), lines_.end(), word,
                             [text](std::uint32_t line, const std::string& wanted) {
                               return word_of(line_at(text, line)) < wanted;
                             });
  for (; at != lines_.end(); ++at) {
    const auto line = line_at(text, *at);
    if (word_of(line) != word) break;
    if (const auto space = line.find(' '); space != std::string_view::npos)
      if (const auto phones = collapse_spaces(line.substr(space)); are_phones(phones))
        add_way(ways.phones, phones);
  }
  if (const auto food = food_.find(word); food != food_.end())
    for (const auto& way : food->second) add_way(ways.phones, way);
  ways.known = !ways.phones.empty();
  return ways;
}

PronouncingDictionary::Ways PronouncingDictionary::spelled(const std::string& word) const {
  Ways ways;
  // The chef's knife: the sound of the ending depends on what it follows.
  if (word.size() > 2 && word.ends_with("'s"))
    if (const auto owner = listed(word.substr(0, word.size() - 2)); owner.known) {
      for (const auto& way : owner.phones) add_way(ways.phones, with_plural(way));
      ways.known = true;
      return ways;
    }
  add_way(ways.phones, to_cmu(pronounce(word)));
  return ways;
}

const PronouncingDictionary::Ways& PronouncingDictionary::look_up(std::string_view word) {
  const auto key = plain(straight_apostrophes(word));
  const auto [at, is_new] = asked_.try_emplace(key);
  auto& ways = at->second;
  if (!is_new || key.empty()) return ways;
  ways = listed(key);
  if (const auto own = own_.find(key); own != own_.end()) {
    for (const auto& way : own->second) add_way(ways.phones, way);
    ways.known = true;
  }
  if (!ways.known) ways = spelled(key);
  for (std::size_t i = 0, count = ways.phones.size(); i < count; ++i)
    add_way(ways.phones, without_final_r(ways.phones[i]));
  return ways;
}

const std::vector<std::string>& PronouncingDictionary::ways(std::string_view word) {
  return look_up(word).phones;
}

bool PronouncingDictionary::knows(std::string_view word) {
  return look_up(word).known;
}

Checked<std::size_t> PronouncingDictionary::add_own_words(std::string_view text,
                                                          const std::filesystem::path& file) {
  std::vector<Error> errors;
  const auto refuse = [&](int line, std::string what) {
    errors.push_back({ErrorCode::Malformed, std::move(what), Place{file, line, 1},
                      "write a word and English words that sound like it: gochujang  go choo jang"});
  };
  if (text.size() > kLargestOwnWords) {
    refuse(0, "this is too long for a list of words");
    return tl::unexpected(std::move(errors));
  }
  std::unordered_map<std::string, std::vector<std::string>> words;
  int number = 0;
  for (const auto& line : split_lines(text)) {
    ++number;
    const auto content = collapse_spaces(line.text.substr(0, line.text.find('#')));
    if (content.empty()) continue;
    const auto fields = split(content, ' ');
    const auto word = plain(straight_apostrophes(fields.front()));
    if (word.empty()) {
      refuse(number, "'" + fields.front().substr(0, kLongestWord) + "' has no letter that can be said");
      continue;
    }
    if (fields.size() < 2 || fields.size() > kMostSyllables + 1) {
      refuse(number, fields.size() < 2 ? "this does not say how '" + word + "' sounds"
                                       : "more than 12 words for how '" + word + "' sounds");
      continue;
    }
    std::string phones;
    for (std::size_t i = 1; i < fields.size(); ++i) {
      const auto part = plain(straight_apostrophes(fields[i]));
      const auto ways = listed(part);
      const auto sound = ways.known ? ways.phones.front() : to_cmu(pronounce(part));
      if (sound.empty())
        refuse(number, "'" + fields[i].substr(0, kLongestWord) + "' has no sound in English");
      phones += (phones.empty() || sound.empty() ? "" : " ") + sound;
    }
    add_way(words[word], phones);
  }
  if (!errors.empty()) return tl::unexpected(std::move(errors));
  own_ = std::move(words);
  asked_.clear();
  return own_.size();
}

}  // namespace panslate
