#include "png/png.h"

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "canvas/outline.h"

namespace dogear {
namespace {

using namespace canvas;

constexpr int deepest = 60;  // lists within lists

cairo_matrix_t matrix(const Transform& t) { return {t.a, t.b, t.c, t.d, t.e, t.f}; }

class Painter {
 public:
  Painter(cairo_t* cr, const FontSet& fonts) : cr_(cr), fonts_(fonts) {}
  bool holds_photo = false;

  void paint(const DisplayList& list) {
    for (const Item& item : list.items()) std::visit([&](const auto& it) { put(it); }, item);
  }

 private:
  // The state is put back when this ends.
  struct Saved {
    cairo_t* cr;
    explicit Saved(cairo_t* c) : cr(c) { cairo_save(cr); }
    ~Saved() { cairo_restore(cr); }
    Saved(const Saved&) = delete;
    Saved& operator=(const Saved&) = delete;
  };

  void colour(const Color& c) { cairo_set_source_rgb(cr_, c.r, c.g, c.b); }

  void trace(const Path& path) {
    std::size_t at = 0;
    const auto& p = path.points();
    for (const Path::Op op : path.ops()) {
      switch (op) {
        case Path::Op::move:
          cairo_move_to(cr_, p[at].x, p[at].y);
          ++at;
          break;
        case Path::Op::line:
          cairo_line_to(cr_, p[at].x, p[at].y);
          ++at;
          break;
        case Path::Op::cubic:
          cairo_curve_to(cr_, p[at].x, p[at].y, p[at + 1].x, p[at + 1].y, p[at + 2].x, p[at + 2].y);
          at += 3;
          break;
        case Path::Op::close:
          cairo_close_path(cr_);
          break;
      }
    }
  }

  void stroke(const Path& path, const Color& c, double width, bool round) {
    cairo_new_path(cr_);
    trace(path);
    colour(c);
    cairo_set_line_width(cr_, width);
    cairo_set_line_cap(cr_, round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_stroke(cr_);
  }

  void put(const Shape& shape) {
    const Style& style = shape.style;
    if (shape.path.empty() || !shape.path.finite()) return;
    const Saved saved(cr_);
    cairo_set_fill_rule(cr_, style.even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
    if (style.fill) {
      cairo_new_path(cr_);
      trace(shape.path);
      colour(*style.fill);
      cairo_fill(cr_);
    }
    if (style.hatch) {
      const Saved inner(cr_);
      cairo_new_path(cr_);
      trace(shape.path);
      cairo_clip(cr_);
      const HatchMarks marks = hatch_marks(*style.hatch, shape.path.bounds());
      stroke(marks.lines, style.hatch->color, style.hatch->line, false);
      stroke(marks.dots, style.hatch->color, marks.dot, true);
    }
    if (!style.stroke) return;
    cairo_set_line_join(cr_, style.round_joins ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
    cairo_set_dash(cr_, style.dash.data(), static_cast<int>(style.dash.size()), 0);
    stroke(shape.path, *style.stroke, style.width, style.round_caps);
  }

  void put(const GlyphRun& run) {
    if (run.glyphs.empty()) return;
    const Saved saved(cr_);
    const double unit = run.size / fonts_.units_per_em(run.font);
    const cairo_matrix_t place =
        matrix(Transform::turn(run.turn).then(Transform::move(run.x, run.y)));
    cairo_transform(cr_, &place);
    colour(run.color);
    cairo_new_path(cr_);
    for (const Glyph& g : run.glyphs) {
      if (g.id == 0) continue;
      const Transform own =
          Transform::scale(unit * g.scale, -unit * g.scale).then(Transform::move(g.x, g.y));
      trace(outline(run.font, g.id).transformed(own));
    }
    cairo_fill(cr_);
  }

  const Path& outline(FontId font, std::uint32_t glyph) {
    const auto [at, fresh] = outlines_.try_emplace({font, glyph});
    if (fresh) at->second = glyph_outline(fonts_, font, glyph);
    return at->second;
  }

  void put_list(const ListRef& list, const Transform& t) {
    if (!list || depth_ >= deepest) return;
    const cairo_matrix_t place = matrix(t);
    cairo_transform(cr_, &place);
    ++depth_;
    paint(*list);
    --depth_;
  }

  void put(const Form& form) {
    const Saved saved(cr_);
    if (form.clip) {
      cairo_new_path(cr_);
      trace(*form.clip);
      cairo_clip(cr_);
    }
    put_list(form.list, form.transform);
  }

  void put(const Group& group) {
    const Saved saved(cr_);
    put_list(group.list, group.transform);
  }

  void put(const Image&) { holds_photo = true; }
  void put(const Link&) {}
  void put(const Anchor&) {}

  cairo_t* cr_;
  const FontSet& fonts_;
  std::map<std::pair<FontId, std::uint32_t>, Path> outlines_;
  int depth_ = 0;
};

cairo_status_t append(void* out, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(out)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::optional<std::string> to_png(const DisplayList& list, double width, double height, int pixels,
                                  const FontSet& fonts, std::string& reason) {
  constexpr int most = 20000;
  const double scale = pixels / width;
  const int high = static_cast<int>(std::lround(height * scale));
  if (!(width > 0 && height > 0) || pixels < 1 || pixels > most || high < 1 || high > most) {
    reason = "its size is out of reach";
    return std::nullopt;
  }
  const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels, high), cairo_surface_destroy);
  const std::unique_ptr<cairo_t, void (*)(cairo_t*)> cr(cairo_create(surface.get()), cairo_destroy);
  cairo_set_source_rgb(cr.get(), 1, 1, 1);
  cairo_paint(cr.get());
  cairo_scale(cr.get(), scale, scale);
  Painter painter(cr.get(), fonts);
  painter.paint(list);
  if (painter.holds_photo) {
    reason = "a picture made here holds drawings alone, and there is a photograph in it";
    return std::nullopt;
  }
  std::string bytes;
  cairo_status_t status = cairo_status(cr.get());
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
  if (status == CAIRO_STATUS_SUCCESS) return bytes;
  reason = cairo_status_to_string(status);
  return std::nullopt;
}

}  // namespace dogear
