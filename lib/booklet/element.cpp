#include "booklet/element.h"

namespace dogear::booklet {

std::vector<Element>& Elements::open_part() {
  std::vector<Element>* part = &all_;
  for (std::size_t d = 0; d < depth_; ++d) part = &part->back().children;
  return *part;
}

void Elements::open(Element element) {
  add(std::move(element));
  ++depth_;
}

std::string plain_text(const Runs& runs) {
  std::string out;
  for (const Run& r : runs) out += r.line_break ? " " : r.text;
  return out;
}

std::optional<Element> part_of(canvas::Role role) {
  Element part;
  switch (role) {
    case canvas::Role::section:
      part.kind = Element::Kind::section;
      return part;
    case canvas::Role::list:
      part.kind = Element::Kind::list;
      return part;
    case canvas::Role::item:
      part.kind = Element::Kind::item;
      return part;
    case canvas::Role::note:
      part.kind = Element::Kind::note;
      return part;
    default:
      return std::nullopt;
  }
}

}  // namespace dogear::booklet
