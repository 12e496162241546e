#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "simulators/wire.hpp"

namespace tenth::simulators {

/// Where a TCP port listens: an IPv4 address in numbers; port 0 means any that is free.
struct Address {
  std::string host;
  std::uint16_t port = 0;
};

/// "127.0.0.1:4001".
Result<Address> parse_address(std::string_view text);

/// A gauge behind a device server. It listens; a second client is accepted and closed at once. What is sent while
/// nobody is connected is lost, and refused. When it is destroyed connection and listener close.
class TcpPort : public Wire {
 public:
  /// Listens. At `link`, where one is named, a link stands while it does, whose target is the address. Refused where
  /// the port is taken or something that is no dead link stands there.
  static Result<std::unique_ptr<TcpPort>> open(const Address& address, const std::filesystem::path& link);

  ~TcpPort() override;

  Result<std::size_t> offer(std::string_view bytes) override;

  /// An epoll of listener and client.
  int descriptor() const override { return waiting_; }

  std::string hear() override;
  const std::string& where() const override { return where_; }

  /// With the port that was chosen, to listen there again.
  const Address& address() const { return address_; }

 private:
  TcpPort(int listener, Address address);
  void welcome();
  void part();

  int listener_, waiting_;
  int client_ = -1;
  Address address_;
  std::string where_;
  std::filesystem::path link_;  ///< empty: none
};

}  // namespace tenth::simulators
