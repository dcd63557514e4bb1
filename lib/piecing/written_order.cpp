#include <algorithm>
#include <map>

#include "base/length.h"
#include "piecing/order.h"

namespace dogear {

namespace {

class Written {
 public:
  Written(const std::vector<Meeting>& meetings, const std::vector<Span>& parts,
          const SewingWish& wish, const std::string& name, const DrawCorner& draw, Diagnostics& d)
      : meetings_(meetings), parts_(parts), wish_(wish), name_(name), draw_(draw), d_(d) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      steps_.push_back({{i}, {}, {}});
      home_.push_back(i);
    }
  }

  std::optional<SewingStep> order() {
    const std::size_t before = d_.error_count();
    for (const SewLine& line : wish_.lines) {
      if (!sew(line)) return std::nullopt;
    }
    const bool all =
        std::all_of(home_.begin(), home_.end(), [&](std::size_t h) { return h == home_.front(); });
    if (!all) report_left_over();
    for (const Begun& b : begun_) {
      if (b.finished) continue;
      d_.error("D325", b.span, "nothing finishes this partial seam")
          .hints.push_back("a later line must join the part that lies against its open end");
    }
    if (d_.error_count() > before) return std::nullopt;
    return steps_[home_.front()];
  }

 private:
  struct Begun {
    Point from, to;  // the end left open may be either
    Span span;
    bool finished = false;
  };

  static std::string number(std::size_t part) { return std::to_string(part + 1); }

  bool sew(const SewLine& line) {
    SewingStep step;
    std::vector<std::size_t> homes;
    for (const std::size_t part : line.parts) {
      if (part >= parts_.size()) {
        Diagnostic& e = d_.error("D323", line.span,
                                 "`" + name_ + "` has no part " + number(part) + ": it has " +
                                     std::to_string(parts_.size()));
        e.hints.push_back("parts are counted from 1 in the order in which they are written");
        return false;
      }
      const std::size_t h = home_[part];
      if (std::find(homes.begin(), homes.end(), h) != homes.end()) {
        d_.error("D324", line.span,
                 "part " + number(part) + " is sewn to part " + number(line.parts.front()) +
                     " already")
            .notes.push_back({parts_[part], "this is part " + number(part)});
        return false;
      }
      homes.push_back(h);
    }
    for (std::size_t k = 0; k < homes.size(); ++k) {
      if (k > 0 && !join(line, homes, k, step)) return false;
      step.parts.insert(step.parts.end(), steps_[homes[k]].parts.begin(),
                        steps_[homes[k]].parts.end());
    }
    for (const std::size_t h : homes) step.groups.push_back(std::move(steps_[h]));
    std::sort(step.parts.begin(), step.parts.end());
    for (const std::size_t part : step.parts) home_[part] = homes.front();
    steps_[homes.front()] = std::move(step);
    return true;
  }

  // Joins group k of a line to those before it.
  bool join(const SewLine& line, const std::vector<std::size_t>& homes, std::size_t k,
            SewingStep& step) {
    std::vector<Segment> along;
    std::optional<Arc> curve;
    bool one_curve = true;
    std::size_t a = k;
    for (const Meeting& m : meetings_) {
      for (const auto& [mine, other] : {std::pair(m.a, m.b), std::pair(m.b, m.a)}) {
        if (home_[mine] != homes[k]) continue;
        const auto it =
            std::find(homes.begin(), homes.begin() + static_cast<std::ptrdiff_t>(k), home_[other]);
        const auto at = static_cast<std::size_t>(it - homes.begin());
        if (at == k) continue;
        if (along.empty()) curve = m.curve;
        one_curve = one_curve && m.curve && m.curve == curve;
        along.push_back(m.where);
        a = std::min(a, at);
      }
    }
    const auto path = one_path(along);
    if (!path) {
      const bool apart = along.empty();
      Diagnostic& e = d_.error("D326", line.span,
                               "part " + number(line.parts[k]) + " does not meet part " +
                                   number(line.parts[k - 1]) +
                                   (apart ? " along an edge" : " along one unbroken line"));
      e.notes.push_back({parts_[line.parts[k]], "this is part " + number(line.parts[k])});
      e.notes.push_back({parts_[line.parts[k - 1]], "this is part " + number(line.parts[k - 1])});
      return false;
    }
    if (one_curve && line.kind == SeamKind::straight) {
      step.joins.push_back(
          {a, k, {path->front(), path->back()}, SeamKind::straight, line.span, curve});
      return true;
    }
    if (one_curve && line.kind == SeamKind::partial) {
      d_.error("D325", line.span, "a curved seam cannot be partial")
          .hints.push_back("leave `, partial` away, or begin another seam");
      return false;
    }
    if (path->size() == 2) {
      step.joins.push_back({a, k, *path, SeamKind::straight, line.span});
      if (line.kind == SeamKind::partial) {
        step.joins.back().kind = SeamKind::partial;
        begun_.push_back({(*path)[0], (*path)[1], line.span, false});
      }
      return true;
    }
    if (path->size() == 3 && finishes(*path, a, k, line.span, step)) return true;
    if (line.kind != SeamKind::set_in && !wish_.set_in) {
      const Point& at = (*path)[1];
      Diagnostic& e = d_.error("D321", line.span,
                               "this seam is not straight: at the corner " + about_inches(at.x, 8) +
                                   " from the left and " + about_inches(at.y, 8) +
                                   " from the top it would have to be set in");
      e.picture = draw_(at);
      e.notes.push_back({parts_[line.parts[k]], "this is part " + number(line.parts[k])});
      e.hints.push_back("sew in another order, or write `" + number(line.parts[0]) + " + " +
                        number(line.parts[k]) + ", set in` where you mean it");
      return false;
    }
    step.joins.push_back({a, k, *path, SeamKind::set_in, line.span});
    return true;
  }

