#pragma once
// Reads a PDF's structure through `qpdf --json` and tells which rules of PDF/UA-1 it breaks.

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace dogear::test {
using nlohmann::json;

class StructureReader {
 public:
  explicit StructureReader(const std::string& text)
      : objects_(json::parse(text).at("qpdf").at(1)) {}

  std::vector<std::string> faults() {
    const json& catalog = at(objects_.at("trailer").at("value").at("/Root").get<std::string>());
    expect(catalog.value("/Lang", "") != "", "the file has no language");
    expect(catalog.contains("/MarkInfo") && catalog["/MarkInfo"].value("/Marked", false),
           "the file is not marked as tagged");
    expect(catalog.contains("/ViewerPreferences") &&
               catalog["/ViewerPreferences"].value("/DisplayDocTitle", false),
           "the title is not displayed");
    expect(catalog.contains("/Metadata"), "there is no metadata");
    if (!catalog.contains("/StructTreeRoot")) {
      faults_.push_back("there is no structure");
      return faults_;
    }
    tree_ = &at(catalog["/StructTreeRoot"]);
    read_parents();
    for (const json& kid : kids_of(*tree_)) walk(kid, catalog["/StructTreeRoot"], {});
    for (const auto& [place, element] : parents_)
      if (!met_.contains(place)) faults_.push_back(place + " is in no element");
    check_pages();
    return faults_;
  }

 private:
  const json& at(const json& reference) const {
    const json& object = objects_.at("obj:" + reference.get<std::string>());
    return object.contains("value") ? object["value"] : object.at("stream").at("dict");
  }
  const json& resolved(const json& value) const {
    const bool refers = value.is_string() && value.get<std::string>().ends_with(" 0 R");
    return refers ? at(value) : value;
  }
  static json kids_of(const json& element) {
    if (!element.contains("/K")) return json::array();
    return element["/K"].is_array() ? element["/K"] : json::array({element["/K"]});
  }
  void expect(bool good, const std::string& fault) {
    if (!good) faults_.push_back(fault);
  }

  // "3 0 R/7" for marked content 7 of page 3, "9 0 R" for an annotation -> its element.
  void read_parents() {
    std::map<int, std::string> pages, annotations;
    for (const auto& [name, object] : objects_.items()) {
      if (!object.contains("value") || !object["value"].is_object()) continue;
      const std::string id = name.substr(std::min<std::size_t>(4, name.size()));
      const json& value = object["value"];
      if (value.contains("/StructParents")) pages[value["/StructParents"].get<int>()] = id;
      if (value.contains("/StructParent")) annotations[value["/StructParent"].get<int>()] = id;
    }
    const json& numbers = resolved(tree_->at("/ParentTree")).at("/Nums");
    for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) {
      const int number = numbers[i].get<int>();
      const json& value = numbers[i + 1];
      if (value.is_array()) {
        for (std::size_t mark = 0; mark < value.size(); ++mark)
          parents_[pages.at(number) + '/' + std::to_string(mark)] = value[mark];
      } else {
        parents_[annotations.at(number)] = value;
      }
    }
  }

  void meet(const std::string& place, const std::string& element) {
    expect(met_.insert(place).second, place + " is in two elements");
    expect(parents_.contains(place) && parents_[place] == element,
           place + " does not lead back to its element");
  }

  void walk(const json& reference, const std::string& parent, std::vector<std::string> path) {
    const std::string id = reference;
    const json& element = at(reference);
    expect(element.value("/P", "") == parent, id + " has another parent");
    const std::string name = element.at("/S").get<std::string>().substr(1);
    path.push_back(name);
    static const std::set<std::string> standard{
        "Document", "Sect",  "P",  "H1", "H2", "H3",      "L",    "LI",     "Lbl",
        "LBody",    "Table", "TR", "TH", "TD", "Caption", "Note", "Figure", "Link"};
    expect(standard.contains(name), name + " is no standard type");
    check_element(id, name, element, path);
    for (const json& kid : kids_of(element)) {
      if (kid.is_string()) {
        walk(kid, id, path);
      } else if (kid.is_number()) {
        meet(element.at("/Pg").get<std::string>() + '/' + std::to_string(kid.get<int>()), id);
      } else if (kid.at("/Type") == "/MCR") {
        meet(kid.at("/Pg").get<std::string>() + '/' + std::to_string(kid.at("/MCID").get<int>()),
             id);
      } else {
        meet(kid.at("/Obj"), id);
        linked_.insert(kid.at("/Obj").get<std::string>());
        expect(at(kid.at("/Obj")).value("/Contents", "").size() > 2, id + " links without words");
      }
    }
  }

  void check_element(const std::string& id, const std::string& name, const json& element,
                     const std::vector<std::string>& path) {
    const json attributes = element.contains("/A") ? resolved(element["/A"]) : json::object();
    const std::string above = path.size() > 1 ? path[path.size() - 2] : "";
    if (name == "Figure") {
      expect(element.value("/Alt", "").size() > 2, id + " is a figure without words");
      expect(attributes.contains("/BBox"), id + " is a figure without a box");
    }
    if (name == "TH") expect(attributes.value("/Scope", "") == "/Column", id + " heads nothing");
    if (name == "TH" || name == "TD") expect(above == "TR", id + " is a cell in no row");
    if (name == "TR") expect(above == "Table", id + " is a row in no table");
    if (name == "LI") expect(above == "L", id + " is an item in no list");
    if (name == "Lbl" || name == "LBody") expect(above == "LI", id + " is in no item");
    if (name == "Note") expect(element.value("/ID", "") != "", id + " is a note without a name");
    if (name == "Table") {
      std::set<std::size_t> widths;
      for (const json& row : kids_of(element)) widths.insert(kids_of(at(row)).size());
      expect(widths.size() == 1, id + " is a table with rows of different lengths");
    }
    if (name == "L" && has_labels(element))
      expect(attributes.contains("/ListNumbering"), id + " does not say how its items are counted");
    if (name[0] == 'H' && name.size() == 2) {
      const int level = name[1] - '0';
      expect(level <= heading_ + 1, id + " leaves out a level of headings");
      heading_ = level;
    }
  }

  bool has_labels(const json& list) const {
    for (const json& item : kids_of(list))
      for (const json& part : kids_of(at(item)))
        if (part.is_string() && at(part).at("/S") == "/Lbl") return true;
    return false;
  }

  void check_pages() {
    for (const auto& [name, object] : objects_.items()) {
      if (!object.contains("value") || !object["value"].is_object()) continue;
      const json& page = object["value"];
      if (page.value("/Type", "") != "/Page") continue;
      expect(page.value("/Tabs", "") == "/S", name + " is not walked in the order of structure");
      if (!page.contains("/Annots")) continue;
      for (const json& annotation : resolved(page["/Annots"]))
        expect(linked_.contains(annotation.get<std::string>()),
               annotation.get<std::string>() + " is an annotation in no link");
    }
  }

  const json objects_;
  const json* tree_ = nullptr;
  std::map<std::string, std::string> parents_;
  std::set<std::string> met_, linked_;
  int heading_ = 0;
  std::vector<std::string> faults_;
};

