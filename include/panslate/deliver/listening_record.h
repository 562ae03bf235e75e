#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "panslate/check/listen.h"
#include "panslate/check/listening.h"

namespace panslate {

/// What tells one script from another, for Store::heard: its lines' numbers and texts.
[[nodiscard]] std::string script_key(std::span<const ScriptLine> script);

/// What stands for the script of a clip where nobody wrote one.
inline constexpr std::string_view kDraftKey = "draft";

/// A listening as it is kept for the next run. `own_words` is the text of her own list of words that it was
/// made with; of a draft, also that of the recipe.
[[nodiscard]] std::string listening_record(const Listening& listening, std::string_view own_words);

/// A listening out of its record, for the same script. Empty for what is no such record, or was made by
/// a panslate that hears otherwise; where `own_words` is given, also when it was made with others.
[[nodiscard]] std::optional<Listening> listening_from(std::string_view record, const ClipToHear& clip,
                                                      std::optional<std::string_view> own_words);

}  // namespace panslate
