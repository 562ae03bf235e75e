#include "speech/webvtt_file.h"

#include <algorithm>
#include <string>
#include <utility>

#include "panslate/base/text.h"

#include "speech/webvtt_scan.h"
#include "speech/webvtt_settings.h"

namespace panslate {

namespace {

constexpr std::string_view kSignature = "WEBVTT";

/// CRLF and CR become LF, so that one line end is left (section 6.1, step 1).
std::string with_line_feeds(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\r')
      out += text[i];
    else if (i + 1 >= text.size() || text[i + 1] != '\n')
      out += '\n';
  }
  return out;
}

/// "STYLE" or "REGION" alone on a line.
bool is_block_name(std::string_view line, std::string_view name) {
  if (!line.starts_with(name)) return false;
  line.remove_prefix(name.size());
  return std::all_of(line.begin(), line.end(), is_vtt_space);
}

bool skip_arrow(std::string_view input, std::size_t& position) {
  if (input.substr(position, 3) != "-->") return false;
  position += 3;
  return true;
}

void skip_space(std::string_view input, std::size_t& position) {
  while (position < input.size() && is_vtt_space(input[position])) ++position;
}

enum class InHeader : bool { No, Yes };

class Parser {
 public:
  explicit Parser(std::string_view text) : input_(text) {}

  VttFile run() {
    static_cast<void>(take_line());
    if (at_end()) return std::move(file_);
    if (input_[position_] != '\n')
      collect_block(InHeader::Yes);
    else
      skip_line_feeds();
    skip_line_feeds();
    while (!at_end()) {
      collect_block(InHeader::No);
      skip_line_feeds();
    }
    return std::move(file_);
  }

 private:
  struct Mark {
    std::size_t position = 0;
    int line = 1;
  };

  [[nodiscard]] bool at_end() const { return position_ >= input_.size(); }

  void skip_line_feeds() {
    for (; !at_end() && input_[position_] == '\n'; ++position_) ++line_;
  }

  std::string_view take_line() {
    const auto end = std::min(input_.find('\n', position_), input_.size());
    const auto line = input_.substr(position_, end - position_);
    position_ = end;
    if (!at_end()) {
      ++position_;
      ++line_;
    }
    return line;
  }

  [[nodiscard]] Mark here() const { return {position_, line_}; }
  void go_back(Mark mark) {
    position_ = mark.position;
    line_ = mark.line;
  }

  std::optional<VttCue> read_timings(std::string_view line, int source_line) {
    VttCue cue;
    cue.source_line = source_line;
    std::size_t at = 0;
    skip_space(line, at);
    const auto start = collect_vtt_timestamp(line, at);
    skip_space(line, at);
    if (!start || !skip_arrow(line, at)) return std::nullopt;
    skip_space(line, at);
    const auto end = collect_vtt_timestamp(line, at);
    if (!end) return std::nullopt;
    cue.start = *start;
    cue.end = *end;
    parse_vtt_cue_settings(line.substr(at), regions_, cue);
    return cue;
  }

  /// "Collect a WebVTT block": what was found goes to its list.
  void collect_block(InHeader in_header) {
    enum class Block { Unknown, Style, Region };
    auto block = Block::Unknown;
    std::optional<VttCue> cue;
    std::string buffer;
    bool seen_arrow = false;
    Mark previous = here();
    for (int count = 1; !at_end(); ++count) {
      const int source_line = line_;
      const auto line = take_line();
      if (line.find("-->") != std::string_view::npos) {
        if (in_header == InHeader::Yes || !(count == 1 || (count == 2 && !seen_arrow))) {
          go_back(previous);
          break;
        }
        seen_arrow = true;
        previous = here();
        cue = read_timings(line, source_line);
        if (cue) {
          cue->id = std::exchange(buffer, {});
          seen_cue_ = true;
        } else {
          file_.problems.push_back(
              {"the times of this caption cannot be read, it is left out; expected 00:01:02.500 --> "
               "00:01:05.000",
               source_line});
        }
      } else if (line.empty()) {
        break;
      } else {
        if (in_header == InHeader::No && count == 2 && !seen_cue_ && is_block_name(buffer, "STYLE")) {
          block = Block::Style;
          buffer.clear();
        } else if (in_header == InHeader::No && count == 2 && !seen_cue_ && is_block_name(buffer, "REGION")) {
          block = Block::Region;
          buffer.clear();
        }
        if (!buffer.empty()) buffer += '\n';
        buffer += line;
        previous = here();
      }
    }
    if (cue) {
      cue->text = std::move(buffer);
      file_.cues.push_back(*std::move(cue));
    } else if (block == Block::Style) {
      file_.styles.push_back(std::move(buffer));
    } else if (block == Block::Region) {
      const auto& region = file_.regions.emplace_back(parse_vtt_region(buffer));
      regions_.insert_or_assign(region.id, file_.regions.size() - 1);
    }
  }

  std::string_view input_;
  std::size_t position_ = 0;
  int line_ = 1;
  bool seen_cue_ = false;
  VttFile file_;
  VttRegionIndex regions_;
};

}  // namespace

bool has_vtt_signature(std::string_view text) {
  if (!text.starts_with(kSignature)) return false;
  if (text.size() == kSignature.size()) return true;
  const char next = text[kSignature.size()];
  return next == ' ' || next == '\t' || next == '\n' || next == '\r';
}

VttFile parse_vtt_text(std::string_view text) {
  const auto input = with_line_feeds(text);
  return Parser(input).run();
}

Result<VttFile> parse_webvtt(std::string_view bytes, const std::filesystem::path& file) {
  const auto text = to_utf8(bytes);
  if (!has_vtt_signature(text))
    return fail(ErrorCode::Malformed, "a WebVTT file begins with the word WEBVTT", Place{file, 1, 1});
  return parse_vtt_text(text);
}

}  // namespace panslate
