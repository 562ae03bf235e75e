#include "recipe/microdata.h"

#include <numeric>
#include <string>
#include <utility>

#include <nlohmann/json.hpp>

#include "panslate/base/text.h"

#include "recipe/html_text.h"
#include "recipe/recipe_data.h"
#include "recipe/word_list.h"

namespace panslate {

namespace {

using nlohmann::json;

constexpr int kDeepest = 8;  // recipe, section, step, direction

bool opens_item(const HtmlNode& node) {
  return node.has("itemscope") || node.has("typeof");
}

std::string_view type_of(const HtmlNode& node) {
  return node.has("itemtype") ? node.value("itemtype") : node.value("typeof");
}

// A name without the address before it: "https://schema.org/Recipe", "schema:Recipe".
std::string_view bare(std::string_view name) {
  name = trim(name);
  const auto cut = name.find_last_of("/:#");
  return cut == std::string_view::npos ? name : name.substr(cut + 1);
}

// One attribute may tell several, parted by spaces.
std::vector<std::string> names_in(std::string_view attribute) {
  std::vector<std::string> out;
  for (const auto& name : split(collapse_spaces(attribute), ' '))
    if (!name.empty()) out.emplace_back(bare(name));
  return out;
}

std::string first_name_in(std::string_view attribute) {
  const auto words = trim(attribute);
  const auto end = words.find_first_of(" \t\r\n");
  return std::string(bare(words.substr(0, end)));
}

class ItemReader {
 public:
  explicit ItemReader(const HtmlTree& page) : page_(page), budget_(size_of(page) * kTimesRead) {}

  json read(std::size_t at, int depth) {
    json item = json::object();
    item["@type"] = names_in(type_of(page_[at]));
    for (auto i = at + 1; i < page_[at].end;) {
      const auto& node = page_[i];
      const auto attribute = node.has("itemprop") ? node.value("itemprop") : node.value("property");
      const bool inner = opens_item(node);
      if (!attribute.empty()) {
        auto value = inner && depth < kDeepest ? read(i, depth + 1) : json(text(i));
        // A value of several names is kept under the first: copies of copies would outgrow any memory.
        if (const auto name = first_name_in(attribute); !name.empty()) add(item, name, std::move(value));
      }
      i = inner ? node.end : i + 1;
    }
    return item;
  }

 private:
  // Properties may lie in one another and are then read again; a page of nothing else is cut off.
  static constexpr std::size_t kTimesRead = 20;

  static std::size_t size_of(const HtmlTree& page) {
    return std::accumulate(page.begin(), page.end(), page.size(),
                           [](std::size_t sum, const HtmlNode& node) { return sum + node.text.size(); });
  }

  static void add(json& item, const std::string& name, json value) {
    auto& all = item[name];
    if (all.is_null()) all = json::array();
    if (all.is_array()) all.push_back(std::move(value));
  }

  std::string text(std::size_t at) {
    const auto& node = page_[at];
    const auto name = first_name_in(node.has("itemprop") ? node.value("itemprop") : node.value("property"));
    const bool measured = is_one_of(name, {"prepTime", "cookTime", "totalTime"});
    if (node.has("content") && (node.tag == "meta" || measured)) return std::string(node.value("content"));
    if (node.tag == "time" && node.has("datetime")) return std::string(node.value("datetime"));
    if (node.tag == "link") return std::string(bare(node.value("href")));
    auto size = node.end - at;
    for (auto i = at; i < node.end && size <= budget_; ++i) size += page_[i].text.size();
    if (size > budget_) {
      budget_ = 0;
      return {};
    }
    budget_ -= size;
    return text_of_html(page_, at + 1, node.end, LineEnds::Space);
  }

  const HtmlTree& page_;
  std::size_t budget_;
};

}  // namespace

std::optional<json> read_microdata(const HtmlTree& page) {
  std::optional<json> first;
  for (std::size_t i = 0; i < page.size();) {
    if (!opens_item(page[i]) || fold_case(bare(type_of(page[i]))) != "recipe") {
      ++i;
      continue;
    }
    auto item = ItemReader(page).read(i, 0);
    if (lists_ingredients(item)) return item;
    if (!first) first = std::move(item);
    i = page[i].end;
  }
  return first;
}

}  // namespace panslate
