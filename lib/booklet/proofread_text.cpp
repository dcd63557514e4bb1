#include "booklet/proofread_text.h"

#include <algorithm>

#include "base/text.h"
#include "booklet/tags.h"

namespace dogear::editing {

// Walks the Markdown of a source for one size. A tag's value takes the place of the tag, and what
// stands in a section of another size is left out.
class PassageMaker {
 public:
  PassageMaker(const Source& source, const std::string& size,
               const std::map<std::string, std::string>& values)
      : source_(source), text_(source.text()), values_(values) {
    std::vector<bool> open;
    bool shown = true;
    for (std::size_t t = 0; t < source.tags_.size(); ++t) {
      const Tag& tag = source.tags_[t];
      if (tag.sigil == '#' || tag.sigil == '^') {
        open.push_back(shown);
        shown = shown && (tag.name == size) == (tag.sigil == '#');
      } else if (tag.sigil == '/' && !open.empty()) {
        shown = open.back();
        open.pop_back();
      } else {
        continue;
      }
      turns_.emplace_back(source.tag_bytes_[t].first, shown);
    }
  }

  std::vector<Passage> make() {
    if (!source_.sentence_.empty()) {
      Passage& p = begin(Passage::Kind::paragraph);
      for (std::size_t i = 0; i < source_.sentence_.size(); ++i)
        add(p, source_.sentence_[i], source_.sentence_at_ + (source_.sentence_exact_ ? i : 0), -1);
    } else {
      blocks(source_.markdown_.blocks, false);
    }
    std::erase_if(out_, [](const Passage& p) { return p.text.empty() && p.images.empty(); });
    return std::move(out_);
  }

 private:
  Passage& begin(Passage::Kind kind) {
    Passage& p = out_.emplace_back();
    p.kind = kind;
    p.heading = heading_;
    p.lead = lead_;
    p.item = item_;
    return p;
  }

  static void add(Passage& p, char c, std::size_t from, int tag) {
    p.text += c;
    p.from.push_back(from);
    p.tag.push_back(tag);
  }

  bool is_shown(std::size_t at) const {
    const auto next = std::upper_bound(turns_.begin(), turns_.end(), at,
                                       [](std::size_t x, const auto& t) { return x < t.first; });
    return next == turns_.begin() || std::prev(next)->second;
  }

  // The tag that stands at a byte, or one past the last tag.
  std::size_t tag_at(std::size_t at) const {
    const auto& all = source_.tag_bytes_;
    const auto next = std::upper_bound(all.begin(), all.end(), at,
                                       [](std::size_t x, const auto& t) { return x < t.first; });
    if (next == all.begin() || std::prev(next)->second <= at) return all.size();
    return static_cast<std::size_t>(std::prev(next) - all.begin());
  }

  // A byte of text that stands at a byte of the source.
  void put(Passage& p, char c, std::size_t at) {
    const std::size_t t = tag_at(at);
    if (t == source_.tags_.size()) {
      if (is_shown(at)) add(p, c, at, -1);
      return;
    }
    const Tag& tag = source_.tags_[t];
    const std::size_t first = source_.tag_bytes_[t].first;
    if (at != first || tag.sigil != 0 || !is_shown(at)) return;
    const auto value = values_.find(tag.name);
    if (value == values_.end()) return;
    for (const char v : pretty_fractions(value->second)) add(p, v, first, static_cast<int>(t));
  }

