// The tables of keys: what they say is what is read, and their schemas refuse nothing that is.

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>

#include "booklet/keys.h"
#include "booklet/template.h"
#include "case.h"
#include "compile/schema.h"
#include "key_places.h"
#include "model/keys.h"
#include "model/pattern.h"
#include "model/reader.h"
#include "support/pattern_files.h"
#include "support/project.h"
#include "words/keys.h"

using namespace dogear;
using namespace dogear::test;

namespace fs = std::filesystem;

namespace {

const fs::path root = test::project_folder();
const fs::path tests_here = root / "tests" / "patterns";

// A file of keys/, and what reads it.
struct Sample {
  std::string kind, folder, file, read_as;  // read_as: the template that is loaded
};

const std::vector<Sample> samples{{"pattern", "garden", "pattern.yaml", ""},
                                  {"block", "garden", "blocks/star.yaml", ""},
                                  {"pattern", "hedge", "pattern.yaml", ""},
                                  {"block", "hedge", "blocks/bed.yaml", ""},
                                  {"block", "hedge", "blocks/cloth.yaml", ""},
                                  {"block", "hedge", "blocks/ready.yaml", ""},
                                  {"block", "hedge", "blocks/hexagon.yaml", ""},
                                  {"template", "house", "house.yaml", "house.yaml"},
                                  {"template", "house", "studio.yaml", "studio.yaml"},
                                  {"words", "house", "own-words.yaml", "studio.yaml"}};

// What the reader says of a sample whose file holds something else.
std::string errors_of(const Sample& sample, const Json& instead) {
  static std::map<std::string, PatternFiles> folders;
  PatternFiles& files = folders[sample.folder];
  if (files.content.empty()) files.add(tests_here / "keys" / sample.folder, sample.folder);
  const std::string path = sample.folder + '/' + sample.file;
  const std::string before = files.content.at(path);
  files.content[path] = instead.dump();
  Diagnostics diagnostics;
  Sources sources;
  if (sample.read_as.empty()) {
    load_pattern(sample.folder, files, sources, diagnostics);
  } else {
    load_template(sample.folder + '/' + sample.read_as, "en", files, diagnostics);
  }
  files.content[path] = before;
  std::string out;
  for (const Diagnostic& d : diagnostics.all()) {
    if (d.severity == Severity::error) out += d.code + ' ' + d.message + '\n';
  }
  return out;
}

struct Place {
  const Sample* sample;
  const KeyTable* table;
  Json::json_pointer at;
};

Json read_sample(const Sample& sample) {
  return read_texts(whole_file(tests_here / "keys" / sample.folder / sample.file));
}

std::vector<Place> all_places() {
  std::vector<Place> out;
  for (const Sample& sample : samples) {
    std::vector<KeyPlace> found;
    find_places(keys::map(find_source_kind(sample.kind)->table), read_sample(sample),
                Json::json_pointer(), found);
    for (const KeyPlace& place : found) out.push_back({&sample, place.table, place.at});
  }
  return out;
}

bool is_words(const KeyTable& table) {
  return &table == &keys::words() || &table == &keys::all_words();
}

std::set<const KeyTable*> all_tables() {
  std::set<const KeyTable*> out;
  for (const SourceKind& kind : source_kinds()) {
    for (const KeyTable* table : tables_of(kind)) out.insert(table);
  }
  return out;
}

// Where keys exclude each other: the map with those that go with this one, and without the others.
Json with_its_group(Json map, const KeyTable& table, const Key& key) {
  const auto group = std::find_if(table.groups.begin(), table.groups.end(), [&](const auto& g) {
    return std::find(g.begin(), g.end(), key.name) != g.end();
  });
  if (group == table.groups.end()) return map;
  for (const auto& other : table.groups) {
    for (const std::string& name : other) {
      if (std::find(group->begin(), group->end(), name) == group->end()) map.erase(name);
    }
  }
  for (const std::string& name : *group) {
    if (!map.contains(name)) map[name] = example_of(*table.find(name));
  }
  return map;
}

// Maps that have been spoilt in one place.
struct Spoilt {
  Json map;
  std::string how;
  bool surely = false;  // the schema must refuse it
};

std::vector<Spoilt> spoilt(const Json& map, const KeyTable& table) {
  std::vector<Spoilt> out;
  out.push_back({map, "another key", true});
  out.back().map["zigzag"] = "1";
  const std::vector<Json> values{
      "zigzag", "",        Json::array(), Json::array({"zigzag"}), Json{{"zigzag", "zigzag"}}, "7",
      nullptr,  "#ffffff", "2 in"};
  for (const Key& key : table.keys) {
    if (map.contains(key.name)) {
      Spoilt less{map, "without " + key.name, key.needed};
      less.map.erase(key.name);
      out.push_back(std::move(less));
    }
    for (const Json& value : values) {
      Spoilt other{map, key.name + ": " + value.dump(), false};
      other.map[key.name] = value;
      out.push_back(std::move(other));
    }
  }
  return out;
}

const std::vector<std::string> lengths{"2½in",
                                       "5/2 in",
                                       "2 1⁄2 inches",
                                       "  2 1/2 in ",
                                       "2½″",
                                       "2½”",
                                       "20 1/2 IN",
                                       "30 in.",
                                       "2 2/4 inch",
                                       "2 1 / 2 in",
                                       "2\u00A01/2\u00A0in",
                                       "2\u20091\u20442 in",
                                       "2\u20111/2 in",
                                       "6.5 cm",
                                       ".5 in",
                                       "65 mm",
                                       "1⅛ yards",
                                       "2'",
                                       "2 ft.",
                                       "2 Feet",
                                       "½ yd",
                                       "7-1/2\"",
                                       "2 in 3",
                                       "2",
                                       "two in",
                                       "2..5 in",
                                       "40 centimeters",
                                       "3 Yds",
                                       "1\t1/2 in",
                                       "6,5 cm",
                                       "1/2/3 in"};

Json batch() {
  Json out{{"schemas", Json::object()}, {"maps", Json::array()}, {"files", Json::array()}};
  for (const SourceKind& kind : source_kinds())
    out["schemas"][kind.name] = Json::parse(schema_of(kind));
  const auto add = [&](const Sample& sample, const KeyTable& table, const Json::json_pointer& at,
                       const Json& map, const std::string& how, bool surely) {
    Json whole = read_sample(sample);
    whole[at] = map;
    const std::string errors = errors_of(sample, whole);
    const bool own = &table == &find_source_kind(sample.kind)->table();
    out["maps"].push_back({{"kind", sample.kind},
                           {"table", own ? "" : table.id},
                           {"value", map},
                           {"how", how},
                           {"surely refused", surely},
                           {"errors", errors}});
  };
  constexpr int most_times = 2;  // that maps of one kind are spoilt
  std::map<const KeyTable*, int> times;
  for (const Place& place : all_places()) {
    const Json map = read_sample(*place.sample)[place.at];
    add(*place.sample, *place.table, place.at, map, "as it is", false);
    if (is_words(*place.table)) continue;
    if (++times[place.table] > most_times) continue;
    for (const Spoilt& other : spoilt(map, *place.table))
      add(*place.sample, *place.table, place.at, other.map, other.how, other.surely);
    if (place.table->id != "backing") continue;
    for (const std::string& length : lengths)
      add(*place.sample, *place.table, place.at, {{"extra", length}}, length, false);
  }
  return out;
}

void add_file(Json& out, const std::string& kind, const std::string& text, const fs::path& path) {
  out["files"].push_back({{"kind", kind}, {"text", text}, {"path", path.string()}});
}

void add_pattern(Json& out, const fs::path& folder) {
  add_file(out, "pattern", whole_file(folder / "pattern.yaml"), folder);
  for (const auto& block : fs::directory_iterator(folder / "blocks"))
    add_file(out, "block", whole_file(block.path()), block.path());
}

void add_shipped(Json& out) {
  for (const fs::path& all : {root / "patterns", tests_here / "base"}) {
    for (const auto& folder : fs::directory_iterator(all)) {
      if (fs::exists(folder.path() / "pattern.yaml")) add_pattern(out, folder.path());
    }
  }
  for (const auto& file : fs::directory_iterator(root / "templates")) {
    const bool words = starts_with(file.path().filename().string(), "words-");
    add_file(out, words ? "words" : "template", whole_file(file.path()), file.path());
  }
}

// The cases that the strict reader takes; what is wrong with them comes later.
void add_cases(Json& out) {
  for (const auto& entry : fs::directory_iterator(tests_here / "cases")) {
    const Case read = read_case(whole_file(entry.path()), (tests_here / "base").string());
    PatternFiles files;
    for (const auto& [name, text] : read.files) files.content[case_folder + '/' + name] = text;
    Diagnostics diagnostics;
    Sources sources;
    const auto pattern = load_pattern(case_folder, files, sources, diagnostics);
    if (!pattern) continue;
    for (const std::string& path : pattern->files) {
      if (path.ends_with("/pattern.yaml"))
        add_file(out, "pattern", files.content.at(path), entry.path());
      if (path.find("/blocks/") != std::string::npos && path.ends_with(".yaml"))
        add_file(out, "block", files.content.at(path), entry.path());
    }
  }
}

}  // namespace

