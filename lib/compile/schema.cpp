#include "compile/schema.h"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

#include "base/length_pattern.h"
#include "base/text.h"
#include "booklet/keys.h"
#include "model/keys.h"
#include "source/node.h"
#include "words/keys.h"
#include "words/words.h"

namespace dogear {

namespace {

using Json = nlohmann::ordered_json;
using ValueKind = Value::Kind;

const char* const something = "[^ \\t\\r\\n]";

std::optional<long long> whole(const std::string& text) {
  long long value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

// A text of a table as an editor would have it.
Json scalar(const Node& node) {
  if (!node.quoted) {
    if (const auto number = whole(node.text)) return *number;
  }
  return node.text;
}

Json json_of(const Node& node) {
  if (node.kind == Node::Kind::map) {
    Json out = Json::object();
    for (const Entry& e : node.entries) out[e.key] = json_of(e.node());
    return out;
  }
  if (node.kind == Node::Kind::list) {
    Json out = Json::array();
    for (const Node& item : node.items) out.push_back(json_of(item));
    return out;
  }
  return scalar(node);
}

// What a key of a table gives as its example or default.
Json written(const std::string& yaml) {
  Diagnostics none;
  const auto root = read_yaml("example", "key: " + yaml + "\n", none);
  return root ? json_of(root->entries.front().node()) : Json(yaml);
}

void collect(const Value& value, std::vector<const KeyTable*>& out) {
  if (value.kind == ValueKind::map) {
    const KeyTable& table = value.table();
    if (std::find(out.begin(), out.end(), &table) != out.end()) return;
    out.push_back(&table);
    for (const Key& key : table.keys) collect(key.value, out);
  }
  for (const Value& part : value.of) collect(part, out);
}

Json schema(const Value& value);

Json choices(const Value& value) {
  Json words = Json::array();
  for (const std::string& word : value.choices) {
    words.push_back(word);
    if (const auto number = whole(word)) words.push_back(*number);
  }
  for (const auto& [spelling, word] : value.also) words.push_back(spelling);
  return {{"enum", std::move(words)}};
}

// As a number, and as a text that might be one.
Json number(const Value& value) {
  const bool is_whole = value.kind == ValueKind::whole;
  Json limits{{"type", is_whole ? "integer" : "number"}};
  if (!value.least.empty()) limits["minimum"] = std::stoll(value.least);
  if (!value.most.empty()) limits["maximum"] = std::stoll(value.most);
  Json spelled{{"type", "string"}, {"pattern", is_whole ? "^-?[0-9]+$" : "^[^A-Za-z]+$"}};
  return {{"anyOf", Json::array({std::move(limits), std::move(spelled)})}};
}

Json text(const Value& value) {
  if (!value.pattern.empty()) return {{"type", "string"}, {"pattern", value.pattern}};
  Json out{{"type", Json::array({"string", "number", "boolean"})}};
  if (!value.may_be_empty) out["pattern"] = something;
  return out;
}

Json list(const Value& value) {
  Json out{{"type", "array"},
           {"items", schema(value.of.front())},
           {"minItems", std::max<std::size_t>(value.count, 1)}};
  if (value.count > 0) out["maxItems"] = value.count;
  return out;
}

Json named(const Value& value) {
  Json out{{"type", "object"}, {"additionalProperties", schema(value.of.front())}};
  if (!value.pattern.empty()) out["propertyNames"] = Json{{"pattern", value.pattern}};
  if (!value.may_be_empty) out["minProperties"] = 1;
  return out;
}

Json schema(const Value& value) {
  switch (value.kind) {
    case ValueKind::length:
      return {{"type", "string"}, {"pattern", length_pattern()}};
    case ValueKind::whole:
    case ValueKind::number:
      return number(value);
    case ValueKind::yes:
      return {{"enum", Json::array({"yes", "no", true, false})}};
    case ValueKind::choice:
      return choices(value);
    case ValueKind::colour:
      return {{"type", "string"},
              {"pattern", value.short_form ? "^#([0-9A-Fa-f]{3}){1,2}$" : "^#[0-9A-Fa-f]{6}$"}};
    case ValueKind::list:
      return list(value);
    case ValueKind::map:
      return {{"$ref", "#/$defs/" + value.table().id}};
    case ValueKind::named:
      return named(value);
    case ValueKind::either: {
      Json all = Json::array();
      for (const Value& one : value.of) all.push_back(schema(one));
      return {{"anyOf", std::move(all)}};
    }
    case ValueKind::text:
      break;
  }
  return text(value);
}

// What it is for, its limits and its default, to be shown where a key is pointed at.
std::string described(const Key& key) {
  std::string out = capital(key.words) + '.';
  if (key.value.kind == ValueKind::length && !key.value.least.empty()) {
    out += " From " + key.value.least + " to " + key.value.most + '.';
  }
  if (!key.otherwise.words.empty()) out += " Left out: " + key.otherwise.words + '.';
  return out;
}

Json schema(const KeyTable& table) {
  Json out{{"title", table.title}, {"description", table.words}, {"type", "object"}};
  Json properties = Json::object();
  Json needed = Json::array();
  for (const Key& key : table.keys) {
    Json property = schema(key.value);
    property["description"] = described(key);
    const std::string& otherwise = key.otherwise.value;
    if (!otherwise.empty())
      property["default"] =
          key.value.kind == ValueKind::whole ? written(otherwise) : Json(otherwise);
    property["examples"] = Json::array({written(key.example)});
    properties[key.name] = std::move(property);
    if (key.needed) needed.push_back(key.name);
  }
  out["properties"] = std::move(properties);
  if (!needed.empty()) out["required"] = std::move(needed);
  if (!table.groups.empty()) {
    Json any = Json::array();
    for (const auto& group : table.groups) any.push_back(Json{{"required", group}});
    out["anyOf"] = std::move(any);
  }
  out["additionalProperties"] = false;
  return out;
}

}  // namespace

const std::vector<SourceKind>& source_kinds() {
  static const std::vector<SourceKind> kinds{
      {"pattern", "pattern.yaml", keys::pattern},
      {"block", "blocks/NAME.yaml", keys::block},
      {"template", "templates (letter.yaml, your own)", keys::template_file},
      {"words", "files of words alone (words-en.yaml)", keys::words_file}};
  return kinds;
}

const SourceKind* find_source_kind(std::string_view name) {
  for (const SourceKind& kind : source_kinds()) {
    if (kind.name == name) return &kind;
  }
  return nullptr;
}

std::string list_source_kinds() {
  std::string out;
  for (const SourceKind& kind : source_kinds()) {
    out += kind.name + std::string(10 - kind.name.size(), ' ') + kind.files + '\n';
  }
  return out;
}

std::vector<const KeyTable*> tables_of(const SourceKind& kind) {
  std::vector<const KeyTable*> out;
  collect(keys::map(kind.table), out);
  return out;
}

std::string schema_of(const SourceKind& kind) {
  Json out{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
           {"$id", "urn:dogear:" + kind.name}};
  out.update(schema(kind.table()));
  Json definitions = Json::object();
  for (const KeyTable* table : tables_of(kind)) {
    if (table != &kind.table()) definitions[table->id] = schema(*table);
  }
  if (!definitions.empty()) out["$defs"] = std::move(definitions);
  return out.dump(2) + '\n';
}

}  // namespace dogear
