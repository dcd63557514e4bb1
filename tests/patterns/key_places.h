#pragma once
// Where the maps of a source file stand, and what kind of map each is.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "source/keys.h"
#include "source/node.h"

namespace dogear::test {

using Json = nlohmann::ordered_json;

// Every scalar becomes a text, as the compiler has it.
inline Json as_texts(const Node& node) {
  switch (node.kind) {
    case Node::Kind::map: {
      Json out = Json::object();
      for (const Entry& e : node.entries) out[e.key] = as_texts(e.node());
      return out;
    }
    case Node::Kind::list: {
      Json out = Json::array();
      for (const Node& item : node.items) out.push_back(as_texts(item));
      return out;
    }
    case Node::Kind::scalar:
      return node.text;
    case Node::Kind::null:
      break;
  }
  return nullptr;
}

inline Json read_texts(const std::string& yaml) {
  Diagnostics none;
  const auto root = read_yaml("texts", yaml, none);
  return root ? as_texts(*root) : Json();
}

// What a key's example gives.
inline Json example_of(const Key& key) { return read_texts("key: " + key.example + "\n")["key"]; }

struct KeyPlace {
  const KeyTable* table;
  Json::json_pointer at;
};

inline void find_places(const Value& value, const Json& json, const Json::json_pointer& at,
                        std::vector<KeyPlace>& out) {
  switch (value.kind) {
    case Value::Kind::map:
      if (!json.is_object()) return;
      out.push_back({&value.table(), at});
      for (const Key& key : value.table().keys) {
        if (json.contains(key.name)) find_places(key.value, json[key.name], at / key.name, out);
      }
      return;
    case Value::Kind::named:
      if (!json.is_object()) return;
      for (const auto& [name, item] : json.items())
        find_places(value.of.front(), item, at / name, out);
      return;
    case Value::Kind::list:
      if (!json.is_array()) return;
      for (std::size_t i = 0; i < json.size(); ++i)
        find_places(value.of.front(), json[i], at / i, out);
      return;
    case Value::Kind::either:
      for (const Value& one : value.of) find_places(one, json, at, out);
      return;
    default:
      return;
  }
}

}  // namespace dogear::test
