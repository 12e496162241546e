#pragma once

#include <boost/asio/connect.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/write.hpp>
#include <chrono>
#include <future>
#include <memory>
#include <string>
#include <thread>

#include "daemon/bench_view.hpp"
#include "daemon/page/server.hpp"
#include "daemon/queries.hpp"
#include "tests/daemon/hand_clock.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {

namespace http = boost::beast::http;
using Tcp = boost::asio::ip::tcp;

/// A page that is served on a loop of its own thread, over a desk whose disk takes everything.
class Served {
 public:
  explicit Served(const PageConfig& config = {Tcp::endpoint(boost::asio::ip::make_address("127.0.0.1"), 0), {}, ""})
      : desk_({loop_.get_executor(),
               [this](auto bodies, auto stored) { append(bodies, stored); },
               {},
               "",
               &clock_,
               {},
               {"tester", 0, "daemon"},
               [] { return std::uint64_t{1}; }}),
        methods_(desk_, "/nowhere") {
    page_ = PageServer::listen(loop_.get_executor(), methods_, config, {"tester", 1000, "daemon"}).value();
    desk_.listen([this](const Json& event, std::int64_t seq) { page_->tell(event, seq); }, [](const Entry&) {});
    page_->start();
    thread_ = std::thread([this] { loop_.run(); });
  }
  ~Served() {
    on_loop([this] { page_->stop(); });
    loop_.stop();
    thread_.join();
  }

  /// Runs there, and waits for it.
  template <class Do>
  auto on_loop(Do what) -> decltype(what()) {
    std::packaged_task<decltype(what())()> task(std::move(what));
    auto done = task.get_future();
    boost::asio::post(loop_, [&task] { task(); });
    return done.get();
  }
  void act(Decided (*what)(Draft&, const Json&), const Json& params) {
    std::promise<Result<Json>> answered;
    on_loop([&] {
      desk_.command({"tester", 1000, "socket"}, what, params, "test",
                    [&](Result<Json> answer) { answered.set_value(std::move(answer)); });
    });
    const auto answer = answered.get_future().get();
    if (!answer) throw std::runtime_error(answer.error().message);
  }
  std::int64_t seq() {
    return on_loop([this] { return desk_.bench().seq; });
  }
  std::string place() {
    return on_loop([this] { return bench_places(desk_.bench())[0].at("words").dump(); });
  }
  Tcp::endpoint endpoint() const { return endpoint_of(page_->address()); }
  std::string token() const { return page_->gate().token().text(); }
  PageServer& page() { return *page_; }

 private:
  static Tcp::endpoint endpoint_of(const std::string& address) {
    const std::size_t colon = address.rfind(':');
    return {boost::asio::ip::make_address("127.0.0.1"),
            static_cast<std::uint16_t>(std::stoi(address.substr(colon + 1)))};
  }
  void append(const std::vector<std::string>& bodies, const StoreThread::Stored& stored) {
    boost::asio::post(loop_, [bodies, stored] {
      std::vector<Digest> hashes;
      for (const std::string& body : bodies) hashes.push_back(sha256(body));
      stored(hashes);
    });
  }

  boost::asio::io_context loop_{1};
  HandClock clock_;
  Desk desk_;
  Methods methods_;
  std::unique_ptr<PageServer> page_;
  std::thread thread_;
};

/// A browser without manners: sends what it is told to.
class Browser {
 public:
  explicit Browser(const Served& served) : socket_(loop_) { socket_.connect(served.endpoint()); }

  void send(const std::string& bytes) {
    boost::system::error_code ignored;
    boost::asio::write(socket_, boost::asio::buffer(bytes), ignored);
  }
  /// The next answer; its status is 0 where the connection ended instead.
  http::response<http::string_body> receive(bool to_head = false) {
    http::response_parser<http::string_body> parser;
    parser.skip(to_head);
    boost::system::error_code error;
    http::read(socket_, buffer_, parser, error);
    if (!error) return parser.release();
    http::response<http::string_body> none;
    none.result(0U);
    return none;
  }
  http::response<http::string_body> ask(http::request<http::string_body> request) {
    if (request.count(http::field::host) == 0) request.set(http::field::host, "localhost");
    request.prepare_payload();
    boost::system::error_code ignored;
    http::write(socket_, request, ignored);
    return receive(request.method() == http::verb::head);
  }
  /// Bytes to the end of `word`, which comes next; all that came where the connection ended before.
  std::string read_until(const std::string& word) {
    boost::system::error_code error;
    std::size_t from = 0, found = text_.find(word);
    while (!error && found == std::string::npos) {
      from = text_.size() - std::min(text_.size(), word.size());
      std::array<char, 65536> bytes{};
      text_.append(bytes.data(), socket_.read_some(boost::asio::buffer(bytes), error));
      found = text_.find(word, from);
    }
    std::string read = text_.substr(0, found == std::string::npos ? found : found + word.size());
    text_.erase(0, read.size());
    return read;
  }
  Tcp::socket& socket() { return socket_; }

 private:
  boost::asio::io_context loop_;
  Tcp::socket socket_;
  boost::beast::flat_buffer buffer_;
  std::string text_;
};

inline http::request<http::string_body> get(const std::string& path) {
  return {http::verb::get, path, 11};
}

inline http::request<http::string_body> post(const std::string& path, const std::string& token,
                                             const std::string& body = "{}") {
  http::request<http::string_body> request(http::verb::post, path, 11, body);
  request.set(http::field::content_type, "application/json");
  if (!token.empty()) request.set(http::field::authorization, "Bearer " + token);
  return request;
}

}  // namespace tenth
