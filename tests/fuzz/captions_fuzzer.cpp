// Any bytes: captions are read, or refused with a place; what is read holds together.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "panslate/speech/transcript.h"
#include "panslate/speech/webvtt.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto transcript = panslate::read_captions(bytes, "captions");
  if (!transcript) {
    require(transcript.error().place.has_value() && transcript.error().place->line > 0);
  } else {
    require(!transcript->cues.empty());
    for (std::size_t i = 0; i < transcript->cues.size(); ++i) {
      const auto& cue = transcript->cues[i];
      require(!cue.id.empty() && cue.line > 0 && cue.when.begin <= cue.when.end);
      require(i == 0 || transcript->cues[i - 1].when.begin <= cue.when.begin);
    }
    for (const auto& word : transcript->words) {
      require(!word.text.empty() && word.cue < transcript->cues.size());
      const auto& when = transcript->cues[word.cue].when;
      require(when.begin <= word.when.begin && word.when.begin <= word.when.end && word.when.end <= when.end);
      require(word.precision > panslate::MediaTime());
    }
  }
  if (const auto file = panslate::parse_webvtt(bytes, "captions"))
    for (const auto& cue : file->cues) {
      require(!cue.region || *cue.region < file->regions.size());
      const auto nodes = panslate::parse_cue_text(cue.text);
      for (std::size_t i = 0; i < nodes.size(); ++i) require(!nodes[i].parent || *nodes[i].parent < i);
    }
  return 0;
}
