#include "desk/requests.h"

#include <cmath>
#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"
#include "panslate/kitchen/unit.h"
#include "panslate/project/answer_spelling.h"

namespace panslate {

namespace {

using nlohmann::json;

constexpr std::size_t kLongestText = 8192;  // bytes: no line of a recipe is longer

std::optional<std::string> text_in(const json& value, std::size_t longest) {
  if (!value.is_string()) return std::nullopt;
  const auto& text = value.get_ref<const std::string&>();
  if (text.size() > longest || text.find('\0') != std::string::npos) return std::nullopt;
  return text;
}

}  // namespace

tl::unexpected<Error> no_request() {
  return fail(ErrorCode::Usage, "this is not what the page sends");
}

tl::unexpected<Error> seen_otherwise(std::string what) {
  return fail(ErrorCode::Exists, std::move(what), std::nullopt,
              "look at how it stands now, and decide again");
}

struct RequestFields::Members {
  json value;

  [[nodiscard]] const json* find(const char* name) const {
    const auto found = value.find(name);
    return found == value.end() ? nullptr : &*found;
  }
};

RequestFields::RequestFields(std::unique_ptr<Members> members) : members_(std::move(members)) {}
RequestFields::RequestFields(RequestFields&&) noexcept = default;
RequestFields& RequestFields::operator=(RequestFields&&) noexcept = default;
RequestFields::~RequestFields() = default;

Result<RequestFields> RequestFields::read(std::string_view body) {
  if (to_utf8(body) != body) return no_request();
  auto value = json::parse(body.begin(), body.end(), nullptr, /*allow_exceptions=*/false);
  if (!value.is_object()) return no_request();
  return RequestFields(std::make_unique<Members>(Members{std::move(value)}));
}

bool RequestFields::has(const char* name) const {
  return members_->find(name) != nullptr;
}

std::optional<std::string> RequestFields::text(const char* name) const {
  const auto* found = members_->find(name);
  return found == nullptr || found->is_null() ? std::string() : text_in(*found, kLongestText);
}

std::optional<std::string> RequestFields::given_text(const char* name, std::size_t longest) const {
  const auto* found = members_->find(name);
  return found == nullptr ? std::nullopt : text_in(*found, longest);
}

std::optional<std::size_t> RequestFields::count(const char* name) const {
  const auto* found = members_->find(name);
  if (found == nullptr || !found->is_number_unsigned()) return std::nullopt;
  return found->get<std::size_t>();
}

std::optional<bool> RequestFields::yes_or_no(const char* name) const {
  const auto* found = members_->find(name);
  if (found == nullptr || !found->is_boolean()) return std::nullopt;
  return found->get<bool>();
}

std::optional<double> RequestFields::number(const char* name) const {
  const auto* found = members_->find(name);
  if (found == nullptr || !found->is_number()) return std::nullopt;
  return found->get<double>();
}

std::optional<MediaTime> RequestFields::clip_time(const char* name) const {
  constexpr double kLongestClip = 24.0 * 3600.0;  // seconds
  const auto seconds = number(name);
  if (!seconds || !(*seconds >= 0.0 && *seconds <= kLongestClip)) return std::nullopt;
  return MediaTime::from_ms(std::llround(*seconds * 1000.0));
}

std::optional<std::vector<std::string>> RequestFields::texts(const char* name, std::size_t most,
                                                             std::size_t longest) const {
  const auto* found = members_->find(name);
  if (found == nullptr || !found->is_array() || found->size() > most) return std::nullopt;
  std::vector<std::string> out;
  for (const auto& one : *found) {
    auto text = text_in(one, longest);
    if (!text) return std::nullopt;
    out.push_back(*std::move(text));
  }
  return out;
}

Result<AnswerRequest> answer_request(std::string_view body) {
  PANSLATE_TRY(const auto fields, RequestFields::read(body));
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
  PANSLATE_TRY(const auto fields, RequestFields::read(body));
  const auto measures = measures_from_spelling(fields.text("measures").value_or("?"));
  const auto was = fields.text("was");
  if (!measures || !was || (!was->empty() && !measures_from_spelling(*was))) return no_request();
  return MeasuresRequest{*measures, *was};
}

Result<ForgetRequest> forget_request(std::string_view body) {
  PANSLATE_TRY(const auto fields, RequestFields::read(body));
  const auto answer = fields.count("answer");
  const auto line = fields.text("line");
  const auto about = about_from_spelling(fields.text("about").value_or("?"));
  const auto is = is_from_spelling(fields.text("is").value_or("?"));
  const auto written = fields.text("written");
  if (!answer || !line || line->empty() || !about || !is || !written) return no_request();
  return ForgetRequest{*answer, *line, *about, *is, *written};
}

}  // namespace panslate
