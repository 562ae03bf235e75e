#include "media/av.h"

#include <array>
#include <cstdarg>
#include <mutex>
#include <new>

extern "C" {
#include <libavutil/log.h>
#include <libavutil/mathematics.h>
}

#include "panslate/base/text.h"

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

namespace {

// One line, on the thread that caused it; a plain array because libav calls back from C.
thread_local std::array<char, 256> complaint{};

void keep_complaint(void* object, int level, const char* format, va_list arguments) {
  if (level > AV_LOG_ERROR) return;
  int print_prefix = 1;
  (void)av_log_format_line2(object, level, format, arguments, complaint.data(),
                            static_cast<int>(complaint.size()), &print_prefix);
}

}  // namespace

void be_quiet() {
  static std::once_flag once;
  std::call_once(once, [] { av_log_set_callback(keep_complaint); });
}

std::string last_complaint() {
  const std::string_view line(complaint.data());
  // Without the address of the object, which differs from run to run: "[drawtext @ 0x55…] Cannot find …".
  const auto at = line.find(" @ 0x");
  const auto close = line.find(']');
  std::string said(at < close && close != std::string_view::npos ? line.substr(close + 1) : line);
  const auto first = said.find_first_not_of(" \n");
  const auto last = said.find_last_not_of(" \n");
  return first == std::string::npos ? std::string{} : said.substr(first, last - first + 1);
}

void forget_complaint() {
  complaint[0] = '\0';
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
  return to_utf8(found->value);
}

}  // namespace panslate::av