  // Text against its stretch of the source, which may hold escapes and entities.
  void put_text(Passage& p, const Inline& in) {
    const std::size_t end = source_.byte_of(in.span.end_line, in.span.end_column);
    std::size_t at = source_.byte_of(in.span.line, in.span.column);
    if (in.kind == Inline::Kind::image) at = std::min(at + 2, end);
    for (std::size_t i = 0; i < in.text.size();) {
      if (at < end && text_[at] == in.text[i]) {
        put(p, in.text[i++], at++);
      } else if (at < end && text_[at] == '\\') {
        ++at;
      } else if (at < end && text_[at] == '&') {
        do put(p, in.text[i++], at);
        while (i < in.text.size() && (static_cast<unsigned char>(in.text[i]) & 0xC0u) == 0x80u);
        while (at < end && text_[at] != ';') ++at;
        if (at < end) ++at;
      } else {
        // A quotation mark, dash or ellipsis that the reader of Markdown has set in type.
        const char c = at < end ? text_[at] : '\0';
        const std::size_t here = std::min(at, end == 0 ? 0 : end - 1);
        std::size_t next = i;
        const char32_t sign = next_code_point(in.text, next);
        while (i < next) put(p, in.text[i++], here);
        const std::size_t most = c == '"' || c == '\'' ? 1 : sign == 0x2013 ? 2 : 3;
        for (std::size_t n = 0; n < most && at < end && text_[at] == c; ++n) ++at;
      }
    }
  }

  void inlines(Passage& p, const std::vector<Inline>& all, std::vector<Passage>& captions) {
    for (const Inline& in : all) {
      const std::size_t at = source_.byte_of(in.span.line, in.span.column);
      switch (in.kind) {
        case Inline::Kind::text:
          put_text(p, in);
          break;
        case Inline::Kind::code:
          if (is_shown(at)) add(p, '`', at, -1);
          break;
        case Inline::Kind::soft_break:
        case Inline::Kind::line_break:
          if (is_shown(at) && !p.text.empty()) add(p, ' ', at, -1);
          break;
        case Inline::Kind::image: {
          if (!is_shown(at)) break;
          p.images.push_back({p.text.size(), in.address, at});
          Passage& caption = captions.emplace_back();
          caption.kind = Passage::Kind::caption;
          caption.heading = heading_;
          caption.item = item_;
          put_text(caption, in);
          break;
        }
        default:
          inlines(p, in.children, captions);
      }
    }
  }

  void line(const Block& b, Passage::Kind kind) {
    std::vector<Passage> captions;
    Passage& p = begin(kind);
    if (b.kind == Block::Kind::table_row) {
      for (const Block& cell : b.children) {
        if (&cell != &b.children.front()) {
          const std::size_t at = source_.byte_of(cell.span.line, cell.span.column);
          for (const char c : std::string_view(" | ")) add(p, c, at, -1);
        }
        inlines(p, cell.inlines, captions);
      }
    } else {
      inlines(p, b.inlines, captions);
    }
    for (Passage& caption : captions) out_.push_back(std::move(caption));
  }

  void blocks(const std::vector<Block>& all, bool in_item) {
    for (const Block& b : all) {
      switch (b.kind) {
        case Block::Kind::heading: {
          const std::size_t n = out_.size();
          line(b, Passage::Kind::heading);
          if (!out_[n].text.empty()) heading_ = out_[n].text;
          lead_.clear();
          break;
        }
        case Block::Kind::paragraph: {
          const std::size_t n = out_.size();
          line(b, in_item ? Passage::Kind::item : Passage::Kind::paragraph);
          const std::string_view text = trim(out_[n].text);
          if (!in_item || text.ends_with(':'))
            lead_ = text.ends_with(':') ? std::string(text) : std::string();
          break;
        }
        case Block::Kind::table_row:
          line(b, Passage::Kind::row);
          break;
        case Block::Kind::item: {
          const std::size_t outer_item = item_;
          const std::string outer_lead = lead_;
          item_ = ++items_;
          blocks(b.children, true);
          item_ = outer_item;
          lead_ = outer_lead;
          break;
        }
        case Block::Kind::bullet_list:
        case Block::Kind::ordered_list:
          blocks(b.children, false);
          if (!in_item) lead_.clear();
          break;
        default:
          blocks(b.children, in_item);
      }
    }
  }

