#pragma once

#include <map>
#include <string>
#include <vector>

#include "panslate/media/still.h"

#include "deliver/page_template.h"

namespace panslate {

/// The pictures within a page: each is carried once, however often it is shown, and no more than keep the
/// page light enough to be mailed.
class PageStills {
 public:
  /// Sets `picture` to {id, width, height, alt}, or to false where there is no picture or no room for one
  /// more. Those asked for first are carried first. The still must outlive this.
  void set_picture(PageData& data, const Still* still, const std::string& alt);

  /// {id, width, height, uri} of every picture carried.
  [[nodiscard]] PageData carried() const;

  /// How many were left out for want of room.
  [[nodiscard]] std::size_t left_out() const { return left_out_; }

 private:
  std::vector<const Still*> stills_;
  std::map<const Still*, std::size_t> number_of_;
  std::size_t bytes_ = 0;
  std::size_t left_out_ = 0;
};

}  // namespace panslate
