#include "canvas/svg.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/text.h"
#include "canvas/hatch_strokes.h"
#include "canvas/image.h"
#include "canvas/number.h"
#include "canvas/outline.h"

namespace dogear::canvas {
namespace {

std::string number(double v, int places = 3) {
  std::string out;
  append_number(out, v, places);
  return out;
}

std::string data(const Path& path, int places = 3) {
  std::string out;
  std::size_t at = 0;
  const auto point = [&] {
    append_number(out, path.points()[at].x, places);
    out += ' ';
    append_number(out, path.points()[at++].y, places);
  };
  for (const Path::Op op : path.ops()) {
    switch (op) {
      case Path::Op::move:
        out += 'M';
        point();
        break;
      case Path::Op::line:
        out += 'L';
        point();
        break;
      case Path::Op::cubic:
        out += 'C';
        point();
        out += ' ';
        point();
        out += ' ';
        point();
        break;
      case Path::Op::close:
        out += 'Z';
        break;
    }
  }
  return out;
}

// The same in the fewest bytes: lines from point to point, to 1/100 pt, rounding kept from adding
// up.
std::string near_data(const Path& path) {
  std::string out;
  const bool straight = std::all_of(path.ops().begin(), path.ops().end(), [](Path::Op op) {
    return op == Path::Op::move || op == Path::Op::line;
  });
  if (!straight) return data(path, 2);
  const auto hundredths = [](double v) { return std::lround(v * 100); };
  const auto put = [&](long n) { append_number(out, static_cast<double>(n) / 100, 2); };
  long x = 0, y = 0;
  for (std::size_t i = 0; i < path.ops().size(); ++i) {
    const long to_x = hundredths(path.points()[i].x), to_y = hundredths(path.points()[i].y);
    const bool line = path.ops()[i] == Path::Op::line;
    if (line && to_y == y) {
      out += 'h';
      put(to_x - x);
    } else if (line && to_x == x) {
      out += 'v';
      put(to_y - y);
    } else {
      out += line ? 'l' : i == 0 ? 'M' : 'm';
      put(to_x - x);
      if (to_y - y >= 0) out += ' ';
      put(to_y - y);
    }
    x = to_x;
    y = to_y;
  }
  return out;
}

std::string transform_attribute(const Transform& t) {
  if (t == Transform{}) return {};
  std::string out = " transform=\"matrix(";
  append_number(out, t.a, 6);
  for (const double v : {t.b, t.c, t.d}) {
    out += ' ';
    append_number(out, v, 6);
  }
  out += ' ' + number(t.e) + ' ' + number(t.f) + ")\"";
  return out;
}

std::string stroke_attributes(const Color& color, double width) {
  return " fill=\"none\" stroke=\"" + color.hex() + "\" stroke-width=\"" + number(width) + "\"";
}

}  // namespace

// A writer of one picture, or with `sheet` of parts that many pictures refer to.
class SvgWriter {
 public:
  SvgWriter(const FontSet& fonts, std::string_view prefix, bool sheet = false)
      : fonts_(fonts), prefix_(prefix), sheet_(sheet) {}

  std::string part(const DisplayList& list) {
    uses_.clear();
    forms_.clear();
    count(list);
    std::string body;
    items(list, body);
    return interned('s', "<g", body, "</g>");
  }
  const std::string& definitions() const { return defs_; }

  void count(const DisplayList& list) {
    for (const Item& item : list.items()) {
      const DisplayList* inner = nullptr;
      if (const auto* form = std::get_if<Form>(&item)) inner = form->list.get();
      if (const auto* group = std::get_if<Group>(&item)) inner = group->list.get();
      if (inner != nullptr && uses_[inner]++ == 0) count(*inner);
    }
  }

  std::string write(const DisplayList& list, double width, double height) {
    count(list);
    std::string body;
    items(list, body);
    std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + number(width) +
                      "pt\" height=\"" + number(height) + "pt\" viewBox=\"0 0 " + number(width) +
                      ' ' + number(height) + "\">\n";
    if (!defs_.empty()) out += "<defs>\n" + defs_ + "</defs>\n";
    return out + body + "</svg>\n";
  }

 private:
  std::string new_id(char kind) { return prefix_ + kind + std::to_string(++ids_); }

  void items(const DisplayList& list, std::string& out) {
    for (const Item& item : list.items()) std::visit([&](const auto& it) { put(it, out); }, item);
  }

