#include "panslate/deliver/pickup_sheet.h"

#include <algorithm>
#include <map>
#include <utility>

#include "panslate/base/lasting_key.h"
#include "panslate/base/text.h"
#include "panslate/deliver/escape.h"
#include "panslate/deliver/pickup_words.h"
#include "panslate/plan/shot_list.h"

#include "deliver/shot_words.h"

namespace panslate {

namespace {

// Estimates are no better than this.
constexpr MediaTime kNear = MediaTime::from_ms(300);
constexpr std::string_view kMadeBy = "made by panslate ";

std::string tenths(MediaTime time) {
  const auto tenths = (std::max(time, MediaTime()).to_ms(Round::Nearest) + 50) / 100;
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
}

/// The shots of the shot list that let a line be seen.
class ShotsOfLines {
 public:
  explicit ShotsOfLines(const Recipe& recipe) : list_(make_shot_list(recipe, nullptr)) {
    for (std::size_t i = 0; i < list_.shots.size(); ++i) {
      const auto& shot = list_.shots[i];
      if (shot.framing == Framing::Insert) {
        inserts_.emplace(shot.subject, i);
        insert_setup_ = shot.setup;
      } else if (!shot.line.empty()) {
        of_step_[shot.step].push_back(i);
      }
    }
  }

  [[nodiscard]] std::vector<ShotToFilm> shots_for(const Requirement& requirement) const {
    std::vector<ShotToFilm> shots;
    if (requirement.kind == RequirementKind::Ingredient ||
        requirement.kind == RequirementKind::MethodAmount) {
      const auto amount = requirement.amounts.empty() ? std::string{} : to_text(requirement.amounts.front());
      const auto subject = amount.empty() ? requirement.name : requirement.name + ", " + amount;
      const auto found = inserts_.find(subject);
      if (found != inserts_.end())
        shots.push_back(shot_of(list_.shots[found->second]));
      else
        shots.push_back({insert_setup_, std::string(spelling_of(Framing::Insert)), subject, {}, {}, {}});
      return shots;
    }
    const auto found = of_step_.find(requirement.index);
    if (found != of_step_.end())
      for (const auto i : found->second) shots.push_back(shot_of(list_.shots[i]));
    if (shots.empty()) shots.push_back({{}, "any", collapse_spaces(requirement.text), {}, {}, {}});
    return shots;
  }

 private:
  static ShotToFilm shot_of(const Shot& shot) {
    auto shows = shot.shows;
    if (shows.size() == 1 && shows.front() == shot.subject) shows.clear();
    return {shot.setup, framing_words(shot), collapse_spaces(shot.subject), std::move(shows), {}, {}};
  }

