// Proposals for parts of clips: where they are cut, which step they are tied to, what is left out.
#include "panslate/check/propose_parts.h"

#include <filesystem>
#include <iostream>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "panslate/base/file_system.h"
#include "panslate/base/text.h"

namespace panslate {
namespace {

namespace fs = std::filesystem;

MediaTime at(double seconds) {
  return MediaTime::from_ms(static_cast<std::int64_t>(seconds * 1000 + 0.5));
}
double seconds(MediaTime time) {
  return time.seconds();
}

using Ranges = std::vector<std::pair<double, double>>;

ClipLog log_of(double length, const Ranges& speech, const std::vector<double>& shots = {}) {
  ClipLog log;
  log.facts.duration = at(length);
  for (const auto& [begin, end] : speech) log.speech.push_back({at(begin), at(end)});
  log.shots.push_back({});
  for (const auto start : shots) {
    log.shots.push_back({});
    log.shots.back().when = {at(start), at(length)};
    log.shots.back().into = ShotStart::Cut;
  }
  return log;
}

Project project_of(const Recipe& recipe) {
  Project project;
  project.recipe = recipe;
  project.media.push_back({"pan", "pan.mp4", MediaRole::Camera, {}, {}});
  return project;
}

void add_words(Project& project, const Transcript& words) {
  project.captions.push_back({words, "pan", {}});
}

PartProposals proposals_for(const Project& project, const ClipLog& log) {
  const ClipLog* logs[] = {&log};
  return propose_parts(project, logs);
}

// ---- talks whose steps a person told apart ----

struct Labelled {
  double begin = 0;
  double end = 0;
  int step = 0;
};

std::optional<fs::path> file_of(const fs::path& folder, const std::string& stem) {
  for (const auto* ending : {".vtt", ".srt", ".md", ".txt"})
    if (fs::exists(folder / (stem + ending))) return folder / (stem + ending);
  return std::nullopt;
}

int step_at(const std::vector<Labelled>& truth, const TimeRange& range) {
  std::map<int, double> share;
  for (const auto& one : truth)
    share[one.step] += std::max(0.0, std::min(one.end, seconds(range.end)) - std::max(one.begin, seconds(range.begin)));
  return std::max_element(share.begin(), share.end(),
                          [](const auto& a, const auto& b) { return a.second < b.second; })
      ->first;
}

TEST(PartsOfTalks, AreTiedToTheStepThatAPersonHeardThere) {
  const fs::path top = PANSLATE_SOURCE_DIR;
  const auto table = read_text(real_file_system(), top / "tests/data/talk_by_step.tsv");
  ASSERT_TRUE(table);
  std::map<std::string, std::vector<Labelled>> talks;
  for (const auto& line : split_lines(*table)) {
    if (line.text.empty() || line.text.front() == '#') continue;
    const auto fields = split(line.text, '\t');
    ASSERT_EQ(fields.size(), 4U) << line.text;
    talks[fields[0]].push_back({std::stod(fields[1]), std::stod(fields[2]), std::stoi(fields[3])});
  }
  ASSERT_EQ(talks.size(), 6U);
  double in_parts = 0;
  double in_right_parts = 0;
  int right = 0;
  int wrong = 0;
  int steps = 0;
  int steps_found = 0;
  for (const auto& [folder, truth] : talks) {
    const auto recipe_file = file_of(top / folder, "recipe");
    const auto words_file = file_of(top / folder, "captions");
    ASSERT_TRUE(recipe_file && words_file) << folder;
    const auto recipe = read_recipe(*read_text(real_file_system(), *recipe_file), *recipe_file);
    const auto words = read_captions(*read_text(real_file_system(), *words_file), *words_file);
    ASSERT_TRUE(recipe && words) << folder;
    auto project = project_of(*recipe);
    add_words(project, *words);
    Ranges speech;
    for (const auto& cue : words->cues) speech.emplace_back(seconds(cue.when.begin), seconds(cue.when.end));
    const auto found = proposals_for(project, log_of(truth.back().end, speech));
    std::map<int, int> by_step;
    std::cout << folder << ": left out " << found.untold << " untold, " << found.between_steps << " between\n";
    for (const auto& part : found.parts) {
      const auto step = static_cast<int>(part.step) + 1;
      const auto heard = step_at(truth, part.range);
      ++(step == heard ? right : wrong);
      in_parts += seconds(part.range.duration());
      for (const auto& one : truth)
        if (one.step == step)
          in_right_parts += std::max(0.0, std::min(one.end, seconds(part.range.end)) -
                                              std::max(one.begin, seconds(part.range.begin)));
      if (step == heard) ++by_step[step];
      std::cout << (step == heard ? "  " : "! ") << seconds(part.range.begin) << " to " << seconds(part.range.end)
                << " step " << step << " (" << heard << "): " << part.said.text << "\n";
    }
    std::map<int, int> wanted;
    for (const auto& one : truth)
      if (one.step > 0) ++wanted[one.step];
    steps += static_cast<int>(wanted.size());
    steps_found += static_cast<int>(by_step.size());
  }
  std::cout << right << " parts tied to the right step, " << wrong << " to another; " << steps_found << " of " << steps
            << " steps have one; " << in_right_parts << " of " << in_parts << " s in them are of their step\n";
}

}  // namespace
}  // namespace panslate
