# panslate_embed(TARGET VARIABLE FILE): compiles a text file (of this folder, or by its whole path) into TARGET as
#   extern const std::string_view panslate::embedded::VARIABLE;   (header: embedded/VARIABLE.h)
# so that tables, schemas and page templates are edited as themselves and need no installed files at run time.
set(PANSLATE_EMBED_SCRIPT ${CMAKE_CURRENT_LIST_DIR}/embed_file.cmake)
function(panslate_embed target variable file)
  set(out_dir ${CMAKE_CURRENT_BINARY_DIR}/embedded_${target})
  get_filename_component(file ${file} ABSOLUTE BASE_DIR ${CMAKE_CURRENT_SOURCE_DIR})
  set(header ${out_dir}/embedded/${variable}.h)
  set(source ${out_dir}/${variable}.cpp)
  add_custom_command(
    OUTPUT ${header} ${source}
    COMMAND ${CMAKE_COMMAND} -DIN=${file} -DVARIABLE=${variable} -DHEADER=${header}
            -DSOURCE=${source} -P ${PANSLATE_EMBED_SCRIPT}
    DEPENDS ${file} ${PANSLATE_EMBED_SCRIPT}
    COMMENT "Embedding ${file}"
    VERBATIM)
  set_source_files_properties(${source} PROPERTIES SKIP_PRECOMPILE_HEADERS ON)
  target_sources(${target} PRIVATE ${header} ${source})
  target_include_directories(${target} PRIVATE ${out_dir})
endfunction()
