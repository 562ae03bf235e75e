// Any bytes as what a browser sends: a reply with a status, the file still a project, and never a crash. The
// first byte picks the route; the rest is the body, or where the route is read the query and the range.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>
#include <utility>

#include "panslate/desk/desk.h"

#include "../support/fake_file_system.h"

namespace {

constexpr const char* kRecipe =
    "# Lentil pot\n\n## Ingredients\n\n- 200 g red lentils\n- 1 tsp salt\n\n## Method\n\n"
    "1. Rinse the lentils well.\n2. Simmer them for 20 minutes.\n3. Stir in the salt.\n";
constexpr const char* kCaptions =
    "WEBVTT\n\n00:01.000 --> 00:06.000\nFirst rinse three hundred grams of red lentils really well.\n\n"
    "00:10.000 --> 00:16.000\nNow simmer the lentils for twenty minutes.\n";
constexpr const char* kProject =
    "{\"panslate_project\": 1, \"recipe\": \"recipe.md\",\n"
    " \"media\": [{\"id\": \"pan\", \"file\": \"pan.mp4\", \"role\": \"camera\"}],\n"
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
    panslate::ClipFacts facts;
    facts.duration = panslate::MediaTime::from_seconds(20);
    open->footage.clips.resize(open->project.media.size(), facts);
    open->footage.contents.resize(open->project.media.size(), "key");
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
  // With a voice, so that parts are proposed and can be taken.
  std::optional<panslate::ClipLog> logged(const std::string&, const std::filesystem::path&) override {
    panslate::ClipLog log;
    log.facts.duration = panslate::MediaTime::from_seconds(20);
    for (const auto& [begin, end] : {std::pair(1, 6), std::pair(10, 16)})
      log.speech.push_back(
          {panslate::MediaTime::from_seconds(begin), panslate::MediaTime::from_seconds(end)});
    return log;
  }
  panslate::DeskProxy proxy(const std::string&, const panslate::ClipFacts&, bool) override { return {}; }
  void keep_still(const std::string&, panslate::MediaTime, int, const panslate::Still&) override {}
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  struct Route {
    const char* name;
    bool posts;
  };
  static constexpr Route kRoutes[] = {
      {"answer", true}, {"measures", true}, {"forget", true},   {"part", true},   {"undo", true},
      {"redo", true},   {"clip", false},    {"still", false},   {"state", false}, {"take", true},
      {"proxy", true},  {"strip", false},   {"proposed", false}};
  const auto& route = kRoutes[data[0] % std::size(kRoutes)];
  const std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
  panslate::testing::FakeFileSystem disk;
  disk.add("p.json", kProject).add("recipe.md", kRecipe).add("captions.vtt", kCaptions);
  Checks checks;
  panslate::Desk desk(disk, checks, {"p.json", "t", 1234});
  panslate::DeskRequest request;
  request.path = std::string("/t/") + route.name;
  request.headers = {
      {"host", "127.0.0.1:1234"}, {"origin", "http://127.0.0.1:1234"}, {"content-type", "application/json"}};
  if (route.posts) {
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
