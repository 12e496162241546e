#pragma once

#include <boost/asio/local/stream_protocol.hpp>
#include <filesystem>
#include <memory>
#include <set>

#include "daemon/client.hpp"

namespace tenth {

/// The Unix socket: at most 64 clients, peers known by their credentials.
class Server {
 public:
  static constexpr std::size_t kMostClients = 64;

  /// Takes the path, mode 0600. A socket that nobody answers on is stale and replaced; refused (4, `socket`) where
  /// another program answers, or the path cannot be made.
  static Result<std::unique_ptr<Server>> listen(boost::asio::any_io_executor loop, Methods& methods,
                                                std::filesystem::path path);
  ~Server();

  void start();
  void tell(const Json& event, std::int64_t seq);
  void stop();

 private:
  using Protocol = boost::asio::local::stream_protocol;
  Server(Protocol::acceptor acceptor, Methods& methods, std::filesystem::path path);
  void admit(Protocol::socket socket);

  Protocol::acceptor acceptor_;
  Methods& methods_;
  std::filesystem::path path_;
  std::set<std::shared_ptr<Client>> clients_;
};

}  // namespace tenth
