#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "panslate/check/listen.h"
#include "panslate/project/project.h"
#include "panslate/project/store.h"

#include "app/context.h"

namespace CLI {
class App;
}

namespace panslate::app {

/// Which sound is listened to, and what is spoken in it: a project, or the files themselves.
struct SoundOptions {
  std::string project;
  std::string script;
  std::vector<std::string> media;
  std::string recipe;
  std::string words;  ///< her own list of words and how they sound
};

void add_sound_options(CLI::App& command, SoundOptions& options);

/// Clips with their scripts, and where what is heard of them is kept.
struct SoundToHear {
  std::optional<Project> project;
  Store store;                           ///< of the project; keeps nothing without one
  std::unique_ptr<Recipe> named_recipe;  ///< where there is no project
  std::string recipe_source;             ///< its text, or that of the project's
  ListenSetup setup;
  std::vector<ClipToHear> clips;
  std::vector<std::string> contents;  ///< keys of the clips' content, by index; empty where not known
};

/// Reads the script or the project. Usage when the options name neither or both ways.
[[nodiscard]] Checked<SoundToHear> sound_to_hear(const SoundOptions& options, Context& context);

/// Listens to what was not listened to before, keeps each clip as soon as it is done, and gives all of them.
[[nodiscard]] Result<std::vector<Listening>> hear(SoundToHear& sound, Context& context);

}  // namespace panslate::app
