#include "html/parts.h"

#include <algorithm>
#include <cmath>

#include "canvas/number.h"
#include "html/markup.h"

namespace dogear::html {
namespace {

using booklet::Element;
using booklet::Runs;
using Kind = booklet::Element::Kind;

// CSS pixels that a point of a figure takes on a tablet, whose type is so large.
constexpr double pixels_an_em = 19.5;
constexpr double wide_figure = 1.95, step_figure = 2, wide_step = 2.3, small_swatch = 1.7;
// A step's figure stands above its words where it is wide: in points, or beside its height.
constexpr double wide_from = 215, wide_shape = 2.2;

std::string number(double v) {
  std::string out;
  canvas::append_number(out, v, 2);
  return out;
}

bool holds(const Element& e, Kind kind) {
  return !e.children.empty() && std::all_of(e.children.begin(), e.children.end(),
                                            [&](const Element& c) { return c.kind == kind; });
}

bool is_small(const Runs& runs) {
  return std::all_of(runs.begin(), runs.end(), [](const booklet::Run& r) {
    return r.style.font == canvas::FontId::sans || r.style.font == canvas::FontId::sans_bold;
  });
}

bool is_strong(const Runs& runs) {
  return !runs.empty() && std::all_of(runs.begin(), runs.end(), [](const booklet::Run& r) {
    return r.style.font == canvas::FontId::text_bold;
  });
}

// "3" of "3."
std::string step_number(const std::string& label) {
  return label.ends_with('.') ? label.substr(0, label.size() - 1) : label;
}

}  // namespace

std::string PartWriter::all(const std::vector<Element>& elements) {
  std::string out;
  for (const Element& e : elements) out += one(e);
  return out;
}

std::string PartWriter::one(const Element& e) {
  switch (e.kind) {
    case Kind::section:
      if (holds(e, Kind::cover)) return all(e.children);
      return "<section>\n" + all(e.children) + "</section>\n";
    case Kind::cover:
      return "<header class=\"cover\">\n" + all(e.children) + "</header>\n";
    case Kind::heading:
      return heading(e);
    case Kind::paragraph:
      return (is_small(e.runs) ? "<p class=\"small\">" : "<p>") + runs(e.runs, prefix_) + "</p>\n";
    case Kind::list:
      return list(e);
    case Kind::item:
      return item(e, false);
    case Kind::card:
      return card(e);
    case Kind::figure:
      return figure(e);
    case Kind::figures:
      return "<div class=\"figures\">\n" + all(e.children) + "</div>\n";
    case Kind::table:
      return table(e);
    case Kind::note:
      return "<aside class=\"note\">\n" + all(e.children) + "</aside>\n";
    case Kind::rule:
      return "<hr/>\n";
    case Kind::entry:
      return "<a" + attribute("href", '#' + prefix_ + e.anchor) + '>' + words(plain_text(e.runs)) +
             "</a>\n";
  }
  return {};
}

std::string PartWriter::heading(const Element& e) {
  const std::string name = 'h' + std::to_string(e.level + 1);
  std::string out = '<' + name;
  if (!e.anchor.empty()) {
    place_ = e.anchor;
    place_words_ = plain_text(e.runs);
    out += attribute("id", prefix_ + e.anchor);
  }
  out += '>';
  if (e.picture) out += picture(*e.picture, small_swatch) + ' ';
  return out + words(plain_text(e.runs)) + "</" + name + ">\n";
}

std::string PartWriter::contents(const std::vector<Element>& entries) {
  std::string out =
      "<nav" + attribute("aria-label", words_("contents")) + ">\n<ol class=\"contents\">\n";
  for (const Element& e : entries)
    out += "<li class=\"level" + std::to_string(e.level) + "\">" + one(e) + "</li>\n";
  return out + "</ol>\n</nav>\n";
}

std::string PartWriter::list(const Element& e) {
  const bool entries = std::all_of(e.children.begin(), e.children.end(), [](const Element& c) {
    return c.kind == Kind::item && c.children.size() == 1 && c.children[0].kind == Kind::entry;
  });
  if (e.children.empty()) return {};
  if (entries) {
    std::vector<Element> inner;
    for (const Element& c : e.children) inner.push_back(c.children[0]);
    return contents(inner);
  }
  const bool unnumbered =
      holds(e, Kind::card) && std::all_of(e.children.begin(), e.children.end(),
                                          [](const Element& c) { return c.label.empty(); });
  if (unnumbered) return "<div class=\"cards\">\n" + all(e.children) + "</div>\n";
  if (holds(e, Kind::card)) {
    std::string out = "<ol class=\"steps\">\n";
    for (const Element& c : e.children)
      out += (c.label.empty() ? "<li>\n" : "<li class=\"step\">\n") + card(c) + "</li>\n";
    return out + "</ol>\n";
  }
  std::string out = e.ordered ? "<ol class=\"steps\">\n" : "<ul>\n";
  for (const Element& c : e.children) out += item(c, e.ordered);
  return out + (e.ordered ? "</ol>\n" : "</ul>\n");
}

std::string PartWriter::item(const Element& e, bool ordered) {
  // One paragraph needs no tags of its own.
  const bool plain = e.children.size() == 1 && e.children[0].kind == Kind::paragraph;
  const std::string inner =
      plain && !ordered ? runs(e.children[0].runs, prefix_) : '\n' + all(e.children);
  if (!ordered) return "<li>" + inner + "</li>\n";
  return "<li class=\"step\">\n<div class=\"card\">\n" + tick(e.label) +
         "<div class=\"body\"><div class=\"words\">" + inner + "</div></div>\n</div>\n</li>\n";
}

// The step's number and the box that ticks it off, remembered by the place where it stands.
std::string PartWriter::tick(const std::string& label) {
  std::string key = place_ + ':' + step_number(label);
  if (const int again = ++told_[key]; again > 1) key += '-' + std::to_string(again);
  const std::string name = step_number(label);
  return "<label class=\"tick\"><input type=\"checkbox\"" + attribute("data-step", key) +
         attribute("aria-label", words_("screen step done", {{"n", name}})) +
         "/><span aria-hidden=\"true\">" + escaped(name) + "</span></label>\n";
}

std::string PartWriter::card(const Element& e) {
  const bool wide = e.picture && (e.picture->width > wide_from ||
                                  e.picture->width > wide_shape * e.picture->height);
  std::string out = wide ? "<div class=\"card wide\">\n" : "<div class=\"card\">\n";
  if (!e.label.empty()) out += tick(e.label);
  out += "<div class=\"body\">\n";
  if (e.picture)
    out += "<figure>" + picture(*e.picture, wide ? wide_step : step_figure) + "</figure>\n";
  return out + "<div class=\"words\">\n" + all(e.children) + "</div>\n</div>\n</div>\n";
}

std::string PartWriter::picture(const booklet::Picture& p, double pixels_a_point) {
  if (!p.list) return {};
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\"";
  if (p.true_size) {
    out +=
        " class=\"true\" width=\"" + number(p.width) + "pt\" height=\"" + number(p.height) + "pt\"";
  } else {
    // In ems, so that figures grow with the reader's type.
    out += " width=\"" + number(p.width * pixels_a_point / pixels_an_em) + "em\" height=\"" +
           number(p.height * pixels_a_point / pixels_an_em) + "em\"";
  }
  out += " viewBox=\"0 0 " + number(p.width) + ' ' + number(p.height) + '"';
  if (p.alt.empty())
    out += " aria-hidden=\"true\">";
  else
    out +=
        " role=\"img\"" + attribute("aria-label", p.alt) + "><title>" + escaped(p.alt) + "</title>";
  return out + "<use href=\"#" + sheet_.add(*p.list) + "\"/></svg>";
}

std::string PartWriter::figure(const Element& e) {
  std::string out = "<figure>" + picture(*e.picture, wide_figure);
  if (!e.runs.empty()) out += "\n<figcaption>" + runs(e.runs, prefix_) + "</figcaption>";
  return out + "</figure>\n";
}

std::string PartWriter::table(const Element& e) {
  const auto side = [&](std::size_t column) -> std::string {
    const char a = column < e.align.size() ? e.align[column] : 'l';
    return a == 'r' ? " class=\"right\"" : a == 'c' ? " class=\"middle\"" : "";
  };
  const auto content = [&](const booklet::Cell& cell) {
    std::string out;
    if (cell.picture) out += picture(*cell.picture, small_swatch);
    if (cell.picture && !cell.runs.empty()) out += ' ';
    return out + runs(cell.runs, prefix_);
  };
  // Wide tables are scrolled by keyboard, too.
  std::string out = "<div class=\"table\" role=\"region\" tabindex=\"0\"" +
                    attribute("aria-label", place_words_) + ">\n<table>\n";
  if (!e.head.empty()) {
    out += "<thead>\n<tr>";
    for (std::size_t c = 0; c < e.head.size(); ++c) {
      const std::string inner = content(e.head[c]);
      out += inner.empty() ? "<td></td>" : "<th scope=\"col\"" + side(c) + '>' + inner + "</th>";
    }
    out += "</tr>\n</thead>\n";
  }
  out += "<tbody>\n";
  for (const auto& row : e.rows) {
    bool named = false;  // the first cell in bold names its row
    out += "<tr>";
    for (std::size_t c = 0; c < row.size(); ++c) {
      const bool name = !named && is_strong(row[c].runs);
      named = named || name;
      out += (name ? "<th scope=\"row\"" : "<td") + side(c) + '>' + content(row[c]) +
             (name ? "</th>" : "</td>");
    }
    out += "</tr>\n";
  }
  return out + "</tbody>\n</table>\n</div>\n";
}

std::string PartWriter::write() {
  const bool listed = std::any_of(
      parts_.sections.begin(), parts_.sections.end(),
      [](const Element& s) { return !s.children.empty() && s.children[0].anchor == "contents"; });
  std::string out = "<article class=\"size\"" + attribute("id", "size-" + parts_.size) +
                    attribute("data-size", parts_.size) +
                    attribute("aria-label", parts_.size_title) + ">\n";
  for (const Element& section : parts_.sections) {
    out += one(section);
    if (listed || &section != &parts_.sections.front()) continue;
    std::vector<Element> entries;
    for (const canvas::OutlineEntry& o : parts_.outline) {
      Element& e = entries.emplace_back();
      e.kind = Kind::entry;
      e.level = o.level;
      e.anchor = o.destination;
      e.runs.push_back({o.title, {}, false});
    }
    out += contents(entries);
  }
  return out + "</article>\n";
}

}  // namespace dogear::html
