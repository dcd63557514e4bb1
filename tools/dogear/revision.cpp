#include "revision.h"

#include "base/text.h"
#include "process.h"

namespace dogear {

namespace {

class Git {
 public:
  explicit Git(std::string place) : place_(std::move(place)) {}

  Ran run(const std::vector<std::string>& words) const {
    std::vector<std::string> all{"git", "-C", place_};
    all.insert(all.end(), words.begin(), words.end());
    return run_program(all);
  }

  // The name of an object, or nothing.
  std::optional<std::string> object(const std::string& words) const {
    const Ran ran = run({"rev-parse", "--verify", "--quiet", words});
    if (ran.code != 0) return std::nullopt;
    return std::string(trim(ran.out));
  }

  std::optional<std::string> text(const std::string& object) const {
    Ran ran = run({"cat-file", "blob", object});
    if (ran.code != 0) return std::nullopt;
    return std::move(ran.out);
  }

 private:
  std::string place_;
};

bool may_be_of_pattern(const std::string& path) {
  return path.ends_with(".yaml") || path.ends_with(".md") || path.ends_with(".txt");
}

// "100644 blob 1234abcd\tblocks/star.yaml", ended by a zero byte each. Links and other
// repositories are no files.
bool read_folder(const Git& git, const std::string& tree, const std::string& head, bool every,
                 MemoryFiles& files) {
  const Ran listed = git.run({"ls-tree", "-r", "-z", "--full-tree", tree});
  if (listed.code != 0) return false;
  for (const std::string& line : split(listed.out, '\0')) {
    const std::size_t tab = line.find('\t');
    if (tab == std::string::npos) continue;
    const std::string path = line.substr(tab + 1);
    const auto facts = split(std::string_view(line).substr(0, tab), ' ');
    if (facts.size() != 3 || !starts_with(facts[0], "100")) continue;
    if (!every && !may_be_of_pattern(path)) continue;
    auto text = git.text(facts[2]);
    if (!text) return false;
    files.content[head + '/' + path] = std::move(*text);
  }
  return true;
}

// The repository that holds one of the places, and has the revision.
std::optional<Git> git_with(const std::string& revision, const std::vector<std::string>& places,
                            const RevisionError& without_repository, RevisionError& error) {
  std::optional<Git> git;
  for (const std::string& place : places) {
    const Git there(place);
    const Ran ran = there.run({"rev-parse", "--git-dir"});
    if (!ran.started) {
      error = {"git is needed to read `" + revision + "`, and there is none on this machine",
               "Debian's package git holds it"};
      return std::nullopt;
    }
    if (ran.code != 0) continue;
    git = there;
    break;
  }
  if (!git) {
    error = without_repository;
    return std::nullopt;
  }
  if (!git->object(revision + "^{tree}")) {
    error = {"the git repository has no revision `" + revision + "`",
             "`git log --oneline` lists those there are; a shallow clone lacks older ones"};
    return std::nullopt;
  }
  return git;
}

}  // namespace

std::optional<AtRevision> read_revision(const std::string& words,
                                        const std::vector<std::string>& places,
                                        RevisionError& error) {
  const std::size_t colon = words.find(':');
  const std::string revision = words.substr(0, colon);
  std::string path = words.substr(colon + 1);
  while (path.size() > 1 && path.back() == '/') path.pop_back();
  if (revision.empty() || revision.front() == '-') {
    error = {"`" + words + "` names no revision before its colon", ""};
    return std::nullopt;
  }
  const auto git = git_with(
      revision, places,
      {"`" + words + "` is no file or folder, and there is no git repository here to find it in",
       "run dogear inside the repository"},
      error);
  if (!git) return std::nullopt;
  const auto object = git->object(revision + ':' + path);
  const Ran kind = object ? git->run({"cat-file", "-t", *object}) : Ran{};
  if (!object || kind.code != 0) {
    error = {"the revision `" + revision + "` has nothing at `" + path + "`", ""};
    if (git->object(revision + ":./" + path)) {
      error.hint = "paths count from the top of the repository; here that would be `" + revision +
                   ":./" + path + "`";
    }
    return std::nullopt;
  }
  AtRevision at;
  at.is_folder = trim(kind.out) == "tree";
  std::string head = words;
  while (head.ends_with('/')) head.pop_back();
  bool read = false;
  if (at.is_folder) {
    read = read_folder(*git, *object, head, false, at.files);
  } else if (auto text = git->text(*object)) {
    at.text = std::move(*text);
    read = true;
  }
  if (!read) {
    error = {"git could not read `" + words + "`", ""};
    return std::nullopt;
  }
  return at;
}

std::optional<AtRevision> read_folder_at(const std::string& revision, const std::string& folder,
                                         RevisionError& error) {
  if (revision.empty() || revision.front() == '-' || revision.find(':') != std::string::npos) {
    error = {"`" + revision + "` names no revision", "such as HEAD, main or v1.0"};
    return std::nullopt;
  }
  const auto git = git_with(
      revision, {folder},
      {"`" + folder + "` lies in no git repository, so there is nothing to compare it with",
       "commit the pattern first: `git init`, `git add`, `git commit`"},
      error);
  if (!git) return std::nullopt;
  AtRevision at;
  const auto tree = git->object(revision + ":./");
  at.is_folder = tree.has_value();
  std::string head = folder;
  while (head.size() > 1 && head.ends_with('/')) head.pop_back();
  if (tree && !read_folder(*git, *tree, head, true, at.files)) {
    error = {"git could not read `" + folder + "` at `" + revision + "`", ""};
    return std::nullopt;
  }
  at.is_there = at.files.content.contains(head + "/pattern.yaml");
  return at;
}

}  // namespace dogear
