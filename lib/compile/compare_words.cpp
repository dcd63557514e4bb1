#include "compile/compare_words.h"

#include <algorithm>
#include <utility>

#include "base/length.h"
#include "base/text.h"

namespace dogear {

namespace {

using Titles = std::map<std::string, std::string>;
using Parts = std::map<std::string, std::string>;

std::string title_of(const std::string& kind, const std::string& id, const Titles& titles) {
  const auto found = titles.find(kind + ' ' + id);
  return found == titles.end() ? id : found->second;
}

std::string spaced(std::string slug) {
  std::replace(slug.begin(), slug.end(), '-', ' ');
  return slug;
}

// "from 2 1/2 in strips, at the 4 1/2 in line"
std::string measures_of_piece(const FactName& f) {
  if (f.measures.empty()) return "";
  std::string out = "from " + plain_inches(f.measures[0]) + " strips";
  if (f.measures.size() > 1) {
    out += f.reading ? ", at the " + plain_inches(f.measures[1]) + " line"
                     : ", " + plain_inches(f.measures[1]) + " long";
  }
  return out;
}

std::string measures_of_set(const FactName& f) {
  std::vector<std::string> widths;
  for (const Fraction& m : f.measures) widths.push_back(plain(m));
  return "of strips " + join(widths, ", ") + " in wide";
}

std::string measures_of(const FactName& f) {
  if (f.measures.empty()) return "";
  if (f.kind == FactKind::piece) return measures_of_piece(f);
  if (f.kind == FactKind::strip_set) return measures_of_set(f);
  return plain_inches(f.measures[0]) + " high";
}

std::string owner(const FactName& f, const Titles& titles) {
  return f.subject == "assembly" ? "Assembly" : title_of("block", f.subject, titles);
}

std::string words_of_step(const std::string& part) {
  if (part == "order") return "order of the steps";
  if (part == "parts") return "sewn from";
  if (part == "pressing") return "seams and pressing";
  if (part == "figure") return "figure of the block";
  return "layout of the blocks";
}

std::string get(const Parts& parts, const std::string& part) {
  const auto found = parts.find(part);
  return found == parts.end() ? "" : found->second;
}

std::string counted(const std::string& n, const std::string& one, const std::string& many) {
  return n.empty() ? "" : n + ' ' + (n == "1" ? one : many);
}

std::string listed(const std::vector<std::string>& parts, const std::string& between) {
  std::vector<std::string> said;
  for (const std::string& part : parts) {
    if (!part.empty()) said.push_back(part);
  }
  return join(said, between);
}

// What has no words of its own is told part by part.
std::string all_parts(const Parts& parts) {
  std::vector<std::string> out;
  for (const auto& [part, value] : parts) {
    out.push_back(part.empty() ? value : spaced(part) + ' ' + value);
  }
  return join(out, "; ");
}

// "45 × 48 in"
std::string extent(const Parts& parts, const std::string& width, const std::string& height) {
  std::string first = get(parts, width);
  const std::string second = get(parts, height);
  if (first.ends_with(" in") && second.ends_with(" in")) first.resize(first.size() - 3);
  return listed({first, second}, " × ");
}

std::string after(const std::string& value, const std::string& words) {
  return value.empty() ? "" : value + words;
}

std::string before(const std::string& words, const std::string& value) {
  return value.empty() ? "" : words + value;
}

// "2 1/2 × 4 1/2 in", "4 1/2 in high, 10 1/8 in and 4 7/8 in along its edges"
std::string measure_words(const Parts& parts) {
  const std::string edges = listed({get(parts, "long-edge"), get(parts, "short-edge")}, " and ");
  return listed(
      {get(parts, "width").empty() ? after(get(parts, "height"), " high")
                                   : extent(parts, "width", "height"),
       after(edges, " along its edges"), after(get(parts, "top-to-bottom"), " from top to bottom"),
       after(get(parts, "side-to-side"), " from side to side"),
       after(get(parts, "joined-strips"), " strips joined end to end"),
       before("cut at the ", listed({get(parts, "cut-from"), get(parts, "cut-at")}, " and ")),
       before("cut every ", get(parts, "cut-every"))},
      ", ");
}

// "January: 5 coral star, assembly"
std::string month_words(const Parts& parts) {
  std::vector<std::string> work;
  for (const auto& [part, value] : parts) {
    if (part == "title") continue;
    work.push_back(value == "yes" ? spaced(part) : value + ' ' + spaced(part));
  }
  return listed({get(parts, "title"), join(work, ", ")}, ": ");
}

}  // namespace

std::string subject_words(const FactName& f, const Titles& titles, bool with_measures) {
  const std::string measures = with_measures ? measures_of(f) : "";
  switch (f.kind) {
    case FactKind::title:
      return "Title of the size";
    case FactKind::finished_size:
      return "Finished size";
    case FactKind::cloth:
      return (f.subject == "backing" ? "Backing" : title_of("fabric", f.subject, titles)) +
             ": cloth to buy";
    case FactKind::bundle:
      return title_of("bundle", f.subject, titles) + ": used";
    case FactKind::sheets:
    case FactKind::of_fabric:
      return title_of("fabric", f.subject, titles) + ": " + spaced(f.part);
    case FactKind::bundle_strips:
      return title_of("fabric", f.subject, titles) + ": strips of the bundle";
    case FactKind::backing:
      return "Backing: " + (f.group == "backing.size" ? "size" : spaced(f.part));
    case FactKind::batting:
      return "Batting: " + (f.group == "batting.size" ? "size" : spaced(f.part));
    case FactKind::sleeve:
      return "Hanging sleeve: " + spaced(f.part);
    case FactKind::package:
      return "Batting: package";
    case FactKind::ruler:
      return "Ruler";
    case FactKind::binding:
      return "Binding";
    case FactKind::block_count:
      return title_of("block", f.subject, titles) + ": blocks";
    case FactKind::block_size:
      return title_of("block", f.subject, titles) + ": finished size of the block";
    case FactKind::piece:
      return title_of("fabric", f.subject, titles) + ": " +
             listed({shape_of_slug(f.unit), measures}, " ");
    case FactKind::strip:
      return title_of("fabric", f.subject, titles) + ": " + listed({"strips", measures}, " ");
    case FactKind::strip_set: {
      std::vector<std::string> names;
      std::string rest = f.subject;
      for (std::size_t at = 0; at <= rest.size();) {
        const std::size_t end = std::min(rest.find(" + ", at), rest.size());
        names.push_back(title_of("fabric", rest.substr(at, end - at), titles));
        at = end + 3;
      }
      return listed({"Strip set " + join(names, " + ") + " for " + spaced(f.unit), measures}, ", ");
    }
    case FactKind::batch:
      return owner(f, titles) + ", " + spaced(f.unit) + ": batches";
    case FactKind::make:
      return owner(f, titles) + ", " + spaced(f.unit) + ": make";
    case FactKind::measure:
      return owner(f, titles) + ", " + spaced(f.unit) + ": measures";
    case FactKind::seam:
      return "Seam allowance";
    case FactKind::foundation:
      return owner(f, titles) + ", " + spaced(f.unit) + ": foundations to print";
    case FactKind::step:
      return owner(f, titles) + (f.unit.empty() ? "" : ", " + spaced(f.unit)) + ": " +
             words_of_step(f.part);
    case FactKind::count:
      return f.subject == "pieces"        ? "Pieces in all"
             : f.subject == "foundations" ? "Foundations in all"
                                          : "Blocks in all";
    case FactKind::leftover:
      return title_of("fabric", f.subject, titles) + ": left over";
    case FactKind::pressing:
      return "Pressing: " + f.part;
    case FactKind::month:
      return "Month " + f.subject + " of the schedule";
    case FactKind::other:
      break;
  }
  std::string words = f.group;
  std::replace(words.begin(), words.end(), '.', ' ');
  return words;
}

std::string value_words(const FactName& f, const Parts& parts, bool with_measures) {
  if (parts.empty()) return "";
  switch (f.kind) {
    case FactKind::cloth: {
      const std::string yards = get(parts, "cloth"), metric = get(parts, "metric");
      return yards.empty() || metric.empty() ? yards + metric : yards + " (" + metric + ")";
    }
    case FactKind::month:
      return month_words(parts);
    case FactKind::finished_size:
      return extent(parts, "width", "height");
    case FactKind::block_size:
      return extent(parts, "finished-width", "finished-height");
    case FactKind::backing:
    case FactKind::batting:
      if (f.group.ends_with(".size")) return extent(parts, "width", "height");
      break;
    case FactKind::binding: {
      const std::string strips = counted(get(parts, "strips"), "strip", "strips");
      std::vector<std::string> said{
          strips, get(parts, "width").empty() ? "" : get(parts, "width") + " wide",
          get(parts, "length").empty() ? "" : get(parts, "length") + " long together"};
      for (const auto& [part, value] : parts) {
        if (part != "strips" && part != "width" && part != "length") {
          said.push_back(spaced(part) + ' ' + value);
        }
      }
      return listed(said, ", ");
    }
    case FactKind::bundle: {
      for (const std::string what : {"strips", "squares"}) {
        const std::string used = get(parts, what + "-used"), all = get(parts, what);
        if (used.empty() || all.empty()) continue;
        const std::string bought = get(parts, "bought");
        return used + " of " + all + ' ' + what +
               (bought.empty() || bought == "1" ? "" : ", " + bought + " bundles");
      }
      break;
    }
    case FactKind::piece: {
      std::string out = get(parts, "");
      if (with_measures) out += ' ' + measures_of_piece(f);
      if (const std::string n = get(parts, "reversed"); !n.empty()) out += ", " + n + " reversed";
      if (const std::string n = get(parts, "layers"); !n.empty()) out += ", in " + n + " layers";
      return out;
    }
    case FactKind::strip:
      return with_measures ? get(parts, "") + ", " + measures_of(f) : get(parts, "");
    case FactKind::strip_set: {
      std::string out = counted(get(parts, "sets"), "set", "sets");
      if (with_measures) out += ' ' + measures_of_set(f);
      if (const std::string n = get(parts, "shapes"); !n.empty()) out += " for " + n;
      return out;
    }
    case FactKind::measure:
      return measure_words(parts);
    case FactKind::make:
      return listed({get(parts, ""), after(get(parts, "together"), " with those beside them")},
                    ", ");
    case FactKind::batch: {
      std::string out = get(parts, "batches");
      if (const std::string n = get(parts, "each"); !n.empty()) out += " of " + n;
      if (const std::string n = get(parts, "extra"); !n.empty() && n != "0") {
        out += ", " + n + " over";
      }
      return out;
    }
    default:
      break;
  }
  return parts.size() == 1 ? parts.begin()->second : all_parts(parts);
}

std::optional<Amount> amount_of(const std::string& value) {
  LengthError ignored;
  if (const auto number = parse_number(value, ignored)) {
    return Amount{Exact(*number), Amount::In::count};
  }
  if (const auto length = parse_length(value, ignored)) {
    if (length->written == Unit::yard) return Amount{length->inches, Amount::In::yards};
    if (length->written == Unit::centimetre) return Amount{length->inches, Amount::In::centimetres};
    if (length->written == Unit::inch) return Amount{length->inches, Amount::In::inches};
  }
  return std::nullopt;
}

std::string difference_words(const Amount& was, const Amount& now) {
  if (was.in != now.in || was.value == now.value) return "";
  const Exact difference = now.value - was.value;
  const auto [unit, inches] = [&]() -> std::pair<std::string, Exact> {
    switch (was.in) {
      case Amount::In::yards:
        return {" yd", Exact(36)};
      case Amount::In::centimetres:
        return {" cm", Exact::ratio(50, 127)};
      case Amount::In::inches:
        return {" in", Exact(1)};
      case Amount::In::count:
        break;
    }
    return {"", Exact(1)};
  }();
  const auto size = (abs(difference) / inches).as_fraction();
  if (!size) return "";
  return (difference.sign() > 0 ? "+" : "-") + plain(*size) + unit;
}

}  // namespace dogear
