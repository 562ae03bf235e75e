#include "panslate/deliver/page_style.h"

#include "embedded/page_css.h"

namespace panslate {

std::string_view page_style() {
  return embedded::page_css;
}

}  // namespace panslate
