#pragma once
// The ledger: every number a quilter will read, one a line, written by the compiler, committed
// beside the pattern and compared on every build. A change of the pattern shows in review as lines.

#include <string>
#include <string_view>
#include <vector>

#include "compile/plan.h"

namespace dogear {

inline constexpr const char* ledger_name = "quantities.txt";  // in the pattern's folder

// "lap block.lantern.count = 2": every fact of every size, sorted, after a line of explanation.
std::string ledger_text(const Plan& plan);

struct LedgerLine {
  std::string name;   // "lap block.lantern.count"
  std::string value;  // may be empty
  std::size_t number = 0;
  bool sound = true;  // it has a size, a name and a value
};

// The lines of a ledger as they stand; comments and empty lines are left out.
std::vector<LedgerLine> read_ledger(std::string_view ledger);

struct LedgerChange {
  std::string name;      // "lap block.lantern.count"
  std::string before;    // empty where the line is new
  std::string after;     // empty where the line is gone
  std::size_t line = 0;  // of the ledger before; 0 where the line is new
  std::string words() const;
};

// The lines in which two ledgers differ, by name. Comments and empty lines do not count.
std::vector<LedgerChange> compare_ledgers(std::string_view before, std::string_view after);

}  // namespace dogear
