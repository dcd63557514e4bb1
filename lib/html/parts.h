#pragma once
// The parts of a booklet as markup.

#include <map>
#include <string>
#include <string_view>

#include "booklet/booklet.h"
#include "canvas/svg.h"
#include "words/words.h"

namespace dogear::html {

// Writes one size. Identifiers begin with the size's name, so that all sizes may share a page.
class PartWriter {
 public:
  PartWriter(const BookletParts& parts, const Words& words, canvas::SvgSheet& sheet)
      : parts_(parts), words_(words), sheet_(sheet), prefix_(parts.size + '.') {}

  std::string write();  // the <article>

 private:
  using Element = booklet::Element;
  std::string one(const Element& e);
  std::string all(const std::vector<Element>& elements);
  std::string heading(const Element& e);
  std::string list(const Element& e);
  std::string card(const Element& e);
  std::string item(const Element& e, bool ordered);
  std::string table(const Element& e);
  std::string figure(const Element& e);
  std::string contents(const std::vector<Element>& entries);
  std::string picture(const booklet::Picture& p, double pixels_a_point);
  std::string tick(const std::string& label);

  const BookletParts& parts_;
  const Words& words_;
  canvas::SvgSheet& sheet_;
  std::string prefix_;
  std::string place_, place_words_;  // anchor and words of the heading above
  std::map<std::string, int> told_;  // steps of a name
};

}  // namespace dogear::html
