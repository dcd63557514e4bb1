#include "server.h"

#include <httplib.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <sys/random.h>

#include <algorithm>
#include <chrono>
#include <cstring>
#include <mutex>

#include "base/text.h"

namespace dogear {

namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t longest_request = 16 * 1024;  // bytes
constexpr auto request_time = std::chrono::seconds(5);
constexpr std::int64_t silence = 1000;  // ms in which a request must begin
constexpr int answer_wait = 5000;       // ms in which a reader must take something
constexpr std::size_t threads = 64;
constexpr int most_streams = 12;
constexpr int pulse = 1000;  // ms after which a silent stream says that it is there

std::string new_secret() {
  std::array<unsigned char, 24> bytes{};
  if (::getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) return {};
  std::string out;
  for (const unsigned char byte : bytes) {
    out += "0123456789abcdef"[byte >> 4];
    out += "0123456789abcdef"[byte & 15];
  }
  return out;
}

// Takes as long whatever is guessed.
bool same_secret(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    difference |= static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]);
  return difference == 0;
}

// A connection that gives one request, which is small and comes soon, and takes an answer.
class Connection : public httplib::Stream {
 public:
  explicit Connection(socket_t socket) : socket_(socket), end_(Clock::now() + request_time) {}

  bool is_readable() const override { return wait(POLLIN, 0); }
  bool is_writable() const override { return wait(POLLOUT, answer_wait); }
  ssize_t read(char* to, std::size_t size) override {
    const auto left =
        std::chrono::duration_cast<std::chrono::milliseconds>(end_ - Clock::now()).count();
    const std::int64_t most = read_ == 0 ? std::min<std::int64_t>(left, silence) : left;
    if (read_ >= longest_request || left <= 0 || !wait(POLLIN, static_cast<int>(most))) return -1;
    const ssize_t got = ::recv(socket_, to, std::min(size, longest_request - read_), 0);
    if (got > 0) read_ += static_cast<std::size_t>(got);
    return got;
  }
  ssize_t write(const char* from, std::size_t size) override {
    if (!wait(POLLOUT, answer_wait)) return -1;
    return ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);
  }
  void get_remote_ip_and_port(std::string& ip, int& port) const override { local(ip, port); }
  void get_local_ip_and_port(std::string& ip, int& port) const override { local(ip, port); }
  socket_t socket() const override { return socket_; }

 private:
  bool wait(short what, int milliseconds) const {
    pollfd one{socket_, static_cast<short>(what | POLLRDHUP), 0};
    if (::poll(&one, 1, milliseconds) <= 0) return false;
    // A browser that has left takes no answer; one that has only asked does.
    if (what == POLLOUT && (one.revents & (POLLRDHUP | POLLHUP | POLLERR)) != 0) return false;
    return (one.revents & (what | POLLRDHUP)) != 0;
  }
  static void local(std::string& ip, int& port) {
    ip = "127.0.0.1";
    port = 0;
  }

  socket_t socket_;
  Clock::time_point end_;
  std::size_t read_ = 0;
};

std::uint64_t number(const std::string& text) {
  std::uint64_t n = 0;
  for (const char c : text) {
    if (!is_digit(c) || n > (1ULL << 50)) return 0;
    n = n * 10 + static_cast<std::uint64_t>(c - '0');
  }
  return n;
}

constexpr const char* icon =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 16 16\"><path fill=\"#7a3b12\" "
    "d=\"M2 1h8l4 4v10H2z\"/><path fill=\"#f5f1e8\" d=\"M10 1l4 4h-4z\"/></svg>";

}  // namespace

class BoardServer::Server : public httplib::Server {
 public:
  explicit Server(proof::Board& board) : board_(board), secret_(new_secret()) {
    new_task_queue = [] { return new httplib::ThreadPool(threads); };
    set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    set_pre_routing_handler([this](const httplib::Request& asked, httplib::Response& answer) {
      respond(asked, answer);
      return HandlerResponse::Handled;
    });
  }

  bool bind(int port, std::string& error) {
    if (secret_.empty()) {
      error = "the system gives no random numbers";
      return false;
    }
    errno = 0;
    if (port == 0) {
      port_ = bind_to_any_port("127.0.0.1");
    } else {
      port_ = bind_to_port("127.0.0.1", port) ? port : -1;
    }
    if (port_ > 0) return true;
    const std::string why = errno == EADDRINUSE ? "another program listens there"
                            : errno == EACCES   ? "only the system's administrator may listen there"
                            : errno != 0        ? std::strerror(errno)
                                                : "it is taken";
    error = "port " + std::to_string(port) + " of 127.0.0.1 cannot be used: " + why;
    return false;
  }

  std::string address() const {
    return "http://127.0.0.1:" + std::to_string(port_) + '/' + secret_ + '/';
  }
  proof::Look look() const {
    const std::lock_guard lock(mutex_);
    return look_;
  }