  // A bent path whose one leg goes on from the open end of a partial seam: two straight seams.
  bool finishes(const std::vector<Point>& path, std::size_t a, std::size_t k, const Span& span,
                SewingStep& step) {
    for (Begun& b : begun_) {
      if (b.finished) continue;
      for (const bool first : {true, false}) {
        const Point& end = first ? path.front() : path.back();
        const Point& other = first ? path.back() : path.front();
        const Point& corner = path[1];
        if (corner != b.from && corner != b.to) continue;
        const Point& start = corner == b.to ? b.from : b.to;
        const Point way = corner - start;
        if (!cross(way, end - corner).is_zero() || dot(way, end - corner).sign() < 0) continue;
        step.joins.push_back({a, k, {corner, other}, SeamKind::straight, span});
        step.joins.push_back({a, k, {corner, end}, SeamKind::finish, span});
        b.finished = true;
        turn(start, corner);
        return true;
      }
    }
    return false;
  }

  // The partial seam's path runs from its sewn end to its open one.
  void turn(const Point& start, const Point& corner) {
    const auto visit = [&](const auto& self, SewingStep& s) -> void {
      for (SewingStep::Join& j : s.joins) {
        if (j.kind == SeamKind::partial && j.path.front() == corner && j.path.back() == start) {
          std::reverse(j.path.begin(), j.path.end());
        }
      }
      for (SewingStep& g : s.groups) self(self, g);
    };
    for (SewingStep& s : steps_) visit(visit, s);
  }

  void report_left_over() {
    std::map<std::size_t, std::size_t> by_home;
    for (const std::size_t h : home_) ++by_home[h];
    const auto largest =
        std::max_element(by_home.begin(), by_home.end(), [](const auto& l, const auto& r) {
          return l.second < r.second;
        })->first;
    std::vector<std::string> left;
    Diagnostic e;
    for (std::size_t i = 0; i < home_.size(); ++i) {
      if (home_[i] == largest) continue;
      left.push_back(number(i));
      if (e.notes.size() < 3) e.notes.push_back({parts_[i], "this is part " + number(i)});
    }
    Diagnostic& d = d_.error("D322", wish_.span,
                             "`sew` leaves " + std::string(left.size() == 1 ? "part " : "parts ") +
                                 dogear::join(left, ", ") + " of `" + name_ + "` unsewn");
    d.notes = std::move(e.notes);
    d.hints.push_back("the last line must bring all parts together");
  }

  const std::vector<Meeting>& meetings_;
  const std::vector<Span>& parts_;
  const SewingWish& wish_;
  const std::string& name_;
  const DrawCorner& draw_;
  Diagnostics& d_;
  std::vector<SewingStep> steps_;  // by home
  std::vector<std::size_t> home_;  // of each part: where its step is kept
  std::vector<Begun> begun_;
};

}  // namespace

std::optional<SewingStep> written_order(const std::vector<Meeting>& meetings,
                                        const std::vector<Span>& parts, const SewingWish& wish,
                                        const std::string& name, const DrawCorner& draw,
                                        Diagnostics& diagnostics) {
  return Written(meetings, parts, wish, name, draw, diagnostics).order();
}

}  // namespace dogear
