// A footage worker that misbehaves on demand: what it does is decided by the name of the file it is asked
// about. Any other file it reads as a real worker does.
#include <array>
#include <charconv>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <memory>
#include <new>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <unistd.h>

#include "panslate/media/clip_facts.h"
#include "panslate/media/footage_workers.h"
#include "panslate/media/still.h"

#include "media/worker_message.h"
#include "media/worker_process.h"

namespace {

namespace fs = std::filesystem;
using namespace panslate;
using worker::body_of;

void write_all(std::string_view bytes) {
  while (!bytes.empty()) {
    const auto written = ::write(STDOUT_FILENO, bytes.data(), bytes.size());
    if (written <= 0) ::_exit(0);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
}

void tell(std::string_view body) {
  write_all(worker::framed(body));
}

// Facts whose container says something about this process.
Result<ClipFacts> facts_saying(const std::string& what) {
  ClipFacts facts;
  facts.duration = MediaTime::from_seconds(1);
  facts.container = what;
  facts.sound.push_back({1, 48'000, "mono", "aac", {}, MediaTime::from_seconds(1)});
  return facts;
}

std::string open_descriptors() {
  std::map<int, std::string> open;
  for (const auto& entry : fs::directory_iterator("/proc/self/fd")) {
    std::error_code gone;
    const auto target = fs::read_symlink(entry.path(), gone);
    if (!gone)
      open[std::stoi(entry.path().filename())] = target.string().substr(0, target.string().find(':'));
  }
  std::string text;
  for (const auto& [number, target] : open)
    if (target.find("/fd") == std::string::npos) text += std::to_string(number) + "=" + target + " ";
  return text;
}

[[noreturn]] void take_all_memory() {
  std::vector<std::unique_ptr<char[]>> taken;
  try {
    for (;;) taken.emplace_back(new char[std::size_t{16} * 1024 * 1024]);
  } catch (const std::bad_alloc&) {
    taken.clear();
    ::_exit(worker::kExitNoMemory);  // as serve_footage does
  }
}

void answer(const worker::Job& job, int clips_before) {
  const auto name = job.file.filename().string();
  const auto is = [&name](std::string_view what) { return name.starts_with(what); };
  if (is("hangs") || is("slow")) std::ofstream(job.file.string() + ".pid") << ::getpid();
  if (is("dies-if-used") && clips_before > 0) std::raise(SIGSEGV);
  if (is("dies.")) std::raise(SIGSEGV);
  if (is("aborts")) std::raise(SIGABRT);
  if (is("leaves")) ::_exit(0);
  if (is("hangs"))
    for (;;) ::pause();
  if (is("spins"))
    for (volatile unsigned turns = 0;;) turns = turns + 1;
  if (is("eats")) take_all_memory();
  if (is("floods")) write_all(std::string("\xFF\xFF\xFF\xFF", 4) + std::string(100'000, 'x'));
  if (is("raw")) {  // what is in the file, and nothing after it
    std::ifstream in(job.file, std::ios::binary);
    return write_all(std::string(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()));
  }
  if (is("slow")) std::this_thread::sleep_for(std::chrono::milliseconds(300));
  if (is("who") || is("slow") || is("dies-if-used"))
    return tell(body_of(facts_saying(std::to_string(::getpid()))));
  if (is("descriptors")) return tell(body_of(facts_saying(open_descriptors())));
  if (is("prints")) {
    (void)::write(STDERR_FILENO, "a library complains\n", 20);
    return tell(body_of(facts_saying("quiet")));
  }
  if (job.kind == worker::JobKind::Probe) return tell(body_of(probe_clip(job.file)));
  if (job.kind == worker::JobKind::Sound) {
    // Its first second in each stretch says which stretch it is.
    std::size_t stretches = 0;
    for (const auto time : job.times) {
      if (is("dies-at-second") && ++stretches == 2) std::raise(SIGSEGV);
      Samples samples(static_cast<std::size_t>(sample_at(job.length)));
      std::fill_n(samples.begin(), kSpeechRate, static_cast<std::int16_t>(1 + time.seconds() / 60));
      if (is("short-sound")) samples.pop_back();
      tell(body_of(Result<Samples>(samples)));
    }
    return;
  }
  if (!is("dies-at-second") && !is("any") && !is("good")) {
    const auto opened =
        take_stills(job.file, job.times, job.longest_side, [](std::size_t, const Result<Still>& still) {
          tell(body_of(still));
          return true;
        });
    if (opened) return;
    for (std::size_t i = 0; i < job.times.size(); ++i)
      tell(body_of(Result<Still>(tl::unexpected(opened.error()))));
    return;
  }
  std::size_t given = 0;
  for (const auto time : job.times) {
    if (is("dies-at-second") && ++given == 2) std::raise(SIGSEGV);
    tell(body_of(Result<Still>(Still{"\xFF\xD8\xFF\xFF\xD9", 16, 16, time})));
  }
}

}  // namespace

int main() {
  if (std::getenv("ODD_WORKER_PLAIN") != nullptr)  // NOLINT(concurrency-mt-unsafe): there is one thread
    return panslate::serve_footage();
  if (std::getenv("ODD_WORKER_MUTE") != nullptr)  // NOLINT(concurrency-mt-unsafe): there is one thread
    for (;;) ::pause();
  tell(worker::kGreeting);
  worker::FrameReader jobs(worker::kLargestJob);
  std::array<char, 4096> block{};
  for (int clips = 0;;) {
    while (const auto body = jobs.next()) {
      const auto job = worker::read_job(*body);
      if (!job) return 2;
      answer(*job, clips++);
    }
    const auto got = ::read(STDIN_FILENO, block.data(), block.size());
    if (got <= 0) return 0;
    jobs.add({block.data(), static_cast<std::size_t>(got)});
  }
}
