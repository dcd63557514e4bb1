// Diagnostics as JSON and as SARIF. The schema's word on the latter is asked in tests/command.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "diag/report.h"

using namespace dogear;
using nlohmann::json;

namespace {

const ReportFacts facts{"0.1.0", "quilts/my star", "/home/m/quilts/my star", 1};

struct Sample {
  Sources sources;
  Diagnostics diagnostics;
  Sample() {
    sources.add("quilts/my star/blocks/a.yaml", "block: A\nunit: 2 in\n");
    Diagnostic& e = diagnostics.error("D204", {"quilts/my star/blocks/a.yaml", 2, 1, 2, 5},
                                      "the tag {{x}} is wrong");
    e.notes.resize(2);
    e.notes[0].span = Span{"quilts/my star/pattern.yaml", 3, 2, 3, 4};
    e.notes[0].message = "see here";
    e.notes[1].message = "or nowhere";
    e.hints.push_back("mend it");
    e.picture = std::make_shared<const ProblemPicture>();
    diagnostics.warning("D551", {"quilts/my star/blocks/a.yaml", 2, 7, 2, 11}, "off");
    diagnostics.accept(1, "eased in");
    diagnostics.warning("D651", {"quilts/my star/quantities.txt", 0, 0, 0, 0}, "stale");
    diagnostics.error("D001", {}, "no fonts");
  }
  json log() const { return json::parse(report_as_sarif(diagnostics, sources, facts)); }
  json run() const { return log()["runs"][0]; }
};

}  // namespace

TEST_CASE("JSON holds all there is to say") {
  const Sample sample;
  const json all = json::parse(report_as_json(sample.diagnostics, facts));
  CHECK(all["version"] == "0.1.0");
  CHECK(all["folder"] == "quilts/my star");
  CHECK(all["errors"] == 2);
  CHECK(all["warnings"] == 1);
  CHECK(all["accepted"] == 1);
  REQUIRE(all["messages"].size() == 4);
  const json& first = all["messages"][0];
  CHECK(first == json{{"code", "D204"},
                      {"severity", "error"},
                      {"file", "quilts/my star/blocks/a.yaml"},
                      {"line", 2},
                      {"column", 1},
                      {"end_line", 2},
                      {"end_column", 5},
                      {"message", "the tag {{x}} is wrong"},
                      {"notes",
                       {{{"file", "quilts/my star/pattern.yaml"},
                         {"line", 3},
                         {"column", 2},
                         {"end_line", 3},
                         {"end_column", 4},
                         {"message", "see here"}},
                        {{"message", "or nowhere"}}}},
                      {"hints", {"mend it"}},
                      {"figure", "problem:1"}});
  CHECK(all["messages"][1]["accepted"] == "eased in");
  CHECK_FALSE(all["messages"][2].contains("line"));
  CHECK_FALSE(all["messages"][3].contains("file"));
}

TEST_CASE("a SARIF run has its rules from the catalogue and its results from the messages") {
  const json run = Sample().run();
  CHECK(run["columnKind"] == "unicodeCodePoints");
  CHECK(run["invocations"][0]["exitCode"] == 1);
  CHECK(run["invocations"][0]["executionSuccessful"] == true);
  const json& rules = run["tool"]["driver"]["rules"];
  REQUIRE(run["results"].size() == 4);
  std::set<json> named, listed;
  for (const json& result : run["results"]) named.insert(result["ruleId"]);
  for (const json& rule : rules) listed.insert(rule["id"]);
  CHECK(named == listed);
  CHECK(rules.size() == listed.size());
  for (const json& result : run["results"]) {
    CHECK(rules[result["ruleIndex"].get<std::size_t>()]["id"] == result["ruleId"]);
  }
  const json& result = run["results"][0];
  CHECK(result["level"] == "error");
  CHECK(result["message"]["text"] == "the tag {{{{x}}}} is wrong.\nHint: mend it");
  const json& place = result["locations"][0]["physicalLocation"];
  CHECK(place["artifactLocation"] == json{{"uri", "quilts/my%20star/blocks/a.yaml"}});
  CHECK(place["region"] ==
        json{{"startLine", 2}, {"startColumn", 1}, {"endLine", 2}, {"endColumn", 5}});
  CHECK(result["relatedLocations"].size() == 2);
  CHECK(result["relatedLocations"][0]["message"]["text"] == "see here");
  CHECK(result["properties"]["hints"] == json{"mend it"});
  CHECK(result["properties"]["figure"] == "problem:1");
  CHECK(result["suppressions"].empty());
  CHECK(run["results"][1]["suppressions"] ==
        json{{{"kind", "inSource"}, {"status", "accepted"}, {"justification", "eased in"}}});
  CHECK_FALSE(run["results"][2]["locations"][0]["physicalLocation"].contains("region"));
  CHECK_FALSE(run["results"][3].contains("locations"));
}

TEST_CASE("a folder outside the working one is a base of its own") {
  for (const std::string folder : {"/home/m/quilts/my star", "../quilts/my star"}) {
    Sources sources;
    Diagnostics diagnostics;
    diagnostics.error("D101", {folder + "/blocks/é b.yaml", 1, 1, 1, 2}, "words");
    ReportFacts where = facts;
    where.folder = folder;
    const json run = json::parse(report_as_sarif(diagnostics, sources, where))["runs"][0];
    CHECK(run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"] ==
          json{{"uri", "blocks/%C3%A9%20b.yaml"}, {"uriBaseId", "PATTERN"}});
    CHECK(run["originalUriBaseIds"]["PATTERN"]["uri"] == "file:///home/m/quilts/my%20star/");
  }
  CHECK_FALSE(Sample().run().contains("originalUriBaseIds"));
}

TEST_CASE("a fingerprint outlives lines that come and go above, and tells results apart") {
  const auto prints = [](const std::string& text, std::size_t line) {
    Sources sources;
    sources.add("f", text);
    Diagnostics diagnostics;
    diagnostics.error("D101", {"f", line, 1, line, 2}, "words");
    diagnostics.error("D101", {"f", line, 3, line, 4}, "words");
    diagnostics.error("D102", {"f", line, 1, line, 2}, "words");
    const json run = json::parse(report_as_sarif(diagnostics, sources, facts))["runs"][0];
    std::vector<std::string> out;
    for (const json& r : run["results"]) {
      out.push_back(r["partialFingerprints"]["dogearMessage/v1"]);
    }
    return out;
  };
  const auto before = prints("a: b\n", 1);
  CHECK(before == prints("# more\n\n  a: b\n", 3));
  CHECK(before != prints("a: c\n", 1));
  CHECK(before[0] != before[1]);
  CHECK(before[0] != before[2]);
  CHECK(before[0].size() == 16);
}

TEST_CASE("no bytes of a source break a report") {
  Sources sources;
  Diagnostics diagnostics;
  diagnostics.error("D002", {"b\xFF\"\\<>{}.yaml", 1, 0, 0, 0}, "\xC3 [a](b) \x1b\x01 }{ \"");
  const json run = json::parse(report_as_sarif(diagnostics, sources, facts))["runs"][0];
  const json& place = run["results"][0]["locations"][0]["physicalLocation"];
  CHECK(place["artifactLocation"]["uri"] == "b%FF%22%5C%3C%3E%7B%7D.yaml");
  CHECK(place["region"] == json{{"startLine", 1}, {"startColumn", 1}});
  CHECK(run["results"][0]["message"]["text"] == "\uFFFD \\[a\\](b) \x1b\x01 }}{{ \".");
  CHECK(json::parse(report_as_json(diagnostics, facts))["messages"].size() == 1);
}
