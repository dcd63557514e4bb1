#include "proof/builder.h"

#include <algorithm>

#include "base/text.h"
#include "booklet/booklet.h"
#include "booklet/proofread.h"
#include "compile/errata.h"
#include "diag/merge.h"
#include "proof/seen.h"

namespace dogear::proof {

struct Builder::Kept {
  struct KeptPlan {
    SeenFiles::Seen seen;
    std::size_t turn = 0;      // counts the plans, so that what is made of one names it
    std::optional<Plan> plan;  // none: its errors are among `said`
    Diagnostics said;          // behind the reading of files
  };
  std::optional<KeptPlan> plan;
  std::size_t turns = 0;

  struct KeptStyle {
    SeenFiles::Seen seen;
    std::string paper, language;
    std::size_t turn = 0;
    std::shared_ptr<const Template> style;  // none: errors were said
    std::shared_ptr<const canvas::FontSet> own_fonts;
    bool sound = false;
    Diagnostics said;
  };
  std::optional<KeptStyle> style;

  // Sections are written from the plan with the template.
  struct KeptSections {
    std::size_t plan_turn = 0, style_turn = 0;
    SectionMemory memory;
  };
  std::optional<KeptSections> sections;
  SectionMemory* memory_for_now() {
    if (!sections || sections->plan_turn != plan->turn || sections->style_turn != style->turn) {
      sections.emplace();
      sections->plan_turn = plan->turn;
      sections->style_turn = style->turn;
    }
    return &sections->memory;
  }

  // Pages are pictures of what was set, with the fonts of the template.
  struct KeptPages {
    std::vector<canvas::Page> pages;
    std::vector<Picture> pictures;
  };
  std::map<std::string, KeptPages> pages;  // by size
  std::size_t pages_style_turn = 0;

  // Figures are drawn from the plan with the fonts of the template.
  struct KeptFigures {
    std::size_t plan_turn = 0, style_turn = 0;
    std::vector<std::vector<Picture>> by_size;
  };
  std::optional<KeptFigures> figures;
  struct KeptFacts {
    std::size_t plan_turn = 0;
    std::vector<std::vector<List>> lists;
    ComparedSide side;
  };
  std::optional<KeptFacts> facts;
};

namespace {

// The size that is looked at, then the others.
std::vector<std::size_t> in_order(const Pattern& pattern, const Look& look) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < pattern.sizes.size(); ++i) {
    if (pattern.sizes[i].id == look.size)
      out.insert(out.begin(), i);
    else
      out.push_back(i);
  }
  return out;
}

}  // namespace

Builder::Builder(std::string folder, const canvas::FontSet& fonts)
    : folder_(std::move(folder)), fonts_(fonts), kept_(std::make_unique<Kept>()) {
  while (folder_.size() > 1 && folder_.ends_with('/')) folder_.pop_back();
}
Builder::~Builder() = default;

const Plan* Builder::plan(Session& session, const Files& files) {
  // The reading is done every time: it is quick, and fills the session's sources.
  const SeenFiles seen(files);
  auto pattern = load_pattern(folder_, seen, session.sources, session.diagnostics);
  session.acceptances = read_acceptances(session.sources, session.diagnostics);
  if (!pattern || session.diagnostics.has_errors()) return nullptr;

  const std::string prose = folder_ + "/prose/";
  const auto is_prose = [&](const std::string& path) {
    return starts_with(path, prose) && path.ends_with(".md");
  };
  auto& kept = kept_->plan;
  if (!kept || !kept->seen.same_in(files, is_prose)) {
    kept.reset();
    Diagnostics said;
    auto plan = plan_of(std::move(*pattern), said);
    kept = Kept::KeptPlan{seen.seen(), ++kept_->turns, std::move(plan), std::move(said)};
  } else if (kept->plan) {
    kept->plan->checked.pattern.prose = std::move(pattern->prose);
    kept->plan->checked.pattern.files = std::move(pattern->files);
  }
  add_all(kept->said, session.diagnostics);
  return kept->plan ? &*kept->plan : nullptr;
}

const canvas::FontSet& Builder::fonts() const {
  return kept_->style && kept_->style->own_fonts ? *kept_->style->own_fonts : fonts_;
}

void Builder::figures(const Plan& plan, const Look& look, State& state, Progress* progress) {
  auto& kept = kept_->figures;
  const std::size_t plan_turn = kept_->plan->turn, style_turn = kept_->style->turn;
  if (!kept || kept->plan_turn != plan_turn || kept->style_turn != style_turn) {
    kept = Kept::KeptFigures{plan_turn, style_turn, {}};
    kept->by_size.resize(state.sizes.size());
    const Words& words = words_of(plan.pattern().language);
    for (const std::size_t i : in_order(plan.pattern(), look)) {
      std::function<void(std::span<const Picture>)> so_far;
      if (progress != nullptr)
        so_far = [&, i](std::span<const Picture> first) {
          progress->first_figures(state.sizes[i].id, first);
        };
      kept->by_size[i] = figure_pictures(plan, i, fonts_, kept_->style->own_fonts, words, so_far);
      state.sizes[i].figures = kept->by_size[i];
      if (progress != nullptr) progress->figures(state.sizes[i]);
    }
  }
  for (std::size_t i = 0; i < state.sizes.size(); ++i) state.sizes[i].figures = kept->by_size[i];
}

