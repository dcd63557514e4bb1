#pragma once
// One run of the program: the session, and the ways in which it may end.

#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>

#include "commands.h"
#include "compile/compile.h"

namespace dogear {

// Where a run speaks.
struct Streams {
  std::ostream& out;
  std::ostream& err;
};
Streams standard_streams();

class Invocation {
 public:
  explicit Invocation(const Arguments& arguments, Streams streams = standard_streams())
      : arguments_(arguments), streams_(streams), session_(files_) {}

  Session& session() { return session_; }
  std::ostream& err() { return streams_.err; }

  // Says all there is to say and tells how the run ended. `whole`: every stage ran for every size.
  int end(bool whole = false);
  // Instead: the messages for another program, on standard output.
  int end_with_report(bool whole);
  int exit_code() const;

  std::optional<canvas::FontSet> fonts();
  std::optional<int> wrong_paper() const;
  Options options() const;

  // Each says why where it cannot, and the run then ends with `no_access`.
  bool make_folder(const std::string& folder);
  bool write(const std::string& path, std::string_view content);
  // The same, but a file that holds just this is left alone, its time too.
  bool renew(const std::string& path, std::string_view content);
  bool cannot_write(const std::string& path, const std::string& reason);  // false
  bool print(std::string_view content);
  // To the file asked for, or to standard output.
  int deliver(std::string_view content);

 private:
  bool said(std::string_view code) const;

  const Arguments& arguments_;
  Streams streams_;
  DiskFiles files_;
  Session session_;
  bool unwritten_ = false;
};

}  // namespace dogear
