#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "panslate/desk/desk.h"

namespace panslate::testing {

/// What other programs do in the midst of the desk's work.
struct Meanwhile {
  std::function<void()> looking;       ///< once the project was read, before it is checked
  std::function<void()> taking_still;  ///< once the picture was read
};

/// A project with a clip in a folder that vanishes with the test, and the desk on it. The clip is bytes that
/// tell their own place: byte i is 'a' + i % 26.
class DeskFolder {
 public:
  DeskFolder();
  DeskFolder(const DeskFolder&) = delete;
  DeskFolder& operator=(const DeskFolder&) = delete;
  ~DeskFolder();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] std::string project_text() const;
  void write(const std::string& name, const std::string& bytes) const;
  [[nodiscard]] Desk& desk() { return *desk_; }
  [[nodiscard]] DeskWork& work() { return *work_; }
  /// As after the program was ended.
  void open_again();

  /// From now on the clip is a camera's, in which the first step is told and then the third, and it was
  /// logged.
  void tell_two_steps_in_the_clip();

  /// As the page itself asks: with the right token, Host and Origin.
  [[nodiscard]] DeskReply get(const std::string& route,
                              std::map<std::string, std::string, std::less<>> query = {},
                              const std::string& range = {});
  [[nodiscard]] DeskReply post(const std::string& route, const nlohmann::json& body);
  [[nodiscard]] static DeskRequest request(const std::string& method, const std::string& route);
  [[nodiscard]] nlohmann::json state();

  Meanwhile meanwhile;
  /// The copy of the clip that a browser can play; what is asked for is noted in `proxies_wanted`.
  DeskProxy proxy{DeskProxy::State::Failed, 0, "no film", {}};
  int proxies_wanted = 0;
  /// What was logged of the clip.
  std::optional<ClipLog> log;
  /// Stills that were kept, by the clip's content and the moment.
  std::map<std::string, Still> kept;

  static constexpr std::size_t kClipSize = 1000;
  static constexpr int kPort = 4321;
  static constexpr const char* kToken = "0123456789abcdef";

 private:
  std::filesystem::path path_;
  std::unique_ptr<DeskWork> work_;
  std::unique_ptr<Desk> desk_;
};

/// The doubt about the line that reads so.
[[nodiscard]] nlohmann::json doubt_about(const nlohmann::json& state, const std::string& written,
                                         const std::string& about = "said");
/// What the page sends for it.
[[nodiscard]] nlohmann::json answer_to(const nlohmann::json& doubt, const std::string& is);
/// The bytes of a stretch of a file.
[[nodiscard]] std::string bytes_of(const FileStretch& stretch);

}  // namespace panslate::testing
