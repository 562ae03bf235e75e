#include "check/misheard.h"

#include <algorithm>
#include <utility>

#include "panslate/base/text.h"

#include "check/span_search.h"

namespace panslate {

std::vector<CaptionCorrection> corrections_of(const Talk& talk, const std::vector<FoodTarget>& targets,
                                              const LineChoice& lines) {
  std::vector<CaptionCorrection> corrections;
  for (const auto& misheard : talk.misheard) {
    auto found = first_from(talk.sightings, misheard.span.end);
    // What came to be no mention of a food (the dish's own name) is not put right either.
    if (found == talk.sightings.begin() || !(--found)->span.overlaps(misheard.span)) continue;
    const auto& sighting = *found;
    const auto& chosen = lines.targets_of[static_cast<std::size_t>(found - talk.sightings.begin())];
    const auto target = chosen.empty() ? sighting.targets.front() : chosen.front();
    auto [source, words] = talk.text.source_of(misheard.span);
    words.text = join(misheard.meant, " ");
    CaptionCorrection correction;
    correction.when = talk.text.when(misheard.span);
    correction.heard = talk.text.text(misheard.span);
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
