// "Sew A3 to B1": labels of pieces that must be there, in every size that prints the words.

#include <algorithm>

#include "base/text.h"
#include "booklet/proofread_claims.h"
#include "booklet/proofread_edit.h"

namespace dogear::editing {
namespace {

bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }

struct Label {
  std::string letter;
  std::size_t fabric = 0;
};

// A letter or two, the fabric's number, R for a mirror image.
std::optional<Label> label_of(std::string_view word) {
  Label out;
  std::size_t at = 0;
  while (at < word.size() && at < 2 && is_capital(word[at])) out.letter += word[at++];
  const std::size_t digits = at;
  while (at < word.size() && at - digits < 3 && is_digit(word[at]))
    out.fabric = out.fabric * 10 + static_cast<std::size_t>(word[at++] - '0');
  if (out.letter.empty() || at == digits || word[digits] == '0') return {};
  if (at < word.size() && word[at] == 'R') ++at;
  if (at != word.size()) return {};
  return out;
}

class Labels {
 public:
  explicit Labels(const Edit& edit) : edit_(edit), of_size_(edit.sizes.size()) {
    for (const Piece& piece : edit.scene.piecing.pieces) letters_.insert(piece.letter);
    for (std::size_t nth = 0; nth < edit.sizes.size(); ++nth)
      for (const auto& [id, n] : edit.sewing(nth).pieces)
        of_size_[nth].insert(edit.scene.piecing.pieces[id].label(edit.pattern()));
  }

  void read(const Text& text, const Passage& passage, const Sentence& s, std::size_t nth) {
    for (std::size_t i = 0; i < s.size(); ++i) {
      if (s[i].kind != Token::Kind::word) continue;
      const std::string_view word =
          std::string_view(passage.text).substr(s[i].begin, s[i].end - s[i].begin);
      const auto label = label_of(word);
      if (!label || !letters_.contains(label->letter) ||
          label->fabric > edit_.pattern().fabrics.size() || of_size_[nth].contains(word) ||
          is_paper(s, i))
        continue;
      tell(text, passage, s[i], std::string(word), *label, nth);
    }
  }

 private:
  // "print on A4", "A4 paper"
  static bool is_paper(const Sentence& s, std::size_t i) {
    if (!is_one_of(s[i], {"a3", "a4", "a5"})) return false;
    return (i + 1 < s.size() &&
            is_one_of(s[i + 1], {"paper", "sheet", "sheets", "page", "pages", "size", "cardstock",
                                 "papier", "card", "or", "and"})) ||
           (i > 0 && is_one_of(s[i - 1],
                               {"on", "paper", "letter", "size", "or", "auf", "papier", "format"}));
  }

  void tell(const Text& text, const Passage& passage, const Token& t, const std::string& word,
            const Label& label, std::size_t nth) {
    const Span span = text.source.span(passage, t.begin, t.end);
    if (!told_.insert({span.file, span.line, span.column}).second) return;
    std::string message = "no piece is labelled `" + word + "`";
    if (edit_.sizes.size() > 1) message += " in the size `" + edit_.known[nth].size_def().id + "`";
    Diagnostic& d = edit_.diagnostics.warning("D427", span, message);
    std::vector<std::string> others;
    for (const std::string& known : of_size_[nth])
      if (const auto l = label_of(known); l && l->letter == label.letter) others.push_back(known);
    if (!others.empty())
      d.hints.push_back("with the letter " + label.letter + " there " +
                        (others.size() == 1 ? "is " : "are ") + join(others, ", "));
    for (std::size_t other = 0; other < of_size_.size(); ++other) {
      if (!of_size_[other].contains(word)) continue;
      const std::string& id = edit_.known[other].size_def().id;
      d.hints.push_back("`" + id + "` has it: keep the words between {{#" + id + "}} and {{/" + id +
                        "}}, and write others for the rest");
      break;
    }
  }

  const Edit& edit_;
  std::set<std::string> letters_;
  std::vector<std::set<std::string, std::less<>>> of_size_;  // labels of the sizes read
  std::set<std::tuple<std::string, std::size_t, std::size_t>> told_;
};

}  // namespace

void check_labels(const Edit& edit) {
  Labels labels(edit);
  each_sentence(edit, [&](const Text& text, const Passage& passage, const Sentence& s,
                          std::size_t nth) { labels.read(text, passage, s, nth); });
}

}  // namespace dogear::editing
