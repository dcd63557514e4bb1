# Puts the texts of codes/ into the library, so that the program can explain every code.
file(GLOB code_files CONFIGURE_DEPENDS ${CMAKE_CURRENT_LIST_DIR}/codes/*.md)
list(SORT code_files)
set(DOGEAR_CODES "")
foreach(code_file ${code_files})
  file(READ ${code_file} code_text)
  get_filename_component(code_name ${code_file} NAME_WE)
  string(APPEND DOGEAR_CODES "      {\"${code_name}\", R\"code(${code_text})code\"},\n")
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${code_file})
endforeach()
configure_file(${CMAKE_CURRENT_LIST_DIR}/codes.cpp.in ${CMAKE_BINARY_DIR}/generated/codes.cpp
               @ONLY)
target_sources(dogear_diag PRIVATE ${CMAKE_BINARY_DIR}/generated/codes.cpp)
