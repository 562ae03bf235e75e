#pragma once

#include <filesystem>
#include <string>

#include "panslate/media/render.h"

namespace panslate::testing {

/// A folder of its own on the real disk, gone at the end of the test.
class SampleFolder {
 public:
  SampleFolder();
  SampleFolder(const SampleFolder&) = delete;
  SampleFolder& operator=(const SampleFolder&) = delete;
  ~SampleFolder();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  void write(const std::filesystem::path& name, std::string_view bytes) const;
  [[nodiscard]] std::string read(const std::filesystem::path& name) const;
  /// A plain picture at 25 pictures a second, exactly this long.
  void film(const std::filesystem::path& name, std::int64_t ms, std::optional<std::string> timecode = {},
            std::optional<std::string> recorded = {}) const;
  /// A quiet tone, 16-bit PCM, exactly this long.
  void sound(const std::filesystem::path& name, std::int64_t ms) const;

 private:
  std::filesystem::path path_;
};

}  // namespace panslate::testing
