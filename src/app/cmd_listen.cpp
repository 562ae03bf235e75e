#include <algorithm>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <CLI/CLI.hpp>

#include "panslate/check/listen.h"
#include "panslate/deliver/draft_captions.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/listen_json.h"
#include "panslate/deliver/listen_page.h"
#include "panslate/speech/transcript.h"

#include "app/commands.h"
#include "app/help.h"
#include "app/listen_text.h"
#include "app/output_options.h"
#include "app/sound_to_hear.h"

namespace panslate::app {

namespace {

struct ListenOptions {
  SoundOptions sound;
  OutputOptions output;
};

// "draft-pan.vtt"; with a number where two clips have one name.
std::string draft_name(const Listening& clip, const std::vector<OutputFile>& others) {
  const auto stem = "draft-" + clip.file.stem().string();
  auto name = stem + ".vtt";
  const auto taken = [&](const OutputFile& file) { return file.name == name; };
  for (int number = 2; std::any_of(others.begin(), others.end(), taken); ++number)
    name = stem + "-" + std::to_string(number) + ".vtt";
  return name;
}

// Why a draft that is there is left as it is; empty where the new one may be saved. What a person may have
// put right is hers: only a draft that still says it is one is made anew, and only when asked.
std::string_view why_kept(const std::filesystem::path& target, const std::string& bytes, bool overwrite,
                          const FileSystem& disk) {
  if (!disk.exists(target)) return {};
  const auto present = disk.read(target, kTextFileLimit);
  if (present && *present == bytes) return {};
  if (!present || present->find(kDraftMark) == std::string::npos)
    return "it may have been put right. Move it away for a new draft";
  return overwrite ? "" : "it differs from what was heard now. Add --overwrite for a new draft";
}

std::vector<OutputFile> results_of(const std::vector<Listening>& clips, const ListenOptions& options,
                                   Context& context) {
  if (options.output.out.empty()) return {};
  std::vector<OutputFile> files{
      {"listen.html", listen_page({clips, options.output.out}), std::string(kPageMark)}};
  for (const auto& clip : clips) {
    if (!clip.draft || clip.lines.empty()) continue;
    const auto name = draft_name(clip, files);
    auto bytes = draft_captions(clip);
    const auto why = why_kept(std::filesystem::path(options.output.out) / name, bytes,
                              options.output.overwrite, context.disk);
    if (why.empty())
      files.push_back({name, std::move(bytes)});
    else if (!options.output.quiet)
      context.messages << "kept " << escape_terminal(name) << " as it is: " << why << "\n";
  }
  return files;
}

ExitStatus run_listen(const ListenOptions& options, Context& context) {
  apply(options.output, context);
  auto sound = sound_to_hear(options.sound, context);
  if (!sound) return context.give_up(sound.error());
  const auto clips = hear(*sound, context);
  if (!clips) return context.give_up(clips.error());
  if (const auto saved = save(options.output, results_of(*clips, options, context), context); !saved)
    return context.give_up(saved.error());
  context.progress.clear();
  if (options.output.json)
    context.out << listen_json(*clips);
  else if (!options.output.quiet)
    context.out << listen_text(*clips, context.out_terminal);
  for (const auto& clip : *clips)
    if (clip.wants_attention()) return ExitStatus::Attention;
  return ExitStatus::Ok;
}

}  // namespace

void add_listen(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<ListenOptions>();
  auto* command = root.add_subcommand("listen", "Find in the sound when each line and word is spoken");
  command->group("Verbs");
  set_help(*command,
           "  panslate listen PROJECT.json\n  panslate listen --script FILE --media CLIP\n"
           "  panslate listen --recipe FILE --media CLIP");
  add_sound_options(*command, options->sound);
  add_output_options(*command, options->output, Overwritable::Yes);
  command->footer(
      "A script is plain text, a spoken line in each line of it. Without one, the\n"
      "captions of a project serve as its script; where there is neither, a draft of\n"
      "what is said is written by ear, for you to put right.\n"
      "--out: listen.html, and draft-CLIP.vtt where there is a draft.\n"
      "Ends with 1 when an amount is said otherwise or must be listened to, or a line\n"
      "is never spoken. For example: panslate listen --script pie.txt --media voice.wav");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_listen(*options, context); }; });
}

}  // namespace panslate::app
