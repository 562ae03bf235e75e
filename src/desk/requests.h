#pragma once

#include <cstddef>
#include <memory>
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

/// What is told of every request that the page does not send so.
[[nodiscard]] tl::unexpected<Error> no_request();
/// What is told where something is otherwise than she saw it (Exists).
[[nodiscard]] tl::unexpected<Error> seen_otherwise(std::string what);

/// The members of one { } that the page sends.
class RequestFields {
 public:
  /// Usage where it is no { } in UTF-8.
  [[nodiscard]] static Result<RequestFields> read(std::string_view body);
  RequestFields(RequestFields&&) noexcept;
  RequestFields& operator=(RequestFields&&) noexcept;
  ~RequestFields();

  [[nodiscard]] bool has(const char* name) const;
  /// Empty where it is not there; nothing where it is no text, or longer than any line of a recipe.
  [[nodiscard]] std::optional<std::string> text(const char* name) const;
  /// Nothing where it is not there, is no text, or has more than `longest` bytes.
  [[nodiscard]] std::optional<std::string> given_text(const char* name, std::size_t longest) const;
  [[nodiscard]] std::optional<std::size_t> count(const char* name) const;
  [[nodiscard]] std::optional<bool> yes_or_no(const char* name) const;
  [[nodiscard]] std::optional<double> number(const char* name) const;
  /// Seconds on a clip's clock, to the millisecond; nothing where it is no number from 0 to a day.
  [[nodiscard]] std::optional<MediaTime> clip_time(const char* name) const;
  /// A list of at most `most` texts, each as given_text.
  [[nodiscard]] std::optional<std::vector<std::string>> texts(const char* name, std::size_t most,
                                                              std::size_t longest) const;

 private:
  struct Members;
  explicit RequestFields(std::unique_ptr<Members> members);
  std::unique_ptr<Members> members_;
};

/// Usage where it is none.
[[nodiscard]] Result<AnswerRequest> answer_request(std::string_view body);

/// Whose cups and spoons: {"measures": "metric", "was": "us"}; "was" empty where it was guessed.
struct MeasuresRequest {
  Measures measures = Measures::Metric;
  std::string was;
};
[[nodiscard]] Result<MeasuresRequest> measures_request(std::string_view body);

/// An answer that no longer fits, to be forgotten; and all of it as she saw it, so that no other is.
struct ForgetRequest {
  std::size_t answer = 0;  ///< index into Project::answers
  std::string line;
  Answer::About about = Answer::About::Said;
  Answer::Is is = Answer::Is::Yes;
  std::string written;
};
[[nodiscard]] Result<ForgetRequest> forget_request(std::string_view body);

}  // namespace panslate
