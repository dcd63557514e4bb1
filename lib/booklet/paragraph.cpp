#include "booklet/paragraph.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/text.h"
#include "booklet/linebreak.h"

namespace dogear::booklet {
namespace {

struct Part {  // of a word, in one style
  std::size_t style = 0;
  std::string text;
};

struct Word {
  std::vector<Part> parts;
  bool forced = false;  // a line break follows
};

struct Piece {  // what one atom stands for
  std::vector<Part> parts;
};

bool blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool ascii_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

constexpr std::string_view soft_hyphen = "\u00AD";
constexpr std::string_view en_dash = "\u2013";
constexpr std::string_view em_dash = "\u2014";

canvas::Features features(const TextStyle& style) {
  canvas::Features f;
  f.tabular = style.tabular;
  return f;
}

// Words of the whole paragraph; a word may run through several styles.
std::vector<Word> words_of(const Runs& runs) {
  std::vector<Word> out;
  for (std::size_t first = 0; first <= runs.size();) {
    std::size_t end = first;
    while (end < runs.size() && !runs[end].line_break) ++end;
    std::string text;
    std::vector<std::size_t> ends(runs.size(), 0);  // where each run's text ends
    for (std::size_t i = first; i < end; ++i) {
      for (const char c : runs[i].text) {
        if (!blank(c))
          text += c;
        else if (!text.empty() && text.back() != ' ')
          text += ' ';
      }
      ends[i] = text.size();
    }
    std::size_t at = 0;
    std::size_t run = first;
    for (const std::string& word : canvas::words(text)) {
      const std::size_t begin = text.find(word, at);
      if (begin == std::string::npos) break;
      at = begin + word.size();
      Word& w = out.emplace_back();
      for (std::size_t b = begin; b < at;) {
        while (run < end && ends[run] <= b) ++run;
        const std::size_t e = std::min(at, ends[run]);
        w.parts.push_back({run, text.substr(b, e - b)});
        b = e;
      }
    }
    if (end < runs.size() && !out.empty()) out.back().forced = true;
    first = end + 1;
  }
  return out;
}

class Setter {
 public:
  Setter(const canvas::FontSet& fonts, const Hyphens* hyphens, const Runs& runs)
      : fonts_(fonts), hyphens_(hyphens), runs_(runs), words_(words_of(runs)) {}

  bool empty() const { return words_.empty(); }

  double width(const Part& part) const {
    const TextStyle& style = runs_[part.style].style;
    return fonts_.width(style.font, style.size, part.text, features(style));
  }
  double width(const std::vector<Part>& parts) const {
    double sum = 0;
    for (const Part& p : parts) sum += width(p);
    return sum;
  }
  double space(const TextStyle& style) const { return fonts_.space(style.font, style.size).width; }

  // Atoms for all words; `measure` > 0 parts what is wider than that.
  void build(bool hyphenate, double measure) {
    atoms_.clear();
    pieces_.clear();
    for (const Word& word : words_) {
      for (const Part& part : word.parts) add_part(part, hyphenate, measure);
      Atom& last = atoms_.back();
      const double gap = space(runs_[word.parts.back().style].style);
      last.after = word.forced ? Atom::After::forced : Atom::After::space;
      last.space = gap;
      last.stretch = gap * 0.55;
      last.shrink = gap * 0.28;
      last.penalty = 0;
    }
  }

  const std::vector<Atom>& atoms() const { return atoms_; }

  TextLine line(const BrokenLine& broken, const ParagraphShape& shape) const;

  double natural() const {
    double sum = 0, widest = 0;
    for (const Word& w : words_) {
      sum += width(w.parts);
      widest = std::max(widest, sum);
      sum = w.forced ? 0 : sum + space(runs_[w.parts.back().style].style);
    }
    return widest;
  }
  double widest() const {
    double most = 0;
    for (const Word& w : words_) most = std::max(most, width(w.parts));
    return most;
  }

