#include "proof/state.h"

#include <algorithm>

#include "base/parallel.h"
#include "base/text.h"
#include "canvas/svg.h"
#include "drawing/figure.h"

namespace dogear::proof {

namespace {

constexpr double side = 360;  // pt: the room of a figure
constexpr double around = 1;  // pt

struct SpotFinder {
  const FigurePlaces& places;
  Picture& page;

  void find(const canvas::DisplayList& list, const canvas::Transform& to_page) {
    for (const canvas::Item& item : list.items()) {
      const auto* group = std::get_if<canvas::Group>(&item);
      if (group == nullptr || !group->list) continue;
      const canvas::Transform inner = group->transform.then(to_page);
      if (group->role != canvas::Role::figure) {
        find(*group->list, inner);
        continue;
      }
      const auto* found = places.find(group->alt);
      if (found == nullptr) continue;
      const canvas::Rect area = inner.apply(group->list->bounds());
      if (area.empty()) continue;
      page.spots.push_back({area.left / page.width, area.top / page.height,
                            area.width() / page.width, area.height() / page.height, *found,
                            group->alt});
    }
  }
};

void find_words(const canvas::DisplayList& list, std::vector<std::string>& words) {
  for (const canvas::Item& item : list.items()) {
    if (const auto* run = std::get_if<canvas::GlyphRun>(&item)) {
      words.push_back(run->text());
    } else if (const auto* group = std::get_if<canvas::Group>(&item)) {
      if (group->list && group->role != canvas::Role::artifact) find_words(*group->list, words);
    }
  }
}

}  // namespace

FigurePlaces::FigurePlaces(const std::vector<Picture>& figures) {
  for (const Picture& figure : figures) {
    if (figure.alt.empty()) continue;
    const auto [at, fresh] = known_.emplace(figure.alt, &figure.places);
    if (!fresh && at->second != nullptr && *at->second != figure.places) at->second = nullptr;
  }
}

const std::vector<std::string>* FigurePlaces::find(const std::string& alt) const {
  const auto found = known_.find(alt);
  return found == known_.end() ? nullptr : found->second;
}

std::vector<Picture> figure_pictures(const Plan& plan, std::size_t size,
                                     const canvas::FontSet& given,
                                     const std::shared_ptr<const canvas::FontSet>& own_fonts,
                                     const Words& words,
                                     const std::function<void(std::span<const Picture>)>& so_far) {
  const canvas::FontSet& fonts = own_fonts ? *own_fonts : given;
  const std::vector<std::string> addresses =
      figure_addresses({plan.checked, plan.piecing, plan.quantities, fonts, words}, size);
  std::vector<Picture> all(addresses.size());
  constexpr std::size_t parts = 4, first_few = 8;
  std::vector<canvas::FontSet> own;
  for (std::size_t part = 0; part < parts; ++part) own.push_back(fonts.another());
  std::size_t begin = 0, end = 0;
  const auto draw_part = [&](std::size_t part) {
    const Scene scene{plan.checked, plan.piecing, plan.quantities, own[part], words};
    for (std::size_t i = begin + part; i < end; i += parts) {
      const auto figure = draw_figure(scene, size, addresses[i], side, side);
      if (!figure || !figure->list) continue;
      Picture& picture = all[i];
      picture.name = addresses[i];
      picture.alt = figure->alt;
      picture.places = places_of(plan, size, addresses[i]);
      // Room around it, so that no line at its edge is cut off where pixels are counted.
      canvas::DisplayList framed;
      framed.draw(figure->list, canvas::Transform::move(around, around));
      picture.width = figure->width + 2 * around;
      picture.height = figure->height + 2 * around;
      picture.list = canvas::share(std::move(framed));
      picture.own_fonts = own_fonts;
      picture.svg = canvas::to_svg(*picture.list, picture.width, picture.height, own[part]);
    }
  };
  for (; begin < all.size(); begin = end) {
    // A few at first, so that something is seen soon, then ever more at once.
    end = so_far ? std::min(2 * begin + first_few, all.size()) : all.size();
    in_parallel(parts, draw_part);
    if (so_far && end < all.size()) so_far(std::span(all).first(end));
  }
  std::erase_if(all, [](const Picture& picture) { return picture.name.empty(); });
  return all;
}

Picture page_picture(const canvas::Page& page, const canvas::FontSet& fonts,
                     std::shared_ptr<const canvas::FontSet> own_fonts) {
  Picture picture;
  picture.name = page.label;
  picture.width = page.width;
  picture.height = page.height;
  picture.svg =
      canvas::to_svg(page.content, page.width, page.height, own_fonts ? *own_fonts : fonts);
  picture.own_fonts = std::move(own_fonts);
  picture.list = canvas::share(page.content);
  find_words(page.content, picture.words);
  std::sort(picture.words.begin(), picture.words.end());
  return picture;
}

void find_spots(Picture& page, const FigurePlaces& places) {
  page.spots.clear();
  if (page.list) SpotFinder{places, page}.find(*page.list, {});
}

std::map<std::string, std::string> sources_within(const std::string& folder,
                                                  const Sources& sources) {
  std::map<std::string, std::string> out;
  const std::string head = folder + '/';
  for (const std::string& file : sources.files())
    if (starts_with(file, head)) out[file.substr(head.size())] = *sources.text(file);
  return out;
}

}  // namespace dogear::proof
