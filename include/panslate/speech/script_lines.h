#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/result.h"

/// What is to be spoken, in lines. Here a number is words like any other: whoever knows amounts hands in the
/// ways to say one.
namespace panslate {

/// One thing of the script: a word, or an amount as it is written ("200 g").
struct ScriptWord {
  std::string text;
  /// The ways to say it, each a list of spoken words in lower case: {{"two", "hundred", "grams"}}. Empty when
  /// nothing is known to be spoken for it.
  std::vector<std::vector<std::string>> readings = {};
  /// Of an amount: words that something else said in its place is made of, in any order. Its line is still
  /// that line then. Empty: nothing else is said there.
  std::shared_ptr<const std::vector<std::string>> slips = {};

  friend bool operator==(const ScriptWord&, const ScriptWord&) = default;
};

struct ScriptLine {
  int number = 0;  ///< of the script's text, from 1
  std::string text;
  std::vector<ScriptWord> words = {};
};

/// A text in words: at white space, hyphens, dashes and slashes; apostrophes stay, other marks go. Numbers
/// without a unit are spelled out: "12" twelve, "250" also with "and", "1.5" one point five, "0150" digit by
/// digit; "&" is and, "%" per cent. What has no letter or digit is no word.
[[nodiscard]] std::vector<ScriptWord> script_words(std::string_view text);

/// A script: a line of text for each line spoken; blank lines and lines that begin with # are passed over.
/// Fails (Malformed) when no line is left, or when the text has more than 100,000 words.
[[nodiscard]] Result<std::vector<ScriptLine>> read_script(std::string_view text,
                                                          const std::filesystem::path& file);

}  // namespace panslate
