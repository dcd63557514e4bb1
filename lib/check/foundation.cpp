// What a unit pieced on a foundation may be made of.

#include "check/build.h"

namespace dogear {

namespace {

class Contents {
 public:
  Contents(const CheckedPattern& checked, const FoundationWish& wish, Diagnostics& d)
      : checked_(checked), wish_(wish), d_(d) {}

  bool fit(PartId id, const std::string& name) {
    const Part& whole = checked_.parts[id];
    if (!look(id, true)) return false;
    if (flatten(checked_, id).size() > 1) return true;
    d_.error("D333", wish_.span, "`" + name + "` is one patch: there is nothing to sew on paper")
        .notes.push_back({whole.span, "this is the patch"});
    return false;
  }

 private:
  bool refuse(const Span& span, const std::string& words, const std::string& hint) {
    Diagnostic& e = d_.error("D335", span, words);
    e.notes.push_back({wish_.span, "the foundation is asked for here"});
    e.hints.push_back(hint);
    return false;
  }

  bool look(PartId id, bool outermost) {
    const Part& part = checked_.parts[id];
    const std::string name = part.name.empty() ? "a part" : "`" + part.name + "`";
    if (part.is_patch && !part.outline.arcs.empty()) {
      Diagnostic& e =
          d_.error("D334", part.span,
                   "a patch on a foundation has straight edges, and " + name + " is curved");
      e.notes.push_back({wish_.span, "the foundation is asked for here"});
      e.hints.push_back("sew the curve by itself: leave it out of the unit on the foundation");
      return false;
    }
    if (part.strip_set) {
      return refuse(part.span,
                    name + " is cut from a strip set, which is sewn before there is a foundation",
                    "write `bands` instead of `strip set`: its strips are then sewn on the paper");
    }
    if (part.batch) {
      return refuse(part.span,
                    name + " is made by a method of its own, which is sewn without a foundation",
                    "leave its `method` out: its patches are then sewn on the paper");
    }
    if (!outermost && part.foundation) {
      return refuse(part.foundation->span, name + " is a foundation within a foundation",
                    "piece the inner units on paper and join them with `row`, `stack` or `place`, "
                    "or leave this one out");
    }
    if (!part.sewing.lines.empty() || part.sewing.columns || part.sewing.set_in) {
      return refuse(part.sewing.span.line > 0 ? part.sewing.span : part.span,
                    "`sew` and `foundation` both say how " + name + " is sewn",
                    "give the order as `foundation: [2, 1, 3]` alone");
    }
    if (part.press) {
      return refuse(part.press->span,
                    "the seams of a foundation are pressed to the patch that is sewn on, and "
                    "`press` says otherwise",
                    "leave `press` out");
    }
    for (const Placed& child : part.parts) {
      if (!look(child.part, false)) return false;
    }
    return true;
  }

  const CheckedPattern& checked_;
  const FoundationWish& wish_;
  Diagnostics& d_;
};

}  // namespace

void PartBuilder::wish_foundation(const UnitDef& unit, PartId id) {
  if (!unit.foundation) return;
  if (Contents(checked_, *unit.foundation, diagnostics_).fit(id, unit.name)) {
    checked_.parts[id].foundation = unit.foundation;
  }
}

}  // namespace dogear
