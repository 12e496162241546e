#include "tests/cli/fake_daemon.hpp"

#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <stdexcept>

namespace tenth::cli {
namespace {

void send_all(int client, const std::string& bytes) {
  for (std::size_t sent = 0; sent < bytes.size();) {
    const auto count = send(client, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
    if (count <= 0) return;
    sent += static_cast<std::size_t>(count);
  }
}

}  // namespace

FakeDaemon::FakeDaemon() {
  std::string form = "/tmp/tenth-cli-XXXXXX";
  if (mkdtemp(form.data()) == nullptr) throw std::runtime_error("no folder for the socket");
  folder_ = form;
  path_ = folder_ + "/tenthd.sock";
  begin();
}

FakeDaemon::FakeDaemon(const std::string& path) : folder_(std::filesystem::path(path).parent_path()), path_(path) {
  std::filesystem::create_directory(folder_);
  begin();
}

void FakeDaemon::begin() {
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  std::memcpy(address.sun_path, path_.data(), path_.size());
  listener_ = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (bind(listener_, reinterpret_cast<const sockaddr*>(&address), sizeof(address)) != 0 || listen(listener_, 4) != 0)
    throw std::runtime_error("no socket at " + path_);
  answers("hello", {{"version", kWireVersion}, {"server", "a fake"}, {"ledger", "0"}});
  thread_ = std::thread([this] { serve(); });
}

FakeDaemon::~FakeDaemon() {
  ends_ = true;
  thread_.join();
  close(listener_);
  std::filesystem::remove_all(folder_);
}

void FakeDaemon::answers(const std::string& method, const Json& result) {
  answers_by(method, [result](const Json&) { return result; });
}

void FakeDaemon::answers_by(const std::string& method, const std::function<Json(const Json& params)>& result) {
  const std::lock_guard guard(lock_);
  scripted_[method] = [result](const Request& request) {
    return result_line(request.id, result(request.params)) + "\n";
  };
}

void FakeDaemon::refuses(const std::string& method, const Refusal& refusal) {
  const std::lock_guard guard(lock_);
  scripted_[method] = [refusal](const Request& request) { return error_line(request.id, refusal) + "\n"; };
}

void FakeDaemon::sends(const std::string& method, const std::string& bytes) {
  const std::lock_guard guard(lock_);
  scripted_[method] = [bytes](const Request&) { return bytes; };
}

void FakeDaemon::tells(const Json& event) {
  const std::lock_guard guard(lock_);
  events_.push_back(event);
}

Json FakeDaemon::asked(const std::string& method) const {
  const std::lock_guard guard(lock_);
  Json last;
  for (const auto& request : heard_)
    if (request.method == method) last = request.params;
  return last;
}

std::vector<std::string> FakeDaemon::calls() const {
  const std::lock_guard guard(lock_);
  std::vector<std::string> methods;
  for (const auto& request : heard_) methods.push_back(request.method);
  return methods;
}

void FakeDaemon::serve() {
  while (!ends_) {
    pollfd waits{listener_, POLLIN, 0};
    if (poll(&waits, 1, 20) != 1) continue;
    const int client = accept(listener_, nullptr, nullptr);
    converse(client);
    close(client);
  }
}

void FakeDaemon::converse(int client) {
  std::string waiting;
  std::array<char, 65536> block{};
  while (!ends_) {
    pollfd waits{client, POLLIN, 0};
    if (poll(&waits, 1, 20) != 1) continue;
    const auto count = recv(client, block.data(), block.size(), 0);
    if (count <= 0) return;
    waiting.append(block.data(), static_cast<std::size_t>(count));
    for (auto end = waiting.find('\n'); end != std::string::npos; end = waiting.find('\n')) {
      const auto request = parse_request(waiting.substr(0, end));
      waiting.erase(0, end + 1);
      const auto reply = request ? reply_to(*request) : error_line(request.error()) + "\n";
      {
        const std::lock_guard guard(lock_);
        if (request) heard_.push_back(*request);
      }
      send_all(client, reply);
      if (reply.empty() || (request && request->method == "watch" && !stays_)) return;
    }
  }
}

std::string FakeDaemon::reply_to(const Request& request) const {
  const std::lock_guard guard(lock_);
  const auto found = scripted_.find(request.method);
  if (found == scripted_.end())
    return error_line(request.id, {Exit::refused, "unscripted", "no answer to " + request.method, "script one"}) + "\n";
  std::string reply = found->second(request);
  if (request.method == "watch" && !reply.empty())
    for (const auto& event : events_) reply += event_line(event) + "\n";
  return reply;
}

}  // namespace tenth::cli
