#pragma once

#include "panslate/base/result.h"

namespace panslate {

/// The parts of the program that it loads when they are first needed, because what they bring along takes
/// longer to load than a whole check of words. `file` is the module's file beside the program, `entry` its
/// only symbol, a function that gives its table of functions. Never closed: the libraries that come with it
/// stay in use until the program ends. Fails (NotFound) saying that the part that `does` cannot be loaded.
template <class Functions>
[[nodiscard]] Result<const Functions*> load_module(const char* file, const char* entry, const char* does);

/// The symbol alone, for load_module.
[[nodiscard]] Result<void*> symbol_of_module(const char* file, const char* entry, const char* does);

template <class Functions>
Result<const Functions*> load_module(const char* file, const char* entry, const char* does) {
  return symbol_of_module(file, entry, does).map([](void* symbol) {
    return reinterpret_cast<const Functions* (*)()>(symbol)();
  });
}

}  // namespace panslate
