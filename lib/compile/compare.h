#pragma once
// What changed between two states of a pattern, in the words of those who buy and sew it.
//
// A side is a pattern that compiles or a ledger. Of two patterns the sewing steps are compared as
// well, and the lines of source are found that alone brought a change about (compare_causes.h).

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compile/compile.h"
#include "cutting/fact_names.h"

namespace dogear {

struct ComparedSide {
  std::string name;                          // as the user wrote it
  std::map<std::string, std::string> facts;  // "lap fabric.ink.cloth" -> "1 1/8 yd"
  // Of a pattern that compiles; empty for a ledger.
  std::map<std::string, std::string> steps;    // "lap steps.lantern.ray.pressing" -> "open"
  std::map<std::string, std::string> sources;  // YAML and Markdown, by path within the folder
  std::map<std::string, std::string> titles;  // "fabric ink" -> "Ink", "block lantern" -> "Lantern"
  bool compiled() const { return !sources.empty(); }
};

// Nothing if and only if an error is added to the session.
std::optional<ComparedSide> side_of_pattern(const std::string& name, const std::string& folder,
                                            Session& session);
ComparedSide side_of_plan(const std::string& name, const Plan& plan, const Session& session);
// Nothing, with `error` set, when the text is no ledger.
std::optional<ComparedSide> side_of_ledger(const std::string& name, std::string_view text,
                                           std::string& error);

// Effects on the buyer, largest first.
enum class Effect {
  size_gone,
  more_cloth,   // bought by the length
  more_to_buy,  // another package, bundle or ruler
  finished_size,
  size_new,
  less_to_buy,
  blocks,
  pieces,
  strips,
  steps,
  other
};
std::string_view effect_name(Effect effect);  // "more cloth"

// Facts of one name, before and after.
struct ChangedFact {
  std::string name;  // without the size
  std::optional<std::string> was, now;
};

struct Cause {
  enum class Kind { unknown, line, lines, several } kind = Kind::unknown;
  std::string file;     // within the folder
  bool of_old = false;  // `line` counts in the old file, where the line is gone
  std::size_t line = 0, last = 0;
  std::string text;  // of the line
};

// One thing that changed: facts that are told together.
struct Change {
  Effect effect = Effect::other;
  FactKind kind = FactKind::other;
  Exact amount;            // by which it is put in order; inches of cloth, else a count
  std::string what;        // "Ink: cloth to buy"
  std::string was, now;    // "1 1/8 yd (105 cm)"; empty where there was or is none
  std::string difference;  // "+1/8 yd"; empty where it cannot be counted
  std::vector<ChangedFact> facts;
  Cause cause;
};

// Whether those who have the old booklet must be told: a change of cloth, pieces, strips, steps or
// the finished size; not of leftovers, titles or how seams happen to meet.
bool is_felt_by_buyers(const Change& change);

struct SizeComparison {
  std::string id;               // empty for facts of no size
  std::string title;            // "Lap Quilt"
  std::vector<Change> changes;  // never empty
};

struct Comparison {
  std::string was_name, now_name;
  std::vector<SizeComparison> sizes;  // those that differ, largest effect first
  bool causes_sought = false;
  std::size_t tried = 0, untried = 0;  // changes of the source tried by themselves, and left out
  bool same() const { return sizes.empty(); }
  std::size_t changes() const;
};

Comparison compare_sides(const ComparedSide& was, const ComparedSide& now);

// Its parts in words.
std::string headline(const Comparison& comparison);  // "2 sizes differ, in 14 changes. The ..."
std::string size_words(const SizeComparison& size);  // "Lap Quilt (lap)"
std::string place(const Cause& cause);               // "pattern.yaml:70"; may be empty
std::string untried_words(const Comparison& comparison);  // empty where every cause was tried

// errata: the list of pattern.yaml that tells the buyers of the old one.
enum class ComparisonFormat { text, markdown, json, errata };
std::optional<ComparisonFormat> comparison_format(std::string_view name);
std::string print_comparison(const Comparison& comparison, ComparisonFormat format);

}  // namespace dogear
