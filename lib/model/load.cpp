#include "model/load.h"

#include <algorithm>
#include <set>

#include "base/files.h"
#include "base/text.h"
#include "model/keys.h"
#include "model/reader.h"
#include "source/load.h"
#include "words/languages.h"

namespace dogear {

namespace {

class PatternReader {
 public:
  PatternReader(Pattern& pattern, const Files& files, Sources& sources, Diagnostics& d)
      : p_(pattern), files_(files), sources_(sources), d_(d) {}

  void read() {
    const std::string path = p_.folder + "/pattern.yaml";
    const auto root = read_file(path, {}, where_it_may_be());
    if (!root) return;
    MapReader map(*root, keys::pattern(), d_);
    if (!map.ok()) return;
    p_.span = {path, 1, 1, 1, 1};
    p_.title = map.need_text("title");
    p_.designer = map.need_text("designer");
    p_.summary = map.text("summary");
    p_.edition = map.text("edition");
    read_language(map);
    read_paper(map);
    p_.seam_allowance = map.length("seam allowance");
    p_.usable_width = map.length("usable width");
    p_.usable_width_span = p_.span;
    if (const Node* n = map.may("usable width")) p_.usable_width_span = n->span;
    read_tolerances(map);
    p_.foundation_allowance = map.length("foundation allowance");
    read_layers(map);
    if (const Node* n = map.need("fabrics")) each(*n, "fabrics", &PatternReader::read_one_fabric);
    if (const Node* n = map.may("other colorings")) read_colorings(*n, p_, d_);
    if (const Node* n = map.may("bundles")) each(*n, "bundles", &PatternReader::read_one_bundle);
    for (FabricId f = 0; f < p_.fabrics.size(); ++f) read_sources(f, from_[f], p_, d_);
    if (const Node* n = map.may("allowances")) read_allowances(*n, p_, d_);
    p_.bolt = map.length("bolt");
    if (const Node* n = map.need("rulers")) each(*n, "rulers", &PatternReader::read_ruler);
    if (const Node* n = map.need("blocks")) each(*n, "blocks", &PatternReader::read_use);
    const Node* sizes = map.need("sizes");
    if (sizes != nullptr && p_.uses.size() == wanted_uses_) read_sizes(*sizes, p_, d_);
    if (const Node* n = map.may("schedule")) read_schedule(*n, p_, d_);
    if (const Node* n = map.may("errata")) read_errata(*n, p_, d_);
    load_prose();
    if (const Node* n = map.may("booklet")) {
      p_.sections_written = true;
      read_sections(*n);
    } else {
      for (const std::string& name : section_names()) {
        if (name != "schedule" || p_.schedule_span.line > 0) {
          p_.sections.push_back({name, false, p_.span});
        }
      }
    }
    map.finish();
    find_unused();
  }

 private:
  std::optional<Node> read_file(const std::string& path, const Span& asked_by,
                                const std::string& hint = {}) {
    const auto text = load(files_, path, asked_by, sources_, d_, hint);
    if (!text) return std::nullopt;
    p_.files.push_back(path);
    return read_yaml(path, *text, d_);
  }

  // Where there is no pattern: which folder may have been meant, or how one begins.
  std::string where_it_may_be() const {
    const std::vector<std::string> there = files_.list(p_.folder);
    if (std::find(there.begin(), there.end(), "pattern.yaml") != there.end()) return {};
    std::string none;
    if (!files_.read(p_.folder, none))
      return "name the folder that holds `pattern.yaml`; `dogear start` begins a new one";
    const auto slash = p_.folder.rfind('/');
    return "a pattern is named by its folder: " +
           (slash == std::string::npos ? "." : p_.folder.substr(0, slash));
  }

  void each(const Node& node, const char* key, void (PatternReader::*read_one)(const Entry&)) {
    if (node.kind != Node::Kind::map || node.entries.empty()) {
      d_.error("D103", node.span, std::string("`") + key + "` is a map with one entry at least");
      return;
    }
    for (const Entry& e : node.entries) (this->*read_one)(e);
  }

  void read_tolerances(MapReader& map) {
    p_.tolerance = map.length("tolerance");
    p_.top_tolerance = map.length("top tolerance");
    for (const char* key : {"top tolerance", "tolerance"}) {
      if (const Node* n = map.may(key)) p_.tolerance_span = n->span;
    }
  }

