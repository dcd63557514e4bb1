#pragma once
// A pattern that is watched: what its files give, put on a board as soon as it is known.
//
// Entries of the board: "status", "errors", "messages", "sizes", and "pages/SIZE", "figures/SIZE",
// "facts/SIZE" of every size. What changed since the last build without errors is marked. A build
// with errors leaves pictures and quantities as they were and shows the errors.

#include <map>
#include <optional>
#include <string>

#include "proof/board.h"
#include "proof/builder.h"
#include "proof/seen.h"

namespace dogear::proof {

class Watch {
 public:
  Watch(std::string folder, const canvas::FontSet& fonts, Board& board);

  // Builds from these files and shows what comes of it; nothing where they are as they were.
  void turn(const Files& files, const Look& look);

 private:
  class Stage;
  void show_whole(State state);
  void show_broken(const Built& built);
  std::string pages_json(const SizeState& size, const SizeState* was);
  std::string figures_json(const SizeState& size, const SizeState* was);
  std::string facts_json(const SizeState& size, const SizeState* was,
                         const std::optional<Comparison>& comparison);

  const canvas::FontSet& fonts_;
  Board& board_;
  Builder builder_;
  std::optional<SeenFiles::Seen> seen_;         // of the last build
  std::optional<State> good_;                   // of the last build without errors
  std::map<std::string, std::string> entries_;  // what the board shows of it
};

// The page that shows a board: its script asks for `events` and `picture/NAME` beside it.
struct LivePage {
  std::string html;
  std::string policy;  // for the header Content-Security-Policy
};
LivePage live_page();

}  // namespace dogear::proof
