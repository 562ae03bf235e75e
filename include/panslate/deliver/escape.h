#pragma once

#include <string>
#include <string_view>
#include <vector>

/// One escaper per format: whatever a recipe, a caption or a file name holds, it stays text.
namespace panslate {

/// For HTML text and quoted attributes: & < > " ' as character references; control characters that HTML does
/// not allow become U+FFFD.
[[nodiscard]] std::string escape_html(std::string_view text);

/// One CSV field (RFC 4180): quoted where it holds a comma, quote or line end, quotes doubled. A field that a
/// spreadsheet would calculate (it starts with = + - @, tab or return) gets an apostrophe in front and is
/// quoted.
[[nodiscard]] std::string escape_csv(std::string_view field);

/// A row of such fields, with its line end (CR LF).
[[nodiscard]] std::string csv_row(const std::vector<std::string>& fields);

/// Cue text of WebVTT: & < > as character references, so neither a tag nor an arrow can stand in it; other
/// line ends and control characters than LF become spaces, and empty lines, which would end the cue, vanish.
[[nodiscard]] std::string escape_webvtt(std::string_view text);

/// SubRip has no escapes: < > { } become ‹ › ( ), so that no player reads tags or an arrow; lines as in
/// escape_webvtt.
[[nodiscard]] std::string escape_subrip(std::string_view text);

/// The text field of an ASS event: line ends become \N. Players do not agree on escapes for the characters
/// of override codes, so { } \ become ( ) and ⧵ (U+29F5).
[[nodiscard]] std::string escape_ass(std::string_view text);

/// For a terminal: control characters (escape sequences among them) become spaces, LF stays.
[[nodiscard]] std::string escape_terminal(std::string_view text);

}  // namespace panslate