  void read_layers(MapReader& map) {
    const Node* layers = map.may("layers");
    p_.folded = map.yes("folded");
    if (const Node* folded = map.may("folded")) p_.folded_span = folded->span;
    p_.layers = p_.folded ? 2 : 1;
    if (layers == nullptr) return;
    const auto choice = map.choice("layers");
    if (!choice) return;
    p_.layers = 1 << *choice;
    if (p_.folded && p_.layers == 1) {
      d_.error("D531", layers->span, "folded cloth has two layers, and `layers` says one")
          .notes.push_back({p_.folded_span, "the cloth is folded here"});
    }
  }

  void read_paper(MapReader& map) {
    p_.paper = map.key("paper").otherwise.value;
    if (const Node* n = map.may("paper")) {
      const auto known = papers();
      if (std::find(known.begin(), known.end(), n->text) != known.end()) {
        p_.paper = n->text;
      } else if (n->text.ends_with(".yaml")) {
        read_own_template(*n);
      } else {
        unknown_name("D106", n->span, "paper", n->text, known, d_);
      }
    }
  }

  // A template of the pattern's own lies in its folder, so that the folder is all one needs.
  void read_own_template(const Node& node) {
    const auto parts = split(node.text, '/');
    if (starts_with(node.text, "/") || std::find(parts.begin(), parts.end(), "..") != parts.end()) {
      d_.error("D126", node.span, "`" + node.text + "` lies outside of the pattern's folder")
          .hints.push_back("put the template beside pattern.yaml, or name it with `--paper`");
      return;
    }
    p_.paper = p_.folder + '/' + node.text;
    if (load(files_, p_.paper, node.span, sources_, d_)) p_.files.push_back(p_.paper);
  }

  void read_language(MapReader& map) {
    if (const auto choice = map.choice("language")) p_.language = languages()[*choice];
  }

  void read_one_fabric(const Entry& e) {
    Fabric fabric;
    from_.push_back(nullptr);
    fabric.id = e.key;
    fabric.number = static_cast<int>(p_.fabrics.size()) + 1;
    fabric.span = e.key_span;
    MapReader map(e.node(), keys::fabric(), "the fabric `" + e.key + "`", d_);
    if (map.ok()) {
      fabric.name = map.text("name", e.key);
      fabric.colour = map.need_text("colour");
      fabric.directional = map.yes("directional");
      if (map.may("width") != nullptr) {
        fabric.width = map.length("width", p_.usable_width);
      }
      from_.back() = map.may("from");
      if (!fabric.colour.empty())
        is_colour(fabric.colour, map.node().find("colour")->node().span, d_);
      map.finish();
    }
    // A slug, because cut lists and the ledger address fabrics by id.
    if (slug(e.key) != e.key) {
      d_.error("D118", e.key_span, "`" + e.key + "` cannot name a fabric")
          .hints.push_back("use small letters, digits and hyphens: `" + slug(e.key) + "`");
    }
    p_.fabrics.push_back(std::move(fabric));
  }

  void read_one_bundle(const Entry& e) { read_bundle(e, p_, d_); }

  void read_ruler(const Entry& e) {
    Ruler ruler;
    ruler.id = e.key;
    ruler.span = e.key_span;
    MapReader map(e.node(), keys::ruler(), "the ruler `" + e.key + "`", d_);
    if (!map.ok()) return;
    ruler.angle = static_cast<int>(map.whole("angle"));
    if (ruler.angle != 45 && ruler.angle != 60 && ruler.angle != 90) {
      d_.error("D114", map.node().find("angle")->node().span,
               "cuts are planned for rulers of 45, 60 or 90 degrees");
    }
    ruler.blunt = map.choice("tip") == std::size_t{0};
    ruler.name = map.text("name", words_of(p_.language)(ruler.angle == 90   ? "default ruler"
                                                        : ruler.angle == 60 ? "default 60° ruler"
                                                                            : "default 45° ruler"));
    ruler.lowest = map.length("lowest");
    ruler.highest = map.need_length("highest").value_or(Exact(24));
    ruler.step = map.length("step");
    if (const Node* width = map.may("width")) {
      ruler.width = read_length(*width, d_);
      if (ruler.angle != 90) {
        d_.error("D532", width->span, "a ruler for slanted cuts is described by its lines alone")
            .hints.push_back("leave `width` to rulers of 90 degrees");
      } else if (ruler.width && *ruler.width > ruler.highest) {
        d_.error("D532", width->span, "this ruler is wider than its highest line")
            .hints.push_back("`highest` is measured along the longer side, `width` across it");
      }
    }
    const auto step = ruler.step.as_fraction();
    if (!step || 960 % step->den != 0) {
      d_.error("D114", e.key_span, "a ruler's step is a plain fraction of an inch, such as 1/8 in");
    } else if (ruler.highest < ruler.lowest) {
      d_.error("D114", e.key_span, "the highest line of a ruler lies above its lowest");
    }
    map.finish();
    p_.rulers.push_back(std::move(ruler));
  }

