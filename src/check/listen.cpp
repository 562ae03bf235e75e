#include "panslate/check/listen.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <cstdlib>
#include <exception>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <utility>

#include "panslate/base/text.h"
#include "panslate/check/listen_for.h"
#include "panslate/speech/align_script.h"
#include "panslate/speech/choose_take.h"
#include "panslate/speech/draft_lines.h"
#include "panslate/speech/pronouncing.h"

#include "check/likely_talk.h"

namespace panslate {

namespace {

constexpr unsigned kMostAtOnce = 4;  // each takes some hundred megabytes
constexpr std::chrono::milliseconds kLook{100};
// A line's sound is listened to with so much before and after it.
constexpr MediaTime kMargin = MediaTime::from_ms(250);
constexpr std::int64_t kPeakSamples = kSpeechRate / 20;

// What one clip tells of how far it is, to whoever looks.
class ClipProgress final : public Progress {
 public:
  explicit ClipProgress(const std::atomic<bool>& stopped) : stopped_(stopped) {}

  // A clip's work is its sound, read (little) and listened to twice over.
  void part(double begin, double end) {
    begin_ = begin;
    end_ = end;
    done_ = begin;
  }
  void step(std::string_view /*phase*/, std::int64_t done, std::int64_t total) override {
    if (total > 0)
      done_ = begin_ +
              (end_ - begin_) * std::clamp(static_cast<double>(done) / static_cast<double>(total), 0.0, 1.0);
  }
  [[nodiscard]] bool cancelled() const noexcept override { return stopped_; }
  [[nodiscard]] double done() const { return done_; }

 private:
  const std::atomic<bool>& stopped_;
  double begin_ = 0;
  double end_ = 1;
  std::atomic<double> done_{0};
};

std::vector<std::uint8_t> peaks_of(std::span<const std::int16_t> samples) {
  std::vector<std::uint8_t> peaks;
  for (std::size_t at = 0; at < samples.size(); at += kPeakSamples) {
    int peak = 0;
    for (const int sample : samples.subspan(at, std::min<std::size_t>(kPeakSamples, samples.size() - at)))
      peak = std::max(peak, std::abs(sample));
    peaks.push_back(static_cast<std::uint8_t>(std::min(255, peak / 128)));
  }
  return peaks;
}

std::span<const std::int16_t> cut(std::span<const std::int16_t> samples, TimeRange when) {
  const auto size = static_cast<std::int64_t>(samples.size());
  const auto begin = std::clamp<std::int64_t>(sample_at(when.begin), 0, size);
  const auto end = std::clamp<std::int64_t>(sample_at(when.end), begin, size);
  return samples.subspan(static_cast<std::size_t>(begin), static_cast<std::size_t>(end - begin));
}

ListenStatus status_of(ScriptAlignment::Status status) {
  switch (status) {
    case ScriptAlignment::Status::Aligned:
      return ListenStatus::Aligned;
    case ScriptAlignment::Status::Partly:
      return ListenStatus::Partly;
    case ScriptAlignment::Status::Failed:
      return ListenStatus::Failed;
  }
  return ListenStatus::Failed;
}

// Why a person must listen, in a few words.
std::string why_unsure(const AmountHeard& amount) {
  if (!amount.heard) return "the words there are not clear";
  return "the sound does not settle it";
}

// A line as it was taken down; its amounts are for a person to listen to.
void add_draft_line(const std::vector<DraftWord>& words, Listening& heard) {
  SpokenLine line;
  line.number = static_cast<int>(heard.lines.size()) + 1;
  std::vector<std::size_t> begins;
  for (const auto& word : words) {
    if (!line.text.empty()) line.text += ' ';
    begins.push_back(line.text.size());
    line.text += word.text;
    heard.words.push_back({line.number,
                           word.text,
                           {time_of_sample(word.begin), time_of_sample(word.end)},
                           MediaTime::from_ms(50)});
  }
  line.takes.push_back(
      {{time_of_sample(words.front().begin), time_of_sample(words.back().end)}, true, true, {}});
  const auto amounts = amounts_heard_in(line.text);
  for (std::size_t place = 0; place < amounts.size(); ++place) {
    const auto& amount = amounts[place];
    const auto first = std::lower_bound(begins.begin(), begins.end(), amount.begin) - begins.begin();
    const auto last = std::lower_bound(begins.begin(), begins.end(), amount.end) - begins.begin() - 1;
    if (first > last) continue;
    ListenedAmount one;
    one.line = line.number;
    one.place = place;
    one.when = {time_of_sample(words[static_cast<std::size_t>(first)].begin),
                time_of_sample(words[static_cast<std::size_t>(last)].end)};
    one.script = amount.amount;
    one.heard = amount.amount;
    one.heard_text = line.text.substr(amount.begin, amount.end - amount.begin);
    heard.amounts.push_back(std::move(one));
  }
  heard.lines.push_back(std::move(line));
}

// Listens to one clip after another; one for each thread.
class Listener {
 public:
  static Result<Listener> open(const ListenSetup& setup) {
    PANSLATE_TRY(auto recogniser, open_recogniser(setup.model));
    PANSLATE_TRY(auto dictionary, PronouncingDictionary::open(setup.model));
    if (!setup.own_words.empty())
      if (auto added = dictionary.add_own_words(setup.own_words, setup.own_words_file); !added)
        return tl::unexpected(std::move(added).error().front());
    return Listener(std::move(recogniser), std::move(dictionary), setup);
  }

