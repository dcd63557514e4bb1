// What changed between folders, ledgers and revisions, through the program and real git.

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

// A folder with two states of one pattern.
struct Two {
  Folder folder;
  Two() {
    copy_folder(star, folder / "old");
    copy_folder(star, folder / "new");
    change(folder / "new/pattern.yaml", "fabric: ink, width: 2 in", "fabric: ink, width: 3 in");
  }
  Result dogear(const std::vector<std::string>& words) const { return run(words, folder.path()); }
};

// A repository in which the branch "wide" has another border than "main", and a stale ledger.
struct Repository {
  Folder folder;
  fs::path pattern = folder / "patterns/star";

  Repository() {
    copy_folder(star, pattern);
    REQUIRE(run({"quantities", "patterns/star", "--ledger"}, folder.path()).code == 0);
    git("init -q -b main . && git config user.name Test && git config user.email test@example.org");
    git("add -A && git commit -qm first");
    git("checkout -q -b wide");
    change(pattern / "pattern.yaml", "fabric: ink, width: 2 in", "fabric: ink, width: 3 in");
    git("commit -qam second");
  }
  Result shell_here(const std::string& line) const { return shell(line, folder.path()); }
  std::string git(const std::string& words) const {
    const Result result = shell_here("git " + words);
    INFO("git " << words << '\n' << result.err);
    REQUIRE(result.code == 0);
    return result.out;
  }
  Result dogear(const std::vector<std::string>& words) const { return run(words, folder.path()); }
};

// The first block of the manual that is fenced with this word and holds these.
std::string from_manual(const std::string& language, const std::string& holds) {
  const std::string text = read(project / "tools/dogear/manual/reviewing.md");
  const std::string open = "```" + language + "\n";
  for (auto at = text.find(open); at != std::string::npos; at = text.find(open, at + 1)) {
    const auto from = at + open.size();
    const std::string block = text.substr(from, text.find("```\n", from) - from);
    if (has(block, holds)) return block;
  }
  FAIL("the manual has no block with " << holds);
  return "";
}

// The program as `dogear`, as the manual has it.
std::string with_path() { return "export PATH=\"" + program.parent_path().string() + ":$PATH\"\n"; }

}  // namespace

TEST_CASE("two folders, two ledgers and one of each are compared") {
  const Two two;
  const Result folders = two.dogear({"compare", "old", "new"});
  CHECK(folders.code == 1);
  CHECK(folders.err.empty());
  CHECK(has(folders.out, "Old: old\nNew: new\n1 size differs, in "));
  CHECK(has(folders.out, "Finished size"));
  CHECK(has(folders.out, "Because of\n  pattern.yaml:"));
  CHECK(two.dogear({"compare", "old", "new"}).out == folders.out);

  CHECK(two.dogear({"quantities", "old", "--ledger"}).code == 0);
  CHECK(two.dogear({"quantities", "new", "--ledger"}).code == 0);
  const Result ledgers = two.dogear({"compare", "old/quantities.txt", "new/quantities.txt"});
  CHECK(ledgers.code == 1);
  CHECK(has(ledgers.out, "Finished size"));
  CHECK_FALSE(has(ledgers.out, "Because of"));
  CHECK(two.dogear({"compare", "old/quantities.txt", "new/pattern.yaml"}).code == 1);

  for (const std::string same : {"old", "old/quantities.txt", "old/pattern.yaml"}) {
    const Result result = two.dogear({"compare", "old", same});
    INFO(same << result.err);
    CHECK(result.code == 0);
    CHECK(has(result.out, "Nothing differs in what is bought, cut and sewn.\n"));
  }
}

TEST_CASE("a comparison is printed for people, pull requests and programs") {
  const Two two;
  const Result markdown = two.dogear({"compare", "old", "new", "--as", "markdown"});
  CHECK(markdown.code == 1);
  CHECK(
      has(markdown.out, "### Mini quilt (mini)\n\n| What | Was | Now | Difference | Because |\n"));
  const Result json = two.dogear({"compare", "old", "new", "--as", "json"});
  CHECK(json.code == 1);
  CHECK(has(json.out, "\"same\": false"));
  CHECK(has(json.out, "\"kind\": \"line\""));
  CHECK(two.dogear({"compare", "old", "new", "--as", "xml"}).code == 2);
  CHECK(two.dogear({"compare", "old"}).code == 2);
}

TEST_CASE("a side that cannot be read or has errors is told in plain words") {
  const Two two;
  const auto refused = [&](const std::string& old, const std::string& words) {
    const Result result = two.dogear({"compare", old, "new"});
    INFO(old << ": " << result.err);
    CHECK(result.code == 3);
    CHECK(result.out.empty());
    CHECK(has(result.err, words));
  };
  refused("nowhere", "there is no file or folder nowhere");
  refused("old/blocks/star.yaml",
          "old/blocks/star.yaml is no ledger: line 1 is not written as in a");
  refused("main:old", "there is no git repository here");
  refused(":old", "names no revision before its colon");
  const Result dash = two.dogear({"compare", "--", "-x:old", "new"});
  CHECK(dash.code == 3);
  CHECK(has(dash.err, "names no revision before its colon"));
  change(two.folder / "old/pattern.yaml", "title: Small Star", "titel: Small Star");
  refused("old", "old/pattern.yaml:1:1: error:");
  refused("old", "old cannot be compared: it has errors");
  fs::create_directories(two.folder / "empty");
  refused("empty", "empty/pattern.yaml");
}

