#include "proof/watch.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "base/text.h"
#include "html/markup.h"
#include "html/sha256.h"
#include "proof/embedded.h"
#include "proof/markup.h"
#include "proof/pairs.h"

namespace dogear::proof {

namespace {

using Json = nlohmann::ordered_json;

std::string text_of(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

double rounded(double value) { return std::round(value * 10000) / 10000; }

const SizeState* size_named(const std::optional<State>& state, const std::string& id) {
  if (!state) return nullptr;
  for (const SizeState& size : state->sizes)
    if (size.id == id) return &size;
  return nullptr;
}

Json picture_json(const Picture& picture, const std::string& kept, bool changed, bool late) {
  Json spots = Json::array();
  for (const Spot& spot : picture.spots)
    spots.push_back({rounded(spot.left), rounded(spot.top), rounded(spot.width),
                     rounded(spot.height), spot.alt, spot.places});
  Json json{{"picture", kept},
            {"name", picture.name},
            {"alt", picture.alt},
            {"width", rounded(picture.width)},
            {"height", rounded(picture.height)},
            {"changed", changed},
            {"late", late}};
  if (!picture.places.empty()) json["places"] = picture.places;
  if (!spots.empty()) json["spots"] = std::move(spots);
  return json;
}

// Those that changed are marked, where there is something to compare with.
Json figures_of(std::span<const Picture> figures, const SizeState* was, bool marked, Board& board) {
  std::map<std::string, const Picture*> known;
  if (was != nullptr)
    for (const Picture& figure : was->figures) known[figure.name] = &figure;
  Json all = Json::array();
  for (const Picture& figure : figures) {
    if (figure.name.empty()) continue;
    const auto found = known.find(figure.name);
    const bool same = found != known.end() && found->second->svg == figure.svg;
    all.push_back(picture_json(figure, board.keep(figure.svg), marked && !same, false));
  }
  return all;
}

std::string status(std::string_view state, const std::string& words) {
  return text_of({{"state", state}, {"words", words}});
}

}  // namespace

// Shows the first figure and the first page that changed as soon as they are made, and then each
// size's pages together.
class Watch::Stage : public Progress {
 public:
  explicit Stage(Watch& watch) : watch_(watch) {}

  void first_figures(const std::string& id, std::span<const Picture> first) override {
    const SizeState* was = size_named(watch_.good_, id);
    if (was == nullptr || drawn_) return;
    Json all = figures_of(first, was, true, watch_.board_);
    drawn_ = std::any_of(all.begin(), all.end(),
                         [](const Json& figure) { return figure["changed"].get<bool>(); });
    if (!drawn_) return;
    std::set<std::string> there;
    for (const Picture& figure : first) there.insert(figure.name);
    for (const Picture& figure : was->figures)
      if (!there.contains(figure.name))
        all.push_back(picture_json(figure, watch_.board_.keep(figure.svg), false, true));
    show("figures/" + id, text_of(all));
  }

  void figures(const SizeState& size) override {
    if (!watch_.good_) return;  // at first the pages say more
    show("figures/" + size.id, watch_.figures_json(size, size_named(watch_.good_, size.id)));
  }

  void page(const SizeState& size, std::size_t index, std::size_t pages,
            const Picture& page) override {
    const SizeState* was = size_named(watch_.good_, size.id);
    if (size.id != size_) {
      size_ = size.id;
      made_ = 0;
    }
    ++made_;
    if (made_ == 1 && !begun_) {
      begun_ = true;
      show_one(size, index, pages, page, was);
    }
    if (made_ < pages) return;
    watch_.board_.put("pages/" + size.id, watch_.pages_json(size, was));
    watch_.board_.show();
  }

 private:
  void show_one(const SizeState& size, std::size_t index, std::size_t pages, const Picture& page,
                const SizeState* was) {
    Json all = Json::array();
    for (std::size_t i = 0; i < pages; ++i) {
      const bool had = was != nullptr && i < was->pages.size();
      if (i == index) {
        const bool changed = watch_.good_ && (!had || was->pages[i].svg != page.svg);
        all.push_back(picture_json(page, watch_.board_.keep(page.svg), changed, false));
      } else if (had) {
        all.push_back(
            picture_json(was->pages[i], watch_.board_.keep(was->pages[i].svg), false, true));
      }
    }
    show("pages/" + size.id, text_of(all));
  }

  void show(const std::string& entry, const std::string& pictures) {
    watch_.board_.put(entry, pictures);
    watch_.board_.put("status", status("working", "Building …"));
    watch_.board_.show();
  }

