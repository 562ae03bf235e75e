#include "check/likely_talk.h"

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "panslate/check/listen_for.h"
#include "panslate/kitchen/say_amount.h"

#include "embedded/kitchen_talk.h"

namespace panslate {

namespace {

constexpr std::size_t kMostWays = 6;       // of an amount, and of a sentence
constexpr std::size_t kMostLines = 400;    // of a recipe: beyond these nothing is gained
constexpr std::size_t kLongestLine = 200;  // words

// Numbers that cooks say; common practice, no source.
constexpr std::array kSmall{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 35, 40, 45, 50, 60, 75, 90};
constexpr std::array kLarge{100, 120, 125, 150, 160, 170, 175, 180, 190, 200, 210, 220, 225, 230, 240,
                            250, 275, 300, 350, 400, 450, 500, 550, 600, 650, 700, 750, 800, 900};
constexpr std::array kCounted{Unit::Teaspoon, Unit::Tablespoon, Unit::Cup,   Unit::Minute, Unit::Second,
                              Unit::Hour,     Unit::Clove,      Unit::Slice, Unit::Ounce,  Unit::Pound};
constexpr std::array kWeighed{Unit::Gram, Unit::Milliliter, Unit::Celsius, Unit::Fahrenheit};

class Talk {
 public:
  void say(Sentence words) {
    if (words.empty() || words.size() > kLongestLine) return;
    for (const auto& word : words) vocabulary_.insert(word);
    talk_.sentences.push_back(std::move(words));
  }

  // A written line, with each of its amounts said in one way or another.
  void say_line(std::string_view line) {
    const auto words = words_to_hear(line, amounts_heard_in(line));
    if (words.size() > kLongestLine) return;
    std::size_t ways = 1;
    for (const auto& word : words) ways = std::max(ways, std::min(word.readings.size(), kMostWays));
    for (std::size_t way = 0; way < ways; ++way) {
      Sentence said;
      for (const auto& word : words) {
        if (word.readings.empty()) continue;
        const auto& reading = word.readings[way % word.readings.size()];
        said.insert(said.end(), reading.begin(), reading.end());
      }
      say(std::move(said));
    }
  }

  LikelyTalk finish(PronouncingDictionary& dictionary) && {
    for (const auto& word : vocabulary_)
      if (const auto& ways = dictionary.ways(word); !ways.empty()) talk_.words.push_back({word, ways});
    return std::move(talk_);
  }

 private:
  LikelyTalk talk_;
  std::set<std::string> vocabulary_;
};

Sentence spoken(std::string_view text) {
  Sentence out;
  for (const auto& word : script_words(text))
    if (!word.readings.empty())
      out.insert(out.end(), word.readings.front().begin(), word.readings.front().end());
  return out;
}

// An amount with its food, in the ways to say it: "two hundred grams of flour", "two onions".
std::vector<Sentence> named_amounts(const Ingredient& ingredient, const Sentence& name) {
  std::vector<Sentence> out;
  for (const auto& amount : ingredient.amounts) {
    auto ways = ways_to_say(amount);
    if (ways.size() > kMostWays) ways.resize(kMostWays);
    for (const auto& way : ways) {
      Sentence with = way;
      if (amount.unit != Unit::Piece && amount.unit != Unit::Other) with.emplace_back("of");
      with.insert(with.end(), name.begin(), name.end());
      out.push_back(std::move(with));
    }
  }
  return out;
}

std::vector<std::string_view> phrases() {
  std::vector<std::string_view> out;
  const std::string_view text = embedded::kitchen_talk;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find('\n', at), text.size());
    if (end > at && text[at] != '#') out.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

void say_phrase(std::string_view phrase, const std::vector<std::pair<Sentence, std::vector<Sentence>>>& foods,
                Talk& talk) {
  const auto mark = phrase.find_first_of("*@");
  if (mark == std::string_view::npos) return talk.say(spoken(phrase));
  const auto before = spoken(phrase.substr(0, mark));
  const auto after = spoken(phrase.substr(mark + 1));
  const auto fill = [&](const Sentence& middle) {
    Sentence all = before;
    all.insert(all.end(), middle.begin(), middle.end());
    all.insert(all.end(), after.begin(), after.end());
    talk.say(std::move(all));
  };
  for (const auto& [name, amounts] : foods) {
    if (phrase[mark] == '*') fill(name);
    // Each phrase with one of the ways: all of them with all would drown the rest.
    else if (!amounts.empty())
      fill(amounts[before.size() % amounts.size()]);
  }
}

// Any amount may be said, also a wrong one.
void say_amounts(Talk& talk) {
  const auto say = [&](int number, Unit unit) {
    Amount amount;
    amount.value = Ratio(number);
    amount.unit = unit;
    auto ways = ways_to_say(amount);
    if (ways.size() > 3) ways.resize(3);
    for (auto& way : ways) talk.say(std::move(way));
  };
  for (const int number : kSmall)
    for (const auto unit : kCounted) say(number, unit);
  for (const int number : kSmall)
    if (number >= 5)
      for (const auto unit : {Unit::Gram, Unit::Milliliter}) say(number, unit);
  for (const int number : kLarge)
    for (const auto unit : kWeighed) say(number, unit);
}

}  // namespace

LikelyTalk likely_talk(const Recipe& recipe, PronouncingDictionary& dictionary) {
  Talk talk;
  std::vector<std::pair<Sentence, std::vector<Sentence>>> foods;
  talk.say(spoken(recipe.title));
  std::size_t lines = 0;
  for (const auto& ingredient : recipe.ingredients) {
    if (++lines > kMostLines) break;
    talk.say_line(ingredient.text);
    auto name = spoken(ingredient.name);
    if (name.empty() || name.size() > kLongestLine) continue;
    auto amounts = named_amounts(ingredient, name);
    for (const auto& one : amounts) talk.say(one);
    foods.emplace_back(std::move(name), std::move(amounts));
  }
  for (const auto& step : recipe.steps) {
    if (++lines > kMostLines) break;
    talk.say_line(step.text);
  }
  for (const auto phrase : phrases()) say_phrase(phrase, foods, talk);
  say_amounts(talk);
  return std::move(talk).finish(dictionary);
}

}  // namespace panslate
