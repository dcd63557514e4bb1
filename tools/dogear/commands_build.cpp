// Building one pattern or many: each pattern, and each size of it, is made by itself.

#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <mutex>
#include <sstream>

#include "base/parallel.h"
#include "commands.h"
#include "compile/compile.h"
#include "invocation.h"

namespace dogear {

namespace {

namespace fs = std::filesystem;

struct Built {
  std::vector<std::string> targets, sources;
};

// What was said while a pattern was built, and how that ended.
struct Told {
  std::ostringstream out, err;
  int code = fine;
  bool done = false;
};

int build_one(const Arguments& arguments, const canvas::FontSet& fonts, Streams streams,
              Built& built) {
  Invocation run(arguments, streams);
  const auto booklets = compile(arguments.folder, run.options(), fonts, run.session());
  if (!booklets || !run.make_folder(arguments.out)) return run.end();
  for (const Output& output : booklets->outputs)
    built.targets.push_back((fs::path(arguments.out) / output.name).string());
  built.sources = booklets->sources;
  if (arguments.paper.ends_with(".yaml")) built.sources.push_back(arguments.paper);
  // The depfile goes first: a PDF that make takes for new never lacks its own. For make a booklet
  // is renewed even where nothing in it changed.
  const bool for_make = !arguments.depfile.empty();
  if (for_make && arguments.folders.size() == 1 &&
      !run.write(arguments.depfile, depfile_text(built.targets, built.sources)))
    return run.end();
  for (std::size_t i = 0; i < built.targets.size(); ++i) {
    const std::string& bytes = booklets->outputs[i].bytes;
    if (!(for_make ? run.write(built.targets[i], bytes) : run.renew(built.targets[i], bytes)))
      break;
    if (!run.print(built.targets[i] + '\n')) break;
  }
  return run.end(arguments.size.empty());
}

// The name that begins those of a pattern's booklets.
std::string own_name(const std::string& folder) {
  std::error_code ignored;
  fs::path path = fs::weakly_canonical(folder, ignored);
  if (path.filename().empty()) path = path.parent_path();
  return path.filename().string();
}

// Says so where two folders would write booklets of one name.
bool are_apart(const std::vector<std::string>& folders) {
  for (std::size_t i = 0; i < folders.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) {
      if (own_name(folders[i]) != own_name(folders[k])) continue;
      std::cerr << "dogear: " << folders[k] << " and " << folders[i] << " would both write "
                << own_name(folders[i])
                << "-....pdf; build them one by one, each with its own -o\n";
      return false;
    }
  }
  return true;
}

// Tells what was said pattern by pattern, in the order in which they were named, as soon as that
// can be; below it, on a terminal, how many are done.
class Teller {
 public:
  explicit Teller(const std::vector<std::string>& folders)
      : folders_(folders), told_(folders.size()), terminal_(::isatty(STDERR_FILENO) != 0) {
    show();
  }

  Told& of(std::size_t i) { return told_[i]; }

  void done(std::size_t i, int code) {
    const std::lock_guard<std::mutex> lock(one_at_a_time_);
    told_[i].code = code;
    told_[i].done = true;
    ++done_;
    if (terminal_) std::cerr << "\r\x1b[K";
    for (; next_ < told_.size() && told_[next_].done; ++next_) {
      std::cout << told_[next_].out.str() << std::flush;
      std::cerr << told_[next_].err.str();
      if (!terminal_)
        std::cerr << next_ + 1 << " of " << told_.size() << ": " << folders_[next_] << '\n';
    }
    if (done_ < told_.size()) show();
  }

  // The worst of all ends.
  int code() const {
    int worst = fine;
    std::size_t failed = 0;
    for (const Told& t : told_) {
      worst = std::max(worst, t.code);
      if (t.code != fine) ++failed;
    }
    if (failed > 0)
      std::cerr << failed << " of " << told_.size() << " patterns could not be built\n";
    return std::cout.good() ? worst : no_access;
  }

 private:
  void show() const {
    if (terminal_) std::cerr << done_ << " of " << told_.size() << " patterns" << std::flush;
  }

  const std::vector<std::string>& folders_;
  std::vector<Told> told_;
  std::mutex one_at_a_time_;
  std::size_t done_ = 0, next_ = 0;
  bool terminal_;
};

int build_many(const Arguments& arguments, const canvas::FontSet& fonts) {
  const std::size_t count = arguments.folders.size();
  std::vector<canvas::FontSet> own;
  for (std::size_t i = 0; i < count; ++i) own.push_back(fonts.another());
  std::vector<Built> built(count);
  Teller teller(arguments.folders);
  in_parallel(count, [&](std::size_t i) {
    Arguments of_one = arguments;
    of_one.folder = arguments.folders[i];
    Told& told = teller.of(i);
    const int code = build_one(of_one, own[i], {told.out, told.err}, built[i]);
    teller.done(i, code);
  });
  const int code = teller.code();
  if (code != fine || arguments.depfile.empty()) return code;
  std::string text;
  for (const Built& b : built) text += depfile_text(b.targets, b.sources);
  Invocation run(arguments);
  return run.write(arguments.depfile, text) ? fine : no_access;
}

}  // namespace

int run_build(const Arguments& given) {
  Arguments arguments = given;
  arguments.folder = arguments.folders.front();
  use_threads(arguments.threads);
  Invocation run(arguments);
  if (const auto wrong = run.wrong_paper()) return *wrong;
  if (!are_apart(arguments.folders)) return wrong_usage;
  const auto fonts = run.fonts();
  if (!fonts) return run.end();
  if (arguments.folders.size() > 1) return build_many(arguments, *fonts);
  Built built;
  return build_one(arguments, *fonts, standard_streams(), built);
}

}  // namespace dogear
