#include <algorithm>
#include <filesystem>
#include <iostream>

#include "commands.h"
#include "compile/compare.h"
#include "compile/compare_causes.h"
#include "compile/lines_of.h"
#include "diag/print.h"
#include "revision.h"

namespace dogear {

namespace {

namespace fs = std::filesystem;

constexpr const char* pattern_file = "pattern.yaml";

bool is_pattern_file(const std::string& path) { return fs::path(path).filename() == pattern_file; }

std::string folder_of(const std::string& path) {
  const std::string folder = fs::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

void say(const std::string& message, const std::string& hint) {
  std::cerr << "dogear: " << message << '\n';
  if (!hint.empty()) std::cerr << "  hint: " << hint << '\n';
}

std::optional<ComparedSide> from_folder(const std::string& words, const std::string& folder,
                                        const Files& files) {
  Session session(files);
  auto side = side_of_pattern(words, folder, session);
  if (side) return side;
  settle(session, false);
  std::cerr << print_for_people(session.diagnostics, session.sources, false, folder);
  say(words + " cannot be compared: it has errors", "");
  return std::nullopt;
}

std::optional<ComparedSide> from_ledger(const std::string& words, const std::string& text) {
  std::string error;
  auto side = side_of_ledger(words, text, error);
  if (!side) {
    say(words + " is no ledger: " + error,
        "name a pattern's folder, a ledger such as quantities.txt, or REV:path");
  }
  return side;
}

// Where a repository is looked for: here, then at the other side.
std::vector<std::string> places(const std::string& other) {
  std::vector<std::string> out{"."};
  std::error_code ignored;
  if (fs::is_directory(other, ignored)) out.push_back(other);
  if (fs::is_regular_file(other, ignored)) out.push_back(folder_of(other));
  return out;
}

std::optional<ComparedSide> read_side(const std::string& words, const std::string& other) {
  const DiskFiles disk;
  std::error_code ignored;
  if (fs::is_directory(words, ignored)) return from_folder(words, words, disk);
  if (fs::exists(words, ignored)) {
    if (is_pattern_file(words)) return from_folder(words, folder_of(words), disk);
    std::string reason;
    const auto text = disk.read(words, reason);
    if (text) return from_ledger(words, *text);
    say(words + " cannot be read: " + reason, "");
    return std::nullopt;
  }
  if (words.find(':') == std::string::npos) {
    say("there is no file or folder " + words, "a git revision is written REV:path");
    return std::nullopt;
  }
  // "REV:folder/pattern.yaml" stands for its folder.
  std::string wanted = words;
  const std::size_t start = words.find(':') + 1;
  if (is_pattern_file(words.substr(start))) {
    wanted = words.substr(0, words.size() - std::string_view(pattern_file).size());
    if (wanted.size() > start) wanted.pop_back();
  }
  RevisionError error;
  const auto at = read_revision(wanted, places(other), error);
  if (!at) {
    say(error.message, error.hint);
    return std::nullopt;
  }
  std::string folder = wanted;
  while (folder.ends_with('/')) folder.pop_back();
  return at->is_folder ? from_folder(words, folder, at->files) : from_ledger(words, at->text);
}

int print(const std::string& text) {
  std::cout << text << std::flush;
  if (std::cout.good()) return fine;
  say("standard output cannot be written: it is closed or full", "");
  return no_access;
}

}  // namespace

int run_compare(const Arguments& arguments) {
  const auto was = read_side(arguments.folder, arguments.other);
  const auto now = read_side(arguments.other, arguments.folder);
  if (!was || !now) return no_access;
  const auto format = comparison_format(arguments.as).value_or(ComparisonFormat::text);
  Comparison comparison = compare_sides(*was, *now);
  if (format != ComparisonFormat::errata) find_causes(comparison, *was, *now);
  if (print(print_comparison(comparison, format)) != fine) return no_access;
  return comparison.same() ? fine : differs;
}

int run_lines(const Arguments& arguments) {
  const DiskFiles disk;
  std::string reason;
  const auto text = disk.read(arguments.folder, reason);
  if (!text) {
    say(arguments.folder + " cannot be read: " + reason, "");
    return no_access;
  }
  std::string ignored;
  if (const auto outline = lines_of_ledger(*text, ignored)) return print(*outline);
  Diagnostics silent;
  const bool yaml = arguments.folder.ends_with(".yaml");
  const auto outline = yaml ? lines_of_yaml(arguments.folder, *text, silent) : std::nullopt;
  // What cannot be taken apart is shown as it is: a difference must be seen all the same.
  return print(outline ? *outline : *text);
}

}  // namespace dogear
