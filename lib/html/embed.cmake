# Puts the page's style and script into the library, so that the program runs from anywhere.
file(READ ${CMAKE_CURRENT_LIST_DIR}/page.css DOGEAR_PAGE_STYLE)
file(READ ${CMAKE_CURRENT_LIST_DIR}/page.js DOGEAR_PAGE_SCRIPT)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS
             ${CMAKE_CURRENT_LIST_DIR}/page.css ${CMAKE_CURRENT_LIST_DIR}/page.js)
configure_file(${CMAKE_CURRENT_LIST_DIR}/embedded.cpp.in
               ${CMAKE_BINARY_DIR}/generated/embedded_page.cpp @ONLY)
target_sources(dogear_html PRIVATE ${CMAKE_BINARY_DIR}/generated/embedded_page.cpp)
