#pragma once
// Serves a board to the browsers of this machine, and to nobody else.
//
// It listens on the loopback address alone. Every request must name a secret in its path, that is
// new on each run; must name this server as its host, so that no other name can be bent to it; and
// must not come from the page of another place. It opens no file: what it gives lies in memory.
// Each connection carries one small request that must come within seconds.

#include <atomic>
#include <functional>
#include <memory>
#include <string>
#include <thread>

#include "proof/board.h"
#include "proof/builder.h"
#include "proof/watch.h"

namespace dogear {

class BoardServer {
 public:
  explicit BoardServer(proof::Board& board);
  ~BoardServer();
  BoardServer(const BoardServer&) = delete;
  BoardServer& operator=(const BoardServer&) = delete;

  // Port 0: one that is free. False, with `error` saying why, where it cannot listen there.
  bool start(int port, std::string& error);
  void stop();
  std::string address() const;  // "http://127.0.0.1:40123/…/"
  proof::Look look() const;     // what was looked at last

 private:
  class Server;
  std::unique_ptr<Server> server_;
  std::atomic<bool> ended_{false};
  std::thread thread_;
};

}  // namespace dogear
