#include "proof/pairs.h"

#include <algorithm>
#include <map>

#include "canvas/svg.h"

namespace dogear::proof {

namespace {

// How many of their words two pages share, 0 to 1.
double likeness(const Picture& a, const Picture& b) {
  if (a.svg == b.svg) return 1;
  std::size_t i = 0, j = 0, same = 0;
  while (i < a.words.size() && j < b.words.size()) {
    const int order = a.words[i].compare(b.words[j]);
    if (order == 0) ++same;
    if (order <= 0) ++i;
    if (order >= 0) ++j;
  }
  const std::size_t most = std::max(a.words.size(), b.words.size());
  return most == 0 ? 0.5 : static_cast<double>(same) / static_cast<double>(most);
}

constexpr double like_enough = 0.25;

std::string without_heads(const Picture& page, const canvas::FontSet& fonts) {
  canvas::DisplayList bare;
  for (const canvas::Item& item : page.list->items()) {
    const auto* group = std::get_if<canvas::Group>(&item);
    if (group == nullptr || group->role != canvas::Role::artifact) bare.add(item);
  }
  return canvas::to_svg(bare, page.width, page.height, page.own_fonts ? *page.own_fonts : fonts);
}

const SizeState* size_named(const State& state, const std::string& id) {
  for (const SizeState& size : state.sizes)
    if (size.id == id) return &size;
  return nullptr;
}

}  // namespace

// The pairing in order whose likenesses add up to the most.
std::vector<PagePair> pair_pages(const std::vector<Picture>& was, const std::vector<Picture>& now) {
  const std::size_t rows = was.size(), columns = now.size();
  std::vector<std::vector<double>> like(rows, std::vector<double>(columns)),
      best(rows + 1, std::vector<double>(columns + 1, 0));
  for (std::size_t i = rows; i-- > 0;) {
    for (std::size_t j = columns; j-- > 0;) {
      like[i][j] = likeness(was[i], now[j]);
      const double both = like[i][j] >= like_enough ? like[i][j] + best[i + 1][j + 1] : 0;
      best[i][j] = std::max({both, best[i + 1][j], best[i][j + 1]});
    }
  }
  std::vector<PagePair> pairs;
  std::size_t i = 0, j = 0;
  while (i < rows && j < columns) {
    if (like[i][j] >= like_enough && best[i][j] <= like[i][j] + best[i + 1][j + 1]) {
      pairs.push_back({&was[i++], &now[j++]});
    } else if (best[i + 1][j] >= best[i][j + 1]) {
      pairs.push_back({&was[i++], nullptr});
    } else {
      pairs.push_back({nullptr, &now[j++]});
    }
  }
  for (; i < rows; ++i) pairs.push_back({&was[i], nullptr});
  for (; j < columns; ++j) pairs.push_back({nullptr, &now[j]});
  return pairs;
}

bool same_within(const Picture& was, const Picture& now, const canvas::FontSet& fonts) {
  if (was.svg == now.svg) return true;
  return was.list && now.list && without_heads(was, fonts) == without_heads(now, fonts);
}

std::vector<FigurePair> changed_figures(const State& was, const State& now) {
  std::vector<FigurePair> out;
  const auto tell = [&](const Picture* old, const Picture* fresh, const std::string& title) {
    const auto text = [](const Picture* p) { return p == nullptr ? std::string() : p->svg; };
    for (FigurePair& pair : out) {
      if (pair.either().name == (fresh != nullptr ? fresh : old)->name &&
          text(pair.was) == text(old) && text(pair.now) == text(fresh)) {
        pair.sizes.push_back(title);
        return;
      }
    }
    out.push_back({old, fresh, {title}});
  };
  const std::vector<Picture> none;
  const auto both = [&](const SizeState* old, const SizeState* fresh) {
    const std::vector<Picture>& before = old != nullptr ? old->figures : none;
    const std::vector<Picture>& after = fresh != nullptr ? fresh->figures : none;
    const std::string& title = fresh != nullptr ? fresh->title : old->title;
    std::map<std::string, const Picture*> known;
    for (const Picture& p : before) known[p.name] = &p;
    for (const Picture& p : after) {
      const auto found = known.find(p.name);
      if (found == known.end()) {
        tell(nullptr, &p, title);
        continue;
      }
      if (found->second->svg != p.svg) tell(found->second, &p, title);
      known.erase(found);
    }
    for (const Picture& p : before)
      if (known.contains(p.name)) tell(&p, nullptr, title);
  };
  for (const SizeState& size : now.sizes) both(size_named(was, size.id), &size);
  for (const SizeState& size : was.sizes)
    if (size_named(now, size.id) == nullptr) both(&size, nullptr);
  return out;
}

}  // namespace dogear::proof