void Builder::facts(const Plan& plan, Session& session, State& state) {
  auto& facts = kept_->facts;
  const std::size_t turn = kept_->plan->turn;
  if (!facts || facts->plan_turn != turn) {
    facts = Kept::KeptFacts{turn, {}, side_of_plan(folder_, plan, session)};
    for (std::size_t i = 0; i < state.sizes.size(); ++i)
      facts->lists.push_back(quantity_lists(plan, i));
  }
  for (std::size_t i = 0; i < state.sizes.size(); ++i) state.sizes[i].lists = facts->lists[i];
  state.side = facts->side;
  // Its sources are those of now, words and all.
  state.side.sources = sources_within(folder_, session.sources);
}

bool Builder::style(const Pattern& pattern, Session& session) {
  auto& kept = kept_->style;
  if (!kept || kept->paper != pattern.paper || kept->language != pattern.language ||
      !kept->seen.same_in(session.files)) {
    kept.reset();
    const SeenFiles seen(session.files);
    Diagnostics said;
    Kept::KeptStyle made;
    auto style = load_template(pattern.paper, pattern.language, seen, said);
    made.sound = style.has_value();
    if (style && style->fonts) {
      auto own = load_own_fonts(*style, seen, said);
      made.sound = own.has_value();
      if (own) made.own_fonts = std::make_shared<const canvas::FontSet>(std::move(*own));
    }
    if (style) made.style = std::make_shared<const Template>(std::move(*style));
    made.seen = seen.seen();
    made.paper = pattern.paper;
    made.language = pattern.language;
    made.turn = ++kept_->turns;
    made.said = std::move(said);
    kept = std::move(made);
  }
  add_all(kept->said, session.diagnostics);
  return kept->sound;
}

// A page that is as it was keeps its picture.
void Builder::show_pages(std::vector<canvas::Page> pages, std::size_t looked_at, SizeState& size,
                         Progress* progress) {
  if (kept_->pages_style_turn != kept_->style->turn) kept_->pages.clear();
  kept_->pages_style_turn = kept_->style->turn;
  Kept::KeptPages& kept = kept_->pages[size.id];
  size.pages.resize(pages.size());
  // From the page looked at on, then those before it.
  const std::size_t first = looked_at < pages.size() ? looked_at : 0;
  std::vector<std::size_t> changed, same;
  for (std::size_t n = 0; n < pages.size(); ++n) {
    const std::size_t at = (first + n) % pages.size();
    const bool is_same = at < kept.pages.size() && kept.pages[at] == pages[at];
    (is_same ? same : changed).push_back(at);
  }
  const auto tell = [&](std::size_t at) {
    if (progress != nullptr) progress->page(size, at, pages.size(), size.pages[at]);
  };
  for (const std::size_t at : changed) {
    size.pages[at] = page_picture(pages[at], fonts_, kept_->style->own_fonts);
    tell(at);
  }
  for (const std::size_t at : same) {
    size.pages[at] = kept.pictures[at];
    tell(at);
  }
  kept = {std::move(pages), size.pages};
}

bool Builder::pages(const Plan& plan, const Look& look, Session& session, State& state,
                    Progress* progress) {
  const Pattern& pattern = plan.pattern();
  const auto& kept = kept_->style;
  const canvas::FontSet& fonts = this->fonts();

  const std::size_t errors = session.diagnostics.error_count();
  const booklet::Photos photos = booklet::read_photos(pattern, session.files, session.diagnostics);
  const Scene scene{plan.checked, plan.piecing, plan.quantities, fonts, kept->style->words};
  const std::vector<std::size_t> order = in_order(pattern, look);
  SectionMemory* memory = photos.empty() ? kept_->memory_for_now() : nullptr;
  // Messages are said in the order of the sizes, whichever is made first.
  std::vector<Diagnostics> said(order.size());
  std::size_t made = 0;
  for (const std::size_t i : order) {
    auto document = set_booklet(scene, i, *kept->style, said[i], photos, memory);
    if (!document) continue;
    ++made;
    show_pages(std::move(document->pages), look.page, state.sizes[i], progress);
  }
  std::erase_if(kept_->pages, [&](const auto& kept_pages) {
    return std::none_of(state.sizes.begin(), state.sizes.end(),
                        [&](const SizeState& size) { return size.id == kept_pages.first; });
  });
  for (const Diagnostics& of_size : said) add_all(of_size, session.diagnostics);
  std::vector<std::size_t> sizes(order.size());
  for (std::size_t i = 0; i < sizes.size(); ++i) sizes[i] = i;
  proofread(scene, sizes, kept->style->words, session.files, session.diagnostics);
  accept_judgements(session.acceptances, session.diagnostics);
  return made == order.size() && session.diagnostics.error_count() == errors;
}

Built Builder::build(const Files& files, const Look& look, Progress* progress) {
  const FencedFiles inside(files, folder_);
  Session session(inside);
  Built built;
  State& state = built.state;
  const Plan* made = plan(session, inside);
  if (made != nullptr) {
    state.planned = true;
    state.title = made->pattern().title;
    for (const SizeDef& def : made->pattern().sizes)
      state.sizes.push_back({def.id, def.title, {}, {}, {}});
    // Figures and quantities need no pages, so they are there first.
    const bool styled = style(made->pattern(), session);
    if (styled) figures(*made, look, state, progress);
    facts(*made, session, state);
    const bool kept_errata = check_errata(*made, session);
    const bool sound = styled && pages(*made, look, session, state, progress);
    state.whole = kept_errata && sound;
    for (SizeState& size : state.sizes) {
      if (!sound) size.pages.clear();
      const FigurePlaces places(size.figures);
      for (Picture& page : size.pages) find_spots(page, places);
    }
  }
  settle(session, made != nullptr && kept_->style && kept_->style->sound);
  built.diagnostics = std::move(session.diagnostics);
  built.sources = std::move(session.sources);
  return built;
}

}  // namespace dogear::proof
