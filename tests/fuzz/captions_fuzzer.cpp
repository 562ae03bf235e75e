// Any bytes: captions are read, or refused with a place; what is read holds together, and words of it can be
// put right without touching anything else.
#include <cstdint>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "panslate/speech/corrected_captions.h"
#include "panslate/speech/transcript.h"
#include "panslate/speech/webvtt.h"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

// Two words made one, and one made two, in the middle of what was read.
void correct(std::string_view bytes, const panslate::Transcript& transcript) {
  require(panslate::correct_captions(bytes, transcript, {}).bytes == bytes);
  const auto& words = transcript.words;
  if (words.size() < 4) return;
  const auto at = words.size() / 2;
  const std::vector<panslate::WordChange> changes{
      {at - 1, 0, at, words[at].text.size(), "quinoa"},
      {at + 1, 0, at + 1, words[at + 1].text.size(), "crème fraîche"},
      {at, 0, at, words[at].text.size(), "leek"}};
  const auto corrected = panslate::correct_captions(bytes, transcript, changes);
  for (std::size_t i = 0; i < corrected.left_out.size(); ++i)
    require(corrected.left_out[i] < changes.size() &&
            (i == 0 || corrected.left_out[i - 1] < corrected.left_out[i]));
  if (corrected.left_out.size() == changes.size()) require(corrected.bytes == bytes);
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
    correct(bytes, *transcript);
  }
  if (const auto file = panslate::parse_webvtt(bytes, "captions"))
    for (const auto& cue : file->cues) {
      require(!cue.region || *cue.region < file->regions.size());
      const auto nodes = panslate::parse_cue_text(cue.text);
      for (std::size_t i = 0; i < nodes.size(); ++i) require(!nodes[i].parent || *nodes[i].parent < i);
    }
  return 0;
}
