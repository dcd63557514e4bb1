// Backing, layering, binding and hanging sleeve.

#include <algorithm>

#include "base/length.h"
#include "booklet/writer.h"

namespace dogear::booklet {
namespace {

constexpr double whole_list = 0.6;  // cost of parting a list that one page holds

// How the binding's strips are cut and joined.
std::vector<std::string> binding_strips(const Writer& w, const Binding& b) {
  const std::string length = w.words.inches(Fraction::of(Exact(b.length).round_up(1).num, 1));
  const std::string& name = w.fabric(b.fabric).name;
  if (!b.square) {
    return {w.words(is_joined(b) ? "binding join" : "binding one strip",
                    {{"strips", w.words.count("strips", b.strips)},
                     {"strip", w.words.inches(b.strip)},
                     {"name", name},
                     {"length", length}})};
  }
  const std::string square = w.words.inches(*b.square);
  const std::string allowance = w.words.inches(w.pattern().seam_allowance.round_nearest(64));
  std::vector<std::string> out;
  out.push_back(w.words(b.squares == 1 ? "bias square" : "bias squares",
                        {{"n", w.words.number(b.squares)}, {"square", square}, {"name", name}}));
  out.push_back(w.words("bias halves", {{"allowance", allowance}}));
  out.push_back(w.words("bias lines", {{"strip", w.words.inches(b.strip)}}));
  out.push_back(w.words("bias tube", {{"allowance", allowance}}));
  out.push_back(w.words(b.squares == 1 ? "bias cut" : "bias cut and join", {{"length", length}}));
  return out;
}

// Inches left free at both ends of the binding, which begins in the middle of the longest side: ten
// (common practice), less where the corner would be too near.
long long binding_tail(const SizeQuantities& q) {
  constexpr long long usual = 10, least = 3, from_corner = 3;
  const Exact half = max(Exact(q.finished_width), Exact(q.finished_height)) / Exact(2);
  return std::clamp(half.round_down(1).num - from_corner, least, usual);
}

std::vector<std::string> sleeve_steps(const Writer& w, const Sleeve& s) {
  std::vector<std::string> out;
  out.push_back(w.words(
      Exact(s.length) > longest_strip(w.pattern(), s.fabric) ? "sleeve cut joined" : "sleeve cut",
      {{"size", w.words.inches(s.strip, s.length)}, {"name", w.fabric(s.fabric).name}}));
  for (const char* key : {"sleeve hem", "sleeve tube", "sleeve sew"}) {
    out.push_back(
        w.words(key, {{"allowance", w.words.inches(w.pattern().seam_allowance.round_nearest(64))},
                      {"depth", w.words.inches(s.finished)}}));
  }
  return out;
}

}  // namespace

void write_finishing(Writer& w, Column& column) {
  const SizeQuantities& q = w.quantities();
  if (!q.backing && !q.binding && !q.batting && !q.sleeve) return;
  const std::size_t first = column.boxes.size();
  w.heading(column, 1, w.words("finishing"), "finishing");
  std::optional<ShrinkingCard> backing;
  if (q.backing) {
    const Backing& b = *q.backing;
    w.heading(column, 2, w.words("backing"), "finishing-backing");
    std::vector<Runs> words;
    const bool one_seam = b.panels == 2;
    const Exact cloth = w.size_def().backing ? w.size_def().backing->width : Exact(0);
    const std::string across =
        cloth == w.pattern().usable_width ? w.words("WOF") : w.words.inches(cloth.round_down(8));
    const std::string way = w.words(b.seams_vertical ? "top to bottom" : "side to side");
    words.push_back(column.plain(w.words(
        b.panels == 1 ? "backing whole" : "backing panels",
        {{"size", w.words.inches(b.width, b.height)},
         {"n", w.words.number(b.panels)},
         {"panel",
          across + "\u00A0×\u00A0" + w.words.inches(b.seams_vertical ? b.height : b.width)},
         {"seams", one_seam
                       ? w.words("one seam", {{"way", way}})
                       : w.words("seams", {{"n", w.words.number(b.panels - 1)}, {"way", way}})}})));
    if (b.panels > 1)
      words.push_back(column.plain(w.words(one_seam ? "backing press" : "backing press all")));
    if (b.wide)
      words.push_back(column.plain(
          w.words(b.wide_panels == 1 ? "backing of wide cloth" : "backing of wide cloth seamed",
                  {{"width", w.words.inches(*b.wide)}, {"n", w.words.number(b.wide_panels)}})));
    backing.emplace(column, 120, [&w, words](Column& to, double height) {
      to.cards({{"", w.picture("backing", to.width() * 0.4, height), words}}, 1);
    });
  }
  if (q.batting || q.backing) {
    const std::size_t at = column.boxes.size();
    w.heading(column, 2, w.words("layering"), "finishing-layering");
    std::vector<Runs> steps;
    if (q.batting)
      steps.push_back(column.plain(w.words(
          "trim batting", {{"size", w.words.inches(q.batting->width, q.batting->height)}})));
    for (const char* key : {"layer backing", "layer batting", "baste", "quilting"})
      steps.push_back(column.plain(w.words(key)));
    const Exact both = w.pattern().seam_allowance * Exact(2);
    const auto eighths = [](const Exact& e) { return e.round_nearest(8); };
    steps.push_back(column.plain(
        w.words("trim") +
        (q.binding
             ? " " + w.words("top measures",
                             {{"top", w.words.inches(eighths(Exact(q.finished_width) + both),
                                                     eighths(Exact(q.finished_height) + both))},
                              {"finished", w.words.inches(q.finished_width, q.finished_height)}})
             : "")));
    column.list(steps, true);
    keep_whole(column.boxes, at, w.style.text_height(), whole_list);
  }
  if (q.binding) {
    const Binding& b = *q.binding;
    const std::size_t at = column.boxes.size();
    w.heading(column, 2, w.words("binding"), "finishing-binding");
    if (b.square) {
      if (const auto figure = w.picture("bias-binding", column.width(), 110))
        column.figure(*figure);
    }
    const auto pictures = w.picture("binding", column.width(), 260);
    if (pictures) column.figure(*pictures);
    std::size_t shown = 0;
    const auto see = [&] {
      return pictures ? " " + w.words("see picture", {{"n", std::to_string(++shown)}}) : "";
    };
    const std::string tail = w.words.inches(Fraction::of(binding_tail(q), 1));
    std::vector<Runs> steps;
    std::vector<std::string> strips = binding_strips(w, b);
    if (is_joined(b)) strips.back() += see();
    for (const std::string& how : strips) steps.push_back(column.plain(how));
    const std::string allowance = w.words.inches(w.pattern().seam_allowance.round_nearest(64));
    steps.push_back(column.plain(w.words("binding fold") + see()));
    steps.push_back(column.plain(w.words(
        "binding sew",
        {{"side", w.words(q.finished_width == q.finished_height ? "a side" : "a long side")},
         {"allowance", allowance},
         {"tail", tail}})));
    steps.push_back(column.plain(w.words("binding corner", {{"allowance", allowance}}) + see()));
    steps.push_back(column.plain(
        w.words("binding end", {{"strip", w.words.inches(b.strip)}, {"tail", tail}}) + see()));
    steps.push_back(column.plain(w.words("binding turn")));
    column.list(steps, true);
    keep_whole(column.boxes, at, w.style.text_height(), whole_list);
  }
  if (q.sleeve) {
    w.heading(column, 2, w.words("sleeve"), "finishing-sleeve");
    std::vector<Runs> steps;
    for (const std::string& how : sleeve_steps(w, *q.sleeve)) steps.push_back(column.plain(how));
    column.list(steps, true);
  }
  if (q.backing) column.paragraph(w.words("label"));
  if (backing) backing->shrink_for_page(column, first);
}

}  // namespace dogear::booklet
