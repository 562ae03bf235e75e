#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "panslate/base/result.h"
#include "panslate/check/propose_parts.h"
#include "panslate/desk/desk.h"

/// Parts of clips that are proposed by what is said there, as the page shows them and as she takes them.
namespace panslate {

/// JSON: [{"clip", "in", "out", "step": its key, "said": the words that tell it, "at": seconds, "draft"}, …]
/// in seconds of the clip's clock. What nobody has marked since stays there.
[[nodiscard]] std::string proposed_parts(const DeskFilm& film, const PartProposals& proposals);

/// The one she takes, as the page had it.
struct TakeRequest {
  std::string clip;
  MediaTime in, out;
  std::string step;  ///< key
};

/// Usage where it is none.
[[nodiscard]] Result<TakeRequest> take_request(std::string_view body);

/// That one alone; Exists where it is no longer proposed so.
[[nodiscard]] Result<PartProposals> taken_from(const PartProposals& proposals, const DeskFilm& film,
                                               const TakeRequest& wanted);

}  // namespace panslate
