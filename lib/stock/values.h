#pragma once
// The most that the pieces cut from a source can be worth, exactly and in whole numbers.
//
// Three knapsacks, one in the other. A row of height h and length l holds runs of kinds of that
// height; a stretch of length l and height H holds rows; a strip of height H holds stretches; a
// sheet holds strips. Of each run only those are items that no two shorter runs replace; of the
// stretches only those that no split of theirs equals. So a problem of one height costs one
// knapsack, and the others little more.

#include "stock/reduced.h"

namespace dogear::stock {

class Values {
 public:
  explicit Values(const Reduced& reduced);

  // Takes the worth of a cut of each kind (>= 0). `limits`: the most cuts of each kind that a row
  // may hold, in one run; none: any number.
  void set(const std::vector<long long>& worth, const std::vector<long long>* limits = nullptr);

  long long strip(Steps height, Steps length);
  long long sheet(std::size_t source);

  // A strip, or the strips of a sheet, of that value; empty where it is nothing.
  Strip build_strip(Steps height, Steps length);
  std::vector<Strip> build_sheet(std::size_t source);

  // Steps of work done so far.
  long long work() const { return work_; }

 private:
  struct Item {
    std::size_t kind;
    long long cuts;
    Steps length;
  };
  struct StripTable {
    bool made = false;
    bool single = false;           // one row deep and of one height: the row's values are its
    std::vector<long long> value;  // by length
    std::vector<Steps> stretches;  // lengths that no split equals
  };

  void rows(std::size_t height);
  void limited_rows(std::size_t height, const std::vector<long long>& limits);
  void find_corners();
  void stacks();
  std::size_t step_of(Steps height) const;  // the highest strip height that is no more, plus one
  long long stretch(std::size_t step, Steps length) const;
  StripTable& table(std::size_t step);
  std::vector<Run> build_row(std::size_t height, Steps length) const;
  Stretch build_stretch(std::size_t step, Steps length) const;

  const Reduced& reduced_;
  std::size_t lengths_;                          // longest + 1
  std::vector<std::vector<std::size_t>> kinds_;  // by height
  std::vector<std::vector<Item>> items_;         // by height, never replaced by shorter runs
  std::vector<std::vector<std::size_t>> below_;  // [step][height]: step left under such a row
  std::vector<long long> worth_;
  std::vector<std::vector<long long>> row_;  // by height, by length
  // With limits: by kind (in its height's order) and length, cuts taken.
  bool limited_ = false;
  std::vector<std::vector<std::vector<int>>> taken_;
  std::vector<Steps> corners_;                 // lengths at which some row is worth more
  bool stacked_ = false;                       // some strip can be two rows deep
  std::vector<std::vector<long long>> stack_;  // [step][corner]
  std::vector<StripTable> tables_;             // by step
  long long work_ = 0;
};

}  // namespace dogear::stock
