#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "panslate/base/file_system.h"
#include "panslate/base/result.h"
#include "panslate/check/check.h"
#include "panslate/check/pickup.h"
#include "panslate/desk/desk_request.h"
#include "panslate/media/clip_facts.h"
#include "panslate/media/clip_log.h"
#include "panslate/media/still.h"
#include "panslate/project/project.h"

namespace panslate {

/// A project as it was read and checked at one moment. What it points to lives as long as it does.
struct DeskFilm {
  const Project* project = nullptr;
  const Footage* footage = nullptr;
  CheckInput input;
  CheckReport report;
  std::vector<Pickup> pickups;
  std::string looked_in;              ///< one sentence
  std::shared_ptr<const void> owner;  ///< of project and footage
};

/// A copy of a clip that her browser can play (see media/proxy.h), made at most once.
struct DeskProxy {
  enum class State : std::uint8_t { None, Waiting, Making, Ready, Failed };
  State state = State::None;
  int percent = 0;             ///< while it is made
  std::string why;             ///< it failed
  std::filesystem::path file;  ///< once it is ready
};

/// What the desk has done by the program below it. Called from several threads.
class DeskWork {
 public:
  virtual ~DeskWork() = default;
  /// Reads the project on this disk, which lives no longer than the call, and checks it. One call at a time.
  [[nodiscard]] virtual Checked<std::shared_ptr<const DeskFilm>> look(FileSystem& disk) = 0;
  /// A still that was kept of a clip with this content, of at most `longest_side` pixels; empty where none
  /// was.
  [[nodiscard]] virtual std::optional<Still> kept_still(const std::string& content, MediaTime time,
                                                        int longest_side) = 0;
  /// A still of the clip as it is now.
  [[nodiscard]] virtual Result<Still> take_still(const std::filesystem::path& file, MediaTime time,
                                                 int longest_side) = 0;
  virtual void keep_still(const std::string& content, MediaTime time, int longest_side,
                          const Still& still) = 0;
  /// What was logged of a clip with this content; empty where nothing was.
  [[nodiscard]] virtual std::optional<ClipLog> logged(const std::string& content,
                                                      const std::filesystem::path& file) = 0;
  /// How far the proxy of a clip with this content is; `make`: it is wanted, and made where it is not there
  /// yet, in the background. Never waits.
  [[nodiscard]] virtual DeskProxy proxy(const std::string& content, const ClipFacts& clip, bool make) = 0;
};

/// The page on which she answers what the check was not sure of, and its requests. It holds nothing:
/// decisions are in the project file, each saved before the request is answered, and the way back from them
/// in the store beside it.
///
/// A request is answered only where its path begins with the token, its Host is this machine at `port`, and
/// its Origin, where it has one, the same; POST must have one. The same over her network, where she shares
/// it: with the address there, and a token that a phone gets for the code. Files are sent only of clips that
/// the project names and that could be opened as clips: no part of a request ever becomes a path.
class Desk {
 public:
  struct Setup {
    std::filesystem::path project;
    std::string token;  ///< of its address; unguessable
    int port = 0;
    /// In her network, for a phone; empty and 0: this machine alone.
    std::string home = {};
    int home_port = 0;
  };

  /// `disk` and `work` must outlive it.
  Desk(FileSystem& disk, DeskWork& work, Setup setup);
  ~Desk();
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;

  /// What a request is refused with by its head alone; empty where it is to be answered. Any number at once.
  [[nodiscard]] std::optional<DeskReply> refusal(const DeskRequest& request) const;

  /// Any number at once.
  [[nodiscard]] DeskReply answer(const DeskRequest& request);

  /// Of every reply: what the page may load (itself only), and that nobody keeps or frames it.
  [[nodiscard]] static const std::vector<std::pair<std::string, std::string>>& headers();

  /// "http://127.0.0.1:PORT/TOKEN/"
  [[nodiscard]] std::string address() const;

  /// What she types on the phone: "http://192.168.1.20:PORT/"; empty where it is not shared.
  [[nodiscard]] std::string phone_address() const;
  /// And the code that it asks for: six digits, good once, for ten minutes and five tries; then she has a new
  /// one made on the page. Empty where there is none now.
  [[nodiscard]] std::string phone_code() const;

  /// Leads to address(), once: for the command line of another program, which everybody on this machine can
  /// read.
  [[nodiscard]] std::string opening_address() const;

 private:
  class Routes;
  std::unique_ptr<Routes> routes_;
};

/// 256 bits nobody can guess, in letters and digits that an address may hold.
[[nodiscard]] std::string new_desk_token();

}  // namespace panslate
