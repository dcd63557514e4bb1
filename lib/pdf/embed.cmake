# The sRGB profile becomes a table of bytes.
find_file(SRGB_PROFILE sRGB.icc PATHS /usr/share/color/icc NO_DEFAULT_PATH REQUIRED)
file(READ ${SRGB_PROFILE} hex HEX)
string(REGEX REPLACE "(..)" "0x\\1," bytes "${hex}")
string(REGEX REPLACE "(0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,0x..,)" "\\1\n"
       bytes "${bytes}")
set(code ${CMAKE_BINARY_DIR}/generated/srgb.cpp)
file(CONFIGURE OUTPUT ${code} CONTENT "#include \"pdf/archive.h\"

namespace dogear::pdf {
namespace {
constexpr unsigned char profile[] = {
@bytes@};
}  // namespace

std::string_view srgb_profile() {
  return {reinterpret_cast<const char*>(profile), sizeof profile};
}

}  // namespace dogear::pdf
" @ONLY)
target_sources(dogear_pdf PRIVATE ${code})