  void put(const Shape& shape, std::string& out) {
    const Style& style = shape.style;
    if (shape.path.empty() || !shape.path.finite()) return;
    const std::string d = data(shape.path);
    const std::string rule = style.even_odd ? "evenodd" : "nonzero";
    const auto fill_rule = style.even_odd ? " fill-rule=\"evenodd\"" : "";
    if (style.fill && (style.hatch || !style.stroke))
      out += "<path fill=\"" + style.fill->hex() + "\"" + fill_rule + " d=\"" + d + "\"/>\n";
    if (style.hatch) put_hatch(shape, d, rule, out);
    if (!style.stroke) return;
    const bool also_fill = style.fill && !style.hatch;
    out += "<path fill=\"" + (also_fill ? style.fill->hex() : "none") + "\"" +
           (also_fill ? fill_rule : "") + " stroke=\"" + style.stroke->hex() +
           "\" stroke-width=\"" + number(style.width) + "\"";
    put_dash(style.dash, out);
    if (style.round_caps) out += " stroke-linecap=\"round\"";
    if (style.round_joins) out += " stroke-linejoin=\"round\"";
    out += " d=\"" + d + "\"/>\n";
  }

  static void put_dash(const std::vector<double>& dash, std::string& out) {
    for (std::size_t i = 0; i < dash.size(); ++i)
      out += (i == 0 ? " stroke-dasharray=\"" : " ") + number(dash[i]) +
             (i + 1 == dash.size() ? "\"" : "");
  }

  void put_hatch(const Shape& shape, const std::string& d, const std::string& rule,
                 std::string& out) {
    const Hatch& hatch = *shape.style.hatch;
    if (sheet_ && shape.style.fill) {
      out += "<g clip-path=\"url(#" + clip(d, rule) + ")\">";
      for (const HatchStroke& stroke : hatch_strokes(hatch, shape.path.bounds())) {
        out += "<path" +
               stroke_attributes(stroke.ground ? *shape.style.fill : hatch.color, stroke.width);
        put_dash(stroke.dash, out);
        if (stroke.round) out += " stroke-linecap=\"round\"";
        out += " d=\"" + near_data(stroke.path) + "\"/>";
      }
      out += "</g>\n";
      return;
    }
    const HatchMarks marks = hatch_marks(hatch, shape.path.bounds());
    out += "<g clip-path=\"url(#" + clip(d, rule) + ")\">";
    if (!marks.lines.empty())
      out += "<path" + stroke_attributes(hatch.color, hatch.line) + " d=\"" + data(marks.lines) +
             "\"/>";
    if (!marks.dots.empty())
      out += "<path" + stroke_attributes(hatch.color, marks.dot) +
             " stroke-linecap=\"round\" d=\"" + data(marks.dots) + "\"/>";
    out += "</g>\n";
  }

  // A definition with these words, made when they are new.
  std::string interned(char kind, const std::string& head, const std::string& body,
                       const std::string& tail) {
    std::string& id = interned_[head + '>' + body];
    if (id.empty()) {
      id = new_id(kind);
      defs_ += head + " id=\"" + id + "\">" + body + tail + '\n';
    }
    return id;
  }

  // One clip path for each different outline.
  std::string clip(const std::string& d, const std::string& rule) {
    std::string& id = clips_[rule + d];
    if (id.empty()) {
      id = new_id('c');
      defs_ += "<clipPath id=\"" + id + "\"><path clip-rule=\"" + rule + "\" d=\"" + d +
               "\"/></clipPath>\n";
    }
    return id;
  }

  const std::string& glyph(FontId font, std::uint32_t gid) {
    std::string& id = glyphs_[{font, gid}];
    if (id.empty()) {
      id = prefix_ + "g" + std::to_string(static_cast<int>(font)) + "-" + std::to_string(gid);
      defs_ +=
          "<path id=\"" + id + "\" d=\"" + data(glyph_outline(fonts_, font, gid), 1) + "\"/>\n";
    }
    return id;
  }

  void put(const GlyphRun& run, std::string& out) {
    if (run.glyphs.empty()) return;
    const double unit = run.size / fonts_.units_per_em(run.font);
    if (sheet_) {
      std::string glyphs;
      put_glyphs(run, unit, glyphs);
      const std::string id =
          interned('t', "<g" + transform_attribute(Transform::scale(unit, -unit)), glyphs, "</g>");
      out += "<use href=\"#" + id + "\" fill=\"" + run.color.hex() + "\"";
      if (run.turn == 0) {
        out += " x=\"" + number(run.x, 2) + "\" y=\"" + number(run.y, 2) + "\"/>\n";
      } else {
        out += transform_attribute(Transform::turn(run.turn).then(Transform::move(run.x, run.y))) +
               "/>\n";
      }
      return;
    }
    const Transform place = Transform::scale(unit, -unit)
                                .then(Transform::turn(run.turn))
                                .then(Transform::move(run.x, run.y));
    out += "<g fill=\"" + run.color.hex() + "\" role=\"img\" aria-label=\"" + escaped(run.text()) +
           "\"" + transform_attribute(place) + ">";
    put_glyphs(run, unit, out);
    out += "</g>\n";
  }

