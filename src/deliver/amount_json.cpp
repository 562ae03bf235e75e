#include "deliver/amount_json.h"

#include <string_view>

namespace panslate {

namespace {

std::string_view spelling_of(SpoonSize size) {
  switch (size) {
    case SpoonSize::Level:
      return "level";
    case SpoonSize::Heaped:
      return "heaped";
    case SpoonSize::Scant:
      return "scant";
  }
  return "level";
}

// Whole numbers as whole numbers: 4, not 4.0.
nlohmann::ordered_json number_json(const Ratio& ratio) {
  if (ratio.is_whole()) return ratio.num();
  return ratio.value();
}

}  // namespace

nlohmann::ordered_json amount_json(const Amount& amount) {
  nlohmann::ordered_json json;
  json["value"] = amount.value ? number_json(*amount.value) : nlohmann::ordered_json();
  json["exact"] = amount.value ? nlohmann::ordered_json(amount.value->to_string()) : nlohmann::ordered_json();
  json["unit"] = amount.unit == Unit::Other && !amount.noun.empty()
                     ? amount.noun
                     : std::string(panslate::spelling_of(amount.unit));
  if (amount.to) {
    json["to"] = number_json(*amount.to);
    json["to_exact"] = amount.to->to_string();
  }
  if (amount.size) json["size"] = spelling_of(*amount.size);
  if (amount.about) json["about"] = true;
  if (amount.fan) json["fan"] = true;
  if (amount.each) {
    json["each"]["value"] = number_json(amount.each->value);
    json["each"]["unit"] = panslate::spelling_of(amount.each->unit);
  }
  return json;
}

nlohmann::ordered_json amounts_json(const std::vector<Amount>& amounts) {
  auto list = nlohmann::ordered_json::array();
  for (const auto& amount : amounts) list.push_back(amount_json(amount));
  return list;
}

nlohmann::ordered_json amount_or_null(const std::optional<Amount>& amount) {
  return amount ? amount_json(*amount) : nlohmann::ordered_json();
}

double seconds_json(MediaTime time) {
  return static_cast<double>(time.to_ms(Round::Nearest)) / 1000.0;
}

std::string report_text(const nlohmann::ordered_json& report) {
  return report.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace panslate
