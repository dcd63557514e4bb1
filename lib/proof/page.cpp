#include "proof/page.h"

#include <algorithm>

#include "base/text.h"
#include "canvas/image.h"
#include "canvas/svg.h"
#include "html/markup.h"
#include "html/sha256.h"
#include "proof/embedded.h"
#include "proof/markup.h"
#include "proof/pairs.h"

namespace dogear::proof {

namespace {

using html::attribute;

// The pictures of the page. What they draw alike is stored once, but for those with fonts of their
// own, which are images by themselves.
class Pictures {
 public:
  explicit Pictures(const canvas::FontSet& fonts) : sheet_(fonts) {}

  std::string side_by_side(const Picture* was, const Picture* now) {
    return "<div class=\"sides\">\n" + one_side(was, "Before") + one_side(now, "After") +
           "</div>\n";
  }
  std::string definitions() const {
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"defs\" aria-hidden=\"true\" "
           "width=\"0\" height=\"0\"><defs>\n" +
           sheet_.definitions() + "</defs></svg>\n";
  }

 private:
  std::string one_side(const Picture* picture, const std::string& title) {
    std::string out = "<figure><figcaption>" + title + "</figcaption>";
    out += picture == nullptr ? "<p class=\"none\">none</p>" : one(*picture, title);
    return out + "</figure>\n";
  }

  std::string one(const Picture& picture, const std::string& title) {
    constexpr double pixels = 96.0 / 72;  // a point
    const std::string words = picture.alt.empty() ? title : title + ": " + picture.alt;
    const std::string size = attribute("width", decimal(picture.width * pixels, 1)) +
                             attribute("height", decimal(picture.height * pixels, 1));
    if (picture.own_fonts || !picture.list)
      return "<img" + attribute("alt", words) +
             attribute("src", "data:image/svg+xml;base64," + canvas::base64(picture.svg)) + size +
             "/>";
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"" +
           attribute("aria-label", words) + size +
           attribute("viewBox",
                     "0 0 " + decimal(picture.width, 3) + ' ' + decimal(picture.height, 3)) +
           "><use href=\"#" + sheet_.add(*picture.list) + "\"/></svg>";
  }