  // Fails only where it was stopped, or where there is no model.
  Result<Listening> listen(const ClipToHear& clip, FootageWorkers& workers, ClipProgress& progress) {
    Listening heard;
    heard.file = clip.file;
    heard.duration = clip.duration;
    heard.has_picture = clip.has_picture;
    heard.draft = clip.script == nullptr;
    heard.of_captions = clip.script_is_captions;
    if (clip.script)
      for (const auto& line : *clip.script) heard.lines.push_back({line.number, line.text, {}});
    const auto failed = [&heard](const Error& error) -> Result<Listening> {
      if (error.code == ErrorCode::Cancelled) return tl::unexpected(error);
      heard.status = ListenStatus::Failed;
      heard.reason = error.message;
      return heard;
    };
    if (!clip.has_sound) return failed({ErrorCode::NotMedia, "there is no sound in it"});
    progress.part(0, 0.05);
    const auto sound = workers.speech_sound(clip.file, clip.duration, progress);
    if (!sound) return failed(sound.error());
    heard.peaks = peaks_of(sound->samples);
    if (heard.draft) {
      progress.part(0.05, 1);
      if (!transcriber_) PANSLATE_CHECK(open_for_drafts());
      if (auto drafted = draft(sound->samples, heard, progress); !drafted) return failed(drafted.error());
      tell_unread(*sound, heard);
      return heard;
    }
    progress.part(0.05, 0.6);
    const auto found = align_script(*clip.script, sound->samples, *recogniser_, dictionary_, progress);
    if (!found) return failed(found.error());
    heard.status = status_of(found->status);
    heard.reason = found->reason;
    heard.snr_db = found->snr_db;
    heard.other_speech = found->other_speech;
    for (const auto& word : found->words)
      heard.words.push_back({(*clip.script)[word.line].number, word.text, word.when, word.precision});
    tell_takes(*found, sound->samples, heard.lines);
    tell_unread(*sound, heard);
    progress.part(0.6, 1);
    if (auto amounts = listen_for_all(*clip.script, sound->samples, heard, progress); !amounts)
      return failed(amounts.error());
    return heard;
  }

 private:
  Listener(std::unique_ptr<Recogniser> recogniser, PronouncingDictionary dictionary, const ListenSetup& setup)
      : recogniser_(std::move(recogniser)), dictionary_(std::move(dictionary)), setup_(&setup) {}

  Status open_for_drafts() {
    if (setup_->recipe == nullptr) return fail(ErrorCode::Usage, "neither script nor recipe is named");
    PANSLATE_TRY(transcriber_, open_transcriber(likely_talk(*setup_->recipe, dictionary_), setup_->model));
    return {};
  }

  // What is said where nobody wrote it down.
  Status draft(std::span<const std::int16_t> samples, Listening& heard, Progress& progress) {
    PANSLATE_TRY(const auto lines, draft_lines(samples, *transcriber_, progress));
    for (const auto& words : lines) add_draft_line(words, heard);
    heard.status = lines.empty() ? ListenStatus::Failed : ListenStatus::Partly;
    heard.reason = lines.empty() ? "no words are heard in it" : "the words are a draft, written by ear";
    return {};
  }

