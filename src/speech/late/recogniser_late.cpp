// The recogniser as the program has it: PocketSphinx brings linear algebra in Fortran along, whose loading
// takes 2 ms of the 3 that `panslate --version` takes. So it is loaded when something is listened to.
#include "panslate/base/loaded_module.h"

#include "speech/late/functions.h"

namespace panslate {
namespace {

const Result<const RecogniserFunctions*>& loaded() {
  static const Result<const RecogniserFunctions*> once =
      load_module<RecogniserFunctions>(PANSLATE_MODULE_FILE, PANSLATE_MODULE_ENTRY, "listens");
  return once;
}

}  // namespace

Result<std::unique_ptr<Recogniser>> open_recogniser(const std::filesystem::path& model) {
  return loaded().and_then([&](const RecogniserFunctions* module) { return module->open_recogniser(model); });
}

Result<std::unique_ptr<Transcriber>> open_transcriber(const LikelyTalk& talk,
                                                      const std::filesystem::path& model) {
  return loaded().and_then(
      [&](const RecogniserFunctions* module) { return module->open_transcriber(talk, model); });
}

}  // namespace panslate
