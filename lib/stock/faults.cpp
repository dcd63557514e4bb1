// Plans are looked over here without any of the solver's own means.

#include <algorithm>
#include <map>

#include "stock/stock.h"

namespace dogear::stock {

namespace {

std::string number(long long n) { return std::to_string(n); }

class Inspection {
 public:
  Inspection(const Problem& problem, const std::vector<Strip>& strips)
      : problem_(problem), cuts_(problem.kinds.size(), 0) {
    for (std::size_t i = 0; i < strips.size(); ++i)
      look_at(strips[i], "strip " + number(static_cast<long long>(i)));
    for (const auto& [sheet, height] : stacked_) {
      if (height > problem_.sources[sheet.first].height.value_or(0)) {
        say("source " + number(static_cast<long long>(sheet.first)) + ", sheet " +
                number(sheet.second),
            "its strips are higher than it is");
      }
    }
    for (std::size_t k = 0; k < cuts_.size(); ++k) {
      const long long need = std::max(problem_.kinds[k].need, 0LL);
      if (cuts_[k] == need) continue;
      say("kind " + number(static_cast<long long>(k)),
          number(cuts_[k]) + " cuts, " + number(need) + " needed");
    }
  }

  std::vector<std::string> faults;

 private:
  void say(const std::string& where, const std::string& what) {
    faults.push_back(where + ": " + what);
  }

  void look_at(const Strip& strip, const std::string& where) {
    if (strip.source >= problem_.sources.size()) return say(where, "there is no such source");
    const Source& source = problem_.sources[strip.source];
    if (source.height) {
      if (strip.sheet < 0 || (source.had && strip.sheet >= *source.had)) {
        say(where, "there is no such sheet");
      }
      stacked_[{strip.source, strip.sheet}] += strip.height;
    }
    if (strip.height <= 0) say(where, "it has no height");
    Steps along = 0;
    for (std::size_t i = 0; i < strip.stretches.size(); ++i) {
      const Stretch& stretch = strip.stretches[i];
      along += stretch.length;
      look_at(stretch, strip.height, where + ", stretch " + number(static_cast<long long>(i)));
    }
    if (strip.stretches.empty()) say(where, "nothing is cut from it");
    if (along > source.length) say(where, "its stretches are longer than it is");
  }

  void look_at(const Stretch& stretch, Steps height, const std::string& where) {
    if (stretch.length <= 0) say(where, "it has no length");
    if (stretch.rows.empty()) say(where, "nothing is cut from it");
    Steps up = 0;
    for (const Row& row : stretch.rows) {
      up += row.height;
      look_at(row, stretch.length, where);
    }
    if (up > height) say(where, "its rows are higher than the strip");
  }

  void look_at(const Row& row, Steps length, const std::string& where) {
    if (row.runs.empty()) say(where, "a row is empty");
    Steps along = 0;
    for (const Run& run : row.runs) {
      if (run.kind >= problem_.kinds.size()) {
        say(where, "there is no such kind");
        continue;
      }
      const Kind& kind = problem_.kinds[run.kind];
      if (kind.height != row.height) say(where, "a row has not the height of its pieces");
      if (run.cuts <= 0 || run.cuts > static_cast<long long>(kind.run.size())) {
        say(where, "a run of " + number(run.cuts) + " cuts");
        continue;
      }
      if (run.length < kind.run[static_cast<std::size_t>(run.cuts - 1)]) {
        say(where, "a run is too short for its cuts");
      }
      cuts_[run.kind] += run.cuts;
      along += run.length;
    }
    if (along > length) say(where, "runs are longer than the stretch");
  }

  const Problem& problem_;
  std::vector<long long> cuts_;
  std::map<std::pair<std::size_t, long long>, Steps> stacked_;
};

}  // namespace

std::vector<std::string> faults(const Problem& problem, const std::vector<Strip>& strips) {
  return Inspection(problem, strips).faults;
}

}  // namespace dogear::stock
