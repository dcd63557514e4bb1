#pragma once
// The families of figures behind draw_figure(); each returns nothing for what it does not know.

#include <functional>
#include <map>
#include <optional>
#include <string>

#include "drawing/figure.h"
#include "drawing/sketch.h"

namespace dogear::drawing {

struct Room {
  double width = 0, height = 0;  // pt
};

// Moves all that is painted to the origin.
Figure finish(canvas::DisplayList list, std::string alt);

// Draws at `cap` points an inch, or as much smaller as the room asks. Below `least` the picture is
// shrunk as it stands, so that a figure never leaves its room.
Figure fitted(Room room, double cap, double least, const std::function<Figure(double scale)>& draw);

std::optional<Figure> block_figure(const Scene& scene, std::size_t size, const std::string& use,
                                   Room room);
std::optional<Figure> step_figure(const Scene& scene, std::size_t size, const std::string& use,
                                  std::size_t n, Room room);
// The tip of a step that is trimmed, larger; nothing where none is, or one alike was shown before.
std::optional<Figure> tip_figure(const Scene& scene, std::size_t size, const std::string& use,
                                 std::size_t n, Room room);
std::optional<Figure> assembly_figure(const Scene& scene, std::size_t size, std::size_t n,
                                      Room room, double cap = 10);
std::optional<Figure> quilt_figure(const Scene& scene, std::size_t size, bool hatched, Room room);
// The n-th of the other colorings (1-based), and its fabrics.
std::optional<Figure> coloring_quilt_figure(const Scene& scene, std::size_t size, std::size_t n,
                                            Room room);
std::optional<Figure> coloring_fabrics_figure(const Scene& scene, std::size_t size, std::size_t n,
                                              Room room);
// Lines alone, and a blank box for each fabric.
std::optional<Figure> line_quilt_figure(const Scene& scene, std::size_t size, Room room);
std::optional<Figure> blank_fabrics_figure(const Scene& scene, std::size_t size, Room room);
std::optional<Figure> layout_figure(const Scene& scene, std::size_t size, Room room);
// Strips of one fabric: all kinds of them, or the n-th kind (1-based).
std::optional<Figure> cutting_figure(const Scene& scene, std::size_t size,
                                     const std::string& fabric, std::optional<std::size_t> n,
                                     Room room);
std::optional<Figure> strip_set_figure(const Scene& scene, std::size_t size, std::size_t n,
                                       Room room);
std::optional<Figure> ruler_figure(const Scene& scene, std::size_t size, const std::string& label,
                                   Room room);
std::optional<Figure> strip_set_ruler_figure(const Scene& scene, std::size_t size, std::size_t n,
                                             Room room);
// In its true size (72 pt an inch) where the room allows, else smaller with every cut edge
// measured; the label "test-square" gives a square of 1 in.
std::optional<Figure> template_figure(const Scene& scene, std::size_t size,
                                      const std::string& label, Room room);
// The n-th foundation (1-based), in its true size where the room allows.
std::optional<Figure> foundation_figure(const Scene& scene, std::size_t size, std::size_t n,
                                        Room room);
// Only the marks that the figures of this size use.
std::optional<Figure> key_figure(const Scene& scene, std::size_t size, Room room);
std::vector<FabricId> fabrics_used(const Scene& scene, std::size_t size);  // all, where none are
std::optional<Figure> fabrics_figure(const Scene& scene, std::size_t size, Room room);
std::optional<Figure> swatch_figure(const Scene& scene, const std::string& fabric, Room room);
// What blocks go by where their titles find no room: use -> beginning of its title.
std::map<std::size_t, std::string> short_names(const Scene& scene, std::size_t size);
std::optional<Figure> backing_figure(const Scene& scene, std::size_t size, Room room);
// A corner of mitred borders; the square of bias binding and the sheet sewn of its halves.
std::optional<Figure> mitre_figure(const Scene& scene, std::size_t size, Room room);
std::optional<Figure> bias_figure(const Scene& scene, std::size_t size, Room room);
// Strips joined, folded, laid round a corner, the ends joined; of one strip, without the first.
std::optional<Figure> binding_figure(const Scene& scene, std::size_t size, Room room);
bool has_mitre(const Scene& scene, std::size_t size);

// How the n-th kind of cut appears among addresses, shared by figure.cpp and the families.
std::size_t strip_kinds(const Scene& scene, std::size_t size, FabricId fabric);
bool is_half_angled(const Scene& scene, const PieceCut& cut);  // and a ruler makes it
bool has_ruler_line(const Scene& scene, const PieceCut& cut);  // a slanted cut at a reading

}  // namespace dogear::drawing
