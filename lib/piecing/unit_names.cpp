#include "piecing/unit_names.h"

#include <algorithm>

#include "base/text.h"

namespace dogear {

bool is_row(const std::string& name) { return starts_with(name, "row ") || name == "sashing row"; }

bool is_border(const std::string& name) {
  return name == "border" || starts_with(name, "border ") || name == "center with side borders";
}

bool is_pieced_border(const std::string& name) { return starts_with(name, "pieced border"); }

bool is_sashing(const std::string& name) {
  return name == "outer sashing" || name == "center with side sashing";
}

bool goes_around(const std::string& name) { return is_border(name) || is_sashing(name); }

bool is_section(const std::string& name) {
  return name.empty() || name.find(" section ") != std::string::npos;
}

bool is_mitred(const SewnUnit& unit) {
  return std::any_of(unit.seams.begin(), unit.seams.end(),
                     [](const Seam& s) { return s.kind == SeamKind::mitre; });
}

}  // namespace dogear
