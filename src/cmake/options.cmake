# panslate_options: what every target of ours is compiled with.
add_library(panslate_options INTERFACE)
target_compile_features(panslate_options INTERFACE cxx_std_20)
set(CMAKE_CXX_EXTENSIONS OFF)

find_program(PANSLATE_CCACHE ccache)
if(PANSLATE_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${PANSLATE_CCACHE})
endif()

if(PANSLATE_SANITIZE)
  set(panslate_sanitize_flags -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  if(CMAKE_BUILD_TYPE STREQUAL "Debug")
    list(APPEND panslate_sanitize_flags -O1 -gline-tables-only)  # all that a finding's stack needs
  endif()
  target_compile_options(panslate_options INTERFACE ${panslate_sanitize_flags})
  target_link_options(panslate_options INTERFACE -fsanitize=address,undefined)
endif()
if(PANSLATE_FUZZERS)
  target_compile_options(panslate_options INTERFACE -fsanitize=fuzzer-no-link)
endif()

# panslate_precompile(TARGET [HEADERS…]): the standard headers that most sources read, read once, where the preset asks
# for it. Not in `dev`, which proves that every source includes what it uses.
function(panslate_precompile target)
  if(PANSLATE_PRECOMPILE)
    target_precompile_headers(
      ${target} PRIVATE <algorithm> <array> <charconv> <cstdint> <filesystem> <fstream> <functional> <map> <memory> <optional>
      <set> <span> <sstream> <string> <string_view> <unordered_map> <unordered_set> <utility> <variant> <vector> ${ARGN})
  endif()
endfunction()
