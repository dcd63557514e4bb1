#include "model/reader.h"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "base/text.h"

namespace dogear {

namespace {

// A length of a table.
Exact inches(const std::string& text) {
  LengthError error;
  const auto length = parse_length(text, error);
  if (!length) throw std::logic_error("a table of keys has the length " + text);
  return length->inches;
}

std::optional<std::size_t> index_of(const std::vector<std::string>& words,
                                    const std::string& word) {
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<std::size_t>(found - words.begin());
}

}  // namespace

MapReader::MapReader(const Node& node, const KeyTable& table, std::string what,
                     Diagnostics& diagnostics)
    : node_(node), table_(table), what_(std::move(what)), diagnostics_(diagnostics) {
  if (node.kind == Node::Kind::map) return;
  ok_ = false;
  const auto needed =
      std::find_if(table.keys.begin(), table.keys.end(), [](const Key& k) { return k.needed; });
  diagnostics_
      .error("D103", node.span, what_ + " is written as a map of keys, not as " + node.kind_name())
      .hints.push_back(
          node.kind == Node::Kind::list
              ? "write one key a line: `name: ...`, indented under its heading"
          : needed != table.keys.end() && node.kind == Node::Kind::scalar
              ? "write it with its key: `{" + needed->name + ": " + node.text + "}`"
              : "write `{}` to take every default, or keys in braces or one a line below");
}

const Key& MapReader::key(std::string_view name) const {
  const Key* found = table_.find(name);
  if (found == nullptr) {
    throw std::logic_error("the table of " + table_.what + " lacks the key " + std::string(name));
  }
  return *found;
}

const Node* MapReader::may(std::string_view key) {
  static_cast<void>(this->key(key));
  if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) asked_.emplace_back(key);
  if (!ok_) return nullptr;
  const Entry* entry = node_.find(key);
  return entry == nullptr ? nullptr : &entry->node();
}

const Node* MapReader::need(std::string_view key) {
  const Node* found = may(key);
  if (found != nullptr || !ok_) return found;
  // Misspelt, it is told once, where it stands.
  std::vector<std::string> names;
  for (const Key& known : table_.keys) names.push_back(known.name);
  const auto meant = std::find_if(node_.entries.begin(), node_.entries.end(), [&](const Entry& e) {
    return table_.find(e.key) == nullptr && nearest(e.key, names) == key;
  });
  if (meant != node_.entries.end()) {
    unknown(*meant, names);
    asked_.push_back(meant->key);
  } else {
    diagnostics_.error("D102", node_.span, what_ + " has no `" + std::string(key) + "`")
        .hints.push_back("add a line `" + std::string(key) + ": ...`");
  }
  return found;
}

void MapReader::finish() {
  if (!ok_) return;
  std::vector<std::string> known = asked_;
  std::erase_if(known, [&](const std::string& key) { return table_.find(key) == nullptr; });
  for (const Entry& e : node_.entries)
    if (std::find(asked_.begin(), asked_.end(), e.key) == asked_.end()) unknown(e, known);
}

void MapReader::unknown(const Entry& e, std::vector<std::string> known) {
  Diagnostic& d =
      diagnostics_.error("D101", e.key_span, what_ + " has no key called `" + e.key + "`");
  const std::string near = nearest(e.key, known);
  if (!near.empty()) {
    d.hints.push_back("did you mean `" + near + "`?");
    return;
  }
  std::sort(known.begin(), known.end());
  d.hints.push_back("known keys: " + join(known, ", "));
}

std::string MapReader::text(std::string_view key) {
  return text(key, this->key(key).otherwise.value);
}

std::string MapReader::text(std::string_view key, std::string otherwise) {
  const Node* n = may(key);
  if (n == nullptr) return otherwise;
  return read_text(*n, key, diagnostics_).value_or(std::move(otherwise));
}

std::string MapReader::need_text(std::string_view key) {
  const Node* n = need(key);
  return n == nullptr ? std::string() : read_text(*n, key, diagnostics_).value_or("");
}

Exact MapReader::length(std::string_view key) {
  const std::string& otherwise = this->key(key).otherwise.value;
  return length(key, otherwise.empty() ? Exact(0) : inches(otherwise));
}

Exact MapReader::length(std::string_view key, const Exact& otherwise) {
  const Node* n = may(key);
  return n == nullptr ? otherwise : read_limited(this->key(key), *n).value_or(otherwise);
}

std::optional<Exact> MapReader::need_length(std::string_view key) {
  const Node* n = need(key);
  return n == nullptr ? std::nullopt : read_limited(this->key(key), *n);
}

std::optional<Exact> MapReader::read_limited(const Key& key, const Node& node) {
  if (key.value.least.empty()) return read_length(node, diagnostics_);
  const Exact least = inches(key.value.least);
  const Exact most = inches(key.value.most);
  const auto value = read_length(node, diagnostics_, least.is_zero());
  if (!value || (*value >= least && *value <= most)) return value;
  diagnostics_.error("D114", node.span,
                     "`" + key.name + "` must lie between " +
                         plain_inches(least.round_nearest(16)) + " and " +
                         plain_inches(most.round_nearest(16)));
  return std::nullopt;
}

