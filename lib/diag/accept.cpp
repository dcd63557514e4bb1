#include "diag/accept.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "diag/catalogue.h"
#include "diag/comments.h"

namespace dogear {

namespace {

const std::string sample = "accept D551: eased into the seam";

class AcceptanceReader {
 public:
  explicit AcceptanceReader(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}

  void comment(const Comment& c, std::size_t line) {
    const std::string_view text = c.text;
    const std::size_t colon = text.find(':');
    const std::size_t end = std::min(colon, text.size());
    const std::string reason(colon == std::string_view::npos ? "" : trim(text.substr(colon + 1)));
    const auto codes = words(text, 6, end);
    if (codes.empty()) {
      malformed(c.span, "this comment does not say which warning it accepts");
      return;
    }
    // "accept D551 because …": the reason is there and the colon is not.
    if (colon == std::string_view::npos && codes.size() > 1 && known(codes[0].second) != nullptr &&
        known(codes[1].second) == nullptr) {
      malformed(place(c, codes[1]), "a colon parts the code from the reason");
      return;
    }
    bool good = true;
    std::vector<Acceptance> read;
    for (const auto& word : codes) {
      const CodeEntry* entry = known(word.second);
      if (entry == nullptr) {
        unknown(place(c, word), word.second);
        good = false;
      } else if (entry->severity == Severity::error && !entry->judged) {
        diagnostics_
            .error("D071", place(c, word),
                   entry->code + " is an error, and only warnings can be accepted")
            .hints.push_back("mend it: `dogear explain " + entry->code + "` shows how");
        good = false;
      } else {
        read.push_back({entry->code, reason, place(c, word), line, c.on_top});
      }
    }
    if (!good) return;
    if (reason.empty()) {
      diagnostics_.error("D072", c.span, "a warning is accepted for a reason, and none is given")
          .hints.push_back("write it behind a colon: `" + sample + "`");
      return;
    }
    found_.insert(found_.end(), read.begin(), read.end());
  }

  std::vector<Acceptance> take() { return std::move(found_); }

 private:
  using Word = std::pair<std::size_t, std::string>;  // its byte in the comment's text

  static std::vector<Word> words(std::string_view text, std::size_t from, std::size_t to) {
    constexpr std::string_view between = " \t,";
    std::vector<Word> out;
    for (std::size_t i = from; i < to;) {
      i = std::min(text.find_first_not_of(between, i), to);
      const std::size_t end = std::min(text.find_first_of(between, i), to);
      if (end > i) out.emplace_back(i, text.substr(i, end - i));
      i = end;
    }
    return out;
  }

  static const CodeEntry* known(std::string word) {
    if (!word.empty() && word[0] == 'd') word[0] = 'D';
    return find_code(word);
  }

  static Span place(const Comment& c, const Word& word) {
    Span span = c.span;
    span.column += code_points(std::string_view(c.text).substr(0, word.first)).size();
    span.end_column = span.column + code_points(word.second).size();
    return span;
  }

  void malformed(const Span& span, const std::string& words) {
    diagnostics_.error("D074", span, words).hints.push_back("write for example `" + sample + "`");
  }

  void unknown(const Span& span, const std::string& word) {
    std::vector<std::string> codes;
    for (const CodeEntry& e : code_catalogue()) {
      if (e.severity == Severity::warning || e.judged) codes.push_back(e.code);
    }
    Diagnostic& d = diagnostics_.error("D074", span, "there is no code `" + word + "`");
    const std::string near = nearest(word, codes);
    d.hints.push_back(near.empty() ? "a warning ends with its code, such as [D551]"
                                   : "did you mean `" + near + "`?");
  }

  Diagnostics& diagnostics_;
  std::vector<Acceptance> found_;
};

}  // namespace

std::vector<Acceptance> read_acceptances(const Sources& sources, Diagnostics& diagnostics) {
  AcceptanceReader reader(diagnostics);
  for (const std::string& file : sources.files()) {
    const bool yaml = file.ends_with(".yaml");
    if (!yaml && !file.ends_with(".md")) continue;
    const std::string& text = *sources.text(file);
    if (!is_utf8(text)) continue;  // said already
    const auto comments = yaml ? yaml_comments(file, text) : markdown_comments(file, text);
    std::set<std::size_t> alone;
    for (const Comment& c : comments) {
      if (c.alone) alone.insert(c.span.line);
    }
    const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) + 1;
    for (const Comment& c : comments) {
      if (!is_acceptance(c.text)) continue;
      std::size_t line = c.span.line;
      const auto passed_over = [&] {
        return alone.contains(line) || trim(sources.line(file, line)).empty();
      };
      while (c.alone && line < lines && passed_over()) ++line;
      reader.comment(c, line);
    }
  }
  return reader.take();
}

namespace {

// Which acceptances meet a message, by file, code and line.
class Places {
 public:
  explicit Places(const std::vector<Acceptance>& acceptances) {
    for (std::size_t i = 0; i < acceptances.size(); ++i) {
      const Acceptance& a = acceptances[i];
      by_place_[{a.span.file, a.code, a.line}].push_back(i);
      if (a.whole_file) by_place_[{a.span.file, a.code, 0}].push_back(i);
    }
  }
  const std::vector<std::size_t>* meet(const Diagnostic& d) const {
    const auto found = by_place_.find({d.span.file, d.code, d.span.line});
    return found == by_place_.end() ? nullptr : &found->second;
  }

 private:
  std::map<std::tuple<std::string, std::string, std::size_t>, std::vector<std::size_t>> by_place_;
};

}  // namespace

void accept_judgements(const std::vector<Acceptance>& acceptances, Diagnostics& diagnostics) {
  if (acceptances.empty()) return;
  const Places places(acceptances);
  for (std::size_t i = 0; i < diagnostics.all().size(); ++i) {
    const Diagnostic& d = diagnostics.all()[i];
    if (d.severity != Severity::error) continue;
    const CodeEntry* entry = find_code(d.code);
    const auto* met = entry != nullptr && entry->judged ? places.meet(d) : nullptr;
    if (met != nullptr) diagnostics.accept(i, acceptances[met->front()].reason);
  }
}

void accept_warnings(const std::vector<Acceptance>& acceptances, bool every_stage_ran,
                     Diagnostics& diagnostics) {
  const Places places(acceptances);
  std::vector<bool> met(acceptances.size());
  for (std::size_t i = 0; i < diagnostics.all().size(); ++i) {
    const Diagnostic& d = diagnostics.all()[i];
    if (d.severity != Severity::warning) continue;
    const auto* found = places.meet(d);
    if (found == nullptr) continue;
    for (const std::size_t a : *found) met[a] = true;
    diagnostics.accept(i, acceptances[found->front()].reason);
  }
  if (!every_stage_ran || diagnostics.has_errors()) return;
  for (std::size_t i = 0; i < acceptances.size(); ++i) {
    if (met[i]) continue;
    const Acceptance& a = acceptances[i];
    diagnostics
        .warning("D073", a.span,
                 "there is no warning " + a.code + " on line " + std::to_string(a.line) +
                     " that this could accept")
        .hints.push_back(
            "delete the comment, or put it on the line of the warning or alone on the line above");
  }
}

}  // namespace dogear
