// The only symbol that the loadable module shows; its name carries the version, as that of the footage's
// does.
#include "speech/late/functions.h"

extern "C" [[gnu::visibility("default")]] const panslate::RecogniserFunctions* PANSLATE_MODULE_ENTRY();

const panslate::RecogniserFunctions* PANSLATE_MODULE_ENTRY() {
  static constexpr panslate::RecogniserFunctions kFunctions{&panslate::open_recogniser,
                                                            &panslate::open_transcriber};
  return &kFunctions;
}
