# Libraries of the distribution, each under one target name. Which layer may use which is decided in src/CMakeLists.txt.
find_package(PkgConfig REQUIRED)
find_package(fmt REQUIRED)
find_package(nlohmann_json REQUIRED)
find_package(CLI11 REQUIRED)
find_package(valijson REQUIRED)
find_package(tl-expected REQUIRED)

pkg_check_modules(ICU REQUIRED IMPORTED_TARGET icu-uc icu-i18n)
pkg_check_modules(FFMPEG REQUIRED IMPORTED_TARGET libavformat libavcodec libavfilter libavutil libswscale libswresample)

# The template engine is a single header without a CMake file.
find_path(KAINJOW_MUSTACHE_INCLUDE kainjow/mustache.hpp REQUIRED)
find_path(STEMMER_INCLUDE libstemmer.h REQUIRED)
find_library(STEMMER_LIBRARY stemmer REQUIRED)
add_library(panslate_stemmer INTERFACE)
target_include_directories(panslate_stemmer SYSTEM INTERFACE ${STEMMER_INCLUDE})
target_link_libraries(panslate_stemmer INTERFACE ${STEMMER_LIBRARY})
