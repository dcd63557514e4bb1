#pragma once
// A ledger's facts in the words of those who buy and sew.

#include <map>
#include <optional>
#include <string>

#include "cutting/fact_names.h"

namespace dogear {

// What quilters call the thing that a group of facts is about: "Ink: cloth to buy". `titles` may
// hold "fabric ink" -> "Ink" and "block lantern" -> "Lantern".
std::string subject_words(const FactName& fact, const std::map<std::string, std::string>& titles,
                          bool with_measures = true);

// The values of a group, by part, as one text: "1 1/8 yd (105 cm)".
std::string value_words(const FactName& fact, const std::map<std::string, std::string>& by_part,
                        bool with_measures = false);

// A value that can be counted with: inches, whatever it is written in, or a plain number.
struct Amount {
  Exact value;
  enum class In { count, inches, yards, centimetres } in = In::count;
};
std::optional<Amount> amount_of(const std::string& value);
// "+1/8 yd", "-2"; empty where there is no difference.
std::string difference_words(const Amount& was, const Amount& now);

}  // namespace dogear
