# Puts the style and the script of proofs into the library, so that the program runs from anywhere.
file(READ ${CMAKE_CURRENT_LIST_DIR}/proof.css DOGEAR_PROOF_STYLE)
file(READ ${CMAKE_CURRENT_LIST_DIR}/live.js DOGEAR_LIVE_SCRIPT)
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS
             ${CMAKE_CURRENT_LIST_DIR}/proof.css ${CMAKE_CURRENT_LIST_DIR}/live.js)
configure_file(${CMAKE_CURRENT_LIST_DIR}/embedded.cpp.in
               ${CMAKE_BINARY_DIR}/generated/embedded_proof.cpp @ONLY)
target_sources(dogear_proof PRIVATE ${CMAKE_BINARY_DIR}/generated/embedded_proof.cpp)