  const Source& source_;
  std::string_view text_;
  const std::map<std::string, std::string>& values_;
  std::vector<std::pair<std::size_t, bool>> turns_;  // from this byte on, shown or not
  std::vector<Passage> out_;
  std::string heading_, lead_;
  std::size_t item_ = 0, items_ = 0;
};

Source::Source(std::string name, std::shared_ptr<const std::string> text, const std::string& file)
    : name_(std::move(name)),
      text_(std::move(text)),
      lines_(file, without_byte_order_mark(*text_)) {}

Source::Source(std::string name, const std::string& file, const std::string& text)
    : Source(std::move(name), std::make_shared<const std::string>(text), file) {
  Diagnostics told;  // by those who set the pages
  auto markdown = read_markdown(file, *text_, told);
  tags_ = find_tags(file, *text_, told);
  readable_ = markdown && !told.has_errors();
  if (!readable_) return;
  markdown_ = std::move(*markdown);
  for (const Tag& tag : tags_)
    tag_bytes_.emplace_back(byte_of(tag.span.line, tag.span.column),
                            byte_of(tag.span.end_line, tag.span.end_column));
}

Source Source::sentence(std::string name, const std::string& file, const std::string& text,
                        const std::string& words, std::size_t line) {
  Source out(std::move(name), std::make_shared<const std::string>(text), file);
  out.sentence_ = words;
  const std::size_t begin = out.lines_.start(line == 0 ? 0 : line - 1);
  const std::size_t found = out.text().find(words, begin);
  out.sentence_exact_ = found != std::string_view::npos;
  out.sentence_at_ = out.sentence_exact_ ? found : begin;
  return out;
}

std::string_view Source::between(std::size_t tag, std::size_t other) const {
  const std::size_t begin = tag_bytes_[tag].second, end = tag_bytes_[other].first;
  return begin < end ? text().substr(begin, end - begin) : std::string_view();
}

std::string Source::written(const Passage& p, std::size_t begin, std::size_t end) const {
  if (begin >= end || end > p.from.size()) return {};
  if (p.tag[end - 1] >= 0 || p.tag[begin] >= 0) return p.text.substr(begin, end - begin);
  std::size_t last = p.from[end - 1];
  next_code_point(text(), last);
  while (last < text().size() && (static_cast<unsigned char>(text()[last]) & 0xC0u) == 0x80u)
    ++last;
  if (last <= p.from[begin] || last - p.from[begin] > 2 * (end - begin) + 8)
    return p.text.substr(begin, end - begin);
  return std::string(text().substr(p.from[begin], last - p.from[begin]));
}

namespace {
long long highest_in(const std::vector<Block>& all) {
  long long most = 0;
  for (const Block& b : all) {
    if (b.kind == Block::Kind::ordered_list)
      most = std::max(most, b.level + static_cast<long long>(b.children.size()) - 1);
    most = std::max(most, highest_in(b.children));
  }
  return most;
}
}  // namespace

long long Source::highest_number() const { return highest_in(markdown_.blocks); }

std::size_t Source::byte_of(std::size_t line, std::size_t column) const {
  if (line == 0) return 0;
  std::size_t at = lines_.start(line - 1);
  for (std::size_t n = 1; n < column && at < text().size(); ++n) next_code_point(text(), at);
  return at;
}

std::vector<Passage> Source::passages(const std::string& size,
                                      const std::map<std::string, std::string>& values) const {
  return PassageMaker(*this, size, values).make();
}

Span Source::span(const Passage& p, std::size_t begin, std::size_t end) const {
  if (p.from.empty()) return lines_.whole_file();
  begin = std::min(begin, p.from.size() - 1);
  end = std::clamp(end, begin + 1, p.from.size());
  const auto last_tag = p.tag[end - 1];
  std::size_t last = 0;
  if (last_tag >= 0) {
    last = tag_bytes_[static_cast<std::size_t>(last_tag)].second;
  } else {
    last = p.from[end - 1];
    next_code_point(text(), last);
    while (last < text().size() && (static_cast<unsigned char>(text()[last]) & 0xC0u) == 0x80u)
      ++last;
  }
  return lines_.span(p.from[begin], last);
}

}  // namespace dogear::editing
