#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "check/spoken_text.h"

/// Searching what lies in order along a talk and does not overlap (foods, amounts, lines): by halving, so
/// that hours of talk cost no more for each word than minutes do.
namespace panslate {

[[nodiscard]] inline TokenSpan span_of(TokenSpan span) {
  return span;
}

template <class Item>
[[nodiscard]] TokenSpan span_of(const Item& item) {
  return item.span;
}

/// The first item that begins at or after a token.
template <class Item>
[[nodiscard]] typename std::vector<Item>::const_iterator first_from(const std::vector<Item>& items,
                                                                    std::size_t token) {
  return std::lower_bound(items.begin(), items.end(), token,
                          [](const Item& item, std::size_t t) { return span_of(item).begin < t; });
}

/// True when any item shares a token with the span.
template <class Item>
[[nodiscard]] bool any_overlaps(const std::vector<Item>& items, TokenSpan span) {
  const auto after = first_from(items, span.end);
  return after != items.begin() && span_of(*(after - 1)).end > span.begin;
}

}  // namespace panslate
