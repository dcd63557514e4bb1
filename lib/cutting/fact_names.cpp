#include "cutting/fact_names.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <utility>

#include "base/text.h"

namespace dogear {

namespace {

using Parts = std::vector<std::string>;

std::optional<std::int64_t> whole(std::string_view text) {
  std::int64_t n = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  if (text.empty() || !is_digit(text.front()) || error != std::errc() ||
      end != text.data() + text.size() || n > 1'000'000) {
    return std::nullopt;
  }
  return n;
}

// "3/8"
std::optional<Fraction> ratio(std::string_view text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto num = whole(text.substr(0, slash)), den = whole(text.substr(slash + 1));
  if (!num || !den || *den == 0) return std::nullopt;
  return Fraction::of(*num, *den);
}

// The measure that words joined by hyphens end with, "2-1/2" or "3" or "3/8"; it is cut off.
std::optional<Fraction> take_measure(Parts& words) {
  if (words.empty()) return std::nullopt;
  if (const auto part = ratio(words.back())) {
    words.pop_back();
    const auto before = words.empty() ? std::nullopt : whole(words.back());
    if (!before) return part;
    words.pop_back();
    return Fraction::of(*before * part->den + part->num, part->den);
  }
  const auto n = whole(words.back());
  if (!n) return std::nullopt;
  words.pop_back();
  return Fraction::of(*n, 1);
}

void name_piece(FactName& f, const Parts& parts) {
  f.kind = FactKind::piece;
  f.subject = parts[1];
  f.part = parts.size() > 4 ? parts[4] : "";
  Parts strip = split(parts[2], '-');
  if (const auto m = take_measure(strip)) f.measures.push_back(*m);
  Parts words = split(parts[3], '-');
  // Cut round a template, along the length of the cloth, or to be trimmed on a foundation.
  std::string how;
  if (words.size() > 1 &&
      (words.back() == "template" || words.back() == "lengthwise" || words.back() == "generous")) {
    how = '.' + words.back();
    words.pop_back();
  }
  if (const auto m = take_measure(words)) f.measures.push_back(*m);
  if (words.size() > 1 && words.back() == "at") {
    f.reading = true;
    words.pop_back();
  }
  f.unit = join(words, "-");
  f.group = "cut." + parts[1] + '.' + parts[2] + '.' + parts[3];
  f.likeness = "cut." + parts[1] + '.' + f.unit + how;
}

void name_strip_set(FactName& f, const Parts& parts) {
  f.kind = FactKind::strip_set;
  f.part = parts.back();
  f.unit = parts[parts.size() - 2];
  f.group = join(Parts(parts.begin(), parts.end() - 1), ".");
  f.likeness = "strip-set";
  Parts fabrics;
  for (std::size_t i = 1; i + 2 < parts.size(); ++i) {
    Parts words = split(parts[i], '-');
    if (const auto m = take_measure(words)) f.measures.push_back(*m);
    fabrics.push_back(join(words, "-"));
    f.likeness += '.' + fabrics.back();
  }
  f.subject = join(fabrics, " + ");
  f.likeness += '.' + f.unit;
}

void name_strip(FactName& f, const Parts& parts) {
  f.kind = FactKind::strip;
  f.subject = parts[1];
  Parts height = split(parts[2], '-');
  if (const auto m = take_measure(height)) f.measures.push_back(*m);
  f.likeness = "strips." + parts[1];
}

void name_fabric(FactName& f, const Parts& parts) {
  static const std::array<std::pair<const char*, FactKind>, 7> known{
      {{"cloth", FactKind::cloth},
       {"metric", FactKind::cloth},
       {"fat-quarters", FactKind::sheets},
       {"fat-eighths", FactKind::sheets},
       {"scraps", FactKind::sheets},
       {"bundle-strips", FactKind::bundle_strips},
       {"left-over", FactKind::leftover}}};
  f.kind = FactKind::of_fabric;
  f.subject = parts[1];
  f.part = parts[2];
  for (const auto& [part, kind] : known) {
    if (parts[2] == part) f.kind = kind;
  }
  if (f.kind == FactKind::cloth) f.group = "fabric." + parts[1] + ".cloth";
}

bool is_extent(const std::string& part) { return part == "width" || part == "height"; }

void name_finish(FactName& f, const Parts& parts) {
  f.part = parts[1];
  f.subject = parts[0];
  if (parts[0] == "binding") {
    f.kind = FactKind::binding;
    f.group = "binding";
  } else if (parts[1] == "cloth" || parts[1] == "metric") {
    f.kind = FactKind::cloth;
    f.group = parts[0] + ".cloth";
  } else if (parts[1] == "package") {
    f.kind = FactKind::package;
  } else {
    f.kind = parts[0] == "backing" ? FactKind::backing : FactKind::batting;
    if (is_extent(parts[1])) f.group = parts[0] + ".size";
  }
}

void name_block(FactName& f, const Parts& parts) {
  f.subject = parts[1];
  f.part = parts[2];
  f.kind = parts[2] == "count" ? FactKind::block_count : FactKind::block_size;
  if (f.kind == FactKind::block_size) f.group = "block." + parts[1] + ".size";
}

void name_parts(FactName& f, const Parts& parts) {
  const std::string& head = parts.front();
  const std::size_t n = parts.size();
  if (head == "size" && n == 2) {
    f.kind = parts[1] == "title" ? FactKind::title : FactKind::finished_size;
    f.part = parts[1];
    if (f.kind == FactKind::finished_size) f.group = "size";
  } else if (head == "fabric" && n == 3) {
    name_fabric(f, parts);
  } else if ((head == "backing" || head == "batting" || head == "binding") && n == 2) {
    name_finish(f, parts);
  } else if (head == "sleeve" && n == 2) {
    f.kind = FactKind::sleeve;
    f.subject = head;
    f.part = parts[1];
  } else if (head == "block" && n == 3) {
    name_block(f, parts);
  } else if (head == "cut" && (n == 4 || n == 5)) {
    name_piece(f, parts);
  } else if (head == "strips" && n == 3) {
    name_strip(f, parts);
  } else if (head == "strip-set" && n >= 4) {
    name_strip_set(f, parts);
  } else if (head == "bundle" && n == 3) {
    f.kind = FactKind::bundle;
    f.subject = parts[1];
    f.part = parts[2];
    f.group = "bundle." + parts[1];
  } else if (head == "ruler" && n == 2) {
    f.kind = FactKind::ruler;
    f.subject = parts[1];
  } else if ((head == "make" && (n == 3 || n == 4)) || (head == "batch" && n == 4)) {
    f.kind = head == "make" ? FactKind::make : FactKind::batch;
    f.subject = parts[1];
    f.unit = parts[2];
    if (n == 4) f.part = parts[3];
    f.group = head + '.' + parts[1] + '.' + parts[2];
  } else if (head == "measure" && n == 4) {
    f.kind = FactKind::measure;
    f.subject = parts[1];
    f.unit = parts[2];
    f.part = parts[3];
    f.group = join(Parts(parts.begin(), parts.end() - 1), ".");
  } else if (head == "seam-allowance" && n == 1) {
    f.kind = FactKind::seam;
  } else if (head == "foundation" && n == 3) {
    f.kind = FactKind::foundation;
    f.subject = parts[1];
    f.unit = parts[2];
  } else if (head == "steps" && (n == 3 || n == 4)) {
    f.kind = FactKind::step;
    f.subject = parts[1];
    if (n == 4) f.unit = parts[2];
    f.part = parts.back();
  } else if (head == "press") {
    f.kind = FactKind::pressing;
    f.part = join(Parts(parts.begin() + 1, parts.end()), " ");
  } else if (head == "month" && (n == 3 || n == 4)) {
    f.kind = FactKind::month;
    f.subject = parts[1];
    f.part = parts[2];
    f.group = "month." + parts[1];
  } else if ((head == "pieces" || head == "blocks" || head == "foundations") && n == 2) {
    f.kind = FactKind::count;
    f.subject = head;
  }
}

}  // namespace

FactName read_fact_name(std::string_view name) {
  FactName f;
  f.group = std::string(name);
  name_parts(f, split(name, '.'));
  if (f.likeness.empty()) f.likeness = f.group;
  return f;
}

SizedName split_size(std::string_view fact) {
  const std::size_t blank = fact.find(' ');
  if (blank == std::string_view::npos) return {"", std::string(fact)};
  return {std::string(fact.substr(0, blank)), std::string(fact.substr(blank + 1))};
}

std::string shape_of_slug(std::string_view slug) {
  Parts words = split(slug, '-');
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    const bool last = i + 1 == words.size();
    out += word;
    if (last) break;
    const bool angle = i == 0 && whole(word).has_value();
    const bool joined = (word == "half" || word == "quarter") &&
                        (words[i + 1] == "square" || words[i + 1] == "hexagon");
    out += angle ? "° " : joined ? "-" : " ";
  }
  return out;
}

}  // namespace dogear
