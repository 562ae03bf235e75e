#include "media/judge.h"

#include <algorithm>
#include <charconv>
#include <cstdlib>
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

void add_section(std::map<std::string, std::string>& answers, const std::string& section,
                 const std::string& text) {
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    const auto equals = line.find('=');
    if (equals == std::string::npos) continue;
    auto key = line.substr(0, equals);
    if (key.starts_with("TAG:")) key.erase(0, 4);
    answers.emplace(section + "." + key, line.substr(equals + 1));
  }
}

}  // namespace

std::map<std::string, std::string> ffprobe(const std::filesystem::path& file) {
  std::map<std::string, std::string> answers;
  const auto ask = [&](const std::string& what, const std::string& stream, const std::string& section) {
    std::vector<std::string> words{"ffprobe", "-v", "quiet", "-of", "default=nw=1", "-show_entries", what};
    if (!stream.empty()) words.insert(words.end(), {"-count_frames", "-select_streams", stream});
    words.push_back(file.string());
    add_section(answers, section, run_program(words).output);
  };
  ask("format=duration,start_time,format_name:format_tags=timecode", "", "format");
  const std::string entries =
      "stream=codec_name,width,height,r_frame_rate,avg_frame_rate,nb_read_frames,duration,start_time,"
      "channels,"
      "sample_rate,sample_aspect_ratio,time_base:stream_side_data=rotation:stream_tags=timecode";
  ask(entries, "V:0", "stream");
  if (!answers.contains("stream.codec_name")) ask(entries, "a:0", "stream");
  return answers;
}

std::optional<double> seconds(const std::map<std::string, std::string>& answers, const std::string& key) {
  const auto found = answers.find(key);
  return found == answers.end() ? std::nullopt : number(found->second);
}

std::optional<double> packets_end(const std::filesystem::path& file) {
  const auto ran = run_program({"ffprobe", "-v", "quiet", "-of", "compact=p=0", "-show_entries",
                                "packet=codec_type,pts_time,duration_time,flags", file.string()});
  std::optional<double> picture;
  std::optional<double> sound;
  std::optional<double> end;
  std::istringstream in(ran.output);
  for (std::string line; std::getline(in, line);) {
    std::map<std::string, std::string> fields;
    for (const auto& field : split(line, '|'))
      if (const auto equals = field.find('='); equals != std::string::npos)
        fields[field.substr(0, equals)] = field.substr(equals + 1);
    const auto start = seconds(fields, "pts_time");
    const bool is_picture = fields["codec_type"] == "video";
    if (!start || (!is_picture && fields["codec_type"] != "audio")) continue;
    auto& first = is_picture ? picture : sound;
    if (fields["flags"].find('D') == std::string::npos) first = std::min(first.value_or(*start), *start);
    end = std::max(end.value_or(*start), *start + seconds(fields, "duration_time").value_or(0));
  }
  if (!end) return std::nullopt;
  return *end - (picture ? *picture : sound.value_or(0));
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

double difference(const std::string& a, const std::string& b) {
  if (a.size() != b.size() || a.empty()) return 255;
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    sum += std::abs(static_cast<int>(static_cast<unsigned char>(a[i])) - static_cast<unsigned char>(b[i]));
  return sum / static_cast<double>(a.size());
}

}  // namespace panslate::outside
