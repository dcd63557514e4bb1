# Puts text files into a target, so that the program runs from anywhere. FUNCTION, declared in HEADER
# as `const std::map<std::string, std::string>& FUNCTION()`, gives their texts by their path within
# BASE, without the ending STRIP where that is given.
function(dogear_embed target)
  cmake_parse_arguments(ARG "" "HEADER;FUNCTION;BASE;STRIP" "FILES" ${ARGN})
  list(SORT ARG_FILES)
  set(texts "")
  foreach(file ${ARG_FILES})
    file(READ ${file} text)
    file(RELATIVE_PATH name ${ARG_BASE} ${file})
    if(ARG_STRIP)
      string(REPLACE "${ARG_STRIP}" "" name ${name})
    endif()
    string(APPEND texts "      {\"${name}\", R\"text(${text})text\"},\n")
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
  endforeach()
  set(code ${CMAKE_BINARY_DIR}/generated/${ARG_FUNCTION}.cpp)
  file(CONFIGURE OUTPUT ${code} CONTENT "#include \"@ARG_HEADER@\"

namespace dogear {

const std::map<std::string, std::string>& @ARG_FUNCTION@() {
  static const std::map<std::string, std::string> all{
@texts@  };
  return all;
}

}  // namespace dogear
" @ONLY)
  target_sources(${target} PRIVATE ${code})
endfunction()
