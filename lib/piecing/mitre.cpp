#include "piecing/mitre.h"

#include <algorithm>

namespace dogear {

SewingStep mitred_order(const std::vector<Meeting>& meetings, std::size_t parts) {
  SewingStep out;
  for (std::size_t i = 0; i < parts; ++i) {
    out.parts.push_back(i);
    out.groups.push_back({{i}, {}, {}});
  }
  // The blocks of a center end along its side, so a border may meet it in several stretches.
  std::vector<std::vector<Segment>> sides(parts);
  std::vector<Point> inside;
  for (const Meeting& m : meetings) {
    if (m.a != 0 && m.b != 0) continue;
    sides[m.a == 0 ? m.b : m.a].push_back(m.where);
    inside.insert(inside.end(), {m.where.a, m.where.b});
  }
  for (std::size_t i = 1; i < parts; ++i) {
    const auto path = one_path(sides[i]);
    if (path) out.joins.push_back({0, i, *path, SeamKind::stopped, {}});
  }
  for (const Meeting& m : meetings) {
    if (m.a == 0 || m.b == 0) continue;
    const bool out_from_a = std::find(inside.begin(), inside.end(), m.where.a) != inside.end();
    std::vector<Point> path{m.where.a, m.where.b};
    if (!out_from_a) std::swap(path.front(), path.back());
    out.joins.push_back({m.a, m.b, std::move(path), SeamKind::mitre, {}});
  }
  return out;
}

}  // namespace dogear
