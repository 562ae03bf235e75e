#include "media/log_picture.h"

#include <algorithm>
#include <new>
#include <utility>

#include "media/jpeg.h"
#include "media/orientation.h"
#include "media/picture_watch.h"

namespace panslate::av {

namespace {

// Frames that a shot takes to be known.
constexpr std::size_t kLag = 4;
constexpr std::size_t kShortestShot = 6;
// Stills in memory: more than there are shots in any clip worth logging.
constexpr std::size_t kMostKept = 4000;
constexpr std::size_t kFramesAStill = 150;

float worth_of(const SmallPicture& picture) {
  // A flash is sharp, and no picture of anything.
  const float light = picture.mean < 25 || picture.mean > 225 ? 0.3F : 1.0F;
  return light * picture.sharpness * std::min(1.0F, picture.spread / 20);
}

}  // namespace

void PictureLog::add(const AVFrame& frame, MediaTime time) {
  // A frame that cannot be looked at counts, and looks like the one before.
  (void)shrinker_.shrink(frame, small_);
  comparer_.add(small_, time);
  note_look(time);
  consider(frame, time);
}

void PictureLog::consider(const AVFrame& frame, MediaTime time) {
  const std::size_t number = comparer_.notes().size() - 1;
  const bool begins = comparer_.may_begin_shot() && number - shot_begin_ >= kShortestShot;
  const bool is_long = number - shot_begin_ >= kFramesAStill;
  // What scenes hold changes slowly too.
  if (begins || (is_long && kept_.size() < kMostKept / 2)) {
    while (!pending_.empty()) {
      settle(std::move(pending_.front()));
      pending_.pop_front();
    }
    keep_best();
    shot_begin_ = number;
  }
  Candidate candidate{{}, number, time, worth_of(small_)};
  const float best = best_ ? best_->worth : 0;
  if (candidate.worth > best) {
    candidate.frame = make_frame();
    if (av_frame_ref(candidate.frame.get(), &frame) < 0) throw std::bad_alloc();
  }
  pending_.push_back(std::move(candidate));
  if (pending_.size() <= kLag) return;
  settle(std::move(pending_.front()));
  pending_.pop_front();
}

void PictureLog::settle(Candidate candidate) {
  if (candidate.frame && (!best_ || candidate.worth > best_->worth)) best_ = std::move(candidate);
}

void PictureLog::keep_best() {
  if (!best_) return;
  auto best = *std::move(best_);
  best_.reset();
  if (kept_.size() >= kMostKept) return;
  AVStream& stream = *reader_->picture();
  Development how;
  how.orientation = orientation_of(stream);
  how.pixel = av_guess_sample_aspect_ratio(&reader_->format(), &stream, best.frame.get());
  how.longest_side = kShotStillSide;
  auto still = develop(*best.frame, how, reader_->file());
  if (!still) return;
  still->time = best.time;
  kept_.push_back({best.number, best.worth, *std::move(still)});
}

void PictureLog::note_look(MediaTime time) {
  const auto slot = static_cast<std::size_t>(
      std::max<std::int64_t>(0, time.ticks() / (MediaTime::kTicksPerSecond / kLooksASecond)));
  constexpr std::int64_t kLongestSeconds = kLongestLogged.ticks() / MediaTime::kTicksPerSecond;
  constexpr std::int64_t kMostLooks = kLongestSeconds * kLooksASecond;
  constexpr auto kMost = static_cast<std::size_t>(kMostLooks);
  if (slot < looks_.size() || slot >= kMost) return;
  std::array<int, 72> places{};  // 9 across, 8 down
  for (int y = 0; y < kHigh; ++y)
    for (int x = 0; x < kWide; ++x)
      places.at(place_of(x * 9 / kWide, y * 8 / kHigh, 9)) += small_.luma.at(place_of(x, y, kWide));
  std::uint64_t look = 0;
  for (int y = 0; y < 8; ++y)
    for (int x = 0; x < 8; ++x) {
      const auto at = place_of(x, y, 9);
      look = look << 1U | (places.at(at) > places.at(at + 1) ? 1U : 0U);
    }
  looks_.resize(slot + 1, look);
}

std::optional<Still> PictureLog::still_of(std::int64_t first, std::int64_t last) const {
  const Kept* best = nullptr;
  for (const auto& one : kept_) {
    const auto number = static_cast<std::int64_t>(one.number);
    if (number >= first && number <= last && (best == nullptr || one.worth > best->worth)) best = &one;
  }
  return best == nullptr ? std::nullopt : std::optional(best->still);
}

void PictureLog::finish(ClipLog& log, MediaTime end) {
  while (!pending_.empty()) {
    settle(std::move(pending_.front()));
    pending_.pop_front();
  }
  keep_best();
  const auto& notes = comparer_.notes();
  log.looks = std::move(looks_);
  if (notes.empty()) return;
  end = std::max(end, notes.back().time);
  const auto changes = shot_changes(notes, comparer_.blends());
  const auto time_of = [&](std::int64_t frame) {
    return frame < static_cast<std::int64_t>(notes.size()) ? notes[static_cast<std::size_t>(frame)].time
                                                           : end;
  };
  std::int64_t first = 0;
  std::int64_t settled = 0;  // past the transition into the shot
  std::optional<ShotStart> into;
  for (std::size_t i = 0; i <= changes.size(); ++i) {
    const bool is_last = i == changes.size();
    const auto past = is_last ? static_cast<std::int64_t>(notes.size()) : changes[i].frame;
    const auto whole = is_last ? past : changes[i].begin;
    LoggedShot shot{{time_of(first), time_of(past)}, first, past - 1, into, still_of(settled, whole - 1)};
    if (!shot.still) shot.still = still_of(first, past - 1);
    log.shots.push_back(std::move(shot));
    if (is_last) break;
    first = past;
    settled = changes[i].end;
    into = changes[i].how;
  }
  for (auto& fault : picture_faults(notes, end)) log.faults.push_back(std::move(fault));
}

}  // namespace panslate::av
