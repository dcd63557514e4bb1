// Building one pattern or many: each pattern, and each size of it, is made by itself.

#include <unistd.h>

#include <algorithm>
#include <deque>
#include <filesystem>
#include <iostream>
#include <map>
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

// A pattern being built: made beside others, then written in its turn.
class Job {
 public:
  Job(const Arguments& arguments, Streams streams)
      : arguments_(arguments), run_(arguments_, streams) {}

  void make(const canvas::FontSet& fonts) {
    booklets_ = compile(arguments_.folder, run_.options(), fonts, run_.session());
  }

  // `taken` has the files that patterns before it wrote, and which pattern that was.
  int write(std::map<std::string, std::string>& taken) {
    if (!booklets_ || !run_.make_folder(arguments_.out)) return run_.end();
    for (const Output& output : booklets_->outputs) {
      const std::string target = (fs::path(arguments_.out) / output.name).string();
      const auto [other, fresh] = taken.emplace(target, arguments_.folder);
      if (!fresh) {
        run_.err() << "dogear: " << other->second << " and " << arguments_.folder
                   << " would both write " << target
                   << "; build them one by one, each with its own -o\n";
        return wrong_usage;
      }
      built.targets.push_back(target);
    }
    built.sources = booklets_->sources;
    if (arguments_.paper.ends_with(".yaml")) built.sources.push_back(arguments_.paper);
    // The depfile goes first: a PDF that make takes for new never lacks its own. For make a booklet
    // is renewed even where nothing in it changed.
    const bool for_make = !arguments_.depfile.empty();
    if (for_make && arguments_.folders.size() == 1 &&
        !run_.write(arguments_.depfile, depfile_text(built.targets, built.sources)))
      return run_.end();
    for (std::size_t i = 0; i < built.targets.size(); ++i) {
      const std::string& bytes = booklets_->outputs[i].bytes;
      if (!(for_make ? run_.write(built.targets[i], bytes) : run_.renew(built.targets[i], bytes)))
        break;
      if (!run_.print(built.targets[i] + '\n')) break;
    }
    return run_.end(arguments_.size.empty());
  }

  Built built;

 private:
  const Arguments arguments_;
  Invocation run_;
  std::optional<Booklets> booklets_;
};

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

// Writes the patterns and tells what was said of them, one by one in the order in which they were
// named, as soon as that can be; below it, on a terminal, how many are made.
class Teller {
 public:
  explicit Teller(const Arguments& arguments) : folders_(arguments.folders) {
    for (const std::string& folder : folders_) {
      Arguments of_one = arguments;
      of_one.folder = folder;
      told_.emplace_back();
      jobs_.emplace_back(of_one, Streams{told_.back().out, told_.back().err});
    }
    show();
  }

  void make(std::size_t i, const canvas::FontSet& fonts) {
    jobs_[i].make(fonts);
    const std::lock_guard<std::mutex> lock(one_at_a_time_);
    told_[i].done = true;
    ++done_;
    if (terminal_) std::cerr << "\r\x1b[K";
    for (; next_ < told_.size() && told_[next_].done; ++next_) {
      told_[next_].code = jobs_[next_].write(taken_);
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

  std::string depfile() const {
    std::string text;
    for (const Job& job : jobs_) text += depfile_text(job.built.targets, job.built.sources);
    return text;
  }

 private:
  void show() const {
    if (terminal_) std::cerr << done_ << " of " << told_.size() << " patterns" << std::flush;
  }

  const std::vector<std::string>& folders_;
  std::deque<Told> told_;  // jobs speak into them, so they stay where they are
  std::deque<Job> jobs_;
  std::map<std::string, std::string> taken_;
  std::mutex one_at_a_time_;
  std::size_t done_ = 0, next_ = 0;
  const bool terminal_ = ::isatty(STDERR_FILENO) != 0;
};

int build_many(const Arguments& arguments, const canvas::FontSet& fonts) {
  const std::size_t count = arguments.folders.size();
  std::vector<canvas::FontSet> own;
  for (std::size_t i = 0; i < count; ++i) own.push_back(fonts.another());
  Teller teller(arguments);
  in_parallel(count, [&](std::size_t i) { teller.make(i, own[i]); });
  const int code = teller.code();
  if (code != fine || arguments.depfile.empty()) return code;
  Invocation run(arguments);
  return run.write(arguments.depfile, teller.depfile()) ? fine : no_access;
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
  Job job(arguments, standard_streams());
  job.make(*fonts);
  std::map<std::string, std::string> none_taken;
  return job.write(none_taken);
}

}  // namespace dogear
