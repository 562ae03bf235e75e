#include "panslate/desk/accept_parts.h"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "desk/accept_edits.h"
#include "desk/decision_book.h"
#include "desk/part_entry.h"
#include "desk/requests.h"

namespace panslate {

namespace {

using nlohmann::ordered_json;

constexpr std::array<std::string_view, 4> kNamesOfAWhole{"id", "clip", "in", "out"};

tl::unexpected<Error> stands_otherwise(std::string what) {
  return fail(ErrorCode::Exists, std::move(what) + "; nothing was written", std::nullopt,
              "run panslate log once more: only what was changed is read again");
}

// What is said in the clip, as far as proposals are made from it.
bool says_the_same(const Project& then, const Project& now, const std::string& clip) {
  const auto of_clip = [&](const Project& project) {
    std::vector<const Transcript*> out;
    for (const auto& captions : project.captions)
      if (captions.clock == clip) out.push_back(&captions.text);
    return out;
  };
  const auto same_word = [](const Word& a, const Word& b) { return a.text == b.text && a.when == b.when; };
  const auto before = of_clip(then);
  const auto behind = of_clip(now);
  return std::equal(before.begin(), before.end(), behind.begin(), behind.end(),
                    [&](const Transcript* a, const Transcript* b) {
                      return a->draft == b->draft && std::equal(a->words.begin(), a->words.end(),
                                                                b->words.begin(), b->words.end(), same_word);
                    });
}

/// The proposals as edits of the file as it stands now.
class Accepting {
 public:
  Accepting(const DeskFilm& film, const ProjectText& text, const ProposedFrom& seen)
      : project_(*film.project), footage_(*film.footage), text_(text), seen_(seen) {}

  Result<DecisionBook::Edits> edits(const PartProposals& proposals) {
    if (text_.count("segments") != project_.segments.size())
      return stands_otherwise("the project file was changed just now");
    for (std::size_t i = 0; i < proposals.parts.size(); ++i) {
      PANSLATE_TRY(const bool is_written, add(proposals.parts[i]));
      if (is_written)
        accepted_.written.push_back(i);
      else
        ++accepted_.held_back;
    }
    // From the last to the first, so that no index moves before it is used.
    for (auto i = gives_way_.rbegin(); i != gives_way_.rend(); ++i)
      edits_.push_back({"segments", {}, *i, text_.entry("segments", *i), std::nullopt, false});
    accepted_.gave_way = gives_way_.size();
    return std::move(edits_);
  }
  [[nodiscard]] const AcceptedParts& accepted() const { return accepted_; }

 private:
  // Whether it is written; else something of hers stands there.
  Result<bool> add(const ProposedPart& part) {
    const auto& clip = seen_.project.media[part.media];
    const auto media = std::find_if(project_.media.begin(), project_.media.end(), [&](const MediaEntry& one) {
      return one.id == clip.id && one.file == clip.file;
    });
    if (media == project_.media.end())
      return stands_otherwise("this clip stands otherwise in the project now: " + clip.id);
    const auto step =
        std::find_if(project_.recipe.steps.begin(), project_.recipe.steps.end(),
                     [&](const Step& one) { return one.key == seen_.project.recipe.steps[part.step].key; });
    if (step == project_.recipe.steps.end()) return stands_otherwise("the recipe has other steps now");
    const auto index = static_cast<std::size_t>(media - project_.media.begin());
    const auto& facts = footage_.clips[index];
    if (!facts) return stands_otherwise("this clip cannot be read any more: " + clip.id);
    if (footage_.contents[index] != seen_.contents[part.media])
      return stands_otherwise("another recording or export took the place of this clip meanwhile: " +
                              clip.id);
    if (!says_the_same(seen_.project, project_, clip.id))
      return stands_otherwise("the captions of this clip were changed meanwhile: " + clip.id);
    std::vector<std::size_t> whole;
    for (std::size_t i = 0; i < project_.segments.size(); ++i) {
      const auto& segment = project_.segments[i];
      if (segment.media != index || !segment.range.overlaps(part.range)) continue;
      if (!is_unmarked(segment, facts->duration))
        return stands_otherwise("a part of this clip was marked meanwhile: " + segment.id);
      if (!says_nothing(i)) return false;
      whole.push_back(i);
    }
    gives_way_.insert(whole.begin(), whole.end());
    const auto id = new_part_id(project_, clip.id, ids_);
    ids_.insert(id);
    const ordered_json entry{
        {"id", id},
        {"clip", clip.id},
        {"in", part_time(part.range.begin)},
        {"out", part_time(part.range.end)},
        {"step",
         name_of_step(project_.recipe, static_cast<std::size_t>(step - project_.recipe.steps.begin()))}};
    edits_.push_back({"segments",
                      {},
                      project_.segments.size() + accepted_.written.size(),
                      std::nullopt,
                      line_of_json(entry),
                      false});
    return true;
  }

  // Names that panslate does not know are hers: such a part stays.
  [[nodiscard]] bool says_nothing(std::size_t segment) const {
    const auto entry =
        ordered_json::parse(text_.entry("segments", segment), nullptr, /*allow_exceptions=*/false);
    if (!entry.is_object()) return false;
    return std::all_of(entry.items().begin(), entry.items().end(), [](const auto& member) {
      return std::find(kNamesOfAWhole.begin(), kNamesOfAWhole.end(), member.key()) != kNamesOfAWhole.end();
    });
  }

  const Project& project_;
  const Footage& footage_;
  const ProjectText& text_;
  const ProposedFrom& seen_;
  DecisionBook::Edits edits_;
  std::set<std::size_t> gives_way_;
  std::set<std::string> ids_;
  AcceptedParts accepted_;
};

}  // namespace

Result<AcceptEdits> accept_edits(const PartProposals& proposals, const ProposedFrom& seen,
                                 const DeskFilm& film, const ProjectText& text) {
  Accepting accepting(film, text, seen);
  PANSLATE_TRY(auto edits, accepting.edits(proposals));
  return AcceptEdits{std::move(edits), accepting.accepted()};
}

Checked<AcceptedParts> accept_parts(FileSystem& disk, const std::filesystem::path& file, DeskWork& work,
                                    const ProposedFrom& seen, const PartProposals& proposals) {
  AcceptedParts accepted;
  if (proposals.parts.empty()) return accepted;
  DecisionBook book(disk, file, work);
  const auto saved =
      book.decide("the proposed parts of clips",
                  [&](const DeskFilm& film, const ProjectText& text) -> Result<DecisionBook::Edits> {
                    PANSLATE_TRY(auto made, accept_edits(proposals, seen, film, text));
                    accepted = std::move(made.accepted);
                    return std::move(made.edits);
                  });
  if (!saved) return tl::unexpected(saved.error());
  return accepted;
}

}  // namespace panslate
