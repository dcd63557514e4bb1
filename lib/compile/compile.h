#pragma once
// The readable driver: source files in, booklets out, one commented call a stage.
//
// Every function gives nothing if and only if it adds an error to the session's diagnostics. Codes
// of its own: D601 an output cannot be written, D602 no such figure, D603 no such size, D651 (a
// warning) the ledger is stale.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/files.h"
#include "canvas/display.h"
#include "canvas/font.h"
#include "compile/plan.h"
#include "diag/accept.h"
#include "diag/diagnostics.h"
#include "words/languages.h"

namespace dogear {

// What is known of a run: where files come from, and what there is to say about them.
struct Session {
  const Files& files;
  Sources sources;
  Diagnostics diagnostics;
  std::vector<Acceptance> acceptances;  // found in the source by make_plan
  std::vector<std::string> photos;      // paths of those read by set_pages, sorted
  explicit Session(const Files& from) : files(from) {}
};

// What a build writes: a PDF a size, one page for screens, or a shop's listing with its picture.
enum class Form { pages, screen, listing };

// How the booklet is to be printed.
struct Printing {
  bool grey = false;
  bool imposed = false;  // also a file of sheets to fold and staple
  double bleed = 0;      // pt
  double paper = 0.288;  // pt: 0.004 in, the thickness of common office paper
};

struct Options {
  std::string size;                  // a size's name; empty for every size
  std::string paper;                 // one of papers() or a template's path; empty: the pattern's
  std::optional<std::int64_t> date;  // seconds since 1970 for the PDF; none without
  Form form = Form::pages;
  Printing printing = {};
};

// The fonts of every booklet; a font that cannot be read is error D001.
std::optional<canvas::FontSet> load_fonts(Session& session, const canvas::FontPaths& paths);

// From the source to what must be cut and bought.
std::optional<Plan> make_plan(const std::string& folder, Session& session);
// The same from a pattern that was read without errors.
std::optional<Plan> plan_of(Pattern pattern, Diagnostics& diagnostics);

// At the end of a run: marks the warnings that the source accepts, and puts all in order. An
// acceptance that met nothing is told when `whole`: every stage ran for every size.
void settle(Session& session, bool whole);

// Indices of the size of that name, or of all sizes for an empty name.
std::optional<std::vector<std::size_t>> find_sizes(const Pattern& pattern, const std::string& name,
                                                   Diagnostics& diagnostics);

// The finished pages of each size asked for. `fonts` are those of templates that name none; pages
// of others keep their own.
struct Pages {
  std::size_t size = 0;
  canvas::Document document;
  std::shared_ptr<const canvas::FontSet> own_fonts;  // none: those given
  const canvas::FontSet& fonts(const canvas::FontSet& given) const {
    return own_fonts ? *own_fonts : given;
  }
};
std::optional<std::vector<Pages>> set_pages(const Plan& plan, const Options& options,
                                            const canvas::FontSet& fonts, Session& session);

// All that `compile` does but for the PDF; and warns where the ledger beside the pattern is stale.
std::optional<Plan> check(const std::string& folder, const Options& options,
                          const canvas::FontSet& fonts, Session& session);

// Plan -> one web page that holds every size asked for, with the errors of set_pages.
std::optional<std::string> set_screen(const Plan& plan, const Options& options,
                                      const canvas::FontSet& fonts, Session& session);

struct Output {
  std::string name;  // "harbor-lights-lap.pdf", "harbor-lights.html"
  std::string bytes;
};
struct Booklets {
  std::vector<Output> outputs;       // of each size in the pattern's order
  std::vector<std::string> sources;  // every file of the pattern they were made from, sorted
};
std::optional<Booklets> compile(const std::string& folder, const Options& options,
                                const canvas::FontSet& fonts, Session& session);

// The figure of an address ("block/star", with or without "figure:" before it) as SVG.
std::optional<std::string> draw(const Plan& plan, std::size_t size, const std::string& address,
                                const canvas::FontSet& fonts, Diagnostics& diagnostics);

// A make rule: each target depends on every source, and a source that is gone does not stop make.
std::string depfile_text(const std::vector<std::string>& targets,
                         const std::vector<std::string>& sources);

}  // namespace dogear
