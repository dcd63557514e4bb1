#include "canvas/outline.h"

#include <hb.h>

namespace dogear::canvas {

Path glyph_outline(const FontSet& fonts, FontId font, std::uint32_t glyph) {
  hb_draw_funcs_t* draw = hb_draw_funcs_create();
  using State = hb_draw_state_t;
  hb_draw_funcs_set_move_to_func(
      draw,
      [](hb_draw_funcs_t*, void* to, State*, float x, float y, void*) {
        static_cast<Path*>(to)->move(x, y);
      },
      nullptr, nullptr);
  hb_draw_funcs_set_line_to_func(
      draw,
      [](hb_draw_funcs_t*, void* to, State*, float x, float y, void*) {
        static_cast<Path*>(to)->line(x, y);
      },
      nullptr, nullptr);
  // Quadratic curves reach this as cubic ones.
  hb_draw_funcs_set_cubic_to_func(
      draw,
      [](hb_draw_funcs_t*, void* to, State*, float x1, float y1, float x2, float y2, float x,
         float y, void*) {
        static_cast<Path*>(to)->cubic({x1, y1}, {x2, y2}, {x, y});
      },
      nullptr, nullptr);
  hb_draw_funcs_set_close_path_func(
      draw, [](hb_draw_funcs_t*, void* to, State*, void*) { static_cast<Path*>(to)->close(); },
      nullptr, nullptr);
  Path path;
#if HB_VERSION_ATLEAST(7, 0, 0)
  hb_font_draw_glyph(fonts.hb_font(font), glyph, draw, &path);
#else
  hb_font_get_glyph_shape(fonts.hb_font(font), glyph, draw, &path);
#endif
  hb_draw_funcs_destroy(draw);
  return path;
}

}  // namespace dogear::canvas
