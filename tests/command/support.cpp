#include "support.h"

#include <stdlib.h>
#include <sys/wait.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace dogear::test {

Folder::Folder() {
  std::string name = (fs::temp_directory_path() / "dogear-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::string read(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw std::runtime_error(path.string() + " cannot be read");
  return {std::istreambuf_iterator<char>(in), {}};
}

void write(const fs::path& path, const std::string& text) {
  fs::create_directories(path.parent_path());
  std::ofstream out(path, std::ios::binary);
  out << text;
  if (!out.flush()) throw std::runtime_error(path.string() + " cannot be written");
}

void copy_folder(const fs::path& from, const fs::path& to) {
  fs::create_directories(to.parent_path());
  fs::copy(from, to, fs::copy_options::recursive);
}

void change(const fs::path& path, const std::string& before, const std::string& after) {
  std::string text = read(path);
  const std::size_t at = text.find(before);
  if (at == std::string::npos || text.find(before, at + 1) != std::string::npos) {
    throw std::runtime_error(path.string() + " does not have this once: " + before);
  }
  write(path, text.replace(at, before.size(), after));
}

std::vector<fs::path> shipped_patterns() {
  std::vector<fs::path> found;
  for (const auto& entry : fs::directory_iterator(project / "patterns")) {
    if (fs::exists(entry.path() / "pattern.yaml")) found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

namespace {

std::string quoted(const std::string& word) {
  std::string text = "'";
  for (const char c : word) text += c == '\'' ? "'\\''" : std::string(1, c);
  return text + "'";
}

}  // namespace

Result shell(const std::string& line, const fs::path& folder) {
  const Folder kept;
  const fs::path script = kept / "script", out = kept / "out", err = kept / "err";
  write(script, "cd " + quoted(folder.string()) + " || exit 99\n" + line + '\n');
  const std::string command = "bash " + quoted(script.string()) + " </dev/null >" +
                              quoted(out.string()) + " 2>" + quoted(err.string());
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read(out), read(err)};
}

Result run(const std::vector<std::string>& words, const fs::path& folder) {
  std::string line = quoted(program.string());
  for (const std::string& word : words) line += ' ' + quoted(word);
  return shell(line, folder);
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace dogear::test
