// What the folder holds and no booklet needs.

#include <algorithm>

#include "base/files.h"
#include "base/text.h"
#include "booklet/proofread_edit.h"

namespace dogear::editing {
namespace {

class Dead {
 public:
  Dead(const Edit& edit, const Files& files)
      : edit_(edit), p_(edit.pattern()), files_(files), d_(edit.diagnostics) {}

  void fabrics() {
    std::set<FabricId> used;
    for (const SizeQuantities& q : edit_.scene.quantities.sizes)
      for (const FabricNeed& need : q.fabrics) used.insert(need.fabric);
    for (FabricId f = 0; f < p_.fabrics.size(); ++f) {
      if (used.contains(f) || bundle_of(p_, f)) continue;
      d_.warning("D456", p_.fabrics[f].span, "no size uses the fabric `" + p_.fabrics[f].id + "`")
          .hints.push_back("take it out of `fabrics`, or give it to a role");
    }
    for (const Bundle& bundle : p_.bundles) {
      if (std::any_of(bundle.fabrics.begin(), bundle.fabrics.end(),
                      [&](FabricId f) { return used.contains(f); }))
        continue;
      d_.warning("D457", bundle.span, "nothing is cut from the bundle `" + bundle.id + "`")
          .hints.push_back("take it out of `bundles`, or use its fabrics");
    }
  }

  void rulers() {
    std::set<std::size_t> able, chosen;
    for (const SizeQuantities& q : edit_.scene.quantities.sizes) {
      chosen.insert(q.rulers.begin(), q.rulers.end());
      for (const CutPiece& piece : q.pieces)
        able.insert(piece.cut.rulers.begin(), piece.cut.rulers.end());
      for (const StripSet& set : q.strip_sets)
        able.insert(set.cut.rulers.begin(), set.cut.rulers.end());
    }
    for (std::size_t i = 0; i < p_.rulers.size(); ++i) {
      if (able.contains(i) || chosen.contains(i)) continue;
      d_.warning("D458", p_.rulers[i].span, "no cut needs the ruler `" + p_.rulers[i].id + "`")
          .hints.push_back("take it out of `rulers`: whoever buys the pattern looks for it");
    }
  }

  void block_files() {
    std::vector<std::string> known;
    for (const BlockDef& b : p_.blocks) known.push_back(b.id + ".yaml");
    for (const std::string& name : files_.list(p_.folder + "/blocks")) {
      if (is_aside(name)) continue;
      const Span span{p_.folder + "/blocks/" + name, 0, 0, 0, 0};
      if (!name.ends_with(".yaml")) {
        d_.warning("D461", span, "nothing reads this file")
            .hints.push_back("a block's file ends in .yaml");
      } else if (std::find(known.begin(), known.end(), name) == known.end()) {
        const std::string id = name.substr(0, name.size() - 5);
        d_.warning("D459", span, "no entry under `blocks` of pattern.yaml uses this file")
            .hints.push_back("write one, such as `" + id + ": {block: " + id +
                             "}`, or take the file out of the folder");
      }
    }
  }

  void prose() {
    std::set<std::string> printed;
    for (const Section& s : p_.sections) printed.insert(s.name);
    const bool blocks = edit_.has_section("blocks");
    std::vector<std::string> known;
    for (std::size_t use = 0; use < p_.uses.size(); ++use) {
      known.push_back(p_.uses[use].id);
      known.push_back(p_.blocks[p_.uses[use].block].id);
      if (blocks) printed.insert(edit_.prose_of(use));
    }
    for (const auto& [path, prose] : p_.prose) {
      if (printed.contains(path)) continue;
      Diagnostic& d = d_.warning("D460", {prose.path, 0, 0, 0, 0}, "no booklet prints this file");
      if (!starts_with(path, "prose/blocks/")) {
        d.hints.push_back("name it under `booklet` where it should stand: `- " + path + "`" +
                          (path == "prose/assembly.md" ? ", in the place of `assembly`" : ""));
      } else if (!blocks) {
        d.hints.push_back("it is printed by the section `blocks`, which `booklet` leaves out");
      } else {
        const std::string id = path.substr(13, path.size() - 13 - 3);
        const std::string near = nearest(id, known);
        const bool same = std::find(known.begin(), known.end(), id) != known.end();
        d.hints.push_back(same ? "every coloring of this block has a file of its own name instead"
                          : near.empty() ? "it must have the name of a block: " + join(known, ", ")
                                         : "it must have the name of a block: did you mean `" +
                                               near + ".md`?");
      }
    }
    for (const std::string folder : {"/prose", "/prose/blocks"}) {
      for (const std::string& name : files_.list(p_.folder + folder)) {
        if (is_aside(name) || name.ends_with(".md")) continue;
        d_.warning("D461", {p_.folder + folder + "/" + name, 0, 0, 0, 0}, "nothing reads this file")
            .hints.push_back("prose is in files that end in .md; take others out of the folder");
      }
    }
  }

 private:
  // What editors and systems leave beside a file.
  static bool is_aside(const std::string& name) {
    return name.empty() || name[0] == '.' || name.back() == '~' || name[0] == '#';
  }

  const Edit& edit_;
  const Pattern& p_;
  const Files& files_;
  Diagnostics& d_;
};

}  // namespace

void check_dead(const Edit& edit, const Files& files) {
  Dead dead(edit, files);
  dead.fabrics();
  dead.rulers();
  dead.block_files();
  dead.prose();
}

void check_empty_words(const Edit& edit) {
  for (const Text& text : edit.texts) {
    const auto& tags = text.source.tags();
    for (std::size_t t = 0; t + 1 < tags.size(); ++t) {
      if ((tags[t].sigil != '#' && tags[t].sigil != '^') || tags[t + 1].sigil != '/') continue;
      if (!trim(text.source.between(t, t + 1)).empty()) continue;
      Diagnostic& d = edit.diagnostics.warning(
          "D462", tags[t].span,
          std::string("nothing is said here for ") +
              (tags[t].sigil == '^' ? "other sizes than" : "the size") + " `" + tags[t].name + "`");
      d.notes.push_back({tags[t + 1].span, "it ends here"});
      d.hints.push_back("write the words of this size, or take both tags out");
    }
  }
}

}  // namespace dogear::editing