TEST_CASE("the reader never asks for a key that its table lacks") {
  Node node;
  node.kind = Node::Kind::map;
  Diagnostics diagnostics;
  MapReader map(node, keys::batting(), diagnostics);
  CHECK(map.may("extra") == nullptr);
  CHECK_THROWS_AS(map.may("more"), std::logic_error);
  CHECK_THROWS_AS(map.length("more"), std::logic_error);
}

TEST_CASE("the samples are sound and hold every kind of map") {
  std::set<const KeyTable*> met;
  for (const Place& place : all_places()) met.insert(place.table);
  for (const KeyTable* table : all_tables()) {
    CAPTURE(table->id);
    CHECK(met.contains(table));
  }
  for (const Sample& sample : samples) CHECK(errors_of(sample, read_sample(sample)) == "");
}

TEST_CASE("every example of the reference is read without error") {
  const std::vector<Place> places = all_places();
  for (const KeyTable* table : all_tables()) {
    if (is_words(*table)) continue;  // the next test
    for (const Key& key : table->keys) {
      std::string errors = "no sample has this map";
      for (const Place& place : places) {
        if (place.table != table) continue;
        Json whole = read_sample(*place.sample);
        whole[place.at][key.name] = example_of(key);
        errors = errors_of(*place.sample, whole);
        if (errors.empty()) break;
        whole[place.at] = with_its_group(whole[place.at], *table, key);
        errors = errors_of(*place.sample, whole);
        if (errors.empty()) break;
      }
      INFO(table->id << ", " << key.name << ": " << key.example);
      CHECK(errors == "");
    }
  }
}

