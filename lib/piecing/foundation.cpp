#include "piecing/foundation.h"

#include <algorithm>
#include <set>

#include "base/length.h"
#include "base/text.h"
#include "check/picture.h"
#include "geom/foundation.h"
#include "model/shapes.h"

namespace dogear {

namespace {

class Paper {
 public:
  Paper(const CheckedPattern& checked, PartId id, Diagnostics& d)
      : checked_(checked), part_(checked.parts[id]), wish_(*part_.foundation), d_(d) {
    for (std::size_t i = 0; i < part_.parts.size(); ++i) {
      for (FlatPatch p : flatten(checked, part_.parts[i].part)) {
        p.where = p.where.then(part_.parts[i].where);
        outlines_.push_back(p.where.apply(checked.parts[p.patch].outline));
        patches_.push_back(p);
        home_.push_back(i);
      }
    }
    meetings_ = fit(outlines_, part_.outline).meetings;
  }

  std::optional<Foundation::Answer> order() {
    const Foundation section(outlines_, meetings_);
    if (!wish_.order.empty()) return written_order(section);
    Foundation::Answer answer = section.order();
    if (!answer.order.empty()) return answer;
    report_none(section, answer.stuck);
    return std::nullopt;
  }

  const FlatPatch& patch(std::size_t i) const { return patches_[i]; }

 private:
  std::string name_of(std::size_t patch) const {
    const std::string& name = checked_.parts[patches_[patch].patch].name;
    return name.empty() ? "patch " + std::to_string(patch + 1) : "`" + name + "`";
  }

  static std::string place(const Point& p) {
    return about_inches(p.x, 8) + " from the left and " + about_inches(p.y, 8) + " from the top";
  }

  std::shared_ptr<const ProblemPicture> draw(const std::string& what,
                                             const std::vector<std::size_t>& shown,
                                             const std::vector<Point>& turns) const {
    ProblemPicture picture;
    picture.what = what;
    const auto is_shown = [&](std::size_t p) {
      return std::find(shown.begin(), shown.end(), p) != shown.end();
    };
    for (std::size_t i = 0; i < outlines_.size(); ++i) {
      picture.parts.push_back({checked_.parts[patches_[i].patch].name, picture_ring(outlines_[i])});
    }
    for (const Meeting& m : meetings_) {
      if (!is_shown(m.a) || !is_shown(m.b)) continue;
      picture.lines.push_back({{picture_point(m.where.a), picture_point(m.where.b)}});
    }
    for (const Point& p : turns) picture.marks.push_back({picture_point(p), "the seam turns"});
    return std::make_shared<const ProblemPicture>(std::move(picture));
  }

  std::vector<std::size_t> all() const {
    std::vector<std::size_t> out(patches_.size());
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = i;
    return out;
  }

  void report_none(const Foundation& section, const std::vector<std::size_t>& stuck) {
    constexpr std::size_t most = 4;
    std::vector<Point> turns;
    for (const std::size_t p : stuck) {
      for (const Point& at : section.turns(p, stuck)) {
        if (std::find(turns.begin(), turns.end(), at) == turns.end()) turns.push_back(at);
      }
    }
    Diagnostic& e = d_.error(
        "D330", wish_.span,
        "`" + part_.name + "` cannot be sewn on one foundation: of " +
            (stuck.size() == patches_.size() ? "its " : "the last ") +
            std::to_string(stuck.size()) +
            " patches none meets the others along one straight seam, to be sewn on after them" +
            (turns.empty() ? "" : "; one seam turns " + place(turns.front())));
    std::set<std::pair<std::size_t, std::size_t>> named;
    for (const std::size_t p : stuck) {
      const Span& s = checked_.parts[patches_[p].patch].span;
      if (named.size() < most && named.emplace(s.line, s.column).second) {
        e.notes.push_back({s, "this patch cannot be reached by a straight seam"});
      }
    }
    if (const auto half = section.halves()) {
      std::vector<std::string> one, other;
      for (const std::size_t p : all()) {
        const bool in = std::find(half->begin(), half->end(), p) != half->end();
        auto& names = in ? one : other;
        if (std::find(names.begin(), names.end(), name_of(p)) == names.end())
          names.push_back(name_of(p));
      }
      e.hints.push_back("a straight seam parts it into two sections that can be sewn on paper: " +
                        join(one, ", ") + " (" + std::to_string(half->size()) + " patches) and " +
                        join(other, ", ") + " (" + std::to_string(patches_.size() - half->size()) +
                        "): make each a unit with `foundation: yes`, and join them with `row` or "
                        "`stack`");
    } else {
      e.hints.push_back(
          "part it into sections whose patches each lie behind one straight seam: make each a "
          "unit with `foundation: yes`, and join them with `row`, `stack` or `place`");
    }
    e.picture = draw(part_.name + " cannot be sewn on one foundation", stuck, turns);
  }

  std::optional<Foundation::Answer> written_order(const Foundation& section) {
    Foundation::Answer out;
    for (const FoundationWish::Part& next : wish_.order) {
      std::vector<std::size_t> own;
      for (std::size_t i = 0; i < patches_.size(); ++i) {
        if (home_[i] == next.number) own.push_back(i);
      }
      Foundation::Answer more = section.order(out.order, own);
      if (more.order.empty()) {
        report_written(section, out.order, own, next);
        return std::nullopt;
      }
      // The first patch of all is sewn to nothing.
      out.order.insert(out.order.end(), more.order.begin(), more.order.end());
      out.seams.insert(out.seams.end(), more.seams.begin(), more.seams.end());
    }
    return out;
  }

