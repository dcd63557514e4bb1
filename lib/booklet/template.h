#pragma once
// Page, type, colours and the program's words, read from templates/*.yaml. Measures are points.

#include <map>
#include <memory>
#include <optional>
#include <string>

#include "booklet/hyphens.h"
#include "booklet/words.h"
#include "canvas/display.h"
#include "diag/diagnostics.h"

namespace dogear {

struct Template {
  std::string name;
  double page_width = 612, page_height = 792;
  double top = 72, bottom = 72, left = 72, right = 72;  // margins
  struct Type {
    double text = 10.5, leading = 15, small = 9, label = 8.5, running = 8;
    double heading1 = 26, heading2 = 15, heading3 = 11.5, title = 40;
  } type;
  struct Colours {
    canvas::Color ink, accent, muted, rule, tint;
  } colours;
  Words words;
  std::shared_ptr<const Hyphens> hyphens;

  double text_width() const { return page_width - left - right; }
  double text_height() const { return page_height - top - bottom; }
};

// `name` is a built-in paper ("letter", "a4") or the path of a YAML file, whose `with` names are
// looked for beside it and then among the built-in ones. Errors: D410 (no such template), those of
// the strict readers (unknown keys), D411 (words missing or with a placeholder they do not take).
std::optional<Template> load_template(const std::string& name, const Files& files,
                                      Diagnostics& diagnostics);

// File name -> text of templates/*.yaml as they were when the program was built.
const std::map<std::string, std::string>& builtin_templates();

}  // namespace dogear
