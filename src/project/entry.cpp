#include "project/entry.h"

#include <utility>

#include "panslate/base/text.h"

namespace panslate {

std::optional<Entry> Entry::member(std::string_view key) const {
  if (!value_->is_object()) return std::nullopt;
  const auto spot = spot_->members.find(key);
  const auto found = value_->find(key);
  if (spot == spot_->members.end() || found == value_->end()) return std::nullopt;
  return Entry(*found, spot->second, name_.empty() ? std::string(key) : name_ + "." + std::string(key));
}

std::vector<Entry> Entry::items() const {
  std::vector<Entry> list;
  if (!value_->is_array()) return list;
  list.reserve(value_->size());
  for (std::size_t i = 0; i < value_->size(); ++i)
    list.emplace_back((*value_)[i], spot_->items[i], name_ + "[" + std::to_string(i) + "]");
  return list;
}

std::optional<std::string> Entry::text() const {
  if (!value_->is_string()) return std::nullopt;
  return value_->get<std::string>();
}

void ProblemList::add(const Entry& entry, std::string_view what, std::string hint, ErrorCode code) {
  wrong.insert(&entry.spot());
  std::string message = entry.name().empty() ? std::string(what) : entry.name() + ": " + std::string(what);
  errors.push_back({code, std::move(message), place_of(entry.spot().at), std::move(hint)});
}

std::string in_quotes(std::string_view words, std::size_t most) {
  const auto line = collapse_spaces(words);
  std::size_t end = 0;
  for (std::size_t count = 0; end < line.size() && count < most; ++count) end = code_point_at(line, end).next;
  return "\"" + line.substr(0, end) + (end < line.size() ? "…\"" : "\"");
}

std::string shown(const nlohmann::json& value) {
  switch (value.type()) {
    case nlohmann::json::value_t::string:
      return in_quotes(value.get_ref<const std::string&>(), 40);
    case nlohmann::json::value_t::array:
      return "a list in [ ]";
    case nlohmann::json::value_t::object:
      return "a group in { }";
    case nlohmann::json::value_t::null:
      return "nothing";
    default:
      return value.dump();
  }
}

}  // namespace panslate
