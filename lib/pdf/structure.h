#pragma once
// The structure tree: what the marked parts of the pages are, for readers who listen.

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "canvas/display.h"
#include "pdf/objects.h"

namespace dogear::pdf {

class Structure {
 public:
  using Element = std::size_t;
  static constexpr Element root = 0;

  Structure();

  // A new part, or the earlier one that carries the same id above zero.
  Element open(Element parent, canvas::Role role, const std::string& alt, int id);
  void set_box(Element element, int page, const canvas::Rect& box);  // y up, from the bottom
  // The number that marks a piece of the page's content as belonging to the element.
  int mark(Element element, int page);
  // A link within the element's text, and the place on a page that follows it; `annotation` is an
  // object already made.
  Element open_link(Element parent) { return add(parent, "Link", {}); }
  void add_link(Element link, int page, HPDF_Dict annotation);
  // What stands before an item of the list that holds the element: "•", "3.".
  void set_label(Element element, const std::string& words);

  const std::string& name(Element element) const { return nodes_[element].name; }
  // The part whose text the element's text runs on in: a link's is the paragraph around it.
  Element block_of(Element element) const;
  bool shows_shapes(Element element) const;  // a figure: its lines are content, not decoration
  bool holds_parts(Element element) const;   // a table or list: loose text needs a paragraph

  // Writes the tree into the catalog, and the numbers it needs into pages and links.
  void write(Objects& objects, const std::vector<HPDF_Page>& pages) const;

 private:
  struct Kid {
    enum class Kind { element, content, link } kind;
    Element element = 0;
    int page = 0;
    int mark = 0;
    HPDF_Dict annotation = nullptr;
  };
  struct Node {
    std::string name;  // of the PDF standard: "P", "Figure", "TD"
    Element parent = 0;
    std::string alt;
    std::string numbering;  // of a list whose items have labels: "Disc", "Decimal"
    int page = -1;
    canvas::Rect box;
    std::vector<Kid> kids;
  };
  Element add(Element parent, std::string name, std::string alt);
  std::string heading(int level);
  HPDF_Dict attributes(Objects& objects, const Node& node) const;

  std::vector<Node> nodes_;
  int heading_ = 0;  // level of the last one
  std::map<std::pair<int, canvas::Role>, Element> by_id_;
  std::map<int, std::vector<Element>> marks_;  // of each page
};

}  // namespace dogear::pdf
