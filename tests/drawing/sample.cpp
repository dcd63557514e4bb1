#include "sample.h"
#include "support/project.h"

#include <algorithm>
#include <stdexcept>

namespace sample {

const canvas::FontSet& fonts() {
  static const canvas::FontSet set = [] {
    std::string error;
    auto loaded = canvas::FontSet::load(DiskFiles(), canvas::FontPaths::debian(), error);
    if (!loaded) throw std::runtime_error(error);
    return std::move(*loaded);
  }();
  return set;
}

Exact in(std::int64_t num, std::int64_t den) { return Exact::ratio(num, den); }

Placed at(PartId part, int turn, const Point& shift) {
  Transform t = Transform::turned(turn);
  t.shift = shift;
  return {part, t};
}

Builder::Builder() {
  checked.pattern.title = "Sample";
  checked.pattern.seam_allowance = in(1, 4);
  checked.pattern.usable_width = 42;
}

FabricId Builder::fabric(const std::string& id, const std::string& name,
                         const std::string& colour) {
  Fabric f;
  f.id = id;
  f.name = name;
  f.colour = colour;
  f.number = static_cast<int>(checked.pattern.fabrics.size()) + 1;
  checked.pattern.fabrics.push_back(f);
  return checked.pattern.fabrics.size() - 1;
}

PartId Builder::patch(FabricId fabric, const std::vector<Point>& corners) {
  Part p;
  p.outline = tidy({corners});
  p.is_patch = true;
  p.fabric = fabric;
  checked.parts.push_back(p);
  return checked.parts.size() - 1;
}

PartId Builder::whole(const std::string& name, std::vector<Placed> parts, bool strip_set) {
  std::vector<Polygon> shapes;
  for (const Placed& p : parts) {
    shapes.push_back(tidy(p.where.apply(checked.parts.at(p.part).outline)));
  }
  const Joined joined = join(shapes);
  if (!joined.outline) throw std::runtime_error(name + " does not fit together");
  Part p;
  p.name = name;
  p.outline = *joined.outline;
  p.meetings = joined.fit.meetings;
  p.parts = std::move(parts);
  p.strip_set = strip_set;
  checked.parts.push_back(p);
  return checked.parts.size() - 1;
}

std::size_t Builder::use(const std::string& id, const std::string& title, PartId block) {
  BlockUse u;
  u.id = id;
  u.title = title;
  checked.pattern.uses.push_back(u);
  checked.block_parts.push_back(block);
  return checked.pattern.uses.size() - 1;
}

PieceId Builder::piece_of(PartId patch, bool in_strip_set) {
  const Part& part = checked.parts.at(patch);
  const Point least = bounds(part.outline).least;
  const Polygon shape = tidy(Transform::moved(Point{} - least).apply(part.outline));
  for (PieceId i = 0; i < piecing.pieces.size(); ++i) {
    if (piecing.pieces[i].shape == shape && piecing.pieces[i].fabric == part.fabric) return i;
  }
  auto known = std::find(shapes_.begin(), shapes_.end(), shape);
  if (known == shapes_.end()) known = shapes_.insert(shapes_.end(), shape);
  Piece p;
  p.shape = shape;
  p.fabric = part.fabric;
  p.letter = std::string(1, static_cast<char>('A' + (known - shapes_.begin())));
  p.in_strip_set = in_strip_set;
  piecing.pieces.push_back(p);
  return piecing.pieces.size() - 1;
}

UnitId Builder::unit_of(PartId id) {
  if (const auto found = units_.find(id); found != units_.end()) return found->second;
  const Part& part = checked.parts.at(id);
  SewnUnit u;
  u.name = part.name;
  u.outline = part.outline;
  u.strip_set = part.strip_set;
  for (const Placed& placed : part.parts) {
    const Part& inner = checked.parts.at(placed.part);
    Input input;
    input.is_piece = inner.is_patch;
    if (inner.is_patch) {
      input.piece = piece_of(placed.part, part.strip_set);
      input.where = Transform::moved(bounds(inner.outline).least).then(placed.where);
    } else {
      input.unit = unit_of(placed.part);
      input.where = placed.where;
    }
    u.inputs.push_back(input);
  }
  std::vector<std::size_t> group(u.inputs.size());
  for (std::size_t i = 0; i < group.size(); ++i) group[i] = i;
  for (const Meeting& m : part.meetings) {
    const std::size_t from = group[m.b], to = group[m.a];
    if (from == to) continue;
    for (std::size_t& g : group) g = g == from ? to : g;
    Seam s;
    s.first = m.a;
    s.second = m.b;
    s.where = m.where;
    s.press = u.seams.size() % 3 == 2   ? Press::open
              : u.seams.size() % 2 == 0 ? Press::to_first
                                        : Press::to_second;
    u.seams.push_back(s);
  }
  piecing.units.push_back(std::move(u));
  return units_[id] = piecing.units.size() - 1;
}

void Builder::size(const std::string& id, PartId top, const std::vector<std::size_t>& uses,
                   const std::vector<std::vector<PartId>>& steps, const std::vector<PartId>& finals,
                   const std::vector<PartId>& assembly) {
  SizeDef def;
  def.id = id;
  def.title = "Wall quilt";
  checked.pattern.sizes.push_back(def);
  CheckedSize s;
  s.top = top;
  const Box b = bounds(checked.parts.at(top).outline);
  s.width = b.width();
  s.height = b.height();
  checked.sizes.push_back(s);
  SizeSewing sewing;
  for (std::size_t i = 0; i < uses.size(); ++i) {
    BlockSewing block;
    block.use = uses[i];
    for (const PartId step : steps.at(i)) block.steps.push_back(unit_of(step));
    for (const PartId final : finals) block.finals.push_back(unit_of(final));
    sewing.blocks.push_back(block);
  }
  for (const PartId part : assembly) sewing.assembly.push_back(unit_of(part));
  sewing.top = unit_of(top);
  for (UnitId u = 0; u < piecing.units.size(); ++u) sewing.make[u] = static_cast<long long>(u + 2);
  piecing.sizes.push_back(sewing);
  SizeQuantities q;
  q.finished_width = s.width.round_nearest(8);
  q.finished_height = s.height.round_nearest(8);
  quantities.sizes.push_back(q);
}

void Builder::place(std::size_t use, const Transform& where) {
  checked.sizes.back().places.push_back({use, where});
}

namespace {

// A band of the equilateral triangle that stands on its base with its tip at (0, 0).
std::vector<Point> band(const Exact& from, const Exact& to) {
  const Exact k = Exact::sqrt3() / Exact(3);
  if (from.is_zero()) return {{0, 0}, {to * k, to}, {-to * k, to}};
  return {{-from * k, from}, {from * k, from}, {to * k, to}, {-to * k, to}};
}

PieceCut slanted(const std::vector<Point>& cut_shape, const Fraction& strip,
                 const Fraction& reading, std::size_t ruler) {
  PieceCut cut;
  cut.method = CutMethod::angled;
  cut.cut_shape = tidy({cut_shape});
  cut.strip = strip;
  cut.reading = reading;
  cut.rulers = {ruler};
  return cut;
}

// The cut triangle or trapezoid between two readings of a blunt 60° ruler.
std::vector<Point> between(const Exact& upper, const Exact& lower) {
  const Exact k = Exact::sqrt3() / Exact(3), blunt = in(1, 4);
  const Exact a = (upper + blunt) * k, b = (lower + blunt) * k, h = lower - upper;
  return {{-a, 0}, {a, 0}, {b, h}, {-b, h}};
}

Builder make_lantern() {
  Builder b;
  const FabricId inkblue = b.fabric("ink", "Ink", "#1b2a49");
  const FabricId gold = b.fabric("gold", "Gold", "#e0a63a");
  const FabricId rust = b.fabric("rust", "Rust", "#a8452c");
  const FabricId fog = b.fabric("fog", "Fog", "#dfe3e6");
  b.checked.pattern.rulers.push_back({.id = "sixty",
                                      .name = "60° ruler, blunt tip",
                                      .angle = 60,
                                      .blunt = true,
                                      .lowest = 1,
                                      .highest = in(17, 2),
                                      .step = in(1, 2),
                                      .span = {}});
  const Exact k = Exact::sqrt3() / Exact(3), side = Exact(8) * k;  // of a 4 in high triangle
  const PartId tip = b.patch(gold, band(0, 2));
  const PartId middle = b.patch(rust, band(2, 3));
  const PartId base = b.patch(inkblue, band(3, 4));
  const PartId ray = b.whole("ray", {at(tip, 0, {}), at(middle, 0, {}), at(base, 0, {})});
  const PartId plain = b.patch(fog, band(0, 4));
  const Point half_on{side / Exact(2), 4};
  const PartId half =
      b.whole("half", {at(ray, 0, {}), at(plain, 12, half_on), at(ray, 0, {side, 0})});
  const PartId block = b.whole("Lantern", {at(half, 0, {}), at(half, 12, {side, 8})});

  // A plain half-hexagon cut from two strips.
  const auto half_band = [&](int from, int to) {
    const Exact f = Exact(from) * k, t = Exact(to) * k;
    return std::vector<Point>{{-f, from}, {side + f, from}, {side + t, to}, {-t, to}};
  };
  const PartId upper = b.patch(fog, half_band(0, 2));
  const PartId lower = b.patch(gold, half_band(2, 4));
  const PartId filler = b.whole("filler", {at(upper, 0, {}), at(lower, 0, {})}, true);

  const PartId row_a =
      b.whole("row 1", {at(half, 0, {}), at(filler, 12, {side * in(5, 2), 4}),
                        at(half, 0, {side * Exact(3), 0}), at(filler, 12, {side * in(11, 2), 4})});
  const PartId row_b =
      b.whole("row 2", {at(half, 12, {side, 4}), at(filler, 0, {side * in(3, 2), 0}),
                        at(half, 12, {side * Exact(4), 4}), at(filler, 0, {side * in(9, 2), 0})});
  const PartId top =
      b.whole("top", {at(row_a, 0, {side / Exact(2), 0}), at(row_b, 0, {side / Exact(2), 4})});
  const std::size_t use = b.use("lantern", "Lantern", block);
  const std::size_t fill = b.use("filler", "Mist", filler);
  b.size("wall", top, {use, fill}, {{ray, half}, {filler}}, {half, half}, {row_a, row_b, top});
  b.piecing.sizes[0].blocks[1].finals = {b.unit_of(filler)};
  b.place(use, Transform::moved({side / Exact(2), 0}));
  b.place(use, Transform::moved({side * in(7, 2), 0}));

  // The top's least corner goes to the origin, as the checker has it.
  const Point least = bounds(b.checked.parts.at(top).outline).least;
  for (Placed& p : b.checked.parts[top].parts) p.where.shift = p.where.shift - least;
  for (BlockPlace& p : b.checked.sizes[0].places) p.where.shift = p.where.shift - least;

  SizeQuantities& q = b.quantities.sizes[0];
  const auto cut_of = [&](FabricId fabric, const PieceCut& cut, long long count) {
    for (PieceId i = 0; i < b.piecing.pieces.size(); ++i) {
      const Piece& p = b.piecing.pieces[i];
      if (p.fabric == fabric && !p.in_strip_set) {
        q.pieces.push_back({i, cut, count});
        return i;
      }
    }
    throw std::runtime_error("no piece of this fabric");
  };
  const PieceId gold_tip = cut_of(gold, slanted(between(0, in(5, 2)), {5, 2}, {5, 2}, 0), 24);
  const PieceId rust_band = cut_of(rust, slanted(between(2, in(7, 2)), {3, 2}, {7, 2}, 0), 24);
  cut_of(inkblue, slanted(between(3, in(9, 2)), {3, 2}, {9, 2}, 0), 24);
  cut_of(fog, slanted(between(0, in(9, 2)), {9, 2}, {9, 2}, 0), 12);
  StripSet set;
  set.unit = b.unit_of(filler);
  set.units = {set.unit};
  set.strips = {{fog, {5, 2}}, {gold, {5, 2}}};
  set.cut = slanted(between(4, in(17, 2)), {9, 2}, {17, 2}, 0);
  set.cut.method = CutMethod::from_strip_set;
  set.cut.upper_reading = Fraction{4, 1};
  set.cut.first = 10.1;
  set.cut.pitch = 7.5;
  set.need = 10;
  set.sets = 2;
  set.set_lengths = {{42, 1}, {36, 1}};
  q.strip_sets.push_back(set);
  const auto run = [](Run::Kind kind, PieceId piece, long long count, Fraction length,
                      Fraction height, Fraction x = {0, 1}) {
    Run r;
    r.x = x;
    r.y = {0, 1};
    r.kind = kind;
    r.piece = piece;
    r.count = count;
    r.length = length;
    r.height = height;
    return r;
  };
  StripPlan tips;
  tips.fabric = gold;
  tips.height = {5, 2};
  tips.usable = {42, 1};
  tips.times = 3;
  tips.purpose = "pieces";
  tips.runs = {run(Run::Kind::piece, gold_tip, 20, {146, 4}, {5, 2}),
               run(Run::Kind::leftover, 0, 0, {11, 2}, {5, 2}, {73, 2})};
  StripPlan sets = tips;
  sets.times = 1;
  sets.runs = {run(Run::Kind::strip_set, 0, 1, {36, 1}, {5, 2}),
               run(Run::Kind::leftover, 0, 0, {6, 1}, {5, 2}, {36, 1})};
  StripPlan bands = tips;
  bands.fabric = rust;
  bands.times = 2;
  bands.runs = {run(Run::Kind::piece, rust_band, 10, {36, 1}, {3, 2}),
                run(Run::Kind::leftover, 0, 0, {6, 1}, {5, 2}, {36, 1})};
  StripPlan binding = tips;
  binding.fabric = inkblue;
  binding.purpose = "binding";
  binding.runs = {run(Run::Kind::whole_strip, 0, 1, {42, 1}, {5, 2})};
  q.strips = {binding, tips, sets, bands};
  Backing backing;
  backing.name = "Backing";
  backing.width = {60, 1};
  backing.height = {52, 1};
  backing.panels = 2;
  backing.yards = {27, 8};
  backing.centimetres = 310;
  q.backing = backing;
  b.checked.pattern.sizes[0].binding = BindingDef{inkblue, in(5, 2), {}};
  return b;
}

Builder make_star() {
  Builder b;
  const FabricId ground = b.fabric("cream", "Cream", "#f3ead7");
  const FabricId point = b.fabric("teal", "Teal", "#2e7f7a");
  const FabricId heart = b.fabric("plum", "Plum", "#7a3b69");
  const PartId square = b.patch(ground, {{0, 0}, {2, 0}, {2, 2}, {0, 2}});
  const PartId middle = b.patch(heart, {{0, 0}, {4, 0}, {4, 4}, {0, 4}});
  const PartId wing = b.patch(ground, {{0, 0}, {4, 0}, {2, 2}});
  const PartId left = b.patch(point, {{0, 0}, {2, 2}, {0, 2}});
  const PartId right = b.patch(point, {{2, 0}, {2, 2}, {0, 2}});
  const PartId points = b.whole("points", {at(wing, 0, {}), at(left, 0, {}), at(right, 0, {2, 0})});
  const PartId upper =
      b.whole("edge row", {at(square, 0, {}), at(points, 0, {2, 0}), at(square, 0, {6, 0})});
  const PartId centre =
      b.whole("middle row", {at(points, 18, {0, 4}), at(middle, 0, {2, 0}), at(points, 6, {8, 0})});
  const PartId block =
      b.whole("Star", {at(upper, 0, {}), at(centre, 0, {0, 2}), at(upper, 12, {8, 8})});
  const PartId sash = b.patch(point, {{0, 0}, {2, 0}, {2, 8}, {0, 8}});
  const PartId row = b.whole("row 1", {at(block, 0, {}), at(sash, 0, {8, 0}), at(block, 0, {10, 0}),
                                       at(sash, 0, {18, 0}), at(block, 0, {20, 0})});
  const PartId long_sash = b.patch(point, {{0, 0}, {28, 0}, {28, 2}, {0, 2}});
  const PartId top =
      b.whole("top", {at(row, 0, {}), at(long_sash, 0, {0, 8}), at(row, 0, {0, 10})});
  const std::size_t use = b.use("star", "Sawtooth Star by the Harbor Wall at Night", block);
  b.size("wall", top, {use}, {{points, upper, centre, block}}, {block}, {row, top});
  for (const int y : {0, 10}) {
    for (const int x : {0, 10, 20}) b.place(use, Transform::moved({x, y}));
  }
  return b;
}

}  // namespace

const Builder& lantern() {
  static const Builder b = make_lantern();
  return b;
}

const Builder& star() {
  static const Builder b = make_star();
  return b;
}

const Real& real(const std::string& folder) {
  static std::map<std::string, Real> known;
  if (const auto found = known.find(folder); found != known.end()) return found->second;
  Sources sources;
  Diagnostics diagnostics;
  auto pattern = load_pattern(dogear::test::project_folder() + "/patterns/" + folder, DiskFiles(),
                              sources, diagnostics);
  auto checked = pattern ? check_pattern(std::move(*pattern), diagnostics) : std::nullopt;
  auto piecing = checked ? plan_piecing(*checked, diagnostics) : std::nullopt;
  auto quantities = piecing ? plan_cutting(*checked, *piecing, diagnostics) : std::nullopt;
  if (!quantities) {
    throw std::runtime_error(
        folder + ": " +
        (diagnostics.all().empty() ? "does not compile" : diagnostics.all().front().message));
  }
  return known[folder] = Real{std::move(*checked), std::move(*piecing), std::move(*quantities)};
}

}  // namespace sample
