// Templates as they come out of the printer: every measure is read back from the PDF.

#include <algorithm>
#include <cmath>
#include <map>

#include "drawing/figure.h"
#include "drawing/sketch.h"
#include "support.h"
#include "support/fonts.h"
#include "support/pdf_lines.h"
#include "support/plan.h"

using namespace dogear;
using namespace dogear::test;
using drawing::Spot;

namespace {

constexpr double tolerated = 0.01;  // in
constexpr double inch = 72;
constexpr double solid = 0.9;  // pt, the cut line

struct Printed {
  Folder folder;
  Planned plan;
  std::vector<std::vector<PaintedLine>> pages;

  Printed(const std::string& base, const std::string& size)
      : plan(test::plan((project / "tests/patterns/base" / base).string(), DiskFiles())) {
    copy_folder(project / "tests" / "patterns" / "base" / base, folder / base);
    const Result built = run({"build", base, "-o", "."}, folder.path());
    INFO(built.err);
    REQUIRE(built.code == 0);
    const Result json = shell(
        "qpdf --json=2 --json-key=qpdf --json-key=pages "
        "--json-stream-data=inline --decode-level=all " +
            base + "-" + size + ".pdf",
        folder.path());
    REQUIRE(json.code == 0);
    const PdfLines lines(json.out);
    for (std::size_t n = 0; n < lines.pages(); ++n) pages.push_back(lines.page(n));
  }

  Scene scene() const { return {*plan.checked, *plan.piecing, *plan.quantities, test_fonts()}; }
};

// Inches, y down, the least x and y at 0.
std::vector<Spot> inches(const PaintedLine& line, int quarters) {
  std::vector<Spot> out;
  for (const auto& p : line.points) {
    Spot s{p[0] / inch, -p[1] / inch};
    for (int i = 0; i < quarters; ++i) s = {s.y, -s.x};
    out.push_back(s);
  }
  // A path closed by its first point.
  if (out.size() > 1 && std::abs(out.front().x - out.back().x) < 1e-4 &&
      std::abs(out.front().y - out.back().y) < 1e-4)
    out.pop_back();
  return out;
}

Spot least(const std::vector<Spot>& r) {
  Spot out = r.front();
  for (const Spot p : r) out = {std::min(out.x, p.x), std::min(out.y, p.y)};
  return out;
}

// How far the outlines, moved to one corner, are apart at their corners; -1 for unlike ones.
double apart(std::vector<Spot> a, std::vector<Spot> b) {
  if (a.size() != b.size() || a.empty()) return -1;
  const Spot from = least(a), to = least(b);
  double worst = 0;
  for (const Spot p : a) {
    double nearest = 1e9;
    for (const Spot q : b) {
      const double dx = (p.x - from.x) - (q.x - to.x), dy = (p.y - from.y) - (q.y - to.y);
      nearest = std::min(nearest, std::sqrt(dx * dx + dy * dy));
    }
    worst = std::max(worst, nearest);
  }
  return worst;
}

bool is_square(const PaintedLine& line, double side) {
  const std::vector<Spot> r = inches(line, 0);
  return apart(r, {{0, 0}, {side, 0}, {side, side}, {0, side}}) >= 0 &&
         apart(r, {{0, 0}, {side, 0}, {side, side}, {0, side}}) < tolerated;
}

bool has_squares(const std::vector<PaintedLine>& page) {
  const auto any = [&](double side) {
    return std::any_of(page.begin(), page.end(),
                       [&](const PaintedLine& l) { return is_square(l, side); });
  };
  return any(1) && any(5 / 2.54);
}

}  // namespace

