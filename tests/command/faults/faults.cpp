// Loaded before a program, makes one kind of its calls fail as a full disk, a forbidden folder or a
// power cut would.
//
//   DOGEAR_FAULT="CALL:WHAT:PART:SKIP"   CALL is open, read, write, fsync, rename or link; WHAT an
//                                        errno or `kill`; only files whose path holds PART, and of
//                                        these not the first SKIP calls

#include <dlfcn.h>
#include <fcntl.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdlib>
#include <string>

namespace {

struct Fault {
  std::string call, part;
  int number = 0;  // 0: the program is killed
  std::atomic<int> skip{0};
};

Fault& fault() {
  static Fault& made = *[] {
    auto* f = new Fault;
    const char* text = std::getenv("DOGEAR_FAULT");
    std::string rest = text == nullptr ? "" : text;
    const auto next = [&] {
      const auto colon = rest.find(':');
      const std::string word = rest.substr(0, colon);
      rest = colon == std::string::npos ? "" : rest.substr(colon + 1);
      return word;
    };
    f->call = next();
    f->number = std::atoi(next().c_str());
    f->part = next();
    f->skip = std::atoi(next().c_str());
    return f;
  }();
  return made;
}

// Whether this call fails; errno is set then.
bool fails(const char* call, const std::string& path) {
  Fault& f = fault();
  if (f.call != call || path.find(f.part) == std::string::npos || f.skip-- > 0) return false;
  if (f.number == 0) ::raise(SIGKILL);
  errno = f.number;
  return true;
}

std::string path_of(int fd) {
  char buffer[4096];
  const ssize_t n =
      ::readlink(("/proc/self/fd/" + std::to_string(fd)).c_str(), buffer, sizeof buffer);
  return n < 0 ? "" : std::string(buffer, static_cast<std::size_t>(n));
}

template <class F>
F* real(const char* name) {
  return reinterpret_cast<F*>(::dlsym(RTLD_NEXT, name));
}

}  // namespace

extern "C" {

int open(const char* path, int flags, ...) {
  mode_t mode = 0;
  if ((flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE) {
    va_list list;
    va_start(list, flags);
    mode = va_arg(list, mode_t);
    va_end(list);
  }
  if (fails("open", path)) return -1;
  static auto* const next = real<int(const char*, int, ...)>("open");
  return next(path, flags, mode);
}

ssize_t read(int fd, void* buffer, size_t size) {
  if (fails("read", path_of(fd))) return -1;
  static auto* const next = real<ssize_t(int, void*, size_t)>("read");
  return next(fd, buffer, size);
}

ssize_t write(int fd, const void* buffer, size_t size) {
  if (fails("write", path_of(fd))) return -1;
  static auto* const next = real<ssize_t(int, const void*, size_t)>("write");
  // In small pieces, so that a later one can fail.
  return next(fd, buffer, size < 4096 ? size : 4096);
}

int fsync(int fd) {
  if (fails("fsync", path_of(fd))) return -1;
  static auto* const next = real<int(int)>("fsync");
  return next(fd);
}

int rename(const char* from, const char* to) {
  if (fails("rename", to)) return -1;
  static auto* const next = real<int(const char*, const char*)>("rename");
  return next(from, to);
}

int linkat(int from, const char* old_path, int to, const char* new_path, int flags) {
  if (fails("link", new_path)) return -1;
  static auto* const next = real<int(int, const char*, int, const char*, int)>("linkat");
  return next(from, old_path, to, new_path, flags);
}
}
