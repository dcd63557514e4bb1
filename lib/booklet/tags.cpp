#include "booklet/tags.h"

#include <kainjow/mustache.hpp>

#include "base/length.h"
#include "base/text.h"
#include "canvas/font.h"
#include "source/markdown.h"

namespace dogear {
namespace {

namespace mustache = kainjow::mustache;

std::string quoted(const std::string& name) { return join({"`", name, "`"}, ""); }

// Flat names with dots in them, which the library's own context would take apart.
class Context : public mustache::basic_context<std::string> {
 public:
  explicit Context(const TagValues& values) {
    for (const auto& [name, value] : values.values)
      data_.emplace(name, mustache::data(pretty_fractions(value)));
    for (const std::string& size : values.sizes)
      data_.emplace(size, mustache::data(size == values.size ? mustache::data::type::bool_true
                                                             : mustache::data::type::bool_false));
  }
  void push(const mustache::basic_data<std::string>*) override {}
  void pop() override {}
  const mustache::basic_data<std::string>* get(const std::string& name) const override {
    const auto found = data_.find(name);
    return found == data_.end() ? nullptr : &found->second;
  }
  const mustache::basic_data<std::string>* get_partial(const std::string&) const override {
    return nullptr;
  }

 private:
  std::map<std::string, mustache::data> data_;
};

std::string markdown_escaped(const std::string& value) {
  std::string out;
  for (const char c : value) {
    if (std::string_view("\\`*_[]<>#|!{}").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

struct Checker {
  const TagValues& values;
  Diagnostics& diagnostics;
  std::vector<bool> open;  // of each open section: is it part of this size's booklet?

  void unknown(const Tag& tag, const std::string& what, const std::vector<std::string>& known) {
    Diagnostic& e =
        diagnostics.error("D401", tag.span, "there is no " + what + " called " + quoted(tag.name));
    std::string near = nearest(tag.name, known);
    // A line of the ledger starts with its size, which a tag leaves out.
    const std::string last = tag.name.substr(tag.name.rfind(' ') + 1);
    if (near.empty() && std::find(known.begin(), known.end(), last) != known.end()) near = last;
    if (!near.empty()) {
      e.hints.push_back("did you mean " + quoted(near) + "?");
    } else if (known.size() < 12) {
      e.hints.push_back("known: " + join(known, ", "));
    }
  }

  void value(const Tag& tag) {
    if (values.values.count(tag.name) != 0) return;
    const bool shown = open.empty() || open.back();
    if (const auto other = values.elsewhere.find(tag.name); other != values.elsewhere.end()) {
      if (!shown) return;
      diagnostics
          .error("D401", tag.span,
                 "the size " + quoted(values.size) + " has no value " + quoted(tag.name))
          .hints.push_back(only_in(other->second));
      return;
    }
    std::vector<std::string> known;
    for (const auto& [name, text] : values.values) known.push_back(name);
    for (const auto& [name, sizes] : values.elsewhere) known.push_back(name);
    unknown(tag, "value", known);
  }

  void begin(const Tag& tag) {
    if (std::find(values.sizes.begin(), values.sizes.end(), tag.name) == values.sizes.end())
      unknown(tag, "size", values.sizes);
    const bool here = (tag.name == values.size) == (tag.sigil == '#');
    open.push_back(here && (open.empty() || open.back()));
  }

  void end() {
    if (!open.empty()) open.pop_back();
  }
};

}  // namespace

std::string only_in(const std::vector<std::string>& sizes) {
  const std::string& first = sizes.front();
  return "`" + join(sizes, "`, `") + (sizes.size() == 1 ? "` has it" : "` have it") +
         ": keep the words between {{#" + first + "}} and {{/" + first +
         "}}, and write others for the rest";
}

std::string pretty_fractions(std::string_view text) {
  std::string out;
  std::size_t at = 0;
  const auto number = [](const std::string& digits) {
    std::int64_t n = 0;
    for (const char c : digits) n = n * 10 + (c - '0');
    return n;
  };
  for (const canvas::FractionSpan& span : canvas::find_fractions(text)) {
    out += text.substr(at, span.begin - at);
    const std::int64_t den = number(span.den);
    out += den == 0 ? std::string(text.substr(span.begin, span.end - span.begin))
                    : pretty(Fraction::of(number(span.whole) * den + number(span.num), den));
    at = span.end;
  }
  out += text.substr(at);
  return out;
}

std::optional<std::string> expand_tags(const std::string& file, const std::string& text,
                                       const TagValues& values, Diagnostics& diagnostics) {
  const std::size_t errors = diagnostics.error_count();
  Checker checker{values, diagnostics, {}};
  for (const Tag& tag : find_tags(file, text, diagnostics)) {
    if (tag.sigil == '#' || tag.sigil == '^')
      checker.begin(tag);
    else if (tag.sigil == '/')
      checker.end();
    else
      checker.value(tag);
  }
  if (diagnostics.error_count() != errors) return std::nullopt;
  mustache::mustache page(text);
  if (!page.is_valid()) {
    diagnostics.error("D405", Span{file, 0, 0, 0, 0}, page.error_message());
    return std::nullopt;
  }
  page.set_custom_escape(markdown_escaped);
  Context context(values);
  return page.render(context);
}

}  // namespace dogear
