#include "panslate/desk/accept_parts.h"

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "desk/decision_book.h"
#include "desk/part_entry.h"
#include "desk/requests.h"

namespace panslate {

namespace {

using nlohmann::ordered_json;

constexpr std::array<std::string_view, 4> kNamesOfAWhole{"id", "clip", "in", "out"};

/// The proposals as edits of the file as it stands now.
class Accepting {
 public:
  Accepting(const DeskFilm& film, const ProjectText& text, const Project& seen)
      : project_(*film.project), footage_(*film.footage), text_(text), seen_(seen) {}

  Result<DecisionBook::Edits> edits(const PartProposals& proposals) {
    if (text_.count("segments") != project_.segments.size())
      return seen_otherwise("the project file was changed just now");
    for (const auto& part : proposals.parts) {
      PANSLATE_CHECK(add(part));
    }
    // From the last to the first, so that no index moves before it is used.
    for (auto i = gives_way_.rbegin(); i != gives_way_.rend(); ++i)
      edits_.push_back({"segments", {}, *i, text_.entry("segments", *i), std::nullopt, false});
    accepted_.gave_way = gives_way_.size();
    return std::move(edits_);
  }
  [[nodiscard]] const AcceptedParts& accepted() const { return accepted_; }

 private:
  Status add(const ProposedPart& part) {
    const auto& clip = seen_.media[part.media];
    const auto media = std::find_if(project_.media.begin(), project_.media.end(), [&](const MediaEntry& one) {
      return one.id == clip.id && one.file == clip.file;
    });
    if (media == project_.media.end())
      return seen_otherwise("this clip stands otherwise in the project now: " + clip.id);
    const auto step =
        std::find_if(project_.recipe.steps.begin(), project_.recipe.steps.end(),
                     [&](const Step& one) { return one.key == seen_.recipe.steps[part.step].key; });
    if (step == project_.recipe.steps.end()) return seen_otherwise("the recipe has other steps now");
    const auto index = static_cast<std::size_t>(media - project_.media.begin());
    const auto& facts = footage_.clips[index];
    std::vector<std::size_t> whole;
    for (std::size_t i = 0; i < project_.segments.size(); ++i) {
      const auto& segment = project_.segments[i];
      if (segment.media != index || !segment.range.overlaps(part.range)) continue;
      if (!facts || !is_unmarked(segment, facts->duration))
        return seen_otherwise("a part of this clip was marked meanwhile: " + segment.id);
      if (!says_nothing(i)) {
        ++accepted_.held_back;
        return {};
      }
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
                      project_.segments.size() + accepted_.written,
                      std::nullopt,
                      line_of_json(entry),
                      false});
    ++accepted_.written;
    return {};
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
  const Project& seen_;
  DecisionBook::Edits edits_;
  std::set<std::size_t> gives_way_;
  std::set<std::string> ids_;
  AcceptedParts accepted_;
};

}  // namespace

Checked<AcceptedParts> accept_parts(FileSystem& disk, const std::filesystem::path& file, DeskWork& work,
                                    const Project& seen, const PartProposals& proposals) {
  AcceptedParts accepted;
  if (proposals.parts.empty()) return accepted;
  DecisionBook book(disk, file, work);
  const auto saved =
      book.decide("the proposed parts of clips", [&](const DeskFilm& film, const ProjectText& text) {
        Accepting accepting(film, text, seen);
        auto edits = accepting.edits(proposals);
        accepted = accepting.accepted();
        return edits;
      });
  if (!saved) return tl::unexpected(saved.error());
  return accepted;
}

}  // namespace panslate
