// Page breaking.
//
// Goal: part the boxes into pages so that no page is too full, no heading ends a page, and no page
// is emptier than need be. best[i] is the least cost of all pages before box i; from each i we try
// every box that can still stand on the page, where need be with the space between boxes drawn in.
// Costs: 1 a page, the square of the part left empty (less where a section ends), a page that is
// nearly empty, how far space is drawn in, what the first box of the next page asks for, a section
// that begins on a page where it does not end (more for one that is looked for, which therefore
// begins a page unless that leaves the one before nearly empty), and a great deal for parting boxes
// that are kept together, which happens only if there is no other way. A page holds a bounded
// number of boxes, so the whole is linear.

#include <algorithm>
#include <limits>
#include <map>

#include "booklet/flow.h"

namespace dogear::booklet {
namespace {

constexpr double slack = 0.01;  // pt
constexpr double parted = 1e4;
constexpr double overfull = 1e7;
constexpr double most_spread = 0.35;  // of the page; emptier ones stay as they are
constexpr double almost_empty = 0.6;  // a section's last page should hold more than the rest
constexpr double drawn_in = 0.5;      // of the space between two boxes, at most
constexpr double of_drawing_in = 0.3;
constexpr double of_running_on = 0.25;
constexpr double of_looked_for = 1.2;  // running on, of a section that is looked for
constexpr double least_run_on = 0.28;  // of the page, of a section that begins on it
constexpr double least_full = 0.37;    // of the page; emptier ones cost more than a page saved
constexpr double of_little = 1.5;

double gap(const Box& above, const Box& below) { return std::max(above.after, below.before); }

double of_emptiness(double empty, bool ends_section) {
  const double square = 1.5 * empty * empty;
  const double little = empty > 1 - least_full ? of_little + 3 * (empty - (1 - least_full)) : 0;
  return (ends_section ? 1.2 * std::max(0.0, empty - almost_empty) : square) + little;
}

}  // namespace

std::vector<PageRun> paginate(const std::vector<Box>& boxes, double height, double* total) {
  const std::size_t n = boxes.size();
  std::vector<std::size_t> section_end(n + 1, n);  // end of the section that holds box i
  for (std::size_t i = n; i-- > 0;)
    section_end[i] = i + 1 < n && !(boxes[i + 1].section_start || boxes[i + 1].new_page)
                         ? section_end[i + 1]
                         : i + 1;
  std::vector<double> best(n + 1, std::numeric_limits<double>::infinity());
  std::vector<std::size_t> from(n + 1, 0);
  best[0] = 0;
  for (std::size_t i = 0; i < n; ++i) {
    double y = boxes[i].repeat ? boxes[i].repeat->height : 0, gaps = 0;
    std::size_t must_reach = i + 1;
    double must_fill = 0, of_section = 0, running_on = 0;
    for (std::size_t j = i; j < n; ++j) {
      if (j > i) {
        if (boxes[j].new_page) break;
        const double space = gap(boxes[j - 1], boxes[j]);
        y += space;
        gaps += space;
        if (boxes[j].section_start) {
          must_reach = section_end[j];
          must_fill = y + least_run_on * height;
          of_section = boxes[j].runs_on ? of_running_on : of_looked_for;
        }
      }
      y += boxes[j].height;
      const double over = y - height;
      if (over > drawn_in * gaps + slack && j > i) break;
      if (j + 1 < must_reach) {
        if (y < must_fill) continue;
        running_on = of_section;
      } else {
        running_on = 0;
      }
      double cost = best[i] + 1 + running_on;
      if (over > drawn_in * gaps + slack)
        cost += overfull;
      else if (over > slack)
        cost += of_drawing_in * over / (drawn_in * gaps);
      if (boxes[j].keep_with_next && j + 1 < n) cost += parted;
      const double empty = std::max(0.0, 1 - y / height);
      const bool ends_section = section_end[j] == j + 1;
      cost += of_emptiness(empty, ends_section);
      if (!ends_section) cost += boxes[j + 1].break_cost;
      if (cost <= best[j + 1] + 1e-9) {  // of equals, the one that fills earlier pages
        best[j + 1] = cost;
        from[j + 1] = i;
      }
    }
  }
  if (total != nullptr) *total = best[n];
  std::vector<PageRun> pages;
  for (std::size_t end = n; end > 0; end = from[end]) pages.push_back({from[end], end});
  std::reverse(pages.begin(), pages.end());
  return pages;
}

namespace {

double gaps_of(const std::vector<Box>& boxes, const PageRun& run) {
  double gaps = 0;
  for (std::size_t i = run.begin + 1; i < run.end; ++i) gaps += gap(boxes[i - 1], boxes[i]);
  return gaps;
}

}  // namespace

double most_drawn_in(const std::vector<Box>& boxes, const PageRun& run) {
  return drawn_in * gaps_of(boxes, run);
}

void keep_whole(std::vector<Box>& boxes, std::size_t first, double height, double cost) {
  double used = 0;
  stack(boxes, {first, boxes.size()}, &used);
  if (used > height + most_drawn_in(boxes, {first, boxes.size()})) return;
  for (std::size_t i = first + 1; i < boxes.size(); ++i)
    boxes[i].break_cost = std::max(boxes[i].break_cost, cost);
}

std::vector<double> stack(const std::vector<Box>& boxes, const PageRun& run, double* height) {
  std::vector<double> tops;
  double y = 0;
  for (std::size_t i = run.begin; i < run.end; ++i) {
    if (i == run.begin && boxes[i].repeat) y += boxes[i].repeat->height;
    if (i > run.begin) y += gap(boxes[i - 1], boxes[i]);
    tops.push_back(y);
    y += boxes[i].height;
  }
  if (height != nullptr) *height = y;
  return tops;
}

namespace {

void draw_in(const std::vector<Box>& boxes, const PageRun& run, double over,
             std::vector<double>& tops) {
  const double gaps = gaps_of(boxes, run);
  if (gaps <= 0) return;
  const double part = std::min(drawn_in, over / gaps);
  double by = 0;
  for (std::size_t i = run.begin + 1; i < run.end; ++i) {
    by += gap(boxes[i - 1], boxes[i]) * part;
    tops[i - run.begin] -= by;
  }
}

}  // namespace

void spread(const std::vector<Box>& boxes, const PageRun& run, double used, double height,
            std::vector<double>& tops) {
  const double empty = height - used;
  if (empty < 0) {
    draw_in(boxes, run, -empty, tops);
    return;
  }
  double most = 0;
  for (std::size_t i = run.begin + 1; i < run.end; ++i) most += boxes[i].stretch;
  if (most <= 0 || empty > height * most_spread) return;
  const double part = std::min(1.0, empty / most);
  double by = 0;
  for (std::size_t i = run.begin + 1; i < run.end; ++i) {
    by += boxes[i].stretch * part;
    tops[i - run.begin] += by;
  }
}

canvas::DisplayList moved(const canvas::DisplayList& list, double dx, double dy) {
  const canvas::Transform by = canvas::Transform::move(dx, dy);
  canvas::DisplayList out;
  for (canvas::Item item : list.items()) {
    if (auto* shape = std::get_if<canvas::Shape>(&item)) {
      shape->path = shape->path.transformed(by);
    } else if (auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      run->x += dx;
      run->y += dy;
    } else if (auto* form = std::get_if<canvas::Form>(&item)) {
      form->transform = form->transform.then(by);
      if (form->clip) form->clip = form->clip->transformed(by);
    } else if (auto* group = std::get_if<canvas::Group>(&item)) {
      group->transform = group->transform.then(by);
    } else if (auto* image = std::get_if<canvas::Image>(&item)) {
      image->transform = image->transform.then(by);
    } else if (auto* link = std::get_if<canvas::Link>(&item)) {
      link->area = by.apply(link->area);
    } else if (auto* anchor = std::get_if<canvas::Anchor>(&item)) {
      anchor->at = by.apply(anchor->at);
    }
    out.add(std::move(item));
  }
  return out;
}

namespace {

struct Composer {
  const std::vector<Box>& boxes;
  const std::vector<double>& tops;
  std::size_t base;
  const PageOf& page_of;

