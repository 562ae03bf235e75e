#include "check/misheard.h"

#include <algorithm>
#include <iterator>
#include <string>
#include <string_view>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/kitchen/food.h"
#include "panslate/kitchen/token.h"

#include "check/span_search.h"

namespace panslate {

namespace {

// The words of a name that are spelt, without their spaces, as these letters are; empty when none are.
std::vector<std::string> words_spelt(std::string_view name, const std::string& letters,
                                     std::size_t fewer_than) {
  std::vector<std::string> folded;
  std::vector<std::string> written;
  for (const auto& token : tokenize(name)) {
    if (token.kind != TokenKind::Word) return {};
    folded.push_back(token.text);
    written.push_back(fold_case(token.raw));
  }
  for (std::size_t begin = 0; begin < folded.size(); ++begin) {
    std::string joined;
    for (std::size_t end = begin; end < folded.size() && joined.size() < letters.size(); ++end) {
      joined += folded[end];
      if (joined == letters && end + 1 - begin < fewer_than)
        return {written.begin() + static_cast<std::ptrdiff_t>(begin),
                written.begin() + static_cast<std::ptrdiff_t>(end + 1)};
    }
  }
  return {};
}

// Is that the way a food of the table is written ("butter beans")?
bool is_spelt_so(const std::string& heard) {
  const auto names = synonyms_of(heard);
  return std::any_of(names.begin(), names.end(), [&](const auto name) {
    const auto folded = fold_accents(name);
    return folded == heard || folded + "s" == heard;
  });
}

}  // namespace

void find_split_names(Talk& talk, const std::vector<FoodTarget>& targets) {
  std::vector<Misheard> found;
  for (const auto& sighting : talk.sightings) {
    const auto count = sighting.span.end - sighting.span.begin;
    if (count < 2 || any_overlaps(talk.misheard, sighting.span)) continue;
    std::string letters;
    for (auto i = sighting.span.begin; i < sighting.span.end; ++i) letters += talk.text[i].text;
    if (is_spelt_so(fold_accents(talk.text.text(sighting.span)))) continue;
    for (const auto target : sighting.targets) {
      auto meant = words_spelt(targets[target].name, letters, count);
      if (meant.empty()) continue;
      found.push_back({sighting.span, std::move(meant)});
      break;
    }
  }
  talk.misheard.insert(talk.misheard.end(), std::make_move_iterator(found.begin()),
                       std::make_move_iterator(found.end()));
  std::sort(talk.misheard.begin(), talk.misheard.end(),
            [](const Misheard& a, const Misheard& b) { return a.span.begin < b.span.begin; });
}

std::vector<CaptionCorrection> corrections_of(const Talk& talk, const std::vector<FoodTarget>& targets,
                                              const LineChoice& lines) {
  std::vector<CaptionCorrection> corrections;
  for (const auto& misheard : talk.misheard) {
    auto found = first_from(talk.sightings, misheard.span.end);
    // What came to be no mention of a food (the dish's own name) is not put right either.
    if (found == talk.sightings.begin() || !(--found)->span.overlaps(misheard.span)) continue;
    // "chili" for chilli is spelt as others spell it, and no mishearing.
    const auto heard = talk.text.text(misheard.span);
    if (misheard.span.end - misheard.span.begin == misheard.meant.size() && find_food(heard) != nullptr)
      continue;
    const auto& sighting = *found;
    const auto& chosen = lines.targets_of[static_cast<std::size_t>(found - talk.sightings.begin())];
    const auto target = chosen.empty() ? sighting.targets.front() : chosen.front();
    auto [source, words] = talk.text.source_of(misheard.span);
    words.text = join(misheard.meant, " ");
    CaptionCorrection correction;
    correction.when = talk.text.when(misheard.span);
    correction.heard = heard;
    correction.meant = words.text;
    correction.requirement = targets[target].requirement;
    correction.sure = !sighting.doubtful;
    correction.media = talk.text.media_of(misheard.span.begin);
    correction.source = source;
    correction.change = std::move(words);
    corrections.push_back(std::move(correction));
  }
  return corrections;
}

}  // namespace panslate
