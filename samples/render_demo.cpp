// Makes the footage of the demo project: draws the clips, speaks the narration, and cuts the edit as the
// project says. Films that are there and up to date are left alone.
//
//   render_demo projects/demo

#include <cstdio>
#include <filesystem>
#include <iostream>
#include <map>
#include <string>
#include <string_view>

#include <unistd.h>

#include "panslate/base/file_system.h"
#include "panslate/base/text.h"
#include "panslate/media/clip_facts.h"
#include "panslate/project/project.h"

#include "demo_films.h"

namespace panslate::samples {

namespace {

// One line that is drawn over, on a terminal only.
class Line final : public Progress {
 public:
  void step(std::string_view phase, std::int64_t done, std::int64_t total) override {
    if (!terminal_ || total <= 0) return;
    std::fprintf(stderr, "\r\033[K%.*s: %d %%", static_cast<int>(phase.size()), phase.data(),
                 static_cast<int>(done * 100 / total));
    drawn_ = true;
  }
  [[nodiscard]] bool cancelled() const noexcept override { return false; }
  void clear() {
    if (drawn_) std::fprintf(stderr, "\r\033[K");
    drawn_ = false;
  }

 private:
  bool terminal_ = ::isatty(STDERR_FILENO) == 1;
  bool drawn_ = false;
};

// Renders what is missing or stale, and remembers what each film was made from.
class Footage {
 public:
  explicit Footage(std::filesystem::path folder) : folder_(std::move(folder)) {}

  Status open() {
    PANSLATE_CHECK(disk_.create_directories(folder_));
    const auto notes = read_text(disk_, notes_file());
    if (!notes) return {};  // nothing made so far
    for (const auto& line : split(*notes, '\n'))
      if (const auto space = line.find(' '); space != std::string::npos)
        made_from_[line.substr(space + 1)] = line.substr(0, space);
    return {};
  }

  Status make(const RenderSpec& spec, const std::string& name) {
    const auto key = key_of(spec);
    if (made_from_[name] == key && disk_.exists(folder_ / name)) return {};
    if (made_ == 0) std::cout << "Making the demo footage ..." << std::endl;
    ++made_;
    const auto rendered = render_film(spec, folder_ / name, line_);
    line_.clear();
    PANSLATE_CHECK(rendered);
    made_from_[name] = key;
    std::string notes;
    for (const auto& [file, from] : made_from_)
      notes.append(from).append(1, ' ').append(file).append(1, '\n');
    return save_atomically(disk_, notes_file(), notes);
  }

 private:
  [[nodiscard]] std::filesystem::path notes_file() const { return folder_ / "made-from.txt"; }

  FileSystem& disk_ = real_file_system();
  std::filesystem::path folder_;
  std::map<std::string, std::string> made_from_;
  int made_ = 0;
  Line line_;
};

Status narration_fits(const std::filesystem::path& file, const Transcript& captions) {
  PANSLATE_TRY(const auto facts, probe_clip(file));
  const auto over = facts.duration - narration_length(captions);
  if (over < MediaTime::from_ms(50)) return {};
  return fail(ErrorCode::Malformed,
              "a spoken line is " + std::to_string(over.to_ms(Round::Up)) + " ms too long for its place",
              Place{captions.file}, "move the cues after it in captions.vtt");
}

std::vector<Error> make_demo(const std::filesystem::path& folder) {
  auto project = load_project(real_file_system(), folder / "demo.json");
  if (!project) return std::move(project).error();
  const auto name_of = [&](std::string_view id) {
    const auto* entry = project->find_media(id);
    return entry == nullptr ? std::string(id) + ".mp4" : entry->file.filename().string();
  };
  const auto run = [&]() -> Status {
    Footage footage(folder / "footage");
    PANSLATE_CHECK(footage.open());
    for (const auto& scene : demo_scenes())
      PANSLATE_CHECK(footage.make(camera_film(scene), name_of(scene.clip)));
    if (project->captions.empty())
      return fail(ErrorCode::Malformed, "there are no captions to speak", Place{project->file});
    const auto& captions = project->captions.front().text;
    PANSLATE_CHECK(footage.make(narration(captions), "voice.wav"));
    PANSLATE_CHECK(narration_fits(folder / "footage" / "voice.wav", captions));
    NoProgress quiet;
    // The clips are there now: in and out points written as timecode become times.
    PANSLATE_TRY(const auto facts, measure_footage(*project, quiet));
    if (!facts.mistakes.empty()) return tl::unexpected(facts.mistakes.front());
    PANSLATE_TRY(const auto edit, edit_film(*project));
    return footage.make(edit, name_of("edit"));
  };
  if (auto status = run(); !status) return {std::move(status).error()};
  return {};
}

}  // namespace

}  // namespace panslate::samples

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: render_demo FOLDER_OF_THE_DEMO\n";
    return 2;
  }
  const auto errors = panslate::samples::make_demo(argv[1]);
  for (const auto& error : errors) std::cerr << panslate::render(error) << '\n';
  return errors.empty() ? 0 : 3;
}
