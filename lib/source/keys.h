#pragma once
// Tables of the keys that source files may have. The strict reader reads from them; JSON Schemas
// and the manual's reference are printed from them.
//
// Defaults, limits and examples stand as a designer writes them: `1/4 in`, `no`, `[light, dark]`.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace dogear {

struct KeyTable;

// What may stand behind a key.
struct Value {
  enum class Kind {
    text,    // some words or a number
    length,  // with its unit
    whole,   // a whole number
    number,  // a number that may have a fraction
    yes,     // `yes` or `no`
    choice,  // one of some words
    colour,  // "#1b2a49"
    list,    // of one kind of value, never empty
    map,     // with the keys of a table
    named,   // a map whose keys are names of the author's own
    either   // one of several kinds of value
  };
  Kind kind = Kind::text;
  std::string least = {}, most = {};      // length, whole, number; "": no limit
  std::string said = {};                  // "a grid point": what it is, where the kind says little
  std::string noun = {};                  // "fabric" where a text names one; "kind of corner"
  std::vector<std::string> choices = {};  // choice
  std::vector<std::pair<std::string, std::string>> also = {};  // choice: another spelling of one
  std::string pattern = {};    // text and named: an expression that all texts (names) match
  std::vector<Value> of = {};  // list, named: one; either: all
  std::size_t count = 0;       // list: exactly so many; 0: one at least
  bool short_form = false;     // colour: "#fff" will do
  bool may_be_empty = false;   // text, named
  const KeyTable& (*table)() = nullptr;  // map
};

// What holds where a key is left out: a value, or words where it is computed; neither: nothing.
struct Otherwise {
  std::string value = {};
  std::string words = {};
};

struct Key {
  std::string name;
  Value value;
  bool needed = false;
  Otherwise otherwise = {};
  std::string example;
  std::string words;  // one line for people
};

struct KeyTable {
  std::string id;     // "hanging-sleeve"
  std::string what;   // "a hanging sleeve": begins the messages of the reader
  std::string title;  // "Hanging sleeve"
  std::string words;  // where it stands and what it is for
  std::vector<Key> keys;
  // One of these groups is written whole; empty where `needed` says all.
  std::vector<std::vector<std::string>> groups = {};

  const Key* find(std::string_view name) const;  // nullptr where there is none
};

namespace keys {

Value text(std::string pattern = {});
Value said(std::string words, Value value);
Value any_text();  // may be empty
Value name_of(std::string noun);
Value length(std::string least = {}, std::string most = {});
Value whole(std::string least, std::string most);
Value number(std::string least, std::string most);
Value yes();
Value choice(std::string noun, std::vector<std::string> words,
             std::vector<std::pair<std::string, std::string>> also = {});
Value colour(bool short_form = false);
Value list(Value of, std::size_t count = 0);
Value map(const KeyTable& (*table)());
// `noun`: what the names are names of; `pattern`: which may be chosen, "" all.
Value named(std::string noun, Value of, std::string pattern = {}, bool may_be_empty = false);
Value either(std::vector<Value> of);

Key need(std::string name, Value value, std::string example, std::string words);
// `otherwise` is the default; `none` and `computed` say that there is no such value.
Key may(std::string name, Value value, std::string otherwise, std::string example,
        std::string words);
Key may(std::string name, Value value, Otherwise otherwise, std::string example, std::string words);
inline const Otherwise none;
Otherwise computed(std::string words);

// Small letters, digits and hyphens.
inline const std::string slug_pattern = "^([a-z0-9]+(-[a-z0-9]+)*)?$";

}  // namespace keys

}  // namespace dogear
