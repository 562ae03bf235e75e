#include "media/av.h"

#include <array>
#include <mutex>
#include <new>

extern "C" {
#include <libavutil/log.h>
#include <libavutil/mathematics.h>
}

namespace panslate::av {

Packet make_packet() {
  Packet packet(av_packet_alloc());
  if (!packet) throw std::bad_alloc();
  return packet;
}

Frame make_frame() {
  Frame frame(av_frame_alloc());
  if (!frame) throw std::bad_alloc();
  return frame;
}

void be_quiet() {
  static std::once_flag once;
  std::call_once(once, [] { av_log_set_level(AV_LOG_QUIET); });
}

std::string reason(int number) {
  std::array<char, AV_ERROR_MAX_STRING_SIZE> text{};
  if (av_strerror(number, text.data(), text.size()) < 0) return "error " + std::to_string(number);
  return text.data();
}

tl::unexpected<Error> failure(ErrorCode code, std::string_view verb, int number,
                              const std::filesystem::path& file, std::string hint) {
  return fail(code, "cannot " + std::string(verb) + ": " + reason(number), Place{file}, std::move(hint));
}

std::optional<MediaTime> to_time(std::int64_t stamp, AVRational time_base) {
  if (stamp == AV_NOPTS_VALUE || time_base.den <= 0 || time_base.num <= 0) return std::nullopt;
  return MediaTime::from_units(stamp, time_base.num, time_base.den);
}

std::int64_t to_stamp(MediaTime time, AVRational time_base, AVRounding round) {
  const std::int64_t divisor = MediaTime::kTicksPerSecond * time_base.num;
  return av_rescale_rnd(time.ticks(), time_base.den, divisor, round);
}

std::optional<FrameRate> to_frame_rate(AVRational rate) {
  if (rate.num <= 0 || rate.den <= 0) return std::nullopt;
  return FrameRate{rate.num, rate.den};
}

std::optional<std::string> entry(const AVDictionary* metadata, const char* key) {
  const AVDictionaryEntry* found = av_dict_get(metadata, key, nullptr, 0);
  if (found == nullptr || found->value == nullptr || *found->value == '\0') return std::nullopt;
  return found->value;
}

}  // namespace panslate::av
