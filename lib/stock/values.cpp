#include "stock/values.h"

#include <algorithm>

namespace dogear::stock {

namespace {

std::size_t at(Steps s) { return static_cast<std::size_t>(s); }

}  // namespace

Values::Values(const Reduced& reduced) : reduced_(reduced), lengths_(at(reduced.longest) + 1) {
  const std::size_t heights = reduced.heights.size();
  kinds_.resize(heights);
  items_.resize(heights);
  for (std::size_t k = 0; k < reduced.kinds.size(); ++k) {
    const ReducedKind& kind = reduced.kinds[k];
    const auto h =
        at(std::lower_bound(reduced.heights.begin(), reduced.heights.end(), kind.height) -
           reduced.heights.begin());
    kinds_[h].push_back(k);
    for (std::size_t n = 1; n <= kind.run.size() && kind.run[n - 1] <= reduced.longest; ++n) {
      bool replaced = false;
      for (std::size_t a = 1; a <= n / 2 && !replaced; ++a) {
        replaced = kind.run[a - 1] + kind.run[n - a - 1] <= kind.run[n - 1];
      }
      if (!replaced) items_[h].push_back({k, static_cast<long long>(n), kind.run[n - 1]});
    }
  }
  below_.resize(reduced.strip_heights.size() + 1, std::vector<std::size_t>(heights, 0));
  for (std::size_t step = 1; step < below_.size(); ++step) {
    const Steps height = reduced.strip_heights[step - 1];
    for (std::size_t h = 0; h < heights && reduced.heights[h] <= height; ++h) {
      below_[step][h] = step_of(height - reduced.heights[h]);
      if (below_[step][h] > 0) stacked_ = true;
    }
  }
}

std::size_t Values::step_of(Steps height) const {
  const auto& steps = reduced_.strip_heights;
  return at(std::upper_bound(steps.begin(), steps.end(), height) - steps.begin());
}

void Values::set(const std::vector<long long>& worth, const std::vector<long long>* limits) {
  worth_ = worth;
  limited_ = limits != nullptr;
  row_.assign(reduced_.heights.size(), {});
  taken_.assign(limited_ ? reduced_.heights.size() : 0, {});
  for (std::size_t h = 0; h < row_.size(); ++h) {
    if (limited_) {
      limited_rows(h, *limits);
    } else {
      rows(h);
    }
  }
  find_corners();
  stacks();
  tables_.assign(reduced_.strip_heights.size() + 1, {});
}

void Values::rows(std::size_t height) {
  std::vector<long long>& row = row_[height];
  row.assign(lengths_, 0);
  std::vector<Item> items;
  for (const Item& item : items_[height]) {
    if (worth_[item.kind] > 0) items.push_back(item);
  }
  std::stable_sort(items.begin(), items.end(),
                   [](const Item& a, const Item& b) { return a.length < b.length; });
  for (std::size_t l = 1; l < lengths_; ++l) {
    long long best = row[l - 1];
    for (const Item& item : items) {
      if (at(item.length) > l) break;
      best = std::max(best, row[l - at(item.length)] + item.cuts * worth_[item.kind]);
    }
    row[l] = best;
  }
  work_ += static_cast<long long>(lengths_ * (items.size() + 1));
}

void Values::limited_rows(std::size_t height, const std::vector<long long>& limits) {
  std::vector<long long>& row = row_[height];
  row.assign(lengths_, 0);
  for (const std::size_t k : kinds_[height]) {
    std::vector<int>& taken = taken_[height].emplace_back();
    const ReducedKind& kind = reduced_.kinds[k];
    const long long most = std::min(limits[k], kind.cuts_in(reduced_.longest));
    if (worth_[k] <= 0 || most <= 0) continue;
    taken.assign(lengths_, 0);
    // From the right, so that what is left of a run holds only earlier kinds.
    for (std::size_t l = lengths_ - 1; l > 0; --l) {
      for (long long n = 1; n <= most && at(kind.length(n)) <= l; ++n) {
        const long long value = row[l - at(kind.length(n))] + n * worth_[k];
        if (value > row[l]) {
          row[l] = value;
          taken[l] = static_cast<int>(n);
        }
      }
    }
    work_ += static_cast<long long>(lengths_) * (most + 1);
  }
}

void Values::find_corners() {
  corners_.clear();
  for (std::size_t l = 1; l < lengths_; ++l) {
    const bool more =
        std::any_of(row_.begin(), row_.end(), [&](const auto& row) { return row[l] > row[l - 1]; });
    if (more) corners_.push_back(static_cast<Steps>(l));
  }
}

void Values::stacks() {
  if (!stacked_) return;
  stack_.assign(reduced_.strip_heights.size() + 1, std::vector<long long>(corners_.size(), 0));
  for (std::size_t step = 1; step < stack_.size(); ++step) {
    std::vector<long long>& stack = stack_[step];
    stack = stack_[step - 1];
    const Steps height = reduced_.strip_heights[step - 1];
    for (std::size_t h = 0; h < row_.size() && reduced_.heights[h] <= height; ++h) {
      const std::vector<long long>& below = stack_[below_[step][h]];
      const std::vector<long long>& row = row_[h];
      for (std::size_t c = 0; c < corners_.size(); ++c) {
        stack[c] = std::max(stack[c], below[c] + row[at(corners_[c])]);
      }
      work_ += static_cast<long long>(corners_.size());
    }
  }
}

// The most that a stretch is worth whose length is a corner's, given by its place in the list.
long long Values::stretch(std::size_t step, Steps corner) const {
  if (stacked_) return stack_[step][at(corner)];
  long long best = 0;
  for (std::size_t h = 0;
       h < row_.size() && reduced_.heights[h] <= reduced_.strip_heights[step - 1]; ++h) {
    best = std::max(best, row_[h][at(corners_[at(corner)])]);
  }
  return best;
}

Values::StripTable& Values::table(std::size_t step) {
  StripTable& t = tables_[step];
  if (t.made) return t;
  t.made = true;
  if (step == 1) {  // only the lowest kinds fit, and only one row of them
    t.single = true;
    t.value = row_[0];
    return t;
  }
  t.value.assign(lengths_, 0);
  std::vector<long long> worths;
  std::size_t next = 0;
  long long before = 0;
  for (std::size_t l = 1; l < lengths_; ++l) {
    long long best = t.value[l - 1];
    for (std::size_t i = 0; i < t.stretches.size(); ++i) {
      best = std::max(best, t.value[l - at(t.stretches[i])] + worths[i]);
    }
    work_ += static_cast<long long>(t.stretches.size() + 1);
    if (next < corners_.size() && at(corners_[next]) == l) {
      const long long here = stretch(step, static_cast<Steps>(next++));
      if (here > before && here > best) {
        best = here;
        t.stretches.push_back(static_cast<Steps>(l));
        worths.push_back(here);
      }
      before = here;
    }
    t.value[l] = best;
  }
  return t;
}

long long Values::strip(Steps height, Steps length) {
  const std::size_t step = step_of(height);
  return step == 0 ? 0 : table(step).value[at(length)];
}

long long Values::sheet(std::size_t source) {
  const Source& s = reduced_.sources[source];
  if (reduced_.gives_one(source)) return strip(*s.height, s.length);
  std::vector<long long> value(at(*s.height) + 1, 0);
  for (std::size_t y = 1; y < value.size(); ++y) {
    value[y] = value[y - 1];
    for (const Steps height : reduced_.strip_heights) {
      if (at(height) > y) break;
      value[y] = std::max(value[y], value[y - at(height)] + strip(height, s.length));
    }
  }
  return value.back();
}

std::vector<Run> Values::build_row(std::size_t height, Steps length) const {
  std::vector<Run> runs;
  const std::vector<long long>& row = row_[height];
  if (limited_) {
    for (std::size_t i = kinds_[height].size(); i-- > 0;) {
      const std::vector<int>& taken = taken_[height][i];
      const std::size_t kind = kinds_[height][i];
      const int n = taken.empty() ? 0 : taken[at(length)];
      if (n == 0) continue;
      runs.push_back({kind, n, reduced_.kinds[kind].length(n)});
      length -= runs.back().length;
    }
    std::reverse(runs.begin(), runs.end());
    return runs;
  }
  while (length > 0 && row[at(length)] > 0) {
    if (row[at(length)] == row[at(length) - 1]) {
      --length;
      continue;
    }
    for (const Item& item : items_[height]) {
      if (item.length <= length && worth_[item.kind] > 0 &&
          row[at(length - item.length)] + item.cuts * worth_[item.kind] == row[at(length)]) {
        runs.push_back({item.kind, item.cuts, item.length});
        length -= item.length;
        break;
      }
    }
  }
  return runs;
}

Stretch Values::build_stretch(std::size_t step, Steps length) const {
  Stretch out;
  out.length = length;
  const auto corner =
      at(std::lower_bound(corners_.begin(), corners_.end(), length) - corners_.begin());
  while (step > 0) {
    const Steps height = reduced_.strip_heights[step - 1];
    const long long value = stretch(step, static_cast<Steps>(corner));
    if (value == 0) break;
    if (stacked_ && stack_[step - 1][corner] == value) {
      --step;
      continue;
    }
    for (std::size_t h = row_.size(); h-- > 0;) {
      if (reduced_.heights[h] > height) continue;
      const long long row = row_[h][at(length)];
      const std::size_t below = below_[step][h];
      const long long rest = below == 0 ? 0 : stretch(below, static_cast<Steps>(corner));
      if (row > 0 && row + rest == value) {
        out.rows.push_back({reduced_.heights[h], build_row(h, length)});
        step = below;
        break;
      }
    }
  }
  return out;
}

Strip Values::build_strip(Steps height, Steps length) {
  Strip out;
  out.height = height;
  const std::size_t step = step_of(height);
  if (step == 0) return out;
  const StripTable& t = table(step);
  while (length > 0 && t.value[at(length)] > 0) {
    if (t.value[at(length)] == t.value[at(length) - 1]) {
      --length;
      continue;
    }
    if (t.single) {
      out.stretches.push_back({length, {{reduced_.heights[0], build_row(0, length)}}});
      break;
    }
    for (const Steps s : t.stretches) {
      if (s > length) continue;
      const auto corner =
          at(std::lower_bound(corners_.begin(), corners_.end(), s) - corners_.begin());
      if (t.value[at(length - s)] + stretch(step, static_cast<Steps>(corner)) ==
          t.value[at(length)]) {
        out.stretches.push_back(build_stretch(step, s));
        length -= s;
        break;
      }
    }
  }
  return out;
}

std::vector<Strip> Values::build_sheet(std::size_t source) {
  const Source& s = reduced_.sources[source];
  if (reduced_.gives_one(source)) {
    Strip strip = build_strip(*s.height, s.length);
    strip.source = source;
    return strip.stretches.empty() ? std::vector<Strip>{} : std::vector<Strip>{std::move(strip)};
  }
  std::vector<long long> value(at(*s.height) + 1, 0);
  std::vector<Steps> last(value.size(), 0);
  for (std::size_t y = 1; y < value.size(); ++y) {
    value[y] = value[y - 1];
    for (const Steps height : reduced_.strip_heights) {
      if (at(height) > y) break;
      const long long with = value[y - at(height)] + strip(height, s.length);
      if (with > value[y]) {
        value[y] = with;
        last[y] = height;
      }
    }
  }
  std::vector<Strip> out;
  for (std::size_t y = value.size() - 1; y > 0;) {
    if (last[y] == 0) {
      --y;
      continue;
    }
    Strip strip = build_strip(last[y], s.length);
    strip.source = source;
    y -= at(last[y]);
    out.push_back(std::move(strip));
  }
  return out;
}

}  // namespace dogear::stock
