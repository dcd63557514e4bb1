#include "canvas/svg.h"

#include <cctype>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "support/fonts.h"

using namespace dogear::canvas;

namespace {

// Enough of XML's grammar to catch what a writer gets wrong: nesting, quotes and bare signs.
std::string xml_fault(const std::string& xml) {
  std::vector<std::string> open;
  std::size_t at = 0;
  const auto name = [&] {
    std::string out;
    while (at < xml.size() && (std::isalnum(static_cast<unsigned char>(xml[at])) != 0 ||
                               xml[at] == '-' || xml[at] == ':'))
      out += xml[at++];
    return out;
  };
  const auto reference = [&] {
    const std::size_t end = xml.find(';', at);
    const std::string entity = end == std::string::npos ? "" : xml.substr(at, end - at + 1);
    return entity == "&amp;" || entity == "&lt;" || entity == "&gt;" || entity == "&quot;" ||
           entity == "&#39;";
  };
  while (at < xml.size()) {
    if (xml[at] == '&' && !reference()) return "bare &";
    if (xml[at] != '<') {
      ++at;
      continue;
    }
    ++at;
    const bool closing = xml[at] == '/';
    if (closing) ++at;
    const std::string element = name();
    if (element.empty()) return "a tag without a name";
    std::vector<std::string> seen;
    while (at < xml.size() && xml[at] == ' ') {
      ++at;
      const std::string attribute = name();
      for (const std::string& earlier : seen)
        if (earlier == attribute) return "attribute twice: " + attribute;
      seen.push_back(attribute);
      if (attribute.empty() || xml.compare(at, 2, "=\"") != 0) return "attribute in " + element;
      for (at += 2; at < xml.size() && xml[at] != '"'; ++at) {
        if (xml[at] == '<') return "bare < in " + attribute;
        if (xml[at] == '&' && !reference()) return "bare & in " + attribute;
      }
      ++at;
    }
    const bool empty = at < xml.size() && xml[at] == '/';
    if (empty) ++at;
    if (at >= xml.size() || xml[at] != '>') return "unclosed tag " + element;
    ++at;
    if (closing) {
      if (open.empty() || open.back() != element) return "</" + element + "> closes nothing";
      open.pop_back();
    } else if (!empty) {
      open.push_back(element);
    }
  }
  return open.empty() ? "" : "never closed: " + open.back();
}

DisplayList rich() {
  DisplayList patch;
  Style style;
  style.fill = Color::parse("#d8e4f0");
  style.hatch = Hatch{1, Color::gray(0.25), 4, 0.4};
  style.stroke = black;
  patch.shape(Path::polygon({{0, 0}, {40, 0}, {0, 40}}), style);
  const ListRef form = share(patch);
  DisplayList list;
  list.draw(form);
  list.draw(form, Transform::turn_about(180, {20, 20}));
  list.figure(form, Transform::move(60, 0), "Unit \"A\" & <B>");
  list.text(10, 60, test_fonts().shape(FontId::text, 10, "Make 4 & “press” 2½ <in>"));
  list.link_uri(Rect::of(0, 0, 9, 9), "https://example.org/?a=1&b=2");
  list.draw_clipped(form, Transform::move(0, 50), Path::circle({20, 70}, 10));
  return list;
}

}  // namespace

TEST_CASE("a small picture is written just so") {
  DisplayList list;
  Style style;
  style.fill = Color::parse("#ffcc00");
  style.stroke = black;
  style.width = 0.75;
  style.dash = {3, 1.5};
  list.shape(Path::rect(1, 2, 10, 5), style);
  list.stroke_path(Path::segment({0, 0}, {4.25, 4.25}), Color::gray(0.5), 0.5);
  CHECK(to_svg(list, 12, 8, test_fonts()) ==
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"12pt\" height=\"8pt\" "
        "viewBox=\"0 0 12 8\">\n"
        "<path fill=\"#ffcc00\" stroke=\"#000000\" stroke-width=\"0.75\" "
        "stroke-dasharray=\"3 1.5\" d=\"M1 2L11 2L11 7L1 7Z\"/>\n"
        "<path fill=\"none\" stroke=\"#808080\" stroke-width=\"0.5\" d=\"M0 0L4.25 4.25\"/>\n"
        "</svg>\n");
}

TEST_CASE("the check of well-formedness finds faults") {
  CHECK(xml_fault("<a b=\"1\"><c/></a>").empty());
  CHECK_FALSE(xml_fault("<a><b></a></b>").empty());
  CHECK_FALSE(xml_fault("<a b=\"1\" b=\"2\"/>").empty());
  CHECK_FALSE(xml_fault("<a b=\"x & y\"/>").empty());
  CHECK_FALSE(xml_fault("<a>").empty());
}

TEST_CASE("a rich picture is well formed, repeatable, and stores what repeats once") {
  const std::string svg = to_svg(rich(), 120, 80, test_fonts());
  CHECK(xml_fault(svg).empty());
  CHECK(svg == to_svg(rich(), 120, 80, test_fonts()));
  const auto count = [&](const std::string& part) {
    int n = 0;
    for (std::size_t at = svg.find(part); at != std::string::npos; at = svg.find(part, at + 1)) ++n;
    return n;
  };
  CHECK(count("fill=\"#d8e4f0\"") == 1);
  CHECK(count("<use href=\"#f") == 4);
  CHECK(svg.find("<title>Unit &quot;A&quot; &amp; &lt;B&gt;</title>") != std::string::npos);
  CHECK(svg.find("aria-label=\"Make 4 &amp; “press” 2\u20091\u20442 &lt;in&gt;\"") !=
        std::string::npos);
  CHECK(svg.find("?a=1&amp;b=2") != std::string::npos);
  const std::string other = to_svg(rich(), 120, 80, test_fonts(), "p7");
  CHECK(other.find("id=\"p7f") != std::string::npos);
  CHECK(other.find("id=\"f") == std::string::npos);

  if (std::system("command -v xmllint >/dev/null 2>&1") == 0) {
    const auto path = std::filesystem::temp_directory_path() / "dogear-svg-test.svg";
    std::ofstream(path, std::ios::binary) << svg;
    CHECK(std::system(("xmllint --noout " + path.string()).c_str()) == 0);
    std::filesystem::remove(path);
  }
}
