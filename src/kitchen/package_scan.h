#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "panslate/kitchen/amount_scan.h"

/// Packages, whose size is no amount of its own ("2 x 400 g tins"), and things whose length is told.
namespace panslate {

enum class Article { None, Told };

/// `found` is a count that ends before `at`, where "x 400 g tins", "(15-ounce) can", "400-gram tins" or
/// "by 400 gram tins" may follow: the packages counted, or empty.
[[nodiscard]] std::optional<ScannedAmount> packages_at(std::span<const Token> tokens, ScannedAmount found,
                                                       std::size_t at, SpokenOrWritten how);

/// `found` is a count of containers: takes the size that follows without a bracket ("1 tin 400 g
/// tomatoes"), or in one that says so ("2 tins (400 g each)").
void take_package_size(std::span<const Token> tokens, ScannedAmount& found, SpokenOrWritten how);

/// `found` is a mass or a volume: where a container follows, it is the size of one ("400 g tin", "a 250 gram
/// block"), and after an article of any one thing ("a 1.5 kg chicken").
void take_container(std::span<const Token> tokens, ScannedAmount& found, Article article,
                    SpokenOrWritten how);

/// `found` is a length: makes it a count of what is so long ("4cm ginger", "a 5 cm stick"), and reads further
/// sides ("9 by 13 inch").
void take_length(std::span<const Token> tokens, ScannedAmount& found, SpokenOrWritten how);

/// Whether a size of a package ("400 g", "14 fluid ounces") stands at `at`.
[[nodiscard]] bool is_package_size(std::span<const Token> tokens, std::size_t at, SpokenOrWritten how);

}  // namespace panslate
