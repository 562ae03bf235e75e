#include "deliver/page_template.h"

#include <utility>

#include "panslate/deliver/escape.h"

namespace panslate {

std::string fill_template(std::string_view page, const PageData& data) {
  kainjow::mustache::mustache engine{std::string(page)};
  engine.set_custom_escape([](const std::string& text) { return escape_html(text); });
  return engine.render(data);
}

void set_list(PageData& data, const std::string& name, const PageData& items) {
  const bool any = items.is_non_empty_list();
  data.set("has_" + name, PageData(any ? PageData::type::bool_true : PageData::type::bool_false));
  data.set(name, items);
}

}  // namespace panslate
