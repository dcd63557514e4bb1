#include "compile/compile.h"

#include <algorithm>

#include "base/parallel.h"
#include "base/text.h"
#include "booklet/booklet.h"
#include "booklet/proofread.h"
#include "canvas/svg.h"
#include "compile/errata.h"
#include "compile/ledger.h"
#include "compile/listing.h"
#include "compile/outline.h"
#include "compile/printing.h"
#include "cutting/sew_along.h"
#include "diag/merge.h"
#include "html/html.h"
#include "pdf/pdf.h"
#include "source/load.h"

namespace dogear {

std::optional<Plan> make_plan(const std::string& folder, Session& session) {
  Diagnostics& diagnostics = session.diagnostics;

  // Files -> trees -> pattern: every name is resolved, every default filled, every value typed.
  // Nothing outside of the folder is read.
  auto pattern = load_pattern(folder, session.files, session.sources, diagnostics);

  // Files -> accepted warnings: each names a code and gives a reason.
  session.acceptances = read_acceptances(session.sources, diagnostics);
  if (!pattern || diagnostics.has_errors()) return std::nullopt;
  return plan_of(std::move(*pattern), diagnostics);
}

std::optional<Plan> plan_of(Pattern pattern, Diagnostics& diagnostics) {
  // Pattern -> checked pattern: the parts of each block and top fill its outline, and edges meet.
  auto checked = check_pattern(std::move(pattern), diagnostics);
  if (!checked) return std::nullopt;

  // Checked -> sewing: every patch is sewn exactly once, in an order that works.
  auto piecing = plan_piecing(*checked, diagnostics);
  if (!piecing) return std::nullopt;

  // Sewing -> cutting: every piece sewn is cut, and pieces, leftover and waste make up the cloth.
  auto quantities = plan_cutting(*checked, *piecing, diagnostics);
  if (!quantities) return std::nullopt;

  // Cutting -> the months of a sew-along: cut one by one, they add up to the quilt.
  const std::size_t errors = diagnostics.error_count();
  check_sew_along(*checked, *piecing, *quantities, diagnostics);
  if (diagnostics.error_count() > errors) return std::nullopt;

  return Plan{std::move(*checked), std::move(*piecing), std::move(*quantities)};
}

namespace {

// The template of the paper, and each size asked for made with it; then the technical edit.
struct Design {
  std::vector<std::size_t> sizes;
  Template style;
  booklet::Photos photos;
  std::shared_ptr<const canvas::FontSet> own_fonts;  // none: those of every booklet
  std::size_t errors = 0;                            // before any of its pages

