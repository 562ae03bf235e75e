# Libraries of the distribution, each under one target name. Which layer may use which is decided in src/CMakeLists.txt.
find_package(PkgConfig REQUIRED)
find_package(fmt REQUIRED)
find_package(nlohmann_json REQUIRED)
find_package(CLI11 REQUIRED)
find_package(valijson REQUIRED)
find_package(tl-expected REQUIRED)

pkg_check_modules(GUMBO REQUIRED IMPORTED_TARGET gumbo)
pkg_check_modules(ICU REQUIRED IMPORTED_TARGET icu-uc icu-i18n)
pkg_check_modules(FFMPEG REQUIRED IMPORTED_TARGET libavformat libavcodec libavfilter libavutil libswscale libswresample)

pkg_check_modules(EBUR128 REQUIRED IMPORTED_TARGET libebur128)

# A local page; built into the library itself, so not a header alone.
pkg_check_modules(HTTPLIB REQUIRED IMPORTED_TARGET cpp-httplib)
pkg_check_modules(NETTLE REQUIRED IMPORTED_TARGET nettle)

# The template engine is a single header without a CMake file.
find_path(KAINJOW_MUSTACHE_INCLUDE kainjow/mustache.hpp REQUIRED)
find_path(STEMMER_INCLUDE libstemmer.h REQUIRED)
find_library(STEMMER_LIBRARY stemmer REQUIRED)
add_library(panslate_stemmer INTERFACE)
target_include_directories(panslate_stemmer SYSTEM INTERFACE ${STEMMER_INCLUDE})
target_link_libraries(panslate_stemmer INTERFACE ${STEMMER_LIBRARY})

# How words sound. flite has no CMake file; its lexicon calls into the library itself.
find_path(FLITE_INCLUDE flite/flite.h REQUIRED)
find_library(FLITE_LIBRARY flite REQUIRED)
find_library(FLITE_LEXICON_LIBRARY flite_cmulex REQUIRED)
add_library(panslate_flite INTERFACE)
target_include_directories(panslate_flite SYSTEM INTERFACE ${FLITE_INCLUDE})
target_link_libraries(panslate_flite INTERFACE ${FLITE_LEXICON_LIBRARY} ${FLITE_LIBRARY})

# How speech is found in sound. The model is read at run time; it is named here for the program's default.
# Not its third library, which is for microphones and brings the sound systems along.
pkg_check_modules(POCKETSPHINX REQUIRED pocketsphinx)
find_library(POCKETSPHINX_LIBRARY pocketsphinx REQUIRED)
find_library(SPHINXBASE_LIBRARY sphinxbase REQUIRED)
add_library(panslate_pocketsphinx INTERFACE)
target_include_directories(panslate_pocketsphinx SYSTEM INTERFACE ${POCKETSPHINX_INCLUDE_DIRS})
target_link_libraries(panslate_pocketsphinx INTERFACE ${POCKETSPHINX_LIBRARY} ${SPHINXBASE_LIBRARY})
find_path(PANSLATE_SPEECH_MODEL en-us/mdef PATHS /usr/share/pocketsphinx/model/en-us NO_DEFAULT_PATH REQUIRED)

# Which words are English, in British and American spelling (Debian's wbritish-small, wamerican-small).
find_file(PANSLATE_BRITISH_WORDS british-english-small PATHS /usr/share/dict NO_DEFAULT_PATH REQUIRED)
find_file(PANSLATE_AMERICAN_WORDS american-english-small PATHS /usr/share/dict NO_DEFAULT_PATH REQUIRED)
