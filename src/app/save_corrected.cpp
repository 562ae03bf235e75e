#include "app/save_corrected.h"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <utility>
#include <vector>

#include "panslate/deliver/escape.h"
#include "panslate/deliver/output_folder.h"
#include "panslate/speech/corrected_captions.h"

namespace panslate::app {

namespace {

std::vector<TimedText> said_in(const Film& film) {
  if (film.project) return check_input_of(*film.project, film.footage).said;
  return {{&*film.captions, {}}};
}

std::string counted(std::size_t count, std::string_view one, std::string_view several) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : several);
}

}  // namespace

Result<CorrectedFile> correct(const std::string& file, const OutputOptions& output, const Film& film,
                              const CheckReport& report, const Context& context) {
  CorrectedFile result;
  if (file.empty()) return result;
  result.file = file;
  const auto said = said_in(film);
  if (said.size() != 1)
    return fail(ErrorCode::Usage,
                said.empty() ? "there are no captions to put right"
                             : "there are captions of " + std::to_string(said.size()) +
                                   " clips, and --corrected puts one file right",
                std::nullopt, "check one of them alone with --recipe FILE --captions FILE --corrected FILE");
  const auto& transcript = *said.front().transcript;
  if (film.project && std::any_of(film.project->media.begin(), film.project->media.end(),
                                  [&](const MediaEntry& media) { return media.file == transcript.file; }))
    return fail(ErrorCode::Usage, "the words were taken from the sound: there are no captions to put right",
                std::nullopt, "for a draft to put right: panslate listen PROJECT.json --out DIR");
  PANSLATE_TRY(const auto bytes, context.disk.read(transcript.file, kTextFileLimit));
  std::vector<WordChange> changes;
  std::vector<const CaptionCorrection*> made;
  for (const auto& correction : report.corrections)
    if (correction.sure) {
      changes.push_back(correction.change);
      made.push_back(&correction);
    }
  // Read anew, they must still say what was checked: another text would be cut in the wrong places.
  PANSLATE_TRY(const auto again, read_captions(bytes, transcript.file));
  const bool same =
      std::equal(again.words.begin(), again.words.end(), transcript.words.begin(), transcript.words.end(),
                 [](const Word& a, const Word& b) { return a.text == b.text; });
  if (!same)
    return fail(ErrorCode::Exists, "these captions were changed while they were checked",
                Place{transcript.file}, "run the check again");
  auto corrected = correct_captions(bytes, transcript, changes);
  const std::filesystem::path target(file);
  const auto replace = output.overwrite ? Replace::WhenAsked : Replace::Never;
  if (replace == Replace::Never && target.lexically_normal() == transcript.file.lexically_normal() &&
      corrected.bytes != bytes)
    return fail(ErrorCode::Exists, "these are the captions that were read", Place{target},
                "choose another name with --corrected, or add --overwrite to replace them");
  PANSLATE_TRY(result.must_be_written, must_be_written(context.disk, target, corrected.bytes, replace,
                                                       "choose another name with --corrected"));
  result.bytes = std::move(corrected.bytes);
  result.put_right = changes.size() - corrected.left_out.size();
  for (const auto index : corrected.left_out) result.left_out.push_back(*made[index]);
  return result;
}

Status save_corrected(const CorrectedFile& corrected, const OutputOptions& output, Context& context) {
  if (corrected.file.empty()) return {};
  if (context.progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped");
  if (corrected.must_be_written)
    PANSLATE_CHECK(save_atomically(context.disk, corrected.file, corrected.bytes));
  if (output.quiet) return {};
  context.progress.clear();
  context.messages << "saved " << escape_terminal(corrected.file) << ", "
                   << (corrected.put_right == 0
                           ? "with every word as it was"
                           : "with " + counted(corrected.put_right, "word put right", "words put right"))
                   << "\n";
  for (const auto& left : corrected.left_out)
    context.messages << "left as it is: \"" << escape_terminal(left.heard)
                     << "\", meant: " << escape_terminal(left.meant) << "\n";
  return {};
}

}  // namespace panslate::app
