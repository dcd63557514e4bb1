#include "stock/problems.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace dogear::stock {

Kind plain(Steps height, Steps length, long long need, Steps longest) {
  return nested(height, length, length, need, longest);
}

Kind nested(Steps height, Steps first, Steps pitch, long long need, Steps longest) {
  Kind kind;
  kind.height = height;
  kind.need = need;
  for (Steps l = first; l <= longest || kind.run.empty(); l += pitch) kind.run.push_back(l);
  return kind;
}

Source cloth(Steps width) { return {width, std::nullopt, std::nullopt}; }

Source sheets(Steps length, Steps height, long long had) { return {length, height, had}; }

std::function<long long(Steps)> in_steps_of(Steps step) {
  return [step](Steps use) { return (use + step - 1) / step; };
}

Problem Published::problem() const {
  Problem out;
  for (const auto& [length, count] : lengths) {
    out.kinds.push_back(plain(1, length, count, capacity));
  }
  out.sources = {{capacity, 1, std::nullopt}};
  return out;
}

long long Published::pieces() const {
  long long sum = 0;
  for (const auto& [length, count] : lengths) sum += count;
  return sum;
}

std::vector<Published> published(const std::string& folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".txt") paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Published> out;
  for (const auto& path : paths) {
    std::ifstream file(path);
    Published p;
    std::string word;
    while (file >> word) {
      if (word == "name") {
        file >> p.name;
      } else if (word == "capacity") {
        file >> p.capacity;
      } else if (word == "optimum") {
        file >> p.optimum;
      } else {
        long long count = 0;
        file >> count;
        p.lengths.emplace_back(std::stoll(word), count);
      }
    }
    if (p.capacity <= 0 || p.optimum <= 0 || p.lengths.empty()) {
      throw std::runtime_error(path.string() + " holds no instance");
    }
    out.push_back(std::move(p));
  }
  return out;
}

Steps first_fit_cloth(const Problem& problem) {
  struct Open {
    Steps height;
    Steps left;
  };
  std::vector<Kind> kinds = problem.kinds;
  std::stable_sort(kinds.begin(), kinds.end(),
                   [](const Kind& a, const Kind& b) { return a.run[0] > b.run[0]; });
  const Steps width = problem.sources.back().length;
  std::vector<Open> strips;
  const auto cuts_in = [](const Kind& kind, Steps length) {
    long long n = 0;
    while (n < static_cast<long long>(kind.run.size()) &&
           kind.run[static_cast<std::size_t>(n)] <= length) {
      ++n;
    }
    return n;
  };
  for (const Kind& kind : kinds) {
    long long left = kind.need;
    for (std::size_t s = 0; left > 0; ++s) {
      if (s == strips.size()) strips.push_back({kind.height, width});
      if (strips[s].height != kind.height) continue;
      const long long n = std::min(left, cuts_in(kind, strips[s].left));
      if (n == 0) continue;
      strips[s].left -= kind.run[static_cast<std::size_t>(n - 1)];
      left -= n;
    }
  }
  Steps sum = 0;
  for (const Open& s : strips) sum += s.height;
  return sum;
}

}  // namespace dogear::stock