  const canvas::FontSet& fonts(const canvas::FontSet& given) const {
    return own_fonts ? *own_fonts : given;
  }
};
std::optional<Design> design_of(const Plan& plan, const Options& options, Session& session) {
  auto sizes = find_sizes(plan.pattern(), options.size, session.diagnostics);
  if (!sizes) return std::nullopt;
  const std::string& paper = options.paper.empty() ? plan.pattern().paper : options.paper;
  const FencedFiles inside(session.files, plan.pattern().folder);

  // Template -> design: every key is known, its fonts hold what the words of the language need.
  auto style = load_template(paper, plan.pattern().language, inside, session.diagnostics);
  if (!style) return std::nullopt;
  style->in_grey = options.printing.grey;
  std::shared_ptr<const canvas::FontSet> own;
  if (style->fonts) {
    auto loaded = load_own_fonts(*style, inside, session.diagnostics);
    if (!loaded) return std::nullopt;
    own = std::make_shared<const canvas::FontSet>(std::move(*loaded));
  }

  // Prose -> photographs: every one named is there, can be printed and has words for it.
  const std::size_t errors = session.diagnostics.error_count();
  booklet::Photos photos = booklet::read_photos(plan.pattern(), session.files, session.diagnostics);
  for (const auto& [address, raster] : photos)
    if (raster) session.photos.push_back(plan.pattern().folder + '/' + address);
  return Design{std::move(*sizes), std::move(*style), std::move(photos), own, errors};
}

// Makes each size, and beside them the technical edit: what the words say is compared with what was
// computed. Each task has fonts and messages of its own; the messages are put together in order.
// False where an error was added.
bool make_sizes(
    const Plan& plan, const Design& design, const canvas::FontSet& fonts, Session& session,
    const std::function<void(std::size_t, const Scene&, const Template&, Diagnostics&)>& make_one) {
  const std::size_t count = design.sizes.size();
  std::vector<Diagnostics> said(count + 1);
  std::vector<canvas::FontSet> own;
  for (std::size_t i = 0; i <= count; ++i) own.push_back(design.fonts(fonts).another());
  in_parallel(count + 1, [&](std::size_t i) {
    const Template style = design.style.another();
    const Scene scene{plan.checked, plan.piecing, plan.quantities, own[i], style.words};
    if (i < count)
      make_one(i, scene, style, said[i]);
    else
      proofread(scene, design.sizes, style.words, session.files, said[i]);
  });
  for (const Diagnostics& of_task : said) add_all(of_task, session.diagnostics);
  accept_judgements(session.acceptances, session.diagnostics);
  return session.diagnostics.error_count() == design.errors;
}

}  // namespace

std::optional<std::vector<Pages>> set_pages(const Plan& plan, const Options& options,
                                            const canvas::FontSet& fonts, Session& session) {
  const auto design = design_of(plan, options, session);
  if (!design) return std::nullopt;

  // Plan -> pages: every tag has its value, every address its figure, and no page overflows.
  std::vector<std::optional<canvas::Document>> documents(design->sizes.size());
  const auto set_one = [&](std::size_t i, const Scene& scene, const Template& style,
                           Diagnostics& said) {
    documents[i] = set_booklet(scene, design->sizes[i], style, said, design->photos);
  };
  if (!make_sizes(plan, *design, fonts, session, set_one)) return std::nullopt;
  std::vector<Pages> pages;
  for (std::size_t i = 0; i < documents.size(); ++i)
    pages.push_back({design->sizes[i], std::move(*documents[i]), design->own_fonts});
  return pages;
}

std::optional<std::string> set_screen(const Plan& plan, const Options& options,
                                      const canvas::FontSet& fonts, Session& session) {
  auto design = design_of(plan, options, session);
  if (!design) return std::nullopt;
  // Figures are drawn for a narrow column, so that their labels are large where they fill a screen.
  constexpr double column = 390;  // pt
  const double spare = std::max(0.0, design->style.text_width() - column);
  design->style.left += spare / 2;
  design->style.right += spare / 2;

  // Plan -> parts: the same words, tables and figures as on pages.
  const Pattern& pattern = plan.pattern();
  ScreenPage page{pattern.id, pattern.title, pattern.edition, pattern.language, {}};
  std::vector<std::optional<BookletParts>> sizes(design->sizes.size());
  const auto write_one = [&](std::size_t i, const Scene& scene, const Template& style,
                             Diagnostics& said) {
    sizes[i] = write_booklet(scene, design->sizes[i], style, said, design->photos);
  };
  if (!make_sizes(plan, *design, fonts, session, write_one)) return std::nullopt;
  for (auto& parts : sizes) page.sizes.push_back(std::move(*parts));
  return to_html(page, design->style, design->fonts(fonts));
}

namespace {

void warn_of_coloured_photos(const Pattern& pattern, Diagnostics& diagnostics) {
  diagnostics
      .warning("D681", pattern.span, "photographs in JPEG files stay coloured in a grey booklet")
      .hints.push_back("save them grey, or as PNG, which is turned grey with the rest");
}

// Pages -> bytes: the same pages always give the same bytes.
std::optional<std::vector<Output>> print_pages(const Plan& plan, const Options& options,
                                               const canvas::FontSet& fonts, Session& session) {
  const auto pages = set_pages(plan, options, fonts, session);
  if (!pages) return std::nullopt;
  const Pattern& pattern = plan.pattern();
  std::vector<canvas::FontSet> own;
  for (const Pages& of_size : *pages) own.push_back(of_size.fonts(fonts).another());
  std::vector<std::vector<Printed>> all(pages->size());
  in_parallel(pages->size(), [&](std::size_t i) {
    const Pages& of_size = (*pages)[i];
    all[i] =
        print(of_size.document, pattern.id + '-' + pattern.sizes[of_size.size].id, options, own[i]);
  });

  std::vector<Output> outputs;
  const std::size_t errors = session.diagnostics.error_count();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::size_t size = (*pages)[i].size;
    for (Printed& printed : all[i]) {
      if (printed.coloured_photos > 0) warn_of_coloured_photos(pattern, session.diagnostics);
      for (const std::string& reason : split(trim(printed.reasons), '\n'))
        if (!reason.empty())
          session.diagnostics.error("D601", pattern.sizes[size].span,
                                    join({printed.output.name, reason}, ": "));
      outputs.push_back(std::move(printed.output));
    }
  }
  if (session.diagnostics.error_count() > errors) return std::nullopt;
  return outputs;
}

std::optional<std::vector<Output>> make_outputs(const Plan& plan, const Options& options,
                                                const canvas::FontSet& fonts, Session& session) {
  switch (options.form) {
    case Form::screen: {
      auto page = set_screen(plan, options, fonts, session);
      if (!page) return std::nullopt;
      return std::vector<Output>{{plan.pattern().id + ".html", std::move(*page)}};
    }
    case Form::listing:
      return make_listing(plan, options, fonts, session);
    default:
      return print_pages(plan, options, fonts, session);
  }
}

constexpr std::size_t changes_shown = 5;

// A file that may be kept beside the pattern; nothing where it is not there, or with an error.
std::optional<std::string> kept_beside(const std::string& folder, const char* name,
                                       Session& session) {
  const auto names = session.files.list(folder);
  if (std::find(names.begin(), names.end(), name) == names.end()) return std::nullopt;
  const FencedFiles inside(session.files, folder);
  return load(inside, folder + '/' + name, {}, session.sources, session.diagnostics);
}

void warn_of_stale_ledger(const Plan& plan, Session& session) {
  const std::string& folder = plan.pattern().folder;
  const auto ledger = kept_beside(folder, ledger_name, session);
  if (!ledger) return;
  const std::string path = folder + '/' + ledger_name;
  const auto changes = compare_ledgers(*ledger, ledger_text(plan));
  if (changes.empty()) return;
  Diagnostic& d = session.diagnostics.warning(
      "D651", {path, 0, 0, 0, 0},
      "the ledger is stale: " + std::to_string(changes.size()) +
          (changes.size() == 1 ? " quantity differs" : " quantities differ"));
  for (std::size_t i = 0; i < std::min(changes.size(), changes_shown); ++i) {
    const LedgerChange& change = changes[i];
    Note note;
    note.span = {path, change.line, 1, change.line, 1};
    note.message = change.words();
    d.notes.push_back(std::move(note));
  }
  d.hints.push_back("if these are meant, write it anew: `dogear quantities " + folder +
                    " --ledger`");
}

// Her words are compared with what they were drafted from.
void warn_of_stale_outline(const Plan& plan, const canvas::FontSet& fonts, Session& session) {
  const Pattern& pattern = plan.pattern();
  const auto kept = kept_beside(pattern.folder, outline_name, session);
  if (!kept || !is_outline(*kept)) return;
  const canvas::FontSet own = fonts.another();
  const auto drafts = make_outline(plan, own, session);
  if (!drafts) return;
  std::map<std::string, std::string> words;
  for (const auto& [name, prose] : pattern.prose) words[name] = prose.text;
  auto changes = compare_outlines(read_outline(*kept), *drafts, words);
  std::erase_if(changes, [&](const OutlineChange& c) { return !words.contains(c.path); });
  if (changes.empty()) return;
  Diagnostic& d = session.diagnostics.warning(
      "D652", {pattern.folder + '/' + outline_name, 0, 0, 0, 0},
      "your words were drafted from other steps: " + std::to_string(changes.size()) +
          (changes.size() == 1 ? " paragraph of the draft is new or gone"
                               : " paragraphs of the draft are new or gone"));
  for (std::size_t i = 0; i < std::min(changes.size(), changes_shown); ++i) {
    const OutlineChange& change = changes[i];
    Note note;
    note.span = {pattern.folder + '/' + change.path, change.line, 1, change.line, 1};
    note.message = change.words();
    d.notes.push_back(std::move(note));
  }
  d.hints.push_back("`dogear outline " + pattern.folder +
                    "` tells all of them; when your words follow, `--renew` takes them as known");
}

}  // namespace

