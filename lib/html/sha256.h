#pragma once
// SHA-256 of FIPS 180-4, for the page's policy: only the script and style of this digest may run.

#include <string>
#include <string_view>

namespace dogear::html {

std::string sha256_base64(std::string_view bytes);

}  // namespace dogear::html