TEST_CASE("templates in a PDF measure what was planned, and each of their pages has test squares") {
  const Printed printed("path", "mini");
  const auto templates = templates_of(printed.scene(), 0);
  REQUIRE(templates.size() == 2);
  for (const TemplateUse& use : templates) {
    const Piece& piece = printed.plan.piecing->pieces[use.pieces.front()];
    CAPTURE(piece.label(printed.plan.checked->pattern));
    const PieceCut& cut = printed.plan.quantities->cuts.at(use.pieces.front());
    const std::vector<Spot> edge = drawing::ring(cut.cut_shape, 1);
    const std::vector<Spot> seam = drawing::ring(piece.shape, 1);
    int found = 0;
    for (const std::vector<PaintedLine>& page : printed.pages) {
      for (const PaintedLine& outer : page) {
        for (int quarters = 0; quarters < 2; ++quarters) {
          const std::vector<Spot> line = inches(outer, quarters);
          if (outer.dashed || outer.width != Approx(solid) || apart(edge, line) < 0) continue;
          if (apart(edge, line) > tolerated || apart(line, edge) > tolerated) continue;
          ++found;
          CHECK(has_squares(page));
          // The seam line lies a quarter inch inside, as planned.
          const Spot at = least(line), by = least(edge);
          bool seen = false;
          for (const PaintedLine& inner : page) {
            const std::vector<Spot> dashes = inches(inner, quarters);
            if (!inner.dashed || apart(seam, dashes) < 0 || apart(seam, dashes) > tolerated)
              continue;
            const Spot corner = least(dashes), wanted = least(seam);
            seen = seen || (std::abs(corner.x - at.x - (wanted.x - by.x)) < tolerated &&
                            std::abs(corner.y - at.y - (wanted.y - by.y)) < tolerated);
          }
          CHECK(seen);
        }
      }
    }
    CHECK(found == 1);
  }
}

TEST_CASE("foundations in a PDF measure what was planned, mirrored, seam by seam") {
  const Printed printed("lamp", "mini");
  const auto foundations = foundations_of(printed.scene(), 0);
  REQUIRE(foundations.size() == 3);
  for (const TemplateUse& use : foundations) {
    const SewnUnit& unit = printed.plan.piecing->units[*use.foundation];
    CAPTURE(unit.name);
    const auto mirrored = [](const Point& p) { return Spot{-p.x.approx(), p.y.approx()}; };
    std::vector<Spot> seam, cut;
    for (const Point& c : unit.outline.corners) seam.push_back(mirrored(c));
    const Spot at = least(seam);
    for (const Spot c : seam)
      cut.push_back({c.x + (c.x > at.x ? 0.25 : -0.25), c.y + (c.y > at.y ? 0.25 : -0.25)});
    int found = 0;
    for (const std::vector<PaintedLine>& page : printed.pages) {
      for (const PaintedLine& edge : page) {
        const std::vector<Spot> line = inches(edge, 0);
        if (edge.dashed || edge.width != Approx(solid) || apart(seam, line) < 0) continue;
        if (apart(seam, line) > tolerated) continue;
        const Spot here = least(line);
        const auto holds = [&](const std::vector<Spot>& wanted, bool dashed) {
          return std::any_of(page.begin(), page.end(), [&](const PaintedLine& l) {
            const std::vector<Spot> r = inches(l, 0);
            if (l.dashed != dashed || r.size() != wanted.size()) return false;
            return std::all_of(wanted.begin(), wanted.end(), [&](Spot w) {
              const Spot there{w.x - at.x + here.x, w.y - at.y + here.y};
              return std::any_of(r.begin(), r.end(), [&](Spot p) {
                return std::abs(p.x - there.x) < tolerated && std::abs(p.y - there.y) < tolerated;
              });
            });
          });
        };
        const bool all = std::all_of(unit.seams.begin(), unit.seams.end(), [&](const Seam& s) {
          return holds({mirrored(s.where.a), mirrored(s.where.b)}, false);
        });
        if (!all) continue;
        ++found;
        CHECK(holds(cut, true));
        // It fills its page, so its words say what it measures; the squares stand before it.
        CHECK_FALSE(has_squares(page));
      }
    }
    CHECK(found == 1);
  }
  CHECK(std::any_of(printed.pages.begin(), printed.pages.end(),
                    [](const auto& page) { return has_squares(page); }));
}