 private:
  // Where `text` may be parted: byte offset and whether a hyphen appears there.
  struct Point {
    std::size_t at;
    bool hyphen;
    double penalty;
  };

  std::vector<Point> points(const std::string& text, const TextStyle& style, bool hyphenate) const {
    std::vector<Point> out;
    const bool address = !style.uri.empty() && text.find("://") != std::string::npos;
    for (std::size_t i = 1; i < text.size(); ++i) {
      const auto behind = [&](std::string_view mark) {
        return i >= mark.size() &&
               std::string_view(text).substr(i - mark.size(), mark.size()) == mark;
      };
      const bool between_letters =
          i >= 2 && ascii_letter(text[i - 2]) && (ascii_letter(text[i]) || is_digit(text[i]));
      if (text[i - 1] == '-' && between_letters) out.push_back({i, false, 30});
      if (address && (text[i - 1] == '/' || text[i - 1] == '.') && text[i] != '/')
        out.push_back({i, false, 50});
      if (behind(em_dash)) out.push_back({i, false, 20});
      if (behind(en_dash) && !is_digit(text[i])) out.push_back({i, false, 40});
      if (behind(soft_hyphen)) out.push_back({i, true, 40});
    }
    if (!hyphenate || !style.hyphenate || hyphens_ == nullptr || address) return out;
    for (std::size_t b = 0; b < text.size();) {
      if (letter_at(text, b) == 0) {
        ++b;
        continue;
      }
      std::size_t e = b;
      for (std::size_t n = 0; e < text.size() && (n = letter_at(text, e)) > 0;) e += n;
      const bool alone = (b == 0 || text[b - 1] != '-') && (e == text.size() || text[e] != '-') &&
                         (b == 0 || !is_digit(text[b - 1]));
      const bool shouted = e - b > 1 && text[b + 1] >= 'A' && text[b + 1] <= 'Z';
      if (alone && !shouted && e - b >= 6) {
        const bool name = text[b] >= 'A' && text[b] <= 'Z' && !hyphens_->nouns_have_capitals();
        for (const std::size_t p : hyphens_->points(std::string_view(text).substr(b, e - b)))
          out.push_back({b + p, true, name ? 140.0 : 70.0});
      }
      b = e;
    }
    std::sort(out.begin(), out.end(), [](const Point& a, const Point& b) { return a.at < b.at; });
    return out;
  }

  static std::string without_soft_hyphens(std::string text) {
    for (std::size_t at = text.find(soft_hyphen); at != std::string::npos;
         at = text.find(soft_hyphen, at))
      text.erase(at, soft_hyphen.size());
    return text;
  }

  void add_atom(std::size_t style, std::string text, Atom::After after, double penalty) {
    text = without_soft_hyphens(std::move(text));
    Atom atom;
    pieces_.push_back({{{style, std::move(text)}}});
    atom.width = width(pieces_.back().parts);
    atom.after = after;
    atom.penalty = penalty;
    const TextStyle& s = runs_[style].style;
    if (after == Atom::After::hyphen) atom.hyphen = fonts_.width(s.font, s.size, "-", features(s));
    atoms_.push_back(atom);
  }

  void add_part(const Part& part, bool hyphenate, double measure) {
    const TextStyle& style = runs_[part.style].style;
    const double whole = width({part.style, without_soft_hyphens(part.text)});
    std::vector<Point> at = points(part.text, style, hyphenate);
    std::size_t from = 0;
    const std::size_t first = atoms_.size();
    for (std::size_t i = 0; i <= at.size(); ++i) {
      const bool end = i == at.size();
      const std::size_t to = end ? part.text.size() : at[i].at;
      if (to <= from) continue;
      const std::string text = part.text.substr(from, to - from);
      const Atom::After after = end            ? Atom::After::none
                                : at[i].hyphen ? Atom::After::hyphen
                                               : Atom::After::open;
      add_wide(part.style, text, after, end ? 0 : at[i].penalty, measure);
      from = to;
    }
    // Kerning across the places where a word might be parted belongs to the unparted word.
    double sum = 0;
    for (std::size_t i = first; i < atoms_.size(); ++i) sum += atoms_[i].width;
    if (atoms_.size() > first + 1) atoms_.back().width += whole - sum;
  }

