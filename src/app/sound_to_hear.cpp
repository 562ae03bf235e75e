#include "app/sound_to_hear.h"

#include <algorithm>
#include <map>
#include <memory>
#include <utility>

#include <CLI/CLI.hpp>

#include "panslate/deliver/listening_record.h"
#include "panslate/recipe/recipe.h"

#include "app/clips_to_hear.h"

namespace panslate::app {

namespace {

using Errors = std::vector<Error>;
using Script = std::shared_ptr<const std::vector<ScriptLine>>;

std::optional<Error> usage_error(const SoundOptions& options) {
  const auto usage = [](std::string message, std::string hint) {
    return Error{ErrorCode::Usage, std::move(message), std::nullopt, std::move(hint)};
  };
  if (!options.project.empty()) {
    if (options.media.empty() && options.recipe.empty()) return std::nullopt;
    return usage("a project names its clips and its recipe itself",
                 "leave --media and --recipe out, or the project");
  }
  if (options.script.empty() && options.media.empty())
    return usage("nothing to listen to was named", "give a project file, or --script FILE and --media CLIP");
  if (options.media.empty()) return usage("the clip is not named", "add --media CLIP");
  if (options.script.empty() && options.recipe.empty())
    return usage(
        "neither script nor recipe is named",
        "add --script FILE (text with a spoken line in each line), or --recipe FILE for a draft of what "
        "is said");
  return std::nullopt;
}

Script with_readings(std::vector<ScriptLine> lines) {
  return std::make_shared<const std::vector<ScriptLine>>(script_to_hear(std::move(lines)));
}

Result<Script> read_script_file(const std::string& file, const FileSystem& disk) {
  PANSLATE_TRY(const auto text, read_text(disk, file));
  PANSLATE_TRY(auto lines, read_script(text, file));
  return with_readings(std::move(lines));
}

Status read_own_words(const SoundOptions& options, SoundToHear& sound, Context& context) {
  if (options.words.empty()) return {};
  PANSLATE_TRY(sound.setup.own_words, read_text(context.disk, options.words));
  sound.setup.own_words_file = options.words;
  return {};
}

// Her own words are wrong in all lines at once, or not at all.
Checked<void> try_own_words(const ListenSetup& setup) {
  if (setup.own_words.empty()) return {};
  auto dictionary = PronouncingDictionary::open(setup.model);
  if (!dictionary) return tl::unexpected(Errors{dictionary.error()});
  auto added = dictionary->add_own_words(setup.own_words, setup.own_words_file);
  if (!added) return tl::unexpected(std::move(added).error());
  return {};
}

Status name_clips(const SoundOptions& options, SoundToHear& sound, Context& context) {
  Script script;
  if (!options.script.empty()) {
    PANSLATE_TRY(script, read_script_file(options.script, context.disk));
  }
  if (!options.recipe.empty()) {
    PANSLATE_TRY(sound.recipe_source, read_text(context.disk, options.recipe));
    PANSLATE_TRY(auto recipe, read_recipe(sound.recipe_source, options.recipe));
    sound.named_recipe = std::make_unique<Recipe>(std::move(recipe));
  }
  const std::vector<std::filesystem::path> files(options.media.begin(), options.media.end());
  PANSLATE_TRY(const auto facts, context.footage.probe_all(files, context.progress));
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (!facts[i]) return tl::unexpected(facts[i].error());
    sound.clips.push_back(
        {files[i], facts[i]->duration, !facts[i]->sound.empty(), facts[i]->picture.has_value(), script});
  }
  sound.contents.resize(files.size());
  return {};
}

Checked<void> project_clips(const SoundOptions& options, SoundToHear& sound, Context& context) {
  auto project = load_project(context.disk, options.project);
  if (!project) return tl::unexpected(std::move(project).error());
  sound.project = *std::move(project);
  sound.store = Store(context.disk, options.project);
  const auto footage = measure_footage(*sound.project, context.progress, context.footage, sound.store);
  if (!footage) return tl::unexpected(Errors{footage.error()});
  auto clips = clips_to_hear(*sound.project, *footage);
  if (!options.script.empty()) {
    const auto script = read_script_file(options.script, context.disk);
    if (!script) return tl::unexpected(Errors{script.error()});
    clips = clips_to_hear(*sound.project, *footage, *script);
  }
  std::map<const void*, Script> prepared;  // clips may share a script
  for (auto& [media, clip] : clips) {
    if (clip.script) {
      auto& script = prepared[clip.script.get()];
      if (!script) script = with_readings(*clip.script);
      clip.script = script;
    }
    sound.clips.push_back(std::move(clip));
    sound.contents.push_back(footage->contents[media]);
  }
  sound.recipe_source = sound.project->recipe_source;
  if (!sound.clips.empty()) return {};
  return tl::unexpected(
      Errors{{ErrorCode::Usage, "there is nothing to listen to: no clip has sound that can be read",
              std::nullopt, "add a clip with sound, or the narration, to the project"}});
}

std::string key_of(const ClipToHear& clip) {
  return clip.script ? script_key(*clip.script) : std::string(kDraftKey);
}

std::string made_with(const ClipToHear& clip, const SoundToHear& sound) {
  return clip.script ? sound.setup.own_words : sound.setup.own_words + "\n" + sound.recipe_source;
}

}  // namespace

