#pragma once
#include <string>
#include <variant>

#include "canvas/display.h"

namespace dogear::test {

// The words of a page, figures left out: what they say is compared as figures.
inline void read_text(const canvas::DisplayList& list, std::string& out) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      out += run->text() + ' ';
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      if (group->role != canvas::Role::figure) read_text(*group->list, out);
    } else if (const auto* form = std::get_if<canvas::Form>(&item)) {
      read_text(*form->list, out);
    }
  }
}

}  // namespace dogear::test
