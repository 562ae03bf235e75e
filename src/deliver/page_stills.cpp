#include "deliver/page_stills.h"

#include "deliver/data_uri.h"
#include "deliver/page_marks.h"

namespace panslate {

namespace {
// Of base64 in the page; with its text it stays below 3 MB.
constexpr std::size_t kMostBytes = 2'300'000;
}  // namespace

void PageStills::set_picture(PageData& data, const Still* still, const std::string& alt) {
  set_flag(data, "picture", false);
  if (still == nullptr || still->jpeg.empty()) return;
  const auto [found, is_new] = number_of_.try_emplace(still, stills_.size());
  if (is_new) {
    const auto size = (still->jpeg.size() + 2) / 3 * 4;
    if (bytes_ + size > kMostBytes) {
      number_of_.erase(found);
      ++left_out_;
      return;
    }
    bytes_ += size;
    stills_.push_back(still);
  }
  PageData picture;
  picture.set("id", "k" + std::to_string(found->second));
  picture.set("width", std::to_string(still->width));
  picture.set("height", std::to_string(still->height));
  picture.set("alt", alt);
  data.set("picture", picture);
}

PageData PageStills::carried() const {
  PageData list(PageData::type::list);
  for (std::size_t i = 0; i < stills_.size(); ++i) {
    PageData data;
    data.set("id", "k" + std::to_string(i));
    data.set("width", std::to_string(stills_[i]->width));
    data.set("height", std::to_string(stills_[i]->height));
    data.set("uri", jpeg_data_uri(stills_[i]->jpeg));
    list.push_back(data);
  }
  return list;
}

}  // namespace panslate