  canvas::SvgSheet sheet_;
};

std::string kind_of(bool was, bool now) { return was ? now ? "changed" : "gone" : "new"; }

std::string places_html(const std::vector<std::string>& places) {
  std::string out;
  for (const std::string& place : places)
    out += (out.empty() ? "" : ", ") + std::string("<code class=\"place\">") + escaped(place) +
           "</code>";
  return out;
}

std::string figure_pair(const FigurePair& pair, Pictures& pictures) {
  std::string out = "<article class=\"pair\"" + attribute("data-figure", pair.either().name) +
                    ">\n<h3>" + escaped(pair.either().name) + " <span class=\"kind\">" +
                    kind_of(pair.was != nullptr, pair.now != nullptr) + "</span></h3>\n<p>" +
                    html::words(join(pair.sizes, ", ")) + ". Drawn from " +
                    places_html(pair.either().places) + (pair.now == nullptr ? " of the old" : "") +
                    "</p>\n";
  return out + pictures.side_by_side(pair.was, pair.now) + "</article>\n";
}

struct SizePages {
  std::string id, title;
  std::vector<PagePair> changed;
  std::size_t moved = 0;  // the same on a page of another number
};

std::string page_words(const Picture* page) {
  return page == nullptr ? "none" : page->name.empty() ? "no number" : "page " + page->name;
}

std::string page_pair(const PagePair& pair, Pictures& pictures) {
  std::string title;
  if (pair.was != nullptr && pair.now != nullptr && page_words(pair.was) != page_words(pair.now))
    title = "Was " + page_words(pair.was) + ", now " + page_words(pair.now);
  else
    title = page_words(pair.now != nullptr ? pair.now : pair.was);
  if (!title.empty() && title[0] == 'p') title[0] = 'P';
  if (title == "no number") title = "Page without a number";
  return "<article class=\"pair page\">\n<h4>" + escaped(title) + " <span class=\"kind\">" +
         kind_of(pair.was != nullptr, pair.now != nullptr) + "</span></h4>\n" +
         pictures.side_by_side(pair.was, pair.now) + "</article>\n";
}

std::vector<SizePages> changed_pages(const State& was, const State& now,
                                     const canvas::FontSet& fonts) {
  std::vector<SizePages> out;
  const std::vector<Picture> none;
  const auto compare = [&](const SizeState* old, const SizeState* fresh) {
    SizePages pages{fresh != nullptr ? fresh->id : old->id,
                    fresh != nullptr ? fresh->title : old->title,
                    {},
                    0};
    for (const PagePair& pair :
         pair_pages(old != nullptr ? old->pages : none, fresh != nullptr ? fresh->pages : none)) {
      if (pair.was != nullptr && pair.now != nullptr) {
        if (pair.was->svg == pair.now->svg) continue;
        if (same_within(*pair.was, *pair.now, fonts)) {
          ++pages.moved;
          continue;
        }
      }
      pages.changed.push_back(pair);
    }
    if (!pages.changed.empty() || pages.moved > 0) out.push_back(std::move(pages));
  };
  const auto named = [](const State& state, const std::string& id) -> const SizeState* {
    for (const SizeState& size : state.sizes)
      if (size.id == id) return &size;
    return nullptr;
  };
  for (const SizeState& size : now.sizes) compare(named(was, size.id), &size);
  for (const SizeState& size : was.sizes)
    if (named(now, size.id) == nullptr) compare(&size, nullptr);
  return out;
}

// What keeps a side from being shown in full, in words; empty where nothing does.
std::string trouble_words(const Side& side, std::string_view which) {
  const std::string head(which);
  if (!side.there) return head + " (" + side.name + ") has no pattern here: all is new.";
  const std::string errors = counted(side.errors, "error", "errors");
  if (!side.state.planned)
    return head + " (" + side.name + ") has " + errors + ": nothing of it can be shown.";
  if (!side.state.whole)
    return head + " (" + side.name + ") has " + errors +
           ": its figures and quantities are shown, its pages are not.";
  return "";
}

struct Found {
  std::vector<FigurePair> figures;
  std::vector<SizePages> pages;
  bool quantities = false;
  bool pages_compared = false;
};

Found find(const ProofPage& page, const canvas::FontSet& fonts) {
  Found found;
  const State &was = page.was.state, &now = page.now.state;
  // A side that could not be made is not a side of which all is gone.
  if (!now.planned || (page.was.there && !was.planned)) return found;
  found.figures = changed_figures(was, now);
  found.quantities = !page.was.there || (page.comparison && !page.comparison->same());
  found.pages_compared = now.whole && (!page.was.there || was.whole);
  if (found.pages_compared) found.pages = changed_pages(was, now, fonts);
  return found;
}

std::string headline_of(const ProofPage& page, const Found& found) {
  const bool compared = page.now.state.planned && (!page.was.there || page.was.state.planned);
  if (!compared) return "The two cannot be compared.";
  std::size_t pages = 0;
  for (const SizePages& size : found.pages) pages += size.changed.size();
  if (found.figures.empty() && found.pages.empty() && !found.quantities)
    return found.pages_compared ? "Nothing differs." : "No figure and no quantity differs.";
  if (!page.was.there)
    return "All is new: " + counted(found.figures.size(), "figure", "figures") + ", " +
           counted(pages, "page", "pages") + ".";
  const std::size_t quantities = page.comparison ? page.comparison->changes() : 0;
  return counted(found.figures.size(), "figure", "figures") + ", " +
         counted(pages, "page", "pages") + " and " + counted(quantities, "quantity", "quantities") +
         " differ.";
}

std::string section(std::string_view id, std::string_view title, const std::string& content) {
  return "<section" + attribute("id", id) + ">\n<h2>" + std::string(title) + "</h2>\n" + content +
         "</section>\n";
}

std::string pages_html(const Found& found, Pictures& pictures) {
  std::string out;
  for (const SizePages& size : found.pages) {
    out += "<h3>" + html::words(size.title) + "</h3>\n";
    for (const PagePair& pair : size.changed) out += page_pair(pair, pictures);
    if (size.moved > 0)
      out += "<p>" + counted(size.moved, "page differs", "pages differ") +
             " only in what runs along the edges, such as the number.</p>\n";
  }
  return out;
}

}  // namespace

std::string summary(const ProofPage& page, const canvas::FontSet& fonts) {
  return headline_of(page, find(page, fonts));
}

std::string to_html(const ProofPage& page, const canvas::FontSet& fonts) {
  const Found found = find(page, fonts);
  const std::string& look = proof_files().at("proof.css");
  const std::string policy = "default-src 'none'; style-src 'sha256-" + html::sha256_base64(look) +
                             "'; img-src data:; base-uri 'none'; form-action 'none'";
  const std::string title = page.now.state.planned   ? page.now.state.title
                            : page.was.state.planned ? page.was.state.title
                                                     : page.now.name;
  std::string out =
      "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\" "
      "xml:lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n"
      "<meta http-equiv=\"Content-Security-Policy\"" +
      attribute("content", policy) +
      "/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>"
      "\n<meta name=\"referrer\" content=\"no-referrer\"/>\n<title>Proof of " +
      escaped(title) + "</title>\n<style>" + look +
      "</style>\n</head>\n<body class=\"proof\">\n<header>\n<h1>Proof of " + html::words(title) +
      "</h1>\n<p>Before: <code>" + escaped(page.was.name) + "</code>. After: <code>" +
      escaped(page.now.name) + "</code>.</p>\n";
  out += "<p class=\"headline\">" + escaped(headline_of(page, found)) + "</p>\n";
  for (const std::string& words :
       {trouble_words(page.was, "Before"), trouble_words(page.now, "After")})
    if (!words.empty()) out += "<p class=\"trouble\">" + escaped(words) + "</p>\n";
  std::string links, body;
  const auto add = [&](std::string_view id, std::string_view name, const std::string& content) {
    if (content.empty()) return;
    links += "<a" + attribute("href", '#' + std::string(id)) + '>' + std::string(name) + "</a>\n";
    body += section(id, name, content);
  };
  add("messages", "Messages", page.now.messages);
  if (page.was.there && page.was.errors > 0)
    add("old-messages", "Messages of before", page.was.messages);
  if (page.comparison) {
    add("quantities", "Quantities", changes_html(*page.comparison));
  } else if (!page.was.there && page.now.state.planned) {
    std::string lists;
    for (const SizeState& size : page.now.state.sizes)
      lists += "<h2>" + html::words(size.title) + "</h2>\n" + lists_html(size.lists, nullptr);
    add("quantities", "Quantities", "<div class=\"many\">\n" + lists + "</div>\n");
  }
  Pictures pictures(fonts);
  std::string figures;
  for (const FigurePair& pair : found.figures) figures += figure_pair(pair, pictures);
  add("figures", "Figures", figures);
  add("pages", "Pages", pages_html(found, pictures));
  out += "<nav>\n" + links + "</nav>\n</header>\n" + pictures.definitions() + "<main>\n" + body +
         "</main>\n</body>\n</html>\n";
  return out;
}

}  // namespace dogear::proof
