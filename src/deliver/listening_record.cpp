#include "panslate/deliver/listening_record.h"

#include <cmath>
#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/base/lasting_key.h"
#include "panslate/check/listen_for.h"

namespace panslate {

namespace {

using Json = nlohmann::ordered_json;

// Changes with every change of what is heard in the same sound.
constexpr int kForm = 2;

Json range_json(const TimeRange& when) {
  return Json::array({when.begin.ticks(), when.end.ticks()});
}

// Reads what listening_record wrote; the first thing that does not fit ends it.
class RecordReader {
 public:
  [[nodiscard]] bool good() const { return good_; }
  void require(bool condition) { good_ = good_ && condition; }

  const Json& list(const Json& from, const char* name) { return member(from, name, &Json::is_array); }
  std::string text(const Json& from, const char* name) {
    const auto& json = member(from, name, &Json::is_string);
    return good_ ? json.get<std::string>() : std::string{};
  }
  bool flag(const Json& from, const char* name) {
    const auto& json = member(from, name, &Json::is_boolean);
    return good_ && json.get<bool>();
  }
  std::int64_t whole(const Json& from, const char* name) {
    const auto& json = member(from, name, &Json::is_number_integer);
    return good_ ? json.get<std::int64_t>() : 0;
  }
  double number(const Json& from, const char* name) {
    const auto& json = member(from, name, &Json::is_number);
    return good_ ? json.get<double>() : 0;
  }
  TimeRange range(const Json& json) {
    require(json.is_array() && json.size() == 2 && json[0].is_number_integer() &&
            json[1].is_number_integer());
    if (!good_) return {};
    const TimeRange when{MediaTime::from_ticks(json[0].get<std::int64_t>()),
                         MediaTime::from_ticks(json[1].get<std::int64_t>())};
    require(when.begin <= when.end && when.begin >= MediaTime{} && when.end <= kLongestSound);
    return when;
  }
  TimeRange range(const Json& from, const char* name) { return range(member(from, name, &Json::is_array)); }

 private:
  const Json& member(const Json& from, const char* name, bool (Json::*is)() const noexcept) {
    static const Json kNothing;
    if (!good_ || !from.is_object()) {
      good_ = false;
      return kNothing;
    }
    const auto found = from.find(name);
    good_ = found != from.end() && ((*found).*is)();
    return good_ ? *found : kNothing;
  }

