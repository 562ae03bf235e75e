# panslate_warnings: strict on our own code; errors only where this is the top project, so that
# whoever builds us as a part of something else is not stopped by a newer compiler's opinion.
add_library(panslate_warnings INTERFACE)
target_compile_options(panslate_warnings INTERFACE -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Wnon-virtual-dtor
                                                   -Woverloaded-virtual -Wimplicit-fallthrough)
# GCC 12 sees overlaps that cannot be in `"x" + std::string` once it optimises (GCC bug 105651).
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  target_compile_options(panslate_warnings INTERFACE -Wno-restrict)
endif()
# GCC takes the value of an empty std::optional for one that may be read (GCC bug 80635); Clang and the sanitizers
# look for the real ones.
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  target_compile_options(panslate_warnings INTERFACE -Wno-maybe-uninitialized)
endif()
if(PROJECT_IS_TOP_LEVEL)
  target_compile_options(panslate_warnings INTERFACE -Werror)
endif()
