#pragma once

#include <string>
#include <vector>

#include "panslate/check/listening.h"
#include "panslate/check/report.h"
#include "panslate/check/use_listening.h"
#include "panslate/project/project.h"
#include "panslate/project/store.h"

namespace panslate::app {

/// What `listen` found in the sound of a project's clips, where it was run.
struct HeardWords {
  struct Clip {
    std::string media;  ///< id of the clip
    WordsFrom from = WordsFrom::Captions;
    Listening listening;
  };
  std::vector<Clip> clips;
  std::vector<CheckWarning> warnings;  ///< sound that must be listened to again
};

/// Takes it from the store and puts it to use in the project: words of captions stand where they are spoken;
/// where there are no captions, what is heard of the script, or the draft, serves as them.
[[nodiscard]] HeardWords use_listening(Project& project, const Footage& footage, const Store& store);

}  // namespace panslate::app
