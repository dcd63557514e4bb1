#include "booklet/writer.h"

#include <algorithm>

#include "base/text.h"
#include "cutting/quantities.h"

namespace dogear::booklet {

namespace {

// What differs at all is drawn apart, so that it does not matter which is asked for first.
std::string exact(double value) { return decimal(value, 17); }

std::set<std::string> as_set(const std::vector<std::string>& names) {
  return {names.begin(), names.end()};
}

Picture picture_of(const Figure& f) { return {f.list, f.width, f.height, f.alt, false, f.scale}; }

}  // namespace

SharedWork::SharedWork(const Scene& scene, std::size_t size)
    : figures_(as_set(figure_addresses(scene, size))) {}

const std::optional<Picture>& SharedWork::drawn(
    const std::string& key, const std::function<std::optional<Picture>()>& draw) {
  Drawn* found = nullptr;
  {
    const std::lock_guard<std::mutex> lock(mutex_);
    found = &drawn_[key];
  }
  std::call_once(found->once, [&] { found->picture = draw(); });
  return found->picture;
}

const TagValues& SharedWork::tag_values(const std::function<TagValues()>& make) {
  std::call_once(once_, [&] { tags_ = make(); });
  return tags_;
}

Writer::Writer(const Scene& s, std::size_t n, const Template& t, Diagnostics& d, const Photos& p)
    : Writer(s, n, t, d, p, std::make_shared<SharedWork>(s, n)) {}

Writer::Writer(const Writer& like, const canvas::FontSet& fonts, const Template& t, Diagnostics& d)
    : Writer({like.scene.checked, like.scene.piecing, like.scene.quantities, fonts, t.words},
             like.size, t, d, like.photos, like.shared_) {}

Writer::Writer(const Scene& s, std::size_t n, const Template& t, Diagnostics& d, const Photos& p,
               std::shared_ptr<SharedWork> shared)
    : scene(s),
      size(n),
      style(t),
      words(t.words),
      diagnostics(d),
      photos(p),
      type(s.fonts, t.hyphens),
      flow{t, type},
      shared_(std::move(shared)) {}

std::string spelled(const Words& words, const std::string& value) {
  if (words.language == "en") return value;
  std::vector<std::string> parts = split(value, ';');
  for (std::string& part : parts) {
    for (const auto& [unit, key] :
         {std::pair{" in", "inches"}, {" yd", "yards"}, {" cm", "centimeters"}}) {
      const std::string_view tail(unit);
      if (!part.ends_with(tail) || part.size() == tail.size()) continue;
      const std::string number = part.substr(0, part.size() - tail.size());
      if (is_digit(number.back())) part = words(key, {{"n", number}});
    }
  }
  return join(parts, ";");
}

const TagValues& Writer::tag_values() const {
  return shared_->tag_values([this] {
    TagValues out;
    for (const auto& [name, value] : facts(scene.checked, scene.piecing, scene.quantities, size))
      out.values[name] = spelled(words, value);
    for (std::size_t i = 0; i < pattern().sizes.size(); ++i) {
      out.sizes.push_back(pattern().sizes[i].id);
      if (i == size) continue;
      for (const auto& [name, value] : facts(scene.checked, scene.piecing, scene.quantities, i))
        if (out.values.count(name) == 0) out.elsewhere[name].push_back(pattern().sizes[i].id);
    }
    out.size = size_def().id;
    return out;
  });
}

std::string Writer::said(const std::string& fact, std::string text) const {
  if (!drafting) return text;
  const auto& values = tag_values().values;
  const auto at = values.find(fact);
  return at != values.end() && pretty_fractions(at->second) == text ? "{{" + fact + "}}" : text;
}

std::string Writer::said_number(const std::string& fact, long long n) const {
  const std::string digits = std::to_string(n);
  std::string tag = said(fact, digits);
  return tag == digits ? words.number(n) : tag;
}

std::optional<Picture> Writer::picture(const std::string& address, double width, double height) {
  const std::string key = join({address, exact(width), exact(height)}, " ");
  return shared_->drawn(key, [&]() -> std::optional<Picture> {
    const auto figure = draw_figure(scene, size, address, width, height);
    if (!figure) return std::nullopt;
    return picture_of(*figure);
  });
}

std::vector<std::optional<Picture>> Writer::assembly_pictures(const std::vector<std::size_t>& steps,
                                                              double width, double height,
                                                              bool one_scale) {
  std::vector<std::optional<Picture>> out;
  std::map<Exact, double> least;  // by height, in which rows of sashing differ from those of blocks
  const auto height_of = [&](std::size_t step) {
    if (one_scale) return Exact(0);
    return bounds(scene.piecing.units[sewing().assembly[step - 1]].outline).height();
  };
  for (const std::size_t n : steps) {
    out.push_back(picture("assembly/" + std::to_string(n), width, height));
    if (!out.back()) continue;
    const double scale = out.back()->scale;
    const auto [at, fresh] = least.emplace(height_of(n), scale);
    if (!fresh) at->second = std::min(at->second, scale);
  }
  for (std::size_t i = 0; i < steps.size(); ++i) {
    constexpr double as_good_as = 1.01;
    if (!out[i]) continue;
    const double most = least.at(height_of(steps[i]));
    if (out[i]->scale < most * as_good_as) continue;
    const std::string key = join({"assembly/" + std::to_string(steps[i]), exact(width),
                                  exact(height), "at most", exact(most)},
                                 " ");
    out[i] = shared_->drawn(key, [&]() -> std::optional<Picture> {
      const auto figure = draw_assembly(scene, size, steps[i], {width, height}, most);
      if (!figure) return std::nullopt;
      return picture_of(*figure);
    });
  }
  return out;
}

std::optional<Picture> Writer::card_picture(const std::string& address, double width,
                                            double height) {
  constexpr double low = 78;          // pt
  constexpr double wide_from = 0.55;  // of the width
  auto wide = picture(address, width, low);
  if (wide && wide->width >= width * wide_from) return wide;
  return picture(address, width * 0.4, height);
}

std::optional<Picture> Writer::step_picture(UnitId unit, StepLook look) {
  const std::string key =
      join({"unit", std::to_string(unit), exact(look.scale), look.down ? "down" : "right"}, " ");
  return shared_->drawn(key, [&]() -> std::optional<Picture> {
    const Figure figure = draw_step(scene, size, unit, look);
    return picture_of(figure);
  });
}

std::optional<Picture> Writer::swatch(FabricId id, double width, double height) {
  auto found = picture("swatch/" + fabric(id).id, width, height);
  if (found) found->alt.clear();  // its number and name stand beside it
  return found;
}

void Writer::heading(Column& column, int level, const Runs& runs, const std::string& wanted,
                     std::optional<Picture> image) {
  std::string anchor = wanted;
  for (int n = 2; !anchors.insert(anchor).second; ++n) anchor = wanted + "-" + std::to_string(n);
  const std::string title = plain_text(runs);
  column.heading({level, runs, anchor, std::move(image)});
  if (level <= 2) entries.push_back({title, level, anchor});
}

void Writer::heading(Column& column, int level, const std::string& text, const std::string& anchor,
                     std::optional<Picture> image) {
  heading(column, level, column.plain(text), anchor, std::move(image));
}

}  // namespace dogear::booklet