void add_sound_options(CLI::App& command, SoundOptions& options) {
  command.add_option("project", options.project, "The project file")->type_name("PROJECT.json");
  command.add_option("--script", options.script, "What is spoken: text, a spoken line a line")
      ->type_name("FILE");
  command.add_option("--media", options.media, "Without a project: the clips in which it is spoken")
      ->type_name("CLIP");
  command.add_option("--recipe", options.recipe, "Without a project: the written recipe")->type_name("FILE");
  command.add_option("--words", options.words, "Your own words: in each line one and how it sounds")
      ->type_name("FILE");
}

Checked<SoundToHear> sound_to_hear(const SoundOptions& options, Context& context) {
  if (auto error = usage_error(options)) return tl::unexpected(Errors{*std::move(error)});
  SoundToHear sound;
  if (auto read = read_own_words(options, sound, context); !read)
    return tl::unexpected(Errors{std::move(read).error()});
  if (auto tried = try_own_words(sound.setup); !tried) return tl::unexpected(std::move(tried).error());
  if (options.project.empty()) {
    if (auto named = name_clips(options, sound, context); !named)
      return tl::unexpected(Errors{std::move(named).error()});
    return sound;
  }
  if (auto found = project_clips(options, sound, context); !found)
    return tl::unexpected(std::move(found).error());
  return sound;
}

Result<std::vector<Listening>> hear(SoundToHear& sound, Context& context) {
  sound.setup.recipe = sound.project ? &sound.project->recipe : sound.named_recipe.get();
  std::vector<std::optional<Listening>> all(sound.clips.size());
  std::vector<ClipToHear> clips;
  std::vector<std::size_t> whose;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto& clip = sound.clips[i];
    if (const auto record = sound.store.heard(sound.contents[i], key_of(clip)))
      all[i] = listening_from(*record, clip, made_with(clip, sound));
    if (all[i]) continue;
    clips.push_back(clip);
    whose.push_back(i);
  }
  const auto keep = [&](std::size_t index, const Listening& heard) {
    const auto i = whose[index];
    // What failed, or was read in parts only, may go better the next time.
    const bool whole = heard.status != ListenStatus::Failed && !heard.sound_damaged;
    if (whole && !sound.contents[i].empty())
      sound.store.keep_heard(sound.contents[i], key_of(sound.clips[i]),
                             listening_record(heard, made_with(sound.clips[i], sound)));
  };
  PANSLATE_TRY(auto heard, listen_to(clips, sound.setup, context.footage, context.progress, keep));
  for (std::size_t i = 0; i < heard.size(); ++i) all[whose[i]] = std::move(heard[i]);
  // What is kept is what the sound says, also when the note is taken out of a draft.
  for (std::size_t i = 0; i < all.size(); ++i)
    if (sound.clips[i].script_is_draft) leave_to_a_person(*all[i]);
  std::map<const void*, std::vector<Listening*>> of_script;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (sound.clips[i].script) of_script[sound.clips[i].script.get()].push_back(&*all[i]);
  for (const auto& [script, of_one] : of_script) tell_lines_of_other_clips(of_one);
  std::vector<Listening> out;
  out.reserve(all.size());
  for (auto& one : all) out.push_back(*std::move(one));
  return out;
}

}  // namespace panslate::app
