#include "media/filter_chain.h"

namespace panslate::av {

void FilterChain::then(const char* filter, const std::string& options) {
  if (error_ < 0) return;
  const AVFilter* known = avfilter_get_by_name(filter);
  if (known == nullptr) {
    error_ = AVERROR_FILTER_NOT_FOUND;
    return;
  }
  AVFilterContext* added = nullptr;
  error_ = avfilter_graph_create_filter(&added, known, nullptr, options.c_str(), nullptr, &graph_);
  if (error_ >= 0) error_ = avfilter_link(last_, pad_, added, 0);
  if (error_ < 0) return;
  last_ = added;
  pad_ = 0;
}

}  // namespace panslate::av
