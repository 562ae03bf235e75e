#include "app/save_corrected.h"

#include <optional>
#include <utility>
#include <vector>

#include "panslate/deliver/escape.h"
#include "panslate/speech/corrected_captions.h"

namespace panslate::app {

namespace {

std::vector<TimedText> said_in(const Film& film) {
  if (film.project) return check_input_of(*film.project, film.footage).said;
  return {{&*film.captions, {}}};
}

Status refuse_to_replace(const FileSystem& disk, const std::filesystem::path& target,
                         const std::filesystem::path& read, const std::string& bytes) {
  if (!disk.exists(target)) return {};
  if (disk.is_directory(target))
    return fail(ErrorCode::Exists, "a folder stands where this file would be saved", Place{target},
                "choose another name with --corrected");
  PANSLATE_TRY(const auto present, disk.read(target, kTextFileLimit));
  if (present == bytes) return {};
  if (target.lexically_normal() == read.lexically_normal())
    return fail(ErrorCode::Exists, "these are the captions that were read", Place{target},
                "choose another name with --corrected, or add --overwrite to replace them");
  return fail(ErrorCode::Exists, "this file is there already, and may have been changed since", Place{target},
              "choose another name with --corrected, or add --overwrite to replace it");
}

std::string counted(std::size_t count, std::string_view one, std::string_view several) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : several);
}

}  // namespace

Status save_corrected(const std::string& file, const OutputOptions& output, const Film& film,
                      const CheckReport& report, Context& context) {
  if (file.empty()) return {};
  if (context.progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
  const auto said = said_in(film);
  if (said.size() != 1)
    return fail(ErrorCode::Usage,
                said.empty() ? "there are no captions to put right"
                             : "there are captions of " + std::to_string(said.size()) +
                                   " clips, and --corrected puts one file right",
                std::nullopt, "check one of them alone with --recipe FILE --captions FILE --corrected FILE");
  const auto& transcript = *said.front().transcript;
  PANSLATE_TRY(const auto bytes, context.disk.read(transcript.file, kTextFileLimit));
  std::vector<WordChange> changes;
  std::vector<const CaptionCorrection*> made;
  for (const auto& correction : report.corrections)
    if (correction.sure) {
      changes.push_back(correction.change);
      made.push_back(&correction);
    }
  const auto corrected = correct_captions(bytes, transcript, changes);
  if (!output.overwrite)
    PANSLATE_CHECK(refuse_to_replace(context.disk, file, transcript.file, corrected.bytes));
  PANSLATE_CHECK(save_atomically(context.disk, file, corrected.bytes));
  if (output.quiet) return {};
  context.progress.clear();
  const auto count = changes.size() - corrected.left_out.size();
  context.messages << "saved " << escape_terminal(file) << ", "
                   << (count == 0 ? "with every word as it was"
                                  : "with " + counted(count, "word put right", "words put right"))
                   << "\n";
  for (const auto index : corrected.left_out)
    context.messages << "left as it is: \"" << escape_terminal(made[index]->heard)
                     << "\", meant: " << escape_terminal(made[index]->meant) << "\n";
  return {};
}

}  // namespace panslate::app
