#include "media/judge.h"

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <iterator>
#include <sstream>
#include <vector>

#include "media/run_program.h"

namespace panslate::outside {

namespace {

std::optional<double> number(std::string_view text) {
  double value = 0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  return failed == std::errc{} && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

std::vector<std::string> split(const std::string& line, char mark) {
  std::vector<std::string> parts;
  std::istringstream in(line);
  for (std::string part; std::getline(in, part, mark);) parts.push_back(part);
  return parts;
}

// "streams.stream.0.tags.timecode" → "stream.timecode"
std::string short_key(std::string key) {
  const bool is_stream = key.starts_with("streams.");
  return (is_stream ? "stream." : "format.") + key.substr(key.rfind('.') + 1);
}

}  // namespace

std::map<std::string, std::string> ffprobe(const std::filesystem::path& file, Count count) {
  const std::string entries =
      "format=duration,start_time:format_tags=timecode:stream=codec_name,width,height,r_frame_rate,avg_frame_"
      "rate,"
      "nb_read_frames,start_time:stream_side_data=rotation:stream_tags=timecode";
  std::map<std::string, std::string> answers;
  for (const char* stream : {"V:0", "a:0"}) {
    std::vector<std::string> words{"ffprobe", "-v", "quiet", "-of", "flat", "-show_entries", entries};
    if (count == Count::Frames) words.emplace_back("-count_frames");
    words.insert(words.end(), {"-select_streams", stream, file.string()});
    std::istringstream in(run_program(words).output);
    for (std::string line; std::getline(in, line);) {
      const auto equals = line.find('=');
      if (equals == std::string::npos || line.starts_with("programs.")) continue;
      auto value = line.substr(equals + 1);
      if (value.size() >= 2 && value.front() == '"') value = value.substr(1, value.size() - 2);
      answers.emplace(short_key(line.substr(0, equals)), value);
    }
    if (answers.contains("stream.codec_name")) break;
  }
  return answers;
}

std::optional<double> seconds(const std::map<std::string, std::string>& answers, const std::string& key) {
  const auto found = answers.find(key);
  return found == answers.end() ? std::nullopt : number(found->second);
}

namespace {

struct Packet {
  bool is_picture = false;
  double start = 0;
  double end = 0;
  bool is_discarded = false;
};

std::vector<Packet> packets(const std::filesystem::path& file, const std::vector<std::string>& which) {
  std::vector<std::string> words{"ffprobe",
                                 "-v",
                                 "quiet",
                                 "-of",
                                 "compact=p=0",
                                 "-show_entries",
                                 "packet=codec_type,pts_time,dts_time,duration_time,flags"};
  words.insert(words.end(), which.begin(), which.end());
  words.push_back(file.string());
  std::vector<Packet> all;
  std::istringstream in(run_program(words).output);
  for (std::string line; std::getline(in, line);) {
    std::map<std::string, std::string> fields;
    for (const auto& field : split(line, '|'))
      if (const auto equals = field.find('='); equals != std::string::npos)
        fields[field.substr(0, equals)] = field.substr(equals + 1);
    auto start = seconds(fields, "pts_time");
    if (!start) start = seconds(fields, "dts_time");
    const bool is_picture = fields["codec_type"] == "video";
    if (!start || (!is_picture && fields["codec_type"] != "audio")) continue;
    all.push_back({is_picture, *start, *start + seconds(fields, "duration_time").value_or(0),
                   fields["flags"].find('D') != std::string::npos});
  }
  return all;
}

// From the first packet that is played to the end of the last.
std::optional<std::pair<double, double>> span_of(const std::vector<Packet>& packets) {
  std::optional<double> first;
  std::optional<double> last;
  for (const Packet& packet : packets) {
    if (!packet.is_discarded) first = std::min(first.value_or(packet.start), packet.start);
    last = std::max(last.value_or(packet.end), packet.end);
  }
  if (!first || !last) return std::nullopt;
  return std::pair(*first, *last);
}

}  // namespace

std::optional<double> packets_end(const std::filesystem::path& file) {
  const auto all = packets(file, {});
  std::vector<Packet> pictures;
  std::copy_if(all.begin(), all.end(), std::back_inserter(pictures),
               [](const Packet& p) { return p.is_picture; });
  const auto span = span_of(all);
  if (!span) return std::nullopt;
  return span->second - span_of(pictures).value_or(*span).first;
}

std::optional<std::pair<double, double>> packet_times(const std::filesystem::path& file,
                                                      const std::string& stream) {
  return span_of(packets(file, {"-select_streams", stream}));
}

std::string frame_rgb(const std::filesystem::path& file, double second, int width, int height) {
  const std::string scale =
      "scale=" + std::to_string(width) + ":" + std::to_string(height) + ":flags=bicubic";
  std::vector<std::string> words{"ffmpeg", "-v", "quiet"};
  if (second > 0) words.insert(words.end(), {"-ss", std::to_string(second)});
  words.insert(words.end(), {"-i", file.string(), "-frames:v", "1", "-vf", scale, "-f", "rawvideo",
                             "-pix_fmt", "rgb24", "-"});
  return run_program(words).output;
}

std::string shell(const std::string& command) {
  return run_program({"sh", "-c", command}).output;
}

double difference(const std::string& a, const std::string& b) {
  if (a.size() != b.size() || a.empty()) return 255;
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    sum += std::abs(static_cast<int>(static_cast<unsigned char>(a[i])) - static_cast<unsigned char>(b[i]));
  return sum / static_cast<double>(a.size());
}

}  // namespace panslate::outside