// One line a fault. `json` is what `qpdf --json=2 --json-key=qpdf FILE` prints.
inline std::vector<std::string> structure_faults(const std::string& text) {
  return StructureReader(text).faults();
}

// `plain` is what `qpdf --qdf --object-streams=disable FILE -` prints: painting that is marked
// neither as a part nor as an artifact, and marks that do not close.
inline std::vector<std::string> marking_faults(const std::string& plain) {
  static const std::set<std::string> painting{"f", "f*", "B", "B*", "S", "TJ", "Do"};
  std::vector<std::string> faults;
  std::istringstream in(plain);
  std::string line, object;
  bool page = false;
  int depth = 0;
  while (std::getline(in, line)) {
    if (line.ends_with(" obj")) object = line;
    if (line.starts_with("1 0 0 -1 0 ") && line.ends_with(" cm")) page = true, depth = 0;
    if (line == "endstream") {
      if (page && depth != 0) faults.push_back(object + " leaves a mark open");
      page = false;
    }
    if (!page) continue;
    const std::string op = line.substr(line.rfind(' ') + 1);
    if (op == "BDC" || op == "BMC") ++depth;
    if (op == "EMC") --depth;
    if (depth < 0 || depth > 1) faults.push_back(object + " nests its marks");
    if (painting.contains(op) && depth == 0) faults.push_back(object + " paints unmarked: " + line);
  }
  return faults;
}

}  // namespace dogear::test
