# Puts the texts of templates/ into the library, so that the program runs from anywhere.
file(GLOB template_files CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/templates/*.yaml)
list(SORT template_files)
set(DOGEAR_TEMPLATES "")
foreach(template_file ${template_files})
  file(READ ${template_file} template_text)
  get_filename_component(template_name ${template_file} NAME)
  string(APPEND DOGEAR_TEMPLATES
         "      {\"${template_name}\", R\"yaml(${template_text})yaml\"},\n")
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${template_file})
endforeach()
configure_file(${CMAKE_CURRENT_LIST_DIR}/builtin.cpp.in ${CMAKE_BINARY_DIR}/generated/builtin.cpp
               @ONLY)
target_sources(dogear_words PRIVATE ${CMAKE_BINARY_DIR}/generated/builtin.cpp)