  canvas::DisplayList level(std::size_t begin, std::size_t end, std::size_t depth) const {
    canvas::DisplayList out;
    for (std::size_t i = begin; i < end;) {
      const Box& box = boxes[i];
      if (box.path.size() <= depth) {
        const double top = tops[i - base];
        out.append(moved(box.late ? box.late(page_of) : box.content, 0, top));
        ++i;
        continue;
      }
      const Frame& frame = box.path[depth];
      std::size_t j = i + 1;
      while (j < end && boxes[j].path.size() > depth && boxes[j].path[depth].id == frame.id) ++j;
      out.group(frame.role, level(i, j, depth + 1), frame.alt, frame.id);
      i = j;
    }
    return out;
  }
};

}  // namespace

canvas::DisplayList compose(const std::vector<Box>& boxes, const PageRun& run,
                            const std::vector<double>& tops, const PageOf& page_of) {
  canvas::DisplayList out = Composer{boxes, tops, run.begin, page_of}.level(run.begin, run.end, 0);
  if (run.begin < run.end && boxes[run.begin].repeat) {
    const Box& head = *boxes[run.begin].repeat;
    canvas::DisplayList again;
    again.append(head.content);
    out.group(canvas::Role::artifact, std::move(again));
  }
  return out;
}

namespace {

canvas::DisplayList running(const Template& style, const canvas::FontSet& fonts,
                            const RunningLines& lines, const std::string& section,
                            const std::string& number) {
  canvas::DisplayList out;
  const double size = style.type.running;
  const auto put = [&](const std::string& text, canvas::FontId font, double x, double y, bool right,
                       const canvas::Color& color) {
    if (text.empty()) return;
    const canvas::ShapedText shaped = fonts.shape(font, size, text);
    out.text(right ? x - shaped.width : x, y, shaped, color);
  };
  const double left = style.left, right = style.page_width - style.right;
  const double head = style.top * 0.58, foot = style.page_height - style.bottom * 0.45;
  const auto& c = style.colours;
  put(lines.title, canvas::FontId::sans, left, head, false, c.muted);
  put(section.empty() ? lines.right : section, canvas::FontId::sans, right, head, true, c.muted);
  out.stroke_path(canvas::Path::segment({left, head + size * 0.75}, {right, head + size * 0.75}),
                  c.rule, 0.5);
  put(lines.foot, canvas::FontId::sans, left, foot, false, c.muted);
  put(number, canvas::FontId::sans_bold, right, foot, true, c.accent);
  return out;
}

}  // namespace

std::vector<canvas::Page> make_pages(const std::vector<Box>& boxes, const Template& style,
                                     const canvas::FontSet& fonts, const RunningLines& lines) {
  const std::vector<PageRun> runs = paginate(boxes, style.text_height());
  std::map<std::string, std::string> labels;
  for (std::size_t p = 0; p < runs.size(); ++p) {
    for (std::size_t i = runs[p].begin; i < runs[p].end; ++i)
      for (const std::string& anchor : boxes[i].anchors) labels[anchor] = std::to_string(p + 1);
  }
  const PageOf page_of = [&](const std::string& anchor) {
    const auto found = labels.find(anchor);
    return found == labels.end() ? std::string() : found->second;
  };
  std::vector<canvas::Page> pages;
  std::string section;
  for (const PageRun& run : runs) {
    canvas::Page& page = pages.emplace_back();
    page.width = style.page_width;
    page.height = style.page_height;
    page.label = std::to_string(pages.size());
    double used = 0;
    std::vector<double> tops = stack(boxes, run, &used);
    spread(boxes, run, used, style.text_height(), tops);
    bool bare = false;
    for (std::size_t i = run.begin; i < run.end; ++i) {
      bare = bare || boxes[i].bare;
      if (boxes[i].running && (i == run.begin || section.empty())) section = *boxes[i].running;
      for (const std::string& anchor : boxes[i].anchors)
        page.content.anchor(anchor, {style.left, style.top + tops[i - run.begin] - 6});
    }
    page.content.append(moved(compose(boxes, run, tops, page_of), style.left, style.top));
    if (!bare)
      page.content.group(canvas::Role::artifact, running(style, fonts, lines, section, page.label));
    for (std::size_t i = run.begin; i < run.end; ++i)
      if (boxes[i].running) section = *boxes[i].running;
  }
  return pages;
}

}  // namespace dogear::booklet
