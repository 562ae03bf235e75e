# panslate_loaded_module(NAME NOW layer LATE layer SOURCE file): what the layer NOW does, in a module of its own that
# the layer LATE loads when it is first asked for (base/loaded_module.h). SOURCE shows the module's only symbol,
# PANSLATE_MODULE_ENTRY, whose name carries the version: an older module beside a newer program is not taken for its own.
function(panslate_loaded_module name)
  cmake_parse_arguments(arg "" "NOW;LATE;SOURCE" "" ${ARGN})
  string(MAKE_C_IDENTIFIER ${name}_entry_${PROJECT_VERSION} entry)
  add_library(${name} MODULE ${arg_SOURCE})
  target_include_directories(${name} PRIVATE ${PROJECT_SOURCE_DIR}/src)
  target_compile_definitions(${name} PRIVATE PANSLATE_MODULE_ENTRY=${entry})
  target_link_libraries(${name} PRIVATE panslate_${arg_NOW} panslate_options panslate_warnings)
  # What it brings along stays its own, and is not mistaken for the program's.
  target_link_options(${name} PRIVATE -Wl,--exclude-libs,ALL)
  set_target_properties(panslate_base panslate_${arg_NOW} PROPERTIES POSITION_INDEPENDENT_CODE ON)
  set_target_properties(${name} PROPERTIES PREFIX "" LIBRARY_OUTPUT_DIRECTORY ${PROJECT_BINARY_DIR})
  install(TARGETS ${name} LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/panslate)
  target_compile_definitions(panslate_${arg_LATE} PRIVATE PANSLATE_MODULE_ENTRY="${entry}"
                                                          PANSLATE_MODULE_FILE="$<TARGET_FILE_NAME:${name}>")
  add_dependencies(panslate_${arg_LATE} ${name})
endfunction()
