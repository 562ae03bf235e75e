#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/result.h"
#include "panslate/project/project.h"

/// What the page sends when she decides: small JSON, each field checked.
namespace panslate {

/// One answer, and what she saw when she gave it.
struct AnswerRequest {
  std::string line;  ///< key of the line
  Answer::About about = Answer::About::Said;
  std::optional<Answer::Is> is;  ///< empty: take the answer away
  std::string written;           ///< how the line read on her page
  std::string found;             ///< the words that were found for it there
  std::string was;               ///< the answer that stood there: "yes", "no", "leave"; empty: none
};

/// Usage where it is none.
[[nodiscard]] Result<AnswerRequest> answer_request(std::string_view body);

/// Whose cups and spoons: {"measures": "metric", "was": "us"}; "was" empty where it was guessed.
struct MeasuresRequest {
  Measures measures = Measures::Metric;
  std::string was;
};
[[nodiscard]] Result<MeasuresRequest> measures_request(std::string_view body);

/// {"answer": 3, "what": "…"}: an answer that no longer fits, to be forgotten.
struct ForgetRequest {
  std::size_t answer = 0;  ///< index into Project::answers
  std::string line;        ///< its `line`, so that no other is forgotten
};
[[nodiscard]] Result<ForgetRequest> forget_request(std::string_view body);

}  // namespace panslate
