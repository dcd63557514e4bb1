#include "source/keys.h"

#include <algorithm>

namespace dogear {

const Key* KeyTable::find(std::string_view name) const {
  const auto found =
      std::find_if(keys.begin(), keys.end(), [&](const Key& k) { return k.name == name; });
  return found == keys.end() ? nullptr : &*found;
}

namespace keys {

namespace {

Value plain(Value::Kind kind) {
  Value v;
  v.kind = kind;
  return v;
}

Value limited(Value::Kind kind, std::string least, std::string most) {
  Value v = plain(kind);
  v.least = std::move(least);
  v.most = std::move(most);
  return v;
}

}  // namespace

Value text(std::string pattern) {
  Value v;
  v.pattern = std::move(pattern);
  return v;
}

Value said(std::string words, Value value) {
  value.said = std::move(words);
  return value;
}

Value any_text() {
  Value v;
  v.may_be_empty = true;
  return v;
}

Value name_of(std::string noun) {
  Value v;
  v.noun = std::move(noun);
  return v;
}

Value length(std::string least, std::string most) {
  return limited(Value::Kind::length, std::move(least), std::move(most));
}

Value whole(std::string least, std::string most) {
  return limited(Value::Kind::whole, std::move(least), std::move(most));
}

Value number(std::string least, std::string most) {
  return limited(Value::Kind::number, std::move(least), std::move(most));
}

Value yes() { return plain(Value::Kind::yes); }

Value choice(std::string noun, std::vector<std::string> words,
             std::vector<std::pair<std::string, std::string>> also) {
  Value v = plain(Value::Kind::choice);
  v.noun = std::move(noun);
  v.choices = std::move(words);
  v.also = std::move(also);
  return v;
}

Value colour(bool short_form) {
  Value v = plain(Value::Kind::colour);
  v.short_form = short_form;
  return v;
}

Value list(Value of, std::size_t count) {
  Value v = plain(Value::Kind::list);
  v.of.push_back(std::move(of));
  v.count = count;
  return v;
}

Value map(const KeyTable& (*table)()) {
  Value v = plain(Value::Kind::map);
  v.table = table;
  return v;
}

Value named(std::string noun, Value of, std::string pattern, bool may_be_empty) {
  Value v = plain(Value::Kind::named);
  v.noun = std::move(noun);
  v.of.push_back(std::move(of));
  v.pattern = std::move(pattern);
  v.may_be_empty = may_be_empty;
  return v;
}

Value either(std::vector<Value> of) {
  Value v = plain(Value::Kind::either);
  v.of = std::move(of);
  return v;
}

Key need(std::string name, Value value, std::string example, std::string words) {
  return {std::move(name), std::move(value), true, {}, std::move(example), std::move(words)};
}

Key may(std::string name, Value value, std::string otherwise, std::string example,
        std::string words) {
  return may(std::move(name), std::move(value), Otherwise{std::move(otherwise), {}},
             std::move(example), std::move(words));
}

Key may(std::string name, Value value, Otherwise otherwise, std::string example,
        std::string words) {
  return {std::move(name),      std::move(value),   false,
          std::move(otherwise), std::move(example), std::move(words)};
}

Otherwise computed(std::string words) { return {{}, std::move(words)}; }

}  // namespace keys

}  // namespace dogear
