#include "speech/synthesiser.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <string_view>

#include <espeak-ng/speak_lib.h>

#include "panslate/base/text.h"

extern "C" {
#include <flite/flite.h>
#include <libavutil/channel_layout.h>
#include <libswresample/swresample.h>
// Declared in no header of flite.
cst_voice* register_cmu_us_kal16(const char* folder);
cst_voice* register_cmu_us_rms(const char* folder);
cst_voice* register_cmu_us_awb(const char* folder);
cst_voice* register_cmu_us_slt(const char* folder);
}

namespace panslate::testing {

namespace {

std::size_t samples_of(double seconds) {
  return static_cast<std::size_t>(std::llround(std::max(seconds, 0.0) * kSampleRate));
}

struct DeleteUtterance {
  void operator()(cst_utterance* utterance) const { delete_utterance(utterance); }
};

struct FreeResampler {
  void operator()(SwrContext* resampler) const { swr_free(&resampler); }
};

// Not with flite's own: it copies within a buffer with memcpy, which the sanitizers stop at.
std::vector<std::int16_t> resampled(const std::vector<std::int16_t>& sound, int rate) {
  AVChannelLayout mono = AV_CHANNEL_LAYOUT_MONO;
  SwrContext* made = nullptr;
  const int set = swr_alloc_set_opts2(&made, &mono, AV_SAMPLE_FMT_S16, kSampleRate, &mono, AV_SAMPLE_FMT_S16,
                                      rate, 0, nullptr);
  const std::unique_ptr<SwrContext, FreeResampler> resampler(made);
  if (set < 0 || swr_init(made) < 0) throw std::runtime_error("no resampler");
  const auto count = static_cast<int>(sound.size());
  std::vector<std::int16_t> out(static_cast<std::size_t>(swr_get_out_samples(resampler.get(), count)));
  const auto* in = reinterpret_cast<const std::uint8_t*>(sound.data());
  std::size_t filled = 0;
  const auto convert = [&](const std::uint8_t** from, int samples) {
    auto* to = reinterpret_cast<std::uint8_t*>(out.data() + filled);
    const int got = swr_convert(resampler.get(), &to, static_cast<int>(out.size() - filled), from, samples);
    if (got < 0) throw std::runtime_error("the resampler fails");
    filled += static_cast<std::size_t>(got);
  };
  convert(&in, count);
  convert(nullptr, 0);  // what it holds back
  out.resize(filled);
  return out;
}

cst_voice* flite_voice(Speaker speaker) {
  switch (speaker) {
    case Speaker::Kal16:
      return register_cmu_us_kal16(nullptr);
    case Speaker::Rms:
      return register_cmu_us_rms(nullptr);
    case Speaker::Awb:
      return register_cmu_us_awb(nullptr);
    case Speaker::Slt:
      return register_cmu_us_slt(nullptr);
    case Speaker::EspeakUs:
    case Speaker::EspeakGb:
    case Speaker::EspeakScotland:
    case Speaker::EspeakCaribbean:
      break;
  }
  return nullptr;
}

// The voices stay registered with the library for as long as the program runs.
Synthesised with_flite(const std::string& text, cst_voice* voice, double stretch) {
  feat_set_float(voice->features, "duration_stretch", static_cast<float>(stretch));
  const std::unique_ptr<cst_utterance, DeleteUtterance> utterance(flite_synth_text(text.c_str(), voice));
  cst_wave* wave = utterance ? utt_wave(utterance.get()) : nullptr;
  if (wave == nullptr) throw std::runtime_error("flite does not speak: " + text);
  if (wave->sample_rate != kSampleRate) throw std::runtime_error("a voice of another sample rate");
  Synthesised out;
  out.samples.assign(wave->samples, wave->samples + wave->num_samples);
  for (auto* token = relation_head(utt_relation(utterance.get(), "Token")); token != nullptr;
       token = item_next(token)) {
    const auto* first = item_daughter(token);
    const auto* last = item_last_daughter(token);
    if (first == nullptr) continue;
    const double begin = ffeature_float(first, "R:SylStructure.daughter1.daughter1.R:Segment.p.end");
    const double end = ffeature_float(last, "R:SylStructure.daughtern.daughtern.R:Segment.end");
    out.words.push_back({samples_of(begin), samples_of(end)});
  }
  return out;
}

/// espeak-ng keeps its state in the library: one for the program.
class Espeak {
 public:
  static Espeak& instance() {
    static Espeak espeak;
    return espeak;
  }

  Synthesised speak(const std::string& text, const char* voice, double stretch) {
    sound_.clear();
    events_.clear();
    if (espeak_SetVoiceByName(voice) != EE_OK)
      throw std::runtime_error(std::string("espeak-ng has no voice ") + voice);
    espeak_SetParameter(espeakRATE, static_cast<int>(std::lround(espeakRATE_NORMAL / stretch)), 0);
    if (espeak_Synth(text.c_str(), text.size() + 1, 0, POS_CHARACTER, 0, espeakCHARS_UTF8 | espeakENDPAUSE,
                     nullptr, this) != EE_OK ||
        espeak_Synchronize() != EE_OK)
      throw std::runtime_error("espeak-ng does not speak: " + text);
    return place_words(text);
  }

 private:
  struct Event {
    espeak_EVENT_TYPE type;
    std::size_t at;      // characters from 0
    std::size_t sample;  // at the rate of the library
    std::string name;
  };

  Espeak()
      : rate_(espeak_Initialize(AUDIO_OUTPUT_SYNCHRONOUS, 0, nullptr,
                                espeakINITIALIZE_PHONEME_EVENTS | espeakINITIALIZE_DONT_EXIT)) {
    if (rate_ <= 0) throw std::runtime_error("espeak-ng does not start");
    espeak_SetSynthCallback(&Espeak::take);
  }

