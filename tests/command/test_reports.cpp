// What is said of a pattern, for people, for other programs and as figures.

#include <catch2/catch.hpp>

#include "support.h"

using namespace dogear::test;

namespace {

struct Star : StarFolder {
  void off_the_lines(const std::string& comment = "") const {
    change(pattern / "blocks/star.yaml", "unit: 2 in", "unit: 5 cm");
    change(pattern / "blocks/star.yaml", "  corner: {shape: square 1, fabric: light}",
           "  corner: {shape: square 1, fabric: light}" + comment);
  }
  void leave_gap() const {
    change(pattern / "blocks/star.yaml", "      - {unit: wing turned 180, at: [1, 0]}\n", "");
  }
  // Says what is wrong with a SARIF log; nothing when nothing is.
  std::string invalid(const std::string& log) const {
    write(folder / "log.sarif", log);
    const Result checked =
        shell("python3 " + (project / "tests/diag/validate_sarif.py").string() + " log.sarif",
              folder.path());
    return checked.code == 0 ? "" : checked.out + checked.err + "?";
  }
};

}  // namespace

TEST_CASE("codes are explained, listed, and the nearest is named") {
  const Star here;
  const Result one = here.dogear({"explain", "D204"});
  CHECK(one.code == 0);
  CHECK(has(one.out, "D204 (error): "));
  CHECK(has(one.out, "Why it matters"));
  CHECK(has(one.out, "Mended"));
  CHECK(here.dogear({"explain", "d204"}).out == one.out);
  const Result all = here.dogear({"explain"});
  CHECK(all.code == 0);
  CHECK(has(all.out, "  D204  "));
  CHECK(has(all.out, "  D651  "));
  CHECK(here.dogear({"explain", "--as", "markdown"}).out ==
        read(project / "tools/dogear/manual/messages.md"));
  const Result unknown = here.dogear({"explain", "D2O4"});
  CHECK(unknown.code == 2);
  CHECK(unknown.out.empty());
  CHECK(has(unknown.err, "did you mean D204?"));
  CHECK(here.dogear({"explain", "gaps"}).code == 2);
  CHECK(here.dogear({"explain", "D204", "--as", "markdown"}).code == 2);
}

TEST_CASE("schemas are listed and printed, and a source may name its own") {
  const Star here;
  const Result list = here.dogear({"schema"});
  CHECK(list.code == 0);
  for (const char* kind : {"pattern", "block", "template", "words"}) {
    CHECK(has(list.out, kind));
    const Result schema = here.dogear({"schema", kind});
    CHECK(schema.code == 0);
    CHECK(has(schema.out, std::string("\"$id\": \"urn:dogear:") + kind + "\""));
  }
  CHECK(here.dogear({"schema", "--as", "markdown"}).out ==
        read(project / "tools/dogear/manual/keys.md"));
  const Result unknown = here.dogear({"schema", "quilt"});
  CHECK(unknown.code == 2);
  CHECK(unknown.out.empty());
  CHECK(has(unknown.err, "name pattern, block, template, words"));
  CHECK(here.dogear({"schema", "pattern", "--as", "markdown"}).code == 2);

  write(here.pattern / "pattern.yaml", "# yaml-language-server: $schema=pattern.schema.json\n" +
                                           read(here.pattern / "pattern.yaml"));
  CHECK(here.dogear({"check", "star"}).code == 0);
}

TEST_CASE("an error says which command tells more") {
  const Star here;
  here.leave_gap();
  CHECK(has(here.dogear({"check", "star"}).err, "`dogear explain D201` tells more"));
}

TEST_CASE("a warning is accepted with a reason, in every command") {
  const Star here;
  here.off_the_lines();
  const Result plain = here.dogear({"check", "star"});
  CHECK(plain.code == 0);
  CHECK(has(plain.err, "[D551]"));
  change(here.pattern / "blocks/star.yaml", "fabric: light}\n  centre",
         "fabric: light}  # accept D551: eased into the seam\n  centre");
  for (const std::vector<std::string>& words : {std::vector<std::string>{"check", "star"},
                                                {"build", "star", "-o", "out"},
                                                {"quantities", "star"},
                                                {"draw", "star", "block/star"}}) {
    const Result accepted = here.dogear(words);
    CAPTURE(words, accepted.err);
    CHECK(accepted.code == 0);
    CHECK_FALSE(has(accepted.err, "blocks/star.yaml:6:"));
    CHECK(has(accepted.err, " accepted\n"));
  }
}

TEST_CASE("an acceptance that is wrong stops every command") {
  const Star here;
  here.off_the_lines("  # accept D551");
  for (const std::string command : {"check", "build", "quantities"}) {
    const Result refused = here.dogear({command, "star"});
    CAPTURE(command, refused.err);
    CHECK(refused.code == 1);
    CHECK(has(refused.err, "[D072]"));
    CHECK(refused.out.empty());
  }
  CHECK_FALSE(fs::exists(here.folder / "star-mini.pdf"));
}

TEST_CASE("an idle acceptance is told where every stage runs for every size, and only there") {
  const Star here;
  change(here.pattern / "pattern.yaml", "title: Small Star",
         "# accept D551: it is meant\ntitle: Small Star");
  for (const std::string command : {"check", "build"}) {
    const Result whole = here.dogear({command, "star"});
    CHECK(whole.code == 0);
    CHECK(has(whole.err, "star/pattern.yaml:1:10: warning: there is no warning D551 on line 2"));
    CHECK_FALSE(has(here.dogear({command, "star", "--size", "mini"}).err, "[D073]"));
  }
  CHECK_FALSE(has(here.dogear({"quantities", "star"}).err, "[D073]"));
}