  // Parts even an unbreakable text where it is wider than the measure.
  void add_wide(std::size_t style, const std::string& text, Atom::After after, double penalty,
                double measure) {
    const TextStyle& s = runs_[style].style;
    const double hyphen =
        after == Atom::After::hyphen ? fonts_.width(s.font, s.size, "-", features(s)) : 0;
    if (measure <= 0 || width({style, text}) + hyphen <= measure) {
      add_atom(style, text, after, penalty);
      return;
    }
    std::size_t from = 0;
    double sum = 0;
    for (std::size_t i = 0; i < text.size();) {
      std::size_t next = i;
      next_code_point(text, next);
      const double w = fonts_.width(s.font, s.size, text.substr(i, next - i), features(s));
      if (i > from && sum + w > measure * 0.96 - hyphen) {
        add_atom(style, text.substr(from, i - from), Atom::After::open, 500);
        from = i;
        sum = 0;
      }
      sum += w;
      i = next;
    }
    add_atom(style, text.substr(from), after, penalty);
  }

  const canvas::FontSet& fonts_;
  const Hyphens* hyphens_;
  const Runs& runs_;
  std::vector<Word> words_;
  std::vector<Atom> atoms_;
  std::vector<Piece> pieces_;
};

TextLine Setter::line(const BrokenLine& broken, const ParagraphShape& shape) const {
  TextLine out;
  out.last = broken.last;
  // Tokens: parts joined where no break was taken, with word spaces between.
  struct Token {
    std::size_t style;
    canvas::ShapedText shaped;
    bool space_after = false;
  };
  std::vector<Part> parts;
  std::vector<bool> spaces;
  const Atom& end = atoms_[broken.end - 1];
  out.hyphenated = !broken.last && end.after == Atom::After::hyphen;
  for (std::size_t i = broken.begin; i < broken.end; ++i) {
    for (const Part& p : pieces_[i].parts) {
      const bool joins = !parts.empty() && !spaces.back() && parts.back().style == p.style;
      if (joins) {
        parts.back().text += p.text;
      } else {
        parts.push_back(p);
        spaces.push_back(false);
      }
    }
    if (i + 1 < broken.end && atoms_[i].after == Atom::After::space) spaces.back() = true;
  }
  if (out.hyphenated) parts.back().text += '-';

  std::vector<Token> tokens;
  double total = 0, stretch = 0, shrink = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const TextStyle& s = runs_[parts[i].style].style;
    tokens.push_back(
        {parts[i].style, fonts_.shape(s.font, s.size, parts[i].text, features(s)), spaces[i]});
    total += tokens.back().shaped.width;
    out.text += parts[i].text;
    if (spaces[i]) {
      const double gap = space(s);
      total += gap;
      stretch += gap * 0.55;
      shrink += gap * 0.28;
      out.text += ' ';
    }
  }
  const double room = shape.width - total;
  double ratio = 0;  // of each space's own stretch or shrink
  if (shape.align == Align::justify) {
    if (room < 0 && shrink > 0)
      ratio = std::max(room / shrink, -1.0);
    else if (!broken.last && stretch > 0)
      ratio = room / stretch;
  }
  out.ratio = ratio;
  double x = shape.align == Align::center  ? std::max(0.0, room / 2)
             : shape.align == Align::right ? std::max(0.0, room)
                                           : 0;
  out.left = x;
  const double start = x;
  for (std::size_t i = 0; i < tokens.size();) {
    const TextStyle& s = runs_[tokens[i].style].style;
    canvas::ShapedText run;
    run.font = s.font;
    run.size = s.size;
    std::size_t j = i;
    for (; j < tokens.size() && runs_[tokens[j].style].style == s; ++j) {
      run.append(tokens[j].shaped);
      if (!tokens[j].space_after) continue;
      const double gap = space(s) * (1 + ratio * (ratio > 0 ? 0.55 : 0.28));
      out.gaps.emplace_back(x + run.width, x + run.width + gap);
      run.append(fonts_.space(s.font, s.size, gap));
    }
    const canvas::FontMetrics& m = fonts_.metrics(s.font);
    const double up = s.size * m.cap_height * 1.2, down = s.size * m.descent;
    const canvas::Rect area{x, -up, x + run.width, down};
    out.content.text(x, 0, run, s.color);
    if (!s.destination.empty()) out.content.link(area, s.destination);
    if (!s.uri.empty()) out.content.link_uri(area, s.uri);
    x += run.width;
    i = j;
  }
  out.width = x - start;
  return out;
}

std::vector<TextLine> lines_of(const Setter& setter, const std::vector<BrokenLine>& broken,
                               const ParagraphShape& shape) {
  std::vector<TextLine> out;
  for (const BrokenLine& line : broken) out.push_back(setter.line(line, shape));
  return out;
}

// Breaks otherwise at one line's end after another until no river runs through the paragraph, where
// that can be had without loose lines.
std::vector<TextLine> without_rivers(const Setter& setter, std::vector<BrokenLine> broken,
                                     const LineMeasure& measure, const ParagraphShape& shape) {
  constexpr double never = 1e5, loose = 1.15;
  std::vector<TextLine> best = lines_of(setter, broken, shape);
  River river = longest_river(best);
  const double allowed = std::max(loose, worst_line(broken, measure));
  for (std::size_t k = 0; k < river.lines; ++k) {
    std::vector<Atom> atoms = setter.atoms();
    atoms[broken[river.line + k].end - 1].penalty = never;
    const std::vector<BrokenLine> other = break_lines(atoms, measure);
    if (other.size() != broken.size() || worst_line(other, measure) > allowed) continue;
    std::vector<TextLine> lines = lines_of(setter, other, shape);
    if (longest_river(lines).lines == 0) return lines;
  }
  return best;
}

}  // namespace