  const BlockDef* block_file(const Node& node, std::size_t& index) {
    const auto name = read_text(node, "block", d_);
    if (!name) return nullptr;
    for (index = 0; index < p_.blocks.size(); ++index) {
      if (p_.blocks[index].id == *name) return &p_.blocks[index];
    }
    std::vector<std::string> known;
    for (const std::string& file : files_.list(p_.folder + "/blocks")) {
      if (file.size() > 5 && file.ends_with(".yaml"))
        known.push_back(file.substr(0, file.size() - 5));
    }
    if (std::find(known.begin(), known.end(), *name) == known.end()) {
      unknown_name("D110", node.span, "file in blocks/", *name, known, d_);
      return nullptr;
    }
    const auto root = read_file(p_.folder + "/blocks/" + *name + ".yaml", node.span);
    if (!root) return nullptr;
    index = p_.blocks.size();
    p_.blocks.push_back(read_block(*name, *root, d_));
    return &p_.blocks.back();
  }

  void read_use(const Entry& e) {
    ++wanted_uses_;
    MapReader map(e.node(), keys::block_use(), "the block `" + e.key + "`", d_);
    if (!map.ok()) return;
    if (slug(e.key) != e.key) {
      d_.error("D118", e.key_span, "`" + e.key + "` cannot name a block")
          .hints.push_back("use small letters, digits and hyphens: `" + slug(e.key) + "`");
      return;
    }
    BlockUse use;
    use.id = e.key;
    use.span = e.key_span;
    const Node* file = map.need("block");
    const BlockDef* block = file == nullptr ? nullptr : block_file(*file, use.block);
    const Node* fabrics = map.may("fabrics");
    use.title = map.text("title");
    const std::size_t before = d_.error_count();
    map.finish();
    // A misspelt `fabrics` has been told; what it would have bound need not be.
    const bool misspelt = d_.error_count() > before;
    if (block == nullptr) return;
    if (use.title.empty()) use.title = block->title;
    // Without roles the block file has its error already.
    const bool sound = !block->roles.empty();
    if (fabrics != nullptr && sound && !bind(*fabrics, *block, use)) return;
    for (const std::string& role : block->roles) {
      if (use.fabrics.contains(role)) continue;
      const auto same = std::find_if(p_.fabrics.begin(), p_.fabrics.end(),
                                     [&](const Fabric& f) { return f.id == role; });
      if (same != p_.fabrics.end()) {
        use.fabrics[role] = static_cast<FabricId>(same - p_.fabrics.begin());
      } else if (!misspelt && !failed_roles_.contains(e.key + "/" + role)) {
        Diagnostic& d = d_.error("D113", e.key_span, "the role `" + role + "` has no fabric here");
        d.notes.push_back({block->span, "the block lists its roles here"});
        d.hints.push_back("add `" + role + ": ...` under `fabrics`");
      }
    }
    p_.uses.push_back(std::move(use));
  }

  // False when `fabrics` is no map; single faults in it are reported and remembered.
  bool bind(const Node& node, const BlockDef& block, BlockUse& use) {
    if (node.kind != Node::Kind::map) {
      d_.error("D103", node.span, "`fabrics` is a map from roles to fabrics");
      return false;
    }
    for (const Entry& e : node.entries) {
      if (std::find(block.roles.begin(), block.roles.end(), e.key) == block.roles.end()) {
        unknown_name("D108", e.key_span, "role in the block " + block.title, e.key, block.roles,
                     d_);
        continue;
      }
      if (const auto f = read_fabric(e.node(), p_, d_)) {
        use.fabrics[e.key] = *f;
      } else {
        failed_roles_.insert(use.id + "/" + e.key);
      }
    }
    return true;
  }

