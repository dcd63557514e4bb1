#include "booklet/template.h"

#include <algorithm>
#include <set>
#include <utility>

#include "base/files.h"
#include "base/length.h"
#include "booklet/keys.h"
#include "model/load.h"
#include "model/reader.h"
#include "source/node.h"

namespace dogear {

Template Template::another() const {
  Template out = *this;
  if (hyphens) out.hyphens = std::make_shared<const Hyphens>(hyphens->another());
  return out;
}
namespace {

constexpr double points_an_inch = 72;
constexpr const char* installed_fonts = "/usr/share/fonts/";
constexpr std::size_t most_depth = 16;
constexpr const char* hyphen_folder = "/usr/share/hyphen/";
constexpr auto noun_bars = 4;  // between the forms of a noun

struct Loader {
  const Files& files;
  Diagnostics& diagnostics;
  Template out;
  std::string folder;             // of a template that is a file; "" for built-in ones
  std::set<std::string> seen;     // keys read, so that none is given twice
  std::string written_in = "en";  // the language of the words given
  Span words_span;                // line 0 where none are given
  std::vector<std::pair<std::string, Span>> reading;  // files now open, and where each is named

  void points(MapReader& map, std::string_view key, double& value) {
    if (const auto length = map.need_length(key)) value = length->approx() * points_an_inch;
  }

  void number(MapReader& map, std::string_view key, double& value) {
    const Node* node = map.need(key);
    if (node == nullptr) return;
    LengthError error;
    const Value& limits = map.key(key).value;
    const double least = parse_number(limits.least, error).value().approx();
    const double most = parse_number(limits.most, error).value().approx();
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
    MapReader map(node, keys::page(), diagnostics);
    if (!map.ok()) return;
    points(map, "width", out.page_width);
    points(map, "height", out.page_height);
    map.finish();
  }

  void margins(const Node& node) {
    MapReader map(node, keys::margins(), diagnostics);
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
    MapReader map(node, keys::type(), diagnostics);
    if (!map.ok()) return;
    number(map, "text", out.type.text);
    number(map, "leading", out.type.leading);
    number(map, "small", out.type.small);
    number(map, "label", out.type.label);
    number(map, "running", out.type.running);
    number(map, "heading 1", out.type.heading1);
    number(map, "heading 2", out.type.heading2);
    number(map, "heading 3", out.type.heading3);
    number(map, "title", out.type.title);
    map.finish();
  }

  void colours(const Node& node) {
    MapReader map(node, keys::colours(), diagnostics);
    if (!map.ok()) return;
    colour(map, "ink", out.colours.ink);
    colour(map, "accent", out.colours.accent);
    colour(map, "muted", out.colours.muted);
    colour(map, "rule", out.colours.rule);
    colour(map, "tint", out.colours.tint);
    map.finish();
  }

  // Single texts may be changed; the others stay those of the language.
  void words(const Node& node) {
    if (node.kind != Node::Kind::map) {
      diagnostics.error("D411", node.span, "the words must be a map of names and texts");
      return;
    }
    words_span = node.span;
    const auto& known = english_words().texts;
    for (const Entry& e : node.entries) {
      const auto found = known.find(e.key);
      if (found == known.end()) {
        std::vector<std::string> names;
        for (const auto& [key, text] : known) names.push_back(key);
        unknown_name("D411", e.key_span, "text", e.key, names, diagnostics);
        continue;
      }
      const auto text = read_text(e.node(), "a text of the words", diagnostics);
      if (!text) continue;
      const std::vector<std::string>& allowed = known_placeholders(e.key);
      for (const std::string& p : placeholders(*text)) {
        if (std::find(allowed.begin(), allowed.end(), p) == allowed.end())
          unknown_name("D411", e.node().span, "placeholder", p, allowed, diagnostics);
      }
      const auto bars = [](const std::string& t) { return std::count(t.begin(), t.end(), '|'); };
      if (bars(*text) != 0 && bars(*text) != bars(found->second) && bars(*text) != noun_bars)
        diagnostics
            .error("D411", e.node().span,
                   join({"`", e.key, "` has ", std::to_string(bars(*text) + 1), " forms"}, ""))
            .hints.push_back(bars(found->second) == 1
                                 ? "it has two with a bar between them: `strip|strips`"
                                 : "it has one, or the five of a noun");
      if (bars(*text) == 0 && bars(found->second) == 1)
        diagnostics.error("D411", e.node().span, join({"`", e.key, "` has one form"}, ""))
            .hints.push_back("it has two with a bar between them: `strip|strips`");
      out.words.texts[e.key] = *text;
    }
  }

