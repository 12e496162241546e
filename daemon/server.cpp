#include "daemon/server.hpp"

#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include <vector>

#include "daemon/accepting.hpp"
#include "daemon/login.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
namespace fs = std::filesystem;
using Protocol = asio::local::stream_protocol;

Refusal socket_refusal(const fs::path& path, const std::string& why) {
  return {Exit::refused, "socket", "the socket " + path.string() + " cannot be used: " + why,
          "give another with --socket PATH"};
}

/// True unless it is certain that nobody answers on the path.
bool answered(const asio::any_io_executor& loop, const fs::path& path) {
  Protocol::socket probe(loop);
  boost::system::error_code error;
  probe.connect(Protocol::endpoint(path.string()), error);
  return error != asio::error::connection_refused;
}

Result<void> clear_stale(const asio::any_io_executor& loop, const fs::path& path) {
  std::error_code error;
  const auto status = fs::symlink_status(path, error);
  if (!fs::exists(status)) return {};
  if (!fs::is_socket(status)) return tl::unexpected(socket_refusal(path, "a file that is no socket stands there"));
  if (answered(loop, path)) return tl::unexpected(socket_refusal(path, "another tenthd answers on it"));
  fs::remove(path, error);
  if (error) return tl::unexpected(socket_refusal(path, error.message()));
  return {};
}

Actor actor_of(Protocol::socket& socket) {
  ucred peer{};
  socklen_t size = sizeof peer;
  if (getsockopt(socket.native_handle(), SOL_SOCKET, SO_PEERCRED, &peer, &size) != 0) return {"unknown", -1, "socket"};
  return {login_of(peer.uid), peer.uid, "socket"};
}

}  // namespace

Result<std::unique_ptr<Server>> Server::listen(asio::any_io_executor loop, Methods& methods, fs::path path) {
  if (path.string().size() >= sizeof(sockaddr_un{}.sun_path))
    return tl::unexpected(socket_refusal(path, "its path is longer than the system allows"));
  std::error_code made;
  if (path.has_parent_path()) fs::create_directories(path.parent_path(), made);
  if (auto cleared = clear_stale(loop, path); !cleared) return tl::unexpected(cleared.error());
  Protocol::acceptor acceptor(loop);
  boost::system::error_code error;
  acceptor.open(Protocol(), error);
  const mode_t mask = ::umask(0177);
  if (!error) acceptor.bind(Protocol::endpoint(path.string()), error);
  ::umask(mask);
  if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (error) return tl::unexpected(socket_refusal(path, error.message()));
  return std::unique_ptr<Server>(new Server(std::move(acceptor), methods, std::move(path)));
}

Server::Server(Protocol::acceptor acceptor, Methods& methods, fs::path path)
    : acceptor_(std::move(acceptor)), methods_(methods), path_(std::move(path)) {}

Server::~Server() {
  stop();
}

void Server::start() {
  start_accepting<Protocol>(acceptor_, "the socket", [this](Protocol::socket socket) { admit(std::move(socket)); });
}

void Server::admit(Protocol::socket socket) {
  if (clients_.size() >= kMostClients) {
    boost::system::error_code ignored;
    const std::string line =
        error_line(nullptr, Refusal{Exit::refused, "clients", "64 clients are connected already", "close one"}) + "\n";
    socket.non_blocking(true, ignored);
    socket.write_some(asio::buffer(line), ignored);
    return;
  }
  Actor actor = actor_of(socket);
  auto client = std::make_shared<Client>(std::move(socket), methods_, std::move(actor),
                                         [this](Client& ended) { clients_.erase(ended.shared_from_this()); });
  clients_.insert(client);
  client->start();
}

void Server::tell(const Json& event, std::int64_t seq) {
  const std::vector<std::shared_ptr<Client>> clients(clients_.begin(), clients_.end());
  for (const auto& client : clients) client->tell(event, seq);
}

void Server::stop() {
  boost::system::error_code ignored;
  if (!acceptor_.is_open()) return;
  acceptor_.close(ignored);
  ::unlink(path_.c_str());
  for (const auto& client : std::exchange(clients_, {})) client->close();
}

}  // namespace tenth
