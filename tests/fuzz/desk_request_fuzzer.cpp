// Any bytes as what a browser sends: a reply with a status, the file still a project, and never a crash. The
// first byte picks the route; the rest is the body, or where the route is read the query and the range.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>

#include "panslate/desk/desk.h"

#include "../support/fake_file_system.h"

namespace {

constexpr const char* kRecipe =
    "# Lentil pot\n\n## Ingredients\n\n- 200 g red lentils\n- 1 tsp salt\n\n## Method\n\n"
    "1. Rinse the lentils well.\n2. Simmer them for 20 minutes.\n3. Stir in the salt.\n";
constexpr const char* kCaptions = "WEBVTT\n\n00:01.000 --> 00:03.000\nThree hundred grams of red lentils\n";
constexpr const char* kProject =
    "{\"panslate_project\": 1, \"recipe\": \"recipe.md\",\n"
    " \"media\": [{\"id\": \"pan\", \"file\": \"pan.mp4\", \"role\": \"edit\"}],\n"
    " \"captions\": [{\"file\": \"captions.vtt\", \"clock\": \"pan\"}],\n"
    " \"answers\": [{\"line\": \"saffron\", \"is\": \"yes\"}]}\n";

void require(bool holds) {
  if (!holds) std::abort();
}

struct Open {
  panslate::Project project;
  panslate::Footage footage;
};

class Checks final : public panslate::DeskWork {
 public:
  panslate::Checked<std::shared_ptr<const panslate::DeskFilm>> look(panslate::FileSystem& disk) override {
    auto project = panslate::load_project(disk, "p.json");
    if (!project) return tl::unexpected(std::move(project).error());
    auto open = std::make_shared<Open>();
    open->project = *std::move(project);
    open->footage.clips.resize(open->project.media.size());
    open->footage.contents.resize(open->project.media.size());
    auto film = std::make_shared<panslate::DeskFilm>();
    film->project = &open->project;
    film->footage = &open->footage;
    film->input = panslate::check_input_of(open->project, open->footage);
    film->report = panslate::check(film->input);
    panslate::apply_answers(film->report, open->project.answers);
    film->owner = open;
    return film;
  }
  std::optional<panslate::Still> kept_still(const std::string&, panslate::MediaTime, int) override {
    return std::nullopt;
  }
  panslate::Result<panslate::Still> take_still(const std::filesystem::path&, panslate::MediaTime,
                                               int) override {
    return panslate::fail(panslate::ErrorCode::NotMedia, "no picture");
  }
  void keep_still(const std::string&, panslate::MediaTime, int, const panslate::Still&) override {}
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  static constexpr const char* kRoutes[] = {"answer", "measures", "forget", "part", "undo",
                                            "redo",   "clip",     "still",  "state"};
  const std::string name = kRoutes[data[0] % std::size(kRoutes)];
  const std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
  panslate::testing::FakeFileSystem disk;
  disk.add("p.json", kProject).add("recipe.md", kRecipe).add("captions.vtt", kCaptions);
  Checks checks;
  panslate::Desk desk(disk, checks, {"p.json", "t", 1234});
  panslate::DeskRequest request;
  request.path = "/t/" + name;
  request.headers = {
      {"host", "127.0.0.1:1234"}, {"origin", "http://127.0.0.1:1234"}, {"content-type", "application/json"}};
  if (data[0] % std::size(kRoutes) < 6) {
    request.method = "POST";
    request.body = text;
  } else {
    request.query = {{"id", text}, {"clip", "pan"}, {"ms", text}, {"have", text}};
    request.headers.emplace("range", text);
  }
  const auto reply = desk.answer(request);
  require(reply.status >= 200 && reply.status < 500);
  require(panslate::load_project(disk, "p.json").has_value());
  return 0;
}
