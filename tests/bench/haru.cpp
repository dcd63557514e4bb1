#include "bench/haru.h"

#include <hpdf.h>

#include <array>
#include <stdexcept>

namespace dogear::bench {

namespace {

using namespace canvas;

void fail(HPDF_STATUS error, HPDF_STATUS, void*) {
  throw std::runtime_error("libharu gave error " + std::to_string(error));
}

class Writer {
 public:
  Writer(HPDF_Doc pdf, const FontPaths& paths) : pdf_(pdf) {
    HPDF_UseUTFEncodings(pdf);
    HPDF_SetCompressionMode(pdf, HPDF_COMP_ALL);
    const std::array<const std::string*, font_count> in_order{
        &paths.text, &paths.text_bold, &paths.text_italic, &paths.sans, &paths.sans_bold};
    for (std::size_t i = 0; i < font_count; ++i)
      fonts_[i] =
          HPDF_GetFont(pdf, HPDF_LoadTTFontFromFile(pdf, in_order[i]->c_str(), HPDF_TRUE), "UTF-8");
  }

  void page(const Page& page) {
    page_ = HPDF_AddPage(pdf_);
    height_ = page.height;
    HPDF_Page_SetWidth(page_, static_cast<HPDF_REAL>(page.width));
    HPDF_Page_SetHeight(page_, static_cast<HPDF_REAL>(page.height));
    list(page.content, {});
  }

 private:
  static HPDF_REAL real(double v) { return static_cast<HPDF_REAL>(v); }

  void list(const DisplayList& display, const Transform& t) {
    for (const Item& item : display.items()) {
      if (const auto* shape = std::get_if<Shape>(&item)) {
        paint(*shape, t);
      } else if (const auto* run = std::get_if<GlyphRun>(&item)) {
        paint(*run, t);
      } else if (const auto* group = std::get_if<Group>(&item)) {
        if (group->list) list(*group->list, group->transform.then(t));
      } else if (const auto* form = std::get_if<Form>(&item)) {
        if (form->clip) {
          HPDF_Page_GSave(page_);
          path(form->clip->transformed(t));
          HPDF_Page_Clip(page_);
          HPDF_Page_EndPath(page_);
        }
        if (form->list) list(*form->list, form->transform.then(t));
        if (form->clip) HPDF_Page_GRestore(page_);
      }
    }
  }

  void path(const Path& p) {
    const auto& points = p.points();
    std::size_t at = 0;
    const auto x = [&](std::size_t i) { return real(points[at + i].x); };
    const auto y = [&](std::size_t i) { return real(height_ - points[at + i].y); };
    for (const Path::Op op : p.ops()) {
      switch (op) {
        case Path::Op::move:
          HPDF_Page_MoveTo(page_, x(0), y(0));
          ++at;
          break;
        case Path::Op::line:
          HPDF_Page_LineTo(page_, x(0), y(0));
          ++at;
          break;
        case Path::Op::cubic:
          HPDF_Page_CurveTo(page_, x(0), y(0), x(1), y(1), x(2), y(2));
          at += 3;
          break;
        case Path::Op::close:
          HPDF_Page_ClosePath(page_);
      }
    }
  }

  void paint(const Shape& shape, const Transform& t) {
    const Style& s = shape.style;
    if (shape.path.empty()) return;
    const Path p = shape.path.transformed(t);
    if (s.fill) {
      HPDF_Page_SetRGBFill(page_, real(s.fill->r), real(s.fill->g), real(s.fill->b));
      path(p);
      HPDF_Page_Fill(page_);
    }
    if (s.hatch) {
      HPDF_Page_GSave(page_);
      path(p);
      HPDF_Page_Clip(page_);
      HPDF_Page_EndPath(page_);
      const HatchMarks marks = hatch_marks(*s.hatch, p.bounds());
      stroke(marks.lines, s.hatch->color, s.hatch->line);
      stroke(marks.dots, s.hatch->color, marks.dot);
      HPDF_Page_GRestore(page_);
    }
    if (s.stroke) stroke(p, *s.stroke, s.width);
  }

  void stroke(const Path& p, const Color& color, double width) {
    if (p.empty()) return;
    HPDF_Page_SetRGBStroke(page_, real(color.r), real(color.g), real(color.b));
    HPDF_Page_SetLineWidth(page_, real(width));
    path(p);
    HPDF_Page_Stroke(page_);
  }

  void paint(const GlyphRun& run, const Transform& t) {
    const Point at = t.apply(Point{run.x, run.y});
    HPDF_Page_BeginText(page_);
    HPDF_Page_SetRGBFill(page_, real(run.color.r), real(run.color.g), real(run.color.b));
    HPDF_Page_SetFontAndSize(page_, fonts_[static_cast<std::size_t>(run.font)], real(run.size));
    HPDF_Page_TextOut(page_, real(at.x), real(height_ - at.y), run.text().c_str());
    HPDF_Page_EndText(page_);
  }

  HPDF_Doc pdf_;
  HPDF_Page page_ = nullptr;
  double height_ = 0;
  std::array<HPDF_Font, font_count> fonts_{};
};

}  // namespace

std::size_t write_with_haru(const Document& document, const FontPaths& paths) {
  HPDF_Doc pdf = HPDF_New(fail, nullptr);
  Writer writer(pdf, paths);
  for (const Page& page : document.pages) writer.page(page);
  HPDF_SaveToStream(pdf);
  const std::size_t size = HPDF_GetStreamSize(pdf);
  HPDF_Free(pdf);
  return size;
}

}  // namespace dogear::bench