std::optional<Booklets> compile(const std::string& folder, const Options& options,
                                const canvas::FontSet& fonts, Session& session) {
  const auto plan = make_plan(folder, session);
  if (!plan || !check_errata(*plan, session)) return std::nullopt;
  auto outputs = make_outputs(*plan, options, fonts, session);
  const std::size_t errors = session.diagnostics.error_count();
  warn_of_stale_outline(*plan, fonts, session);  // which may be why words are wrong
  if (!outputs) return std::nullopt;
  if (session.diagnostics.error_count() > errors) return std::nullopt;
  Booklets booklets{std::move(*outputs), plan->pattern().files};
  booklets.sources.insert(booklets.sources.end(), session.photos.begin(), session.photos.end());
  std::sort(booklets.sources.begin(), booklets.sources.end());
  return booklets;
}

std::optional<Plan> check(const std::string& folder, const Options& options,
                          const canvas::FontSet& fonts, Session& session) {
  auto plan = make_plan(folder, session);
  if (!plan || !check_errata(*plan, session)) return std::nullopt;
  const bool set = set_pages(*plan, options, fonts, session).has_value();
  const std::size_t errors = session.diagnostics.error_count();
  warn_of_stale_outline(*plan, fonts, session);  // which may be why words are wrong
  if (!set) return std::nullopt;
  warn_of_stale_ledger(*plan, session);
  if (session.diagnostics.error_count() > errors) return std::nullopt;
  return plan;
}

