#pragma once
// What a file says of itself, so that archives keep it and reading programs trust its structure:
// PDF/A-1b (ISO 19005-1) and PDF/UA-1 (ISO 14289-1).

#include <optional>
#include <string>

#include "pdf/objects.h"

namespace dogear::pdf {

struct About {
  std::string title, author, subject, language;
  std::string producer;             // the program that wrote the objects
  std::optional<std::string> date;  // "2026-11-25T19:00:00Z"
  bool for_all = false;             // its structure keeps the rules of PDF/UA-1
};

inline constexpr const char* creator = "dogear " DOGEAR_VERSION;

// The same as the document information, in XML (XMP).
std::string metadata(const About& about);
void write_metadata(Objects& objects, const About& about);

// Colours are sRGB: with its profile, every printer knows what they look like.
void write_colour_profile(Objects& objects);
// The profile's bytes, from Debian's icc-profiles-free when the program was built.
std::string_view srgb_profile();

}  // namespace dogear::pdf
