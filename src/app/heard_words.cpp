#include "app/heard_words.h"

#include <optional>
#include <utility>

#include "panslate/check/listen.h"
#include "panslate/deliver/listening_record.h"

#include "app/clips_to_hear.h"

namespace panslate::app {

HeardWords use_listening(Project& project, const Footage& footage, const Store& store) {
  HeardWords out;
  for (const auto& [media, clip] : clips_to_hear(project, footage)) {
    const auto key = clip.script ? script_key(*clip.script) : std::string(kDraftKey);
    const auto record = store.heard(footage.contents[media], key);
    auto listening = record ? listening_from(*record, clip, std::nullopt) : std::nullopt;
    const auto& id = project.media[media].id;
    if (!listening) {
      if (store.was_heard(footage.contents[media]))
        out.warnings.push_back({"sound-changed", WarningLevel::Note,
                                "clip " + id +
                                    " was listened to when its words were others: run panslate listen "
                                    "again, and the check goes by its sound again",
                                std::nullopt, std::nullopt});
      continue;
    }
    if (clip.script_is_draft) leave_to_a_person(*listening);
    if (!clip.script_is_captions) {
      auto captions = captions_of(*listening);
      if (captions.cues.empty()) continue;
      project.captions.push_back({std::move(captions), id, {}});
    } else
      for (auto& captions : project.captions)
        if (captions.clock == id && script_key(script_of(captions.text)) == key)
          put_in_place(captions.text, *listening);
    if (!listening->draft)
      out.clips.push_back(
          {id, clip.script_is_captions ? WordsFrom::Captions : WordsFrom::Script, *std::move(listening)});
  }
  return out;
}

}  // namespace panslate::app
