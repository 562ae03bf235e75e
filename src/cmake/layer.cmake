# panslate_layer(NAME USES layers… LIBRARIES outside… SOURCES files…)
# One static library per folder of the house. USES is the row of the layer table: nothing else may be included.
# LIBRARIES are the third-party libraries only this layer knows; they stay private.
function(panslate_layer name)
  cmake_parse_arguments(arg "" "" "USES;LIBRARIES;SOURCES" ${ARGN})
  add_library(panslate_${name} STATIC ${arg_SOURCES})
  target_include_directories(panslate_${name} PUBLIC $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/include>
                                                     $<INSTALL_INTERFACE:include>
                                              PRIVATE ${PROJECT_SOURCE_DIR}/src)
  foreach(used IN LISTS arg_USES)
    target_link_libraries(panslate_${name} PUBLIC panslate_${used})
  endforeach()
  target_link_libraries(panslate_${name} PUBLIC tl::expected PRIVATE ${arg_LIBRARIES}
                                         PRIVATE $<BUILD_INTERFACE:panslate_options>
                                                 $<BUILD_INTERFACE:panslate_warnings>)
  target_compile_features(panslate_${name} PUBLIC cxx_std_20)
  panslate_precompile(panslate_${name})
endfunction()
