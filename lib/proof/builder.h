#pragma once
// Builds one pattern again and again, doing anew only what a change of its files may have changed.
//
// What is kept is kept with everything it was made from: the content of every file that was read
// and the names in every folder that was listed. It is used again only where all of them are the
// same, so that a build here gives what a first build gives, byte for byte (tests/proof holds it to
// that). The words of prose/ are the one exception made on purpose: no stage before the pages reads
// them, so that a plan is used again with other words.

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "booklet/template.h"
#include "compile/compile.h"
#include "proof/state.h"

namespace dogear::proof {

// What somebody looks at, which is made first.
struct Look {
  std::string size;      // its name; another: the first size
  std::size_t page = 0;  // counted from 0
};

struct Built {
  State state;
  Diagnostics diagnostics;  // settled
  Sources sources;
};

// Told of each part as it is made: the figures of each size where they are drawn anew, that looked
// at first, then single pages, those of the size looked at first, and of a size those that changed.
// Errors may still be found behind it.
struct Progress {
  virtual ~Progress() = default;
  // The first of them, those not drawn yet left out.
  virtual void first_figures(const std::string&, std::span<const Picture>) {}
  virtual void figures(const SizeState& size) = 0;
  virtual void page(const SizeState& size, std::size_t index, std::size_t pages,
                    const Picture& page) = 0;
};

class Builder {
 public:
  Builder(std::string folder, const canvas::FontSet& fonts);
  ~Builder();

  Built build(const Files& files, const Look& look, Progress* progress = nullptr);

  const std::string& folder() const { return folder_; }

 private:
  struct Kept;
  const Plan* plan(Session& session, const Files& files);
  bool pages(const Plan& plan, const Look& look, Session& session, State& state,
             Progress* progress);
  void show_pages(std::vector<canvas::Page> pages, std::size_t looked_at, SizeState& size,
                  Progress* progress);
  bool style(const Pattern& pattern, Session& session);
  void figures(const Plan& plan, const Look& look, State& state, Progress* progress);
  void facts(const Plan& plan, Session& session, State& state);
  const canvas::FontSet& fonts() const;  // of the template, or those given

  std::string folder_;
  const canvas::FontSet& fonts_;
  std::unique_ptr<Kept> kept_;
};

}  // namespace dogear::proof