  Watch& watch_;
  std::string size_;
  std::size_t made_ = 0;
  bool begun_ = false;  // with pages
  bool drawn_ = false;  // a figure that changed, and shown
};

Watch::Watch(std::string folder, const canvas::FontSet& fonts, Board& board)
    : fonts_(fonts), board_(board), builder_(std::move(folder), fonts) {}

std::string Watch::pages_json(const SizeState& size, const SizeState* was) {
  Json all = Json::array();
  if (was == nullptr) {
    for (const Picture& page : size.pages)
      all.push_back(picture_json(page, board_.keep(page.svg), good_.has_value(), false));
    return text_of(all);
  }
  for (const PagePair& pair : pair_pages(was->pages, size.pages)) {
    if (pair.now == nullptr) continue;
    const bool same = pair.was != nullptr && same_within(*pair.was, *pair.now, fonts_);
    all.push_back(picture_json(*pair.now, board_.keep(pair.now->svg), !same, false));
  }
  return text_of(all);
}

std::string Watch::figures_json(const SizeState& size, const SizeState* was) {
  return text_of(figures_of(size.figures, was, good_.has_value(), board_));
}

std::string Watch::facts_json(const SizeState& size, const SizeState* was,
                              const std::optional<Comparison>& comparison) {
  std::string html;
  if (comparison) {
    Comparison part = *comparison;
    std::erase_if(part.sizes, [&](const SizeComparison& of_size) {
      return !of_size.id.empty() && of_size.id != size.id;
    });
    html += changes_html(part);
  }
  html += lists_html(size.lists, was == nullptr ? nullptr : &was->lists);
  return text_of({{"html", html}});
}

void Watch::show_whole(State state) {
  const bool first = !good_;
  std::optional<Comparison> comparison;
  if (!first) comparison = compare_sides(good_->side, state.side);
  std::map<std::string, std::string> entries;
  Json sizes = Json::array();
  for (const SizeState& size : state.sizes) {
    const SizeState* was = size_named(good_, size.id);
    sizes.push_back({{"id", size.id}, {"title", size.title}});
    entries["pages/" + size.id] = pages_json(size, was);
    entries["figures/" + size.id] = figures_json(size, was);
    entries["facts/" + size.id] = facts_json(size, was, comparison);
  }
  entries["sizes"] = text_of({{"title", state.title}, {"sizes", std::move(sizes)}});
  std::string words = "Built.";
  if (!first) {
    const auto changed = [&](const char* kind) {
      std::size_t n = 0;
      for (const auto& [name, json] : entries) {
        if (!starts_with(name, kind)) continue;
        for (const Json& picture : Json::parse(json)) n += picture["changed"].get<bool>() ? 1 : 0;
      }
      return n;
    };
    const std::size_t pages = changed("pages/"), figures = changed("figures/");
    words += " Changed: " + counted(pages, "page", "pages") + ", " +
             counted(figures, "figure", "figures") + ", " +
             counted(comparison->changes(), "quantity", "quantities") + ".";
  }
  entries["status"] = status("fresh", words);
  entries["errors"] = "\"\"";
  for (const auto& [name, json] : entries_)
    if (!entries.contains(name) && name != "messages") board_.drop(name);
  for (const auto& [name, json] : entries) board_.put(name, json);
  entries_ = std::move(entries);
  good_ = std::move(state);
  board_.forget_unused();  // only here: a broken build shows pictures that it did not make
}

void Watch::show_broken(const Built& built) {
  const std::size_t errors = built.diagnostics.error_count();
  // What was shown of this build already is taken back.
  for (const auto& [name, json] : entries_) board_.put(name, json);
  board_.put("status", status("broken", counted(errors, "error", "errors") +
                                            (good_ ? ". Shown is the last build without errors."
                                                   : ". Nothing could be built yet.")));
  board_.put("errors", text_of(messages_html(built.diagnostics, built.sources, builder_.folder(),
                                             Said::errors)));
}

void Watch::turn(const Files& files, const Look& look) {
  if (seen_ && seen_->same_in(files)) return;
  const SeenFiles seen(files);
  Stage stage(*this);
  Built built = builder_.build(seen, look, &stage);
  seen_ = seen.seen();
  board_.put("messages", text_of(messages_html(built.diagnostics, built.sources, builder_.folder(),
                                               Said::others)));
  if (built.state.whole && !built.diagnostics.has_errors()) {
    show_whole(std::move(built.state));
  } else {
    show_broken(built);
  }
  board_.show();
}

LivePage live_page() {
  const std::string& look = proof_files().at("proof.css");
  const std::string& script = proof_files().at("live.js");
  LivePage page;
  page.policy = "default-src 'none'; style-src 'sha256-" + html::sha256_base64(look) +
                "'; script-src 'sha256-" + html::sha256_base64(script) +
                "'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; "
                "frame-ancestors 'none'";
  page.html = R"html(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<link rel="icon" type="image/svg+xml" href="icon">
<title>dogear</title>
<style>)html" +
              look + "</style>\n<script>" + script + R"html(</script>
</head>
<body class="live">
<header><h1></h1><span id="status" role="status">Building …</span><div id="sizes"></div></header>
<div id="errors" role="alert" hidden></div>
<main class="columns">
<section id="pages" tabindex="0"><h2>Pages</h2><div></div></section>
<section id="figures" tabindex="0"><h2>Figures</h2><div></div></section>
<section id="facts" tabindex="0"><h2>Messages</h2><div id="messages"></div><h2>Quantities</h2><div id="quantities"></div></section>
</main>
<output id="source"></output>
</body>
</html>
)html";
  return page;
}

}  // namespace dogear::proof
