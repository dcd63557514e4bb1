// The pages of every demo booklet on every paper: none nearly empty, no heading torn from what it
// heads, no fabric's cuts parted that one page holds.

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <set>

#include "help.h"
#include "support/project.h"

using namespace dogear;
using canvas::Role;

namespace {

constexpr double least_full = 0.36;  // of a page
constexpr double full = 0.9;         // of a page, what does not fit beside more

// What stands on a page, without the running lines and what is drawn again.
struct Mark {
  Role role = Role::paragraph;  // a heading, a figure, a line of a table's head, or other words
  double top = 0, bottom = 0;
  std::string text;
};

struct PageParts {
  std::vector<Mark> parts;         // in order, pt from the text's top
  std::vector<std::string> again;  // words of artifacts inside the text's height
  std::map<std::string, double> anchors;

  double bottom() const {
    double out = 0;
    for (const Mark& p : parts) out = std::max(out, p.bottom);
    return out;
  }
};

bool is_heading(Role role) {
  return role == Role::heading1 || role == Role::heading2 || role == Role::heading3;
}

class PageReader {
 public:
  PageReader(const Template& style, PageParts& page) : style_(style), page_(page) {}

  void read(const canvas::DisplayList& list, const canvas::Transform& t, Role role) {
    for (const canvas::Item& item : list.items()) {
      if (const auto* group = std::get_if<canvas::Group>(&item)) {
        const canvas::Transform there = group->transform.then(t);
        if (group->role == Role::artifact)
          artifact(*group->list, there);
        else if (group->role == Role::figure)
          add(Role::figure, there.apply(group->list->bounds()), group->alt);
        else
          read(*group->list, there, is_heading(role) ? role : group->role);
      } else if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
        add(role, t.apply(run->bounds()), run->text());
      } else if (const auto* form = std::get_if<canvas::Form>(&item)) {
        add(Role::figure, form->transform.then(t).apply(form->list->bounds()), "");
      } else if (const auto* anchor = std::get_if<canvas::Anchor>(&item)) {
        page_.anchors[anchor->name] = t.apply(anchor->at).y - style_.top;
      }
    }
  }

 private:
  void artifact(const canvas::DisplayList& list, const canvas::Transform& t) {
    for (const canvas::Item& item : list.items()) {
      if (const auto* group = std::get_if<canvas::Group>(&item)) {
        artifact(*group->list, group->transform.then(t));
      } else if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
        const double y = t.apply(canvas::Point{run->x, run->y}).y;
        if (y > style_.top && y < style_.page_height - style_.bottom)
          page_.again.push_back(run->text());
      }
    }
  }
  void add(Role role, const canvas::Rect& box, const std::string& text) {
    page_.parts.push_back({role, box.top - style_.top, box.bottom - style_.top, text});
  }

  const Template& style_;
  PageParts& page_;
};

std::vector<PageParts> parts_of(const canvas::Document& document, const Template& style) {
  std::vector<PageParts> out;
  for (const canvas::Page& page : document.pages)
    PageReader(style, out.emplace_back()).read(page.content, {}, Role::paragraph);
  return out;
}

// Lines of words and rows of tables behind a page's last heading; a figure is worth two.
std::size_t lines_under_heading(const PageParts& page) {
  std::set<long> lines;
  std::size_t figures = 0;
  for (auto p = page.parts.rbegin(); p != page.parts.rend() && !is_heading(p->role); ++p) {
    if (p->role == Role::figure && !p->text.empty()) figures += 2;
    if (p->role != Role::header_cell && p->role != Role::figure)
      lines.insert(std::lround(p->bottom / 4));
  }
  return lines.size() + figures;
}

bool begins_with_heading(const PageParts& page) {
  return !page.parts.empty() && is_heading(page.parts.front().role);
}

// A first step, "1" or "1.", at the page's head.
bool begins_with_first_step(const PageParts& page) {
  for (const Mark& p : page.parts) {
    if (is_heading(p.role)) return false;
    if (p.role == Role::item_label) return p.text == "1" || p.text == "1.";
  }
  return false;
}

using Standing = std::map<std::size_t, std::pair<double, double>>;  // page -> top, bottom

// Where a fabric's cuts stand: from its heading to the next.
Standing section_of(const std::vector<PageParts>& pages, const std::string& anchor) {
  Standing out;
  bool in = false;
  for (std::size_t n = 0; n < pages.size(); ++n) {
    const auto at = pages[n].anchors.find(anchor);
    for (const Mark& p : pages[n].parts) {
      if (!in) {
        // The anchor lies a little above the heading.
        in = at != pages[n].anchors.end() && p.role == Role::heading2 && p.bottom > at->second &&
             p.bottom < at->second + 40;
      } else if (is_heading(p.role) && p.top > out.begin()->second.first + 40) {
        return out;
      } else if (is_heading(p.role) && n > out.begin()->first) {
        return out;
      }
      if (!in) continue;
      const auto [there, fresh] = out.try_emplace(n, p.top, p.bottom);
      if (!fresh) there->second.second = std::max(there->second.second, p.bottom);
    }
  }
  return out;
}

