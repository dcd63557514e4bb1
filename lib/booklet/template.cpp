#include "booklet/template.h"

#include <algorithm>
#include <set>

#include "base/length.h"
#include "model/reader.h"
#include "source/node.h"

namespace dogear {
namespace {

constexpr double points_an_inch = 72;

struct Loader {
  const Files& files;
  Diagnostics& diagnostics;
  Template out;
  std::string folder;          // of a template that is a file; "" for built-in ones
  std::set<std::string> seen;  // sections read, so that none is given twice

  void points(MapReader& map, std::string_view key, double& value) {
    if (const auto length = map.need_length(key)) value = length->approx() * points_an_inch;
  }

  void number(MapReader& map, std::string_view key, double& value, double least, double most) {
    const Node* node = map.need(key);
    if (node == nullptr) return;
    LengthError error;
    const auto read = node->kind == Node::Kind::scalar ? parse_number(node->text, error)
                                                       : std::optional<Fraction>();
    if (!read || read->approx() < least || read->approx() > most) {
      diagnostics
          .error("D412", node->span,
                 join({"`", std::string(key), "` must be a number of points from ",
                       decimal(least, 1), " to ", decimal(most, 1)},
                      ""))
          .hints.push_back("write it without a unit, such as 10.5");
      return;
    }
    value = read->approx();
  }

  void colour(MapReader& map, std::string_view key, canvas::Color& value) {
    const Node* node = map.need(key);
    if (node == nullptr) return;
    if (const auto read = canvas::Color::parse(node->text))
      value = *read;
    else
      diagnostics.error("D413", node->span, "a colour is written as \"#rrggbb\"");
  }

  void page(const Node& node) {
    MapReader map(node, "the page", diagnostics);
    if (!map.ok()) return;
    points(map, "width", out.page_width);
    points(map, "height", out.page_height);
    map.finish();
  }

  void margins(const Node& node) {
    MapReader map(node, "the list of margins", diagnostics);
    if (!map.ok()) return;
    points(map, "top", out.top);
    points(map, "bottom", out.bottom);
    points(map, "left", out.left);
    points(map, "right", out.right);
    map.finish();
    if (out.text_width() < 3 * points_an_inch || out.text_height() < 4 * points_an_inch)
      diagnostics.error("D414", node.span,
                        "the margins leave too little of the page: 3 in × 4 in is the least");
  }

  void type(const Node& node) {
    MapReader map(node, "the list of type sizes", diagnostics);
    if (!map.ok()) return;
    number(map, "text", out.type.text, 6, 24);
    number(map, "leading", out.type.leading, 7, 40);
    number(map, "small", out.type.small, 5, 24);
    number(map, "label", out.type.label, 5, 24);
    number(map, "running", out.type.running, 5, 24);
    number(map, "heading 1", out.type.heading1, 8, 60);
    number(map, "heading 2", out.type.heading2, 8, 60);
    number(map, "heading 3", out.type.heading3, 8, 60);
    number(map, "title", out.type.title, 8, 96);
    map.finish();
  }

  void colours(const Node& node) {
    MapReader map(node, "the list of colours", diagnostics);
    if (!map.ok()) return;
    colour(map, "ink", out.colours.ink);
    colour(map, "accent", out.colours.accent);
    colour(map, "muted", out.colours.muted);
    colour(map, "rule", out.colours.rule);
    colour(map, "tint", out.colours.tint);
    map.finish();
  }

  void words(const Node& node) {
    if (node.kind != Node::Kind::map) {
      diagnostics.error("D411", node.span, "the words must be a map of names and texts");
      return;
    }
    static const std::map<std::string, std::string> known = [] {
      std::map<std::string, std::string> all;
      Diagnostics none;
      const auto root = read_yaml("words-en.yaml", builtin_templates().at("words-en.yaml"), none);
      if (root && root->find("words") != nullptr)
        for (const Entry& e : root->find("words")->node().entries) all[e.key] = e.node().text;
      return all;
    }();
    std::vector<std::string> names;
    names.reserve(known.size());
    for (const auto& [key, text] : known) names.push_back(key);
    for (const Entry& e : node.entries) {
      const auto found = known.find(e.key);
      if (found == known.end()) {
        unknown_name("D411", e.key_span, "text", e.key, names, diagnostics);
        continue;
      }
      const std::vector<std::string> allowed = placeholders(found->second);
      for (const std::string& p : placeholders(e.node().text)) {
        if (std::find(allowed.begin(), allowed.end(), p) == allowed.end())
          unknown_name("D411", e.node().span, "placeholder", p, allowed, diagnostics);
      }
      out.words.texts[e.key] = e.node().text;
    }
    for (const std::string& name : names) {
      if (out.words.texts.count(name) == 0)
        diagnostics.error("D411", node.span, join({"the text `", name, "` is missing"}, ""));
    }
  }