TEST_CASE("a comment in prose accepts a warning and is not printed") {
  const Star here;
  write(here.pattern / "prose/welcome.md",
        "<!-- accept D551: nothing of the kind -->\n\nA quilt. <!-- accept D551: again -->\n");
  const Result result = here.dogear({"build", "star"});
  CHECK(result.code == 0);
  CHECK(has(result.err, "star/prose/welcome.md:1:13: warning:"));
  CHECK(has(result.err, "star/prose/welcome.md:3:22: warning:"));
  const Result text = shell("pdftotext star-mini.pdf -", here.folder.path());
  CHECK(has(text.out, "A quilt."));
  CHECK_FALSE(has(text.out, "accept"));
  CHECK_FALSE(has(text.out, "--"));
}

TEST_CASE("check speaks JSON on standard output and is silent on the other") {
  const Star here;
  const Result sound = here.dogear({"check", "star", "--as", "json"});
  CHECK(sound.code == 0);
  CHECK(sound.err.empty());
  CHECK(has(sound.out, "\"messages\": []"));
  here.leave_gap();
  const Result faulty = here.dogear({"check", "star", "--as", "json"});
  CHECK(faulty.code == 1);
  CHECK(faulty.err.empty());
  CHECK(has(faulty.out, "\"code\": \"D201\""));
  CHECK(has(faulty.out, "\"figure\": \"problem:1\""));
  CHECK(here.dogear({"check", "nowhere", "--as", "json"}).code == 3);
  CHECK(here.dogear({"check", "star", "--as", "xml"}).code == 2);
}

TEST_CASE("check speaks SARIF that the published schema accepts") {
  const Star here;
  const auto checked = [&](const std::string& folder, int code) {
    const Result result = here.dogear({"check", folder, "--as", "sarif"});
    CAPTURE(folder);
    CHECK(result.code == code);
    CHECK(result.err.empty());
    CHECK(here.invalid(result.out) == "");
    return result.out;
  };
  checked("star", 0);
  here.off_the_lines("  # accept D551: eased into the seam");
  const std::string accepted = checked("star", 0);
  CHECK(has(accepted, "\"justification\": \"eased into the seam\""));
  here.leave_gap();
  const std::string faulty = checked("star", 1);
  CHECK(has(faulty, "\"uri\": \"star/blocks/star.yaml\""));
  CHECK(checked(here.pattern.string(), 1) == checked(here.pattern.string(), 1));
  CHECK(has(checked(here.pattern.string(), 1), "\"uriBaseId\": \"PATTERN\""));
  checked("nowhere", 3);
  copy_folder(here.pattern, here.folder / "my {star} é#%");
  CHECK(has(checked("my {star} é#%", 1), "\"my%20%7Bstar%7D%20%C3%A9%23%25/blocks/star.yaml\""));
}

TEST_CASE("the check of a log finds what is wrong with it") {
  const Star here;
  const auto log_now = [&] { return here.dogear({"check", "star", "--as", "sarif"}).out; };
  std::string right = log_now();
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string log = right;
    REQUIRE(here.invalid(log) == "");
    const std::size_t at = log.find(from);
    REQUIRE(at != std::string::npos);
    return here.invalid(log.replace(at, from.size(), to));
  };
  CHECK_FALSE(with("\"2.1.0\"", "\"2.0.0\"").empty());
  CHECK_FALSE(with("\"results\": []", "\"results\": [{}]").empty());
  CHECK_FALSE(with("unicodeCodePoints", "bytes").empty());
  here.leave_gap();
  right = log_now();
  CHECK_FALSE(with("\"id\": \"D201\"", "\"id\": \"D202\"").empty());
  CHECK_FALSE(here.invalid("{").empty());
}

TEST_CASE("a problem that is told is drawn, although the pattern does not compile") {
  const Star here;
  here.leave_gap();
  const Result told = here.dogear({"check", "star"});
  CHECK(has(told.err, "drawn by: dogear draw star problem:1\n"));
  const Result drawn = here.dogear({"draw", "star", "problem:1", "-o", "gap.svg"});
  CHECK(drawn.code == 0);
  CHECK(drawn.err.empty());
  const std::string svg = read(here.folder / "gap.svg");
  CHECK(has(svg, "<svg"));
  CHECK(has(svg, "gap"));
  CHECK(has(svg, "2 in"));
  CHECK(shell("xmllint --noout gap.svg", here.folder.path()).code == 0);
  CHECK(here.dogear({"draw", "star", "figure:problem:1"}).out == svg);
  for (const std::string wrong : {"problem:0", "problem:2", "problem:", "problem:-1", "problem:1x",
                                  "problem:99999999999999999999"}) {
    const Result result = here.dogear({"draw", "star", wrong});
    CAPTURE(wrong, result.err);
    CHECK(result.code == 2);
    CHECK(result.out.empty());
    CHECK(has(result.err, "there is one: problem:1"));
  }
  CHECK(here.dogear({"draw", "star", "problem:1", "-o", "none/gap.svg"}).code == 3);
}

TEST_CASE("a sound pattern has no problem to draw") {
  const Star here;
  const Result result = here.dogear({"draw", "star", "problem:1"});
  CHECK(result.code == 2);
  CHECK(has(result.err, "no message of this pattern has a figure"));
  CHECK(here.dogear({"draw", "nowhere", "problem:1"}).code == 3);
}
