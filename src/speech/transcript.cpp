#include "panslate/speech/transcript.h"

#include <algorithm>
#include <optional>
#include <unordered_set>
#include <utility>

#include "panslate/base/text.h"

#include "speech/caption_text.h"
#include "speech/draft_cue.h"
#include "speech/marked_text.h"
#include "speech/subrip.h"
#include "speech/webvtt_cues.h"
#include "speech/webvtt_file.h"
#include "speech/word_times.h"

namespace panslate {

namespace {

constexpr std::size_t kNoteWithin = 1000;  // bytes
constexpr std::string_view kHint =
    "captions are SubRip (.srt), WebVTT (.vtt), or plain text with times such as [1:05] before what is said";

std::optional<CaptionFormat> detect(std::string_view text) {
  if (has_vtt_signature(text)) return CaptionFormat::WebVtt;
  for (const auto& line : split_lines(text))
    if (parse_subrip_times(line.text)) return CaptionFormat::SubRip;
  return std::nullopt;
}

/// Cues in the order of their times, no end before its start.
void put_in_order(DraftTranscript& draft) {
  auto& cues = draft.cues;
  for (auto& [cue, tags] : cues) {
    if (cue.when.begin <= cue.when.end) continue;
    cue.when.end = cue.when.begin;
    draft.warnings.push_back({"this caption ends before it begins; its end is not used", cue.line});
  }
  const auto earlier = [](const DraftCue& a, const DraftCue& b) {
    return a.cue.when.begin < b.cue.when.begin;
  };
  for (std::size_t i = 1; i < cues.size(); ++i) {
    if (!earlier(cues[i], cues[i - 1])) continue;
    draft.warnings.push_back(
        {"this caption begins before the one above it; the captions were put in the order of their times",
         cues[i].cue.line});
    std::stable_sort(cues.begin(), cues.end(), earlier);
    return;
  }
}

/// Gives each cue an id that no other has: its own, else its place in the order.
void name_cues(std::vector<DraftCue>& cues) {
  std::unordered_set<std::string> taken;
  for (auto& [cue, tags] : cues)
    if (!cue.id.empty() && !taken.insert(cue.id).second) cue.id.clear();
  std::size_t spare = cues.size();
  for (std::size_t i = 0; i < cues.size(); ++i) {
    auto& id = cues[i].cue.id;
    if (!id.empty()) continue;
    id = "c" + std::to_string(i + 1);
    while (!taken.insert(id).second) id = "c" + std::to_string(++spare);
  }
}

}  // namespace

MediaTime Transcript::end() const {
  MediaTime last;
  for (const auto& cue : cues) last = std::max(last, cue.when.end);
  return last;
}

Result<Transcript> read_captions(std::string_view bytes, const std::filesystem::path& file) {
  auto decoded = decode_captions(bytes);
  const std::string_view text = decoded.text;
  if (trim(text).empty())
    return fail(ErrorCode::Malformed, "the captions file is empty", Place{file, 1, 1}, std::string(kHint));

  auto format = detect(text);
  DraftTranscript draft;
  if (format == CaptionFormat::WebVtt) {
    draft = read_webvtt(text);
  } else if (format == CaptionFormat::SubRip) {
    draft = read_subrip(text);
  } else {
    draft = read_marked_text(text);
    format = CaptionFormat::MarkedText;
    if (draft.cues.empty())
      return fail(ErrorCode::Malformed, "neither SubRip, WebVTT nor text with [m:ss] marks",
                  Place{file, 1, 1}, std::string(kHint));
  }
  if (draft.cues.empty()) {
    const int line = draft.warnings.empty() ? 1 : draft.warnings.front().line;
    return fail(ErrorCode::Malformed, "there is no caption in this file that can be read",
                Place{file, line, 1}, std::string(kHint));
  }

  put_in_order(draft);
  name_cues(draft.cues);
  Transcript transcript;
  transcript.file = file;
  transcript.format = *format;
  transcript.draft = text.substr(0, kNoteWithin).find(kDraftMark) != std::string_view::npos;
  transcript.words = time_words(draft.cues);
  transcript.cues.reserve(draft.cues.size());
  for (auto& [cue, tags] : draft.cues) transcript.cues.push_back(std::move(cue));
  transcript.warnings = std::move(decoded.warnings);
  transcript.warnings.insert(transcript.warnings.end(), draft.warnings.begin(), draft.warnings.end());
  std::stable_sort(transcript.warnings.begin(), transcript.warnings.end(),
                   [](const CaptionWarning& a, const CaptionWarning& b) { return a.line < b.line; });
  return transcript;
}

}  // namespace panslate