  std::optional<std::string> text_of(const std::string& name) {
    std::string error;
    if (!folder.empty()) {
      if (auto text = files.read(folder + name, error)) return text;
    }
    const auto found = builtin_templates().find(name);
    if (found != builtin_templates().end()) return found->second;
    return std::nullopt;
  }

  void once(const Entry& entry) {
    if (!seen.insert(entry.key).second)
      diagnostics.error("D415", entry.key_span, join({"`", entry.key, "` is given twice"}, ""));
  }

  void part(const std::string& file, const std::string& text, bool first) {
    const auto root = read_yaml(file, text, diagnostics);
    if (!root) return;
    MapReader map(*root, "a template", diagnostics);
    if (!map.ok()) return;
    const auto read = [&](const char* key, auto&& reader) {
      const Node* node = map.may(key);
      if (node == nullptr) return;
      once(*root->find(key));
      reader(*node);
    };
    read("page", [&](const Node& n) { page(n); });
    read("margins", [&](const Node& n) { margins(n); });
    read("type", [&](const Node& n) { type(n); });
    read("colours", [&](const Node& n) { colours(n); });
    read("words", [&](const Node& n) { words(n); });
    const Node* with = first ? map.may("with") : nullptr;
    map.finish();
    if (with == nullptr) return;
    const std::vector<Node>* names = read_list(*with, "the list of further files", diagnostics);
    if (names == nullptr) return;
    for (const Node& name : *names) {
      if (const auto more = text_of(name.text)) {
        part(name.text, *more, false);
      } else {
        std::vector<std::string> known;
        for (const auto& [key, value] : builtin_templates()) known.push_back(key);
        unknown_name("D410", name.span, "template file", name.text, known, diagnostics);
      }
    }
  }
};

}  // namespace

std::optional<Template> load_template(const std::string& name, const Files& files,
                                      Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  Loader loader{files, diagnostics, {}, "", {}};
  loader.out.name = name;
  std::string why;
  if (name.ends_with(".yaml")) {
    const std::size_t slash = name.rfind('/');
    loader.folder = slash == std::string::npos ? "./" : name.substr(0, slash + 1);
    if (const auto text = files.read(name, why))
      loader.part(name, *text, true);
    else
      diagnostics.error("D410", Span{name, 0, 0, 0, 0}, "cannot read the template: " + why);
  } else if (const auto found = builtin_templates().find(name + ".yaml");
             found != builtin_templates().end() && found->second.find("page:") == 0) {
    loader.part(name + ".yaml", found->second, true);
  } else {
    std::vector<std::string> known;
    for (const auto& [file, text] : builtin_templates())
      if (text.find("page:") == 0) known.push_back(file.substr(0, file.size() - 5));
    unknown_name("D410", {}, "paper", name, known, diagnostics);
  }
  if (diagnostics.error_count() == errors) {
    for (const char* section : {"page", "margins", "type", "colours", "words"}) {
      if (loader.seen.count(section) == 0)
        diagnostics.error("D415", Span{name, 0, 0, 0, 0},
                          join({"the template says nothing of `", section, "`"}, ""));
    }
  }
  if (diagnostics.error_count() != errors) return std::nullopt;
  std::string dictionary;
  if (auto text = files.read(hyphen_dictionary, why)) dictionary = std::move(*text);
  loader.out.hyphens = std::make_shared<const Hyphens>(dictionary);
  return std::move(loader.out);
}

}  // namespace dogear
