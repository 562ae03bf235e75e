#pragma once

#include <string>

#include "media/av.h"

namespace panslate::av {

/// Adds filters one behind the other to an open end of a graph. The first failure stops it and is kept.
class FilterChain {
 public:
  FilterChain(AVFilterGraph& graph, AVFilterContext& last, unsigned pad)
      : graph_(graph), last_(&last), pad_(pad) {}

  void then(const char* filter, const std::string& options);
  [[nodiscard]] AVFilterContext* last() const { return last_; }
  /// Negative after a failure: an AVERROR.
  [[nodiscard]] int error() const { return error_; }

 private:
  AVFilterGraph& graph_;
  AVFilterContext* last_;
  unsigned pad_;
  int error_ = 0;
};

}  // namespace panslate::av
