#pragma once
// Files of a git revision, read into memory through git itself.

#include <optional>
#include <string>
#include <vector>

#include "base/files.h"

namespace dogear {

struct RevisionError {
  std::string message;  // "there is no revision `main~99`"
  std::string hint;     // may be empty
};

// What stands at "REV:path": a folder, with the files of it that a pattern may have, or one file.
// Paths in `files` begin with the words given, so that messages name the revision.
struct AtRevision {
  bool is_there = true;  // false: the revision has no pattern there
  bool is_folder = false;
  std::string text;   // of the one file
  MemoryFiles files;  // of the folder
};

// Looked for in the repository that holds one of `places` (folders that exist), the first that is
// in any. As git has it, `path` counts from the top of the repository, unless it begins with "./".
std::optional<AtRevision> read_revision(const std::string& words,
                                        const std::vector<std::string>& places,
                                        RevisionError& error);

// A folder of the disk as it was at a revision, with every file of it, photographs, too. Paths in
// `files` are those of the disk.
std::optional<AtRevision> read_folder_at(const std::string& revision, const std::string& folder,
                                         RevisionError& error);

}  // namespace dogear
