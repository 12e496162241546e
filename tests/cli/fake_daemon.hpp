#pragma once

#include <atomic>
#include <functional>
#include <map>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "schema/json/json.hpp"
#include "schema/wire/rpc.hpp"

namespace tenth::cli {

/// A daemon that answers as the test wrote down, over a real Unix socket, one client after the other.
class FakeDaemon {
 public:
  FakeDaemon();
  /// On the path of one that has ended.
  explicit FakeDaemon(const std::string& path);
  ~FakeDaemon();
  FakeDaemon(const FakeDaemon&) = delete;
  FakeDaemon& operator=(const FakeDaemon&) = delete;

  void answers(const std::string& method, const Json& result);
  void answers_by(const std::string& method, const std::function<Json(const Json& params)>& result);
  void refuses(const std::string& method, const Refusal& refusal);
  /// Sent as they are, whatever was asked; no bytes: the connection is cut.
  void sends(const std::string& method, const std::string& bytes);
  /// Sent after the answer to `watch`; then the connection is cut.
  void tells(const Json& event);
  /// The connection of a watch is not cut.
  void stays() { stays_ = true; }

  /// The parameters of the last call of this method; null where it was never called.
  Json asked(const std::string& method) const;
  std::vector<std::string> calls() const;
  const std::string& path() const { return path_; }

 private:
  void begin();
  void serve();
  void converse(int client);
  std::string reply_to(const Request& request) const;

  std::string folder_, path_;
  int listener_ = -1;
  std::atomic<bool> ends_ = false, stays_ = false;
  mutable std::mutex lock_;                                                     // guards all below
  std::map<std::string, std::function<std::string(const Request&)>> scripted_;  // by method
  std::vector<Json> events_;
  std::vector<Request> heard_;
  std::thread thread_;
};

}  // namespace tenth::cli