  static void tell_takes(const ScriptAlignment& found, std::span<const std::int16_t> samples,
                         std::vector<SpokenLine>& lines) {
    std::vector<std::size_t> place_in_line;
    for (const auto& take : found.takes) {
      auto& takes = lines[take.line].takes;
      place_in_line.push_back(takes.size());
      takes.push_back({take.when, take.complete, false, {}});
    }
    for (auto& choice : choose_takes(found, samples)) {
      auto& takes = lines[choice.line].takes;
      auto& told = choice.take ? takes[place_in_line[*choice.take]] : takes.back();
      told.chosen = choice.take.has_value();
      told.why = std::move(choice.why);
    }
  }

  static void tell_unread(const SpeechSound& sound, Listening& heard) {
    if (sound.unreadable.empty()) return;
    heard.sound_damaged = true;
    if (heard.status == ListenStatus::Aligned) heard.status = ListenStatus::Partly;
    if (!heard.reason.empty()) heard.reason += "; ";
    heard.reason += "some of the sound is damaged and cannot be read";
  }

  Status listen_for_all(const std::vector<ScriptLine>& script, std::span<const std::int16_t> samples,
                        Listening& heard, Progress& progress) {
    for (std::size_t i = 0; i < script.size(); ++i) {
      progress.step("", static_cast<std::int64_t>(i), static_cast<std::int64_t>(script.size()));
      if (progress.cancelled()) return fail(ErrorCode::Cancelled, "stopped while listening");
      const auto& takes = heard.lines[i].takes;
      if (takes.empty()) continue;
      const auto whole =
          std::find_if(takes.begin(), takes.end(), [](const SpokenTake& take) { return take.chosen; });
      if (whole != takes.end())
        listen_for_take(script[i], whole->when, samples, heard);
      else
        leave_unheard(script[i], takes.back().when, "the line was not heard whole", heard);
    }
    return {};
  }

  // Nobody knows what was said for the amounts of a line that was never said whole.
  static void leave_unheard(const ScriptLine& line, TimeRange when, std::string_view why, Listening& heard) {
    const auto amounts = amounts_heard_in(line.text);
    for (std::size_t place = 0; place < amounts.size(); ++place) {
      ListenedAmount one;
      one.line = line.number;
      one.place = place;
      one.when = when;
      one.script = amounts[place].amount;
      one.why = why;
      heard.amounts.push_back(std::move(one));
    }
  }

  void listen_for_take(const ScriptLine& line, TimeRange take, std::span<const std::int16_t> samples,
                       Listening& heard) {
    const auto amounts = amounts_to_hear(line.text);
    if (amounts.empty()) return;
    const auto begin = std::max(MediaTime{}, take.begin - kMargin);
    auto found = listen_for_amounts(*recogniser_, dictionary_, cut(samples, {begin, take.end + kMargin}),
                                    line.text, amounts, heard.snr_db);
    // A word that nobody can pronounce costs its line the amounts, not the clip its words.
    if (!found) return leave_unheard(line, take, "the line could not be listened to", heard);
    for (std::size_t place = 0; place < found->size(); ++place) {
      auto& amount = (*found)[place];
      ListenedAmount one;
      one.line = line.number;
      one.place = place;
      one.when = {begin + time_of_sample(amount.from), begin + time_of_sample(amount.to)};
      one.verdict = amount.verdict;
      one.ratio = amount.ratio;
      if (one.verdict == Heeded::Unsure) one.why = why_unsure(amount);
      one.script = std::move(amount.script);
      one.heard = std::move(amount.heard);
      one.heard_text = std::move(amount.heard_text);
      heard.amounts.push_back(std::move(one));
    }
  }

  std::unique_ptr<Recogniser> recogniser_;
  PronouncingDictionary dictionary_;
  std::unique_ptr<Transcriber> transcriber_;  // made for the first clip without a script
  const ListenSetup* setup_;
};

// All clips, shared out among threads.
class Hearing {
 public:
  Hearing(std::span<const ClipToHear> clips, const ListenSetup& setup, FootageWorkers& workers)
      : clips_(clips), setup_(setup), workers_(workers), found_(clips.size()) {
    for (std::size_t i = 0; i < clips.size(); ++i)
      progress_.push_back(std::make_unique<ClipProgress>(stopped_));
  }

