#include "folder_watch.h"

#include <poll.h>
#include <signal.h>
#include <sys/inotify.h>
#include <sys/signalfd.h>
#include <unistd.h>

#include <array>
#include <filesystem>

namespace dogear {

namespace {

namespace fs = std::filesystem;

constexpr int quiet = 4;      // ms without a change after which files are read
constexpr int second = 1000;  // ms
constexpr int rounds = 12;    // of changes waited for, at most
constexpr int deepest = 4;    // folders within folders
constexpr std::size_t most = 400;

}  // namespace

FolderWatch::FolderWatch(std::string folder) : folder_(std::move(folder)) {
  sigset_t ends;
  sigemptyset(&ends);
  sigaddset(&ends, SIGINT);
  sigaddset(&ends, SIGTERM);
  sigaddset(&ends, SIGHUP);
  // Threads that are made later inherit the mask, so that only wait() sees these.
  ::pthread_sigmask(SIG_BLOCK, &ends, nullptr);
  signals_ = ::signalfd(-1, &ends, SFD_CLOEXEC | SFD_NONBLOCK);
  changes_ = ::inotify_init1(IN_CLOEXEC | IN_NONBLOCK);
  watch_folders();
}

FolderWatch::~FolderWatch() {
  if (signals_ >= 0) ::close(signals_);
  if (changes_ >= 0) ::close(changes_);
}

// To watch a folder again changes nothing.
void FolderWatch::watch_folders() {
  if (changes_ < 0) return;
  constexpr std::uint32_t saved = IN_CLOSE_WRITE | IN_MOVED_TO | IN_MOVED_FROM | IN_CREATE |
                                  IN_DELETE | IN_DELETE_SELF | IN_MOVE_SELF;
  ::inotify_add_watch(changes_, folder_.c_str(), saved);
  std::error_code error;
  std::size_t count = 0;
  fs::recursive_directory_iterator at(folder_, fs::directory_options::skip_permission_denied,
                                      error);
  for (; !error && at != fs::recursive_directory_iterator(); at.increment(error)) {
    std::error_code ignored;
    if (!at->is_directory(ignored)) continue;
    const bool hidden = at->path().filename().string().starts_with('.');
    if (hidden || at.depth() >= deepest) at.disable_recursion_pending();
    if (hidden || ++count > most) continue;
    ::inotify_add_watch(changes_, at->path().c_str(), saved);
  }
}

bool FolderWatch::drain() {
  alignas(inotify_event) std::array<char, 8192> chunk{};
  bool any = false;
  while (changes_ >= 0 && ::read(changes_, chunk.data(), chunk.size()) > 0) any = true;
  return any;
}

bool FolderWatch::wait() {
  std::array<pollfd, 2> both{{{signals_, POLLIN, 0}, {changes_, POLLIN, 0}}};
  const int ready = ::poll(both.data(), both.size(), second);
  if (both[0].revents != 0) return false;
  if (ready <= 0 || !drain()) return true;
  // A save is often several changes: they are read together.
  for (int i = 0; i < rounds; ++i) {
    pollfd one{changes_, POLLIN, 0};
    if (::poll(&one, 1, quiet) <= 0) break;
    drain();
  }
  watch_folders();
  return true;
}

}  // namespace dogear
