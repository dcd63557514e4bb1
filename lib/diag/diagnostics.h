#pragma once
// Diagnostics are data; printing lives in diag/print.h.

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.h"  // nearest() for hints
#include "diag/picture.h"

namespace dogear {

// A stretch of a source file. Lines and columns are 1-based, columns count code points.
// line 0 means "the file as a whole"; an empty file means "nowhere in particular".
struct Span {
  std::string file;
  std::size_t line = 0;
  std::size_t column = 0;
  std::size_t end_line = 0;
  std::size_t end_column = 0;  // one past the last column
  bool operator==(const Span&) const = default;
};

enum class Severity { note, warning, error };

struct Note {
  Span span;
  std::string message;
};

struct Diagnostic {
  std::string code;  // stable, such as "D101"
  Severity severity = Severity::error;
  Span span;
  std::string message;
  std::vector<Note> notes;         // other places that take part in the conflict
  std::vector<std::string> hints;  // what to do, in plain words
  std::shared_ptr<const ProblemPicture>
      picture{};                          // of an error about geometry: what it looks like
  std::optional<std::string> accepted{};  // of a warning: the designer's reason, see accept.h
};

class Diagnostics {
 public:
  // The reference is good until the next message is added.
  Diagnostic& error(std::string code, Span span, std::string message);
  Diagnostic& warning(std::string code, Span span, std::string message);
  bool has_errors() const { return errors_ > 0; }
  std::size_t error_count() const { return errors_; }
  const std::vector<Diagnostic>& all() const { return all_; }
  std::size_t accepted_count() const;
  void accept(std::size_t index, std::string reason);  // an error is then a warning
  // The message that "problem:N" draws: the Nth with a picture, counted from 1 in the order of
  // all(); nothing when there are fewer.
  const Diagnostic* problem(std::size_t number) const;
  std::size_t problem_count() const;
  // Stable order by file, line, column; messages said twice are said once.
  void sort();

 private:
  std::vector<Diagnostic> all_;
  std::size_t errors_ = 0;
};

// The text of every file read, so that a message can show its source line.
class Sources {
 public:
  void add(const std::string& file, std::string text);
  const std::string* text(const std::string& file) const;
  std::string_view line(const std::string& file, std::size_t number) const;  // without newline
  std::vector<std::string> files() const;                                    // sorted

 private:
  struct Text {
    std::string content;
    std::vector<std::size_t> line_starts;
  };
  std::map<std::string, Text> texts_;
};

}  // namespace dogear