  void load_prose() {
    for (const std::string folder : {"prose", "prose/blocks"}) {
      for (const std::string& name : files_.list(p_.folder + "/" + folder)) {
        if (!name.ends_with(".md")) continue;
        std::string path = folder;
        path += "/";
        path += name;
        const auto text = load(files_, p_.folder + "/" + path, {}, sources_, d_);
        if (!text) continue;
        p_.files.push_back(p_.folder + "/" + path);
        p_.prose[path] = Prose{p_.folder + "/" + path, *text};
      }
    }
  }

  void read_sections(const Node& node) {
    const auto* items = read_list(node, "booklet", d_);
    if (items == nullptr) return;
    for (const Node& item : *items) {
      const auto name = read_text(item, "booklet", d_);
      if (!name) continue;
      for (const Section& s : p_.sections) {
        if (s.name != *name) continue;
        d_.error("D115", item.span, "the booklet has `" + *name + "` twice")
            .notes.push_back({s.span, "it is here already"});
      }
      if (name->ends_with(".md")) {
        if (!p_.prose.contains(*name)) {
          std::vector<std::string> known;
          for (const auto& [path, prose] : p_.prose) known.push_back(path);
          unknown_name("D117", item.span, "Markdown file", *name, known, d_);
        }
        p_.sections.push_back({*name, true, item.span});
        continue;
      }
      const auto& known = section_names();
      if (std::find(known.begin(), known.end(), *name) == known.end()) {
        unknown_name("D119", item.span, "section", *name, known, d_);
        continue;
      }
      if (*name == "schedule" && p_.schedule_span.line == 0) {
        d_.error("D677", item.span,
                 "the booklet has a section `schedule`, and the pattern no schedule")
            .hints.push_back("give the pattern a `schedule`, or leave the section out");
      }
      p_.sections.push_back({*name, false, item.span});
    }
  }

  void find_unused() {
    if (d_.has_errors()) return;
    std::vector<bool> used(p_.uses.size(), false);
    for (const SizeDef& size : p_.sizes) {
      for (const auto& row : size.cells) {
        for (const auto& cell : row) used[cell.use] = true;
      }
      for (const BorderDef& border : size.borders) {
        if (border.use) used[*border.use] = true;
        if (border.corner_use) used[*border.corner_use] = true;
      }
    }
    for (std::size_t i = 0; i < used.size(); ++i) {
      if (!used[i]) {
        d_.warning("D153", p_.uses[i].span, "no size uses the block `" + p_.uses[i].id + "`");
      }
    }
  }

  Pattern& p_;
  const Files& files_;
  Sources& sources_;
  Diagnostics& d_;
  std::size_t wanted_uses_ = 0;
  std::set<std::string> failed_roles_;
  std::vector<const Node*> from_;  // by fabric: its sources, read once the bundles are
};

}  // namespace

std::optional<Pattern> load_pattern(const std::string& folder, const Files& files, Sources& sources,
                                    Diagnostics& diagnostics) {
  Pattern pattern;
  pattern.folder = folder;
  while (pattern.folder.size() > 1 && pattern.folder.back() == '/') pattern.folder.pop_back();
  const auto slash = pattern.folder.rfind('/');
  pattern.id = slug(slash == std::string::npos ? pattern.folder : pattern.folder.substr(slash + 1));
  const std::size_t before = diagnostics.error_count();
  const FencedFiles inside(files, pattern.folder);
  PatternReader(pattern, inside, sources, diagnostics).read();
  if (diagnostics.error_count() > before) return std::nullopt;
  if (pattern.id.empty()) pattern.id = slug(pattern.title);
  return pattern;
}

const std::vector<std::string>& section_names() {
  static const std::vector<std::string> names{
      "cover",    "contents",  "before",    "requirements",  "schedule",        "cutting", "blocks",
      "assembly", "finishing", "templates", "coloring page", "other colorings", "errata",  "back"};
  return names;
}

}  // namespace dogear
