#include "compile/kits.h"

#include <algorithm>
#include <charconv>
#include <map>

#include "base/text.h"
#include "compile/bolts.h"
#include "compile/list_words.h"
#include "compile/purchases.h"
#include "compile/shopping.h"

namespace dogear {

namespace {

using list_words::inches;
using list_words::yards;

constexpr long long most_kits = 10000;

std::optional<long long> read_count(std::string_view text) {
  long long n = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), n);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  if (n < 1 || n > most_kits) return std::nullopt;
  return n;
}

std::string in_yards(const Exact& length) {
  const Exact whole = length / Exact(36);
  const Fraction eighths = whole.round_down(8);
  return (Exact(eighths) == whole ? "" : "about ") + yards(eighths);
}

// All that is cut off bolts of one cloth.
struct BoltCloth {
  std::string name;
  Exact width;
  struct Cut {
    Exact inches;
    long long cuts = 0;
    std::string then;  // "halved into fat quarters": what is counted till then
    std::vector<std::string> sizes;
  };
  std::vector<Cut> cuts;
  Span span;

  void add(const Exact& length, long long cuts_of_it, const std::string& then,
           const std::string& size) {
    const auto same = std::find_if(cuts.begin(), cuts.end(), [&](const Cut& c) {
      return c.inches == length && c.then == then;
    });
    Cut& cut = same == cuts.end() ? cuts.emplace_back(Cut{length, 0, then, {}}) : *same;
    cut.cuts += cuts_of_it;
    if (std::find(cut.sizes.begin(), cut.sizes.end(), size) == cut.sizes.end()) {
      cut.sizes.push_back(size);
    }
  }

  // Of all sizes together, so that the half left by one serves another.
  void halve() {
    for (Cut& cut : cuts) {
      if (!cut.then.empty()) cut.cuts = (cut.cuts + 1) / 2;
    }
  }
};

class KitLister {
 public:
  KitLister(const Plan& plan, const std::vector<KitOrder>& orders, Diagnostics& d)
      : plan_(plan), pattern_(plan.pattern()), orders_(orders), d_(d) {}

  std::optional<std::vector<ListGroup>> lists() {
    for (const KitOrder& order : orders_) gather(order);
    for (BoltCloth& cloth : fabrics_) cloth.halve();
    const std::size_t before = d_.error_count();
    List bolts{
        "bolts", {"cloth", "measuring", "bolts", "fewest possible", "yards cut", "bolt holds"}, {}};
    List cuts{"bolt cuts", {"cloth", "bolts", "cut from each", "remnant"}, {}};
    for (const BoltCloth& cloth : fabrics_) cut(cloth, bolts, cuts);
    for (const BoltCloth& cloth : backings_) cut(cloth, bolts, cuts);
    if (d_.error_count() > before) return std::nullopt;
    List kits{"kits", {"size", "kits"}, {}};
    for (const KitOrder& order : orders_) {
      kits.rows.push_back({pattern_.sizes[order.size].title, order.kits});
    }
    List bundles{"bundles", {"bundle", "count", "holds"}, {}};
    for (const auto& [bundle, n] : bundles_) {
      bundles.rows.push_back({pattern_.bundles[bundle].name, n, bundle_words(pattern_, bundle)});
    }
    std::vector<ListGroup> groups{{{}, "Kits", {kits, bundles, bolts, cuts}}};
    for (const KitOrder& order : orders_) groups.push_back(box(order.size));
    return groups;
  }

 private:
  BoltCloth& cloth_of(std::vector<BoltCloth>& all, const std::string& name, const Exact& width,
                      const Span& span) {
    const auto known = std::find_if(all.begin(), all.end(), [&](const BoltCloth& c) {
      return c.name == name && c.width == width;
    });
    return known == all.end() ? all.emplace_back(BoltCloth{name, width, {}, span}) : *known;
  }

  void gather(const KitOrder& order) {
    const SizeDef& def = pattern_.sizes[order.size];
    const Purchases bought = purchases(plan_, order.size);
    for (const BundlePurchase& b : bought.bundles) bundles_[b.bundle] += b.count * order.kits;
    for (const ClothPurchase& p : bought.cloth) {
      const Fabric& fabric = pattern_.fabrics[p.fabric];
      const Exact width = fabric.width.value_or(pattern_.usable_width);
      if (p.kind == ClothSource::Kind::scrap) continue;  // the quilter's own
      BoltCloth& cloth = cloth_of(fabrics_, fabric.name, width, fabric.span);
      if (p.kind == ClothSource::Kind::yardage) {
        cloth.add(Exact(p.yards) * Exact(36), order.kits, "", def.title);
      } else {
        // Cut across the cloth and halved, as they are sold: half a yard gives two fat quarters.
        const bool quarter = p.kind == ClothSource::Kind::fat_quarter;
        cloth.add(p.height, p.sheets * order.kits,
                  quarter ? "halved into fat quarters" : "halved into fat eighths", def.title);
      }
    }
    const auto& backing = plan_.quantities.sizes[order.size].backing;
    if (!backing) return;
    const Exact width = def.backing ? def.backing->width : pattern_.usable_width;
    const Span& span = def.backing ? def.backing->span : def.span;
    cloth_of(backings_, backing->name, width, span)
        .add(Exact(backing->yards) * Exact(36), order.kits, "", def.title);
    if (backing->wide) {
      cloth_of(backings_, backing->name + ", or instead wide cloth", Exact(*backing->wide), span)
          .add(Exact(backing->wide_yards) * Exact(36), order.kits, "", def.title);
    }
  }

