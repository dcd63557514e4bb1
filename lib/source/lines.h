#pragma once
// From byte offsets to spans, in constant time however long a line is.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "diag/diagnostics.h"

namespace dogear {

class Lines {
 public:
  // The text must outlive this object.
  Lines(std::string file, std::string_view text);

  // From the byte `begin` to the byte before `end`; both are clamped to the text.
  Span span(std::size_t begin, std::size_t end) const;
  Span whole_file() const { return {file_, 0, 0, 0, 0}; }
  std::string_view text() const { return text_; }
  const std::string& file() const { return file_; }
  std::size_t count() const { return starts_.size(); }
  // Lines are counted from 0 here. `end` excludes the line end.
  std::size_t start(std::size_t line) const;
  std::size_t end(std::size_t line) const;
  std::size_t line_of(std::size_t offset) const;

 private:
  std::size_t characters_before(std::size_t offset) const;

  static constexpr std::size_t stride = 64;
  std::string file_;
  std::string_view text_;
  std::vector<std::size_t> starts_;
  std::vector<std::size_t> characters_;  // code points before each multiple of stride
};

// What some editors write before the text is not counted in any column.
std::string_view without_byte_order_mark(std::string_view text);

// Size, UTF-8 and control characters: what no reader of ours accepts. True when the text is fit.
bool check_text(const Lines& lines, std::size_t most_bytes, Diagnostics& diagnostics);

}  // namespace dogear
