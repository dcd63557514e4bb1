#pragma once
// Waits until something in a folder is saved, or the user ends the program.

#include <string>
#include <vector>

namespace dogear {

class FolderWatch {
 public:
  explicit FolderWatch(std::string folder);
  ~FolderWatch();
  FolderWatch(const FolderWatch&) = delete;
  FolderWatch& operator=(const FolderWatch&) = delete;

  // False once the program shall end (Ctrl-C, or a signal to end). True after something may have
  // been saved: a system that tells of no changes is asked once a second.
  bool wait();

 private:
  void watch_folders();
  bool drain();

  std::string folder_;
  int changes_ = -1, signals_ = -1;
};

}  // namespace dogear