 private:
  bool process_and_close_socket(socket_t socket) override {
    const int yes = 1;
    ::setsockopt(socket, IPPROTO_TCP, TCP_NODELAY, &yes, sizeof yes);
    Connection connection(socket);
    bool closed = false;
    const bool done = process_request(connection, true, closed, [](httplib::Request& asked) {
      // Nothing is gained by packing what stays within the machine, or by giving it in parts.
      asked.headers.erase("Accept-Encoding");
      asked.ranges.clear();
    });
    ::shutdown(socket, SHUT_RDWR);
    ::close(socket);
    return done;
  }

  // Whether the request is one of our own page, or typed by the user.
  bool is_ours(const httplib::Request& asked) const {
    const std::string port = ':' + std::to_string(port_);
    const std::string host = asked.get_header_value("Host");
    if (asked.get_header_value_count("Host") != 1) return false;
    if (host != "127.0.0.1" + port && host != "localhost" + port) return false;
    if (asked.has_header("Origin") && asked.get_header_value("Origin") != "http://" + host)
      return false;
    const std::string site = asked.get_header_value("Sec-Fetch-Site");
    return site.empty() || site == "same-origin" || site == "none";
  }

  void refuse(httplib::Response& answer, int status, const std::string& words) const {
    answer.status = status;
    answer.set_content(words + '\n', "text/plain; charset=utf-8");
  }

  void respond(const httplib::Request& asked, httplib::Response& answer) {
    answer.set_header("X-Content-Type-Options", "nosniff");
    answer.set_header("Referrer-Policy", "no-referrer");
    answer.set_header("Cross-Origin-Resource-Policy", "same-origin");
    answer.set_header("Cross-Origin-Opener-Policy", "same-origin");
    answer.set_header("Cache-Control", "no-store");
    answer.set_header("X-Frame-Options", "DENY");
    if (!is_ours(asked)) return refuse(answer, 403, "This is not for other places.");
    const std::string head = '/' + secret_ + '/';
    if (!same_secret(asked.path.substr(0, head.size()), head))
      return refuse(answer, 403, "The address is the one that `dogear watch` has printed.");
    if (asked.method != "GET") return refuse(answer, 405, "This is only read.");
    const std::string what = asked.path.substr(head.size());
    constexpr std::string_view picture = "picture/";
    if (what.empty()) {
      answer.set_header("Content-Security-Policy", page_.policy);
      answer.set_content(page_.html, "text/html; charset=utf-8");
    } else if (what == "icon") {
      give_svg(answer, icon);
    } else if (what == "events") {
      give_events(asked, answer);
    } else if (what == "look") {
      const std::lock_guard lock(mutex_);
      look_ = {asked.get_param_value("size"), number(asked.get_param_value("page"))};
      answer.status = 204;
    } else if (starts_with(what, picture)) {
      const auto text = board_.picture(what.substr(picture.size()));
      if (!text) return refuse(answer, 404, "There is no such picture any more.");
      // Its name is never given to other content.
      answer.headers.erase("Cache-Control");
      answer.set_header("Cache-Control", "private, max-age=86400, immutable");
      give_svg(answer, *text);
    } else {
      refuse(answer, 404, "There is nothing of this name.");
    }
  }

  static void give_svg(httplib::Response& answer, const std::string& text) {
    answer.set_header("Content-Security-Policy", "default-src 'none'; img-src data:; sandbox");
    answer.set_content(text, "image/svg+xml");
  }

  void give_events(const httplib::Request& asked, httplib::Response& answer) {
    if (++streams_ > most_streams) {
      --streams_;
      return refuse(answer, 503, "Too many pages are open.");
    }
    const std::string last = asked.get_header_value("Last-Event-ID");
    auto seen = std::make_shared<std::uint64_t>(
        number(last.empty() ? asked.get_param_value("seen") : last));
    answer.set_chunked_content_provider(
        "text/event-stream",
        [this, seen](std::size_t, httplib::DataSink& sink) {
          const auto news = board_.read(*seen, pulse);
          if (news && news->closed) {
            sink.done();
            return true;
          }
          std::string text = ":\n\n";
          if (news) {
            *seen = news->seen;
            text = "id: " + std::to_string(news->seen) + "\ndata: " + news->json + "\n\n";
          }
          return sink.write(text.data(), text.size());
        },
        [this](bool) { --streams_; });
  }

  proof::Board& board_;
  const std::string secret_;
  const proof::LivePage page_ = proof::live_page();
  int port_ = 0;
  std::atomic<int> streams_{0};
  mutable std::mutex mutex_;
  proof::Look look_;
};

BoardServer::BoardServer(proof::Board& board) : server_(std::make_unique<Server>(board)) {}
BoardServer::~BoardServer() { stop(); }

bool BoardServer::start(int port, std::string& error) {
  if (!server_->bind(port, error)) return false;
  thread_ = std::thread([this] {
    server_->listen_after_bind();
    ended_ = true;
  });
  return true;
}

void BoardServer::stop() {
  if (!thread_.joinable()) return;
  while (!server_->is_running() && !ended_) std::this_thread::yield();
  server_->stop();
  thread_.join();
}

std::string BoardServer::address() const { return server_->address(); }
proof::Look BoardServer::look() const { return server_->look(); }

}  // namespace dogear
