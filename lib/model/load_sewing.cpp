#include <algorithm>

#include "base/text.h"
#include "model/load.h"
#include "model/reader.h"

namespace dogear {

namespace {

// "1 + 2", "1 + 2 + 3", "3 + 1, set in" or "1 + 2, partial".
std::optional<SewLine> read_line(const Node& node, Diagnostics& d) {
  const auto text = read_text(node, "sew", d);
  if (!text) return std::nullopt;
  const auto fail = [&](const std::string& why) {
    d.error("D320", node.span, "`" + *text + "` is no line of an order of sewing: " + why)
        .hints.push_back(
            "write which parts are sewn together: `1 + 2`, `1 + 2 + 3`, `3 + 1, set in` or "
            "`1 + 2, partial`");
    return std::nullopt;
  };
  SewLine line;
  line.span = node.span;
  std::string_view parts = *text;
  if (const auto comma = parts.find(','); comma != std::string_view::npos) {
    const std::string_view how = trim(parts.substr(comma + 1));
    if (how == "set in") {
      line.kind = SeamKind::set_in;
    } else if (how == "partial") {
      line.kind = SeamKind::partial;
    } else {
      return fail("`" + std::string(how) + "` is no kind of seam");
    }
    parts = parts.substr(0, comma);
  }
  for (const std::string& word : split(parts, '+')) {
    LengthError error;
    const auto number = parse_number(trim(word), error);
    if (!number || number->den != 1 || number->num < 1) {
      return fail("`" + std::string(trim(word)) + "` is no part's number");
    }
    line.parts.push_back(static_cast<std::size_t>(number->num) - 1);
  }
  if (line.parts.size() < 2) return fail("two parts at least are sewn together");
  return line;
}

}  // namespace

SewingWish read_sewing(MapReader& map, const UnitDef& unit, Diagnostics& d) {
  SewingWish wish;
  wish.set_in = map.yes("set-in");
  if (wish.set_in && unit.parts.empty()) {
    const Span& span = map.node().find("set-in")->key_span;
    d.error("D320", span, "`set-in` has no meaning here: `" + unit.name + "` has no parts")
        .hints.push_back("seams belong to a `row`, `stack` or `place`");
  }
  const Node* node = map.may("sew");
  if (node == nullptr) return wish;
  wish.span = node->span;
  if (unit.parts.empty()) {
    d.error("D320", node->span, "`sew` has no meaning here: `" + unit.name + "` has no parts")
        .hints.push_back("the order of sewing belongs to a `row`, `stack` or `place`");
    return wish;
  }
  if (node->kind == Node::Kind::scalar) {
    if (node->text == "rows" || node->text == "columns") {
      wish.columns = node->text == "columns";
    } else {
      d.error("D320", node->span, "`" + node->text + "` is no order of sewing")
          .hints.push_back("write `rows`, `columns` or a list such as `[1 + 2, 3 + 4, 1 + 3]`");
    }
    return wish;
  }
  const auto* items = read_list(*node, "sew", d);
  if (items == nullptr) return wish;
  for (const Node& item : *items) {
    if (auto line = read_line(item, d)) wish.lines.push_back(std::move(*line));
  }
  return wish;
}

}  // namespace dogear
