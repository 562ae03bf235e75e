# Narration for measuring recognition: synthetic voices, which only tests link.
pkg_check_modules(ESPEAK_NG REQUIRED IMPORTED_TARGET espeak-ng)
find_library(FLITE_ENGLISH_LIBRARY flite_usenglish REQUIRED)
set(panslate_voices)
foreach(voice kal16 rms awb slt)
  find_library(FLITE_VOICE_${voice} flite_cmu_us_${voice} REQUIRED)
  list(APPEND panslate_voices ${FLITE_VOICE_${voice}})
endforeach()
add_library(panslate_narration STATIC speech/narration.cpp speech/noise.cpp speech/spoken_script.cpp speech/synthesiser.cpp)
target_include_directories(panslate_narration PUBLIC ${PROJECT_SOURCE_DIR}/tests)
target_compile_options(panslate_narration PRIVATE -O2)  # sound is long, whatever is being debugged
target_link_libraries(
  panslate_narration
  PUBLIC panslate_base
  PRIVATE ${panslate_voices} ${FLITE_ENGLISH_LIBRARY} panslate_flite PkgConfig::ESPEAK_NG panslate_options panslate_warnings)

# What the tests and the measurement of listening for amounts share.
add_library(panslate_listening_figures STATIC check/listening_figures.cpp)
target_link_libraries(panslate_listening_figures PUBLIC panslate_check panslate_narration PRIVATE panslate_options panslate_warnings)
target_compile_definitions(panslate_listening_figures PRIVATE PANSLATE_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
