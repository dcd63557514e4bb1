#include <set>

#include "base/text.h"
#include "compile/schema.h"
#include "model/keys.h"
#include "words/keys.h"
#include "words/words.h"

namespace dogear {

namespace {

using ValueKind = Value::Kind;

std::string code(const std::string& text) {
  std::string out = "`";
  out += text;
  return out += '`';
}

// "`a`, `b` or `c`"
std::string any_of(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += words[i];
  }
  return out;
}

std::string link(const KeyTable& table) {
  return "[" + lower(table.title) + "](#" + slug(table.title) + ")";
}

std::string within(const Value& value) {
  return value.least.empty() ? "" : " from " + value.least + " to " + value.most;
}

std::string in_words(const Value& value);

// The words that may be chosen, and all else that may stand there.
std::vector<std::string> kinds(const Value& value) {
  if (value.kind != ValueKind::choice && value.kind != ValueKind::either) return {in_words(value)};
  std::vector<std::string> out;
  for (const std::string& word : value.choices) out.push_back(code(word));
  for (const Value& one : value.of) {
    for (std::string& words : kinds(one)) out.push_back(std::move(words));
  }
  return out;
}

std::string in_words(const Value& value) {
  if (!value.said.empty()) return value.said;
  switch (value.kind) {
    case ValueKind::length:
      return "a length" + within(value);
    case ValueKind::whole:
      return "a whole number" + within(value);
    case ValueKind::number:
      return "a number" + within(value);
    case ValueKind::yes:
      return "`yes` or `no`";
    case ValueKind::choice:
      return any_of(kinds(value));
    case ValueKind::colour:
      return "a colour";
    case ValueKind::list:
      return "a list, each " + in_words(value.of.front());
    case ValueKind::map:
      return "a map: " + link(value.table());
    case ValueKind::named:
      return "a map of " + value.noun + "s by name, each " + in_words(value.of.front());
    case ValueKind::either:
      return any_of(kinds(value));
    case ValueKind::text:
      break;
  }
  return value.noun.empty() ? "a text" : "the name of a " + value.noun;
}

std::string otherwise(const Key& key) {
  if (key.needed) return "must be there";
  if (!key.otherwise.value.empty()) return code(key.otherwise.value);
  return key.otherwise.words.empty() ? "none" : key.otherwise.words;
}

std::string groups_in_words(const KeyTable& table) {
  if (table.groups.empty()) return "";
  std::vector<std::string> groups;
  for (const auto& group : table.groups) {
    std::vector<std::string> names;
    for (const std::string& name : group) names.push_back(code(name));
    groups.push_back(join(names, " with "));
  }
  return "It has " + any_of(groups) + ".\n\n";
}

std::string section(const KeyTable& table) {
  std::string out = "### " + table.title + "\n\n" + table.words + "\n\n" + groups_in_words(table);
  out += "| key | what it is | value | without it | example |\n|---|---|---|---|---|\n";
  std::vector<std::string> further;  // of a block, told with its units
  for (const Key& key : table.keys) {
    const Key* other = keys::unit().find(key.name);
    if (&table == &keys::block() && other != nullptr && other->words == key.words) {
      further.push_back(code(key.name));
      continue;
    }
    out += "| " + code(key.name) + " | " + key.words + " | " + in_words(key.value) + " | " +
           otherwise(key) + " | " + code(key.name + ": " + key.example) + " |\n";
  }
  if (!further.empty()) {
    out += "\nAnd those of a " + link(keys::unit()) + ": " + join(further, ", ") + ".\n";
  }
  return out + '\n';
}

}  // namespace

std::string keys_as_markdown() {
  std::string out =
      "# All keys\n\n"
      "Every key that dogear reads, with what may stand there and an example. "
      "[The language](language.md) and\n[templates](templates.md) tell how they work together. The "
      "page is written by\n`dogear schema --as markdown` from the tables that the reader itself "
      "uses; a test compares the two\nand compiles every example.\n\n"
      "A length is written with its unit, as the trade does: `2 1/2 in`, `2½ in`, `6.5 cm`, `1 1/8 "
      "yd`, `2 ft`,\n`40 mm`. A colour is a # and six signs 0-9 or a-f, in quotes. A text with a "
      "colon or a # needs quotes.\n\n"
      "## In an editor\n\n"
      "`dogear schema pattern` prints a JSON Schema (draft 2020-12) of pattern.yaml, `dogear "
      "schema "
      "block` of a\nblock's file, `template` and `words` of templates. Editors with a language "
      "server for YAML then complete\nkeys, explain them where they are pointed at, and underline "
      "what is misspelt. Write the schemas once,\n\n"
      "    dogear schema pattern > pattern.schema.json\n"
      "    dogear schema block > block.schema.json\n\n"
      "and name them in the first line of each file, by the path from that file:\n\n"
      "    # yaml-language-server: $schema=pattern.schema.json\n\n"
      "The schema takes all that dogear takes. What it cannot know, such as whether a fabric of "
      "that name is there,\n`dogear check` tells.\n\n";
  std::set<const KeyTable*> told;
  for (const SourceKind& kind : source_kinds()) {
    std::string sections;
    for (const KeyTable* table : tables_of(kind)) {
      if (table != &keys::words() && table != &keys::all_words() && told.insert(table).second)
        sections += section(*table);
    }
    out += "## " + capital(kind.name) + " files\n\n" + sections;
  }
  out +=
      "### Words\n\n"
      "The keys of `words` are those of\n[templates/words-en.yaml](../../../templates/"
      "words-en.yaml), each with a text.\n";
  return out;
}

}  // namespace dogear
