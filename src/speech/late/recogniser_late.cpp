// The recogniser as the program has it: PocketSphinx brings linear algebra in Fortran along, whose loading
// takes 2 ms of the 3 that `panslate --version` takes. So it is loaded when something is listened to.
#include <dlfcn.h>

#include "speech/late/functions.h"

namespace panslate {
namespace {

using Entry = const RecogniserFunctions* (*)();

Result<const RecogniserFunctions*> load() {
  // Never closed: recognisers live as long as their owners like.
  void* const module = dlopen(PANSLATE_MODULE_FILE, RTLD_NOW | RTLD_LOCAL);
  void* const entry = module == nullptr ? nullptr : dlsym(module, PANSLATE_MODULE_ENTRY);
  if (entry == nullptr) {
    const char* const reason = dlerror();
    return fail(ErrorCode::NotFound,
                "the part of panslate that listens cannot be loaded: " +
                    std::string(reason == nullptr ? PANSLATE_MODULE_FILE : reason),
                std::nullopt,
                "install panslate again; the file " PANSLATE_MODULE_FILE " belongs beside the program");
  }
  return reinterpret_cast<Entry>(entry)();
}

const Result<const RecogniserFunctions*>& loaded() {
  static const Result<const RecogniserFunctions*> once = load();
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