  bool good_ = true;
};

std::optional<ListenStatus> status_from(std::string_view word) {
  for (const auto status : {ListenStatus::Aligned, ListenStatus::Partly, ListenStatus::Failed})
    if (word == spelling_of(status)) return status;
  return std::nullopt;
}

std::optional<Heeded> verdict_from(std::string_view word) {
  for (const auto verdict : {Heeded::AsWritten, Heeded::Differs, Heeded::Unsure})
    if (word == spelling_of(verdict)) return verdict;
  return std::nullopt;
}

std::vector<SpokenTake> takes_from(const Json& json, RecordReader& in) {
  std::vector<SpokenTake> takes;
  in.require(json.is_array());
  for (const auto& one : json) {
    if (!in.good()) break;
    takes.push_back(
        {in.range(one, "when"), in.flag(one, "complete"), in.flag(one, "chosen"), in.text(one, "why")});
  }
  return takes;
}

std::vector<ScriptLine> drafted_lines(const Json& lines, RecordReader& in) {
  std::vector<ScriptLine> script;
  for (const auto& line : lines) {
    if (!in.good()) break;
    script.push_back({static_cast<int>(script.size()) + 1, in.text(line, "text"), {}});
  }
  return script;
}

// Amounts are read again out of the words that stand for them: there is one reader of amounts.
ListenedAmount amount_from(const Json& json, const std::vector<ScriptLine>& script, RecordReader& in) {
  ListenedAmount amount;
  const auto line = in.whole(json, "line");
  const auto place = in.whole(json, "place");
  in.require(line >= 0 && line < static_cast<std::int64_t>(script.size()) && place >= 0);
  if (!in.good()) return amount;
  const auto amounts = amounts_heard_in(script[static_cast<std::size_t>(line)].text);
  in.require(place < static_cast<std::int64_t>(amounts.size()));
  if (!in.good()) return amount;
  amount.line = script[static_cast<std::size_t>(line)].number;
  amount.place = static_cast<std::size_t>(place);
  amount.script = amounts[amount.place].amount;
  amount.when = in.range(json, "when");
  amount.heard_text = in.text(json, "heard_text");
  const auto verdict = verdict_from(in.text(json, "verdict"));
  in.require(verdict.has_value());
  amount.verdict = verdict.value_or(Heeded::Unsure);
  amount.ratio = in.number(json, "ratio");
  // As listen_for_amounts gives it: what sounds as written is the script's own.
  if (in.flag(json, "heard"))
    amount.heard =
        amount.ratio < 0 ? amount_in_words(amount.heard_text, amount.script) : std::optional(amount.script);
  amount.why = in.text(json, "why");
  return amount;
}

}  // namespace

std::string script_key(std::span<const ScriptLine> script) {
  std::string all;
  for (const auto& line : script) all += std::to_string(line.number) + "\t" + line.text + "\n";
  return lasting_key({all});
}

std::string listening_record(const Listening& listening, std::string_view own_words) {
  Json json{{"listening", kForm},
            {"own_words", lasting_key({own_words})},
            {"duration", listening.duration.ticks()},
            {"draft", listening.draft},
            {"status", spelling_of(listening.status)},
            {"reason", listening.reason}};
  if (listening.snr_db && std::isfinite(*listening.snr_db)) json["snr_db"] = *listening.snr_db;
  for (const char* list : {"lines", "words", "amounts", "other_speech", "peaks"}) json[list] = Json::array();
  const auto index_of = [&](int number) {
    std::size_t index = 0;
    while (index < listening.lines.size() && listening.lines[index].number != number) ++index;
    return index;
  };
  for (const auto& line : listening.lines) {
    auto takes = Json::array();
    for (const auto& take : line.takes)
      takes.push_back({{"when", range_json(take.when)},
                       {"complete", take.complete},
                       {"chosen", take.chosen},
                       {"why", take.why}});
    // The words of a draft stand nowhere else.
    if (listening.draft)
      json["lines"].push_back({{"text", line.text}, {"takes", std::move(takes)}});
    else
      json["lines"].push_back(std::move(takes));
  }
  for (const auto& word : listening.words)
    json["words"].push_back({{"line", word.line},
                             {"text", word.text},
                             {"when", range_json(word.when)},
                             {"precision", word.precision.ticks()}});
  for (const auto& amount : listening.amounts)
    json["amounts"].push_back({{"line", index_of(amount.line)},
                               {"place", amount.place},
                               {"when", range_json(amount.when)},
                               {"heard", amount.heard.has_value()},
                               {"heard_text", amount.heard_text},
                               {"verdict", spelling_of(amount.verdict)},
                               {"ratio", std::isfinite(amount.ratio) ? amount.ratio : 0.0},
                               {"why", amount.why}});
  for (const auto& when : listening.other_speech) json["other_speech"].push_back(range_json(when));
  for (const int peak : listening.peaks) json["peaks"].push_back(peak);
  return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::optional<Listening> listening_from(std::string_view record, const ClipToHear& clip,
                                        std::optional<std::string_view> own_words) {
  const auto json = Json::parse(record, nullptr, false);
  RecordReader in;
  in.require(in.whole(json, "listening") == kForm);
  const auto words = in.text(json, "own_words");
  in.require(!own_words || words == lasting_key({*own_words}));
  in.require(in.whole(json, "duration") == clip.duration.ticks());
  Listening heard;
  heard.file = clip.file;
  heard.duration = clip.duration;
  heard.has_picture = clip.has_picture;
  heard.of_captions = clip.script_is_captions;
  const auto status = status_from(in.text(json, "status"));
  in.require(status.has_value());
  heard.status = status.value_or(ListenStatus::Failed);
  heard.reason = in.text(json, "reason");
  if (in.good() && json.contains("snr_db")) heard.snr_db = in.number(json, "snr_db");
  heard.draft = in.flag(json, "draft");
  in.require(heard.draft == (clip.script == nullptr));
  const auto& lines = in.list(json, "lines");
  const auto script = clip.script ? *clip.script : drafted_lines(lines, in);
  in.require(lines.size() == script.size());
  for (std::size_t i = 0; i < script.size() && in.good(); ++i)
    heard.lines.push_back({script[i].number, script[i].text,
                           takes_from(heard.draft ? in.list(lines[i], "takes") : lines[i], in)});
  for (const auto& word : in.list(json, "words")) {
    if (!in.good()) break;
    heard.words.push_back({static_cast<int>(in.whole(word, "line")), in.text(word, "text"),
                           in.range(word, "when"), MediaTime::from_ticks(in.whole(word, "precision"))});
  }
  for (const auto& amount : in.list(json, "amounts")) {
    if (!in.good()) break;
    heard.amounts.push_back(amount_from(amount, script, in));
  }
  for (const auto& when : in.list(json, "other_speech")) {
    if (!in.good()) break;
    heard.other_speech.push_back(in.range(when));
  }
  for (const auto& peak : in.list(json, "peaks")) {
    in.require(peak.is_number_integer() && peak >= 0 && peak <= 255);
    if (!in.good()) break;
    heard.peaks.push_back(peak.get<std::uint8_t>());
  }
  return in.good() ? std::optional(std::move(heard)) : std::nullopt;
}

}  // namespace panslate
