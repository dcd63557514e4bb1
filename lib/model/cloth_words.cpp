#include "model/cloth_words.h"

#include <algorithm>
#include <map>

#include "base/length.h"
#include "base/text.h"
#include "model/reader.h"

namespace dogear {

namespace {

// Turns x 15° from the base at which an edge of this direction lies along the strip, below 180°.
std::optional<int> turn_of(const Point& along) {
  for (int turn = 0; turn < 12; ++turn) {
    const Point base = Transform::turned(turn).apply_direction({Exact(1), Exact(0)});
    if (cross(base, along).is_zero()) return turn;
  }
  return std::nullopt;
}

// The longest or the shortest edge, of equals the one that lies nearest to the base.
std::optional<int> turn_along(const Polygon& shape, bool longest, std::string& why_not) {
  std::map<Exact, std::vector<Point>> by_length;
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const Point along = shape.at(i + 1) - shape.at(i);
    by_length[dot(along, along)].push_back(along);
  }
  if (by_length.size() == 1) {
    why_not = "all edges of this shape are equally long";
    return std::nullopt;
  }
  const auto& wanted = longest ? by_length.rbegin()->second : by_length.begin()->second;
  std::optional<int> best;
  for (const Point& along : wanted) {
    const auto turn = turn_of(along);
    if (turn && (!best || *turn < *best)) best = turn;
  }
  if (!best) {
    why_not = std::string("the ") + (longest ? "long" : "short") +
              " edge of this shape lies at no multiple of 15 degrees from its base";
  }
  return best;
}

}  // namespace

void read_grain(const Node& node, UnitDef& unit, Diagnostics& d) {
  if (unit.how != Composition::fabric) {
    d.error("D355", node.span,
            "`grain` is for a shape of one fabric; `" + unit.name + "` is made of parts")
        .hints.push_back(unit.how == Composition::bands || unit.how == Composition::strip_set
                             ? "strips lie along the grain; turn the unit where it is used"
                             : "write `grain` on the units it is made of");
    return;
  }
  const auto text = read_text(node, "grain", d);
  if (!text) return;
  const bool longest = *text == "along the long edge";
  if (longest || *text == "along the short edge") {
    if (!unit.shape) return;  // said where the shape is
    std::string why_not;
    unit.grain = turn_along(*unit.shape, longest, why_not);
    if (!unit.grain) {
      d.error("D354", node.span, "`" + *text + "` does not tell how it is cut: " + why_not)
          .hints.push_back("write degrees, clockwise from the base to the strip: `grain: 45`");
    }
    return;
  }
  LengthError error;
  const auto degrees = parse_number(*text, error);
  if (!degrees || degrees->den != 1 || degrees->num % 15 != 0 || degrees->num < 0 ||
      degrees->num > 345) {
    d.error("D354", node.span, "`" + *text + "` is not how a shape lies on its cloth")
        .hints.push_back(
            "write degrees, clockwise from the shape's base to the strip it is cut from, a "
            "multiple of 15 below 360: `grain: 45`; or `along the long edge`, `along the short "
            "edge`");
    return;
  }
  unit.grain = static_cast<int>(degrees->num / 15);
}

void read_press(const Node& node, const std::vector<std::string>& roles, UnitDef& unit,
                Diagnostics& d) {
  const auto text = read_text(node, "press", d);
  if (!text) return;
  if (unit.how == Composition::fabric) {
    d.error("D363", node.span, "`" + unit.name + "` is one piece and has no seam to press")
        .hints.push_back("write `press` on the unit that sews it to another");
    return;
  }
  if (unit.how == Composition::ready_made) {
    d.error("D363", node.span, "`" + unit.name + "` is pressed as its method says")
        .hints.push_back("write `press` on the unit that sews it to another");
    return;
  }
  PressSpec press;
  press.span = node.span;
  if (*text == "open") {
    press.how = PressSpec::How::open;
  } else if (*text == "to the first") {
    press.how = PressSpec::How::to_first;
  } else if (*text == "to the last") {
    press.how = PressSpec::How::to_last;
  } else {
    for (const auto& [words, how] : {std::pair("towards ", PressSpec::How::towards),
                                     std::pair("toward ", PressSpec::How::towards),
                                     std::pair("away from ", PressSpec::How::away)}) {
      if (!starts_with(*text, words)) continue;
      press.how = how;
      press.role = text->substr(std::string_view(words).size());
      break;
    }
    if (press.role.empty()) {
      d.error("D362", node.span, "`" + *text + "` does not say where seams are pressed")
          .hints.push_back(
              "write `open`, `to the first`, `to the last`, or a role: `towards dark`, `away from "
              "light`");
      return;
    }
    if (std::find(roles.begin(), roles.end(), press.role) == roles.end()) {
      unknown_name("D108", node.span, "role", press.role, roles, d);
      return;
    }
  }
  unit.press = std::move(press);
}

}  // namespace dogear
