// Before and after as one page: `dogear proof`.

#include <algorithm>
#include <filesystem>
#include <iostream>

#include "base/text.h"
#include "compile/compare_causes.h"
#include "invocation.h"
#include "proof/builder.h"
#include "proof/markup.h"
#include "proof/page.h"
#include "proof/within.h"
#include "revision.h"

namespace dogear {

namespace {

proof::Side side_of(const std::string& name, const std::string& folder, const Files& files,
                    const canvas::FontSet& fonts) {
  proof::Built built = proof::Builder(folder, fonts).build(files, {});
  proof::Side side{name, std::move(built.state), true, built.diagnostics.error_count(), {}};
  side.messages = proof::messages_html(built.diagnostics, built.sources, folder);
  return side;
}

}  // namespace

int run_proof(const Arguments& arguments) {
  Invocation run(arguments);
  std::string folder = arguments.folder;
  while (folder.size() > 1 && folder.ends_with('/')) folder.pop_back();
  std::error_code ignored;
  if (!std::filesystem::is_directory(folder, ignored)) {
    std::cerr << "dogear: there is no folder " << folder << '\n';
    return no_access;
  }
  const auto fonts = run.fonts();
  if (!fonts) return run.end();
  RevisionError error;
  auto at = read_folder_at(arguments.against, folder, error);
  if (!at) {
    std::cerr << "dogear: " << error.message << '\n';
    if (!error.hint.empty()) std::cerr << "  hint: " << error.hint << '\n';
    return no_access;
  }
  proof::ProofPage page;
  if (at->is_there) {
    page.was = side_of(arguments.against, folder, proof::FilesWithin(folder, at->files), *fonts);
  } else {
    page.was.name = arguments.against;
    page.was.there = false;
  }
  page.now = side_of(folder, folder, DiskFiles(), *fonts);
  if (page.was.state.planned && page.now.state.planned) {
    page.comparison = compare_sides(page.was.state.side, page.now.state.side);
    find_causes(*page.comparison, page.was.state.side, page.now.state.side);
  }
  const int written = run.deliver(proof::to_html(page, *fonts));
  if (written != fine) return written;
  if (!arguments.out.empty()) {
    std::cerr << "dogear: " << proof::summary(page, *fonts) << '\n';
  }
  return page.now.errors > 0 ? faulty_pattern : fine;
}

}  // namespace dogear
