// The pattern in a browser, kept fresh: `dogear watch`.

#include <filesystem>
#include <iostream>

#include "folder_watch.h"
#include "invocation.h"
#include "proof/watch.h"
#include "server.h"

namespace dogear {

int run_watch(const Arguments& arguments) {
  Invocation run(arguments);
  std::error_code ignored;
  if (!std::filesystem::is_directory(arguments.folder, ignored)) {
    std::cerr << "dogear: there is no folder " << arguments.folder << '\n';
    return no_access;
  }
  const auto fonts = run.fonts();
  if (!fonts) return run.end();
  // Before any thread is made: signals are for this one.
  FolderWatch folder(arguments.folder);
  proof::Board board;
  BoardServer server(board);
  std::string error;
  if (!server.start(arguments.port, error)) {
    std::cerr << "dogear: " << error << '\n'
              << "  hint: leave `--port` out, and a free one is found\n";
    return no_access;
  }
  proof::Watch watch(arguments.folder, *fonts, board);
  const DiskFiles disk;
  bool goes_on = run.print(server.address() + '\n');
  std::cerr << "Open this address in a browser of this machine; Ctrl-C ends it.\n";
  const bool printed = goes_on;
  while (goes_on) {
    watch.turn(disk, server.look());
    goes_on = folder.wait();
  }
  board.close();
  server.stop();
  return printed ? fine : no_access;
}

}  // namespace dogear