River longest_river(const std::vector<TextLine>& lines) {
  constexpr double overlap = 0.6;   // of the narrower space
  constexpr std::size_t least = 4;  // lines
  River longest;
  std::vector<std::size_t> above;  // lines that the river at each space of the line above has
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::vector<std::size_t> here;
    for (const auto& [left, right] : lines[i].gaps) {
      std::size_t most = 0;
      for (std::size_t k = 0; i > 0 && k < above.size(); ++k) {
        const auto& [from, to] = lines[i - 1].gaps[k];
        const double shared = std::min(right, to) - std::max(left, from);
        if (shared >= overlap * std::min(right - left, to - from)) most = std::max(most, above[k]);
      }
      here.push_back(most + 1);
      if (most + 1 >= least && most + 1 > longest.lines) longest = {i - most, most + 1};
    }
    above = std::move(here);
  }
  return longest;
}

std::vector<TextLine> Typesetter::set(const Runs& runs, const ParagraphShape& shape) const {
  Setter setter(fonts_, hyphens_.get(), runs);
  if (setter.empty()) return {};
  const LineMeasure measure{shape.width, shape.align == Align::justify, 0};
  setter.build(false, 0);
  std::vector<BrokenLine> lines = break_lines(setter.atoms(), measure);
  if (worst_line(lines, measure) > 1) {
    setter.build(shape.align != Align::center, shape.width);
    lines = break_lines(setter.atoms(), measure);
  }
  return without_rivers(setter, std::move(lines), measure, shape);
}

double Typesetter::natural_width(const Runs& runs) const {
  return Setter(fonts_, nullptr, runs).natural();
}

double Typesetter::widest_word(const Runs& runs) const {
  return Setter(fonts_, nullptr, runs).widest();
}

}  // namespace dogear::booklet
