#include "speech/score_file.h"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <utility>

namespace panslate {

namespace {

void put(std::string& out, const void* bytes, std::size_t size) {
  out.append(static_cast<const char*>(bytes), size);
}

}  // namespace

ScoreFile::ScoreFile(SoundScores& scores, SphinxScorer& scorer, double log_base,
                     std::function<void()> heard_all)
    : scores_(&scores), scorer_(&scorer), heard_all_(std::move(heard_all)) {
  chunk_ = "s3\nversion 0.1\nn_sen " + std::to_string(scorer.senones()) + "\nlogbase " +
           std::to_string(log_base) + "\nendhdr\n";
  constexpr std::uint32_t kByteOrder = 0x11223344;
  put(chunk_, &kByteOrder, sizeof kByteOrder);
  cookie_io_functions_t functions{};
  functions.read = [](void* self, char* out, std::size_t most) {
    return static_cast<ssize_t>(static_cast<ScoreFile*>(self)->read(out, most));
  };
  file_.reset(::fopencookie(this, "r", functions));
}

std::size_t ScoreFile::read(char* out, std::size_t most) {
  try {
    if (taken_ == chunk_.size()) {
      if (frame_ == scores_->frames()) {
        if (!told_) heard_all_();
        told_ = true;
        return 0;
      }
      const auto scores = scores_->at(frame_++, *scorer_);
      const auto count = static_cast<std::int16_t>(scores.size());
      chunk_.clear();
      taken_ = 0;
      put(chunk_, &count, sizeof count);
      put(chunk_, scores.data(), scores.size_bytes());
    }
    const auto size = std::min(most, chunk_.size() - taken_);
    std::memcpy(out, chunk_.data() + taken_, size);
    taken_ += size;
    return size;
  } catch (...) {
    thrown_ = std::current_exception();
    return 0;
  }
}

}  // namespace panslate
