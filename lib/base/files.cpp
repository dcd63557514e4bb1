#include "base/files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace dogear {

namespace {

namespace fs = std::filesystem;

std::string plain_reason(int number) {
  switch (number) {
    case ENOENT:
      return "there is no such file or folder";
    case ENOTDIR:
      return "a part of the path is not a folder";
    case EISDIR:
      return "it is a folder";
    case EACCES:
    case EPERM:
      return "permission was refused";
    case ENOSPC:
    case EDQUOT:
      return "the disk is full";
    case EROFS:
      return "the disk can only be read";
    case ENAMETOOLONG:
      return "the name is too long";
    case ELOOP:
      return "the links lead in a circle";
    case EMFILE:
    case ENFILE:
      return "too many files are open";
    case EFBIG:
      return "the file would be too large";
    default:
      return std::generic_category().message(number);
  }
}

class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  int get() const { return fd_; }
  int close() {
    const int fd = fd_;
    fd_ = -1;
    return ::close(fd);
  }

 private:
  int fd_;
};

bool write_all(int fd, std::string_view content) {
  while (!content.empty()) {
    const ssize_t written = ::write(fd, content.data(), content.size());
    if (written < 0) {
      if (errno == EINTR) continue;
      return false;
    }
    content.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

// The mode of the file to be replaced, or what the umask leaves for a new file.
mode_t wanted_mode(const std::string& path) {
  struct stat info {};
  if (::stat(path.c_str(), &info) == 0) return info.st_mode & 07777;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666 & ~mask;
}

std::string folder_prefix(const std::string& folder) {
  std::string prefix = folder;
  while (!prefix.empty() && prefix.back() == '/') prefix.pop_back();
  if (prefix == ".") return "";
  if (!prefix.empty() || !folder.empty()) prefix += '/';
  return prefix;
}

}  // namespace

std::optional<std::string> MemoryFiles::read(const std::string& path, std::string& error) const {
  const auto found = content.find(path);
  if (found == content.end()) {
    error = plain_reason(ENOENT);
    return std::nullopt;
  }
  return found->second;
}

bool MemoryFiles::write(const std::string& path, std::string_view text, std::string& error) {
  if (!fail_writes_to.empty() && path == fail_writes_to) {
    error = plain_reason(ENOSPC);
    return false;
  }
  content[path] = std::string(text);
  return true;
}

std::vector<std::string> MemoryFiles::list(const std::string& folder) const {
  const std::string prefix = folder_prefix(folder);
  std::vector<std::string> names;
  for (const auto& [path, text] : content) {
    if (path.size() <= prefix.size() || path.compare(0, prefix.size(), prefix) != 0) continue;
    std::string name = path.substr(prefix.size());
    if (name.find('/') == std::string::npos) names.push_back(std::move(name));
  }
  return names;  // sorted as the map is
}

std::optional<std::string> DiskFiles::read(const std::string& path, std::string& error) const {
  // Not blocking, so that a pipe is refused below and not waited for.
  Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  struct stat info {};
  if (file.get() < 0 || ::fstat(file.get(), &info) != 0) {
    error = plain_reason(errno);
    return std::nullopt;
  }
  if (!S_ISREG(info.st_mode)) {
    error = S_ISDIR(info.st_mode) ? plain_reason(EISDIR) : "it is not a plain file";
    return std::nullopt;
  }
  std::string text;
  std::string chunk(1 << 16, '\0');
  for (;;) {
    const ssize_t got = ::read(file.get(), chunk.data(), chunk.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      error = plain_reason(errno);
      return std::nullopt;
    }
    if (got == 0) return text;
    text.append(chunk, 0, static_cast<std::size_t>(got));
  }
}

bool DiskFiles::write(const std::string& path, std::string_view text, std::string& error) {
  const auto fail = [&](int number) {
    error = plain_reason(number);
    return false;
  };
  // A link keeps being a link: its target is replaced.
  std::string target = path;
  std::error_code code;
  if (fs::is_symlink(fs::symlink_status(path, code))) {
    const fs::path real = fs::weakly_canonical(path, code);
    if (code) return fail(code.value());
    target = real.string();
  }
  const fs::file_status status = fs::status(target, code);
  if (fs::is_directory(status)) return fail(EISDIR);
  if (fs::exists(status) && !fs::is_regular_file(status)) {
    error = "it is not a plain file";
    return false;
  }
  if (fs::exists(status) && ::access(target.c_str(), W_OK) != 0) return fail(errno);

  const std::string folder = fs::path(target).parent_path().string();
  std::string temporary = (folder.empty() ? std::string(".") : folder) + "/.dogear-XXXXXX";
  const mode_t mode = wanted_mode(target);
  Descriptor file(::mkostemp(temporary.data(), O_CLOEXEC));
  if (file.get() < 0) return fail(errno);
  const bool written = write_all(file.get(), text) && ::fchmod(file.get(), mode) == 0 &&
                       ::fsync(file.get()) == 0 && file.close() == 0 &&
                       ::rename(temporary.c_str(), target.c_str()) == 0;
  if (!written) {
    const int number = errno;
    ::unlink(temporary.c_str());
    return fail(number);
  }
  // The new name too should survive a power cut; some file systems cannot promise that.
  const Descriptor parent(
      ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (parent.get() >= 0) ::fsync(parent.get());
  return true;
}

std::vector<std::string> DiskFiles::list(const std::string& folder) const {
  std::vector<std::string> names;
  std::error_code code;
  fs::directory_iterator entry(folder.empty() ? "." : folder, code);
  for (; !code && entry != fs::directory_iterator(); entry.increment(code)) {
    std::error_code ignored;
    if (entry->is_regular_file(ignored)) names.push_back(entry->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace dogear