  static int take(short* samples, int count, espeak_EVENT* events) {
    auto& self = instance();
    if (samples != nullptr && count > 0) self.sound_.insert(self.sound_.end(), samples, samples + count);
    for (; events->type != espeakEVENT_LIST_TERMINATED; ++events) {
      Event event{events->type,
                  static_cast<std::size_t>(std::max(events->text_position - 1, 0)),
                  static_cast<std::size_t>(std::max(events->sample, 0)),
                  {}};
      if (events->type == espeakEVENT_PHONEME) {
        const char* name = events->id.string;
        event.name.assign(name, std::find(name, name + sizeof(events->id.string), '\0'));
      }
      self.events_.push_back(event);
    }
    return 0;
  }

  // Sample numbers at kSampleRate.
  [[nodiscard]] std::size_t scaled(std::size_t sample) const {
    return static_cast<std::size_t>(std::llround(static_cast<double>(sample) * kSampleRate / rate_));
  }

  // Where a word begins in the text, in characters.
  static std::vector<std::size_t> word_places(const std::string& text) {
    std::vector<std::size_t> places;
    bool inside = false;
    std::size_t characters = 0;
    for (std::size_t at = 0; at < text.size(); ++characters) {
      const auto [value, next] = code_point_at(text, at);
      if (!is_space(value) && !inside) places.push_back(characters);
      inside = !is_space(value);
      at = next;
    }
    return places;
  }

  [[nodiscard]] Synthesised place_words(const std::string& text) const {
    const auto places = word_places(text);
    const auto words = words_spoken(text);
    Synthesised out;
    out.samples = resampled(sound_, rate_);
    out.words.resize(places.size());
    std::vector<std::optional<std::size_t>> starts(places.size());
    std::vector<std::optional<std::size_t>> at_event(places.size());
    for (std::size_t e = 0; e < events_.size(); ++e) {
      if (events_[e].type != espeakEVENT_WORD) continue;
      const auto after = std::upper_bound(places.begin(), places.end(), events_[e].at);
      if (after == places.begin()) continue;
      const auto word = static_cast<std::size_t>(after - places.begin()) - 1;
      if (!starts[word]) {
        starts[word] = scaled(events_[e].sample);
        at_event[word] = e;
      }
    }
    for (std::size_t w = 0; w < places.size(); ++w)
      if (!starts[w] && w > 0 && at_event[w - 1]) starts[w] = start_of_second(*at_event[w - 1], words[w]);
    for (std::size_t w = 0; w < places.size(); ++w) {
      if (!starts[w] && w == 0) throw std::runtime_error("espeak-ng does not tell where it speaks: " + text);
      if (!starts[w]) {
        out.words[w] = out.words[w - 1];
        out.words[w].time_known = out.words[w - 1].time_known = false;
        continue;
      }
      std::size_t next = w + 1;
      while (next < places.size() && !starts[next]) ++next;
      const auto limit = next < places.size() ? *starts[next] : out.samples.size();
      out.words[w] = {*starts[w], pause_before(*starts[w], limit)};
    }
    return out;
  }

  // "of the", "for an": one event for both; the second begins with its dh (d where they say so), or its
  // vowel.
  [[nodiscard]] std::optional<std::size_t> start_of_second(std::size_t event, const std::string& word) const {
    const bool article = word == "a" || word == "an";
    if (!article && word.rfind("th", 0) != 0) return std::nullopt;
    std::optional<std::size_t> start;
    for (auto e = event + 1; e < events_.size() && events_[e].type != espeakEVENT_WORD; ++e) {
      const auto& [type, at, sample, name] = events_[e];
      if (type != espeakEVENT_PHONEME || name.empty()) continue;
      const bool begins = article ? name.front() == '@' || name.front() == 'a' : name == "D" || name == "d";
      if (begins) start = scaled(sample);
    }
    return start;
  }

  // A word ends where the next begins, or where a pause does.
  [[nodiscard]] std::size_t pause_before(std::size_t begin, std::size_t limit) const {
    for (const auto& event : events_) {
      const bool pause =
          event.type == espeakEVENT_PHONEME && !event.name.empty() && event.name.front() == '_';
      if (!pause && event.type != espeakEVENT_END) continue;
      const auto at = scaled(event.sample);
      if (at > begin && at < limit) return at;
    }
    return limit;
  }

  int rate_;
  std::vector<std::int16_t> sound_;
  std::vector<Event> events_;
};

const char* espeak_voice(Speaker speaker) {
  switch (speaker) {
    case Speaker::EspeakGb:
      return "en";  // British, by its name in the library
    case Speaker::EspeakScotland:
      return "en-gb-scotland";
    case Speaker::EspeakCaribbean:
      return "en-029";
    case Speaker::EspeakUs:
    case Speaker::Kal16:
    case Speaker::Rms:
    case Speaker::Awb:
    case Speaker::Slt:
      break;
  }
  return "en-us";
}

}  // namespace

Synthesised synthesise(const std::string& text, Voice voice) {
  static std::mutex one_at_a_time;
  const std::lock_guard lock(one_at_a_time);
  static const int started = flite_init();
  static_cast<void>(started);
  std::srand(1);  // flite's breath noise is drawn from it
  if (auto* flite = flite_voice(voice.speaker)) return with_flite(text, flite, voice.stretch);
  return Espeak::instance().speak(text, espeak_voice(voice.speaker), voice.stretch);
}

}  // namespace panslate::testing
