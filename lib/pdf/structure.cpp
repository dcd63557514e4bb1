#include "pdf/structure.h"

namespace dogear::pdf {
namespace {

using canvas::Role;

const char* standard_name(Role role) {
  switch (role) {
    case Role::figure:
      return "Figure";
    case Role::paragraph:
      return "P";
    case Role::heading1:
      return "H1";
    case Role::heading2:
      return "H2";
    case Role::heading3:
      return "H3";
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
    case Role::section:
    case Role::artifact:
      break;
  }
  return "Sect";
}

}  // namespace

Structure::Structure() { nodes_.push_back({"Document", 0, {}, -1, {}, {}}); }

Structure::Element Structure::add(Element parent, std::string name, std::string alt) {
  nodes_.push_back({std::move(name), parent, std::move(alt), -1, {}, {}});
  const Element element = nodes_.size() - 1;
  nodes_[parent].kids.push_back({Kid::Kind::element, element, 0, 0, nullptr});
  return element;
}

Structure::Element Structure::open(Element parent, Role role, const std::string& alt, int id) {
  const std::string name = standard_name(role);
  if (id <= 0) return add(parent, name, alt);
  const auto found = by_id_.find(id);
  if (found != by_id_.end() && nodes_[found->second].name == name) return found->second;
  return by_id_[id] = add(parent, name, alt);
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

void Structure::add_link(Element parent, int page, HPDF_Dict annotation) {
  const Element link = add(parent, "Link", {});
  nodes_[link].page = page;
  nodes_[link].kids.push_back({Kid::Kind::link, 0, page, 0, annotation});
}

bool Structure::shows_shapes(Element element) const { return nodes_[element].name == "Figure"; }

bool Structure::holds_parts(Element element) const {
  const std::string& name = nodes_[element].name;
  return name == "Document" || name == "Sect" || name == "L" || name == "LI" || name == "Table" ||
         name == "TR";
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

  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    const Node& node = nodes_[i];
    const HPDF_Dict dict = dicts[i];
    o.set_name(dict, "Type", "StructElem");
    o.set_name(dict, "S", node.name);
    o.set(dict, "P", i == root ? tree : dicts[node.parent]);
    if (node.page >= 0) o.set(dict, "Pg", pages[static_cast<std::size_t>(node.page)]);
    if (!node.alt.empty()) o.set_text(dict, "Alt", node.alt);
    if (node.name == "Figure" && !node.box.empty()) {
      const HPDF_Dict layout = o.dict();
      o.set_name(layout, "O", "Layout");
      o.set_name(layout, "Placement", "Block");
      o.set(layout, "BBox",
            o.reals({node.box.left, node.box.top, node.box.right, node.box.bottom}));
      o.set(dict, "A", layout);
    } else if (node.name == "TH") {
      const HPDF_Dict scope = o.dict();
      o.set_name(scope, "O", "Table");
      o.set_name(scope, "Scope", "Column");
      o.set(dict, "A", scope);
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
  o.set(o.catalog(), "StructTreeRoot", tree);
  const HPDF_Dict marked = o.dict();
  o.set_true(marked, "Marked");
  o.set(o.catalog(), "MarkInfo", marked);
}

}  // namespace dogear::pdf
