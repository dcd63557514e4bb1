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

constexpr off_t most_bytes = off_t{128} << 20;

class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  int get() const { return fd_; }
  void set(int fd) { fd_ = fd; }
  int close() {
    const int fd = fd_;
    fd_ = -1;
    return ::close(fd);
  }

 private:
  int fd_;
};

// A file that has no name until it is whole. Where the file system has no such files, one whose
// name begins with a dot.
class NewFile {
 public:
  explicit NewFile(const std::string& folder)
      : name_(folder + "/.dogear-XXXXXX"),
        file_(::open(folder.c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, 0600)) {
    if (file_.get() >= 0 || (errno != EOPNOTSUPP && errno != EISDIR && errno != EINVAL)) return;
    file_.set(::mkostemp(name_.data(), O_CLOEXEC));
    named_ = file_.get() >= 0;
  }
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  ~NewFile() {
    if (!named_) return;
    const int number = errno;
    ::unlink(name_.c_str());
    errno = number;
  }

  bool ok() const { return file_.get() >= 0; }
  int fd() const { return file_.get(); }

  // Takes the place of what is there. False, with errno set, where it cannot.
  bool becomes(const std::string& target) {
    if (!named_ && !take_name()) return false;
    if (file_.close() != 0 || ::rename(name_.c_str(), target.c_str()) != 0) return false;
    named_ = false;
    return true;
  }

 private:
  bool take_name() {
    const std::string self = "/proc/self/fd/" + std::to_string(file_.get());
    const std::string pattern = name_;
    for (int tries = 0; tries < 100; ++tries) {
      name_ = pattern;
      const int fresh = ::mkostemp(name_.data(), O_CLOEXEC);  // a name that nobody has
      if (fresh < 0) return false;
      ::close(fresh);
      ::unlink(name_.c_str());
      if (::linkat(AT_FDCWD, self.c_str(), AT_FDCWD, name_.c_str(), AT_SYMLINK_FOLLOW) == 0)
        return named_ = true;
      if (errno != EEXIST) return false;
    }
    return false;
  }

  std::string name_;
  Descriptor file_;
  bool named_ = false;
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

bool lies_within(const Files& files, const std::string& folder, const std::string& path) {
  std::string root = files.leads_to(folder.empty() ? "." : folder);
  if (root.empty() || root.back() != '/') root += '/';
  return files.leads_to(path).compare(0, root.size(), root) == 0;
}

FencedFiles::FencedFiles(const Files& files, std::string folder)
    : files_(files), folder_(std::move(folder)) {}

std::optional<std::string> FencedFiles::read(const std::string& path, std::string& error) const {
  const std::string prefix = folder_prefix(folder_);
  const bool inside = prefix.empty() ? path.rfind('/', 0) != 0 && path.rfind("../", 0) != 0
                                     : path.rfind(prefix, 0) == 0;
  if (!inside || lies_within(files_, folder_, path)) return files_.read(path, error);
  error = "it is a link that leads out of the folder";
  return std::nullopt;
}

bool FencedFiles::write(const std::string&, std::string_view, std::string& error) {
  error = "nothing may be written here";
  return false;
}

std::vector<std::string> FencedFiles::list(const std::string& folder) const {
  return files_.list(folder);
}

std::string FencedFiles::leads_to(const std::string& path) const { return files_.leads_to(path); }

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
  if (info.st_size > most_bytes) {
    error = "it is larger than 128 MiB";
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

  const fs::path parent_path = fs::path(target).parent_path();
  const std::string folder = parent_path.empty() ? "." : parent_path.string();
  const mode_t mode = wanted_mode(target);
  NewFile file(folder);
  if (!file.ok()) return fail(errno);
  const bool written = write_all(file.fd(), text) && ::fchmod(file.fd(), mode) == 0 &&
                       ::fsync(file.fd()) == 0 && file.becomes(target);
  if (!written) return fail(errno);
  // The new name too should survive a power cut; some file systems cannot promise that.
  const Descriptor parent(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (parent.get() >= 0) ::fsync(parent.get());
  return true;
}

std::string DiskFiles::leads_to(const std::string& path) const {
  std::error_code code;
  const fs::path real = fs::weakly_canonical(fs::absolute(path, code), code);
  return code ? path : real.string();
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