TEST_CASE("revisions are read through git, wherever the program runs") {
  const Repository here;
  const Result between = here.dogear({"compare", "main:patterns/star", "wide:patterns/star"});
  INFO(between.err);
  CHECK(between.code == 1);
  CHECK(has(between.out, "Old: main:patterns/star\nNew: wide:patterns/star\n"));
  CHECK(has(between.out, "Because of\n  pattern.yaml:"));
  CHECK(here.dogear({"compare", "main:patterns/star", "patterns/star"}).code == 1);
  CHECK(here.dogear({"compare", "wide:patterns/star/", "patterns/star"}).code == 0);
  CHECK(here.dogear({"compare", "HEAD~1:patterns/star/pattern.yaml", "main:patterns/star"}).code ==
        0);
  CHECK(here.dogear({"compare", "main:patterns/star/quantities.txt", "main:patterns/star"}).code ==
        0);

  // Inside the repository "./" counts from here; outside, the other side says where it is.
  CHECK(run({"compare", "main:./star", "star"}, here.folder / "patterns").code == 1);
  const Result from_top = run({"compare", "main:star", "star"}, here.folder / "patterns");
  CHECK(from_top.code == 3);
  CHECK(has(from_top.err, "the revision `main` has nothing at `star`"));
  CHECK(has(from_top.err, "here that would be `main:./star`"));
  const Folder outside;
  CHECK(run({"compare", "main:patterns/star", here.pattern.string()}, outside.path()).code == 1);

  // A pattern at the top of its repository.
  const Folder top;
  copy_folder(star, top / "star");
  REQUIRE(shell("git init -q . && git add -A && git -c user.name=T -c user.email=t@example.org "
                "commit -qm first",
                top / "star")
              .code == 0);
  CHECK(run({"compare", "HEAD:", "."}, top / "star").code == 0);
}

TEST_CASE("revisions that are not there, and faults in those that are") {
  const Repository here;
  const Result revision = here.dogear({"compare", "v9:patterns/star", "patterns/star"});
  CHECK(revision.code == 3);
  CHECK(has(revision.err, "the git repository has no revision `v9`"));
  const Result path = here.dogear({"compare", "main:patterns/moon", "patterns/star"});
  CHECK(path.code == 3);
  CHECK(has(path.err, "the revision `main` has nothing at `patterns/moon`"));
  change(here.pattern / "pattern.yaml", "title: Small Star", "titel: Small Star");
  here.git("commit -qam broken");
  const Result broken = here.dogear({"compare", "main:patterns/star", "HEAD:patterns/star"});
  CHECK(broken.code == 3);
  CHECK(has(broken.err, "HEAD:patterns/star/pattern.yaml:1:1: error:"));
  const Result no_git =
      shell("PATH=/nowhere " + program.string() + " compare main:patterns/star patterns/star",
            here.folder.path());
  CHECK(no_git.code == 3);
  CHECK(has(no_git.err, "git is needed"));
}

TEST_CASE("the manual's recipe makes git diff speak in a quilter's words") {
  const Repository here;
  write(here.folder / ".gitattributes", from_manual("gitattributes", "diff=quilt"));
  REQUIRE(here.shell_here(from_manual("sh", "diff.quilt.textconv")).code == 0);
  REQUIRE(here.dogear({"quantities", "patterns/star", "--ledger"}).code == 0);
  here.git("add -A");
  const Result diff = here.shell_here(with_path() + "git diff main --cached");
  INFO(diff.err);
  CHECK(diff.code == 0);
  CHECK(has(diff.out, "\n-sizes > mini > borders > 1 > width: 2 in\n"));
  CHECK(has(diff.out, "\n+sizes > mini > borders > 1 > width: 3 in\n"));
  CHECK(has(diff.out, "\n-Mini quilt (mini), Finished size: "));
  CHECK(has(diff.out, "\n+Mini quilt (mini), Finished size: "));
  CHECK_FALSE(has(diff.out, "mini size.width"));
  // A file that no longer can be read as YAML is shown as it is, and does not stop the rest.
  write(here.pattern / "blocks/star.yaml", "block: [\n");
  const Result broken = here.shell_here(with_path() + "git diff");
  CHECK(broken.code == 0);
  CHECK(has(broken.out, "+block: [\n"));
}