  void put_glyphs(const GlyphRun& run, double unit, std::string& out) {
    for (const Glyph& g : run.glyphs) {
      if (g.id == 0) continue;
      if (g.text == " " || g.text == "\u2009") continue;
      out += "<use href=\"#" + glyph(run.font, g.id) + "\"";
      const double x = g.x / unit;
      const double y = -g.y / unit;
      if (g.scale != 1) {
        out += transform_attribute(Transform::scale(g.scale).then(Transform::move(x, y)));
      } else {
        if (x != 0) out += " x=\"" + number(x, 1) + "\"";
        if (y != 0) out += " y=\"" + number(y, 1) + "\"";
      }
      out += "/>";
    }
  }

  void put_list(const ListRef& list, const Transform& t, std::string& out) {
    if (!list || depth_ > 60) return;
    if (uses_[list.get()] <= 1) {
      const std::string attribute = transform_attribute(t);
      if (!attribute.empty()) out += "<g" + attribute + ">\n";
      ++depth_;
      items(*list, out);
      --depth_;
      if (!attribute.empty()) out += "</g>\n";
      return;
    }
    std::string id = forms_[list.get()];
    if (id.empty()) {
      std::string body;
      ++depth_;
      items(*list, body);
      --depth_;
      if (sheet_) {
        id = interned('f', "<g", body, "</g>");
      } else {
        id = new_id('f');
        defs_ += "<g id=\"" + id + "\">\n" + body + "</g>\n";
      }
      forms_[list.get()] = id;
    }
    out += "<use href=\"#" + id + "\"" + transform_attribute(t) + "/>\n";
  }

  void put(const Form& form, std::string& out) {
    if (form.clip) out += "<g clip-path=\"url(#" + clip(data(*form.clip), "nonzero") + ")\">\n";
    put_list(form.list, form.transform, out);
    if (form.clip) out += "</g>\n";
  }

  void put(const Group& group, std::string& out) {
    // On a sheet the page itself says what the whole picture shows.
    if (sheet_) return put_list(group.list, group.transform, out);
    out += group.role == Role::figure ? "<g role=\"img\">" : "<g>";
    if (!group.alt.empty()) out += "<title>" + escaped(group.alt) + "</title>";
    out += "\n";
    put_list(group.list, group.transform, out);
    out += "</g>\n";
  }

  void put(const Image& image, std::string& out) {
    if (!image.raster) return;
    out += "<image width=\"1\" height=\"1\" preserveAspectRatio=\"none\"" +
           transform_attribute(image.transform) + " href=\"" + data_address(*image.raster) +
           "\"/>\n";
  }

  void put(const Link& link, std::string& out) {
    if (sheet_ || link.uri.empty() || link.area.empty()) return;
    const Rect& a = link.area;
    out += "<a href=\"" + escaped(link.uri) + "\"><rect x=\"" + number(a.left) + "\" y=\"" +
           number(a.top) + "\" width=\"" + number(a.width()) + "\" height=\"" + number(a.height()) +
           "\" fill=\"none\" pointer-events=\"all\"/></a>\n";
  }

  void put(const Anchor&, std::string&) {}

  const FontSet& fonts_;
  std::string prefix_;
  bool sheet_ = false;
  std::string defs_;
  std::map<std::string, std::string> interned_;
  int ids_ = 0;
  int depth_ = 0;
  std::map<const DisplayList*, int> uses_;  // looked up only, never walked in order
  std::map<const DisplayList*, std::string> forms_;
  std::map<std::string, std::string> clips_;
  std::map<std::pair<FontId, std::uint32_t>, std::string> glyphs_;
};

std::string to_svg(const DisplayList& list, double width, double height, const FontSet& fonts,
                   std::string_view id_prefix) {
  return SvgWriter(fonts, id_prefix).write(list, width, height);
}

class SvgSheet::Impl : public SvgWriter {
 public:
  explicit Impl(const FontSet& fonts) : SvgWriter(fonts, "", true) {}
};

SvgSheet::SvgSheet(const FontSet& fonts) : impl_(std::make_unique<Impl>(fonts)) {}
SvgSheet::~SvgSheet() = default;
std::string SvgSheet::add(const DisplayList& list) { return impl_->part(list); }
std::string SvgSheet::definitions() const { return impl_->definitions(); }

}  // namespace dogear::canvas
