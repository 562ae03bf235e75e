#include "panslate/deliver/listen_json.h"

#include <cmath>

#include "deliver/amount_json.h"

namespace panslate {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kReportVersion = 1;

// What is no number has no place in JSON.
Json number_or_null(double value, double step) {
  return std::isfinite(value) ? Json(std::round(value / step) * step) : Json();
}

void set_range(Json& json, const TimeRange& when) {
  json["start"] = seconds_json(when.begin);
  json["end"] = seconds_json(when.end);
}

Json line_json(const SpokenLine& line) {
  Json json;
  json["line"] = line.number;
  json["text"] = line.text;
  if (line.in_other_clip) json["in_other_clip"] = true;
  json["takes"] = Json::array();
  for (const auto& take : line.takes) {
    Json one;
    set_range(one, take.when);
    one["complete"] = take.complete;
    one["chosen"] = take.chosen;
    if (!take.why.empty()) one["why"] = take.why;
    json["takes"].push_back(std::move(one));
  }
  return json;
}

Json word_json(const TimedWord& word) {
  Json json;
  json["line"] = word.line;
  json["word"] = word.text;
  set_range(json, word.when);
  json["precision"] = seconds_json(word.precision);
  return json;
}

Json listened_amount_json(const Listening& clip, const ListenedAmount& amount) {
  Json json;
  json["line"] = amount.line;
  set_range(json, amount.when);
  json["script"] = clip.draft ? Json() : amount_json(amount.script);
  json["heard"] = amount_or_null(amount.heard);
  json["heard_text"] = amount.heard_text;
  json["verdict"] = spelling_of(amount.verdict);
  json["ratio"] = number_or_null(amount.ratio, 0.1);
  if (!amount.why.empty()) json["why"] = amount.why;
  return json;
}

Json clip_json(const Listening& clip) {
  Json json;
  json["file"] = clip.file.string();
  json["duration"] = seconds_json(clip.duration);
  json["status"] = spelling_of(clip.status);
  if (clip.draft) json["draft"] = true;
  json["reason"] = clip.reason.empty() ? Json() : Json(clip.reason);
  json["snr_db"] = clip.snr_db ? number_or_null(*clip.snr_db, 0.1) : Json();
  for (const char* list : {"lines", "words", "amounts", "other_speech"}) json[list] = Json::array();
  for (const auto& line : clip.lines) json["lines"].push_back(line_json(line));
  for (const auto& word : clip.words) json["words"].push_back(word_json(word));
  for (const auto& amount : clip.amounts) json["amounts"].push_back(listened_amount_json(clip, amount));
  for (const auto& when : clip.other_speech) {
    Json one;
    set_range(one, when);
    json["other_speech"].push_back(std::move(one));
  }
  return json;
}

}  // namespace

std::string listen_json(const std::vector<Listening>& clips) {
  Json json;
  json["panslate_listening"] = kReportVersion;
  json["clips"] = Json::array();
  for (const auto& clip : clips) json["clips"].push_back(clip_json(clip));
  return report_text(json);
}

}  // namespace panslate
