// The only symbol that the loadable module shows. Its name carries the version, so that a module left over
// from another one is not taken for ours.
#include "media/late/functions.h"

extern "C" [[gnu::visibility("default")]] const panslate::MediaFunctions* PANSLATE_MODULE_ENTRY();

const panslate::MediaFunctions* PANSLATE_MODULE_ENTRY() {
  static constexpr panslate::MediaFunctions kFunctions{
      &panslate::probe_clip,  &panslate::take_still, &panslate::take_stills, &panslate::take_sound,
      &panslate::render_film, &panslate::log_clip,   &panslate::make_proxy};
  return &kFunctions;
}
