// The desk under load, on a copy of the demo project with a film of 1 GB (sparse) beside it:
//
//   desk_load [SECONDS [CLIENTS]]
//
// First alone: how long an answer takes until the check of everything has run again, and a still. Then so
// many clients take stretches of the film for so long: every reply is held against what was asked for, and
// the desk's memory is read the whole time. Exits with 1 where a reply is wrong.
#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <httplib.h>
#include <nlohmann/json.hpp>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "panslate/media/render.h"

extern char** environ;

namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using Clock = std::chrono::steady_clock;

constexpr std::uintmax_t kFilmSize = std::uintmax_t{1} << 30U;  // bytes
constexpr int kAnswers = 20;
constexpr int kStills = 200;

[[noreturn]] void give_up(const std::string& why) {
  std::fprintf(stderr, "%s\n", why.c_str());
  std::exit(2);
}

std::string contents(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// The demo project, and the long film in it: a second that can be opened, and nothing behind it.
class Folder {
 public:
  Folder() : path_(fs::temp_directory_path() / ("panslate_desk_load_" + std::to_string(::getpid()))) {
    const fs::path demo = fs::path(PANSLATE_SOURCE_DIR) / "projects" / "demo";
    if (!fs::exists(demo / "footage")) give_up("there is no demo footage: run projects/demo.sh first");
    fs::copy(demo, path_, fs::copy_options::recursive);
    fs::remove_all(path_ / ".panslate");
    panslate::RenderSpec spec;
    spec.graph = "testsrc2=s=640x360[v];sine[a]";
    spec.duration = panslate::MediaTime::from_seconds(1);
    spec.rate = {25, 1};
    panslate::NoProgress progress;
    if (const auto made = panslate::render_film(spec, path_ / "long.mp4", progress); !made)
      give_up(panslate::render(made.error()));
    fs::resize_file(path_ / "long.mp4", kFilmSize);
    auto project = json::parse(contents(path_ / "demo.json"));
    project["media"].push_back({{"id", "long"}, {"file", "long.mp4"}, {"role", "camera"}});
    project.erase("answers");
    std::ofstream(path_ / "demo.json") << project.dump(2);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  [[nodiscard]] std::string project() const { return (path_ / "demo.json").string(); }

 private:
  fs::path path_;
};

class RunningDesk {
 public:
  explicit RunningDesk(const std::string& project) {
    int ends[2] = {-1, -1};
    if (::pipe(ends) != 0) give_up("no pipe");
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", 1, 0);
    posix_spawn_file_actions_addclose(&actions, ends[0]);
    std::vector<std::string> words{PANSLATE_PROGRAM, "desk", project};
    std::vector<char*> arguments;
    for (auto& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    if (::posix_spawn(&id_, arguments[0], &actions, nullptr, arguments.data(), environ) != 0)
      give_up("the desk cannot be started");
    posix_spawn_file_actions_destroy(&actions);
    ::close(ends[1]);
    std::string told;
    for (char one = 0; one != '\n' && ::read(ends[0], &one, 1) == 1;) told += one;
    const auto at = told.find("http://");
    if (at == std::string::npos) give_up("the desk did not open");
    const auto address = told.substr(at + 7, told.size() - at - 8);
    const auto slash = address.find('/');
    port_ = std::atoi(address.substr(address.find(':') + 1).c_str());
    front_ = address.substr(slash);
  }
  RunningDesk(const RunningDesk&) = delete;
  RunningDesk& operator=(const RunningDesk&) = delete;
  ~RunningDesk() {
    ::kill(id_, SIGINT);
    ::waitpid(id_, nullptr, 0);
  }
  [[nodiscard]] httplib::Client client() const {
    httplib::Client client("127.0.0.1", port_);
    client.set_keep_alive(true);
    client.set_read_timeout(60);
    return client;
  }
  [[nodiscard]] std::string at(const std::string& route) const { return front_ + route; }
  [[nodiscard]] httplib::Headers origin() const {
    return {{"Origin", "http://127.0.0.1:" + std::to_string(port_)}};
  }
  /// Resident memory in MB.
  [[nodiscard]] double memory() const {
    const auto status = contents("/proc/" + std::to_string(id_) + "/status");
    const auto at = status.find("VmRSS:");
    return at == std::string::npos ? 0 : std::atof(status.c_str() + at + 6) / 1024;
  }

 private:
  pid_t id_ = 0;
  int port_ = 0;
  std::string front_;
};

double ms_since(Clock::time_point begin) {
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

void print(const char* what, std::vector<double> times) {
  if (times.empty()) return;
  std::sort(times.begin(), times.end());
  const auto part = [&](double share) {
    return times[std::min(times.size() - 1,
                          static_cast<std::size_t>(share * static_cast<double>(times.size())))];
  };
  std::printf("%-46s %6zu  median %7.1f ms  p99 %7.1f ms  longest %7.1f ms\n", what, times.size(), part(0.5),
              part(0.99), times.back());
  std::fflush(stdout);
}

std::vector<double> answer_all(const RunningDesk& desk, std::atomic<int>& wrong) {
  auto client = desk.client();
  auto state = json::parse(client.Get(desk.at("state"))->body);
  std::vector<double> times;
  for (int i = 0; i < kAnswers && !state.at("doubts").empty(); ++i) {
    const auto& doubt = state.at("doubts").front();
    const json answer{{"line", doubt.at("line")},       {"about", doubt.at("about")}, {"is", "yes"},
                      {"written", doubt.at("written")}, {"found", doubt.at("found")}, {"was", ""}};
    const auto begin = Clock::now();
    const auto reply = client.Post(desk.at("answer"), desk.origin(), answer.dump(), "application/json");
    times.push_back(ms_since(begin));
    if (!reply || reply->status != 200) {
      ++wrong;
      break;
    }
    auto after = json::parse(reply->body);
    state = std::move(after.at("state"));
  }
  return times;
}

std::vector<double> take_stills(const RunningDesk& desk, int how_many, std::atomic<int>& wrong) {
  auto client = desk.client();
  const auto state = json::parse(client.Get(desk.at("state"))->body);
  std::vector<std::string> pictures;
  for (const auto& clip : state.at("clips"))
    if (clip.at("picture") && clip.at("id") != "long")
      for (int i = 0; i < 5; ++i)
        pictures.push_back(desk.at(
            "still?clip=" + clip.at("id").get<std::string>() +
            "&ms=" + std::to_string(static_cast<int>(clip.at("length").get<double>() * 180 * (i + 0.5)))));
  std::vector<double> times;
  for (int i = 0; i < how_many; ++i) {
    const auto begin = Clock::now();
    const auto reply = client.Get(pictures[static_cast<std::size_t>(i) % pictures.size()]);
    times.push_back(ms_since(begin));
    if (!reply || reply->status != 200) ++wrong;
  }
  return times;
}

struct Loaded {
  std::atomic<std::int64_t> replies{0};
  std::atomic<std::int64_t> bytes{0};
  std::atomic<int> wrong{0};
};

// As a player does: a stretch here, a stretch there, some from the end, some past it.
void take_stretches(const RunningDesk& desk, unsigned seed, Clock::time_point until, Loaded& loaded) {
  auto client = desk.client();
  std::mt19937_64 chance(seed);
  while (Clock::now() < until) {
    const auto begin = chance() % (kFilmSize + kFilmSize / 50);
    const std::uintmax_t length = 1 + chance() % 262'144;
    const auto end = begin + length - 1;
    const bool past = begin >= kFilmSize;
    std::uintmax_t got = 0;
    const auto reply =
        client.Get(desk.at("clip?id=long"),
                   httplib::Headers{{"Range", "bytes=" + std::to_string(begin) + "-" + std::to_string(end)}},
                   [&](const char*, std::size_t size) {
                     got += size;
                     return true;
                   });
    const auto wanted = std::min(end, kFilmSize - 1) - std::min(begin, kFilmSize - 1) + 1;
    const bool right = reply && (past ? reply->status == 416 : reply->status == 206 && got == wanted);
    if (!right) ++loaded.wrong;
    ++loaded.replies;
    loaded.bytes += static_cast<std::int64_t>(got);
  }
}

}  // namespace

int main(int count, char** words) {
  const int seconds = count > 1 ? std::atoi(words[1]) : 30;
  const int clients = count > 2 ? std::atoi(words[2]) : 200;
  const Folder folder;
  const RunningDesk desk(folder.project());
  std::atomic<int> wrong{0};
  print("an answer, until all is checked again", answer_all(desk, wrong));
  print("a still, the first time", take_stills(desk, 50, wrong));
  print("a still that is kept", take_stills(desk, kStills, wrong));

  Loaded loaded;
  const auto until = Clock::now() + std::chrono::seconds(seconds);
  std::vector<std::thread> threads;
  threads.reserve(static_cast<std::size_t>(clients));
  for (int i = 0; i < clients; ++i)
    threads.emplace_back([&, i] { take_stretches(desk, static_cast<unsigned>(i), until, loaded); });
  std::vector<double> stills;
  std::vector<double> memory;
  while (Clock::now() < until) {
    const auto some = take_stills(desk, 20, wrong);
    stills.insert(stills.end(), some.begin(), some.end());
    memory.push_back(desk.memory());
    std::this_thread::sleep_for(std::chrono::milliseconds(250));
  }
  for (auto& thread : threads) thread.join();
  print("a still that is kept, under the load", stills);
  std::printf("%d clients, %d s: %lld stretches, %.1f GB, %d wrong\n", clients, seconds,
              static_cast<long long>(loaded.replies), static_cast<double>(loaded.bytes) / 1e9,
              static_cast<int>(loaded.wrong));
  if (!memory.empty())
    std::printf("memory of the desk: %.1f MB at first, %.1f MB in the middle, %.1f MB at the end\n",
                memory.front(), memory[memory.size() / 2], memory.back());
  return loaded.wrong + wrong == 0 ? 0 : 1;
}
