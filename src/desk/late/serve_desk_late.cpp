// The server as the program has it: the HTTP library comes with OpenSSL, whose loading takes a good part of
// what a whole check of words takes. So it is loaded when the desk is opened.
#include "panslate/base/loaded_module.h"

#include "desk/late/functions.h"

namespace panslate {

Status serve_desk(const DeskServing& serving) {
  return load_module<DeskFunctions>(PANSLATE_MODULE_FILE, PANSLATE_MODULE_ENTRY, "serves the desk")
      .and_then([&](const DeskFunctions* desk) { return desk->serve_desk(serving); });
}

}  // namespace panslate
