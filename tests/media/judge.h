#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <utility>

/// What FFmpeg's own programs say of a file: the outside judge.
namespace panslate::outside {

enum class Count { Nothing, Frames };

/// ffprobe's answers for the format and the picture (or, without one, first sound) stream: "format.duration",
/// "stream.r_frame_rate", "stream.rotation", "stream.timecode", … and, decoded and counted,
/// "stream.nb_read_frames". Empty where ffprobe cannot read the file.
[[nodiscard]] std::map<std::string, std::string> ffprobe(const std::filesystem::path& file, Count count);

/// Seconds as ffprobe prints them ("1.020100"); empty for "N/A" and missing keys.
[[nodiscard]] std::optional<double> seconds(const std::map<std::string, std::string>& answers,
                                            const std::string& key);

/// The end of the last packet of pictures and sound less the first picture's time, from all packets.
[[nodiscard]] std::optional<double> packets_end(const std::filesystem::path& file);

/// When the first packet of a stream ("V:0", "a:0") that is played begins, and when the last one ends, on the
/// file's own time line.
[[nodiscard]] std::optional<std::pair<double, double>> packet_times(const std::filesystem::path& file,
                                                                    const std::string& stream);

/// RGB bytes of the frame that ffmpeg gives for a time, scaled to a size; empty where it gives none.
[[nodiscard]] std::string frame_rgb(const std::filesystem::path& file, double second, int width, int height);

/// Runs a shell command; its standard output.
[[nodiscard]] std::string shell(const std::string& command);

/// Mean absolute difference of two pictures' bytes, 0 to 255; 255 where their sizes differ.
[[nodiscard]] double difference(const std::string& a, const std::string& b);

}  // namespace panslate::outside
