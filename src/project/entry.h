#pragma once

#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "panslate/base/result.h"

#include "project/json_text.h"

namespace panslate {

/// One value of the project file with its name and its place: "segments[2].in".
class Entry {
 public:
  Entry(const nlohmann::json& value, const JsonSpot& spot, std::string name)
      : value_(&value), spot_(&spot), name_(std::move(name)) {}

  [[nodiscard]] const nlohmann::json& value() const { return *value_; }
  [[nodiscard]] const JsonSpot& spot() const { return *spot_; }
  [[nodiscard]] const std::string& name() const { return name_; }

  /// The value under a name; empty when there is none.
  [[nodiscard]] std::optional<Entry> member(std::string_view key) const;
  /// The values of a list; empty for anything else.
  [[nodiscard]] std::vector<Entry> items() const;
  /// The words of a string; empty for anything else.
  [[nodiscard]] std::optional<std::string> text() const;

 private:
  const nlohmann::json* value_;
  const JsonSpot* spot_;
  std::string name_;
};

/// Where the problems of one project file are gathered.
struct ProblemList {
  std::filesystem::path file;
  std::vector<Error> errors;
  std::set<const JsonSpot*> wrong;  ///< values that have been complained about
  int suggestions_left = 50;        ///< a file with more slips than this is not a matter of spelling

  [[nodiscard]] Place place_of(LineColumn at) const { return {file, at.line, at.column}; }
  [[nodiscard]] bool is_wrong(const Entry& entry) const { return wrong.contains(&entry.spot()); }
  /// "segments[2].in: " + what, at the value's place.
  void add(const Entry& entry, std::string_view what, std::string hint = {},
           ErrorCode code = ErrorCode::Malformed);
};

/// How a value is shown in a message: words in quotes and shortened, lists and groups by kind.
[[nodiscard]] std::string shown(const nlohmann::json& value);

/// Words of the user's in quotes, cut after `most` characters.
[[nodiscard]] std::string in_quotes(std::string_view words, std::size_t most = 60);

}  // namespace panslate
