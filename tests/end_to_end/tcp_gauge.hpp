// A device server: a gauge behind a TCP port of this machine.
#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace acceptance {

class TcpGauge {
 public:
  // Listens; 0 is any free port.
  explicit TcpGauge(int port = 0);
  ~TcpGauge();
  TcpGauge(const TcpGauge&) = delete;
  TcpGauge& operator=(const TcpGauge&) = delete;

  int port() const { return port_; }
  std::string name() const { return "tcp:127.0.0.1:" + std::to_string(port_); }
  // The next connection, waited for; the one before is let go of.
  int accepted(std::chrono::milliseconds wait = std::chrono::seconds(5));
  void send(std::string_view bytes) const;
  // Ends the connection; what was sent still arrives.
  void hang_up();

 private:
  int port_ = 0, listening_ = -1, connection_ = -1;
};

}  // namespace acceptance