  // The order found, where each part is sewn on in one go.
  std::string other_order(const Foundation& section) const {
    std::vector<std::size_t> homes;
    for (const std::size_t p : section.order().order) {
      if (!homes.empty() && homes.back() == home_[p]) continue;
      if (std::find(homes.begin(), homes.end(), home_[p]) != homes.end()) return {};
      homes.push_back(home_[p]);
    }
    std::vector<std::string> numbers;
    for (const std::size_t h : homes) numbers.push_back(std::to_string(h + 1));
    return join(numbers, ", ");
  }

  void report_written(const Foundation& section, const std::vector<std::size_t>& there,
                      const std::vector<std::size_t>& own, const FoundationWish::Part& next) {
    std::vector<std::size_t> shown = there;
    shown.insert(shown.end(), own.begin(), own.end());
    std::vector<Point> turns;
    for (const std::size_t p : own) {
      for (const Point& at : section.turns(p, shown)) turns.push_back(at);
    }
    const bool meets = std::any_of(meetings_.begin(), meetings_.end(), [&](const Meeting& m) {
      const auto in = [](const std::vector<std::size_t>& set, std::size_t p) {
        return std::find(set.begin(), set.end(), p) != set.end();
      };
      return (in(there, m.a) && in(own, m.b)) || (in(there, m.b) && in(own, m.a));
    });
    const std::string why =
        there.empty() ? "its own patches have no order of straight seams"
        : !meets      ? "it does not touch what is sewn by then"
        : turns.empty()
            ? "its seam to what is sewn by then is not one straight line that it lies behind"
            : "its seam to what is sewn by then turns " + place(turns.front());
    Diagnostic& e =
        d_.error("D331", next.span,
                 "part " + std::to_string(next.number + 1) + " cannot be sewn on here: " + why);
    if (next.number < part_.part_spans.size())
      e.notes.push_back({part_.part_spans[next.number], "the part is this one"});
    else
      e.notes.push_back({part_.span, "the parts are written here"});
    const std::string other = other_order(section);
    e.hints.push_back(other.empty() ? "write `foundation: yes`, and dogear looks for an order"
                                    : "this order works: `foundation: [" + other +
                                          "]`; `foundation: yes` "
                                          "finds it as well");
    e.picture = draw("part " + std::to_string(next.number + 1) + " of " + part_.name +
                         " cannot be sewn on in its place",
                     shown, turns);
  }

  const CheckedPattern& checked_;
  const Part& part_;
  const FoundationWish& wish_;
  Diagnostics& d_;
  std::vector<FlatPatch> patches_;
  std::vector<Polygon> outlines_;
  std::vector<std::size_t> home_;  // of each patch the part of the whole
  std::vector<Meeting> meetings_;
};

// The patch's box along its grain, so much larger on every side and then up to the next quarter
// inch, so that like patches share a cut.
Part cover_of(const Part& patch, const Exact& allowance, const Exact& seam) {
  const Box box = bounds(patch.outline);
  const auto cut = [&](const Exact& finished) {
    return Exact((finished + allowance * Exact(2)).round_up(4));
  };
  const Exact width = cut(box.width());
  const Exact height = cut(box.height());
  Part out;
  out.outline = rectangle(width - seam * Exact(2), height - seam * Exact(2));
  out.shape_words = width == height ? "square" : "rectangle";
  out.is_patch = true;
  out.fabric = patch.fabric;
  out.directional = patch.directional;
  out.span = patch.span;
  return out;
}

}  // namespace

std::optional<Input> foundation_unit(const CheckedPattern& checked, PartId id, Catalogue& catalogue,
                                     Diagnostics& diagnostics) {
  const Part& part = checked.parts[id];
  Paper section(checked, id, diagnostics);
  const auto answer = section.order();
  if (!answer) return std::nullopt;
  SewnUnit unit;
  unit.name = part.name;
  unit.outline = part.outline;
  unit.span = part.span;
  unit.foundation.emplace();
  unit.foundation->allowance =
      part.foundation->allowance.value_or(checked.pattern.foundation_allowance);
  for (const FoundationWish::Part& p : part.foundation->order)
    unit.foundation->written.push_back(p.number);
  std::vector<std::size_t> place(answer->order.size());
  for (std::size_t i = 0; i < answer->order.size(); ++i) {
    place[answer->order[i]] = i;
    const FlatPatch& flat = section.patch(answer->order[i]);
    const Part& patch = checked.parts[flat.patch];
    const PieceId cover = catalogue.cover(
        cover_of(patch, unit.foundation->allowance, checked.pattern.seam_allowance));
    Input in = catalogue.covered_patch(patch, cover);
    in.where = in.where.then(flat.where);
    unit.inputs.push_back(in);
  }
  for (const FoundationSeam& s : answer->seams) {
    Seam seam;
    seam.first = place[s.against];
    seam.second = place[s.patch];
    seam.where = s.where;
    seam.path = {s.where.a, s.where.b};
    seam.press = Press::to_second;
    seam.span = part.foundation->span;
    unit.seams.push_back(std::move(seam));
  }
  return catalogue.unit(std::move(unit));
}

}  // namespace dogear
