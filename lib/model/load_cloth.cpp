// What cloth is bought and how: bundles, the sources of each fabric, allowances, bolts.

#include <algorithm>
#include <array>

#include "base/text.h"
#include "model/keys.h"
#include "model/load.h"
#include "model/reader.h"
#include "words/languages.h"

namespace dogear {

namespace {

// Takes a word (or several) off the front of a text.
bool take(std::string_view& text, std::string_view words) {
  if (!text.starts_with(words)) return false;
  if (text.size() > words.size() && text[words.size()] != ' ') return false;
  text.remove_prefix(words.size());
  text = trim(text);
  return true;
}

// "18 x 21 in", "18 in × 21 in", "45 x 55 cm": height and length.
std::optional<std::pair<Exact, Exact>> read_by(std::string_view text) {
  const std::string_view sign = text.find("×") != std::string_view::npos ? "×" : "x";
  const std::size_t at = text.find(sign);
  if (at == std::string_view::npos) return std::nullopt;
  std::string first(trim(text.substr(0, at)));
  const std::string second(trim(text.substr(at + sign.size())));
  LengthError error;
  const auto b = parse_length(second, error);
  if (!b) return std::nullopt;
  auto a = parse_length(first, error);
  if (!a) {
    // The unit may be written once, behind both.
    const std::size_t unit = second.find_last_of(" 0123456789");
    if (unit == std::string::npos) return std::nullopt;
    first += ' ' + second.substr(unit + 1);
    a = parse_length(first, error);
  }
  const Exact least(1);
  const Exact most(10000);
  if (!a || min(a->inches, b->inches) < least || max(a->inches, b->inches) > most) {
    return std::nullopt;
  }
  return std::pair(a->inches, b->inches);
}

class SourceReader {
 public:
  SourceReader(Pattern& pattern, FabricId fabric, Diagnostics& d)
      : p_(pattern), fabric_(pattern.fabrics[fabric]), id_(fabric), d_(d) {}

  void read(const Node& list) {
    const auto* items = read_list(list, "from", d_);
    if (items == nullptr) return;
    for (const Node& item : *items) {
      const auto text = read_text(item, "from", d_);
      if (!text) continue;
      auto source = read_one(*text, item.span);
      if (!source) continue;
      source->span = item.span;
      if (!fabric_.sources.empty() && !fabric_.sources.back().had) {
        d_.error("D124", item.span, "nothing is ever cut from this")
            .notes.push_back({fabric_.sources.back().span, "as many as are needed come from this"});
        continue;
      }
      fabric_.sources.push_back(*source);
    }
  }

 private:
  ClothSource yardage() const {
    ClothSource s;
    s.length = fabric_.width.value_or(p_.usable_width);
    s.span = fabric_.span;
    return s;
  }

  std::optional<ClothSource> read_one(const std::string& text, const Span& span) {
    for (std::size_t b = 0; b < p_.bundles.size(); ++b) {
      if (p_.bundles[b].id == text) return from_bundle(b, span);
    }
    if (text == "yardage") return yardage();
    std::string_view rest = trim(text);
    std::optional<long long> count;
    const std::size_t digits = std::min(rest.find_first_not_of("0123456789"), rest.size());
    if (digits > 0 && digits < 6) {
      count = std::stoll(std::string(rest.substr(0, digits)));
      rest = trim(rest.substr(digits));
    }
    ClothSource s;
    s.had = count;
    // A fat quarter is half a yard halved along the fold line (Annie's, tutorial guide: 18 x 21).
    if (take(rest, "fat quarters") || take(rest, "fat quarter")) {
      s.kind = ClothSource::Kind::fat_quarter;
      s.height = Exact(18);
      s.length = Exact(21);
    } else if (take(rest, "fat eighths") || take(rest, "fat eighth")) {
      s.kind = ClothSource::Kind::fat_eighth;
      s.height = Exact(9);
      s.length = Exact(21);
    } else if (take(rest, "scraps") || take(rest, "scrap")) {
      s.kind = ClothSource::Kind::scrap;
      s.had = count.value_or(1);
      if (rest.empty()) rest = "?";
    } else {
      return unknown(text, span);
    }
    if (!rest.empty()) {
      const auto by = read_by(rest);
      if (!by) return unknown(text, span);
      s.height = by->first;
      s.length = by->second;
    }
    if (s.had && (*s.had < 1 || *s.had > 10000)) return unknown(text, span);
    return s;
  }

