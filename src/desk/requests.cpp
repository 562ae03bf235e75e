#include "desk/requests.h"

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"
#include "panslate/kitchen/unit.h"
#include "panslate/project/answer_spelling.h"

namespace panslate {

namespace {

using nlohmann::json;

constexpr std::size_t kLongestText = 8192;  // bytes: no line of a recipe is longer

tl::unexpected<Error> no_request() {
  return fail(ErrorCode::Usage, "this is not what the page sends");
}

/// The members of one { }.
class Fields {
 public:
  static Result<Fields> read(std::string_view body) {
    if (to_utf8(body) != body) return no_request();
    auto value = json::parse(body.begin(), body.end(), nullptr, /*allow_exceptions=*/false);
    if (!value.is_object()) return no_request();
    return Fields(std::move(value));
  }

  /// Empty where it is not there; nothing where it is no text.
  [[nodiscard]] std::optional<std::string> text(const char* name) const {
    const auto found = value_.find(name);
    if (found == value_.end() || found->is_null()) return std::string();
    if (!found->is_string()) return std::nullopt;
    const auto& text = found->get_ref<const std::string&>();
    if (text.size() > kLongestText || text.find('\0') != std::string::npos) return std::nullopt;
    return text;
  }

  [[nodiscard]] std::optional<std::size_t> count(const char* name) const {
    const auto found = value_.find(name);
    if (found == value_.end() || !found->is_number_unsigned()) return std::nullopt;
    return found->get<std::size_t>();
  }

 private:
  explicit Fields(json value) : value_(std::move(value)) {}
  json value_;
};

}  // namespace

Result<AnswerRequest> answer_request(std::string_view body) {
  PANSLATE_TRY(const auto fields, Fields::read(body));
  const auto line = fields.text("line");
  const auto about = about_from_spelling(fields.text("about").value_or("?"));
  const auto is = fields.text("is");
  const auto written = fields.text("written");
  const auto found = fields.text("found");
  const auto was = fields.text("was");
  if (!line || line->empty() || !about || !is || !written || !found || !was) return no_request();
  if (!is->empty() && !is_from_spelling(*is)) return no_request();
  if (!was->empty() && !is_from_spelling(*was)) return no_request();
  return AnswerRequest{*line, *about, is_from_spelling(*is), *written, *found, *was};
}

Result<MeasuresRequest> measures_request(std::string_view body) {
  PANSLATE_TRY(const auto fields, Fields::read(body));
  const auto measures = measures_from_spelling(fields.text("measures").value_or("?"));
  const auto was = fields.text("was");
  if (!measures || !was || (!was->empty() && !measures_from_spelling(*was))) return no_request();
  return MeasuresRequest{*measures, *was};
}

Result<ForgetRequest> forget_request(std::string_view body) {
  PANSLATE_TRY(const auto fields, Fields::read(body));
  const auto answer = fields.count("answer");
  const auto line = fields.text("line");
  if (!answer || !line || line->empty()) return no_request();
  return ForgetRequest{*answer, *line};
}

}  // namespace panslate
