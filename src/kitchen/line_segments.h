#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// An ingredient line cut where another food, an aside or a purpose may begin, so that the words of one do
/// not speak of another: "100 g butter | for the butternut squash", "2 eggs | (use aquafaba | for vegan)".
namespace panslate {

/// What a segment begins with.
enum class SegmentOpener : std::uint8_t {
  Mark,     ///< the line's start, a comma, bracket, semicolon, colon, full stop, a dash between words
  Also,     ///< "and", "&"
  Choice,   ///< "or", a stroke
  Purpose,  ///< "plus", "with", "for", "in"
};

struct LineSegment {
  std::size_t begin = 0, end = 0;  ///< words
  SegmentOpener opener = SegmentOpener::Mark;
  std::size_t aside = 0;     ///< number of the bracket it stands in, from 1; 0 outside of brackets
  bool conditional = false;  ///< "if needed", "use …", "check that …": what it tells need not hold
};

/// The words and numbers of a line, as name_stem makes them, and its segments; none is empty.
struct SegmentedLine {
  std::vector<std::string> words;
  std::vector<LineSegment> segments;

  [[nodiscard]] const LineSegment& segment_of(std::size_t word) const {
    return segments[segment_index(word)];
  }
  [[nodiscard]] std::size_t segment_index(std::size_t word) const;
};

[[nodiscard]] SegmentedLine segments_of(std::string_view line);

}  // namespace panslate