  std::optional<ClothSource> from_bundle(std::size_t b, const Span& span) {
    const Bundle& bundle = p_.bundles[b];
    if (std::find(bundle.fabrics.begin(), bundle.fabrics.end(), id_) == bundle.fabrics.end()) {
      Diagnostic& e = d_.error("D123", span, fabric_.name + " is not in this bundle");
      e.notes.push_back({bundle.span, "the bundle lists its fabrics here"});
      return std::nullopt;
    }
    return of_bundle(b);
  }

  std::optional<ClothSource> unknown(const std::string& text, const Span& span) {
    Diagnostic& e = d_.error("D123", span, "`" + text + "` is no cloth to cut from");
    std::vector<std::string> known{"yardage", "2 fat quarters", "2 fat eighths",
                                   "scrap 10 x 20 in"};
    for (const Bundle& b : p_.bundles) known.push_back(b.id);
    e.hints.push_back("write one of: " + join(known, ", "));
    return std::nullopt;
  }

 public:
  ClothSource of_bundle(std::size_t b) const {
    const Bundle& bundle = p_.bundles[b];
    ClothSource s;
    s.kind = ClothSource::Kind::bundle;
    s.bundle = b;
    s.height = bundle.strip;
    s.length = bundle.length;
    s.had = static_cast<long long>(bundle.each) * bundle.most;
    s.span = bundle.span;
    return s;
  }

  void by_default() {
    for (std::size_t b = 0; b < p_.bundles.size(); ++b) {
      const auto& f = p_.bundles[b].fabrics;
      if (std::find(f.begin(), f.end(), id_) == f.end()) continue;
      if (!fabric_.sources.empty()) {
        Diagnostic& e =
            d_.error("D115", p_.bundles[b].span,
                     fabric_.name + " is in two bundles, and nothing says which goes first");
        e.notes.push_back({fabric_.sources.back().span, "it is in this bundle as well"});
        e.hints.push_back("give the fabric `from: [" +
                          p_.bundles[fabric_.sources.back().bundle].id + ", " + p_.bundles[b].id +
                          "]`");
        return;
      }
      fabric_.sources.push_back(of_bundle(b));
    }
    if (fabric_.sources.empty()) fabric_.sources.push_back(yardage());
  }

