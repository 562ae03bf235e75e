#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "panslate/base/media_time.h"
#include "panslate/base/result.h"

/// WebVTT as the W3C's parser rules read it (WebVTT: The Web Video Text Tracks Format, sections 6.1 to 6.4):
/// every file that begins with the signature can be read, what is broken in it is left out. Names follow the
/// specification.
namespace panslate {

enum class VttVertical : std::uint8_t { Horizontal, GrowingLeft, GrowingRight };  // "", "rl", "lr"
enum class VttAlign : std::uint8_t { Start, Center, End, Left, Right };
enum class VttLineAlign : std::uint8_t { Start, Center, End };
enum class VttPositionAlign : std::uint8_t { Auto, LineLeft, Center, LineRight };
enum class VttScroll : std::uint8_t { None, Up };

/// Percentages of the video's width and height.
struct VttAnchor {
  double x = 0;
  double y = 100;
};

struct VttRegion {
  std::string id;
  double width = 100;  ///< percent
  double lines = 3;    ///< a whole number; the specification sets no upper limit
  VttAnchor region_anchor;
  VttAnchor viewport_anchor;
  VttScroll scroll = VttScroll::None;
};

struct VttCue {
  std::string id;   ///< empty when the file has none
  MediaTime start;  ///< as written: an end may lie before its start
  MediaTime end;
  VttVertical vertical = VttVertical::Horizontal;
  bool snap_to_lines = true;
  std::optional<double> line;  ///< empty is "auto"; a line number when snap_to_lines, else percent
  VttLineAlign line_align = VttLineAlign::Start;
  std::optional<double> position;  ///< empty is "auto"; percent
  VttPositionAlign position_align = VttPositionAlign::Auto;
  double size = 100;  ///< percent
  VttAlign align = VttAlign::Center;
  std::optional<std::size_t> region;  ///< index into VttFile::regions
  std::string text;                   ///< raw: tags and escapes as written, lines joined with LF
  int source_line = 0;                ///< of its timing line
};

/// A cue that could not be read, or a time line that belongs to none.
struct VttProblem {
  std::string message;
  int source_line = 0;
};

struct VttFile {
  std::vector<VttCue> cues;  ///< in the order of the file
  std::vector<VttRegion> regions;
  std::vector<std::string> styles;  ///< CSS of the STYLE blocks, as written
  std::vector<VttProblem> problems;
};

/// Reads a whole file from its bytes (a UTF-16 byte order mark is honoured too). Fails (Malformed at line 1)
/// only when the signature is missing. A time beyond 400,000 hours counts as broken: MediaTime ends near
/// there.
[[nodiscard]] Result<VttFile> parse_webvtt(std::string_view bytes, const std::filesystem::path& file);

/// One node of a cue's text (WebVTT Node Objects, section 6.4).
struct VttNode {
  enum class Kind : std::uint8_t {
    Class,
    Italic,
    Bold,
    Underline,
    Ruby,
    RubyText,
    Voice,
    Language,
    Text,
    Timestamp,
  };

  Kind kind = Kind::Text;
  std::optional<std::size_t> parent;  ///< index of the enclosing node; empty at the top
  std::string value;                  ///< the text, the voice, or the language
  std::vector<std::string> classes;
  MediaTime time;  ///< of a Timestamp
};

/// The tree of a cue's raw text in document order: a node stands after its parent and before what follows
/// it. A flat list, since a file may nest as deep as it likes. Never fails.
[[nodiscard]] std::vector<VttNode> parse_cue_text(std::string_view raw);

}  // namespace panslate
