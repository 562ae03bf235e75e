#include "desk/desk_folder.h"

#include <atomic>
#include <fstream>
#include <iterator>
#include <optional>
#include <utility>

#include <unistd.h>

#include "panslate/check/check.h"

namespace panslate::testing {

namespace {

constexpr const char* kRecipe =
    "# Lentil pot\n\nServes 4\n\n## Ingredients\n\n- 200 g red lentils\n- 2 tsp dried thyme\n- 40 g sugar\n"
    "- 1 tbsp baking powder\n\n## Method\n\n1. Rinse the lentils well.\n2. Heat the oven to 180 C.\n"
    "3. Simmer the lentils with the thyme for 20 minutes.\n4. Stir in the sugar and the baking powder.\n";
constexpr const char* kCaptions =
    "WEBVTT\n\n00:01.000 --> 00:03.000\nTwo hundred grams of red lentils\n\n"
    "00:04.000 --> 00:06.000\nand three teaspoons of dried thyme.\n\n"
    "00:07.000 --> 00:09.000\nStir in the sugar.\n";
constexpr const char* kProject =
    "{\n  \"panslate_project\": 1,\n  \"recipe\":   \"recipe.md\",\n"
    "  \"media\": [ {\"id\": \"pan\", \"file\": \"pan.mp4\", \"role\": \"edit\"},\n"
    "    {\"id\": \"gone\", \"file\": \"gone.mp4\", \"role\": \"camera\"} ],\n"
    "  \"captions\": [{\"file\": \"captions.vtt\", \"clock\": \"pan\"}],\n  \"mine\": [1,  2]\n}\n";

constexpr const char* kCameraProject =
    "{\n  \"panslate_project\": 1,\n  \"recipe\":   \"recipe.md\",\n"
    "  \"media\": [ {\"id\": \"pan\", \"file\": \"pan.mp4\", \"role\": \"camera\"} ],\n"
    "  \"captions\": [{\"file\": \"captions.vtt\", \"clock\": \"pan\"}]\n}\n";
constexpr const char* kTwoSteps =
    "WEBVTT\n\n00:01.000 --> 00:06.000\nFirst rinse the red lentils really well under the tap.\n\n"
    "00:10.000 --> 00:16.000\nNow simmer the lentils with the thyme for twenty minutes.\n";

struct OpenFilm {
  Project project;
  Footage footage;
};

std::string contents(const std::filesystem::path& file) {
  if (!std::filesystem::is_regular_file(file)) return {};
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// What the program does, without FFmpeg: the clip's facts are made up.
class PlainChecks final : public DeskWork {
 public:
  PlainChecks(std::filesystem::path project, DeskFolder& folder)
      : file_(std::move(project)), folder_(folder) {}

  Checked<std::shared_ptr<const DeskFilm>> look(FileSystem& disk) override {
    auto project = load_project(disk, file_);
    if (!project) return tl::unexpected(std::move(project).error());
    if (folder_.meanwhile.looking) folder_.meanwhile.looking();
    auto open = std::make_shared<OpenFilm>();
    open->project = *std::move(project);
    for (const auto& media : open->project.media) {
      ClipFacts facts;
      facts.file = media.file;
      facts.duration = MediaTime::from_seconds(20);
      facts.picture.emplace();
      facts.picture->codec = "h264";
      facts.container = "mov,mp4,m4a,3gp,3g2,mj2";
      open->footage.clips.push_back(media.id == "gone" ? std::nullopt : std::optional(facts));
      open->footage.contents.push_back("key-" + contents(media.file).substr(0, 3));
    }
    auto film = std::make_shared<DeskFilm>();
    film->project = &open->project;
    film->footage = &open->footage;
    film->input = check_input_of(open->project, open->footage);
    film->report = check(film->input);
    apply_answers(film->report, open->project.answers);
    film->pickups = pickups_of(film->report, open->project.recipe, film->input.said);
    film->owner = open;
    return film;
  }

  std::optional<Still> kept_still(const std::string& content, MediaTime time, int) override {
    const auto found = folder_.kept.find(name_of(content, time));
    return found == folder_.kept.end() ? std::nullopt : std::optional(found->second);
  }
  Result<Still> take_still(const std::filesystem::path& file, MediaTime time, int) override {
    const Still still{
        "\xFF\xD8 " + contents(file).substr(0, 3) + " " + std::to_string(time.to_ms(Round::Nearest)), 16, 9,
        time};
    if (folder_.meanwhile.taking_still) folder_.meanwhile.taking_still();
    return still;
  }
  std::optional<ClipLog> logged(const std::string&, const std::filesystem::path&) override {
    return folder_.log;
  }
  DeskProxy proxy(const std::string&, const ClipFacts&, bool make) override {
    if (make) ++folder_.proxies_wanted;
    return folder_.proxy;
  }
  void keep_still(const std::string& content, MediaTime time, int, const Still& still) override {
    folder_.kept.emplace(name_of(content, time), still);
  }

 private:
  static std::string name_of(const std::string& content, MediaTime time) {
    return content + " " + std::to_string(time.to_ms(Round::Nearest));
  }

  std::filesystem::path file_;
  DeskFolder& folder_;
};

}  // namespace

DeskFolder::DeskFolder() {
  static std::atomic<int> next{0};
  path_ = std::filesystem::temp_directory_path() /
          ("panslate-desk-" + std::to_string(::getpid()) + "-" + std::to_string(next++));
  std::filesystem::create_directories(path_);
  write("recipe.md", kRecipe);
  write("captions.vtt", kCaptions);
  write("project.json", kProject);
  std::string clip;
  for (std::size_t i = 0; i < kClipSize; ++i) clip += static_cast<char>('a' + i % 26);
  write("pan.mp4", clip);
  write("secret.txt", "not for the page");
  open_again();
}

void DeskFolder::open_again() {
  desk_.reset();
  work_ = std::make_unique<PlainChecks>(path_ / "project.json", *this);
  desk_ =
      std::make_unique<Desk>(real_file_system(), *work_, Desk::Setup{path_ / "project.json", kToken, kPort});
}

DeskFolder::~DeskFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

void DeskFolder::write(const std::string& name, const std::string& bytes) const {
  std::ofstream(path_ / name, std::ios::binary) << bytes;
}

void DeskFolder::tell_two_steps_in_the_clip() {
  const auto range = [](int begin, int end) {
    return TimeRange{MediaTime::from_seconds(begin), MediaTime::from_seconds(end)};
  };
  write("captions.vtt", kTwoSteps);
  write("project.json", kCameraProject);
  log.emplace();
  log->facts.duration = MediaTime::from_seconds(20);
  log->speech = {range(1, 6), range(10, 16)};
  log->shots.push_back({range(0, 20), 0, 500, std::nullopt, std::nullopt});
  open_again();
}

std::string DeskFolder::project_text() const {
  return contents(path_ / "project.json");
}

DeskRequest DeskFolder::request(const std::string& method, const std::string& route) {
  DeskRequest request;
  request.method = method;
  request.path = std::string("/") + kToken + "/" + route;
  const auto host = "127.0.0.1:" + std::to_string(kPort);
  request.headers.emplace("host", host);
  if (method == "POST") {
    request.headers.emplace("origin", "http://" + host);
    request.headers.emplace("content-type", "application/json");
  }
  return request;
}

DeskReply DeskFolder::get(const std::string& route, std::map<std::string, std::string, std::less<>> query,
                          const std::string& range) {
  auto asked = request("GET", route);
  asked.query = std::move(query);
  if (!range.empty()) asked.headers.emplace("range", range);
  return desk_->answer(asked);
}

DeskReply DeskFolder::post(const std::string& route, const nlohmann::json& body) {
  auto asked = request("POST", route);
  asked.body = body.dump();
  return desk_->answer(asked);
}

nlohmann::json DeskFolder::state() {
  return nlohmann::json::parse(get("state").body);
}

nlohmann::json doubt_about(const nlohmann::json& state, const std::string& written,
                           const std::string& about) {
  for (const auto& doubt : state.at("doubts"))
    if (doubt.at("written") == written && doubt.at("about") == about) return doubt;
  return nullptr;
}

nlohmann::json answer_to(const nlohmann::json& doubt, const std::string& is) {
  return {{"line", doubt.at("line")},       {"about", doubt.at("about")}, {"is", is},
          {"written", doubt.at("written")}, {"found", doubt.at("found")}, {"was", ""}};
}

std::string bytes_of(const FileStretch& stretch) {
  std::string bytes(stretch.length, '\0');
  const auto got =
      ::pread(stretch.file->get(), bytes.data(), bytes.size(), static_cast<off_t>(stretch.begin));
  bytes.resize(got < 0 ? 0 : static_cast<std::size_t>(got));
  return bytes;
}

}  // namespace panslate::testing
