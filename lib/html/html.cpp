#include "html/html.h"

#include "html/embedded.h"
#include "html/markup.h"
#include "html/parts.h"
#include "html/sha256.h"

namespace dogear {
namespace {

using canvas::Color;
using html::attribute;

constexpr double legible = 7;  // contrast of text, WCAG 2 level AAA: it is read from a yard away

Color mixed(const Color& a, const Color& b, double part) {
  return {a.r + (b.r - a.r) * part, a.g + (b.g - a.g) * part, a.b + (b.b - a.b) * part};
}

// The colour, moved toward `toward` as far as it must be to be read on the page.
Color readable(const Color& color, const Color& page, const Color& toward) {
  constexpr int steps = 20;
  for (int i = 0; i < steps; ++i) {
    const Color moved = mixed(color, toward, static_cast<double>(i) / steps);
    if (canvas::contrast(moved, page) >= legible) return moved;
  }
  return toward;
}

std::string colours(const Template::Colours& c) {
  const auto set = [](const Color& page, const Color& ink, const Color& accent, const Color& muted,
                      const Color& rule, const Color& tint) {
    return "{--page:" + page.hex() + ";--ink:" + ink.hex() + ";--accent:" + accent.hex() +
           ";--muted:" + muted.hex() + ";--rule:" + rule.hex() + ";--tint:" + tint.hex() + "}";
  };
  const Color night{0.09, 0.085, 0.08}, moon{0.93, 0.91, 0.88};
  return ":root{color-scheme:light dark}\n:root" +
         set(canvas::white, readable(c.ink, canvas::white, canvas::black),
             readable(c.accent, canvas::white, canvas::black),
             readable(c.muted, canvas::white, canvas::black), c.rule, c.tint) +
         "\n@media (prefers-color-scheme:dark){:root" +
         set(night, moon, readable(c.accent, night, canvas::white),
             readable(c.muted, night, canvas::white), mixed(night, moon, 0.25),
             mixed(night, moon, 0.07)) +
         "}\n@media print{:root" + set(canvas::white, c.ink, c.accent, c.muted, c.rule, c.tint) +
         "}\n";
}

}  // namespace

std::string to_html(const ScreenPage& page, const Template& style, const canvas::FontSet& fonts) {
  const Words& words = style.words;
  canvas::SvgSheet sheet(fonts);
  std::string articles, sizes;
  for (const BookletParts& parts : page.sizes) {
    articles += html::PartWriter(parts, words, sheet).write();
    sizes += "<a" + attribute("href", "#size-" + parts.size) + attribute("data-size", parts.size) +
             '>' + html::words(parts.size_title) + "</a>\n";
  }
  const std::string look = colours(style.colours) + html_files().at("page.css");
  const std::string& script = html_files().at("page.js");
  // Nothing may be fetched, and nothing run but the style and script that stand here.
  const std::string policy = "default-src 'none'; style-src 'sha256-" + html::sha256_base64(look) +
                             "'; script-src 'sha256-" + html::sha256_base64(script) +
                             "'; img-src data:; base-uri 'none'; form-action 'none'";
  const std::string done = words("screen steps done", {{"n", "{n}"}, {"all", "{all}"}});

  std::string out = "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\"";
  out += attribute("lang", page.language) + attribute("xml:lang", page.language) +
         attribute("data-pattern", page.id) + attribute("data-edition", page.edition) + ">\n";
  out += "<head>\n<meta charset=\"utf-8\"/>\n<meta http-equiv=\"Content-Security-Policy\"" +
         attribute("content", policy) +
         "/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n"
         "<meta name=\"referrer\" content=\"no-referrer\"/>\n<title>" +
         escaped(page.title) + "</title>\n<style>" + look + "</style>\n<script>" + script +
         "</script>\n</head>\n<body>\n";
  out += "<div class=\"title\"><h1>" + html::words(page.title) + "</h1></div>\n";
  out += "<div class=\"bar\"><div>\n";
  if (page.sizes.size() > 1)
    out += "<nav class=\"sizes\"" + attribute("aria-label", words("screen sizes")) + ">\n" + sizes +
           "</nav>\n";
  out += "<output class=\"done script\"" + attribute("data-words", done) +
         "></output>\n<button type=\"button\" class=\"next script\">" +
         escaped(words("screen next step")) + "</button>\n</div></div>\n";
  out +=
      "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"defs\" aria-hidden=\"true\" width=\"0\" "
      "height=\"0\"><defs>\n" +
      sheet.definitions() + "</defs></svg>\n";
  out += "<main>\n" + articles +
         "<p class=\"last\"><button type=\"button\" class=\"clear script\"" +
         attribute("data-words", words("screen clear surely")) + '>' +
         escaped(words("screen clear")) + "</button></p>\n</main>\n</body>\n</html>\n";
  return out;
}

}  // namespace dogear
