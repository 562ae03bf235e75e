#pragma once

#include <string>
#include <string_view>

#include <kainjow/mustache.hpp>

/// The one way to make a page: a template of ours filled with data. Every value is escaped for HTML unless
/// the template says three braces, which is for our own style sheet and picture data alone.
namespace panslate {

using PageData = kainjow::mustache::data;

[[nodiscard]] std::string fill_template(std::string_view page, const PageData& data);

/// A list whose emptiness a template can ask for: `name` holds the items, `has_name` whether there are any.
void set_list(PageData& data, const std::string& name, const PageData& items);

}  // namespace panslate
