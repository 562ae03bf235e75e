#include "project/same_moment.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "project/sound_match.h"

namespace panslate {

namespace {

// Where less than three seconds is heard, sound tells nothing. Common practice, no source.
constexpr std::size_t kFewLevels = 300;

bool same_looks(const ClipLog& a, const ClipLog& b) {
  const auto count = std::min(a.looks.size(), b.looks.size());
  if (count == 0 || std::max(a.looks.size(), b.looks.size()) > count + 1) return false;
  std::size_t alike = 0;
  std::size_t telling = 0;
  for (std::size_t i = 0; i < count; ++i) {
    // A flat picture looks like any other.
    if (std::popcount(a.looks[i]) < 8 || std::popcount(b.looks[i]) < 8) continue;
    ++telling;
    if (std::popcount(a.looks[i] ^ b.looks[i]) <= 10) ++alike;
  }
  return telling * 2 >= count && alike * 10 >= telling * 9;
}

// Compares the clips with each other, row by row.
class Comparison {
 public:
  Comparison(const std::vector<LoggedClip>& clips, Progress& progress)
      : clips_(clips), progress_(progress), sound_(levels_of(clips)), has_its_like_(clips.size()) {}

  Result<std::vector<Duplicate>> run() && {
    // Once for what is there twice, once for moments: a clip that is there twice is compared once.
    for (std::size_t i = 0; i < clips_.size(); ++i) {
      PANSLATE_CHECK(step(i));
      if (clips_[i].log && !has_its_like_[i]) find_copies(i);
    }
    for (std::size_t i = 0; i < clips_.size(); ++i) {
      PANSLATE_CHECK(step(clips_.size() + i));
      PANSLATE_CHECK(find_moments(i));
    }
    return std::move(found_);
  }

 private:
  static std::vector<std::string_view> levels_of(const std::vector<LoggedClip>& clips) {
    std::vector<std::string_view> out;
    out.reserve(clips.size());
    for (const auto& clip : clips) out.emplace_back(clip.log ? clip.log->levels : std::string_view{});
    return out;
  }

  [[nodiscard]] Status go_on() const {
    if (progress_.cancelled()) return fail(ErrorCode::Cancelled, "stopped while comparing the clips");
    return {};
  }
  Status step(std::size_t rows) {
    progress_.step("comparing the clips", static_cast<std::int64_t>(rows),
                   static_cast<std::int64_t>(2 * clips_.size()));
    return go_on();
  }

  // Coded again: as long, looks alike, sounds alike at the same time.
  bool same_but_coded_again(std::size_t i, std::size_t k) {
    const auto& a = *clips_[i].log;
    const auto& b = *clips_[k].log;
    const auto off = (a.facts.duration - b.facts.duration).ticks();
    if (std::abs(off) > MediaTime::from_ms(250).ticks()) return false;
    if (a.facts.picture.has_value() != b.facts.picture.has_value()) return false;
    if (a.facts.picture && !same_looks(a, b)) return false;
    if (a.levels.size() < kFewLevels || b.levels.size() < kFewLevels) return a.facts.picture.has_value();
    const auto offset = sound_.offset(i, k);
    // Without anything to be matched by, as in silence, the picture decides.
    if (!offset) return a.facts.picture.has_value();
    return std::abs(offset->ticks()) <= MediaTime::from_ms(120).ticks();
  }

  void find_copies(std::size_t i) {
    const auto& a = clips_[i];
    Duplicate same{{i}, Duplicate::Kind::SameFile, {}};
    for (std::size_t k = i + 1; k < clips_.size(); ++k) {
      const auto& b = clips_[k];
      if (!b.log || has_its_like_[k]) continue;
      if ((a.content.empty() || a.content != b.content) && !same_but_coded_again(i, k)) continue;
      same.clips.push_back(k);
      has_its_like_[k] = true;
    }
    if (same.clips.size() > 1) found_.push_back(std::move(same));
  }

  Status find_moments(std::size_t i) {
    for (std::size_t k = i + 1; k < clips_.size(); ++k) {
      if (has_its_like_[i] || has_its_like_[k] || !clips_[i].log || !clips_[k].log) continue;
      PANSLATE_CHECK(go_on());
      if (const auto offset = sound_.offset(i, k))
        found_.push_back({{i, k}, Duplicate::Kind::SameMoment, *offset});
    }
    return {};
  }

  const std::vector<LoggedClip>& clips_;
  Progress& progress_;
  SoundMatch sound_;
  std::vector<bool> has_its_like_;
  std::vector<Duplicate> found_;
};

}  // namespace

Result<std::vector<Duplicate>> find_duplicates(const std::vector<LoggedClip>& clips, Progress& progress) {
  return Comparison(clips, progress).run();
}

}  // namespace panslate