  void language(const Node& node) {
    const auto name = read_text(node, "language", diagnostics);
    if (!name) return;
    const auto known = languages();
    if (std::find(known.begin(), known.end(), *name) == known.end())
      unknown_name("D106", node.span, "language", *name, known, diagnostics);
    else
      written_in = *name;
  }

  void sections(const Node& node) {
    const auto* items = read_list(node, "sections", diagnostics);
    if (items == nullptr) return;
    for (const Node& item : *items) {
      const auto section = read_text(item, "sections", diagnostics);
      if (!section) continue;
      const auto& known = section_names();
      if (std::find(known.begin(), known.end(), *section) == known.end()) {
        unknown_name("D119", item.span, "section", *section, known, diagnostics);
      } else if (std::find(out.sections.begin(), out.sections.end(), *section) !=
                 out.sections.end()) {
        diagnostics.error("D115", item.span, join({"the booklet has `", *section, "` twice"}, ""));
      } else {
        out.sections.push_back(*section);
      }
    }
    if (items->empty())
      diagnostics.error("D103", node.span, "`sections` names one section at least");
  }

  // Beside the template, then among the installed fonts.
  std::optional<std::string> font_file(const Node& node) {
    const auto name = read_text(node, "fonts", diagnostics);
    if (!name || leaves_folder(*name, node.span)) return std::nullopt;
    std::string why;
    for (const std::string& place : {folder, std::string(installed_fonts)}) {
      if (place.empty()) continue;
      if (FencedFiles(files, place).read(place + *name, why)) return place + *name;
    }
    Diagnostic& e =
        diagnostics.error("D416", node.span, join({"there is no font file `", *name, "`"}, ""));
    const std::size_t slash = name->rfind('/');
    const std::string head = slash == std::string::npos ? "" : name->substr(0, slash + 1);
    std::vector<std::string> near;
    for (const std::string& place : {folder, std::string(installed_fonts)}) {
      if (place.empty()) continue;
      for (const std::string& file :
           files.list((place + head).substr(0, (place + head).size() - 1)))
        near.push_back(head + file);
    }
    const std::string meant = nearest(*name, near);
    if (!meant.empty()) e.hints.push_back(join({"did you mean `", meant, "`?"}, ""));
    e.hints.push_back(
        "a font stands beside the template, or is named by its path below /usr/share/fonts, such "
        "as truetype/lato/Lato-Regular.ttf");
    return std::nullopt;
  }

  void fonts(const Node& node) {
    MapReader map(node, keys::fonts(), diagnostics);
    if (!map.ok()) return;
    canvas::FontPaths paths = canvas::FontPaths::debian();
    const std::array<std::pair<const char*, std::string*>, canvas::font_count> faces{
        {{"text", &paths.text},
         {"text bold", &paths.text_bold},
         {"text italic", &paths.text_italic},
         {"sans", &paths.sans},
         {"sans bold", &paths.sans_bold}}};
    for (std::size_t i = 0; i < faces.size(); ++i) {
      const Node* face = map.may(faces[i].first);
      out.font_spans[i] = face == nullptr ? node.span : face->span;
      if (face == nullptr) continue;
      if (auto path = font_file(*face)) *faces[i].second = std::move(*path);
    }
    map.finish();
    out.fonts = std::move(paths);
  }

  // A template and all that it names travel together.
  bool leaves_folder(const std::string& path, const Span& span) {
    const auto parts = split(path, '/');
    if (!starts_with(path, "/") && std::find(parts.begin(), parts.end(), "..") == parts.end())
      return false;
    diagnostics.error("D409", span, join({"`", path, "` leads out of the template's folder"}, ""))
        .hints.push_back("put the file beside the template and name it without a folder");
    return true;
  }

  // The path and the text of a further file.
  std::optional<std::pair<std::string, std::string>> text_of(const std::string& name) {
    std::string error;
    if (!folder.empty()) {
      if (auto text = FencedFiles(files, folder).read(folder + name, error))
        return std::pair(folder + name, std::move(*text));
    }
    const auto found = builtin_templates().find(name);
    if (found != builtin_templates().end()) return std::pair(name, found->second);
    return std::nullopt;
  }

