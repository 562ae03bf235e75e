#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "panslate/check/propose_parts.h"
#include "panslate/deliver/check_digest.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/footage_log_files.h"
#include "panslate/desk/accept_parts.h"
#include "panslate/desk/desk_lock.h"
#include "panslate/project/log_footage.h"

#include "app/checked_films.h"
#include "app/clips_to_hear.h"
#include "app/commands.h"
#include "app/footage_to_log.h"
#include "app/heard_words.h"
#include "app/help.h"
#include "app/log_text.h"
#include "app/output_options.h"

namespace panslate::app {

namespace {

struct LogOptions {
  std::vector<std::string> named;
  bool accept = false;  // write the proposed parts into the project
  OutputOptions output;
};

std::vector<OutputFile> results_of(const FootageLog& log, const LoggedProposals* proposals,
                                   const LogOptions& options) {
  if (options.output.out.empty()) return {};
  std::vector<OutputFile> files{
      {"contact-sheet.html", contact_sheet(log, options.output.out, proposals), std::string(kPageMark)},
      {"log.json", footage_log_json(log, Stills::Saved, proposals), R"("panslate_log": )"},
      {"log.csv", footage_log_csv(log), std::string(kFootageCsvMark)}};
  return files;
}

// One line for all of them.
Status save_stills(const FootageLog& log, const LogOptions& options, Context& context) {
  if (options.output.out.empty()) return {};
  const auto stills = footage_stills(log);
  PANSLATE_CHECK(save_outputs(context.disk, options.output.out, stills, Replace::Never));
  if (!options.output.quiet && !stills.empty())
    context.messages << "saved " << count_in_words(stills.size(), "still", "stills") << " beside it\n";
  return {};
}

ExitStatus status_of(const FootageLog& log) {
  const auto readable = [](const LoggedClip& clip) { return clip.log.has_value(); };
  if (std::none_of(log.clips.begin(), log.clips.end(), readable)) return ExitStatus::Failed;
  const auto sound = [](const LoggedClip& clip) { return clip.log && clip.log->faults.empty(); };
  return std::all_of(log.clips.begin(), log.clips.end(), sound) ? ExitStatus::Ok : ExitStatus::Attention;
}

PartProposals proposals_for(const FootageToLog& footage, const FootageLog& log) {
  std::vector<const ClipLog*> logs;
  for (const auto file : footage.file_of_media)
    logs.push_back(log.clips[file].log ? &*log.clips[file].log : nullptr);
  return propose_parts(*footage.project, logs);
}

// Asked before what was heard stands among the captions.
bool listening_helps(const std::vector<ProjectClipToHear>& to_hear, const PartProposals& proposals) {
  return std::any_of(to_hear.begin(), to_hear.end(), [&](const ProjectClipToHear& clip) {
    const auto& silent = proposals.without_words;
    return std::find(silent.begin(), silent.end(), clip.media) != silent.end();
  });
}

Checked<AcceptedParts> accept(const FootageToLog& footage, const FootageLog& log,
                              const PartProposals& proposals, Context& context) {
  std::vector<std::string> contents;
  contents.reserve(footage.file_of_media.size());
  for (const auto file : footage.file_of_media) contents.push_back(log.clips[file].content);
  const auto& file = footage.project->file;
  CheckedFilms films(file.string(), context);
  return accept_parts(context.disk, file, films, {*footage.project, contents}, proposals);
}

void tell_accepted(const AcceptedParts& accepted, const FootageToLog& footage, Context& context) {
  context.progress.clear();
  context.messages << (accepted.written.empty()
                           ? "nothing to write into "
                           : "wrote " + count_in_words(accepted.written.size(), "part", "parts") + " into ")
                   << escape_terminal(footage.project->file.filename().string());
  if (accepted.gave_way > 0)
    context.messages << ", in the place of "
                     << count_in_words(accepted.gave_way, "part that was a whole clip without a step",
                                       "parts that were whole clips without a step");
  context.messages << (accepted.written.empty() ? "\n" : "; the desk can take them back\n");
  if (accepted.held_back > 0)
    context.messages << "left out " << count_in_words(accepted.held_back, "proposal", "proposals")
                     << " for clips whose whole is a part with something of your own in it\n";
}

// What is told of them then: those that were written, and that the others lie over parts of hers.
void leave_written(PartProposals& proposals, const AcceptedParts& accepted) {
  std::vector<ProposedPart> written;
  written.reserve(accepted.written.size());
  for (const auto part : accepted.written) written.push_back(std::move(proposals.parts[part]));
  proposals.parts = std::move(written);
  proposals.marked += accepted.held_back;
}

ExitStatus run_log(const LogOptions& options, Context& context) {
  apply(options.output, context);
  auto footage = footage_to_log(options.named, context);
  if (!footage) return context.give_up(footage.error());
  if (options.accept && !footage->project)
    return context.give_up(Error{ErrorCode::Usage, "--accept is for a project", std::nullopt,
                                 "name the project file: panslate log PROJECT.json --accept"});
  if (options.accept && !footage->footage.mistakes.empty()) return context.give_up(footage->footage.mistakes);
  // A desk that has the project open is told of before everything is read.
  Descriptor desk;
  if (options.accept) {
    auto lock = lock_desk(footage->project->file);
    if (!lock) return context.give_up(lock.error());
    desk = *std::move(lock);
  }
  auto clips = log_footage(footage->files, context.footage, footage->store, context.progress);
  if (!clips) return context.give_up(clips.error());
  const auto compared = compare_clips(*std::move(clips), context.progress);
  if (!compared) return context.give_up(compared.error());
  const auto& log = *compared;
  PartProposals proposals;
  std::optional<LoggedProposals> logged;
  if (footage->project) {
    const auto to_hear = clips_to_hear(*footage->project, footage->footage);
    const auto heard = use_listening(*footage->project, footage->footage, footage->store);
    context.progress.clear();
    for (const auto& changed : heard.warnings) context.messages << escape_terminal(changed.message) << "\n";
    proposals = proposals_for(*footage, log);
    logged.emplace(LoggedProposals{*footage->project, proposals, footage->file_of_media,
                                   listening_helps(to_hear, proposals)});
  }
  // First, so that what is told and saved calls the parts what they are.
  Checked<AcceptedParts> accepted;
  if (options.accept) {
    if (context.progress.cancelled()) return context.give_up(Error{ErrorCode::Cancelled, "stopped"});
    accepted = accept(*footage, log, proposals, context);
    if (accepted) {
      leave_written(proposals, *accepted);
      logged->written = true;
      if (!options.output.quiet) tell_accepted(*accepted, *footage, context);
    }
  }
  const auto* told = logged ? &*logged : nullptr;
  if (const auto saved = save(options.output, results_of(log, told, options), context); !saved)
    return context.give_up(saved.error());
  if (const auto saved = save_stills(log, options, context); !saved) return context.give_up(saved.error());
  if (context.progress.cancelled()) return context.give_up(Error{ErrorCode::Cancelled, "stopped"});
  context.progress.clear();
  if (options.output.json)
    context.out << footage_log_json(log, options.output.out.empty() ? Stills::NotSaved : Stills::Saved, told);
  else if (!options.output.quiet)
    context.out << log_text(log, context.out_terminal, told);
  if (!accepted) return context.give_up(accepted.error());
  const bool can_accept = footage->footage.mistakes.empty();
  if (!options.accept && can_accept && !proposals.parts.empty() && !options.output.json &&
      !options.output.quiet)
    context.messages << "--accept writes the proposed parts into "
                     << escape_terminal(footage->project->file.filename().string()) << "\n";
  return status_of(log);
}

}  // namespace

void add_log(CLI::App& root, Action& chosen) {
  auto options = std::make_shared<LogOptions>();
  auto* command = root.add_subcommand("log", "Read all footage once: shots, sound, faults, stills");
  command->group("Verbs");
  set_help(*command, "  panslate log PROJECT.json\n  panslate log FOLDER\n  panslate log CLIP...");
  command->add_option("named", options->named, "A project file, a folder with clips, or clips")
      ->type_name("PROJECT|FOLDER|CLIP");
  command->add_flag("--accept", options->accept, "Write the proposed parts into the project file");
  add_output_options(*command, options->output, Overwritable::No);
  command->footer(
      "Each clip is decoded once, from start to end; what was found is kept in .panslate\n"
      "beside the project (or the clips), so that the next time only what changed is\n"
      "read. Ctrl-C keeps the clips that are done.\n"
      "Of a project's clips with words (captions, or what panslate listen found), parts\n"
      "are proposed, each with its step of the recipe. What you marked stays.\n"
      "--out: contact-sheet.html, log.json, log.csv, and a still of each shot.\n"
      "Ends with 1 when something is wrong with a clip, 3 when none can be read.\n"
      "For example: panslate log footage --out footage-log");
  command->callback(
      [options, &chosen] { chosen = [options](Context& context) { return run_log(*options, context); }; });
}

}  // namespace panslate::app
