#include "panslate/base/progress.h"

namespace panslate {

void NoProgress::step(std::string_view, std::int64_t, std::int64_t) {}

}  // namespace panslate
