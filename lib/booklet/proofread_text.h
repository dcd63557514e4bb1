#pragma once
// The designer's words as one size prints them, each byte with its place in the source.

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "model/pattern.h"
#include "source/lines.h"
#include "source/markdown.h"

namespace dogear::editing {

struct Shown {
  std::size_t at = 0;    // byte of the passage before which the image stands
  std::string address;   // "figure:step/star/2"
  std::size_t from = 0;  // byte of the source
};

// A paragraph, heading, list item's paragraph, table row or caption.
struct Passage {
  enum class Kind { paragraph, heading, item, row, caption };
  Kind kind = Kind::paragraph;
  std::string text;
  std::vector<std::size_t> from;  // source byte of each byte of the text
  std::vector<int> tag;           // which tag's value a byte belongs to, -1 for none
  std::vector<Shown> images;
  std::string heading;   // the words of the nearest heading above
  std::string lead;      // the paragraph above a list, where that ends in a colon
  std::size_t item = 0;  // passages of one list item share a number other than 0
};

// A file of prose, or a sentence of a YAML file, read once for all sizes.
class Source {
 public:
  Source(std::string name, const std::string& file, const std::string& text);
  // A sentence of a YAML file, found again at or below a line; every byte stands at the line's key
  // where the file spells it in another way.
  static Source sentence(std::string name, const std::string& file, const std::string& text,
                         const std::string& words, std::size_t line);

  bool readable() const { return readable_; }
  const std::string& name() const { return name_; }  // "prose/welcome.md"
  const std::vector<Tag>& tags() const { return tags_; }
  std::string_view text() const { return lines_.text(); }
  // `values` are those of the size; a tag without one is left out.
  std::vector<Passage> passages(const std::string& size,
                                const std::map<std::string, std::string>& values) const;
  // What the bytes `begin` to `end` of a passage span in the file; a tag is spanned whole.
  Span span(const Passage& passage, std::size_t begin, std::size_t end) const;
  // Those bytes as the file has them; a tag's value as it is printed.
  std::string written(const Passage& passage, std::size_t begin, std::size_t end) const;
  Span span_of(const Shown& image) const { return lines_.span(image.from, image.from + 1); }
  Span whole() const { return lines_.whole_file(); }
  // The text between the end of one tag and the start of another.
  std::string_view between(std::size_t tag, std::size_t other) const;
  // The highest number that the lists of this file count to.
  long long highest_number() const;

 private:
  friend class PassageMaker;
  Source(std::string name, std::shared_ptr<const std::string> text, const std::string& file);
  std::size_t byte_of(std::size_t line, std::size_t column) const;

  std::string name_;
  std::shared_ptr<const std::string> text_;
  Lines lines_;
  Markdown markdown_;
  std::vector<Tag> tags_;
  std::vector<std::pair<std::size_t, std::size_t>> tag_bytes_;
  std::string sentence_;
  std::size_t sentence_at_ = 0;
  bool sentence_exact_ = false;
  bool readable_ = true;
};

}  // namespace dogear::editing
