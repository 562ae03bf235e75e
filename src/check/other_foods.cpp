#include "check/other_foods.h"

#include <algorithm>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"
#include "panslate/speech/sound_index.h"

#include "check/food_sounds.h"

namespace panslate {

namespace {

/// All names of the food table by their sound.
class TableSounds {
 public:
  static TableSounds& instance() {
    static TableSounds table;
    return table;
  }

  struct Near {
    const std::vector<std::string>* words;
    double distance;
  };

  std::vector<Near> near(std::span<const Sound> said, double limit) {
    const std::lock_guard lock(mutex_);  // the index remembers what it was asked
    std::vector<Near> found;
    for (const auto entry : index_.near(SoundIndex::key_of(said)))
      if (const double distance = sound_distance(said, index_[entry], limit); distance < 1.0)
        found.push_back({&names_[entry], distance});
    std::sort(found.begin(), found.end(),
              [](const Near& a, const Near& b) { return a.distance < b.distance; });
    return found;
  }

 private:
  TableSounds() {
    for (const auto& food : all_foods()) {
      add(food.name);
      for (const auto name : food.other_names) add(name);
    }
  }

  void add(std::string_view name) {
    std::vector<std::string> words;
    Sounds sounds;
    for (const auto& token : tokenize(name)) {
      if (token.kind == TokenKind::Number) return;
      if (token.kind != TokenKind::Word) continue;
      words.push_back(token.text);
      const auto ways = ways_of_saying(token.text);
      if (!ways.empty()) sounds.insert(sounds.end(), ways.front().begin(), ways.front().end());
    }
    index_.add(std::move(sounds));
    names_.push_back(std::move(words));
  }

  std::mutex mutex_;
  SoundIndex index_;
  std::vector<std::vector<std::string>> names_;
};

}  // namespace

double nearest_other_food(std::span<const Sound> said, const FoodNames& listed, double limit) {
  for (const auto& near : TableSounds::instance().near(said, limit))
    if (listed.find(*near.words, 0).match == NameMatch::None) return near.distance;
  return 1.0;
}

}  // namespace panslate
