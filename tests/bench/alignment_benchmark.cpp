// Whole sessions as a cook films them (SYNTHETIC voices): figures of word times and takes, and time and
// memory at 2, 10 and 60 minutes, which must grow linearly. Prints; what must hold is in
// tests/speech/align_script_test.cpp.
//   alignment_benchmark [MINUTES…]
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include <sys/resource.h>

#include "speech/alignment_measure.h"

namespace {

using namespace panslate;

double processor_seconds() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_utime.tv_sec) + static_cast<double>(used.ru_utime.tv_usec) * 1e-6;
}

long peak_megabytes() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return used.ru_maxrss / 1024;
}

}  // namespace

int main(int count, char** values) {
  std::vector<double> minutes;
  for (int i = 1; i < count; ++i) minutes.push_back(std::atof(values[i]));
  if (minutes.empty()) minutes = {2, 10, 60};
  const auto recogniser = open_recogniser();
  auto dictionary = PronouncingDictionary::open();
  if (!recogniser || !dictionary) return 1;
  auto lines = testing::spoken_lines("aubergine_lentil_bake.txt", 100);
  for (auto& line : testing::spoken_lines("coconut_fish_curry.txt", 100)) lines.push_back(std::move(line));
  const auto session = testing::session_of(lines);
  const auto script = testing::script_of(lines);
  for (const double wanted : minutes) {
    testing::Narration spoken;
    while (spoken.seconds() < wanted * 60) {
      const auto more = narrate(session.said, {testing::Speaker::Slt});
      const auto shift = MediaTime::from_units(std::ssize(spoken.samples), 1, kSpeechRate).value();
      for (auto word : more.words) {
        word.when = {word.when.begin + shift, word.when.end + shift};
        spoken.words.push_back(std::move(word));
      }
      spoken.samples.insert(spoken.samples.end(), more.samples.begin(), more.samples.end());
    }
    NoProgress progress;
    const auto began = processor_seconds();
    const auto found = align_script(script, spoken.samples, **recogniser, *dictionary, progress);
    const auto took = processor_seconds() - began;
    if (!found) return 1;
    std::fputs(compare(spoken, *found)
                   .print(std::to_string(static_cast<int>(spoken.seconds() / 60)) + " minutes")
                   .c_str(),
               stdout);
    std::printf("  %.0f s of processor, %.1f x real time, %ld MB at most\n", took, spoken.seconds() / took,
                peak_megabytes());
    std::fflush(stdout);
  }
}
