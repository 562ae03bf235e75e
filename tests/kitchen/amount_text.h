#pragma once

#include <string>

#include "panslate/kitchen/amount.h"
#include "panslate/kitchen/amount_scan.h"

namespace panslate::testing {

/// An amount in one line for tables of tests: "5/4..3/2 cup heaped about fan each 400 g"; "-" for no number.
inline std::string dump(const Amount& amount) {
  std::string text = amount.value ? amount.value->to_string() : "-";
  if (amount.to) text += ".." + amount.to->to_string();
  text += ' ' + std::string(spelling_of(amount.unit));
  if (!amount.noun.empty()) text += ' ' + amount.noun;
  if (amount.size) {
    switch (*amount.size) {
      case SpoonSize::Level:
        text += " level";
        break;
      case SpoonSize::Heaped:
        text += " heaped";
        break;
      case SpoonSize::Scant:
        text += " scant";
        break;
    }
  }
  if (amount.about) text += " about";
  if (amount.fan) text += " fan";
  if (amount.each)
    text += " each " + amount.each->value.to_string() + ' ' + std::string(spelling_of(amount.each->unit));
  return text;
}

/// A scanned amount with its alternates and marks: "180 C | 160 C fan | 4 gas", "1/2 piece +share".
inline std::string dump(const ScannedAmount& found) {
  std::string text = dump(found.amount);
  for (const auto& other : found.alternates) text += " | " + dump(other);
  if (found.is_share) text += " +share";
  if (found.is_more) text += " +more";
  if (found.is_total) text += " +total";
  if (found.is_each) text += " +each";
  if (found.is_length) text += " +length";
  if (found.scale_inferred) text += " +inferred";
  return text;
}

/// All amounts of a text, parted by "; ".
inline std::string dump_amounts(std::string_view text, SpokenOrWritten how) {
  std::string out;
  const auto tokens = tokenize(text);
  for (const auto& found : scan_amounts(tokens, how)) {
    if (!out.empty()) out += "; ";
    out += dump(found);
  }
  return out;
}

}  // namespace panslate::testing
