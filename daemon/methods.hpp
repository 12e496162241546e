#pragma once

#include <boost/asio/awaitable.hpp>
#include <filesystem>
#include <string>
#include <string_view>

#include "daemon/desk.hpp"
#include "schema/wire/rpc.hpp"

namespace tenth {

/// The methods of the wire (`schema/wire.md`): acts go through the desk, questions are answered from the state on disk.
class Methods {
 public:
  Methods(Desk& desk, std::filesystem::path ledger) : desk_(desk), ledger_(std::move(ledger)) {}

  boost::asio::awaitable<Result<Json>> call(Actor actor, std::string method, Json params);
  Desk& desk() { return desk_; }
  const std::filesystem::path& ledger() const { return ledger_; }

 private:
  Result<Json> entries(const Json& params) const;
  Desk& desk_;
  std::filesystem::path ledger_;
};

}  // namespace tenth
