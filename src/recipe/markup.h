#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// Text freed of its mark-up (Markdown emphasis, links, pictures, HTML tags and entities), each byte still
/// tied to its place in the file, so that a message can point at the words as they were written.
namespace panslate {

struct PlainText {
  std::string text;                   ///< white space collapsed, no white space at the ends
  std::vector<std::uint32_t> origin;  ///< per byte of `text`: its byte offset in the whole source

  /// The part [begin, end) with its places.
  [[nodiscard]] PlainText part(std::size_t begin, std::size_t end) const;
  /// Joined with a space, as a wrapped line is.
  void append(const PlainText& next);
};

/// Frees one line of mark-up. `offset` is where the line starts in the source.
[[nodiscard]] PlainText strip_markup(std::string_view line, std::size_t offset);

/// The text with `<!-- comments -->` and `<script>`/`<style>` bodies turned to spaces (line ends and offsets
/// stay).
[[nodiscard]] std::string blank_comments(std::string_view text);

/// The character of an HTML entity without its `&` and `;` ("amp", "frac12", "#189", "#xBD"); 0 when unknown.
[[nodiscard]] char32_t entity_character(std::string_view name);

/// A JSON or HTML string as read: entities decoded, tags removed, white space collapsed.
[[nodiscard]] std::string plain_string(std::string_view text);

}  // namespace panslate
