#include "process.h"

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>

extern char** environ;

namespace dogear {

namespace {

struct Pipe {
  int read = -1, write = -1;
  Pipe() {
    std::array<int, 2> ends{-1, -1};
    if (::pipe2(ends.data(), O_CLOEXEC) == 0) {
      read = ends[0];
      write = ends[1];
    }
  }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  ~Pipe() {
    close_end(read);
    close_end(write);
  }
  static void close_end(int& end) {
    if (end >= 0) ::close(end);
    end = -1;
  }
};

// Reads both until both are closed, so that neither fills up and holds the program.
void drain(Pipe& out, Pipe& err, Ran& ran) {
  std::array<char, 1 << 16> chunk{};
  while (out.read >= 0 || err.read >= 0) {
    std::array<pollfd, 2> wait{{{out.read, POLLIN, 0}, {err.read, POLLIN, 0}}};
    if (::poll(wait.data(), wait.size(), -1) < 0) {
      if (errno == EINTR) continue;
      return;
    }
    for (std::size_t i = 0; i < wait.size(); ++i) {
      if (wait[i].fd < 0 || wait[i].revents == 0) continue;
      const ssize_t got = ::read(wait[i].fd, chunk.data(), chunk.size());
      if (got < 0 && errno == EINTR) continue;
      if (got <= 0) {
        Pipe::close_end(i == 0 ? out.read : err.read);
      } else {
        (i == 0 ? ran.out : ran.err).append(chunk.data(), static_cast<std::size_t>(got));
      }
    }
  }
}

}  // namespace

Ran run_program(const std::vector<std::string>& words) {
  Ran ran;
  Pipe out, err;
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  if (out.write < 0 || err.write < 0 || ::posix_spawn_file_actions_init(&actions) != 0) return ran;
  ::posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  ::posix_spawn_file_actions_adddup2(&actions, out.write, STDOUT_FILENO);
  ::posix_spawn_file_actions_adddup2(&actions, err.write, STDERR_FILENO);
  pid_t child = -1;
  ran.started =
      ::posix_spawnp(&child, arguments.front(), &actions, nullptr, arguments.data(), environ) == 0;
  ::posix_spawn_file_actions_destroy(&actions);
  Pipe::close_end(out.write);
  Pipe::close_end(err.write);
  if (!ran.started) return ran;
  drain(out, err, ran);
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (WIFEXITED(status)) ran.code = WEXITSTATUS(status);
  return ran;
}

}  // namespace dogear