std::optional<std::string> draw(const Plan& plan, std::size_t size, const std::string& address,
                                const canvas::FontSet& fonts, Diagnostics& diagnostics) {
  constexpr double side = 432;  // pt: six inches
  constexpr std::string_view prefix = "figure:";
  const std::string name = starts_with(address, prefix) ? address.substr(prefix.size()) : address;
  const Scene scene{plan.checked, plan.piecing, plan.quantities, fonts,
                    words_of(plan.pattern().language)};
  const auto figure = draw_figure(scene, size, name, side, side);
  if (figure) return canvas::to_svg(*figure->list, figure->width, figure->height, fonts);

  const auto known = figure_addresses(scene, size);
  Diagnostic& d = diagnostics.error("D602", {}, "there is no figure called `" + name + "`");
  const std::string near = nearest(name, known);
  if (!near.empty()) d.hints.push_back("did you mean `" + near + "`?");
  d.hints.push_back("known: " + join(known, ", "));
  return std::nullopt;
}

std::optional<canvas::FontSet> load_fonts(Session& session, const canvas::FontPaths& paths) {
  std::string reason;
  auto fonts = canvas::FontSet::load(session.files, paths, reason);
  if (!fonts) {
    session.diagnostics.error("D001", {}, "a font cannot be read: " + reason)
        .hints.push_back("Debian's packages fonts-vollkorn and fonts-lato hold the fonts");
  }
  return fonts;
}

void settle(Session& session, bool whole) {
  accept_warnings(session.acceptances, whole, session.diagnostics);
  session.diagnostics.sort();
}

std::optional<std::vector<std::size_t>> find_sizes(const Pattern& pattern, const std::string& name,
                                                   Diagnostics& diagnostics) {
  std::vector<std::size_t> found;
  std::vector<std::string> known;
  for (std::size_t i = 0; i < pattern.sizes.size(); ++i) {
    known.push_back(pattern.sizes[i].id);
    if (name.empty() || pattern.sizes[i].id == name) found.push_back(i);
  }
  if (found.empty()) {
    diagnostics.error("D603", {}, "the pattern has no size called `" + name + "`")
        .hints.push_back("known: " + join(known, ", "));
    return std::nullopt;
  }
  return found;
}

std::string depfile_text(const std::vector<std::string>& targets,
                         const std::vector<std::string>& sources) {
  const auto escaped = [](const std::string& path) {
    std::string text;
    for (const char c : path) {
      if (c == ' ' || c == '#' || c == '\\' || c == ':') text += '\\';
      if (c == '$') text += '$';
      text += c;
    }
    return text;
  };
  std::string text;
  for (const std::string& target : targets) text += escaped(target) + ' ';
  text.back() = ':';
  for (const std::string& source : sources) text += " \\\n  " + escaped(source);
  text += '\n';
  for (const std::string& source : sources) text += escaped(source) + ":\n";
  return text;
}

}  // namespace dogear
