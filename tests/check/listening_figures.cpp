#include "check/listening_figures.h"

#include <algorithm>
#include <ctime>
#include <filesystem>
#include <iomanip>
#include <memory>
#include <ostream>
#include <span>
#include <stdexcept>

#include <unistd.h>

#include "panslate/base/text.h"
#include "panslate/check/listen.h"
#include "panslate/check/listen_for.h"
#include "panslate/kitchen/amount_scan.h"

namespace panslate::testing {

namespace {

struct Spoken {
  std::size_t line = 0;
  std::optional<ScriptLine::Slip> slip;
};

std::vector<Spoken> spoken_lines(const std::vector<ScriptLine>& script, const ListeningCase& listening) {
  std::vector<Spoken> spoken;
  const auto end = std::min(script.size(), listening.first_line + listening.lines);
  for (std::size_t l = listening.first_line; l < end; ++l) {
    if (script[l].amounts.empty()) continue;
    spoken.push_back({l, std::nullopt});
    for (std::size_t a = 0; a < script[l].amounts.size(); ++a)
      for (std::size_t i = 0; i < std::min(listening.slips, script[l].amounts[a].instead.size()); ++i)
        spoken.push_back({l, ScriptLine::Slip{a, i}});
  }
  return spoken;
}

// The sound of one thing said, with 0.25 s before and after.
std::span<const std::int16_t> sound_of(const Narration& narration, std::size_t said) {
  constexpr std::size_t kAround = kSampleRate / 4;
  std::size_t begin = narration.samples.size();
  std::size_t end = 0;
  for (const auto& word : narration.words) {
    if (word.said != said) continue;
    begin = std::min(begin, static_cast<std::size_t>(word.when.begin.seconds() * kSampleRate));
    end = std::max(end, static_cast<std::size_t>(word.when.end.seconds() * kSampleRate));
  }
  begin -= std::min(begin, kAround);
  end = std::min(end + kAround, narration.samples.size());
  return std::span(narration.samples).subspan(begin, end - begin);
}

std::optional<Amount> amount_of(const std::string& text) {
  const auto tokens = tokenize(text);
  const auto scans = scan_amounts(tokens, SpokenOrWritten::Spoken);
  return scans.empty() ? std::nullopt : std::optional(scans.front().amount);
}

void count(ListeningFigures& figures, const AmountHeard& heard, bool altered, const std::string& said) {
  const bool differs = heard.verdict == Heeded::Differs;
  const bool unsure = heard.verdict == Heeded::Unsure;
  if (!altered) {
    ++figures.untouched;
    figures.untouched_differs += differs ? 1 : 0;
    figures.untouched_unsure += unsure ? 1 : 0;
    return;
  }
  ++figures.altered;
  figures.altered_differs += differs ? 1 : 0;
  figures.altered_unsure += unsure ? 1 : 0;
  if (!differs) return;
  const auto meant = amount_of(said);
  const bool same =
      meant && heard.heard && meant->value == heard.heard->value && meant->to == heard.heard->to;
  figures.heard_exactly += same && meant->unit == heard.heard->unit ? 1 : 0;
}

double share(std::size_t part, std::size_t whole) {
  return whole == 0 ? 0 : static_cast<double>(part) / static_cast<double>(whole);
}

}  // namespace

ListeningFigures& ListeningFigures::operator+=(const ListeningFigures& other) {
  untouched += other.untouched;
  untouched_differs += other.untouched_differs;
  untouched_unsure += other.untouched_unsure;
  untouched_lost += other.untouched_lost;
  altered += other.altered;
  altered_differs += other.altered_differs;
  altered_unsure += other.altered_unsure;
  altered_lost += other.altered_lost;
  heard_exactly += other.heard_exactly;
  sound_seconds += other.sound_seconds;
  processor_seconds += other.processor_seconds;
  return *this;
}

double ListeningFigures::recall() const {
  return share(altered_differs + altered_unsure, altered);
}
double ListeningFigures::false_differs() const {
  return share(untouched_differs, untouched);
}
double ListeningFigures::false_unsure() const {
  return share(untouched_unsure, untouched);
}

std::ostream& operator<<(std::ostream& out, const ListeningFigures& figures) {
  return out << std::fixed << std::setprecision(3) << "altered " << figures.altered << ": recall "
             << figures.recall() << " (differs " << share(figures.altered_differs, figures.altered)
             << ", amount heard exactly " << share(figures.heard_exactly, figures.altered) << ") | untouched "
             << figures.untouched << ": differs " << figures.false_differs() << ", unsure "
             << figures.false_unsure() << " | lines lost: " << figures.altered_lost << " slips, "
             << figures.untouched_lost << " untouched | " << std::setprecision(2)
             << figures.processor_seconds / std::max(figures.sound_seconds, 0.001) << " of real time";
}

ListeningFigures listen_to(const ListeningCase& listening) {
  const auto script = read_spoken_script(PANSLATE_SOURCE_DIR "/tests/data/speech/" + listening.script);
  const auto spoken = spoken_lines(script, listening);
  std::vector<Said> said;
  for (const auto& [line, slip] : spoken)
    said.push_back({script[line].spoken(slip), line, std::nullopt, std::nullopt});
  auto narration = narrate(said, listening.voice);
  if (listening.room) put_in_room(narration, {});
  if (listening.noise) add_noise(narration, *listening.noise, listening.snr_db);

  auto recogniser = open_recogniser();
  auto dictionary = PronouncingDictionary::open();
  if (!recogniser || !dictionary) throw std::runtime_error("there is no model of how English sounds");
  ListeningFigures figures;
  for (std::size_t s = 0; s < spoken.size(); ++s) {
    const auto& line = script[spoken[s].line];
    const auto sound = sound_of(narration, s);
    const auto started = std::clock();
    const auto amounts = amounts_to_hear(line.written);
    const auto heard = listen_for_amounts(**recogniser, *dictionary, sound, line.written, amounts,
                                          listening.noise ? std::optional(listening.snr_db) : std::nullopt);
    if (!heard) throw std::runtime_error(heard.error().message);
    figures.processor_seconds += static_cast<double>(std::clock() - started) / CLOCKS_PER_SEC;
    figures.sound_seconds += static_cast<double>(sound.size()) / kSampleRate;
    std::size_t from = 0;
    for (std::size_t a = 0; a < line.amounts.size(); ++a) {
      const auto begin = line.written.find(line.amounts[a].written, from);
      from = begin + line.amounts[a].written.size();
      const auto found = std::find_if(heard->begin(), heard->end(), [&](const AmountHeard& amount) {
        return amount.begin < from && begin < amount.end;
      });
      if (found == heard->end()) throw std::runtime_error("an amount is not found: " + line.written);
      const bool altered = spoken[s].slip && spoken[s].slip->amount == a;
      if (spoken[s].slip && !altered) continue;
      const auto& text = altered ? line.amounts[a].instead[spoken[s].slip->instead] : line.amounts[a].spoken;
      count(figures, *found, altered, text);
      if (listening.told != nullptr)
        *listening.told << (altered ? "slip\t" : "\t") << found->ratio << '\t' << line.amounts[a].written
                        << '\t' << text << '\t' << found->heard_text << '\n'
                        << std::flush;
    }
  }
  return figures;
}

ListeningFigures listen_through(const ListeningCase& listening) {
  auto script = read_spoken_script(PANSLATE_SOURCE_DIR "/tests/data/speech/" + listening.script);
  if (script.size() > listening.lines) script.resize(listening.lines);
  std::string text;
  std::vector<std::string> spoken;
  std::vector<std::optional<ScriptLine::Slip>> slips;
  for (const auto& line : script) {
    text += line.written + "\n";
    std::optional<ScriptLine::Slip> slip;
    if (!line.amounts.empty()) {
      const auto amount = (slips.size() + listening.slips) % line.amounts.size();
      if (const auto others = line.amounts[amount].instead.size(); others > 0)
        slip = ScriptLine::Slip{amount, (slips.size() / 2 + listening.slips) % others};
    }
    spoken.push_back(line.spoken(slip));
    slips.push_back(slip);
  }
  auto narration = narrate(read_out(spoken), listening.voice);
  if (listening.room) put_in_room(narration, {});
  if (listening.noise) add_noise(narration, *listening.noise, listening.snr_db);
  const auto file =
      std::filesystem::temp_directory_path() / ("panslate-listening-" + std::to_string(::getpid()) + ".wav");
  write_wav(file, narration);
  ClipToHear clip;
  clip.file = file;
  clip.duration = MediaTime::from_units(std::ssize(narration.samples), 1, kSampleRate).value();
  clip.script = std::make_shared<const std::vector<panslate::ScriptLine>>(
      script_to_hear(*read_script(text, "script.txt")));
  NoProgress progress;
  const auto started = std::clock();
  const auto heard = panslate::listen_to(std::span(&clip, 1), {}, footage_in_this_process(), progress);
  ListeningFigures figures;
  figures.processor_seconds = static_cast<double>(std::clock() - started) / CLOCKS_PER_SEC;
  figures.sound_seconds = narration.seconds();
  std::filesystem::remove(file);
  if (!heard) throw std::runtime_error(heard.error().message);
  for (std::size_t l = 0; l < script.size(); ++l) {
    const auto& line = script[l];
    const auto places = amounts_heard_in(line.written);
    std::size_t from = 0;
    for (std::size_t a = 0; a < line.amounts.size(); ++a) {
      const auto begin = line.written.find(line.amounts[a].written, from);
      from = begin + line.amounts[a].written.size();
      const bool altered = slips[l] && slips[l]->amount == a;
      const auto found = std::find_if(
          heard->front().amounts.begin(), heard->front().amounts.end(), [&](const ListenedAmount& amount) {
            return amount.line == static_cast<int>(l) + 1 && amount.place < places.size() &&
                   places[amount.place].begin < from && begin < places[amount.place].end;
          });
      const auto& said = altered ? line.amounts[a].instead[slips[l]->instead] : line.amounts[a].spoken;
      if (found == heard->front().amounts.end()) {
        ++(altered ? figures.altered : figures.untouched);
        ++(altered ? figures.altered_lost : figures.untouched_lost);
      } else {
        AmountHeard one;
        one.verdict = found->verdict;
        one.heard = found->heard;
        one.heard_text = found->heard_text;
        count(figures, one, altered, said);
      }
      if (listening.told != nullptr)
        *listening.told << (altered ? "slip\t" : "\t")
                        << (found == heard->front().amounts.end() ? "lost" : spelling_of(found->verdict))
                        << '\t' << line.amounts[a].written << '\t' << said << '\n';
    }
  }
  return figures;
}

}  // namespace panslate::testing
