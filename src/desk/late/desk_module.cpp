// The only symbol that the loadable module shows. Its name carries the version, so that a module left over
// from another one is not taken for ours.
#include "desk/late/functions.h"

extern "C" [[gnu::visibility("default")]] const panslate::DeskFunctions* PANSLATE_MODULE_ENTRY();

const panslate::DeskFunctions* PANSLATE_MODULE_ENTRY() {
  static constexpr panslate::DeskFunctions kFunctions{&panslate::serve_desk};
  return &kFunctions;
}