  void cut(const BoltCloth& cloth, List& bolts, List& cuts) {
    const Exact& bolt = pattern_.bolt;
    std::vector<BoltDemand> demands;
    Exact all = 0;
    bool fits = true;
    for (const BoltCloth::Cut& c : cloth.cuts) {
      demands.push_back({c.inches, c.cuts});
      all += c.inches * Exact(c.cuts);
      if (c.inches <= bolt) continue;
      fits = false;
      d_.error("D679", cloth.span,
               "a kit for " + join(c.sizes, ", ") + " needs " + in_yards(c.inches) + " of " +
                   cloth.name + " in one length, and a bolt holds " + in_yards(bolt))
          .hints.push_back("say how much a bolt holds: `bolt: " +
                           yards((c.inches / Exact(36)).round_up(1)) + "`");
    }
    if (!fits) return;
    const BoltCutting cutting = cut_bolts(demands, bolt);
    bolts.rows.push_back({cloth.name, inches(cloth.width.round_down(8)), cutting.bolts,
                          cutting.least, in_yards(all), in_yards(bolt)});
    for (const BoltPlan& plan : cutting.plans) {
      std::vector<std::string> words;
      for (const auto& [i, n] : plan.cuts) {
        const BoltCloth::Cut& c = cloth.cuts[i];
        std::string text = std::to_string(n) + " of " + in_yards(c.inches);
        if (!c.then.empty()) text += ", " + c.then;
        if (orders_.size() > 1) text += " (" + join(c.sizes, ", ") + ')';
        words.push_back(std::move(text));
      }
      cuts.rows.push_back({cloth.name, plan.times, join(words, "; "),
                           plan.remnant.is_zero() ? "none" : in_yards(plan.remnant)});
    }
  }

  // What one box holds, to tick off while it is packed.
  ListGroup box(std::size_t size) const {
    const Purchases bought = purchases(plan_, size);
    const std::string booklet = "booklet " + pattern_.title + ", " + pattern_.sizes[size].title +
                                ", edition " + pattern_.edition;
    const bool parted = !bought.bundles.empty();
    List kit{parted ? "bundle kit" : "kit", {"amount", "what", "for"}, {}, true};
    List add_on{"background and binding add-on", {"amount", "what", "for"}, {}, true};
    kit.rows.push_back({"1", booklet, ""});
    for (const BundlePurchase& b : bought.bundles) {
      kit.rows.push_back({std::to_string(b.count), pattern_.bundles[b.bundle].name,
                          bundle_words(pattern_, b.bundle)});
    }
    List& cloth = parted ? add_on : kit;
    for (const ClothPurchase& p : bought.cloth) {
      if (p.kind == ClothSource::Kind::scrap) continue;
      cloth.rows.push_back({amount(p), pattern_.fabrics[p.fabric].name, join(p.uses, ", ")});
    }
    List backing = backing_list(plan_, size);
    backing.name = "backing add-on";
    return {size, "", {kit, add_on, backing}};
  }

  const Plan& plan_;
  const Pattern& pattern_;
  const std::vector<KitOrder>& orders_;
  Diagnostics& d_;
  std::map<std::size_t, long long> bundles_;
  std::vector<BoltCloth> fabrics_, backings_;
};

}  // namespace

std::optional<std::vector<KitOrder>> read_kit_orders(const Pattern& pattern,
                                                     const std::vector<std::size_t>& sizes,
                                                     std::string_view text, std::string& wrong) {
  std::vector<KitOrder> orders;
  if (const auto n = read_count(trim(text))) {
    for (const std::size_t size : sizes) orders.push_back({size, *n});
    return orders;
  }
  const std::string range = "1 to " + std::to_string(most_kits);
  for (const std::string& part : split(text, ',')) {
    const std::size_t at = part.find('=');
    if (at == std::string::npos) {
      wrong = "how many kits? Write a number, " + range +
              ", or one for each size: " + pattern.sizes.front().id + "=12";
      return std::nullopt;
    }
    const std::string name(trim(std::string_view(part).substr(0, at)));
    const auto n = read_count(trim(std::string_view(part).substr(at + 1)));
    const auto known = std::find_if(pattern.sizes.begin(), pattern.sizes.end(),
                                    [&](const SizeDef& s) { return s.id == name; });
    if (known == pattern.sizes.end()) {
      std::vector<std::string> names;
      for (const SizeDef& s : pattern.sizes) names.push_back(s.id);
      wrong = "the pattern has no size called " + name + "; known: " + join(names, ", ");
      return std::nullopt;
    }
    if (!n) {
      wrong = "the number of kits for " + name + " is not a whole number from " + range;
      return std::nullopt;
    }
    const auto size = static_cast<std::size_t>(known - pattern.sizes.begin());
    const bool twice = std::any_of(orders.begin(), orders.end(),
                                   [&](const KitOrder& o) { return o.size == size; });
    if (twice) {
      wrong = "the size " + name + " is named twice";
      return std::nullopt;
    }
    orders.push_back({size, *n});
  }
  return orders;
}

std::optional<std::vector<ListGroup>> kit_lists(const Plan& plan,
                                                const std::vector<KitOrder>& orders,
                                                Diagnostics& diagnostics) {
  return KitLister(plan, orders, diagnostics).lists();
}

}  // namespace dogear
