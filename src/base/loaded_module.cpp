#include "panslate/base/loaded_module.h"

#include <string>

#include <dlfcn.h>

namespace panslate {

Result<void*> symbol_of_module(const char* file, const char* entry, const char* does) {
  void* const module = dlopen(file, RTLD_NOW | RTLD_LOCAL);
  void* const symbol = module == nullptr ? nullptr : dlsym(module, entry);
  if (symbol == nullptr) {
    const char* const reason = dlerror();
    return fail(ErrorCode::NotFound,
                "the part of panslate that " + std::string(does) +
                    " cannot be loaded: " + (reason == nullptr ? file : reason),
                std::nullopt,
                "install panslate again; the file " + std::string(file) + " belongs beside the program");
  }
  return symbol;
}

}  // namespace panslate
