#include "compile/listing.h"

#include <algorithm>
#include <cmath>

#include "base/length.h"
#include "base/text.h"
#include "booklet/booklet.h"
#include "compile/element_markdown.h"
#include "drawing/figure.h"
#include "png/png.h"

namespace dogear {
namespace {

constexpr int cover_pixels = 1600;  // wide

// 8½ in where the paper is cut in eighths of an inch, else 210 mm.
std::string paper_side(const Words& words, double points) {
  const double eighths = points / 72 * 8;
  if (std::abs(eighths - std::round(eighths)) < 0.01)
    return words.inches(Fraction::of(std::lround(eighths), 8));
  return std::to_string(std::lround(points / 72 * 25.4)) + " mm";
}

// What a quilter must know how to do, as far as it shows in the plan of these sizes.
std::vector<std::string> skills(const Plan& plan, const Scene& scene,
                                const std::vector<std::size_t>& sizes, const Words& words) {
  std::vector<std::string> out{words("skill straight")};
  const auto say = [&](const std::string& text) {
    if (std::find(out.begin(), out.end(), text) == out.end()) out.push_back(text);
  };
  const Pattern& pattern = plan.pattern();
  for (const std::size_t s : sizes) {
    const SizeQuantities& q = plan.quantities.sizes[s];
    if (!q.strip_sets.empty()) say(words("skill strip sets"));
    if (!q.batches.empty()) say(words("skill batches"));
    for (const std::size_t r : q.rulers) {
      if (pattern.rulers[r].angle != 90)
        say(words("skill ruler", {{"ruler", pattern.rulers[r].name}}));
    }
    if (!templates_of(scene, s).empty()) say(words("skill templates"));
    if (!foundations_of(scene, s).empty()) say(words("skill foundations"));
    if (pattern.sizes[s].setting == Setting::on_point) say(words("skill on point"));
    if (q.binding && q.binding->square) say(words("skill bias binding"));
    for (const CutPiece& piece : q.pieces) {
      const Piece& own = plan.piecing.pieces[piece.piece];
      if (own.directional) say(words("skill directional"));
      if (own.mitred) say(words("skill mitred"));
    }
    for (const auto& [unit, count] : plan.piecing.sizes[s].make) {
      for (const Seam& seam : plan.piecing.units[unit].seams) {
        if (seam.bias_meets) say(words("skill bias"));
        if (seam.kind == SeamKind::set_in) say(words("skill set in"));
        if (seam.kind == SeamKind::partial) say(words("skill partial"));
        if (seam.curve) say(words("skill curves"));
      }
    }
  }
  return out;
}

std::string listing_text(const Plan& plan, const Template& style, const Scene& scene,
                         const std::vector<Pages>& pages) {
  const Words& w = style.words;
  const Pattern& p = plan.pattern();
  std::string out = "# " + markdown_text(p.title) + "\n\n";
  if (!p.designer.empty())
    out += markdown_text(w("listing by", {{"designer", p.designer}})) + "\n\n";
  if (!p.summary.empty()) out += markdown_text(p.summary) + "\n\n";

  out += "## " + w("listing sizes") + "\n\n| " + w("listing head size") + " | " +
         w("listing head finished") + " | " + w("listing head blocks") + " | " +
         w("listing head pages") + " |\n| --- | --- | ---: | ---: |\n";
  std::vector<std::size_t> sizes;
  for (const Pages& of_size : pages) {
    const std::size_t size = of_size.size;
    const canvas::Document& document = of_size.document;
    sizes.push_back(size);
    const SizeQuantities& q = plan.quantities.sizes[size];
    long long blocks = 0;
    for (const BlockSewing& block : plan.piecing.sizes[size].blocks) blocks += block.blocks;
    out += "| " + markdown_text(p.sizes[size].title) + " | " +
           w.inches(q.finished_width, q.finished_height) + " (" + w.centimetres(q.finished_width) +
           " × " + w.centimetres(q.finished_height) + ") | " + std::to_string(blocks) + " | " +
           std::to_string(document.pages.size()) + " |\n";
  }
  for (const std::size_t size : sizes) {
    Diagnostics said_already;
    out += "\n## " + markdown_text(w("listing requirements", {{"size", p.sizes[size].title}})) +
           "\n\n" + as_markdown(requirements_of(scene, size, style, said_already), 1);
    out.pop_back();
  }
  const auto point = [&](const std::string& text) { out += "- " + markdown_text(text) + '\n'; };
  out += "\n## " + w("listing included") + "\n\n";
  point(w("listing booklet"));
  point(w("listing paper", {{"paper", capital(style.name)},
                            {"width", paper_side(w, style.page_width)},
                            {"height", paper_side(w, style.page_height)}}));
  if (!p.edition.empty()) point(w("listing edition", {{"edition", p.edition}}));
  out += "\n## " + w("listing skills") + "\n\n";
  for (const std::string& skill : skills(plan, scene, sizes, w)) point(skill);
  return out;
}

// The first page where it is a cover, else the quilt alone on a page as wide as it is.
std::optional<std::string> cover(const Plan& plan, const Scene& scene, const Pages& first,
                                 std::string& reason) {
  const auto& sections = plan.pattern().sections;
  const canvas::Page& page = first.document.pages.front();
  if (!sections.empty() && !sections.front().is_prose && sections.front().name == "cover")
    return to_png(page.content, page.width, page.height, cover_pixels, scene.fonts, reason);
  constexpr double side = 540, margin = 18;  // pt
  const auto quilt = draw_figure(scene, first.size, "quilt/plain", side, side);
  if (!quilt) {
    reason = "there is no quilt to draw";
    return std::nullopt;
  }
  canvas::DisplayList list;
  list.draw(quilt->list, canvas::Transform::move(margin, margin));
  return to_png(list, quilt->width + 2 * margin, quilt->height + 2 * margin, cover_pixels,
                scene.fonts, reason);
}

}  // namespace

std::optional<std::vector<Output>> make_listing(const Plan& plan, const Options& options,
                                                const canvas::FontSet& fonts, Session& session) {
  const auto pages = set_pages(plan, options, fonts, session);
  if (!pages) return std::nullopt;
  const Pattern& pattern = plan.pattern();
  Diagnostics said_already;
  const auto style = load_template(options.paper.empty() ? pattern.paper : options.paper,
                                   pattern.language, session.files, said_already);
  if (!style) return std::nullopt;
  const Scene scene{plan.checked, plan.piecing, plan.quantities, pages->front().fonts(fonts),
                    style->words};
  const std::string picture = pattern.id + "-cover.png";
  std::string reason;
  auto bytes = cover(plan, scene, pages->front(), reason);
  if (!bytes) {
    session.diagnostics.error("D601", pattern.span, join({picture, reason}, ": "));
    return std::nullopt;
  }
  std::vector<Output> outputs;
  outputs.push_back({pattern.id + "-listing.md", listing_text(plan, *style, scene, *pages)});
  outputs.push_back({picture, std::move(*bytes)});
  return outputs;
}

}  // namespace dogear