 private:
  Pattern& p_;
  Fabric& fabric_;
  FabricId id_;
  Diagnostics& d_;
};

// "6 %" or "6%" as a share.
std::optional<Exact> read_share(std::string_view text) {
  text = trim(text);
  if (!text.ends_with('%')) return std::nullopt;
  text.remove_suffix(1);
  LengthError error;
  const auto n = parse_number(trim(text), error);
  if (!n || n->num < 0) return std::nullopt;
  return Exact(*n) / Exact(100);
}

}  // namespace

void read_bundle(const Entry& e, Pattern& p, Diagnostics& d) {
  Bundle bundle;
  bundle.id = e.key;
  bundle.span = e.key_span;
  MapReader map(e.node(), keys::bundle(), "the bundle `" + e.key + "`", d);
  if (!map.ok()) return;
  const Node* square = map.may("square");
  bundle.squares = square != nullptr;
  if (square != nullptr) {
    bundle.strip = bundle.length = map.length("square");
    for (const char* key : {"strip", "length"}) {
      if (const Node* both = map.may(key)) {
        d.error("D120", both->span, std::string("a bundle of squares has no `") + key + "`")
            .notes.push_back({square->span, "it holds squares of this side"});
      }
    }
  } else {
    bundle.strip = map.length("strip");
    bundle.length = map.length("length", p.usable_width);
  }
  const Fraction side = bundle.strip.round_nearest(16);
  const Words& words = words_of(p.language);
  bundle.name =
      map.text("name", words(bundle.squares ? "default square bundle" : "default strip bundle",
                             {{"size", words.inches(side)}}));
  bundle.each = static_cast<int>(map.whole("each"));
  bundle.most = static_cast<int>(map.whole("at most"));
  const Node* fabrics = map.need("fabrics");
  const auto* items = fabrics == nullptr ? nullptr : read_list(*fabrics, "fabrics", d);
  if (items != nullptr) {
    for (const Node& item : *items) {
      const auto f = read_fabric(item, p, d);
      if (!f) continue;
      if (std::find(bundle.fabrics.begin(), bundle.fabrics.end(), *f) != bundle.fabrics.end()) {
        d.error("D115", item.span, "`" + item.text + "` is listed twice")
            .hints.push_back("`each` says how many of every fabric there are");
        continue;
      }
      bundle.fabrics.push_back(*f);
    }
  }
  map.finish();
  p.bundles.push_back(std::move(bundle));
}

void read_sources(FabricId fabric, const Node* from, Pattern& pattern, Diagnostics& diagnostics) {
  SourceReader reader(pattern, fabric, diagnostics);
  if (from != nullptr) {
    reader.read(*from);
    if (pattern.fabrics[fabric].sources.empty()) reader.by_default();
  } else {
    reader.by_default();
  }
}

void read_allowances(const Node& node, Pattern& pattern, Diagnostics& d) {
  Allowances& a = pattern.allowances;
  a.span = node.span;
  MapReader map(node, keys::allowances(), d);
  if (!map.ok()) return;
  a.squaring = map.length("squaring up");
  a.strip_ends = map.length("strip ends");
  a.set_ends = map.length("strip set ends");
  a.joined = map.length("joined strips");
  // What is no text is told by itself.
  const auto may = [&](const char* key) -> const Node* {
    const Node* n = map.may(key);
    return n != nullptr && read_text(*n, key, d) ? n : nullptr;
  };
  const auto share = [&](const Node& n, const char* hint) -> std::optional<Exact> {
    const auto s = read_share(n.text);
    if (s && *s <= Exact::ratio(1, 4)) return s;
    d.error("D125", n.span, "`" + n.text + "` is no such allowance").hints.push_back(hint);
    return std::nullopt;
  };
  if (const Node* n = may("shrinkage")) {
    if (const auto s = share(*n, "write a share of the length, up to a quarter: `6 %`")) {
      a.shrinkage = *s;
    }
  }
  if (const Node* n = may("margin")) {
    const std::string_view text = trim(n->text);
    LengthError error;
    if (text == "1 strip" || text == "a strip") {
      a.margin_strips = 1;
    } else if (text.ends_with(" strips")) {
      const auto count = parse_number(text.substr(0, text.size() - 7), error);
      if (count && count->den == 1 && count->num > 0 && count->num <= 20) {
        a.margin_strips = count->num;
      } else {
        d.error("D125", n->span, "`" + n->text + "` is no such allowance")
            .hints.push_back("write how many strips: `2 strips`");
      }
    } else if (text.ends_with('%')) {
      if (const auto s = share(*n, "write a share of the length, up to a quarter: `5 %`")) {
        a.margin_share = *s;
      }
    } else if (const auto length = parse_length(text, error);
               length && length->inches.sign() > 0 && length->inches <= Exact(72)) {
      a.margin_length = length->inches;
    } else {
      d.error("D125", n->span, "`" + n->text + "` is no such allowance")
          .hints.push_back("write `1 strip`, a share such as `5 %`, or a length such as `4 in`");
    }
  }
  const auto second = [&](const char* key) {
    return (map.may(key) == nullptr || may(key) != nullptr) && map.choice(key) == std::size_t{1};
  };
  a.yard_parts = second("round up to") ? 4 : 8;
  a.centimetre_step = second("metric up to") ? 10 : 5;
  map.finish();
}

std::optional<std::size_t> bundle_of(const Pattern& pattern, FabricId fabric) {
  for (const ClothSource& s : pattern.fabrics[fabric].sources) {
    if (s.kind == ClothSource::Kind::bundle) return s.bundle;
  }
  return std::nullopt;
}

const ClothSource* yardage_of(const Pattern& pattern, FabricId fabric) {
  for (const ClothSource& s : pattern.fabrics[fabric].sources) {
    if (s.kind == ClothSource::Kind::yardage) return &s;
  }
  return nullptr;
}

Exact strip_length(const Pattern& pattern, const ClothSource& source) {
  const bool bundle = source.kind == ClothSource::Kind::bundle;
  const bool strips = source.kind == ClothSource::Kind::yardage ||
                      (bundle && !pattern.bundles[source.bundle].squares);
  return strips ? max(source.length - pattern.allowances.strip_ends, Exact(0)) : source.length;
}

Exact longest_strip(const Pattern& pattern, FabricId fabric) {
  return Exact(strip_length(pattern, pattern.fabrics[fabric].sources.back()).round_down(8));
}

}  // namespace dogear