  void once(const Entry& entry) {
    if (!seen.insert(entry.key).second)
      diagnostics.error("D415", entry.key_span, join({"`", entry.key, "` is given twice"}, ""));
  }

  void part(const std::string& file, const std::string& text) {
    const auto root = read_yaml(file, text, diagnostics);
    if (!root) return;
    MapReader map(*root, keys::template_file(), diagnostics);
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
    read("fonts", [&](const Node& n) { fonts(n); });
    read("sections", [&](const Node& n) { sections(n); });
    read("language", [&](const Node& n) { language(n); });
    read("words", [&](const Node& n) { words(n); });
    const Node* with = map.may("with");
    map.finish();
    if (with == nullptr) return;
    const std::vector<Node>* names = read_list(*with, "the list of further files", diagnostics);
    if (names == nullptr) return;
    for (const Node& name : *names) further(name);
  }

  void further(const Node& name) {
    if (leaves_folder(name.text, name.span)) return;
    if (reading.size() > most_depth) {
      diagnostics
          .error("D419", name.span,
                 "templates name each other " + std::to_string(most_depth) + " deep, and go on")
          .hints.push_back("name the last ones from the first");
      return;
    }
    const auto again = std::find_if(reading.begin(), reading.end(),
                                    [&](const auto& r) { return r.first == name.text; });
    if (again != reading.end()) {
      Diagnostic& e = diagnostics.error("D419", name.span,
                                        join({"`", name.text, "` is being read already"}, ""));
      for (auto at = again + 1; at != reading.end(); ++at)
        e.notes.push_back({at->second, join({"which names `", at->first, "` here"}, "")});
      e.hints.push_back("take the name out of one of the `with` lists");
      return;
    }
    if (const auto more = text_of(name.text)) {
      reading.emplace_back(name.text, name.span);
      part(more->first, more->second);
      reading.pop_back();
      return;
    }
    std::vector<std::string> known;
    for (const auto& [key, value] : builtin_templates()) known.push_back(key);
    unknown_name("D410", name.span, "template file", name.text, known, diagnostics);
  }
};

}  // namespace

std::optional<Template> load_template(const std::string& name, const std::string& language,
                                      const Files& files, Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  Loader loader{files, diagnostics, {}, "", {}, "en", {}, {}};
  loader.out.name = name;
  loader.out.words = words_of(language);
  std::string why;
  if (name.ends_with(".yaml")) {
    const std::size_t slash = name.rfind('/');
    loader.folder = slash == std::string::npos ? "./" : name.substr(0, slash + 1);
    loader.reading.emplace_back(name.substr(slash == std::string::npos ? 0 : slash + 1), Span{});
    if (const auto text = files.read(name, why))
      loader.part(name, *text);
    else
      diagnostics.error("D410", Span{name, 0, 0, 0, 0}, "cannot read the template: " + why);
  } else if (const auto known = papers();
             std::find(known.begin(), known.end(), name) != known.end()) {
    loader.part(name + ".yaml", builtin_templates().at(name + ".yaml"));
  } else {
    unknown_name("D410", {}, "paper", name, known, diagnostics);
  }
  if (diagnostics.error_count() == errors) {
    for (const char* key : {"page", "margins", "type", "colours"}) {
      if (loader.seen.count(key) == 0)
        diagnostics.error("D415", Span{name, 0, 0, 0, 0},
                          join({"the template says nothing of `", key, "`"}, ""));
    }
  }
  if (loader.words_span.line > 0 && loader.written_in != language)
    diagnostics
        .error("D400", loader.words_span,
               join({"these words are for booklets in the language `", loader.written_in,
                     "`, and the pattern is in `", language, "`"},
                    ""))
        .hints.push_back("say `language: " + language +
                         "` in the template where its words are in that language");
  if (diagnostics.error_count() != errors) return std::nullopt;
  const std::string file = hyphen_folder + loader.out.words("hyphenation");
  if (file.find('/', std::string_view(hyphen_folder).size()) != std::string::npos) {
    diagnostics.error("D409", Span{name, 0, 0, 0, 0},
                      join({"`", file, "` does not lie in the folder of dictionaries"}, ""));
    return std::nullopt;
  }
  std::string dictionary;
  if (auto text = files.read(file, why)) dictionary = std::move(*text);
  loader.out.hyphens =
      std::make_shared<const Hyphens>(dictionary, loader.out.words("capitals") == "nouns");
  return std::move(loader.out);
}

}  // namespace dogear
