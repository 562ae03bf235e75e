// How well a draft is written down where nobody wrote a script: SYNTHETIC voices read a script out, and what
// is heard stands beside what was said in the form of NIST's sclite (Debian: sctk).
//
//   draft_measure RECIPE SCRIPT FOLDER
//   sclite -r FOLDER/ref.trn trn -h FOLDER/hyp.trn trn -i rm -o sum stdout
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <vector>

#include "panslate/recipe/recipe.h"
#include "panslate/speech/draft_lines.h"

#include "check/likely_talk.h"
#include "speech/narration.h"

int main(int count, char** arguments) {
  using namespace panslate;
  using testing::Speaker;
  if (count != 4) {
    std::cerr << "draft_measure RECIPE SCRIPT FOLDER\n";
    return 2;
  }
  std::ifstream in(arguments[1]);
  const std::string source(std::istreambuf_iterator<char>(in), {});
  const auto recipe = read_recipe(source, arguments[1]);
  auto dictionary = PronouncingDictionary::open();
  if (!recipe || !dictionary) return 1;
  const auto transcriber = open_transcriber(likely_talk(*recipe, *dictionary));
  if (!transcriber) return 1;
  std::vector<std::string> lines;
  for (const auto& line : testing::read_spoken_script(arguments[2])) lines.push_back(line.spoken());
  const std::filesystem::path folder = arguments[3];
  std::filesystem::create_directories(folder);
  std::ofstream said(folder / "ref.trn");
  std::ofstream heard(folder / "hyp.trn");
  for (const auto speaker : {Speaker::Slt, Speaker::Rms, Speaker::Awb, Speaker::Kal16, Speaker::EspeakUs}) {
    auto name = to_string(testing::Voice{speaker});
    for (auto& letter : name)
      if (letter == ' ') letter = '_';
    const auto narration = narrate(testing::read_out(lines), {speaker});
    NoProgress progress;
    const auto started = std::clock();
    const auto draft = draft_lines(narration.samples, **transcriber, progress);
    if (!draft) return 1;
    std::printf("%s: %.2f of real time\n", name.c_str(),
                static_cast<double>(std::clock() - started) / CLOCKS_PER_SEC / narration.seconds());
    for (const auto& word : narration.words) said << word.word << ' ';
    said << '(' << name << "_1)\n";
    for (const auto& line : *draft)
      for (const auto& word : line) heard << word.text << ' ';
    heard << '(' << name << "_1)\n";
  }
  return 0;
}
