#include "pdf/structure.h"

#include <algorithm>

#include "base/text.h"

namespace dogear::pdf {
namespace {

using canvas::Role;

const char* standard_name(Role role) {
  switch (role) {
    case Role::figure:
      return "Figure";
    case Role::paragraph:
      return "P";
    case Role::list:
      return "L";
    case Role::item:
      return "LI";
    case Role::item_label:
      return "Lbl";
    case Role::item_body:
      return "LBody";
    case Role::table:
      return "Table";
    case Role::row:
      return "TR";
    case Role::header_cell:
      return "TH";
    case Role::cell:
      return "TD";
    case Role::caption:
      return "Caption";
    case Role::note:
      return "Note";
    case Role::heading1:
    case Role::heading2:
    case Role::heading3:
    case Role::section:
    case Role::artifact:
      break;
  }
  return "Sect";
}

// Names of one length stand in the order of their numbers.
std::string note_id(std::size_t element) {
  std::string digits = std::to_string(element);
  return "note-" + std::string(8 - std::min<std::size_t>(digits.size(), 8), '0') + digits;
}

}  // namespace

Structure::Structure() { nodes_.push_back({"Document", 0, {}, {}, -1, {}, {}}); }

Structure::Element Structure::add(Element parent, std::string name, std::string alt) {
  nodes_.push_back({std::move(name), parent, std::move(alt), {}, -1, {}, {}});
  const Element element = nodes_.size() - 1;
  nodes_[parent].kids.push_back({Kid::Kind::element, element, 0, 0, nullptr});
  return element;
}

// Who goes from heading to heading must not look for one that was left out.
std::string Structure::heading(int level) {
  heading_ = std::min(level, heading_ + 1);
  return 'H' + std::to_string(heading_);
}

Structure::Element Structure::open(Element parent, Role role, const std::string& alt, int id) {
  if (id > 0) {
    const auto found = by_id_.find({id, role});
    if (found != by_id_.end()) return found->second;
  }
  const int level = role == Role::heading1   ? 1
                    : role == Role::heading2 ? 2
                    : role == Role::heading3 ? 3
                                             : 0;
  const Element element = add(parent, level > 0 ? heading(level) : standard_name(role), alt);
  if (id > 0) by_id_[{id, role}] = element;
  return element;
}

void Structure::set_box(Element element, int page, const canvas::Rect& box) {
  nodes_[element].box = box;
  nodes_[element].page = page;
}

int Structure::mark(Element element, int page) {
  std::vector<Element>& marks = marks_[page];
  const int number = static_cast<int>(marks.size());
  marks.push_back(element);
  if (nodes_[element].page < 0) nodes_[element].page = page;
  nodes_[element].kids.push_back({Kid::Kind::content, 0, page, number, nullptr});
  return number;
}

void Structure::add_link(Element link, int page, HPDF_Dict annotation) {
  if (nodes_[link].page < 0) nodes_[link].page = page;
  nodes_[link].kids.push_back({Kid::Kind::link, 0, page, 0, annotation});
}

void Structure::set_label(Element element, const std::string& words) {
  bool within = false;
  for (Element at = element; at != root; at = nodes_[at].parent) {
    Node& node = nodes_[at];
    within = within || node.name == "Lbl";
    if (node.name == "LBody") return;
    if (node.name != "L") continue;
    if (within && node.numbering.empty())
      node.numbering = words == "•" ? "Disc" : is_digit(words.front()) ? "Decimal" : "None";
    return;
  }
}

Structure::Element Structure::block_of(Element element) const {
  return nodes_[element].name == "Link" ? nodes_[element].parent : element;
}

bool Structure::shows_shapes(Element element) const { return nodes_[element].name == "Figure"; }

bool Structure::holds_parts(Element element) const {
  const std::string& name = nodes_[element].name;
  return name == "Document" || name == "Sect" || name == "L" || name == "LI" || name == "Table" ||
         name == "TR";
}

// Nothing where the element says it all.
HPDF_Dict Structure::attributes(Objects& o, const Node& node) const {
  HPDF_Dict out = nullptr;
  const auto owned_by = [&](const char* owner) {
    out = o.dict();
    o.set_name(out, "O", owner);
  };
  if (node.name == "Figure" && !node.box.empty()) {
    owned_by("Layout");
    o.set_name(out, "Placement", "Block");
    o.set(out, "BBox", o.reals({node.box.left, node.box.top, node.box.right, node.box.bottom}));
  } else if (node.name == "TH") {
    owned_by("Table");
    o.set_name(out, "Scope", "Column");
  } else if (!node.numbering.empty()) {
    owned_by("List");
    o.set_name(out, "ListNumbering", node.numbering);
  }
  return out;
}

void Structure::write(Objects& o, const std::vector<HPDF_Page>& pages) const {
  const HPDF_Dict tree = o.object();
  std::vector<HPDF_Dict> dicts;
  dicts.reserve(nodes_.size());
  for (std::size_t i = 0; i < nodes_.size(); ++i) dicts.push_back(o.object());

  const HPDF_Array numbers = o.array();
  for (std::size_t page = 0; page < pages.size(); ++page) {
    o.set_number(pages[page], "StructParents", static_cast<long>(page));
    o.set_name(pages[page], "Tabs", "S");
    const HPDF_Array elements = o.array();
    const auto found = marks_.find(static_cast<int>(page));
    if (found != marks_.end())
      for (const Element element : found->second) o.push(elements, dicts[element]);
    o.push_number(numbers, static_cast<long>(page));
    o.push(numbers, elements);
  }
  auto next_number = static_cast<long>(pages.size());
  const HPDF_Array notes = o.array();

  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    const Node& node = nodes_[i];
    const HPDF_Dict dict = dicts[i];
    o.set_name(dict, "Type", "StructElem");
    o.set_name(dict, "S", node.name);
    o.set(dict, "P", i == root ? tree : dicts[node.parent]);
    if (node.page >= 0) o.set(dict, "Pg", pages[static_cast<std::size_t>(node.page)]);
    if (!node.alt.empty()) o.set_text(dict, "Alt", node.alt);
    if (const HPDF_Dict more = attributes(o, node)) o.set(dict, "A", more);
    if (node.name == "Note") {
      const std::string id = note_id(i);
      o.set_bytes(dict, "ID", id);
      o.push_bytes(notes, id);
      o.push(notes, dict);
    }
    const HPDF_Array kids = o.array();
    for (const Kid& kid : node.kids) {
      if (kid.kind == Kid::Kind::element) {
        o.push(kids, dicts[kid.element]);
      } else if (kid.kind == Kid::Kind::content && kid.page == node.page) {
        o.push_number(kids, kid.mark);
      } else {
        const HPDF_Dict reference = o.dict();
        const bool link = kid.kind == Kid::Kind::link;
        o.set_name(reference, "Type", link ? "OBJR" : "MCR");
        o.set(reference, "Pg", pages[static_cast<std::size_t>(kid.page)]);
        if (link) {
          o.set(reference, "Obj", kid.annotation);
          o.set_number(kid.annotation, "StructParent", next_number);
          o.push_number(numbers, next_number++);
          o.push(numbers, dict);
        } else {
          o.set_number(reference, "MCID", kid.mark);
        }
        o.push(kids, reference);
      }
    }
    o.set(dict, "K", kids);
  }

  const HPDF_Dict parents = o.object();
  o.set(parents, "Nums", numbers);
  const HPDF_Array top = o.array();
  o.push(top, dicts[root]);
  o.set_name(tree, "Type", "StructTreeRoot");
  o.set(tree, "K", top);
  o.set(tree, "ParentTree", parents);
  o.set_number(tree, "ParentTreeNextKey", next_number);
  const HPDF_Dict ids = o.dict();
  o.set(ids, "Names", notes);
  o.set(tree, "IDTree", ids);
  o.set(o.catalog(), "StructTreeRoot", tree);
  const HPDF_Dict marked = o.dict();
  o.set_true(marked, "Marked");
  o.set(o.catalog(), "MarkInfo", marked);
}

}  // namespace dogear::pdf