  ShotList list_;
  std::map<std::string, std::size_t> inserts_;
  std::map<std::size_t, std::vector<std::size_t>> of_step_;
  std::string insert_setup_;
};

void add_line(std::vector<LineToRecord>& lines, const Pickup& pickup, std::string place) {
  // Without captions at hand there may be no sentence, only what to do.
  const auto words = pickup.line.empty() ? collapse_spaces(pickup.what) : pickup.line;
  if (!lines.empty()) {
    auto& before = lines.back();
    if (before.words == words && before.at == pickup.at && before.media == pickup.media) {
      before.requirements.push_back(pickup.requirement);
      return;
    }
  }
  LineToRecord line{words,        pickup.instead_of, std::move(place), pickup.at,
                    pickup.media, pickup.room,       pickup.takes,     {pickup.requirement}};
  // A pause holds the lines of a step one after the other.
  if (!lines.empty() && line.room && line.instead_of.empty()) {
    const auto& before = lines.back();
    if (before.instead_of.empty() && before.room && before.takes && before.at == line.at &&
        before.media == line.media)
      line.room = std::max(MediaTime(), *before.room - *before.takes);
  }
  lines.push_back(std::move(line));
}

std::string seconds_field(const std::optional<MediaTime>& time) {
  return time ? tenths(*time) : std::string{};
}

std::string written_lines(const std::vector<std::size_t>& requirements, const CheckReport& report) {
  std::vector<std::string> texts;
  texts.reserve(requirements.size());
  for (const auto r : requirements) texts.push_back(collapse_spaces(report.requirements[r].text));
  return join(texts, "; ");
}

// The heading tells the rows it was written with.
bool is_as_left(std::string_view bytes) {
  const auto line_end = bytes.find("\r\n");
  if (line_end == std::string_view::npos) return false;
  const auto heading = bytes.substr(0, line_end);
  return heading.ends_with(std::string(kMadeBy) + lasting_key({bytes.substr(line_end + 2)}));
}

}  // namespace

PickupSheet pickup_sheet(const std::vector<Pickup>& pickups, const CheckReport& report,
                         const Recipe& recipe) {
  PickupSheet sheet;
  const auto naming = clock_naming(pickups);
  const bool films = std::any_of(pickups.begin(), pickups.end(),
                                 [](const Pickup& p) { return p.kind == Pickup::Kind::Film; });
  std::optional<ShotsOfLines> known_shots;
  if (films) known_shots.emplace(recipe);
  std::map<std::pair<std::string, std::string>, std::size_t> placed;  // set-up and subject
  for (const auto& pickup : pickups) {
    auto place = pickup_place(pickup, naming);
    const MomentToMend moment{
        collapse_spaces(pickup.what), pickup.line, place, pickup.at, pickup.media, pickup.requirement};
    switch (pickup.kind) {
      case Pickup::Kind::Listen:
        sheet.listen.push_back(moment);
        break;
      case Pickup::Kind::CorrectText:
        sheet.texts.push_back(moment);
        break;
      case Pickup::Kind::SayAgain:
        add_line(sheet.lines, pickup, std::move(place));
        break;
      case Pickup::Kind::Film:
        for (auto& shot : known_shots->shots_for(report.requirements[pickup.requirement])) {
          const auto [found, is_new] = placed.try_emplace({shot.setup, shot.subject}, sheet.shots.size());
          if (is_new) {
            shot.place = place;
            sheet.shots.push_back(std::move(shot));
          }
          sheet.shots[found->second].requirements.push_back(pickup.requirement);
        }
        break;
    }
  }
  std::stable_sort(sheet.shots.begin(), sheet.shots.end(),
                   [](const ShotToFilm& a, const ShotToFilm& b) { return a.setup < b.setup; });
  return sheet;
}

std::string fit_in_words(const std::optional<MediaTime>& room, const std::optional<MediaTime>& takes) {
  if (!takes) return room ? tenths(*room) + " s there" : std::string{};
  auto out = "about " + tenths(*takes) + " s to say";
  if (!room) return out;
  out += ", " + tenths(*room) + " s there: ";
  const auto over = *takes - *room;
  if (over <= kNear) return out + "it fits";
  return out + "hold the picture " + tenths(over) + " s longer";
}

OutputFile pickups_csv(const PickupSheet& sheet, const CheckReport& report) {
  std::string rows;
  std::size_t number = 0;
  const auto add = [&](std::vector<std::string> fields) {
    fields.insert(fields.begin(), std::to_string(++number));
    fields.emplace_back();
    rows += csv_row(fields);
  };
  for (const auto& one : sheet.listen)
    add({"listen", one.place, one.what, {}, {}, {}, {}, {}, {}, written_lines({one.requirement}, report)});
  for (const auto& line : sheet.lines)
    add({"say",
         line.place,
         line.words,
         line.instead_of,
         seconds_field(line.room),
         seconds_field(line.takes),
         {},
         {},
         {},
         written_lines(line.requirements, report)});
  for (const auto& shot : sheet.shots)
    add({"film",
         shot.place,
         shot.subject,
         {},
         {},
         {},
         shot.setup,
         shot.framing,
         join(shot.shows, "; "),
         written_lines(shot.requirements, report)});
  for (const auto& one : sheet.texts)
    add({"put the text right",
         one.place,
         one.text,
         {},
         {},
         {},
         {},
         {},
         {},
         written_lines({one.requirement}, report)});
  auto heading = csv_row({"number", "do", "at", "what to say or film", "instead of", "seconds there",
                          "seconds to say", "set-up", "framing", "must be visible", "written line",
                          std::string(kMadeBy) + lasting_key({rows})});
  return {"pickups.csv", std::move(heading) + rows, {}, is_as_left};
}

}  // namespace panslate