long long MapReader::whole(std::string_view key) {
  const Key& k = this->key(key);
  const long long otherwise = std::stoll(k.otherwise.value);
  const Node* n = may(key);
  if (n == nullptr) return otherwise;
  return read_whole(*n, std::stoll(k.value.least), std::stoll(k.value.most), diagnostics_)
      .value_or(otherwise);
}

bool MapReader::yes(std::string_view key) {
  const bool otherwise = this->key(key).otherwise.value == "yes";
  const Node* n = may(key);
  if (n == nullptr) return otherwise;
  if (n->kind == Node::Kind::scalar && (n->text == "yes" || n->text == "no")) {
    return n->text == "yes";
  }
  diagnostics_.error("D106", n->span, "`" + std::string(key) + "` is `yes` or `no`");
  return otherwise;
}

std::optional<std::size_t> MapReader::choice(std::string_view key) {
  const Key& k = this->key(key);
  const Value& value = k.value.kind == Value::Kind::either ? k.value.of.front() : k.value;
  const auto index = [&](const std::string& text) -> std::optional<std::size_t> {
    for (const auto& [spelling, word] : value.also) {
      if (spelling == text) return index_of(value.choices, word);
    }
    return index_of(value.choices, text);
  };
  const Node* n = may(key);
  if (n == nullptr) return index(k.otherwise.value);
  const auto found = index(n->text);
  if (!found) unknown_name("D106", n->span, value.noun, n->text, value.choices, diagnostics_);
  return found;
}

std::optional<std::string> read_text(const Node& node, std::string_view what, Diagnostics& d) {
  if (node.kind == Node::Kind::scalar && !trim(node.text).empty()) return node.text;
  const std::string found = node.kind == Node::Kind::scalar ? "an empty one" : node.kind_name();
  Diagnostic& e =
      d.error("D103", node.span, "`" + std::string(what) + "` needs a text here, not " + found);
  if (node.kind == Node::Kind::null) {
    e.hints.push_back("a value that starts with # is a comment to YAML: put it in quotes");
  }
  return std::nullopt;
}

std::optional<Exact> read_length(const Node& node, Diagnostics& d, bool may_be_zero) {
  if (node.kind != Node::Kind::scalar) {
    d.error("D104", node.span, std::string("a length is needed here, not ") + node.kind_name())
        .hints.push_back("write it as the trade does: `2 1/2 in`, `2½ in` or `6.5 cm`");
    return std::nullopt;
  }
  LengthError error;
  const auto length = parse_length(node.text, error);
  if (!length) {
    d.error("D104", node.span, "`" + node.text + "` is not a length: " + error.message)
        .hints.push_back(error.hint.empty()
                             ? "write it as the trade does: `2 1/2 in`, `2½ in` or `6.5 cm`"
                             : error.hint);
    return std::nullopt;
  }
  if (length->inches.sign() < 0 || (!may_be_zero && length->inches.is_zero())) {
    d.error("D114", node.span, "this length must be more than nothing");
    return std::nullopt;
  }
  if (length->inches > Exact(10000)) {
    d.error("D114", node.span, "this length is beyond any quilt (10,000 in at most)");
    return std::nullopt;
  }
  return length->inches;
}

std::optional<long long> read_whole(const Node& node, long long least, long long most,
                                    Diagnostics& d) {
  long long value = 0;
  const std::string t = node.kind == Node::Kind::scalar ? node.text : std::string();
  const auto [end, error] = std::from_chars(t.data(), t.data() + t.size(), value);
  if (t.empty() || error != std::errc() || end != t.data() + t.size()) {
    d.error("D105", node.span, "a whole number is needed here");
    return std::nullopt;
  }
  if (value < least || value > most) {
    d.error(
        "D114", node.span,
        "this number must lie between " + std::to_string(least) + " and " + std::to_string(most));
    return std::nullopt;
  }
  return value;
}

const std::vector<Node>* read_list(const Node& node, std::string_view what, Diagnostics& d) {
  if (node.kind == Node::Kind::list && !node.items.empty()) return &node.items;
  d.error("D103", node.span,
          "`" + std::string(what) + "` needs a list" +
              (node.kind == Node::Kind::list ? std::string(" with something in it")
                                             : std::string(", not ") + node.kind_name()))
      .hints.push_back("a list is written `[one, two]`, or one item a line behind a dash");
  return nullptr;
}

void unknown_name(const std::string& code, const Span& span, std::string_view kind,
                  std::string_view name, const std::vector<std::string>& known, Diagnostics& d) {
  Diagnostic& e = d.error(
      code, span, "there is no " + std::string(kind) + " called `" + std::string(name) + "`");
  const std::string near = nearest(name, known);
  if (!near.empty()) {
    e.hints.push_back("did you mean `" + near + "`?");
  } else if (!known.empty()) {
    e.hints.push_back("known: " + join(known, ", "));
  }
}

}  // namespace dogear