  Result<std::vector<Listening>> run(Progress& progress, const ClipHeard& heard) {
    std::vector<std::thread> threads;
    const auto count = std::min<std::size_t>(clips_.size(), at_once());
    for (std::size_t i = 0; i < count; ++i) threads.emplace_back([this] { work(); });
    std::vector<bool> told(clips_.size(), false);
    for (bool more = true; more;) {
      {
        std::unique_lock lock(mutex_);
        wake_.wait_for(lock, kLook, [&] { return ended_ == clips_.size() || failed_; });
        more = ended_ < clips_.size() && !failed_;
      }
      if (progress.cancelled()) stopped_ = true;
      more = more && !stopped_;
      progress.step("listening", std::int64_t(seconds_done()), std::int64_t(seconds_in_all()));
      tell(heard, told);
    }
    for (auto& thread : threads) thread.join();
    tell(heard, told);
    if (failed_) return tl::unexpected(*failed_);
    if (std::any_of(found_.begin(), found_.end(), [](const auto& one) { return !one; }))
      return fail(ErrorCode::Cancelled, "stopped while listening");
    std::vector<Listening> all;
    for (auto& one : found_) all.push_back(*std::move(one));
    return all;
  }

 private:
  [[nodiscard]] std::size_t at_once() const {
    const unsigned processors = std::max(1U, std::thread::hardware_concurrency());
    return std::min(setup_.clips_at_once == 0 ? processors : setup_.clips_at_once, kMostAtOnce);
  }

  // An exception that left a thread would end the program.
  void work() {
    try {
      listen_on();
    } catch (const std::exception& error) {
      fail_all({ErrorCode::Internal, std::string("listening failed: ") + error.what(), std::nullopt,
                "close other programs, or listen to fewer clips at once"});
    }
  }

  void listen_on() {
    auto listener = Listener::open(setup_);
    if (!listener) return fail_all(listener.error());
    for (;;) {
      const auto index = next_++;
      if (index >= clips_.size() || stopped_) return;
      auto heard = listener->listen(clips_[index], workers_, *progress_[index]);
      const std::lock_guard lock(mutex_);
      if (!heard) {
        if (!stopped_) failed_ = std::move(heard).error();
      } else {
        progress_[index]->part(1, 1);
        found_[index] = *std::move(heard);
      }
      ++ended_;
      wake_.notify_one();
    }
  }

  void fail_all(const Error& error) {
    const std::lock_guard lock(mutex_);
    if (!failed_) failed_ = error;
    stopped_ = true;
    wake_.notify_one();
  }

  // On the caller's thread.
  void tell(const ClipHeard& heard, std::vector<bool>& told) {
    const std::lock_guard lock(mutex_);
    for (std::size_t i = 0; i < found_.size(); ++i) {
      if (!found_[i] || told[i]) continue;
      told[i] = true;
      if (heard) heard(i, *found_[i]);
    }
  }

  [[nodiscard]] double seconds_done() const {
    double sum = 0;
    for (std::size_t i = 0; i < clips_.size(); ++i)
      sum += progress_[i]->done() * clips_[i].duration.seconds();
    return sum;
  }
  [[nodiscard]] double seconds_in_all() const {
    double sum = 0;
    for (const auto& clip : clips_) sum += clip.duration.seconds();
    return std::max(1.0, sum);
  }

  std::span<const ClipToHear> clips_;
  const ListenSetup& setup_;
  FootageWorkers& workers_;
  std::atomic<bool> stopped_{false};
  std::atomic<std::size_t> next_{0};
  std::vector<std::unique_ptr<ClipProgress>> progress_;
  std::mutex mutex_;
  std::condition_variable wake_;
  std::vector<std::optional<Listening>> found_;
  std::size_t ended_ = 0;
  std::optional<Error> failed_;
};

}  // namespace

std::vector<ScriptLine> script_to_hear(std::vector<ScriptLine> lines) {
  for (auto& line : lines) line.words = words_to_hear(line.text, amounts_heard_in(line.text));
  return lines;
}

std::vector<ScriptLine> script_of(const Transcript& captions) {
  std::vector<std::vector<std::string>> words(captions.cues.size());
  for (const auto& word : captions.words) words[word.cue].push_back(word.text);
  std::vector<ScriptLine> lines;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (!words[i].empty()) lines.push_back({static_cast<int>(i) + 1, join(words[i], " "), {}});
  return lines;
}

Result<std::vector<Listening>> listen_to(std::span<const ClipToHear> clips, const ListenSetup& setup,
                                         FootageWorkers& workers, Progress& progress,
                                         const ClipHeard& heard) {
  if (clips.empty()) return std::vector<Listening>{};
  return Hearing(clips, setup, workers).run(progress, heard);
}

}  // namespace panslate
