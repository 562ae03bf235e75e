#include "speech/webvtt_cues.h"

#include <utility>

#include "panslate/base/text.h"
#include "panslate/speech/webvtt.h"

#include "speech/webvtt_file.h"

namespace panslate {

namespace {

DraftCue plain_cue(VttCue& from) {
  DraftCue draft;
  draft.cue.id = std::move(from.id);
  draft.cue.when = {from.start, from.end};
  draft.cue.line = from.source_line;
  const auto nodes = parse_cue_text(from.text);
  std::vector<bool> is_aid(nodes.size(), false);
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const auto& node = nodes[i];
    is_aid[i] = node.kind == VttNode::Kind::RubyText || (node.parent && is_aid[*node.parent]);
    if (node.kind == VttNode::Kind::Text && !is_aid[i])
      draft.cue.text += node.value;
    else if (node.kind == VttNode::Kind::Timestamp)
      draft.tags.push_back({draft.cue.text.size(), node.time});
    else if (node.kind == VttNode::Kind::Voice && draft.cue.speaker.empty())
      draft.cue.speaker = node.value;
  }
  return draft;
}

}  // namespace

DraftTranscript read_webvtt(std::string_view text) {
  auto file = parse_vtt_text(text);
  const auto lines = split_lines(text);
  DraftTranscript result;
  result.cues.reserve(file.cues.size());
  for (auto& cue : file.cues) {
    auto draft = plain_cue(cue);
    const auto next = static_cast<std::size_t>(draft.cue.line);
    draft.cue.text_at = next < lines.size() ? lines[next].offset : text.size();
    result.cues.push_back(std::move(draft));
  }
  for (auto& problem : file.problems)
    result.warnings.push_back({std::move(problem.message), problem.source_line});
  return result;
}

}  // namespace panslate
