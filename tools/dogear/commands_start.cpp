// `dogear start`: a small whole pattern to begin with.

#include <algorithm>
#include <filesystem>
#include <iostream>

#include "base/text.h"
#include "commands.h"
#include "compile/schema.h"
#include "invocation.h"
#include "start.h"

namespace dogear {

namespace {

namespace fs = std::filesystem;

// "my-stars" -> "My Stars"
std::string title_of(const std::string& folder) {
  std::string title;
  bool first = true;
  for (char c : folder) {
    if (c == '-' || c == '_' || c == ' ') {
      if (!first) title += ' ';
      first = true;
    } else {
      title += first && c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
      first = false;
    }
  }
  return trim(title).empty() || !is_utf8(title) ? "My Quilt" : std::string(trim(title));
}

// As a YAML scalar in double quotes: any name of a folder may hold what YAML would read otherwise.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) >= 0x20) out += c;
  }
  return out + '"';
}

// As a word of a command to be typed.
std::string typed(std::string word) {
  if (starts_with(word, "-")) word.insert(0, "./");
  const auto plain = [](char c) {
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '/' ||
           c == '.' || c == '-' || c == '_' || static_cast<unsigned char>(c) >= 0x80;
  };
  if (std::all_of(word.begin(), word.end(), plain)) return word;
  std::string out = "'";
  for (const char c : word) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + '\'';
}

std::string filled(std::string text, const std::string& title) {
  constexpr std::string_view tag = "{{title}}";
  if (const auto at = text.find(tag); at != std::string::npos) text.replace(at, tag.size(), title);
  return text;
}

}  // namespace

int run_start(const Arguments& arguments) {
  Invocation run(arguments);
  if (arguments.folder.empty()) {
    std::cerr << "dogear: `start` wants the name of a new folder\n";
    return wrong_usage;
  }
  std::error_code error;
  fs::path folder = fs::weakly_canonical(arguments.folder, error);
  if (folder.filename().empty()) folder = folder.parent_path();
  if (fs::exists(folder) && !fs::is_directory(folder)) {
    std::cerr << "dogear: " << arguments.folder << " is a file; `start` wants a new folder\n";
    return wrong_usage;
  }
  if (fs::exists(folder) && !fs::is_empty(folder, error)) {
    std::cerr << "dogear: " << arguments.folder
              << " is not empty; `start` wants a new folder, so that nothing of yours is lost\n";
    return wrong_usage;
  }
  const bool is_new = !fs::exists(folder);
  const std::string title = quoted(title_of(folder.filename().string()));
  std::map<std::string, std::string> files;
  for (const auto& [name, text] : start_files())
    files[name == "gitignore" ? ".gitignore" : name] = filled(text, title);
  for (const char* kind : {"pattern", "block"})  // named at the head of the files
    files[std::string("schemas/") + kind + ".json"] = schema_of(*find_source_kind(kind));

  std::vector<fs::path> written;
  bool done = true;
  for (const auto& [name, text] : files) {
    const fs::path path = fs::path(arguments.folder) / name;
    done = run.make_folder(path.parent_path().string()) && run.write(path.string(), text);
    if (!done) break;
    written.push_back(path);
  }
  if (!done) {  // nothing is left half written
    for (const fs::path& path : written) fs::remove(path, error);
    for (const fs::path& path : written)
      if (path.parent_path() != fs::path(arguments.folder)) fs::remove(path.parent_path(), error);
    if (is_new) fs::remove(folder, error);
    return run.end();
  }
  for (const fs::path& path : written) run.print(path.string() + '\n');
  const std::string name = arguments.folder;
  run.print("\n" + name +
            " is a whole pattern. Typeset its booklets, then change what you like:\n" +
            "  dogear build " + typed(name) + " -o out\n");
  return run.end();
}

}  // namespace dogear
