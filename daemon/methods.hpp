#pragma once

#include <boost/asio/awaitable.hpp>
#include <filesystem>
#include <string>
#include <string_view>

#include "daemon/desk.hpp"
#include "daemon/hung_up.hpp"
#include "schema/wire/rpc.hpp"

namespace tenth {

/// The methods of the wire (`schema/wire.md`): acts go through the desk, questions are answered from the state on disk.
class Methods {
 public:
  Methods(Desk& desk, std::filesystem::path ledger) : desk_(desk), ledger_(std::move(ledger)) {}

  boost::asio::awaitable<Result<Json>> call(Actor actor, std::string method, Json params, HungUp hung_up);
  Desk& desk() { return desk_; }
  const std::filesystem::path& ledger() const { return ledger_; }
  /// The address of the bench page, with its token: only who may use the socket is told it.
  void page_at(std::string url) { page_url_ = std::move(url); }

 private:
  Result<Json> page() const;
  Result<Json> entries(const Json& params) const;
  Desk& desk_;
  std::filesystem::path ledger_;
  std::string page_url_;  ///< empty: there is no page
};

}  // namespace tenth