TEST_CASE("every text of the words is read") {
  const Sample& sample = samples.back();
  Json whole = read_sample(sample);
  for (const Key& key : keys::words().keys) whole["words"][key.name] = key.example;
  CHECK(errors_of(sample, whole) == "");
}

TEST_CASE("a pattern that says nothing has the defaults of the tables") {
  const Pattern fresh;
  Node empty;
  empty.kind = Node::Kind::map;
  Diagnostics d;
  MapReader map(empty, keys::pattern(), d);
  CHECK(map.length("tolerance") == fresh.tolerance);
  CHECK(map.length("top tolerance") == fresh.top_tolerance);
  CHECK(map.length("bolt") == fresh.bolt);
  CHECK(map.length("usable width") == Exact(42));
  CHECK(map.length("seam allowance") == Exact::ratio(1, 4));
  MapReader cloth(empty, keys::allowances(), d);
  CHECK(cloth.length("squaring up") == fresh.allowances.squaring);
  CHECK(cloth.length("strip ends") == fresh.allowances.strip_ends);
  CHECK(cloth.length("strip set ends") == fresh.allowances.set_ends);
  CHECK(cloth.length("joined strips") == fresh.allowances.joined);
  CHECK(cloth.choice("round up to") == std::size_t{0});
  CHECK(fresh.allowances.yard_parts == 8);
  CHECK(cloth.choice("metric up to") == std::size_t{0});
  CHECK(fresh.allowances.centimetre_step == 5);
  MapReader cleat(empty, keys::backing(), d);
  CHECK(cleat.length("extra") == Exact(8));
  CHECK_FALSE(d.has_errors());
}

TEST_CASE("the schemas are sound, and refuse nothing that the reader takes") {
  Json all = batch();
  add_shipped(all);
  add_cases(all);
  REQUIRE(all["files"].size() > 300);
  const fs::path folder = fs::temp_directory_path() / "dogear-keys-test";
  fs::create_directories(folder);
  const fs::path file = folder / "batch.json";
  std::ofstream(file) << all.dump();
  const std::string command =
      "python3 " + (tests_here / "validate_keys.py").string() + " " + file.string();
  CHECK(std::system(command.c_str()) == 0);
  fs::remove_all(folder);
}

TEST_CASE("the manual's reference is that of the tables") {
  INFO("renew it: `dogear schema --as markdown >tools/dogear/manual/keys.md`");
  CHECK(whole_file(root / "tools/dogear/manual/keys.md") == keys_as_markdown());
}