namespace {

struct Sheet {
  std::vector<std::pair<Spot, Spot>> lines;  // of the cut line
  std::vector<Spot> marks;                   // middles of joining marks
};

std::vector<Sheet> sheets_of(const Printed& printed) {
  std::vector<Sheet> out;
  for (const std::vector<PaintedLine>& page : printed.pages) {
    Sheet sheet;
    for (const PaintedLine& line : page) {
      const std::vector<Spot> r = inches(line, 0);
      const auto [left, right] = std::minmax_element(
          r.begin(), r.end(), [](const Spot& a, const Spot& b) { return a.x < b.x; });
      if (line.closed && r.size() == 4 && std::abs(right->x - left->x - 12 / inch) < 1e-3 &&
          std::abs(left->y - right->y) < 1e-3) {
        sheet.marks.push_back({(left->x + right->x) / 2, left->y});
      }
      if (line.dashed || line.closed || line.width != Approx(solid)) continue;
      for (std::size_t i = 0; i + 1 < r.size(); ++i) sheet.lines.emplace_back(r[i], r[i + 1]);
    }
    if (!sheet.marks.empty() && has_squares(page)) out.push_back(std::move(sheet));
  }
  return out;
}

// The two marks that lie farthest that way, in order across it.
std::pair<Spot, Spot> outermost(std::vector<Spot> marks, Spot way) {
  REQUIRE(marks.size() >= 2);
  const auto along = [&](Spot p) { return p.x * way.x + p.y * way.y; };
  std::sort(marks.begin(), marks.end(), [&](Spot a, Spot b) { return along(a) > along(b); });
  const bool swapped = marks[0].x + marks[0].y > marks[1].x + marks[1].y;
  return swapped ? std::pair{marks[1], marks[0]} : std::pair{marks[0], marks[1]};
}

// Lays `next` on `sheet` so that the marks of the strip between them meet.
void lay(const Sheet& sheet, Sheet& next, Spot way) {
  const auto [a, b] = outermost(sheet.marks, way);
  const auto [c, d] = outermost(next.marks, {-way.x, -way.y});
  CHECK(b.x - a.x == Approx(d.x - c.x).margin(tolerated));
  CHECK(b.y - a.y == Approx(d.y - c.y).margin(tolerated));
  const Spot by{a.x - c.x, a.y - c.y};
  const auto move = [&](Spot& p) { p = {p.x + by.x, p.y + by.y}; };
  for (Spot& p : next.marks) move(p);
  for (auto& [from, to] : next.lines) move(from), move(to);
}

double away(Spot p, Spot a, Spot b) {
  const Spot d{b.x - a.x, b.y - a.y};
  const double l = d.x * d.x + d.y * d.y;
  const double t = std::clamp(((p.x - a.x) * d.x + (p.y - a.y) * d.y) / l, 0.0, 1.0);
  const double dx = p.x - a.x - d.x * t, dy = p.y - a.y - d.y * t;
  return std::sqrt(dx * dx + dy * dy);
}

}  // namespace

TEST_CASE("the sheets of a large template, laid mark on mark, give its whole cut line") {
  const Printed printed("measured", "mini");
  // The octagon of 12 in: three sheets across, two down.
  std::vector<Sheet> sheets = sheets_of(printed);
  REQUIRE(sheets.size() == 6);
  lay(sheets[0], sheets[1], {1, 0});
  lay(sheets[1], sheets[2], {1, 0});
  lay(sheets[0], sheets[3], {0, 1});
  lay(sheets[3], sheets[4], {1, 0});
  lay(sheets[4], sheets[5], {1, 0});
  std::vector<std::pair<Spot, Spot>> lines;
  for (const Sheet& s : sheets) lines.insert(lines.end(), s.lines.begin(), s.lines.end());
  std::vector<Spot> ends;
  for (const auto& [from, to] : lines) ends.push_back(from), ends.push_back(to);

  const auto templates = templates_of(printed.scene(), 0);
  const auto large = std::find_if(templates.begin(), templates.end(), [&](const TemplateUse& use) {
    return !whole_template(printed.scene(), 0, use, {468, 648});
  });
  REQUIRE(large != templates.end());
  const std::vector<Spot> wanted =
      drawing::ring(printed.plan.quantities->cuts.at(large->pieces.front()).cut_shape, 1);
  const Spot by = least(ends), from = least(wanted);
  std::size_t looked = 0;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Spot a = wanted[i], b = wanted[(i + 1) % wanted.size()];
    for (int k = 0; k <= 50; ++k) {
      const Spot p{a.x + (b.x - a.x) * k / 50 - from.x + by.x,
                   a.y + (b.y - a.y) * k / 50 - from.y + by.y};
      double nearest = 1e9;
      for (const auto& [start, end] : lines) nearest = std::min(nearest, away(p, start, end));
      CAPTURE(i, k, nearest);
      CHECK(nearest < tolerated);
      ++looked;
    }
  }
  CHECK(looked == 8 * 51);
  // And nothing lies off the line.
  for (const Spot p : ends) {
    double nearest = 1e9;
    for (std::size_t i = 0; i < wanted.size(); ++i)
      nearest = std::min(nearest, away({p.x - by.x + from.x, p.y - by.y + from.y}, wanted[i],
                                       wanted[(i + 1) % wanted.size()]));
    CHECK(nearest < tolerated);
  }
}
