#pragma once

#include <cstddef>
#include <cstdio>
#include <exception>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "speech/sphinx_scores.h"

/// The scores of a sound as the file that PocketSphinx reads them from. Nothing of it is on the disk: each
/// frame is scored when it is read.
namespace panslate {

class ScoreFile {
 public:
  /// `heard_all` is called once all frames were taken, before the decoder is told that it was the last.
  ScoreFile(SoundScores& scores, SphinxScorer& scorer, double log_base, std::function<void()> heard_all);
  ScoreFile(const ScoreFile&) = delete;
  ScoreFile& operator=(const ScoreFile&) = delete;
  ~ScoreFile() = default;

  /// Null where there is no memory for it.
  [[nodiscard]] std::FILE* get() const { return file_.get(); }
  /// What was thrown while it was read: not through the decoder, which knows no exceptions.
  void rethrow() const {
    if (thrown_) std::rethrow_exception(thrown_);
  }

 private:
  struct Close {
    void operator()(std::FILE* file) const noexcept { static_cast<void>(std::fclose(file)); }
  };

  std::size_t read(char* out, std::size_t most);

  SoundScores* scores_;
  SphinxScorer* scorer_;
  std::function<void()> heard_all_;
  std::string chunk_;      // header, then frame by frame
  std::size_t taken_ = 0;  // of the chunk
  std::size_t frame_ = 0;  // the next one
  bool told_ = false;
  std::exception_ptr thrown_;
  std::unique_ptr<std::FILE, Close> file_;
};

}  // namespace panslate
