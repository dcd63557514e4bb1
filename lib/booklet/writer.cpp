#include "booklet/writer.h"

#include <algorithm>

#include "base/text.h"
#include "cutting/quantities.h"

namespace dogear::booklet {

Writer::Writer(const Scene& s, std::size_t n, const Template& t, Diagnostics& d, const Photos& p)
    : scene(s),
      size(n),
      style(t),
      words(t.words),
      diagnostics(d),
      photos(p),
      type(s.fonts, t.hyphens),
      flow{t, type} {
  for (std::string& address : figure_addresses(s, n)) figures_.insert(std::move(address));
}

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

const TagValues& Writer::tag_values() {
  if (tags_) return *tags_;
  tags_.emplace();
  for (const auto& [name, value] : facts(scene.checked, scene.piecing, scene.quantities, size))
    tags_->values[name] = spelled(words, value);
  for (std::size_t i = 0; i < pattern().sizes.size(); ++i) {
    tags_->sizes.push_back(pattern().sizes[i].id);
    if (i == size) continue;
    for (const auto& [name, value] : facts(scene.checked, scene.piecing, scene.quantities, i))
      if (tags_->values.count(name) == 0) tags_->elsewhere[name].push_back(pattern().sizes[i].id);
  }
  tags_->size = size_def().id;
  return *tags_;
}

std::optional<Picture> Writer::picture(const std::string& address, double width, double height) {
  const std::string key = join({address, decimal(width, 2), decimal(height, 2)}, " ");
  const auto [at, fresh] = drawn_.try_emplace(key);
  if (!fresh) return at->second;
  if (const auto figure = draw_figure(scene, size, address, width, height))
    at->second = Picture{figure->list, figure->width, figure->height, figure->alt};
  return at->second;
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
  const std::string key = join(
      {"unit", std::to_string(unit), decimal(look.scale, 2), look.down ? "down" : "right"}, " ");
  const auto [at, fresh] = drawn_.try_emplace(key);
  if (fresh) {
    const Figure figure = draw_step(scene, size, unit, look);
    at->second = Picture{figure.list, figure.width, figure.height, figure.alt};
  }
  return at->second;
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
