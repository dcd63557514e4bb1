#include "help.h"

#include <catch2/catch.hpp>

#include "canvas/font.h"
#include "diag/print.h"
#include "support/small_pattern.h"

namespace help {

const canvas::FontSet& fonts() {
  static const auto loaded = [] {
    std::string error;
    auto set = canvas::FontSet::load(DiskFiles(), canvas::FontPaths::debian(), error);
    if (!set) throw std::runtime_error(error);
    return std::move(*set);
  }();
  return loaded;
}

const Template& letter() {
  static const Template loaded = [] {
    Diagnostics d;
    auto t = load_template("letter", "en", DiskFiles(), d);
    if (!t) throw std::runtime_error(print_for_people(d, Sources(), false));
    return *t;
  }();
  return loaded;
}

std::shared_ptr<const Hyphens> hyphens() { return letter().hyphens; }

MemoryFiles small_pattern() {
  return test::squares_pattern(
      "title: Small Squares\ndesigner: Test Studio\nsummary: Squares and nothing else.\n",
      "# Welcome\n\nIt finishes {{size.width}} wide.\n");
}

std::unique_ptr<Compiled> compile(const std::string& folder, const Files& files) {
  Diagnostics d;
  Sources sources;
  auto pattern = load_pattern(folder, files, sources, d);
  auto checked = pattern ? check_pattern(std::move(*pattern), d) : std::nullopt;
  auto piecing = checked ? plan_piecing(*checked, d) : std::nullopt;
  auto quantities = piecing ? plan_cutting(*checked, *piecing, d) : std::nullopt;
  INFO(print_for_people(d, sources, false));
  REQUIRE(quantities);
  return std::make_unique<Compiled>(
      Compiled{std::move(*checked), std::move(*piecing), std::move(*quantities)});
}

namespace {

void walk(const canvas::DisplayList& list, const canvas::Transform& t, bool in_figure,
          std::vector<Said>& out) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      const canvas::Point p = t.apply(canvas::Point{run->x, run->y});
      out.push_back({run->text(), run->font, p.x, p.y, run->size, run->width, in_figure});
    } else if (const auto* form = std::get_if<canvas::Form>(&item)) {
      walk(*form->list, form->transform.then(t), true, out);
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      walk(*group->list, group->transform.then(t), in_figure || group->role == canvas::Role::figure,
           out);
    }
  }
}

}  // namespace

std::vector<Said> said(const canvas::DisplayList& list) {
  std::vector<Said> out;
  walk(list, {}, false, out);
  return out;
}

std::string words_of(const canvas::DisplayList& list) {
  std::string out;
  for (const Said& s : said(list)) out += s.text + "\n";
  return out;
}

std::string words_of(const canvas::Document& document) {
  std::string out;
  for (const canvas::Page& page : document.pages) out += words_of(page.content);
  return out;
}

std::string running_words(const canvas::Document& document) {
  const std::string text = canvas::normal_fractions(words_of(document));
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool soft = text.compare(i, 2, "-\n") == 0;
    if (soft) {
      ++i;
      continue;
    }
    const bool blank = text[i] == ' ' || text[i] == '\n';
    if (blank && (out.empty() || out.back() == ' ')) continue;
    out += blank ? ' ' : text[i];
  }
  for (const std::string wide : {"\u00A0", "\u2009"}) {
    for (std::size_t at = 0; (at = out.find(wide)) != std::string::npos;)
      out.replace(at, wide.size(), " ");
  }
  return out;
}

std::pair<std::size_t, std::size_t> place_of(const std::string& text, const std::string& needle) {
  const std::size_t at = text.find(needle);
  REQUIRE(at != std::string::npos);
  std::size_t line = 1, column = 1;
  for (const char32_t c : code_points(std::string_view(text).substr(0, at))) {
    column = c == '\n' ? 1 : column + 1;
    line += c == '\n' ? 1 : 0;
  }
  return {line, column};
}

void find_figures(const canvas::DisplayList& list, const canvas::Transform& t,
                  std::vector<Shown>& out) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* group = std::get_if<canvas::Group>(&item)) {
      const canvas::Transform there = group->transform.then(t);
      if (group->role == canvas::Role::figure)
        out.push_back({group->list, there, group->alt});
      else
        find_figures(*group->list, there, out);
    } else if (const auto* form = std::get_if<canvas::Form>(&item)) {
      find_figures(*form->list, form->transform.then(t), out);
    }
  }
}

canvas::Document booklet_on(const Compiled& c, std::size_t size, const std::string& paper) {
  Diagnostics d;
  const auto style = load_template(paper, c.checked.pattern.language, DiskFiles(), d);
  REQUIRE(style);
  auto document = set_booklet(c.scene(), size, *style, d);
  REQUIRE(document);
  return std::move(*document);
}

}  // namespace help