TEST_CASE("single files are printed as lines that say their place") {
  const Two two;
  const Result yaml = two.dogear({"lines", "old/pattern.yaml"});
  CHECK(yaml.code == 0);
  CHECK(has(yaml.out, "\nsizes > mini > rows > 1 > 2: star\n"));
  CHECK(has(yaml.out, "\nfabrics > ink > name: Ink\n"));
  CHECK(two.dogear({"quantities", "old", "--ledger"}).code == 0);
  const Result ledger = two.dogear({"lines", "old/quantities.txt"});
  CHECK(ledger.code == 0);
  CHECK(has(ledger.out, "Mini quilt (mini), ink: cloth to buy: "));
  CHECK(two.dogear({"lines", "nowhere.yaml"}).code == 3);
  CHECK(two.dogear({"lines", "old/prose/welcome.md"}).out == read(star / "prose/welcome.md"));
}

TEST_CASE("the manual's script tells what a branch changes and fails on a stale ledger") {
  const Repository here;
  write(here.folder / "tools/compare-patterns", from_manual("sh", "compare-patterns"));
  const auto script = [&](const std::string& branch) {
    return here.shell_here(with_path() + "sh tools/compare-patterns " + branch);
  };
  const Result stale = script("main");
  INFO(stale.err);
  CHECK(stale.code == 1);
  CHECK(has(stale.out, "## star\n\n**1 size differs"));
  CHECK(has(stale.out, "| Finished size |"));
  CHECK(has(stale.out, "The ledger is stale: run `dogear quantities patterns/star --ledger`."));
  CHECK(here.git("status --porcelain -- patterns").empty());  // it writes nothing

  REQUIRE(here.dogear({"quantities", "patterns/star", "--ledger"}).code == 0);
  here.git("commit -qam ledger");
  const Result fresh = script("main");
  CHECK(fresh.code == 0);
  CHECK(has(fresh.out, "| Finished size |"));
  // What main did since is no change of this branch.
  here.git("checkout -q main");
  change(here.pattern / "pattern.yaml", "binding: {fabric: ink}", "binding: {fabric: cream}");
  here.git("commit -qam other");
  here.git("checkout -q wide");
  CHECK(script("main").out == fresh.out);

  copy_folder(star, here.folder / "patterns/moon");
  REQUIRE(here.dogear({"quantities", "patterns/moon", "--ledger"}).code == 0);
  CHECK(has(script("main").out, "## moon\n\nA new pattern.\n"));
  change(here.pattern / "pattern.yaml", "title: Small Star", "titel: Small Star");
  CHECK(script("main").code == 1);
  CHECK(script("nowhere").code == 3);
}

TEST_CASE("the manual's workflow is sound YAML and its steps do what they say") {
  const Repository here;
  write(here.folder / "tools/compare-patterns", from_manual("sh", "compare-patterns"));
  fs::permissions(here.folder / "tools/compare-patterns", fs::perms::owner_all);
  write(here.folder / "workflow.yaml", from_manual("yaml", "pull_request"));
  const Result outline = here.dogear({"lines", "workflow.yaml"});
  const std::string compare = "jobs > compare > steps > 2 > run: ";
  const std::string show = "jobs > compare > steps > 3 > run: ";
  REQUIRE(has(outline.out, compare));
  REQUIRE(has(outline.out, show));
  const auto line = [&](const std::string& head) {
    const auto from = outline.out.find(head) + head.size();
    return outline.out.substr(from, outline.out.find('\n', from) - from);
  };
  here.git("update-ref refs/remotes/origin/main main");
  const Result result =
      here.shell_here(with_path() + "export BASE=main GITHUB_STEP_SUMMARY=summary.md\n" +
                      line(compare) + "; code=$?\n" + line(show) + "\nexit $code");
  INFO(result.err);
  CHECK(result.code == 1);
  CHECK(has(read(here.folder / "summary.md"), "## star\n\n**1 size differs"));
}

TEST_CASE("corrections are written, checked and printed") {
  const Two two;
  change(two.folder / "old/pattern.yaml", "title: Small Star", "title: Small Star\nedition: \"1\"");
  REQUIRE(two.dogear({"quantities", "old", "--ledger"}).code == 0);
  write(two.folder / "new/editions/1.txt", read(two.folder / "old/quantities.txt"));
  change(two.folder / "new/pattern.yaml", "title: Small Star", "title: Small Star\nedition: \"2\"");
  const Result missing = two.dogear({"check", "new"});
  CHECK(missing.code == 0);
  CHECK(has(missing.err, "[D661]"));
  const Result list = two.dogear({"compare", "new/editions/1.txt", "new", "--as", "errata"});
  CHECK(list.code == 1);
  write(two.folder / "new/pattern.yaml", read(two.folder / "new/pattern.yaml") + '\n' + list.out);
  const Result told = two.dogear({"build", "new", "-o", "out"});
  INFO(told.err);
  CHECK(told.code == 0);
  CHECK_FALSE(has(told.err, "[D66"));
  const Result text = shell("pdftotext out/new-mini.pdf -", two.folder.path());
  CHECK(has(text.out, "Corrections to edition 1"));
}
