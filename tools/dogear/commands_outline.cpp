// `dogear outline`: the first draft of the instructions, and what has changed in it since.

#include <algorithm>
#include <filesystem>
#include <iostream>

#include "base/text.h"
#include "commands.h"
#include "compile/outline.h"
#include "invocation.h"

namespace dogear {

namespace {

std::string file_text(const Draft& draft) { return join(draft.paragraphs, "\n\n") + "\n"; }

std::string told(const OutlineChange& change, const std::string& folder) {
  std::string out = folder + '/' + change.path;
  if (change.line > 0) out += ':' + std::to_string(change.line);
  return out + ": " + change.words() + '\n';
}

// Whether nothing is there, not even what could not be read, and the folder would hold the file.
bool is_free(Invocation& run, const std::string& path, const std::string& folder) {
  std::error_code ignored;
  if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored)))
    return run.cannot_write(path, "what is there cannot be read");
  if (!lies_within(run.session().files, folder, path))
    return run.cannot_write(path, "a link on its way leads out of the folder");
  return true;
}

}  // namespace

int run_outline(const Arguments& arguments) {
  Invocation run(arguments);
  Session& session = run.session();
  const auto plan = make_plan(arguments.folder, session);
  if (!plan) return run.end();
  const auto fonts = run.fonts();
  const auto drafts = fonts ? make_outline(*plan, *fonts, session) : std::nullopt;
  if (!drafts) return run.end();

  const FencedFiles inside(session.files, arguments.folder);
  std::map<std::string, std::string> hers;
  std::string unread;
  for (const Draft& draft : *drafts) {
    if (auto text = inside.read(arguments.folder + '/' + draft.path, unread))
      hers[draft.path] = std::move(*text);
  }
  const std::string kept_path = arguments.folder + '/' + outline_name;
  const auto kept = inside.read(kept_path, unread);
  if (kept && !is_outline(*kept)) {
    run.cannot_write(kept_path, "it is no draft that dogear has kept; give it another name");
    return run.end();
  }
  if (!kept && !is_free(run, kept_path, arguments.folder)) return run.end();
  const std::vector<Draft> was = kept ? read_outline(*kept) : std::vector<Draft>();

  // Files that are not there yet; those of hers are never touched.
  for (const Draft& draft : *drafts) {
    if (hers.contains(draft.path)) continue;
    const bool thrown_away = kept && std::any_of(was.begin(), was.end(), [&](const Draft& d) {
                               return d.path == draft.path;
                             });
    if (thrown_away && !arguments.renew) continue;  // she did not want it
    const std::string path = arguments.folder + '/' + draft.path;
    if (!is_free(run, path, arguments.folder) ||
        !run.make_folder(std::filesystem::path(path).parent_path().string()) ||
        !run.write(path, file_text(draft)))
      return run.end();
    run.print(path + '\n');
  }
  if (!kept) {
    run.print(
        "These words are printed in the place of the program's own, but for the assembly:\n"
        "write prose/assembly.md instead of assembly under `booklet` in pattern.yaml.\n");
  }
  bool differs = false;
  if (kept) {
    for (const OutlineChange& change : compare_outlines(was, *drafts, hers)) {
      if (!hers.contains(change.path) && !change.gone) continue;  // just written whole
      differs = true;
      run.print(told(change, arguments.folder));
    }
  }
  if (!kept || arguments.renew || !differs) {
    if (!run.renew(kept_path, outline_text(*drafts))) return run.end();
  } else {
    run.print("When your words follow, `dogear outline " + arguments.folder +
              " --renew` takes this as the draft.\n");
  }
  return run.end();
}

}  // namespace dogear
