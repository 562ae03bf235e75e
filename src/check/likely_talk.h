#pragma once

#include "panslate/recipe/recipe.h"
#include "panslate/speech/pronouncing.h"
#include "panslate/speech/transcriber.h"

namespace panslate {

/// What a cook who makes this recipe is likely to say: its ingredients with their amounts in the usual ways
/// to say them (six at most), and with other amounts, which slip out; its method; and what is said in any
/// kitchen (data/kitchen_talk.txt).
[[nodiscard]] LikelyTalk likely_talk(const Recipe& recipe, PronouncingDictionary& dictionary);

}  // namespace panslate