bool holds_anchor(const PageParts& page, const std::string& anchor) {
  return page.anchors.count(anchor) != 0;
}

// Pages of templates hold what is printed in its true size, and the back begins a page.
bool may_be_empty(const std::vector<PageParts>& pages, std::size_t n) {
  if (n + 1 == pages.size()) return true;
  const bool templates =
      std::any_of(pages.begin(), pages.begin() + static_cast<std::ptrdiff_t>(n) + 1,
                  [](const PageParts& p) { return holds_anchor(p, "templates"); });
  return templates && !holds_anchor(pages[n], "errata");
}

void check_pages(const std::vector<PageParts>& pages, double height) {
  for (std::size_t n = 0; n < pages.size(); ++n) {
    INFO("page " << n + 1);
    REQUIRE(!pages[n].parts.empty());
    if (!may_be_empty(pages, n)) CHECK(pages[n].bottom() > height * least_full);
    if (n + 1 == pages.size() || begins_with_heading(pages[n + 1])) continue;
    CHECK(lines_under_heading(pages[n]) >= 2);
    // What stands over the first step and fills less than half a page stays with it, if both fit.
    if (!begins_with_first_step(pages[n + 1]) || pages[n].bottom() > height / 2) continue;
    double heading = 0;
    for (const Mark& p : pages[n].parts)
      if (is_heading(p.role)) heading = p.top;
    double step = 0;
    for (const Mark& p : pages[n + 1].parts) {
      if (p.role == Role::item_label && p.text != "1" && p.text != "1.") break;
      step = std::max(step, p.bottom);
    }
    CHECK(pages[n].bottom() - heading + step > height * full);
  }
}

void check_fabrics(const std::vector<PageParts>& pages, const help::Compiled& c, std::size_t size,
                   double height) {
  std::size_t seen = 0;
  for (const FabricNeed& need : c.quantities.sizes[size].fabrics) {
    const Fabric& fabric = c.checked.pattern.fabrics[need.fabric];
    const Standing section = section_of(pages, "cutting/" + fabric.id);
    if (section.empty()) continue;
    ++seen;
    double all = 0;
    for (const auto& [page, part] : section) all += part.second - part.first;
    INFO(fabric.name << " from page " << section.begin()->first + 1);
    if (section.size() > 1) CHECK(all > height * full);
    for (auto on = std::next(section.begin()); on != section.end(); ++on) {
      const auto& again = pages[on->first].again;
      CHECK(std::any_of(again.begin(), again.end(), [&](const std::string& text) {
        return text.find(fabric.name) != std::string::npos;
      }));
    }
  }
  CHECK(seen > 1);
}

}  // namespace

TEST_CASE("demo booklets: pages are filled, headings lead on, and a fabric stays on its page") {
  for (const std::string demo : {"harbor-lights", "reed-bed", "tide-star", "uferwiese"}) {
    const auto c = help::compile(test::project_folder() + "/patterns/" + demo, DiskFiles());
    for (const std::string paper : {"letter", "a4", "half-letter", "a5"}) {
      Diagnostics d;
      const auto style = load_template(paper, c->checked.pattern.language, DiskFiles(), d);
      REQUIRE(style);
      for (std::size_t size = 0; size < c->checked.sizes.size(); ++size) {
        const auto document = set_booklet(c->scene(), size, *style, d);
        REQUIRE(document);
        INFO(demo << " " << c->checked.pattern.sizes[size].id << " on " << paper);
        const std::vector<PageParts> pages = parts_of(*document, *style);
        check_pages(pages, style->text_height());
        check_fabrics(pages, *c, size, style->text_height());
      }
    }
  }
}

TEST_CASE("what follows a block that is longer than a page begins below its last step") {
  const auto c = help::compile(test::project_folder() + "/patterns/harbor-lights", DiskFiles());
  Diagnostics d;
  const auto style = load_template("a5", "en", DiskFiles(), d);
  REQUIRE(style);
  const auto document = set_booklet(c->scene(), 0, *style, d);
  REQUIRE(document);
  const std::vector<PageParts> pages = parts_of(*document, *style);
  const auto page_with = [&](const std::string& anchor) {
    return std::find_if(pages.begin(), pages.end(),
                        [&](const PageParts& p) { return holds_anchor(p, anchor); });
  };
  const auto star = page_with("block/star"), filler = page_with("block/stripe-1");
  REQUIRE(star != pages.end());
  REQUIRE(filler != pages.end());
  CHECK(filler == star + 1);
  CHECK_FALSE(begins_with_heading(*filler));
  CHECK(star->bottom() > style->text_height() * full);
}
